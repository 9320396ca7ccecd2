"""Rims as the whole frame moves them, first fill, a lost tie: what a hostile reader found, and what now catches it."""

from __future__ import annotations

import math

import pytest

from tests.journeys.structure_plans import PLAIN, TANK, VAT, asked, changed, checks, facts, missing, value
from tidestead.core.answer import Answer
from tidestead.physics.structure.filling import CREEP_IN_HOLD, READING_ERROR
from tidestead.studies.structure.facts import VesselFacts
from tidestead.studies.structure.rims import RimFacts, RimInFrame

UNEQUAL = changed(VAT, ('width = "30 in"', 'width = "48 in"'), ('from_left = "21 in"', 'from_left = "12 in"'))
PROPPED = (
    '[vessels.vat.walls.east.buttresses]\nspacing = "2 ft"\nreach = "2 ft"\nsection = "4x4"\ngrade = "dfl-no2"\n'
    'anchor_capacity = "3000 lbf"\n\n'
)
"""Buttresses at one wall: no whole frame is made then."""


def vessel(text: str) -> VesselFacts:
    (only,) = facts(text).built
    return only


def in_frame(rim: RimFacts) -> RimInFrame:
    """A rim as the whole frame moves it, which must have been solved."""
    assert rim.frame is not None
    return rim.frame


def table(answer: Answer, ident: str) -> list[tuple[object, ...]]:
    (found,) = [one for one in answer.tables if one.id == ident]
    return list(found.rows)


# ---- rims that give with their ties ----------------------------------------------------------------


def test_rims_of_unequal_walls_move_together_and_it_is_told() -> None:
    """A window hands its load to the jambs: the north rim is pushed out more, and takes the south one inward."""
    rims = vessel(VAT).cases[0].rims
    north, south = rims["north"], rims["south"]
    (_, out), (_, back) = in_frame(north).farthest, in_frame(south).farthest
    assert out * back < 0.0
    assert abs(out) > 3.0 * north.hand_bow
    for name, rim in (("north", north), ("south", south)):
        moved = value(VAT, f"vat.{name}.rim.moves")
        assert moved.likely >= abs(in_frame(rim).farthest[1]) * rim.piece.creep * (1 - 1e-9)


def test_rim_moves_as_its_nodes_do() -> None:
    """The profile of a rim against the displacements of the frame's own nodes, signs turned by hand."""
    case = vessel(TANK).cases[0]
    assert case.frame is not None
    state = case.frame.state
    outward = {"south": (1, -1.0), "north": (1, 1.0), "west": (0, -1.0), "east": (0, 1.0)}
    for name, rim in case.rims.items():
        axis, sign = outward[name]
        ends = {"south": ("sw", "se"), "north": ("ne", "nw"), "west": ("nw", "sw"), "east": ("se", "ne")}[
            name
        ]
        left, right = (sign * state.displacement(f"corner.{end}.head")[axis] for end in ends)
        for node in state.model.nodes:
            if not node.name.startswith(f"{name}.") or abs(node.z - 1.2192) > 1e-9:
                continue
            along = (node.x, node.y)[1 - axis]
            at = rim.place.length - along if name in ("north", "west") else along
            line = left + (right - left) * at / rim.place.length
            assert in_frame(rim).at(at) == pytest.approx(
                sign * state.displacement(node.name)[axis] - line, abs=1e-9
            )


def test_shear_and_bow_of_a_rim_take_the_adverse_of_hand_and_frame() -> None:
    for name, rim in vessel(VAT).cases[0].rims.items():
        assert rim.shear.high == pytest.approx(max(rim.hand.shear.max(), in_frame(rim).shear)), name
        assert rim.bow.high == pytest.approx(max(rim.hand_bow, in_frame(rim).bow)), name


