"""Judging a timber that bends: stress, shear, lasting bow."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tidestead.core.answer import Estimate, Given, Step
from tidestead.core.source import PRACTICE, STATICS
from tidestead.physics.structure import timber_stress
from tidestead.studies.checks import At, Limit, below, given
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.patches import Patch, bent
from tidestead.studies.structure.timber import Piece

BOW_SHARE = 200.0
"""Least span over lasting bow of timber and sheathing. Source: common practice, no source."""

SEAT_SHARE = 300.0
"""The same for a timber that a window leans on. Source: common practice, no source."""


def share_step(span: float, share: float, meaning: str = "allowed: a share of the span") -> Step:
    """The bow that is allowed, of a span in metres."""
    numbers = (given("L", span, "m", "fine"),)
    return step(
        "w_allowed", meaning, f"w_allowed = L/{share:g}", numbers, (span / share, "m", "bow"), PRACTICE
    )


@dataclass(frozen=True)
class Bent:
    """What a timber does under its loads: largest moment, shear, bow at once, and the span the bow is held to.

    They carry a range where two ways of finding them differ. `loads` are told in the working.
    """

    moment: Estimate
    shear: Estimate
    bow: Estimate
    span: float
    how: str
    loads: tuple[Given, ...] = ()


def simple_beam(timber: Piece, patches: Sequence[Patch], span: float, busiest: float = 1.0) -> Bent:
    """A timber on two props. `busiest` is how much more than its loads the busiest of its kind may take."""
    state = bent(patches, (0.0, span), timber.stiffness)
    how, loads = beam_words(patches, span)
    return Bent(
        up_to(state.moment, busiest),
        up_to(float(state.shear.max()), busiest),
        up_to(abs(float(state.deflection[0])), busiest),
        span,
        how,
        loads,
    )


def beam_checks(at: At, timber: Piece, state: Bent, ask: Ask, share: float = BOW_SHARE) -> list[Judged]:
    """Bending, shear and lasting bow of a timber."""
    return [_bending(at, timber, state), _shear(at, timber, state), _bow(at, timber, state, ask, share)]


_TOLD = 4
"""Patches of load that the working of one timber lists."""


def beam_words(patches: Sequence[Patch], span: float) -> tuple[str, tuple[Given, ...]]:
    """The formula of the largest moment where there is a short one, else the loads, each from where to where."""
    first = patches[0] if patches else None
    if first is not None and len(patches) == 1 and first.start == first.at_end == 0.0 and first.end <= span:
        words = "M = R*(L - h + 2/3*sqrt(2*R*h/q)), R = q*h**2/(6*L): beam on two props, load q at the foot, none at h"
        return words, (given("q", first.at_start, "N/m"), given("h", first.end, "m", "fine"))
    numbers: list[Given] = []
    for number, patch in enumerate(patches[:_TOLD], start=1):
        numbers += [
            given(f"a{number}", patch.start, "m", "fine"),
            given(f"b{number}", patch.end, "m", "fine"),
            given(f"qa{number}", patch.at_start, "N/m"),
            given(f"qb{number}", patch.at_end, "N/m"),
        ]
    words = "beam on two props; each load from a to b, qa at a and qb at b"
    return words if len(
        patches
    ) <= _TOLD else f"{words}; the first {_TOLD} of {len(patches)} are told", tuple(numbers)


BUSIEST = "at worst the stud or rib on which a sheet that runs over several leans hardest"


def up_to(value: float, factor: float) -> Estimate:
    """A value, and what it comes to for the busiest of its kind."""
    return Estimate(value, value, value * factor, BUSIEST) if factor > 1.0 else Estimate.exact(value)


def _bending(at: At, timber: Piece, state: Bent) -> Judged:
    per_moment = timber.load_factor * float(timber_stress.bending_stress(1.0, timber.shape.strong_modulus))
    stress = state.moment.times(per_moment)
    limit = Limit(timber.bending, timber.source, timber.includes)
    moment = state.moment.likely
    steps = (
        step(
            "M",
            "largest moment",
            state.how,
            (given("L", state.span, "m", "fine"), *state.loads),
            (moment, "N m"),
            STATICS,
        ),
        step(
            "f_b",
            "bending stress",
            "f_b = g*M/S, g: load factor",
            (
                given("g", timber.load_factor, "1"),
                given("M", moment, "N m"),
                given("S", timber.shape.strong_modulus, "m3"),
            ),
            (stress.likely, "Pa"),
            STATICS,
        ),
        timber.limits["bending"],
    )
    advice = "a deeper or wider timber, or a shorter span"
    return Judged(below(at, "bending", "bending", stress, "Pa", limit, advice=advice), steps)


def _shear(at: At, timber: Piece, state: Bent) -> Judged:
    wide, deep = timber.section.pieces * timber.section.breadth, timber.section.depth
    per_force = timber.load_factor * float(timber_stress.shear_stress(1.0, wide, deep, timber.crack_factor))
    stress = state.shear.times(per_force)
    numbers = (
        given("g", timber.load_factor, "1"),
        given("V", state.shear.likely, "N"),
        given("b", wide, "m", "lumber"),
        given("d", deep, "m", "lumber"),
        given("k", timber.crack_factor, "1"),
    )
    formula = "f_v = g*1.5*V/(k*b*d), V: largest end reaction, k: share without cracks"
    steps = (
        step("f_v", "shear stress", formula, numbers, (stress.likely, "Pa"), STATICS),
        timber.limits["shear"],
    )
    limit = Limit(timber.shear, timber.source, timber.includes)
    return Judged(below(at, "shear", "shear", stress, "Pa", limit, advice="a larger timber"), steps)


def _bow(at: At, timber: Piece, state: Bent, ask: Ask, share: float) -> Judged:
    creep = ask.lasting(timber.creep)
    bow = state.bow.times(creep)
    numbers = (
        given("w0", state.bow.likely, "m", "bow"),
        given("k", creep, "1"),
        given("EI", timber.stiffness, "N m2"),
    )
    steps = (
        step(
            "w",
            "bow with creep",
            "w = k*w0, w0 from the loads over EI",
            numbers,
            (bow.likely, "m", "bow"),
            STATICS,
        ),
        share_step(state.span, share),
    )
    limit = Limit(state.span / share, PRACTICE, f"span over {share:g}")
    return Judged(
        below(at, "bow", "lasting bow", bow, "m", limit, style="bow", advice="a deeper timber"), steps
    )
