"""Laws of networks: balance, order, scaling, opening and shutting, and nothing silently wrong."""

from __future__ import annotations

import math
import random
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.flow_networks import (
    BORES,
    CIRCUIT,
    CURVE,
    PUMP,
    RISER,
    SPILL,
    SUMP,
    Lot,
    drowning_lot,
    faults,
    is_stuck,
    lot,
    pipe,
    weir,
)
from tests.many import many
from tidestead.catalog import table
from tidestead.core.errors import SolverError
from tidestead.physics.flow.fittings import FittingLaw, StrainerLaw
from tidestead.physics.flow.laws import Link, OutfallLaw, SeriesLaw, ShutLaw
from tidestead.physics.flow.network import NetworkState, solve_network
from tidestead.physics.flow.operating import operating_point, system_curve
from tidestead.physics.flow.pumps import PumpLaw, parabola_pump, standing_pump
from tidestead.physics.flow.standpipes import StandpipeLaw
from tidestead.physics.flow.valves import CheckLaw, ValveCurve, ValveLaw
from tidestead.physics.flow.weirs import Weir, drowned_share, weir_flow


def solved(made: Lot, links: tuple[Link, ...] | None = None) -> NetworkState:
    return solve_network(links or made.links, made.fixed, made.injections)


def answered(made: Lot) -> NetworkState | None:
    """The answer, or nothing where the lot gave a network that has none."""
    try:
        return solved(made)
    except SolverError as trouble:
        told = str(trouble)
    if not is_stuck(made):
        pytest.fail(told)
    return None


@given(seed=st.integers(0, 10_000), size=st.sampled_from([(5, 6), (8, 11), (20, 30)]))
@settings(deadline=None, max_examples=many(120))
def test_every_law_holds_and_every_node_is_in_balance(seed: int, size: tuple[int, int]) -> None:
    made = lot(seed, *size)
    state = answered(made)
    if state is not None:
        assert faults(made.links, made.fixed, made.injections, state) == []


def test_most_networks_made_by_lot_have_an_answer() -> None:
    found = [answered(lot(seed, 12, 18)) for seed in range(60)]
    assert sum(state is not None for state in found) > 40


@given(seed=st.integers(0, 10_000))
@settings(deadline=None, max_examples=40)
def test_order_of_elements_does_not_matter(seed: int) -> None:
    made = lot(seed, 12, 18)
    state = answered(made)
    if state is None:
        return
    shuffled = list(made.links)
    random.Random(seed).shuffle(shuffled)
    again = solve_network(shuffled, dict(reversed(list(made.fixed.items()))), made.injections)
    assert again.flows == state.flows
    assert str(again.heads) == str(state.heads)


@given(seed=st.integers(0, 10_000))
@settings(deadline=None, max_examples=40)
def test_names_do_not_matter(seed: int) -> None:
    """Other names set another order inside, so that only rounding may differ."""
    made = lot(seed, 12, 18)
    state = answered(made)
    if state is None:
        return
    renamed = tuple(
        replace(link, name=f"{hash((seed, link.name)) % 10**8}.{link.name}") for link in made.links
    )
    again = solved(made, renamed)
    largest = max(1e-6, *map(abs, state.flows.values()))
    for link, other in zip(made.links, renamed, strict=True):
        assert again.flows[other.name] == pytest.approx(state.flows[link.name], rel=1e-9, abs=1e-9 * largest)


@given(seed=st.integers(0, 10_000), lift=st.floats(-50.0, 50.0))
@settings(deadline=None, max_examples=40)
def test_datum_does_not_matter(seed: int, lift: float) -> None:
    made = lot(seed, 12, 18)
    state = answered(made)
    if state is None:
        return
    raised = Lot(
        tuple(replace(link, crest=link.crest + lift) for link in made.links),
        {node: level + lift for node, level in made.fixed.items()},
        made.injections,
    )
    again, largest = solved(raised), max(1e-6, *map(abs, state.flows.values()))
    assert again.flows == pytest.approx(state.flows, rel=1e-6, abs=1e-7 * largest)


@given(seed=st.integers(0, 10_000))
@settings(deadline=None, max_examples=40)
def test_a_pipe_laid_the_other_way_round_counts_backwards(seed: int) -> None:
    made = lot(seed, 12, 18)
    state = answered(made)
    if state is None:
        return
    turned = tuple(
        link if link.one_way else replace(link, start=link.end, end=link.start) for link in made.links
    )
    again, largest = solved(made, turned), max(1e-6, *map(abs, state.flows.values()))
    for link in made.links:
        way = 1.0 if link.one_way else -1.0
        assert again.flows[link.name] == pytest.approx(
            way * state.flows[link.name], rel=1e-9, abs=1e-9 * largest
        )


