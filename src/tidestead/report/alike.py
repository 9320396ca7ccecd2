"""Checks that say the same of several places, told once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tidestead.core.answer import Check
from tidestead.core.kept import kept
from tidestead.core.units import System
from tidestead.report import wording


@dataclass(frozen=True)
class Row:
    """A check, and the other places of which just the same can be read."""

    check: Check
    elsewhere: tuple[str, ...] = ()

    @property
    def count(self) -> int:
        """How many checks it tells."""
        return 1 + len(self.elsewhere)

    @property
    def same(self) -> str:
        """The other places in words; empty where there are none."""
        return f"the same: {', '.join(self.elsewhere)}" if self.elsewhere else ""


def rows_of(checks: Iterable[Check]) -> list[Row]:
    """Every check in a row of its own."""
    return [Row(check) for check in checks]


def collapsed(checks: Iterable[Check], system: System) -> list[Row]:
    """Checks in their order; one whose figures and words are those of an earlier one but for one place joins it."""
    rows: list[tuple[Check, list[str], int | None]] = []
    of_one_sort: dict[tuple[str, str, int], list[int]] = {}
    for check in checks:
        numbers = of_one_sort.setdefault((check.what, check.case, len(_parts(check))), [])
        for number in numbers:
            first, others, place = rows[number]
            differs = _differs(first, check)
            if (
                differs is None
                or place not in (None, differs)
                or _read(first, system) != _read(check, system)
            ):
                continue
            others.append(_parts(check)[differs])
            rows[number] = (first, others, differs)
            break
        else:
            numbers.append(len(rows))
            rows.append((check, [], None))
    return [Row(check, tuple(others)) for check, others, _ in rows]


def _parts(check: Check) -> list[str]:
    return check.where.split(", ")


def _differs(one: Check, other: Check) -> int | None:
    """The number of the one part in which two places differ; None where they differ in more, or in the vessel."""
    pairs = list(zip(_parts(one), _parts(other), strict=False))
    if len(_parts(one)) != len(_parts(other)) or one.what != other.what or one.case != other.case:
        return None
    found = [number for number, (here, there) in enumerate(pairs) if here != there]
    return found[0] if len(found) == 1 and found[0] > 0 else None


@kept(at_most=1024)
def _read(check: Check, system: System) -> tuple[str, ...]:
    """All that a row says of a check but its place."""
    basis = check.estimate.basis if check.estimate is not None else ""
    told = (wording.now, wording.adverse, wording.allowed)
    return (
        check.verdict.value,
        *(words(check, system) for words in told),
        wording.used(check),
        wording.margin(check),
        wording.reason(check),
        check.advice,
        basis,
        str(check.source),
    )
