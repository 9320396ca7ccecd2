"""Judging anchors near the edge of a slab: it must neither split nor break out."""

from __future__ import annotations

from tidestead.core.source import Known, Source
from tidestead.physics.structure import anchors
from tidestead.plan.model import BaseJoint
from tidestead.studies.checks import At, Limit, above, below, given
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.wall_checks import nothing

CONCRETE = Source("ACI 318-19", "17.7.2, as an anchor maker's guide prints it", Known.QUOTED)

UNKNOWN_CONCRETE = "strength times 0.70, load times 1.4; house slab, concrete of unknown strength"

EDGE = "anchor to the edge of the slab"

ANCHOR = "The anchor's approval governs: cracked concrete, permanent load, edge distance, corrosion by salt."


def edge_checks(at: At, base: BaseJoint, slab: float | None, force: float, ask: Ask) -> list[Judged]:
    """The push drives anchors at the slab's edge: it must neither split nor break out."""
    wanted = {
        f"{at.path}.edge_distance": base.edge_distance,
        f"{at.path}.diameter": base.diameter,
        f"{at.path}.embedment": base.embedment,
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
        given("V_row", breakout * 1.4 / 0.70, "N"),
    )
    words = "edge of the slab breaking out"
    steps = (
        step(
            "V",
            f"{words}, for good",
            "V = 0.70*V_row/1.4, V_row by the row's cone of concrete",
            numbers,
            (breakout, "N"),
            CONCRETE,
        ),
    )
    limit = Limit(breakout, CONCRETE, UNKNOWN_CONCRETE)
    advice = "anchors further from the edge or closer together, a thicker slab, or ties under the floor"
    check = below(at, "breakout", words, force, "N", limit, advice=advice, cautions=(ANCHOR,))
    return Judged(check, steps)


def _least_edge(at: At, anchor: anchors.EdgeAnchor) -> Judged:
    least = float(anchors.least_edge(anchor.diameter, "adhesive"))
    diameter = given("d", anchor.diameter, "m", "sheet")
    steps = (step("c", "least edge distance", "c = 6*d", (diameter,), (least, "m"), CONCRETE),)
    limit = Limit(least, CONCRETE, near=0.05)
    advice = "anchors further from the edge, or thinner ones"
    check = above(at, "edge", EDGE, anchor.edge, "m", limit, style="sheet", advice=advice, cautions=(ANCHOR,))
    return Judged(check, steps, by_level=False)
