"""Tees and wyes, whose resistance depends on how the flow parts or joins; a network that has them.

Every K here counts heads of the velocity in the leg with all the flow.
"""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from tidestead.core.dims import CubicMetrePerSecond, Metre, Radian, Ratio
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics.flow import _refuse
from tidestead.physics.flow.fittings import multiple_k
from tidestead.physics.flow.laws import HeadAt, Link, SeriesLaw
from tidestead.physics.flow.network import NetworkState, solve_network
from tidestead.physics.flow.pipes import pipe_velocity, velocity_head

_TEE_FROM: Radian = math.radians(75.0)
"""Angle from which on a branch counts as square. Crane gives 30 to 60 and 90 degrees only; half way is ours."""

_BRIDGE: Ratio = 0.01
"""Share of flow on either side of a step in Crane's formulas over which we bridge it. A step has no answer on it."""

_NEXT_TO_NOTHING: Ratio = 0.05
"""Share of the flow below which a leg counts as carrying a little of both ways. Our bridge, as above."""

_ROUNDS = 300
_STILL: Metre = 1e-8
"""Change of a tee's head at which the rounds end."""

_CAREFUL: Ratio = 0.7
"""Factor by which less of each change is taken over whenever changes have stopped shrinking."""

_TURNED_MULTIPLE: Ratio = 60.0
"""Resistance of a tee whose branch feeds or gathers both ends of its run, in turbulent friction factors.
Source: Crane TP-410 (2009), appendix A, standard tee, flow through branch."""


@dataclass(frozen=True)
class Tee:
    """A junction by its bores and the angle between branch and run (a tee: a quarter turn)."""

    run_bore: Metre
    branch_bore: Metre
    angle_rad: Radian = math.pi / 2.0


@dataclass(frozen=True)
class TeeLoss:
    """Resistances of the straight way and of the branch, in heads of the velocity of all the flow."""

    run: Ratio
    branch: Ratio


@dataclass(frozen=True)
class TeePlace:
    """A tee in a network: the links that are the two ends of its run, and its branch, all at one node."""

    node: str
    one_end: str
    other_end: str
    branch: str
    tee: Tee


def _width(tee: Tee) -> Ratio:
    """Area of the branch over that of the run."""
    _refuse.not_positive(run_bore=tee.run_bore, branch_bore=tee.branch_bore, angle=tee.angle_rad)
    if tee.angle_rad > math.pi / 2.0:
        raise ImpossibleInput("a branch is told by the angle it makes with the flow, at most a quarter turn")
    return (tee.branch_bore / tee.run_bore) ** 2


def converging_k(tee: Tee, branch_share: Ratio) -> TeeLoss:
    """Resistance where a branch joins a run. Negative: the other stream draws it along.

        K_branch = C*(1 + (q/b)**2 - 2*(1 - q)**2 - F*q**2/b)      q: share of the branch, b: its area over the run's
        K_run = 1.55*q - q**2 (square),   1 - (1 - q)**2 - F*q**2/b (slanting)
        C = 1 (b up to 0.35), 0.9*(1 - q) (q up to 0.4), 0.55
        F = 1.74, 1.41, 1 at 30, 45, 60 degrees, 0 square

    Where the formulas step from one range of q to the next, 0.01 on either side are bridged.

    Source: Crane TP-410 (2009), chapter 2, with its errata.
    Valid:  turbulent flow, run of one bore, angles from 30 to 90 degrees; between 60 and 90 no data.
    """
    _refuse.not_a_share(branch_share=branch_share)
    width = _width(tee)
    square = tee.angle_rad >= _TEE_FROM
    pull = 0.0 if square else _pull(tee.angle_rad)
    factor = 1.0 if width <= 0.35 else _bridged(branch_share, 0.4, 0.9 * (1.0 - branch_share), 0.55)
    slant = pull / width * branch_share**2
    branch = factor * (1.0 + (branch_share / width) ** 2 - 2.0 * (1.0 - branch_share) ** 2 - slant)
    run = 1.55 * branch_share - branch_share**2 if square else 1.0 - (1.0 - branch_share) ** 2 - slant
    return TeeLoss(run, branch)


