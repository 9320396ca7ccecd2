"""What weirs, standpipes, siphons, vessels, power stops and shut valves keep to whatever the numbers."""

from __future__ import annotations

import math

import numpy as np
import pytest
from hypothesis import assume, example, given, settings
from hypothesis import strategies as st

from tidestead.core.errors import ImpossibleInput
from tidestead.physics.flow import (
    draining,
    isolation,
    levels,
    runback,
    siphons,
    standpipes,
    surge,
    top_off,
    webs,
    weirs,
)
from tidestead.physics.flow.draining import Basin, Outlet, upright_basin
from tidestead.physics.flow.isolation import OpenWater, Piece
from tidestead.physics.flow.laws import Law
from tidestead.physics.flow.levels import Spill
from tidestead.physics.flow.siphons import SiphonPipe
from tidestead.physics.flow.standpipes import Standpipe, StandpipeLaw
from tidestead.physics.flow.top_off import StuckFill
from tidestead.physics.flow.webs import Pipe, PipeEnd
from tidestead.physics.flow.weirs import Comb, Weir, WeirLaw

LENGTH = st.floats(0.05, 5.0)
HEIGHT = st.floats(0.1, 2.0)
HEAD = st.floats(0.0, 0.2)
FLOW = st.floats(1e-7, 0.05)
BORE = st.floats(0.015, 0.2)
SHARE = st.floats(0.05, 1.0)


@st.composite
def made_weirs(draw: st.DrawFn) -> Weir:
    """Plain weirs, contracted ones, and combs."""
    length = draw(LENGTH)
    comb = None
    if draw(st.booleans()):
        width = draw(st.floats(0.004, 0.05))
        most = int(length / width)
        comb = Comb(max(1, int(most * draw(st.floats(0.001, 0.9)))), width, draw(st.floats(0.005, 0.1)))
    return Weir(length, draw(HEIGHT), length / draw(SHARE), draw(st.floats(0.0, 0.03)), comb)


@st.composite
def made_basins(draw: st.DrawFn) -> Basin:
    """Vessels of two to five levels."""
    surfaces = draw(st.lists(st.floats(0.1, 20.0), min_size=2, max_size=5))
    steps = draw(st.lists(st.floats(0.05, 1.0), min_size=len(surfaces) - 1, max_size=len(surfaces) - 1))
    floor = draw(st.floats(-2.0, 2.0))
    return Basin((floor, *(floor + np.cumsum(steps)).tolist()), tuple(surfaces))


def _rises_evenly(law: Law, flow: float) -> None:
    """Head grows with flow, and the slope told is the slope there is."""
    here = law.at(flow)
    step = 1e-5 * flow
    before, after = law.at(flow - step), law.at(flow + step)
    assert before.head < here.head < after.head
    assert (after.head - before.head) / (2.0 * step) == pytest.approx(here.slope, rel=2e-3)


@given(made_weirs(), FLOW)
def test_a_weirs_law_rises(weir: Weir, flow: float) -> None:
    law = WeirLaw(weir)
    here, more = law.at(flow), law.at(flow * 1.001)
    assert 0.0 < here.head < more.head
    assert here.slope > 0.0
    if weir.comb is None:
        _rises_evenly(law, flow)


@given(made_weirs(), st.floats(0.003, 0.2))
@example(Weir(1.75, 1.0, 1.75, thickness=0.0, comb=Comb(1, 0.0078125, 0.0625)), 0.0625)
def test_head_for_the_flow_of_a_head(weir: Weir, head: float) -> None:
    flow = float(weirs.weir_flow(weir, head))
    assert WeirLaw(weir).at(flow).head == pytest.approx(head, rel=1e-9)


@given(made_weirs(), FLOW)
def test_the_span_of_a_head_holds_the_likely_one(weir: Weir, flow: float) -> None:
    found = weirs.weir_head(weir, flow)
    assert found.low <= 0.97 * found.likely + 1e-15
    assert found.high >= 1.03 * found.likely
    if found.likely < 0.03:
        assert found.within != "range"
        assert found.high >= 1.15 * found.likely


