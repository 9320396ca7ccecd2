"""Judging where the water goes in a fractionator, and how high the air lifts it."""

from __future__ import annotations

from tidestead.catalog import Row, table
from tidestead.core.answer import Estimate, Step
from tidestead.core.source import PRACTICE, Known, Source
from tidestead.plan.model import Plan, Vessel
from tidestead.studies.checks import At, Limit, above, given, unproven
from tidestead.studies.flow.heights import brim_depth
from tidestead.studies.flow.levels_told import SPARE
from tidestead.studies.foam.facts import TowerFoam
from tidestead.studies.judged import Judged, step

LEAST_BORE = 0.02
"""Bore of an outlet whose pipe the plan does not tell, metres. Common practice, no source."""

UNDER_LIP = 0.01
"""Room left under an overflow that should stay dry, metres: ripples. Common practice, no source."""

SIDE_BY_SIDE = (
    "Water that rises with the bubbles leaves where they are most loaded, and meets each of them once only: less is "
    "taken out than where it sinks against them. No figure for it was found."
)

_GEOMETRY = Source("geometry", known=Known.COMPUTED)
_BALANCE = Source(
    "hydrostatics", "bubbly water in the tower against clear water in the riser", Known.COMPUTED
)
_FLOODS = (
    "the column floods with the smallest bubbles, so that no level can be told: less air or a wider column"
)


def way_checks(at: At, tower: TowerFoam) -> list[Judged]:
    """Whether the water passes among the bubbles, and leaves without them."""
    return [_met(at, tower), _outlet(at, tower)]


def course_words(tower: TowerFoam) -> str:
    """How water and bubbles go to each other."""
    if tower.way.met <= 0.0:
        return "the water passes the bubbles by"
    return "side by side with the bubbles" if tower.way.rises else "against the bubbles"


def _met(at: At, tower: TowerFoam) -> Judged:
    """Water meets bubbles between its two ports only, and above the diffuser only."""
    row, way = table("foam_limits")["way"], tower.way
    heights, source = way.heights, row.figure("widths_min").source
    numbers = (
        given("z_in", heights.feed, "m", "level"),
        given("z_out", heights.outlet, "m", "level"),
        given("z_air", heights.diffuser, "m", "level"),
    )
    meaning = (
        f"height along which water and bubbles meet, from {way.feed} to {way.outlet}, {course_words(tower)}; "
        "heights above the tower's floor"
    )
    formula = "L = max(0, max(z_in, z_out) - max(min(z_in, z_out), z_air))"
    steps = (step("L", meaning, formula, numbers, (way.met, "m", "level"), _GEOMETRY),)
    widths = row.si("widths_min")
    limit = Limit(widths * tower.width, source, "one width of the column")
    cautions = cautions_of(row)
    if way.rises:
        cautions += (SIDE_BY_SIDE,)
    words = "height over which water and bubbles meet"
    check = above(
        at,
        "way",
        words,
        way.met,
        "m",
        limit,
        style="level",
        advice=_mend(tower),
        cautions=cautions,
    )
    return Judged(check, steps)


def cautions_of(row: Row) -> tuple[str, ...]:
    """What the catalogue warns of beside a limit."""
    told = row.tag("cautions", ())
    return told if isinstance(told, tuple) else ()


def _mend(tower: TowerFoam) -> str:
    """What to change of the way, by what is wrong with it."""
    way = tower.way
    if max(way.heights.feed, way.heights.outlet) <= way.heights.diffuser:
        return (
            f"{way.feed} near the surface: both ports lie under the diffuser, where no bubble comes, so that the "
            "water passes them by"
        )
    if way.rises:
        return f"{way.feed} near the surface and {way.outlet} near the floor, so that water sinks against the bubbles"
    if way.heights.outlet > way.heights.diffuser:
        return f"{way.feed} higher or {way.outlet} lower: an inlet beside the outlet passes the bubbles by"
    return f"{way.feed} higher, or the diffuser lower"


