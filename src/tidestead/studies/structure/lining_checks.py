"""Judging a lining: it carries no load, it must follow every joint that moves, and water must not get behind it."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.catalog import Row
from tidestead.core.answer import Estimate, Step
from tidestead.core.source import COMPUTED, PRACTICE, YOURS, Source
from tidestead.physics.structure import joints, membranes, wood_movement
from tidestead.plan.model import Building, Lining, Vessel
from tidestead.studies.checks import At, Limit, above, below, given
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.ask import Tables
from tidestead.studies.structure.wall_checks import nothing

FALLBACK_HUMIDITY = (0.40, 0.90)
FALLBACK_C = 25.0
SHEET_WIDTH = 1.22
"""A sheet is 4 ft wide; each joint between two of them moves by one sheet's growth."""

OVER_BRIM = 0.010
"""Least height of the lining's end over the brim. Source: common practice, no source."""

FALLBACK_END = 0.050
"""Least end over the water where the lining's row has none. Source: common practice, no source."""

BUILT_DRY = "Timber is taken as set at the damp end and drying to the other; sheets likewise."


@dataclass(frozen=True)
class Moves:
    """Movements that open the joint of wall and floor: turn of the studs' feet, drying of the bottom plate; and
    the joint between two sheets. Metres.
    """

    turning: float
    plate: float
    sheets: float

    @property
    def worst(self) -> float:
        """The joint that opens most."""
        return max(self.corner, self.sheets)

    @property
    def corner(self) -> float:
        """Where wall and floor meet."""
        return float(joints.joint_movement((self.turning, self.plate)).opening)


def moves(vessel: Vessel, building: Building, foot_turn: float, plate: float, sheet: float) -> Moves:
    """Movements from the stud's turn at its foot, the plate's height and the sheathing's thickness."""
    dry, damp = building.humidity or FALLBACK_HUMIDITY
    if vessel.wood == "wet":
        damp = max(damp, FALLBACK_HUMIDITY[1])
    moist = float(wood_movement.equilibrium_moisture(FALLBACK_C, damp)) / 100.0
    dried = float(wood_movement.equilibrium_moisture(FALLBACK_C, dry)) / 100.0
    shrunk = plate - float(joints.lumber_size(plate, moist, dried, "width"))
    return Moves(
        float(joints.rotation_opening(foot_turn, sheet)),
        max(shrunk, 0.0),
        float(wood_movement.plywood_change(SHEET_WIDTH, dry, damp)),
    )


def film(lining: Lining, row: Row) -> float | None:
    """Dry film, planned or measured; from the coats where not said."""
    if lining.dry_film is not None:
        return lining.dry_film
    if lining.coats is not None and row.has("dry_film_per_coat"):
        return lining.coats * row.si("dry_film_per_coat")
    return None


def lining_checks(at: At, vessel: Vessel, moved: Moves | str | None, tables: Tables) -> list[Judged]:
    """Every check of a vessel's lining. `moved` is how its joints move, or why that could not be found."""
    lining = vessel.lining
    here = at.below("lining", "lining")
    if lining is None or lining.kind is None or lining.product is None:
        return nothing(
            here, "follows", "whether the lining follows its joints", f"say {here.path}.kind and .product"
        )
    row = tables["linings"][lining.product]
    found = []
    if lining.kind == "coating":
        found += _film_check(here, lining, row)
    found += _follow_check(here, lining, row, moved)
    found += _end_checks(here, vessel, lining, row)
    if lining.kind == "coating":
        found += _seam_check(here, lining)
    found += _window_edges(here, vessel, at.path)
    return found


def _film_check(at: At, lining: Lining, row: Row) -> list[Judged]:
    if not row.has("dry_film_min"):
        return []
    thick = film(lining, row)
    if thick is None:
        return nothing(
            at, "film", "dry film", f"say how many coats, or the dry film: {at.path}.coats or .dry_film"
        )
    source = row.figure("dry_film_min").source
    steps: tuple[Step, ...] = ()
    if lining.coats is not None and lining.dry_film is None:
        each = row.si("dry_film_per_coat")
        steps = (
            step(
                "d",
                "dry film",
                "d = n*d1",
                (given("n", lining.coats, "count"), given("d1", each, "m", "film")),
                (thick, "m", "film"),
                source,
            ),
        )
    limit = Limit(row.si("dry_film_min"), source, near=0.05)
    check = above(
        at,
        "film",
        "dry film",
        thick,
        "m",
        limit,
        style="film",
        advice="another coat; measure it on a test plate",
    )
    return [Judged(check, steps, by_level=False)]


