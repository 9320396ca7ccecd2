"""A network with tees whose resistance follows from how the flow parts in them."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from tidestead.core.dims import CubicMetrePerSecond, Metre, Ratio, SecondPerSquareMetre
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics.flow.fittings import multiple_k
from tidestead.physics.flow.laws import HeadAt, Link, SeriesLaw
from tidestead.physics.flow.network import NetworkState, solve_network
from tidestead.physics.flow.pipes import pipe_velocity, velocity_head
from tidestead.physics.flow.tees import Tee, converging_k, diverging_k

Place: TypeAlias = tuple[str, str]
"""A leg and the node of its tee."""

_NEXT_TO_NOTHING: Ratio = 0.05
"""Share of the flow below which a leg counts as carrying a little of both ways. Our bridge."""

_ROUNDS = 200
_STEP: Ratio = 1e-4
"""Share of the flow by which a leg's is moved to find its slope."""

_STILL: Metre = 1e-8
"""Change of a tee's head at which the rounds end."""

_CAREFUL: Ratio = 0.7
"""Factor by which less of each change is taken over whenever changes have stopped shrinking."""

_TURNED_MULTIPLE: Ratio = 60.0
"""Resistance of a tee whose branch feeds or gathers both ends of its run, in turbulent friction factors.
Source: Crane TP-410 (2009), appendix A, standard tee, flow through branch."""


@dataclass(frozen=True)
class TeePlace:
    """A tee in a network: the links that are the two ends of its run, and its branch, all at one node."""

    node: str
    one_end: str
    other_end: str
    branch: str
    tee: Tee


@dataclass(frozen=True)
class LegLaw:
    """Head lost in one leg of a tee, as a straight line through what the last round found."""

    head: Metre
    slope: SecondPerSquareMetre
    flow: CubicMetrePerSecond

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """Head and slope."""
        return HeadAt(self.head + self.slope * (flow - self.flow), self.slope + 0.0 * flow)


def solve_with_tees(
    links: Sequence[Link],
    fixed: Mapping[str, Metre],
    injections: Mapping[str, CubicMetrePerSecond],
    tees: Sequence[TeePlace],
) -> NetworkState:
    """A network some of whose junctions are tees, with losses that follow from how the flow parts in them.

        rounds of: solve, find K of every leg from the flows, put K*v**2/(2*g) and its slope into the leg's link

    The head at a tee's node is that of the leg by which most water leaves. A tee whose branch feeds or gathers
    both ends of its run has 60 f_T in each. Where a leg carries next to nothing, what would hold for a little
    in and a little out are bridged.

    Raises SolverError naming the tee whose losses do not come to rest; else as `solve_network`.

    Source: Crane TP-410 (2009), chapter 2, by `converging_k` and `diverging_k`; the rounds are ours.
    Valid:  as those; tees closer than some ten bores disturb each other.
    """
    _refuse_strays(links, tees)
    ways = [_ways(place, links) for place in tees]
    laws = {(leg, place.node): LegLaw(0.0, 0.0, 0.0) for place in tees for leg in _legs(place)}
    state, before, share, worst = None, math.inf, 1.0, ""
    for _ in range(_ROUNDS):
        state = solve_network(_with_laws(links, laws), fixed, injections, state)
        wanted: dict[Place, LegLaw] = {}
        for place, way in zip(tees, ways, strict=True):
            wanted |= _leg_laws(place, way, state)
        gaps = {at: laws[at].at(state.flows[at[0]]).head - law.head for at, law in wanted.items()}
        change, worst = _largest_gap(tees, ways, gaps)
        if change <= _STILL:
            return state
        share = share * _CAREFUL if change >= 0.9 * before else min(1.0, share * 1.1)
        laws = {at: replace(law, head=law.head + (1.0 - share) * gaps[at]) for at, law in wanted.items()}
        before = change
    raise SolverError(
        f"{worst}: the losses in its tee do not come to rest, {change:.2g} m from round to round"
    )


def tee_heads(
    place: TeePlace, links: Sequence[Link], state: NetworkState, against: str = ""
) -> dict[str, Metre]:
    """Head lost in each leg of a tee, counted along its link, with nothing lost in one of them.

    That leg is `against`, else the one with all the flow.
    Source: as `solve_with_tees`, at the flows of `state`.
    Valid:  as there; only differences between legs mean anything.
    """
    ways = _ways(place, links)
    inflow = {leg: ways[leg] * state.flows[leg] for leg in _legs(place)}
    losses = _inward_losses(place, inflow)
    none = losses[against or max(inflow, key=lambda leg: abs(inflow[leg]))]
    return {leg: ways[leg] * (loss - none) for leg, loss in losses.items()}


def _legs(place: TeePlace) -> tuple[str, str, str]:
    return place.one_end, place.other_end, place.branch


