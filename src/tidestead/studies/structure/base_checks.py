"""Judging what holds the foot of a wall. Nothing is left to hope: it must be named, and it must be enough."""

from __future__ import annotations

from tidestead.core.answer import Check
from tidestead.core.source import STATICS, YOURS, Known, Source
from tidestead.physics.structure import anchors
from tidestead.plan.model import BaseJoint, Fixing
from tidestead.studies.checks import At, Limit, above, below, given
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.fixings import held, sides_of
from tidestead.studies.structure.wall_checks import nothing
from tidestead.studies.structure.wall_loads import WallLoads

CONCRETE = Source("ACI 318-19", "17.7.2, as an anchor maker's guide prints it", Known.QUOTED)

UNKNOWN_CONCRETE = "strength times 0.70, load times 1.4; house slab, concrete of unknown strength"

EDGE = "anchor to the edge of the slab"

ANCHOR = "The anchor's approval governs: cracked concrete, permanent load, edge distance, corrosion by salt."


def base_checks(at: At, loads: WallLoads, slab: float | None, ask: Ask) -> list[Judged]:
    """The push at the foot of a wall against what is named to carry it. `slab` is its thickness."""
    base = loads.place.wall.base
    words = "push at the foot of the wall"
    if base is None or base.carried_by is None:
        why = f"say what carries it (it is twice what the rim carries): {at.key}.carried_by"
        return nothing(at, "push", words, why)
    if base.spacing is None or (base.capacity is None and base.fastener is None):
        return nothing(
            at, "push", words, f"say {at.key}.spacing, and .capacity by the maker's data or .fastener"
        )
    number = max(1, int(loads.place.length / base.spacing + 1e-9)) - base.as_built.missing
    force = max(loads.base_even * base.spacing, loads.base_push / max(number, 1))
    steps = (
        step(
            "q",
            "push on a metre of base",
            "q = gamma*h**2/2 - q_rim",
            (given("h", loads.depth, "m", "level"),),
            (loads.base_even, "N/m"),
            STATICS,
        ),
        step(
            "F",
            "on one fastener",
            "the larger of q*s and the whole push over their number",
            (
                given("q", loads.base_even, "N/m"),
                given("s", base.spacing, "m", "lumber"),
                given("n", number, "count"),
            ),
            (force, "N"),
            STATICS,
        ),
    )
    if number <= 0:
        gone = below(at, "push", words, force, "N", Limit(0.0, YOURS, "none of its fasteners is left"))
        return [Judged(gone, steps)]
    found = [Judged(_carried(at, force, loads, base, ask), steps)]
    if base.carried_by == "anchors":
        found += _edge_check(at, base, slab, force, ask)
    return found


def _carried(at: At, force: float, loads: WallLoads, base: BaseJoint, ask: Ask) -> Check:
    words = "push at the foot of the wall"
    advice = "closer or stronger fasteners, a ledger, or ties under the floor"
    if base.capacity is not None:
        limit = Limit(base.capacity, YOURS, "as its maker gives it, for good")
        return below(at, "push", words, force, "N", limit, advice=advice, cautions=(ANCHOR,))
    studs = loads.place.wall.studs
    if studs is None or studs.grade is None or studs.section is None or base.fastener is None:
        return nothing(at, "push", words, f"say {at.key}.fastener and the studs' grade")[0].check
    fixing = Fixing(fastener=base.fastener, count=1, into="side")
    sides = sides_of(fixing, studs.section.breadth, studs.section.depth, ask.lumber(studs.grade))
    joint = held(ask.setting, ask.tables["fasteners"][base.fastener], fixing, sides, ask.case.duration)
    limit = Limit(joint.each, joint.source, joint.includes)
    return below(
        at,
        "push",
        words,
        joint.load_factor * force,
        "N",
        limit,
        advice=advice,
        cautions=(joint.refused,) if joint.refused else (),
    )


def _edge_check(at: At, base: BaseJoint, slab: float | None, force: float, ask: Ask) -> list[Judged]:
    """The push drives anchors at the slab's edge: it must neither split nor break out."""
    wanted = {
        f"{at.key}.edge_distance": base.edge_distance,
        f"{at.key}.diameter": base.diameter,
        f"{at.key}.embedment": base.embedment,
        "stands_on.slab_thickness": slab,
    }
    if base.edge_distance is None or base.diameter is None or base.embedment is None or slab is None:
        unsaid = ", ".join(key for key, value in wanted.items() if value is None)
        return nothing(at, "edge", EDGE, f"say {unsaid}")
    strength = ask.tables["floors"]["slab-house"].si("concrete_strength")
    anchor = anchors.EdgeAnchor(
        base.diameter, base.embedment, base.edge_distance, base.spacing or 0.0, slab, strength
    )
    return [_breakout(at, anchor, force), _least_edge(at, anchor)]


def _breakout(at: At, anchor: anchors.EdgeAnchor, force: float) -> Judged:
    breakout = float(anchors.lasting_shear(anchors.row_breakout(anchor)))
    numbers = (
        given("d", anchor.diameter, "m", "sheet"),
        given("le", anchor.embedment, "m", "sheet"),
        given("c", anchor.edge, "m", "sheet"),
        given("h", anchor.slab_thickness, "m", "sheet"),
        given("fc", anchor.concrete_strength, "Pa"),
    )
    words = "edge of the slab breaking out"
    steps = (step("V", f"{words}, for good", "V = 0.70*V_row/1.4", numbers, (breakout, "N"), CONCRETE),)
    limit = Limit(breakout, CONCRETE, UNKNOWN_CONCRETE)
    return Judged(below(at, "breakout", words, force, "N", limit, cautions=(ANCHOR,)), steps)


def _least_edge(at: At, anchor: anchors.EdgeAnchor) -> Judged:
    least = float(anchors.least_edge(anchor.diameter, "adhesive"))
    diameter = given("d", anchor.diameter, "m", "sheet")
    steps = (step("c", "least edge distance", "c = 6*d", (diameter,), (least, "m"), CONCRETE),)
    limit = Limit(least, CONCRETE, near=0.05)
    check = above(at, "edge", EDGE, anchor.edge, "m", limit, style="sheet", cautions=(ANCHOR,))
    return Judged(check, steps, by_level=False)