def _pull(angle_rad: Radian) -> Ratio:
    """Crane's F for slanting branches, straight between 30, 45 and 60 degrees."""
    angle = math.degrees(angle_rad)
    return (
        1.74 + (1.41 - 1.74) * (angle - 30.0) / 15.0 if angle <= 45.0 else 1.41 - 0.41 * (angle - 45.0) / 15.0
    )


def diverging_k(tee: Tee, branch_share: Ratio) -> TeeLoss:
    """Resistance where a branch leaves a run.

        K_branch = G*(1 + H*(q/b)**2 - J*(q/b)*cos(angle))      q: share of the branch, b: its area over the run's
        K_run = M*q**2
        H = 0.3, J = 0 (square and wide: branch bore over 2/3 of the run's), else H = 1, J = 2
        G square = 1 (b up to 2/3), 1 + 0.3*q**2
        G slanting = 1.1 - 0.7*q or 0.85 (b up to 0.35; q up to 0.4), 1 - 0.6*q or 0.6 (q up to 0.6)
        M = 0.4 (b up to 0.4), 2*(2*q - 1) (q up to 0.5), 0.3*(2*q - 1)

    Where the formulas step from one range of q to the next, 0.01 on either side are bridged.

    Source: Crane TP-410 (2009), chapter 2, with its errata.
    Valid:  turbulent flow, run of one bore, angles from 30 to 90 degrees; between 60 and 90 no data.
    """
    _refuse.not_a_share(branch_share=branch_share)
    width = _width(tee)
    fast = branch_share / width
    square = tee.angle_rad >= _TEE_FROM
    if square and tee.branch_bore / tee.run_bore > 2.0 / 3.0:
        turned = 1.0 + 0.3 * fast**2
    else:
        turned = 1.0 + fast**2 - 2.0 * fast * math.cos(tee.angle_rad)
    branch = turned * (_square_factor if square else _slanting_factor)(width, branch_share)
    return TeeLoss(_straight_factor(width, branch_share) * branch_share**2, branch)


def _square_factor(width: Ratio, share: Ratio) -> Ratio:
    return 1.0 if width <= 2.0 / 3.0 else 1.0 + 0.3 * share**2


def _slanting_factor(width: Ratio, share: Ratio) -> Ratio:
    if width <= 0.35:
        return _bridged(share, 0.4, 1.1 - 0.7 * share, 0.85)
    return _bridged(share, 0.6, 1.0 - 0.6 * share, 0.6)


def _bridged(share: Ratio, step: Ratio, below: Ratio, above: Ratio) -> Ratio:
    """One value below a step and another above it, a straight line across."""
    weight = min(max((share - step + _BRIDGE) / (2.0 * _BRIDGE), 0.0), 1.0)
    return below * (1.0 - weight) + above * weight


def _straight_factor(width: Ratio, share: Ratio) -> Ratio:
    if width <= 0.4:
        return 0.4
    return (2.0 if share <= 0.5 else 0.3) * (2.0 * share - 1.0)


@dataclass(frozen=True)
class FixedHeadLaw:
    """A head lost whatever the flow: that of a tee, as the last round found it."""

    head: Metre

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """The head, and no slope."""
        return HeadAt(self.head, flow * 0.0)