def _ways(place: TeePlace, links: Sequence[Link]) -> dict[str, float]:
    """For each leg 1 where its link ends at the tee, -1 where it starts there."""
    return {link.name: 1.0 if link.end == place.node else -1.0 for link in links if link.name in _legs(place)}


def _refuse_strays(links: Sequence[Link], tees: Sequence[TeePlace]) -> None:
    by_name = {link.name: link for link in links}
    seen: set[Place] = set()
    for place in tees:
        for leg in _legs(place):
            link = by_name.get(leg)
            if link is None or place.node not in (link.start, link.end) or link.through is None:
                raise ImpossibleInput(f"the tee at {place.node} has no leg {leg}")
            if (leg, place.node) in seen:
                raise ImpossibleInput(f"{leg} is a leg of the tee at {place.node} twice")
            seen.add((leg, place.node))


def _with_laws(links: Sequence[Link], laws: Mapping[Place, LegLaw]) -> list[Link]:
    found = []
    for link in links:
        ends = [laws[link.name, node] for node in (link.start, link.end) if (link.name, node) in laws]
        row = SeriesLaw((link.through, *ends)) if link.through is not None and ends else link.through
        found.append(replace(link, through=row))
    return found


def _largest_gap(
    tees: Sequence[TeePlace], ways: Sequence[Mapping[str, float]], gaps: Mapping[Place, Metre]
) -> tuple[Metre, str]:
    """Largest change of a leg's head against the other legs of its tee, and the leg."""
    found = (0.0, "")
    for place, way in zip(tees, ways, strict=True):
        inward = {leg: way[leg] * gaps[leg, place.node] for leg in _legs(place)}
        mean = sum(inward.values()) / len(inward)
        found = max(found, *((abs(gap - mean), leg) for leg, gap in inward.items()))
    return found


def _leg_laws(place: TeePlace, ways: Mapping[str, float], state: NetworkState) -> dict[Place, LegLaw]:
    """Straight lines for the legs of a tee, counted along their links: head, and how it grows with own flow.

    A flow a little larger is thought to leave, or to come, by the leg that carries most.
    """
    inflow = {leg: ways[leg] * state.flows[leg] for leg in _legs(place)}
    most = max(inflow, key=lambda leg: abs(inflow[leg]))
    losses = _inward_losses(place, inflow)
    step = _STEP * abs(inflow[most])
    found = {}
    for leg, flow in inflow.items():
        slope = 0.0
        if leg != most and step > 0.0:
            moved = {**inflow, leg: flow + step, most: inflow[most] - step}
            slope = max((_inward_losses(place, moved)[leg] - losses[leg]) / step, 0.0)
        found[leg, place.node] = LegLaw(ways[leg] * losses[leg], slope, state.flows[leg])
    return found


def _inward_losses(place: TeePlace, inflow: Mapping[str, CubicMetrePerSecond]) -> dict[str, Metre]:
    """Head lost toward the node in each leg, none in that by which most leaves."""
    least = min(inflow, key=lambda leg: abs(inflow[leg]))
    most = max(abs(flow) for flow in inflow.values())
    if most == 0.0:
        return dict.fromkeys(inflow, 0.0)
    weight = min(max((inflow[least] / most + _NEXT_TO_NOTHING) / (2.0 * _NEXT_TO_NOTHING), 0.0), 1.0)
    leaving = min(inflow, key=lambda leg: inflow[leg])
    found = dict.fromkeys(inflow, 0.0)
    for way, part in ((1.0, weight), (-1.0, 1.0 - weight)):
        losses = _losses_one_way(place, inflow, least, way)
        for leg in inflow:
            found[leg] += part * (losses[leg] - losses[leaving])
    return found


def _losses_one_way(
    place: TeePlace, inflow: Mapping[str, CubicMetrePerSecond], least: str, way: float
) -> dict[str, Metre]:
    """Head lost toward the leg with all the flow, when the least one comes in (way 1) or leaves (-1).

    All the flow is then in the leg of the other two that goes the other way.
    """
    full = min((leg for leg in inflow if leg != least), key=lambda leg: way * inflow[leg])
    branch_share = max(way * inflow[place.branch], 0.0) / abs(inflow[full]) if inflow[full] else 0.0
    bore = place.tee.branch_bore if full == place.branch else place.tee.run_bore
    dynamic = velocity_head(pipe_velocity(inflow[full], bore))
    ks = _leg_ks(place, full, min(branch_share, 1.0), joins=way > 0.0)
    return {leg: way * ks.get(leg, 0.0) * dynamic for leg in inflow}


def _leg_ks(place: TeePlace, full: str, branch_share: Ratio, joins: bool) -> dict[str, Ratio]:
    if full == place.branch:
        turned = multiple_k(_TURNED_MULTIPLE, place.tee.branch_bore)
        return {place.one_end: turned, place.other_end: turned}
    loss = (converging_k if joins else diverging_k)(place.tee, branch_share)
    straight = place.other_end if full == place.one_end else place.one_end
    return {straight: loss.run, place.branch: loss.branch}
