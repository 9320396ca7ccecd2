"""How lengths and sheets of a cut plan are numbered, and how marks are shortened where room is scarce."""

from __future__ import annotations

from collections.abc import Iterable


def numbers(times: Iterable[int], first: int = 1) -> list[str]:
    """What each group of things cut alike is numbered: "1", "2 to 4"."""
    told, next_one = [], first
    for count in times:
        told.append(ranges(range(next_one, next_one + count)))
        next_one += count
    return told


def ranges(found: Iterable[int]) -> str:
    """Whole numbers as few words: "1 to 4, 7"."""
    runs: list[list[int]] = []
    for number in sorted(set(found)):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return ", ".join(str(run[0]) if len(run) == 1 else f"{run[0]} to {run[-1]}" for run in runs)


def short_marks(marks: Iterable[str]) -> dict[str, str]:
    """Each mark without the word that all of them begin with, the vessel's name; as it is where they differ in it."""
    every = list(dict.fromkeys(marks))
    first = {mark.partition(" ")[0] for mark in every}
    if len(first) == 1 and all(" " in mark for mark in every):
        return {mark: mark.partition(" ")[2] for mark in every}
    return {mark: mark for mark in every}