def test_a_start_changes_nothing_but_the_rounds() -> None:
    made = lot(4, 12, 18)
    cold = solved(made)
    warm = solve_network(made.links, made.fixed, made.injections, cold)
    assert warm.flows == pytest.approx(cold.flows, rel=1e-12, abs=1e-15)
    assert warm.rounds < cold.rounds


@given(speed=st.floats(0.3, 1.5), k=st.floats(1.0, 40.0))
@settings(deadline=None, max_examples=40)
def test_affinity_laws_hold_in_a_ring_of_square_resistances(speed: float, k: float) -> None:
    def flow_at(share: float) -> float:
        links = (
            Link("pump", "a", "b", PumpLaw(CURVE.points, share), one_way=True),
            Link("ring", "b", "a", FittingLaw(k, 0.04)),
        )
        return solve_network(links, {"a": 0.0}).flows["ring"]

    assert flow_at(speed) == pytest.approx(speed * flow_at(1.0), rel=1e-6)


@pytest.mark.parametrize("kind", ["ball", "butterfly", "gate", "globe", "diaphragm"])
def test_flow_grows_with_the_opening_of_a_valve(kind: str) -> None:
    row = table("valves")[kind]
    curve = ValveCurve(row.several("positions"), row.several("ks"))

    def flow_at(position: float) -> float:
        valve = Link("valve", "p", "q", ValveLaw(position, 0.0409, 0.3, curve))
        links = (PUMP, valve, replace(RISER, start="q"), SPILL)
        return solve_network(links, SUMP).flows["pump"]

    flows = [flow_at(step / 20.0) for step in range(21)]
    assert flows == sorted(flows)
    assert flows[0] == pytest.approx(0.0, abs=1e-12)
    assert flows[6] < 0.97 * flows[20]
    assert flows[1] > 0.0


@given(fouled=st.floats(0.0, 0.95), more=st.floats(0.001, 0.04))
@settings(deadline=None, max_examples=30)
def test_flow_shrinks_as_a_strainer_fouls(fouled: float, more: float) -> None:
    def flow_at(share: float) -> float:
        links = (
            Link("strainer", "sump", "s", StrainerLaw(3.0, 0.04, share)),
            replace(PUMP, start="s"),
            RISER,
            SPILL,
        )
        return solve_network(links, SUMP).flows["pump"]

    assert flow_at(fouled + more) < flow_at(fouled)


@given(level=st.floats(-2.0, 1.0), bore=st.sampled_from(BORES[2:]), length=st.floats(0.1, 20.0))
@settings(deadline=None, max_examples=30)
def test_a_pump_runs_where_its_curve_crosses_the_systems(level: float, bore: float, length: float) -> None:
    links = (PUMP, replace(RISER, through=pipe(length, bore, 3.0)), SPILL)
    point = operating_point(PUMP, solve_network(links, {"sump": level}))
    asked = system_curve(links, {"sump": level}, {}, "pump", (0.5 * point.flow, point.flow, 1.5 * point.flow))
    assert asked[1].head == pytest.approx(point.head, rel=1e-9)
    heads = [one.head for one in asked]
    assert heads == sorted(heads)


def test_a_pump_in_a_row_with_its_pipe_is_found() -> None:
    row = Link("pump", "sump", "tank", SeriesLaw((CURVE, pipe(4.0, 0.0409, 5.0))), one_way=True)
    point = operating_point(row, solve_network((row, SPILL), SUMP))
    assert point == operating_point(PUMP, solve_network(CIRCUIT, SUMP)) or point.flow == pytest.approx(
        operating_point(PUMP, solve_network(CIRCUIT, SUMP)).flow, rel=1e-9
    )
    assert not point.beyond


def test_a_sum_is_that_of_its_parts_in_a_row() -> None:
    apart = (Link("a", "t", "m", pipe(3.0, 0.03, 1.0)), Link("b", "m", "s", FittingLaw(4.0, 0.03)))
    one = (Link("a", "t", "s", SeriesLaw((pipe(3.0, 0.03, 1.0), FittingLaw(4.0, 0.03)))),)
    levels = {"t": 1.0, "s": 0.0}
    assert solve_network(one, levels).flows["a"] == pytest.approx(
        solve_network(apart, levels).flows["a"], rel=1e-12
    )


def test_twins_share_the_flow() -> None:
    twins = (Link("a", "t", "s", pipe(3.0, 0.03)), Link("b", "t", "s", pipe(3.0, 0.03)))
    state = solve_network(twins, {"s": 0.0}, {"t": 2e-3})
    assert state.flows["a"] == pytest.approx(1e-3, rel=1e-12)
    assert state.flows["b"] == pytest.approx(1e-3, rel=1e-12)


