"""The first fill: what a builder should measure at each step, how long to wait, when to stop and drain."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics.structure.filling import SHARES, FillStep, fill_steps
from tidestead.studies.structure.beam_checks import BOW_SHARE
from tidestead.studies.structure.case_facts import CaseFacts, Subject, find_case
from tidestead.studies.structure.water import LoadCase
from tidestead.studies.structure.window_bow import bow_allowed


@dataclass(frozen=True)
class FillPoint:
    """One place to measure: its words, and the steps of the fill there."""

    where: str
    part: str
    steps: tuple[FillStep, ...]


def find_fill(subject: Subject, last: LoadCase) -> tuple[FillPoint, ...]:
    """Bow at the middle of every window, and of every rim where it moves most, at each quarter of the water."""
    found: list[CaseFacts] = []
    for share in SHARES:
        case = LoadCase(last.name, last.words, share * last.level, last.density, "days")
        try:
            found.append(find_case(subject, case))
        except (SolverError, ImpossibleInput):
            return ()
    return (*_windows(found, last.level), *_rims(subject.key, found, last.level))


def _windows(found: list[CaseFacts], depth: float) -> list[FillPoint]:
    points = []
    for number, window in enumerate(found[-1].windows):
        key, rise, allowed = window.at.key, 1.0 / min(window.creep), bow_allowed(window)
        peak = window.state.peak_bow
        across, up = _share(peak.x, window.width), _share(peak.y, window.height)
        bows = [facts.windows[number].state.max_bow for facts in found]
        where = f"{window.at.words}, {across} across and {up} up"
        points.append(FillPoint(where, key, _steps(bows, depth, rise, allowed)))
        if window.edges[3] == "free":
            bows = [facts.windows[number].state.free_edge_bow for facts in found]
            where = f"{window.at.words}, middle of its free upper edge"
            points.append(FillPoint(where, key, _steps(bows, depth, rise, allowed)))
    return points


def _rims(key: str, found: list[CaseFacts], depth: float) -> list[FillPoint]:
    """A rim by the frame where there is one, outward positive, from a string between its corners; else by hand."""
    points = []
    for name, rim in found[-1].rims.items():
        part, words = f"{key}.{name}.rim", f"{key}, {name} rim"
        frames = [facts.rims[name].frame for facts in found]
        solved = [frame for frame in frames if frame is not None]
        if len(solved) == len(found):
            place, _ = solved[-1].farthest
            bows = [frame.at(place) for frame in solved]
            here = f"{_share(place, rim.place.length)} from its left end"
            where = f"{words}, {here}, outward of a string between its corners"
            allowed = rim.place.length / BOW_SHARE
        else:
            bows = [facts.rims[name].hand_bow for facts in found]
            where = f"{words}, middle of the longest span between ties, by hand: ties taken as stiff"
            allowed = rim.longest / BOW_SHARE
        points.append(FillPoint(where, part, _steps(bows, depth, rim.piece.creep, allowed)))
    return points


def _steps(bows: list[float], depth: float, rise: float, allowed: float) -> tuple[FillStep, ...]:
    by_depth = {round(share * depth, 9): bow for share, bow in zip(SHARES, bows, strict=True)}
    return fill_steps(lambda level: by_depth[round(level, 9)], depth, rise, allowed)


def _share(at: float, whole: float) -> str:
    """A place along a length in words."""
    share = at / whole
    for limit, words in ((0.15, "at the start"), (0.42, "a third"), (0.58, "half way"), (0.85, "two thirds")):
        if share <= limit:
            return words
    return "at the far end"
