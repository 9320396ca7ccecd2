"""What runs back when pumps stop keeps to whatever the numbers: guards, ways from vessel to vessel, levels in time."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tidestead.physics.flow import draining, levels, runback, webs
from tidestead.physics.flow.draining import upright_basin
from tidestead.physics.flow.runback import Guards, HeldWater, PowerStop, Standing, Way
from tidestead.physics.flow.webs import Pipe, PipeEnd


@given(st.floats(0.0, 0.05), st.floats(0.01, 0.5), st.floats(0.0, 0.05), st.booleans())
def test_the_more_fails_the_more_runs_back(film: float, deep: float, hole: float, check: bool) -> None:
    basin, sump = upright_basin(0.0, 1.5, 6.0), upright_basin(-0.8, 0.0, 1.0)
    ways = (
        Way("basin", "sump", 1.2),
        Way("basin", "sump", 1.2 - hole - deep, 1.2 - hole, check),
    )
    held = (
        HeldWater(0.004, -0.5, 1.2, "", "sump"),
        HeldWater(0.004, -0.5, 1.1, "sump", "", check),
    )
    vessels = {"basin": Standing(basin, 1.2 + film), "sump": Standing(sump, -0.4)}
    found = runback.runback_cases(PowerStop(vessels, ways, held, "sump"))
    worst = found.both_failed.total
    assert found.working.total <= min(found.break_blocked.total, found.check_failed.total) + 1e-12
    assert max(found.break_blocked.total, found.check_failed.total) <= worst + 1e-12
    for case in (found.working, found.break_blocked, found.check_failed, found.both_failed):
        gained = draining.volume_at(sump, case.sump_level) - draining.volume_at(sump, -0.4)
        assert gained == pytest.approx(case.total, abs=1e-9)
        assert case.total == pytest.approx(case.from_vessels + case.from_pipes)


@st.composite
def made_ways(draw: st.DrawFn) -> tuple[Way, ...]:
    """Ways between a few places, the sump among them."""
    places = st.sampled_from(("sump", "a", "b", "c", "j"))
    way = st.builds(
        Way, places, places, st.floats(-1.0, 1.0), st.none() | st.floats(-1.0, 1.0), st.booleans()
    )
    return tuple(draw(st.lists(way, max_size=10)))


@given(made_ways(), made_ways(), st.booleans(), st.booleans())
def test_no_way_lies_lower_than_the_place_it_leads_to(
    ways: tuple[Way, ...], more: tuple[Way, ...], checks: bool, breaks: bool
) -> None:
    """Every head is that of some way out; more ways or fewer guards never leave a vessel fuller."""
    guards = Guards(checks, breaks)
    heads = runback.lowest_heads(ways, "sump", -0.5, guards)
    for place in heads.keys() - {"sump"}:
        outs = [
            max(runback.way_needs(way, guards), heads[way.end])
            for way in ways
            if way.start == place and way.end in heads and way.end != place
        ]
        assert heads[place] == min(outs)
    lower = runback.lowest_heads((*ways, *more), "sump", -0.5, Guards(False, False))
    assert all(lower[place] <= head for place, head in heads.items())


@given(st.lists(st.floats(-1.0, 2.0), min_size=3, max_size=3), st.floats(0.3, 3.0), st.floats(0.0, 0.5))
def test_a_junction_passes_on_what_it_gets(levels: list[float], head: float, bare: float) -> None:
    ends = [PipeEnd(at, bare, bare) for at in range(3)]
    pipes = [Pipe(end, PipeEnd(3), head, 1e-3 * (at + 1)) for at, end in enumerate(ends)]
    flows = webs.pipe_flows(levels, pipes)
    assert abs(float(flows.sum())) <= 1e-10
    for flow, level in zip(flows, levels, strict=True):
        assert flow <= 1e-12 or level > bare


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.floats(0.0, 1.5), min_size=3, max_size=3),
    st.lists(st.tuples(st.floats(0.0, 1.2), st.floats(1e-4, 5e-3)), min_size=3, max_size=3),
    st.floats(0.0, 1.2),
)
def test_no_vessel_sinks_below_where_its_water_can_go(
    start: list[float], arms: list[tuple[float, float]], lip: float
) -> None:
    """Three vessels on one junction, the first with a way over a lip to a sump: steps against the ways."""
    basins = [upright_basin(-2.0, 3.0, area) for area in (4.0, 0.3, 1.0)] + [upright_basin(-9.0, 9.0, 50.0)]
    pipes = [Pipe(PipeEnd(at, edge, edge), PipeEnd(4), 0.5, flow) for at, (edge, flow) in enumerate(arms)]
    down = Pipe(PipeEnd(0, -1.0), PipeEnd(3, 9.0, lip), 0.5, 2e-3)
    course = levels.level_course(basins, [*start, -8.0], [*pipes, down], 3600.0, 1e-6)
    ways = [Way("0", "3", lip)]
    for at, (edge, _) in enumerate(arms):
        ways += [Way(str(at), "j", edge), Way("j", str(at), edge)]
    heads = runback.lowest_heads(ways, "3", -8.0, Guards())
    for at, level in enumerate(start):
        # Water that ends in a vessel with nothing left to give is not on its way to the sump.
        others = [course.levels[:, one].min() for one in range(3) if one != at]
        assert course.levels[:, at].min() >= min(heads[str(at)], level, max(arms[at][0], min(others))) - 1e-5
    assert np.ptp(course.volumes.sum(axis=1)) < 1e-8


@given(st.floats(0.01, 2.0), st.floats(0.0, 1.0), st.floats(-1.0, 2.0))
def test_a_pipe_is_above_and_below_a_level(rise: float, low: float, level: float) -> None:
    share = runback.share_above(low, low + rise, level)
    assert 0.0 <= share <= 1.0
    assert runback.share_above(low, low + rise, level + 0.1) <= share


def _joined(bare: float) -> tuple[Pipe, ...]:
    """A pipe between two vessels that draws air once the first has sunk to a level."""
    return (Pipe(PipeEnd(0, bare), PipeEnd(1), 0.5, 2e-3),)


@given(st.floats(0.0, 1.19), st.floats(0.0, 1.19))
@settings(max_examples=40, deadline=None)
def test_a_course_is_taken_for_another_only_where_both_are_the_same(bare: float, other: float) -> None:
    """Two vessels come to one level at 0.9 m unless air is drawn before: what lies under that is never met."""
    basins, start = (upright_basin(0.0, 2.0, 2.0), upright_basin(0.0, 2.0, 1.0)), (1.2, 0.3)
    first, second = (levels.level_course(basins, start, _joined(one), 4000.0, 2e-7) for one in (bare, other))
    same = first.is_of(_joined(bare), _joined(other))
    assert same or max(bare, other) > 0.89
    assert not same or (np.array_equal(first.levels, second.levels) and first.lowest == second.lowest)
    assert not first.is_of(_joined(bare), (*_joined(bare), *_joined(bare)))
    one_way = (Pipe(PipeEnd(0, bare), PipeEnd(1), 0.5, 2e-3, one_way=True),)
    assert not first.is_of(_joined(bare), one_way)
    assert not first.is_of(_joined(bare), _joined(float("nan")))