def _outlet(at: At, tower: TowerFoam) -> Judged:
    """Bubbles that rise past the outlet are drawn into it."""
    row, way = table("foam_limits")["way"], tower.way
    figure = row.figure("bores_min")
    over = way.heights.diffuser - way.heights.outlet
    least = max(way.bore, LEAST_BORE) * row.si("bores_min")
    numbers = (
        given("z_air", way.heights.diffuser, "m", "level"),
        given("z_out", way.heights.outlet, "m", "level"),
    )
    meaning = f"diffuser over {way.outlet}, heights above the tower's floor"
    steps = (step("h", meaning, "h = z_air - z_out", numbers, (over, "m", "level"), _GEOMETRY),)
    advice = (
        f"{way.outlet} under the diffuser with a riser outside that keeps the level: what leaves among the bubbles "
        "takes them along"
    )
    limit = Limit(least, figure.source, "one bore of the outlet")
    words = "diffuser over the outlet"
    return Judged(above(at, "outlet", words, over, "m", limit, style="level", advice=advice), steps)


def lift_checks(at: At, plan: Plan, tower: TowerFoam) -> list[Judged]:
    """Room over the water with the air on, and under overflows that should stay dry."""
    vessel = plan.vessels[tower.key]
    return [_room(at, vessel, tower), *_lips(at, tower)]


def _top(vessel: Vessel) -> tuple[float, str]:
    """Up to where water may stand: the neck where the plan lets it into the cone, else the brim and the cone's seat."""
    if vessel.cone is not None and vessel.cone.water is not None:
        return vessel.height + vessel.cone.height, "neck"
    if vessel.cone is not None and vessel.height <= brim_depth(vessel):
        return vessel.height, "seat of the cone"
    return brim_depth(vessel), "brim"


def _lift_steps(tower: TowerFoam, level: Estimate) -> tuple[Step, ...]:
    """From the level without air to that with it."""
    lift, holdup = tower.lift, tower.lift.holdup
    if holdup is None:
        meaning = "surface, which runs over an edge of the tower and is not lifted, above its floor"
        numbers = (given("L0", lift.clear.likely, "m", "fine"),)
        return (step("L", meaning, "L = L0", numbers, (level.likely, "m", "fine"), _BALANCE),)
    return (
        step(
            "L",
            "surface with the air on: bubbly water over the outlet weighs what clear water does in the riser; L0 "
            "without air, z the higher of diffuser and outlet, all above the tower's floor",
            "L = z + (L0 - z)/(1 - e)",
            (
                given("L0", lift.clear.likely, "m", "fine"),
                given("z", lift.foot, "m", "fine"),
                given("e", holdup.likely, "1"),
            ),
            (level.likely, "m", "fine"),
            _BALANCE,
        ),
    )


def _room(at: At, vessel: Vessel, tower: TowerFoam) -> Judged:
    """Freeboard with the air on."""
    top, name = _top(vessel)
    words, level = f"room to the {name} with the air on", tower.lift.level
    if level is None:
        return Judged(unproven(at, "lifted", words, "m", _FLOODS, _BALANCE))
    left = Estimate(top - level.high, top - level.likely, top - level.low, level.basis)
    meaning = f"{name} less the surface with the air on"
    numbers = (given("z_top", top, "m", "fine"), given("L", level.likely, "m", "fine"))
    last = step("f", meaning, "f = z_top - L", numbers, (left.likely, "m", "fine"), _BALANCE)
    advice = "a lower riser, less air, or a taller tower"
    check = above(at, "lifted", words, left, "m", Limit(SPARE, PRACTICE), style="level", advice=advice)
    return Judged(check, (*_lift_steps(tower, level), last))


def _lips(at: At, tower: TowerFoam) -> list[Judged]:
    """Overflows that stand dry without air stay dry with it, or foam and water leave there all the time."""
    found = []
    for name, lip in tower.lift.lips:
        here, words = at.below(name, name, f"ports.{name}"), "room under its lip with the air on"
        level = tower.lift.level
        if level is None:
            found.append(Judged(unproven(here, "lifted", words, "m", _FLOODS, _BALANCE)))
            continue
        left = Estimate(lip - level.high, lip - level.likely, lip - level.low, level.basis)
        numbers = (given("z_lip", lip, "m", "fine"), given("L", level.likely, "m", "fine"))
        meaning = "lip less the surface with the air on"
        steps = (step("f", meaning, "f = z_lip - L", numbers, (left.likely, "m", "fine"), _BALANCE),)
        limit = Limit(UNDER_LIP, PRACTICE)
        advice = "a lower riser, a higher lip, or less air: else foam and water run over it all the time"
        check = above(here, "lifted", words, left, "m", limit, style="level", advice=advice)
        found.append(Judged(check, steps))
    return found