def test_without_a_frame_unequal_rims_are_not_proved() -> None:
    alike = changed(PLAIN, ("[vessels.vat.ties", PROPPED + "[vessels.vat.ties"))
    assert vessel(alike).cases[0].frame is None
    assert not [ident for ident in checks(alike) if ident.endswith(".unequal")]
    uneven = changed(UNEQUAL, ("[vessels.vat.ties", PROPPED + "[vessels.vat.ties"))
    assert "unequally" in missing(uneven, "vat.south.rim.unequal")
    assert not [ident for ident in checks(UNEQUAL) if ident.endswith(".unequal")]


# ---- first fill ------------------------------------------------------------------------------------


def test_first_fill_tells_how_a_rim_really_moves() -> None:
    told = vessel(VAT)
    full = next(case for case in told.cases if case.case.name == "test")
    points = {point.part: point for point in told.fill}
    for name in ("north", "south"):
        rim, step = full.rims[name], points[f"vat.{name}.rim"].steps[-1]
        assert step.at_once == pytest.approx(in_frame(rim).farthest[1], rel=1e-6)
        assert "string" in points[f"vat.{name}.rim"].where
    assert points["vat.north.rim"].steps[-1].at_once * points["vat.south.rim"].steps[-1].at_once < 0.0


def test_stop_and_drain_comes_long_before_years_of_creep() -> None:
    """At once, a quarter of the creep to come, half a millimetre; never more than is allowed for good."""
    for point in vessel(VAT).fill:
        for step in point.steps:
            seen = step.at_once + CREEP_IN_HOLD * abs(step.lasting - step.at_once) + READING_ERROR
            assert step.stop_above <= seen * (1 + 1e-9) + 1e-12, point.where
            if abs(step.lasting) > 2e-3:
                assert step.stop_above < step.lasting + READING_ERROR, point.where
    limit = changed(VAT, ('temperature = "72 degF"', 'temperature = "72 degF"\nbow_limit = "0.2 mm"'))
    (window,) = [point for point in vessel(limit).fill if point.part == "vat.south.pane"]
    assert max(step.stop_above for step in window.steps) <= 0.2e-3


def test_readings_to_stop_at_say_which_way_and_hold_the_bow_that_is_expected() -> None:
    """A bow may go inward: at the tank every stop needs its direction, and what is expected lies between the two."""
    (table,) = [one for one in asked(VAT).tables if one.id == "structure.vat.fill"]
    steps = [step for point in vessel(VAT).fill for step in point.steps]
    assert len(table.rows) == len(steps)
    assert any(step.at_once < 0.0 for step in steps)
    for row, step in zip(table.rows, steps, strict=True):
        outer, inner = str(row[4]), str(row[5])
        assert outer.endswith("outward" if step.stop_above >= 0.0 else "inward")
        assert inner.endswith("inward")
        assert step.stop_below < step.at_once
        assert step.at_once < step.stop_above or step.stop_above == pytest.approx(0.0, abs=1e-9)


# ---- a lost tie ------------------------------------------------------------------------------------


def test_lost_tie_is_told_for_the_rim_that_feels_it_and_what_it_then_bears() -> None:
    """The end walls' rims have the largest moments and feel nothing: they must not hide the long ones."""
    case = vessel(VAT).cases[0]
    assert case.frame is not None
    before = {name: case.frame.state.moment(f"{name}.rim") for name in case.rims}
    for tie in case.frame.lost:
        assert tie.rim in ("south", "north")
        assert tie.growth > 1.1
        assert before[tie.rim] * tie.growth > 0.0
        rim = case.rims[tie.busiest]
        strength = rim.piece.bending * (1.25 / 0.9) * rim.piece.shape.strong_modulus
        assert tie.use >= before[tie.busiest] / strength * (1 - 1e-9)
    rows = table(asked(VAT), "structure.vat.lost_tie")
    assert [row[1] for row in rows] == [tie.rim for tie in case.frame.lost]
    assert all(isinstance(row[4], float) and math.isfinite(row[4]) for row in rows)