def solve_with_tees(
    links: Sequence[Link],
    fixed: Mapping[str, Metre],
    injections: Mapping[str, CubicMetrePerSecond],
    tees: Sequence[TeePlace],
) -> NetworkState:
    """A network some of whose junctions are tees, with losses that follow from how the flow parts in them.

        rounds of: solve, find K of every leg from the flows, put K*v**2/(2*g) into the leg's link

    Heads at a tee's node are those of the leg with all the flow. A tee whose branch feeds or gathers both
    ends of its run has 60 f_T in each.

    Raises SolverError naming the tee whose losses do not come to rest; else as `solve_network`.

    Source: Crane TP-410 (2009), chapter 2, by `converging_k` and `diverging_k`; the rounds are ours.
    Valid:  as those; tees closer than some ten bores disturb each other.
    """
    _refuse_strays(links, tees)
    heads = dict.fromkeys((leg for place in tees for leg in _legs(place)), 0.0)
    state, before, share = None, math.inf, 1.0
    for _ in range(_ROUNDS):
        state = solve_network(_with_heads(links, heads), fixed, injections, state)
        wanted = {leg: head for place in tees for leg, head in _tee_heads(place, links, state).items()}
        worst = max(wanted, key=lambda leg: abs(wanted[leg] - heads[leg]), default="")
        change = abs(wanted[worst] - heads[worst]) if worst else 0.0
        if change <= _STILL:
            return state
        share = share * _CAREFUL if change >= 0.9 * before else share
        heads = {leg: heads[leg] + share * (wanted[leg] - heads[leg]) for leg in heads}
        before = change
    raise SolverError(
        f"{worst}: the loss in its tee does not come to rest, {change:.2g} m from round to round"
    )


def _legs(place: TeePlace) -> tuple[str, str, str]:
    return place.one_end, place.other_end, place.branch


def _refuse_strays(links: Sequence[Link], tees: Sequence[TeePlace]) -> None:
    by_name = {link.name: link for link in links}
    seen: set[tuple[str, str]] = set()
    for place in tees:
        for leg in _legs(place):
            link = by_name.get(leg)
            if link is None or place.node not in (link.start, link.end) or link.through is None:
                raise ImpossibleInput(f"the tee at {place.node} has no leg {leg}")
            if (leg, place.node) in seen:
                raise ImpossibleInput(f"{leg} is a leg of the tee at {place.node} twice")
            seen.add((leg, place.node))


def _with_heads(links: Sequence[Link], heads: Mapping[str, Metre]) -> list[Link]:
    return [
        replace(link, through=SeriesLaw((link.through, FixedHeadLaw(heads[link.name]))))
        if link.name in heads and link.through is not None
        else link
        for link in links
    ]


def _tee_heads(place: TeePlace, links: Sequence[Link], state: NetworkState) -> dict[str, Metre]:
    """Head lost in each leg of a tee, counted along its link.

    Where a leg carries next to nothing, what would hold for a little in and a little out are bridged.
    """
    ways = {link.name: 1.0 if link.end == place.node else -1.0 for link in links if link.name in _legs(place)}
    inflow = {leg: ways[leg] * state.flows[leg] for leg in _legs(place)}
    least = min(inflow, key=lambda leg: abs(inflow[leg]))
    most = max(abs(flow) for flow in inflow.values())
    if most == 0.0:
        return dict.fromkeys(inflow, 0.0)
    weight = min(max((inflow[least] / most + _NEXT_TO_NOTHING) / (2.0 * _NEXT_TO_NOTHING), 0.0), 1.0)
    comes, leaves = (_inward_losses(place, inflow, least, way) for way in (1.0, -1.0))
    return {leg: ways[leg] * (weight * comes[leg] + (1.0 - weight) * leaves[leg]) for leg in inflow}


def _inward_losses(
    place: TeePlace, inflow: Mapping[str, CubicMetrePerSecond], least: str, way: float
) -> dict[str, Metre]:
    """Head lost toward the node in each leg, when the leg with the least flow comes in (way 1) or leaves (-1).

    All the flow is then in the leg of the other two that goes the other way.
    """
    rest = sorted((leg for leg in inflow if leg != least), key=lambda leg: way * inflow[leg])
    full = rest[0]
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