def test_dead_ends_carry_nothing() -> None:
    ends = (Link("d1", "p", "x", pipe(1.0, 0.02)), Link("d2", "x", "y", FittingLaw(1.0, 0.02)),
            Link("d3", "x", "z", CheckLaw(1.0, 0.02), one_way=True))  # fmt: skip
    state = solve_network((*CIRCUIT, *ends), SUMP)
    assert [state.flows[name] for name in ("d1", "d2", "d3")] == pytest.approx([0.0] * 3, abs=1e-15)
    assert state.heads["y"] == pytest.approx(state.heads["p"], abs=1e-12)
    assert state.flows["pump"] == solve_network(CIRCUIT, SUMP).flows["pump"]


def test_level_water_stands_still() -> None:
    links = tuple(
        Link(f"l{at}", f"n{at}", f"n{(at + 1) % 6}", pipe(1.0, bore)) for at, bore in enumerate(BORES)
    )
    state = solve_network(links, {"n0": 1.0, "n3": 1.0})
    assert list(state.flows.values()) == pytest.approx([0.0] * 6, abs=1e-13)


def test_a_bridge_in_balance_carries_nothing() -> None:
    sides = [("a", "u", "l"), ("b", "u", "r"), ("c", "l", "d"), ("e", "r", "d")]
    links = [Link(name, start, end, pipe(1.0, 0.02)) for name, start, end in sides]
    state = solve_network([*links, Link("bridge", "l", "r", FittingLaw(3.0, 0.02))], {"u": 1.0, "d": 0.0})
    assert state.flows["bridge"] == pytest.approx(0.0, abs=1e-12)


def test_creeping_flow_is_laminar() -> None:
    state = solve_network((Link("a", "t", "s", pipe(10.0, 0.05)),), {"t": 1e-6, "s": 0.0})
    laminar = math.pi * 9.80665 * 0.05**4 * 1e-6 / (128.0 * 0.94e-6 * 10.0)
    assert state.flows["a"] == pytest.approx(laminar, rel=1e-9)


def test_a_tee_that_helps_is_borne() -> None:
    helped = (
        Link("pump", "sump", "q", CURVE, one_way=True),
        Link("tee", "q", "p", FittingLaw(-0.3, 0.04)),
        RISER,
        SPILL,
    )
    state = solve_network(helped, SUMP)
    assert faults(helped, SUMP, {}, state) == []
    assert state.flows["pump"] > solve_network(CIRCUIT, SUMP).flows["pump"]
    assert state.heads["q"] < state.heads["p"]


def test_both_branches_of_a_standpipe_are_told() -> None:
    def branch(bore: float) -> str:
        drain = Link("drain", "tank", "sump", pipe(2.0, bore, 2.0), StandpipeLaw(0.0525), 1.0)
        return solve_network((PUMP, RISER, drain), SUMP).branch["drain"]

    assert branch(0.0525) == "over"
    assert branch(0.0209) == "through"


def test_a_check_valve_wants_its_head_to_open() -> None:
    def flow(head: float, cracking: float) -> float:
        links = (
            Link("c", "t", "m", CheckLaw(2.0, 0.03, cracking), one_way=True),
            Link("p", "m", "s", pipe(1.0, 0.03)),
        )
        return solve_network(links, {"t": head, "s": 0.0}).flows["c"]

    assert flow(0.3, 0.35) == 0.0
    assert flow(0.4, 0.35) == pytest.approx(flow(0.05, 0.0), rel=1e-9)
    assert flow(-1.0, 0.0) == 0.0


def test_check_valves_in_a_ring_come_to_rest() -> None:
    ring = [("a", "A", "B"), ("b", "B", "C"), ("c", "C", "A")]
    links = [Link(name, start, end, CheckLaw(1.0, 0.02), one_way=True) for name, start, end in ring]
    still = solve_network(links, {"A": 1.0})
    assert list(still.flows.values()) == pytest.approx([0.0] * 3, abs=1e-12)
    fed = solve_network(links, {"A": 1.0}, {"B": 1e-4})
    assert fed.flows == pytest.approx({"a": 0.0, "b": 1e-4, "c": 1e-4})
    assert faults(links, {"A": 1.0}, {"B": 1e-4}, fed) == []


def test_a_standing_pump_behind_its_check_valve_cuts_off_what_lies_beyond() -> None:
    state = solve_network((standing_pump(PUMP), RISER, SPILL), SUMP)
    assert set(state.cut_off) == {"p", "tank"}
    assert math.isnan(state.heads["tank"])
    assert state.branch == {"pump": "shut", "riser": "through", "weir": "shut"}
    assert list(state.flows.values()) == pytest.approx([0.0] * 3, abs=1e-15)