@given(made_weirs(), FLOW, st.floats(-0.05, 0.2))
def test_the_head_that_a_law_gives_passes_the_flow(weir: Weir, flow: float, tail: float) -> None:
    """Put back into the printed formulas, free and with water behind. A comb with few slots bends sharply."""
    head = WeirLaw(weir).before(flow, tail).head
    assume(head > 0.003 and head - tail > 1e-5)
    share = float(weirs.drowned_share(head, tail))
    assert share * weirs.weir_flow(weir, head) == pytest.approx(flow, rel=1e-6)


@given(made_weirs(), HEAD, HEAD)
def test_more_head_more_flow(weir: Weir, one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert weirs.weir_flow(weir, low) <= weirs.weir_flow(weir, high)


@given(made_weirs(), HEAD)
def test_teeth_never_help(weir: Weir, head: float) -> None:
    plain = Weir(weir.length, weir.height, weir.length)
    assert weirs.weir_flow(weir, head) <= weirs.weir_flow(plain, head) * (1.0 + 0.0052 / weir.length)


@given(LENGTH, HEIGHT)
def test_a_comb_is_smooth_at_the_tops_of_its_teeth(length: float, height: float) -> None:
    weir = Weir(length, height, length, comb=Comb(3, length / 6.0, 0.02))
    below, above = weirs.comb_flow(weir, 0.02 - 1e-9), weirs.comb_flow(weir, 0.02 + 1e-9)
    assert above == pytest.approx(below, rel=1e-6)


@given(st.floats(0.001, 0.2), SHARE, SHARE)
def test_drowning_only_takes(head: float, one: float, other: float) -> None:
    less, more = sorted((one, other))
    shares = [weirs.drowned_share(head, head * part) for part in (0.0, less, more)]
    assert 1.0 == shares[0] >= shares[1] >= shares[2] >= 0.0
    assert weirs.drowned_share(head, -0.1) == 1.0


@given(made_weirs(), FLOW, st.floats(1e-5, 0.5))
def test_a_drowned_head_is_between_the_water_behind_and_that_with_the_free_head_on_top(
    weir: Weir, flow: float, tail: float
) -> None:
    free, head = WeirLaw(weir).at(flow).head, weirs.drowned_head(weir, flow, tail)
    assert max(free, tail) <= head * (1.0 + 1e-12)
    assert head <= (free + tail) * (1.0 + 1e-9)
    if head > 0.0011 and head > tail * (1.0 + 1e-6):
        kept = weirs.drowned_share(head, tail) * weirs.weir_flow(weir, head)
        assert kept == pytest.approx(flow, rel=1e-6)


@given(made_weirs(), FLOW, st.floats(1e-4, 0.3))
def test_the_span_of_a_drowned_head_holds_the_likely_one_and_what_stands_behind(
    weir: Weir, flow: float, tail: float
) -> None:
    found, free = weirs.weir_head(weir, flow, tail), weirs.weir_head(weir, flow)
    assert tail * (1.0 - 1e-9) <= found.low <= found.likely * (1.0 + 1e-9)
    assert found.likely <= found.high * (1.0 + 1e-9)
    assert found.high >= free.high * (1.0 - 1e-9)


@given(made_weirs(), st.floats(1e-4, 0.05), st.floats(1e-3, 0.3))
def test_slopes_of_a_drowned_head_are_those_of_its_values(weir: Weir, flow: float, tail: float) -> None:
    law = WeirLaw(weir)
    here, step = law.before(flow, tail), 1e-4
    by_flow = (law.before(flow * (1 + step), tail).head - law.before(flow * (1 - step), tail).head) / (
        2.0 * step * flow
    )
    by_tail = (law.before(flow, tail * (1 + step)).head - law.before(flow, tail * (1 - step)).head) / (
        2.0 * step * tail
    )
    assert here.slope == pytest.approx(by_flow, rel=0.01, abs=1e-7)
    assert here.follows == pytest.approx(by_tail, rel=0.01, abs=1e-5)
    assert 0.0 <= here.follows <= 1.0 + 1e-9


@given(BORE, FLOW)
def test_a_standpipes_law_rises(bore: float, flow: float) -> None:
    law = StandpipeLaw(bore)
    turn = float(standpipes.drowned_flow(bore, standpipes.drowning_head(bore)))
    if abs(flow / turn - 1.0) > 1e-3:
        _rises_evenly(law, flow)
    assert law.at(-flow).head < 0.0 < law.at(-flow).slope


@given(BORE, st.floats(0.05, 3.0), st.floats(1.0, 50.0), st.floats(0.0005, 0.5))
def test_a_standpipe_takes_no_more_than_any_limit(bore: float, drop: float, loss: float, head: float) -> None:
    pipe = Standpipe(bore, drop, loss)
    found = standpipes.standpipe_flow(pipe, head)
    assert found.flow == min(found.lip, found.drowned, found.full)
    if head > 0.01 * bore:
        assert standpipes.standpipe_head(pipe, found.flow).head == pytest.approx(head, rel=1e-6, abs=1e-9)


@given(BORE, st.floats(1.0, 50.0), st.floats(0.0, 5.0))
def test_a_siphon_there_and_back(bore: float, loss: float, fall: float) -> None:
    pipe = SiphonPipe(bore, loss)
    assert siphons.siphon_fall(pipe, siphons.siphon_flow(pipe, fall)) == pytest.approx(fall, abs=1e-12)


@given(made_basins(), SHARE)
def test_level_for_the_volume_of_a_level(basin: Basin, share: float) -> None:
    level = basin.floor + share * (basin.brim - basin.floor)
    assert draining.level_of(basin, draining.volume_at(basin, level)) == pytest.approx(level, abs=1e-9)


@given(made_basins(), st.floats(0.0, 1.0), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_times_of_two_falls_add_up(basin: Basin, one: float, two: float, three: float) -> None:
    outlet = Outlet(basin.floor, 1e-3, 0.61)
    end, middle, start = sorted(basin.floor + part * (basin.brim - basin.floor) for part in (one, two, three))
    whole = draining.basin_draining_time(basin, outlet, start, end)
    parts = (
        draining.basin_draining_time(basin, outlet, start, middle),
        draining.basin_draining_time(basin, outlet, middle, end),
    )
    assert sum(parts) == pytest.approx(whole, rel=1e-9, abs=1e-6)


@settings(max_examples=25, deadline=None)
@given(made_basins(), made_basins(), SHARE, SHARE, st.floats(0.2, 3.0))
def test_no_water_is_won_or_lost(
    upper: Basin, lower: Basin, full: float, cut: float, crest_length: float
) -> None:
    crest = upper.floor + cut * 0.9 * (upper.brim - upper.floor)
    start = upper.floor + full * (upper.brim - upper.floor)
    below = lower.floor + 0.3 * (lower.brim - lower.floor)
    lost = float(siphons.siphon_fall(SiphonPipe(0.05, 4.0), 1e-3))
    ways = (
        Spill(0, 1, crest, WeirLaw(Weir(crest_length, 0.5, crest_length))),
        Pipe(PipeEnd(0, crest - 0.05), PipeEnd(1, 10.0), lost, 1e-3),
    )
    course = levels.level_course((upper, lower), (start, below), ways, 600.0)
    totals = course.volumes.sum(axis=1)
    assert np.ptp(totals) <= 1e-9 * max(totals[0], 1.0)
    assert np.all(np.diff(course.levels[:, 0]) <= 1e-12)
    assert course.levels[-1, 0] >= min(start, max(crest - 0.05, upper.floor)) - 1e-6


@given(st.floats(1e-5, 1e-3), st.floats(1.0, 30.0), st.floats(0.01, 5.0), st.floats(0.0, 200.0))
def test_fresh_water_only_freshens(flow: float, volume: float, free: float, hours: float) -> None:
    fill = StuckFill(flow, volume, free, 35.0, 1025.0, 998.0)
    after = top_off.stuck_salinity(fill, hours * 3600.0)
    assert 0.0 <= after <= 35.0
    if after > 1.0 and hours > 0.01:
        assert top_off.dilution_time(fill, after) == pytest.approx(hours * 3600.0, rel=1e-6)


def test_a_small_supply_does_no_more_than_it_can() -> None:
    fill = StuckFill(1e-4, 10.0, 2.0, 35.0, 1025.0, 1000.0, supply=0.2)
    assert math.isinf(top_off.flooding_time(fill))
    assert math.isinf(top_off.dilution_time(fill, 30.0))
    assert top_off.stuck_salinity(fill, 1e9) == pytest.approx(35.0 * 10250.0 / 10450.0)


@given(st.floats(0.01, 3.0), st.floats(1.0, 200.0), st.floats(0.001, 20.0))
def test_hammer_is_bounded(change: float, length: float, time: float) -> None:
    """A stop in the time of a wave there and back gives the same by both formulas; a slower one less."""
    wave = surge.wave_speed(surge.ElasticPipe(0.05, 0.004), 1025.0, 1530.0)
    assert 200.0 < wave < 1530.0
    most = surge.hammer_pressure(1025.0, wave, change)
    turn = surge.returning_time(length, wave)
    assert surge.slow_stop_pressure(1025.0, length, change, turn) == pytest.approx(most)
    assert surge.slow_stop_pressure(1025.0, length, change, turn + time) < most


@given(st.permutations(range(5)), st.integers(0, 4))
def test_shutting_off_does_not_depend_on_the_order(order: list[int], asked: int) -> None:
    waters = {
        "tank": OpenWater(upright_basin(0.0, 1.3, 6.0), 1.2),
        "sump": OpenWater(upright_basin(-0.8, 0.0, 1.0), -0.4),
    }
    pieces = (
        Piece("suction", "pipe", "sump", "p", -0.7, -0.7, 0.001),
        Piece("pump", "pump", "p", "a", -0.7, -0.7),
        Piece("valve", "valve", "a", "b", -0.6, -0.6),
        Piece("return", "pipe", "b", "tank", -0.6, 1.0, 0.004),
        Piece("branch", "pipe", "b", "tank", -0.6, 0.9, 0.003),
    )
    mixed = [pieces[place] for place in order]
    one = isolation.isolation(pieces, waters, pieces[asked].name)
    other = isolation.isolation(mixed, waters, pieces[asked].name)
    assert set(one.valves) == set(other.valves)
    assert set(one.section) == set(other.section)
    assert one.drains == other.drains
    assert one.lost == pytest.approx(other.lost)


@pytest.mark.parametrize(
    "make",
    [
        lambda: Weir(0.0, 1.0, 1.0),
        lambda: Weir(1.0, 1.0, 0.5),
        lambda: Weir(1.0, 1.0, 1.0, comb=Comb(200, 0.01, 0.02)),
        lambda: weirs.comb_flow(Weir(1.0, 1.0, 1.0), 0.01),
        lambda: weirs.weir_flow(Weir(1.0, 1.0, 1.0), -0.01),
        lambda: weirs.weir_head(Weir(1.0, 1.0, 1.0), math.nan),
        lambda: weirs.drowned_share(0.01, 0.02),
        lambda: Standpipe(0.05, 1.0, 0.5),
        lambda: SiphonPipe(0.05, 0.9),
        lambda: standpipes.stack_capacity(0.05, 1.2),
        lambda: Basin((0.0, 0.0), (1.0, 1.0)),
        lambda: Basin((0.0, 1.0), (1.0, -1.0)),
        lambda: Basin((0.0,), (1.0,)),
        lambda: draining.level_of(upright_basin(0.0, 1.0, 1.0), -1.0),
        lambda: draining.pipe_coefficient(0.5),
        lambda: runback.share_above(1.0, 0.0, 0.5),
        lambda: Pipe(PipeEnd(0), PipeEnd(1), 0.0, 1e-3),
        lambda: webs.pipe_flows([], []),
        lambda: StuckFill(0.0, 1.0, 1.0, 35.0, 1025.0, 1000.0),
        lambda: top_off.dilution_time(StuckFill(1e-4, 1.0, 1.0, 35.0, 1025.0, 1000.0), 36.0),
    ],
)  # fmt: skip
def test_what_nature_does_not_have_is_refused(make: object) -> None:
    assert callable(make)
    with pytest.raises(ImpossibleInput):
        make()


def test_a_way_to_a_vessel_that_is_not_there_is_refused() -> None:
    way = Spill(0, 1, 0.2, StandpipeLaw(0.05))
    with pytest.raises(ImpossibleInput, match="two vessels"):
        levels.level_course((upright_basin(0.0, 1.0, 1.0),), (0.5,), (way,), 9.0)
