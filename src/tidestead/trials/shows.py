"""What is looked at at every point of a sweep: checks and figures by their ids, or a whole subject."""

from __future__ import annotations

import difflib
import fnmatch
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias

from tidestead.core.answer import Check, Estimate, Figure, MustBe, Verdict, worst
from tidestead.core.errors import Fault, PlanError
from tidestead.desk import SUBJECTS
from tidestead.desk.sought import Sought

Kind: TypeAlias = Literal["check", "figure", "subject"]

MOST_SHOWN = 200
_WILD = frozenset("*?[")
_MONEY = re.compile(r"[A-Z]{3}")
"""A currency, as ISO 4217 has them."""
_BUILT = tuple(entry.name for entry in SUBJECTS if entry.built)


@dataclass(frozen=True)
class Shown:
    """One thing looked at. `style`, `unit` and `must_be` are as in its check or figure; a subject has none."""

    id: str
    kind: Kind
    what: str
    unit: str = ""
    style: str = ""
    must_be: MustBe = "below"

    @property
    def subject(self) -> str:
        return self.id.split(".")[0]

    @property
    def by_value(self) -> bool:
        """Whether choices are held against each other by its value, not by its margin: a figure, or money."""
        return self.kind == "figure" or (self.kind == "check" and bool(_MONEY.fullmatch(self.unit)))


@dataclass(frozen=True)
class Cell:
    """What one thing came to at one point. `note` says why there is no value, or which check governs a subject.

    `limits` are those of the check: one, or the lowest and the highest.
    """

    value: float | None = None
    low: float | None = None
    high: float | None = None
    margin: float | None = None
    verdict: str = ""
    note: str = ""
    limits: tuple[float, ...] = ()

    def judged(self, must_be: MustBe) -> float | None:
        """The end of a check's range that its margin is counted from."""
        if must_be == "below" or self.low is None or self.high is None:
            return self.high
        if must_be == "above" or len(self.limits) < 2:
            return self.low
        middle = sum(self.limits) / 2.0
        return max(self.low, self.high, key=lambda end: abs(end - middle))


def subjects_of(names: Sequence[str]) -> tuple[str, ...]:
    """The subjects that names belong to, in the order of the questions. Raises a PlanError with the nearest."""
    found: dict[str, None] = {}
    for name in names:
        first = name.split(".")[0]
        if first not in _BUILT:
            near = difflib.get_close_matches(first, _BUILT, 1, 0.5)
            rest = name[len(first) :]
            advice = f"Did you mean {near[0]}{rest}?" if near else f"Begin with one of {', '.join(_BUILT)}."
            raise _refused(name, "begins with no subject that can be worked out.", advice)
        found[first] = None
    return tuple(name for name in _BUILT if name in found)


def plain_ids(names: Sequence[str]) -> dict[str, frozenset[str]] | None:
    """The ids by subject where each name is that of one check or figure; None where one stands for several."""
    if not names or any("." not in name or _WILD & set(name) for name in names):
        return None
    subjects = subjects_of(names)
    return {
        subject: frozenset(name for name in names if name.split(".")[0] == subject) for subject in subjects
    }


def resolved(names: Sequence[str], found: Iterable[Mapping[str, Sought]]) -> tuple[Shown, ...]:
    """What the names stand for among what was found of each subject, each once. Raises a PlanError.

    `found` is what several points of the sweep have: a check that only some of them have can be shown too.
    """
    known: dict[str, Shown] = {}
    for point in found:
        for subject, sought in point.items():
            known.setdefault(subject, Shown(subject, "subject", f"{subject}: least margin", "1", "share"))
            for check in sought.checks:
                known.setdefault(check.id, _of_check(check))
            for figure in sought.figures:
                known.setdefault(figure.id, _of_figure(figure))
    shown: dict[str, Shown] = {}
    for name in names:
        matching = [name] if name in known else []
        if not matching and _WILD & set(name):
            matching = [ident for ident in known if "." in ident and fnmatch.fnmatchcase(ident, name)]
        if not matching:
            raise _refused(name, "is no check and no figure of this plan.", _nearest(name, known))
        shown |= {ident: known[ident] for ident in matching}
    if len(shown) > MOST_SHOWN:
        raise _refused(
            ", ".join(names), f"means {len(shown)} checks and figures.", f"Show at most {MOST_SHOWN}."
        )
    return tuple(shown.values())


def cells_of(shown: Sequence[Shown], found: Mapping[str, Sought]) -> tuple[Cell, ...]:
    """What each thing came to."""
    checks = {check.id: check for sought in found.values() for check in sought.checks}
    figures = {figure.id: figure for sought in found.values() for figure in sought.figures}
    cells = []
    for one in shown:
        if one.kind == "subject":
            cells.append(_of_subject(found[one.id].checks))
        elif one.id in checks:
            cells.append(_cell(checks[one.id]))
        elif one.id in figures:
            figure = figures[one.id]
            cells.append(_with(figure.estimate, Cell()) if figure.complete else Cell(note="no total"))
        else:
            cells.append(Cell(note="not there at this point"))
    return tuple(cells)


def _refused(name: str, allowed: str, advice: str) -> PlanError:
    return PlanError((Fault(f"--show {name}", None, "", allowed, advice),))


def _nearest(name: str, known: Mapping[str, Shown]) -> str:
    near = difflib.get_close_matches(name, known, 1, 0.5)
    subject = name.split(".", maxsplit=1)[0]
    return f"Did you mean {near[0]}?" if near else f'"--show {subject}.*" shows every one there is.'


def _of_check(check: Check) -> Shown:
    return Shown(check.id, "check", f"{check.where}: {check.what}", check.unit, check.style, check.must_be)


def _of_figure(figure: Figure) -> Shown:
    return Shown(figure.id, "figure", figure.what, figure.unit, figure.style)


def _cell(check: Check) -> Cell:
    limits = check.limit if isinstance(check.limit, tuple) else (check.limit,)
    judged = Cell(
        margin=_plain(check.margin),
        verdict=check.verdict.value,
        note=check.missing,
        limits=tuple(float(limit) for limit in limits if limit is not None),
    )
    return judged if check.estimate is None or not check.complete else _with(check.estimate, judged)


def _with(value: Estimate, cell: Cell) -> Cell:
    return replace(cell, value=float(value.likely), low=float(value.low), high=float(value.high))


def _plain(value: float | None) -> float | None:
    return None if value is None else float(value)


def _of_subject(checks: Sequence[Check]) -> Cell:
    """The verdict, the least margin, and the check that has it: of the worst ones the one with most use."""
    verdict = worst([check.verdict for check in checks])
    known = [check for check in checks if check.margin is not None]
    least = _plain(min((check.margin for check in known if check.margin is not None), default=None))
    if verdict is Verdict.UNPROVEN:
        governs = next((check.id for check in checks if check.verdict is verdict), "no checks")
    else:
        governs = next(check.id for check in known if check.margin == least)
    return Cell(least, least, least, least, verdict.value, governs)
