"""Tees and wyes, whose resistance depends on how the flow parts or joins.

Every K here counts heads of the velocity in the leg with all the flow.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from tidestead.core.dims import Metre, Radian, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

_TEE_FROM: Radian = math.radians(75.0)
"""Angle from which on a branch counts as square. Crane gives 30 to 60 and 90 degrees only; half way is ours."""

_BRIDGE: Ratio = 0.01
"""Share of flow on either side of a step in Crane's formulas over which we bridge it. A step has no answer on it."""


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