def test_a_standing_pump_without_one_lets_the_water_back() -> None:
    back = standing_pump(PUMP, FittingLaw(5.0, 0.04))
    state = solve_network((back, RISER), {"sump": 0.3, "tank": 1.2})
    assert state.flows["pump"] < -1e-4


def test_closed_valves_part_what_they_close() -> None:
    valve = Link("valve", "tank", "beyond", ShutLaw())
    drain = Link("drain", "beyond", "far", pipe(1.0, 0.03))
    state = solve_network((*CIRCUIT, valve, drain), SUMP)
    assert set(state.cut_off) == {"beyond", "far"}
    assert state.flows["valve"] == 0.0
    assert state.flows["pump"] == pytest.approx(solve_network(CIRCUIT, SUMP).flows["pump"], rel=1e-12)


def test_a_pump_that_finds_no_way_on_stands_at_its_greatest_head() -> None:
    state = solve_network((PUMP, RISER), SUMP)
    assert state.flows["pump"] == pytest.approx(0.0, abs=1e-12)
    assert state.heads["tank"] == pytest.approx(0.3 + 6.0)


def test_a_weak_pump_beside_a_strong_one_is_shut() -> None:
    weak = Link("weak", "sump", "p", parabola_pump(1.0, 3e-3), one_way=True)
    state = solve_network((*CIRCUIT, weak), SUMP)
    assert state.branch["weak"] == "shut"
    assert state.flows["weak"] == 0.0


def test_drowned_crests_are_told() -> None:
    state = solve_network(
        (Link("w", "t", "s", over=weir(0.5), crest=0.2, one_way=True),), {"t": 1.0, "s": 0.5}
    )
    assert state.drowned == ("w",)
    assert state.doubtful == ()
    share = drowned_share(0.8, 0.3)
    assert state.flows["w"] == pytest.approx(share * weir_flow(Weir(0.5, 0.5, 0.5), 0.8), rel=1e-9)
    assert solve_network(CIRCUIT, SUMP).drowned == ()


def test_what_would_run_back_over_a_crest_is_doubtful() -> None:
    state = solve_network(
        (Link("w", "t", "s", over=weir(0.5), crest=0.2, one_way=True),), {"t": 0.4, "s": 0.5}
    )
    assert state.flows["w"] == 0.0
    assert state.doubtful == ("w",)


def test_a_drowned_lip_that_does_not_run_full_is_doubtful_and_a_full_one_is_not() -> None:
    """Free, the lip needs 34 mm for 3.7 L/s; a narrow pipe below needs 340 mm. Its foot stands 10 mm over the lip."""
    wide, full = (
        solve_network((Link("s", "t", "f", one, StandpipeLaw(0.1), 1.0, True),), {"f": 1.01}, {"t": 3.7e-3})
        for one in (FittingLaw(0.5, 0.1), FittingLaw(30.0, 0.1))
    )
    assert (wide.branch["s"], wide.doubtful) == ("over", ("s",))
    assert (full.branch["s"], full.drowned, full.doubtful) == ("through", ("s",), ())


@given(seed=st.integers(0, 100_000))
@settings(deadline=None, max_examples=many(150))
def test_drowned_crests_keep_their_law(seed: int) -> None:
    made = drowning_lot(seed)
    state = solve_network(made.links, made.fixed)
    assert faults(made.links, made.fixed, {}, state) == []
    assert state.doubtful == ()


def test_many_of_the_crests_made_by_lot_drown() -> None:
    states = [solve_network(made.links, made.fixed) for made in map(drowning_lot, range(100))]
    assert sum(bool(state.drowned) for state in states) > 40


def test_water_that_rises_over_an_open_end_stands_against_it() -> None:
    """The same pipe ends in the air or under water: at the end's own level nothing jumps, and above it one to one."""
    law, levels = OutfallLaw(pipe(2.0, 0.0409, 2.0)), (0.3, 0.5, 0.6, 0.9)
    heads = [
        solve_network((Link("o", "t", "s", over=law, crest=0.5),), {"s": level}, {"t": 1e-3}).heads["t"]
        for level in levels
    ]
    assert heads[0] == pytest.approx(heads[1], abs=1e-9)
    assert heads[2] - heads[1] == pytest.approx(0.1, abs=1e-9)
    assert heads[3] - heads[1] == pytest.approx(0.4, abs=1e-9)


@pytest.mark.long
@pytest.mark.timeout(1200)
@pytest.mark.parametrize("size", [(8, 11), (20, 30), (60, 90), (150, 220)])
def test_a_thousand_networks(size: tuple[int, int]) -> None:
    for seed in range(1000 if size[0] < 60 else 100):
        made = lot(seed, *size)
        state = answered(made)
        if state is not None:
            assert faults(made.links, made.fixed, made.injections, state) == [], seed
