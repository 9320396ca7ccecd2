"""Fasteners in a row along the pull: the outer ones take more, so that all of them together carry less than each alone.

Where the plan does not say how far apart they are, the least distance that counts is taken by Eurocode 5, where a
row weakens as it closes up, and four inches by the American rules, where it weakens as it stretches.
"""

from __future__ import annotations

from dataclasses import replace

from tidestead.catalog import Row
from tidestead.core.answer import Step
from tidestead.core.source import Known, Source
from tidestead.core.units import to_si
from tidestead.physics.structure import eurocode_fasteners, eurocode_groups, nds_groups
from tidestead.physics.structure.nds_fasteners import SMALL
from tidestead.plan.model import Fixing
from tidestead.studies.checks import given
from tidestead.studies.judged import step
from tidestead.studies.structure.fixings import SCREW_THICK, TOO_CLOSE, Held, Sides
from tidestead.studies.structure.timber import Setting

NAILS_CLOSEST = 7.0
"""Diameters between driven nails and screws of a row. Source: EN 1995-1-1, Table 8.1, from memory."""

BOLTS_CLOSEST = 5.0
"""Diameters between bolts and thick screws of a row along the grain. Source: EN 1995-1-1, Table 8.4, from memory."""

NDS_APART = to_si(4.0, "in", "length")
"""Distance that the printed group factors are for; closer rows lose less. Source: NDS-2018, Table 11.3.6A."""

NDS_GROUP = Source("AWC, NDS-2018", "equation 11.3-1", Known.RECALLED)
EC_NAILS = Source("EN 1995-1-1", "8.3.1.1(8), equation 8.17", Known.RECALLED)
EC_BOLTS = Source("EN 1995-1-1", "8.5.1.1(4), equation 8.34", Known.QUOTED)


def in_rows(setting: Setting, fastener: Row, fixing: Fixing, sides: Sides, joint: Held) -> Held:
    """A joint whose fasteners stand in rows along the pull, with as many as count."""
    each_row = joint.count / max(fixing.rows or 1, 1)
    if joint.refused or each_row <= 1.0:
        return joint
    line = _nds_row if setting.rules == "NDS" else _ec_row
    found = line(fastener, fixing, sides, joint, each_row)
    if found is None:
        return replace(joint, each=0.0, refused=TOO_CLOSE, steps=())
    return replace(joint, effective=found.result, steps=(*joint.steps, found))


def _nds_row(fastener: Row, fixing: Fixing, sides: Sides, joint: Held, each_row: float) -> Step | None:
    """n times C_g."""
    diameter = fastener.si("diameter")
    number, apart = round(each_row + 0.499), fixing.row_spacing or NDS_APART
    main, side = sides.point, sides.head
    row = nds_groups.DowelRow(number, diameter, apart, main.modulus, main.area, side.modulus, side.area)
    share = nds_groups.group_action_factor(row) if diameter >= SMALL else 1.0
    numbers = (
        given("n", joint.count, "count"),
        given("C_g", share, "1"),
        given("in a row", number, "count"),
        given("s", apart, "m", "fine"),
    )
    return step("n_ef", "that many count", "n_ef = n*C_g", numbers, (joint.count * share, "1"), NDS_GROUP)


def _ec_row(fastener: Row, fixing: Fixing, _: Sides, joint: Held, each_row: float) -> Step | None:
    """n_ef of nails or of bolts; None where they stand closer than counts."""
    diameter, rows = fastener.si("diameter"), joint.count / each_row
    bears = diameter
    if fastener.has("root"):
        bears = float(eurocode_fasteners.screw_diameter(diameter, fastener.si("root"), 0.0))
    thick = fastener.tag("kind") == "bolt" or bears > SCREW_THICK
    least = (BOLTS_CLOSEST if thick else NAILS_CLOSEST) * diameter
    apart = fixing.row_spacing or least
    if apart < least * (1.0 - 1e-9):
        return None
    group = eurocode_groups.bolts_in_row if thick else eurocode_groups.nails_in_row
    counted = float(group(each_row, apart, diameter))  # type: ignore[arg-type]  # a share of a row is a count too
    numbers = (
        given("m", rows, "1"),
        given("n", each_row, "1"),
        given("a1", apart, "m", "fine"),
        given("d", diameter, "m", "fine"),
        given("n1", counted, "1"),
    )
    how = "least of n and n**0.9*(a1/(13*d))**0.25" if thick else "n**k, k by a1/d"
    meaning = f"that many count in m rows of n, n1: {how}"
    source = EC_BOLTS if thick else EC_NAILS
    return step("n_ef", meaning, "n_ef = m*n1", numbers, (rows * counted, "1"), source)
