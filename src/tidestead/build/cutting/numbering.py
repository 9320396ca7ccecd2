"""How lengths and sheets of a cut plan are numbered, and how marks are shortened where room is scarce."""

from __future__ import annotations

from collections.abc import Iterable


def numbers(times: Iterable[int], first: int = 1) -> list[str]:
    """What each group of things cut alike is numbered: "1", "2 to 4"."""
    told, next_one = [], first
    for count in times:
        last = next_one + count - 1
        told.append(str(next_one) if count == 1 else f"{next_one} to {last}")
        next_one = last + 1
    return told


def short_marks(marks: Iterable[str]) -> dict[str, str]:
    """Each mark without the word that all of them begin with, the vessel's name; as it is where they differ in it."""
    every = list(dict.fromkeys(marks))
    first = {mark.partition(" ")[0] for mark in every}
    if len(first) == 1 and all(" " in mark for mark in every):
        return {mark: mark.partition(" ")[2] for mark in every}
    return {mark: mark for mark in every}