def _follow_check(at: At, lining: Lining, row: Row, moved: Moves | str | None) -> list[Judged]:
    if not isinstance(moved, Moves):
        why = (
            f"how the walls move is not found: {moved}"
            if moved
            else "the walls are not described well enough"
        )
        return nothing(at, "follows", "joint the lining must follow", why)
    allowed, how, source = _can_follow(lining, row)
    if allowed is None:
        return nothing(at, "follows", "joint the lining must follow", how)
    opening = moved.worst
    numbers = (
        given("turn", moved.turning, "m", "bow"),
        given("dry", moved.plate, "m", "bow"),
        given("sheets", moved.sheets, "m", "bow"),
    )
    steps = (
        step(
            "u",
            "joint that opens most",
            "larger of turn + dry (wall to floor) and sheets (sheet to sheet)",
            numbers,
            (opening, "m"),
            COMPUTED,
        ),
    )
    words = row.tag("cautions", ())
    cautions = words if isinstance(words, tuple) else ()
    estimate = Estimate(moved.sheets if moved.sheets < opening else opening, opening, opening, BUILT_DRY)
    check = below(
        at,
        "follows",
        "joint the lining must follow",
        estimate,
        "m",
        Limit(allowed, source, how),
        style="bow",
        advice="a lining that follows further, fabric laid into its corners, or timber built drier",
        cautions=cautions,
    )
    return [Judged(check, steps)]


def _can_follow(lining: Lining, row: Row) -> tuple[float | None, str, Source]:
    """How far a joint may open under the lining; None and why where nothing shows that it can."""
    source = PRACTICE
    if row.has("bridges") and row.has("bridges_at_film"):
        thick = film(lining, row)
        if thick is None:
            return None, "say its dry film", source
        bridged = float(membranes.bridgeable_opening(row.si("bridges"), row.si("bridges_at_film"), thick))
        return bridged, "as its crack-bridging test at this film", row.figure("bridges").source
    if not row.has("elongation") or not row.has("free_width") or not row.tag("stays_elastic", False):
        return None, "its data show nothing that bridges a moving joint", source
    width = row.si("free_width")
    if lining.kind == "coating" and lining.seams != "reinforced":
        return (
            None,
            "a coating that sticks to both sides of a joint bridges nothing: reinforce the seams over a free strip",
            source,
        )
    elongation = row.si("elongation_both_ways") if row.has("elongation_both_ways") else row.si("elongation")
    strain = float(membranes.allowed_strain(elongation, row.si("safety_on_elongation")))
    opening = float(membranes.free_width_opening(strain, width))
    return (
        opening,
        f"printed stretch over {row.si('safety_on_elongation'):g}, free over a strip",
        row.figure("elongation").source,
    )


def _end_checks(at: At, vessel: Vessel, lining: Lining, row: Row) -> list[Judged]:
    """Water must not reach the wood from behind: over the edge, or along a screw."""
    found = []
    if lining.ends_above_water is None:
        found += nothing(at, "end", "end of the lining above the water", f"say {at.path}.ends_above_water")
    elif vessel.water is not None:
        found += [_over_brim(at, vessel, vessel.water, lining.ends_above_water), _over_water(at, lining, row)]
    words = "screws through the lining below the water"
    if lining.screws_through is None:
        return found + nothing(at, "screws", words, f"say whether any goes through: {at.path}.screws_through")
    count = 1.0 if lining.screws_through else 0.0
    advice = "no screw may go through it: clamp, or fasten above the water line"
    check = below(at, "screws", words, count, "count", Limit(0.5, PRACTICE, near=0.0), advice=advice)
    steps = (step("n", "as the plan says", "0: none, 1: some", (), (count, "count"), YOURS),)
    return [*found, Judged(check, steps, by_level=False)]


def _over_brim(at: At, vessel: Vessel, water: float, end: float) -> Judged:
    brim = vessel.brim if vessel.brim is not None else vessel.height
    over = water + end - brim
    numbers = (
        given("water", water, "m", "level"),
        given("end", end, "m", "sheet"),
        given("brim", brim, "m", "level"),
    )
    words = "end of the lining above the brim"
    steps = (step("z", words, "z = water + end - brim", numbers, (over, "m"), COMPUTED),)
    limit, advice = Limit(OVER_BRIM, PRACTICE, near=0.0), "carry it higher, onto dry wood"
    return Judged(
        above(at, "end", words, over, "m", limit, style="sheet", advice=advice), steps, by_level=False
    )


def _over_water(at: At, lining: Lining, row: Row) -> Judged:
    least = row.si("ends_above_water_min") if row.has("ends_above_water_min") else FALLBACK_END
    end, words = lining.ends_above_water or 0.0, "end of the lining above the water"
    steps = (step("end", "as the plan says", "measured from the water in service", (), (end, "m"), YOURS),)
    limit, advice = Limit(least, PRACTICE, near=0.0), "carry it higher, or a lower water level"
    check = above(at, "end_service", words, end, "m", limit, style="sheet", advice=advice)
    return Judged(check, steps, by_level=False)


def _seam_check(at: At, lining: Lining) -> list[Judged]:
    if lining.seams is None:
        return nothing(
            at,
            "seams",
            "seams of the coating",
            f'say whether fabric is laid in them: {at.path}.seams = "reinforced"',
        )
    return []


def _window_edges(at: At, vessel: Vessel, path: str) -> list[Judged]:
    """How the lining meets each window must be decided before either is bought."""
    found = []
    for wall, parts in vessel.walls.items():
        for name, window in parts.windows.items():
            if window.seat.membrane is None:
                found += nothing(
                    at,
                    f"window.{wall}.{name}",
                    f"how the lining meets window {name}",
                    f"say {path}.walls.{wall}.windows.{name}.seat.membrane",
                )
    return found
