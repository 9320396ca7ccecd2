"""The first fill: what a builder should measure at each step, how long to wait, when to stop and drain."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics.structure.filling import SHARES, FillStep, fill_steps
from tidestead.studies.structure.case_facts import CaseFacts, Subject, find_case
from tidestead.studies.structure.water import Duration, LoadCase


@dataclass(frozen=True)
class FillPoint:
    """One place to measure: its words, and the steps of the fill there."""

    where: str
    part: str
    steps: tuple[FillStep, ...]


def find_fill(subject: Subject, last: LoadCase) -> tuple[FillPoint, ...]:
    """Bow at the middle of every window and rim, for a quarter, a half, three quarters and the whole of the water."""
    duration: Duration = "days"
    found: list[CaseFacts] = []
    for share in SHARES:
        case = LoadCase(last.name, last.words, share * last.level, last.density, duration)
        try:
            found.append(find_case(subject, case))
        except (SolverError, ImpossibleInput):
            return ()
    points = []
    for number, window in enumerate(found[-1].windows):
        bows = [facts.windows[number].state.max_bow for facts in found]
        peak = window.state.peak_bow
        where = (
            f"{window.at.words}, {_share(peak.x, window.width)} across and {_share(peak.y, window.height)} up"
        )
        points.append(FillPoint(where, window.at.key, _steps(bows, last.level, 1.0 / min(window.creep))))
        if window.edges[3] == "free":
            bows = [facts.windows[number].state.free_edge_bow for facts in found]
            where = f"{window.at.words}, middle of its free upper edge"
            points.append(FillPoint(where, window.at.key, _steps(bows, last.level, 1.0 / min(window.creep))))
    for name, rim in found[-1].rims.items():
        bows = [facts.rims[name].bow for facts in found]
        key = f"{subject.key}.{name}.rim"
        where = f"{subject.key}, {name} rim, middle of the longest span between ties"
        points.append(FillPoint(where, key, _steps(bows, last.level, rim.piece.creep)))
    return tuple(points)


def _steps(bows: list[float], depth: float, creep_rise: float) -> tuple[FillStep, ...]:
    by_depth = {round(share * depth, 9): bow for share, bow in zip(SHARES, bows, strict=True)}
    return fill_steps(lambda level: max(by_depth[round(level, 9)], 0.0), depth, creep_rise)


def _share(at: float, whole: float) -> str:
    """A place along a length in words."""
    share = at / whole
    for limit, words in ((0.15, "at the start"), (0.42, "a third"), (0.58, "half way"), (0.85, "two thirds")):
        if share <= limit:
            return words
    return "at the far end"
