"""Judging what holds the foot of a wall. Nothing is left to hope: it must be named, and it must be enough."""

from __future__ import annotations

from tidestead.core.answer import Check
from tidestead.core.source import STATICS, YOURS, Known, Source
from tidestead.physics.structure import anchors
from tidestead.plan.model import BaseJoint, Fixing
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.checks import At, Limit, above, below, given
from tidestead.studies.structure.fixings import held, sides_of
from tidestead.studies.structure.judged import Judged, step
from tidestead.studies.structure.wall_checks import nothing
from tidestead.studies.structure.wall_loads import WallLoads

CONCRETE = Source("ACI 318-19", "17.7.2, as an anchor maker's guide prints it", Known.QUOTED)

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
    words = "anchor to the edge of the slab"
    wanted = {
        f"{at.key}.edge_distance": base.edge_distance,
        f"{at.key}.diameter": base.diameter,
        f"{at.key}.embedment": base.embedment,
        "stands_on.slab_thickness": slab,
    }
    if base.edge_distance is None or base.diameter is None or base.embedment is None or slab is None:
        return nothing(
            at, "edge", words, "say " + ", ".join(key for key, value in wanted.items() if value is None)
        )
    concrete = ask.tables["floors"]["slab-house"]
    anchor = anchors.EdgeAnchor(
        base.diameter,
        base.embedment,
        base.edge_distance,
        base.spacing or 0.0,
        slab,
        concrete.si("concrete_strength"),
    )
    breakout = float(anchors.lasting_shear(anchors.row_breakout(anchor)))
    numbers = (
        given("d", base.diameter, "m", "sheet"),
        given("le", base.embedment, "m", "sheet"),
        given("c", base.edge_distance, "m", "sheet"),
        given("h", slab, "m", "sheet"),
        given("fc", concrete.si("concrete_strength"), "Pa"),
    )
    steps = (
        step("V", "edge breaks out, for good", "V = 0.70*V_row/1.4", numbers, (breakout, "N"), CONCRETE),
    )
    least = float(anchors.least_edge(base.diameter, "adhesive"))
    least_steps = (
        step(
            "c",
            "least edge distance",
            "c = 6*d",
            (given("d", base.diameter, "m", "sheet"),),
            (least, "m"),
            CONCRETE,
        ),
    )
    return [
        Judged(
            below(
                at,
                "breakout",
                "edge of the slab breaking out",
                force,
                "N",
                Limit(
                    breakout,
                    CONCRETE,
                    f"strength times 0.70, load times 1.4; {concrete.title[0].lower()}{concrete.title[1:]}",
                ),
                cautions=(ANCHOR,),
            ),
            steps,
        ),
        Judged(
            above(
                at,
                "edge",
                words,
                base.edge_distance,
                "m",
                Limit(least, CONCRETE, near=0.05),
                style="sheet",
                cautions=(ANCHOR,),
            ),
            least_steps,
            by_level=False,
        ),
    ]
