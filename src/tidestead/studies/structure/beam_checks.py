"""Judging a timber that bends: stress, shear, lasting bow."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tidestead.core.answer import Estimate
from tidestead.core.source import PRACTICE, STATICS
from tidestead.physics.structure import timber_stress
from tidestead.studies.checks import At, Limit, below, given
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.joint_checks import times
from tidestead.studies.structure.timber import Piece
from tidestead.studies.structure.wall_loads import Patch, bent

BOW_SHARE = 200.0
"""Least span over lasting bow of timber and sheathing. Source: common practice, no source."""

SEAT_SHARE = 300.0
"""The same for a timber that a window leans on. Source: common practice, no source."""


@dataclass(frozen=True)
class Bent:
    """What a timber does under its loads: largest moment, shear, bow at once, and the span the bow is held to.

    They carry a range where two ways of finding them differ.
    """

    moment: Estimate
    shear: Estimate
    bow: Estimate
    span: float
    how: str


def simple_beam(timber: Piece, patches: Sequence[Patch], span: float, busiest: float = 1.0) -> Bent:
    """A timber on two props. `busiest` is how much more than its loads the busiest of its kind may take."""
    state = bent(patches, (0.0, span), timber.stiffness)
    return Bent(
        up_to(state.moment, busiest),
        up_to(float(state.shear.max()), busiest),
        up_to(abs(float(state.deflection[0])), busiest),
        span,
        "beam on two props under its loads",
    )


def beam_checks(at: At, timber: Piece, state: Bent, ask: Ask, share: float = BOW_SHARE) -> list[Judged]:
    """Bending, shear and lasting bow of a timber."""
    return [_bending(at, timber, state), _shear(at, timber, state), _bow(at, timber, state, ask, share)]


BUSIEST = "at worst the stud or rib on which a sheet that runs over several leans hardest"


def up_to(value: float, factor: float) -> Estimate:
    """A value, and what it comes to for the busiest of its kind."""
    return Estimate(value, value, value * factor, BUSIEST) if factor > 1.0 else Estimate.exact(value)


def _bending(at: At, timber: Piece, state: Bent) -> Judged:
    per_moment = timber.load_factor * float(timber_stress.bending_stress(1.0, timber.shape.strong_modulus))
    stress = times(state.moment, per_moment)
    limit = Limit(timber.bending, timber.source, timber.includes)
    moment = state.moment.likely
    steps = (
        step(
            "M",
            "largest moment",
            state.how,
            (given("L", state.span, "m", "level"),),
            (moment, "N m"),
            STATICS,
        ),
        step(
            "f_b",
            "bending stress",
            "f_b = g*M/S",
            (
                given("g", timber.load_factor, "1"),
                given("M", moment, "N m"),
                given("S", timber.shape.strong_modulus, "m3"),
            ),
            (stress.likely, "Pa"),
            STATICS,
        ),
    )
    advice = "a deeper or wider timber, or a shorter span"
    return Judged(below(at, "bending", "bending", stress, "Pa", limit, advice=advice), steps)


def _shear(at: At, timber: Piece, state: Bent) -> Judged:
    wide, deep = timber.section.pieces * timber.section.breadth, timber.section.depth
    per_force = timber.load_factor * float(timber_stress.shear_stress(1.0, wide, deep, timber.crack_factor))
    stress = times(state.shear, per_force)
    numbers = (
        given("g", timber.load_factor, "1"),
        given("V", state.shear.likely, "N"),
        given("b", wide, "m", "lumber"),
        given("d", deep, "m", "lumber"),
        given("k", timber.crack_factor, "1"),
    )
    steps = (step("f_v", "shear stress", "f_v = g*1.5*V/(k*b*d)", numbers, (stress.likely, "Pa"), STATICS),)
    limit = Limit(timber.shear, timber.source, timber.includes)
    return Judged(below(at, "shear", "shear", stress, "Pa", limit, advice="a larger timber"), steps)


def _bow(at: At, timber: Piece, state: Bent, ask: Ask, share: float) -> Judged:
    creep = ask.lasting(timber.creep)
    bow = times(state.bow, creep)
    numbers = (
        given("w0", state.bow.likely, "m", "bow"),
        given("k", creep, "1"),
        given("EI", timber.stiffness, "N m2"),
    )
    steps = (
        step(
            "w", "bow with creep", "w = k*w0, w0 from the loads over EI", numbers, (bow.likely, "m"), STATICS
        ),
    )
    limit = Limit(state.span / share, PRACTICE, f"span over {share:g}")
    return Judged(
        below(at, "bow", "lasting bow", bow, "m", limit, style="bow", advice="a deeper timber"), steps
    )
