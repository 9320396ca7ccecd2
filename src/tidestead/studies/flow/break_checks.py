"""Judging siphon breaks: the hole lets in air enough for the flow that would run back."""

from __future__ import annotations

from tidestead.core.dims import G
from tidestead.core.source import PRACTICE, STATICS, Known, Source
from tidestead.core.units import System, show
from tidestead.physics.flow.pipes import pipe_velocity
from tidestead.physics.flow.siphons import PARTS
from tidestead.studies.checks import At, Limit, above, below, given, unproven
from tidestead.studies.flow.breaks import AIR, BreakFacts
from tidestead.studies.flow.stops import StopFacts
from tidestead.studies.judged import Judged, step

_ORIFICE = Source("sharp orifice", "coefficient 0.61", Known.COMPUTED)
_BUBBLES = Source("Taitel, Barnea and Dukler (1980)", "end of bubbly flow", Known.RECALLED)
_SLUG = Source("Davies and Taylor (1950)", known=Known.RECALLED)

_GRAVITY = given("g", G, "m/s2")

WIDEST = 0.5
"""Share of its pipe's bore above which a hole is no siphon break any more. Common practice, no source."""

_CLEAN = ("Two holes are better than one: a snail in one of them is all it takes.",)


def break_checks(stop: StopFacts, system: System) -> list[Judged]:
    """Every siphon break."""
    return [_judged(one, system) for one in stop.breaks]


def _judged(one: BreakFacts, system: System) -> Judged:
    at = At(
        f"{one.vessel}.{one.port}",
        f"{one.vessel}, {one.port}",
        "flow",
        f"vessels.{one.vessel}.ports.{one.port}.siphon_break",
    )
    if why := _unsure(one):
        return Judged(unproven(at, "siphon_break", "air through its siphon break", "1", why, _ORIFICE))
    if one.bare:
        return _over_water(at, one)
    return _slow(at, one) if one.slow else _share(at, one, system)


def _unsure(one: BreakFacts) -> str:
    """Why nothing can be said of a hole; empty where it can."""
    if one.hole > WIDEST * one.bore:
        return "its hole is wider than half its pipe: that is an opening, through which the line spills all along"
    if one.too_low:
        return (
            "its hole lies no higher than the lower edge of the mouth, which draws air first: raise the break"
        )
    if one.beside:
        return (
            "its line goes through the wall below the hole, so that the hole may not lie on its way: lead the line up "
            "to the break and say so with high_point in its circuit, or bring it in over the edge"
        )
    return ""


def _over_water(at: At, one: BreakFacts) -> Judged:
    """A hole in the air while the pumps run: the line draws air and spits it out below."""
    words = "water over the hole of its siphon break while the pumps run"
    numbers = (given("z", one.water, "m", "fine"), given("z_hole", one.level, "m", "fine"))
    steps = (step("h", words, "h = z - z_hole", numbers, (one.water - one.level, "m", "bow"), STATICS),)
    advice = "a lower break: over the water its hole draws air all along"
    limit = Limit(0.0, PRACTICE, "under water", near=0.0)
    return Judged(
        above(at, "siphon_break", words, one.water - one.level, "m", limit, style="bow", advice=advice), steps
    )


def _slow(at: At, one: BreakFacts) -> Judged:
    """So little runs back that air cannot be carried down."""
    steps = (
        step(
            "Q_down",
            "flow from which water takes air down with it",
            "Q_down = pi*D**2/4*0.345*sqrt(g*D)",
            (given("D", one.bore, "m", "fine"), _GRAVITY),
            (one.carries, "m3/s"),
            _SLUG,
        ),
    )
    limit = Limit(one.carries, _SLUG, near=0.0)
    words = "flow that its siphon break must stop"
    advice = "a second guard beside it: a check valve, or a mouth that ends nearer to the surface"
    check = below(at, "siphon_break", words, one.back, "m3/s", limit, advice=advice, cautions=_CLEAN)
    return Judged(check, steps)


def _share(at: At, one: BreakFacts, system: System) -> Judged:
    steps = (
        step(
            "Q",
            "what would run back through it with the water down at the hole and no guard at work; v: its speed, by the "
            "balance of levels and junctions with the pumps off",
            "Q = pi*D**2/4*v",
            (given("D", one.bore, "m", "sheet"), given("v", float(pipe_velocity(one.back, one.bore)), "m/s")),
            (one.back, "m3/s"),
            Source("energy equation of full pipes", known=Known.COMPUTED),
        ),
        step(
            "s",
            "air that its hole lets in, as a share of that",
            "s = 0.61*(d/D)**2*sqrt(rho/rho_air)",
            (
                given("d", one.hole, "m", "sheet"),
                given("D", one.bore, "m", "sheet"),
                given("rho", one.density, "kg/m3"),
                given("rho_air", AIR, "kg/m3"),
            ),
            (one.share, "1"),
            _ORIFICE,
        ),
        step(
            "Q_hole",
            "what squirts from the hole while the pumps run; h: what the pipe takes from there to its mouth, an elbow "
            "between them adds to it",
            "Q_hole = 0.61*pi*d**2/4*sqrt(2*g*h)",
            (given("d", one.hole, "m", "sheet"), given("h", one.pressed, "m", "bow"), _GRAVITY),
            (one.spills, "m3/s"),
            _ORIFICE,
        ),
    )
    wanted = show(one.hole * (PARTS / one.share) ** 0.5, "m", system, "sheet")
    limit = Limit(PARTS, _BUBBLES, "a quarter of the pipe filled with air", near=0.15)
    words = "air through its siphon break, share of the flow it must stop"
    advice = f"a hole of more than {wanted}, or several that have its area together"
    check = above(at, "siphon_break", words, one.share, "1", limit, advice=advice, cautions=_CLEAN)
    return Judged(check, steps)
