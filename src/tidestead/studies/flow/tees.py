"""Junctions as tees: what their legs lose follows from how the flow parts in them, and is then kept."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.core.kept import kept
from tidestead.physics.flow.fittings import FittingLaw
from tidestead.physics.flow.laws import Law, Link
from tidestead.physics.flow.network import NetworkState
from tidestead.physics.flow.pipes import pipe_velocity, velocity_head
from tidestead.physics.flow.tee_network import TeePlace, solve_with_tees, tee_heads
from tidestead.physics.flow.tees import Tee
from tidestead.studies.flow.facts import Line, Run
from tidestead.studies.flow.lines import with_laws

TEE = "tee"
"""The kind of the two fittings that stand for one tee: its straight way and its branch."""

BRANCH = "tee-branch"

_LEGS = 3

_LEAST_FLOW = 1e-3
"""Share of the flow in a tee below which a leg keeps the resistance printed for it."""


@dataclass(frozen=True)
class _Leg:
    """One line at a junction, the link of it that ends there, and its tee fitting next to the junction, if any."""

    line: Line
    link: Link
    run: Run | None
    bore: float


def parted(
    lines: tuple[Line, ...], fixed: Mapping[str, float]
) -> tuple[tuple[Line, ...], tuple[str, ...], str]:
    """Lines whose tees lose what they do as the plan runs, the junctions so treated, and why not where it failed.

    A junction counts as a tee where three lines meet, one of them with a branch fitting beside it. Others keep the
    resistances printed for the fittings. In trials (a pump off, a way shut) the tees keep what is found here.
    """
    places = {node: found for node in _junctions(lines) if (found := _tee_at(lines, node)) is not None}
    if not places:
        return lines, (), ""
    loose = _with_laws(lines, {id(run.law): FittingLaw(0.0, run.bore) for run in _fittings(places)})
    links = [link for line in loose for link in line.links]
    touched = {node for link in links for node in (link.start, link.end)}
    levels = {key: level for key, level in fixed.items() if key in touched}
    tees = [place for place, _ in places.values()]
    try:
        state = _solved(tuple(links), levels, tuple(tees))
    except (SolverError, ImpossibleInput) as error:
        return lines, (), str(error)
    laws: dict[int, Law] = {}
    for place, legs in places.values():
        laws |= _found(place, legs, links, state)
    return _with_laws(lines, laws), tuple(places), ""


@kept(at_most=32, by=lambda links, levels, tees: (links, tuple(sorted(levels.items())), tees))
def _solved(links: tuple[Link, ...], levels: Mapping[str, float], tees: tuple[TeePlace, ...]) -> NetworkState:
    return solve_with_tees(links, levels, {}, tees)


def _junctions(lines: Sequence[Line]) -> tuple[str, ...]:
    names = [name for line in lines for name in (line.circuit.start, line.circuit.end)]
    return tuple(dict.fromkeys(name for name in names if "." not in name))


def _tee_at(lines: Sequence[Line], node: str) -> tuple[TeePlace, tuple[_Leg, ...]] | None:
    legs = [
        _leg(line, at_start) for line in lines for at_start in (True, False) if _meets(line, node, at_start)
    ]
    branches = [leg for leg in legs if leg.run is not None and leg.run.item.name == BRANCH]
    if len(legs) != _LEGS or len(branches) != 1 or any(leg.link.through is None for leg in legs):
        return None
    one, other = (leg for leg in legs if leg is not branches[0])
    run_bore = max(one.bore, other.bore)
    if min(one.bore, other.bore, branches[0].bore) <= 0.0:
        return None
    tee = Tee(run_bore, min(branches[0].bore, run_bore))
    place = TeePlace(node, one.link.name, other.link.name, branches[0].link.name, tee)
    return place, (one, other, branches[0])


def _meets(line: Line, node: str, at_start: bool) -> bool:
    return (line.circuit.start if at_start else line.circuit.end) == node


def _leg(line: Line, at_start: bool) -> _Leg:
    """The leg of a line at one of its ends."""
    fittings = [run for run in line.runs if run.item.count > 0 or run.item.kind != "fitting"]
    near = (fittings[0] if at_start else fittings[-1]) if fittings else None
    bore = next((run.bore for run in (line.runs if at_start else line.runs[::-1]) if run.bore > 0.0), 0.0)
    run = near if near is not None and near.kind == TEE else None
    return _Leg(line, line.links[0 if at_start else -1], run, bore)


def _fittings(places: Mapping[str, tuple[TeePlace, tuple[_Leg, ...]]]) -> list[Run]:
    return [leg.run for _, legs in places.values() for leg in legs if leg.run is not None]


def _found(
    place: TeePlace, legs: Sequence[_Leg], links: Sequence[Link], state: NetworkState
) -> dict[int, Law]:
    """The law of each tee fitting, by the law it takes the place of."""
    # a leg without a fitting has nothing to lose: the others are counted against it
    bare = [leg.link.name for leg in legs if leg.run is None]
    heads = tee_heads(place, links, state, bare[0] if len(bare) == 1 else "")
    most = max(abs(state.flows[leg.link.name]) for leg in legs)
    laws: dict[int, Law] = {}
    for leg in legs:
        flow = state.flows[leg.link.name]
        if leg.run is None or abs(flow) <= _LEAST_FLOW * most:
            continue
        dynamic = math.copysign(velocity_head(pipe_velocity(flow, leg.run.bore)), flow)
        laws[id(leg.run.law)] = FittingLaw(heads[leg.link.name] / dynamic, leg.run.bore)
    return laws


def _with_laws(lines: tuple[Line, ...], laws: Mapping[int, Law]) -> tuple[Line, ...]:
    return tuple(with_laws(line, laws) for line in lines)
