"""What flow and foam keep between two edits never shows, and what they are not given they never miss.

Also the short cuts by which trials are found: side by side, from another answer, with laws put together.
"""

from __future__ import annotations

import inspect
import math
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import BaseModel

from tests.laws.flow_networks import CIRCUIT, SUMP, faults, is_stuck, lot, pipe
from tests.many import many
from tidestead.core.errors import SolverError
from tidestead.core.kept import forget
from tidestead.physics.flow.draining import driven_flow
from tidestead.physics.flow.fittings import FittingLaw, gathered
from tidestead.physics.flow.laws import SeriesLaw
from tidestead.physics.flow.network import NetworkState, solve_network
from tidestead.physics.flow.pumps import parabola_pump
from tidestead.physics.flow.side_by_side import NetworkCase, solve_networks
from tidestead.physics.flow.valves import CheckLaw
from tidestead.physics.flow.weirs import Comb, Weir, WeirLaw, weir_flow
from tidestead.plan import load, loads
from tidestead.plan.editing import path_of, with_value
from tidestead.plan.model import Part, Plan
from tidestead.report import as_json
from tidestead.studies import flow, foam
from tidestead.studies.flow import study as flow_study
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.outline import key_of, outline
from tidestead.studies.flow.told import tell as flow_told
from tidestead.studies.foam import study as foam_study
from tidestead.studies.foam.facts import FoamFacts
from tidestead.studies.foam.told import tell as foam_told
from tidestead.studies.inputs import Inputs

EXAMPLES = Path(__file__).parents[2] / "examples"
NAMES = ("packhouse", "skerry")

Edit = tuple[str, Any]

CURVES = {
    "packhouse": [
        "0 gal/h at 16.5 ft",
        "1500 gal/h at 14.2 ft",
        "3000 gal/h at 9.5 ft",
        "4200 gal/h at 0 ft",
    ],
    "skerry": ["0 m3/h at 4.9 m", "6 m3/h at 4.2 m", "12 m3/h at 2.2 m", "15 m3/h at 0 m"],
}
JET = ["tee-through", "pipe pvc-63-pn10 3.4 m", "elbow-90 x3", "apparatus lamp", "valve basin"]
EDITS: dict[str, list[Edit]] = {
    "packhouse": [
        ("pumps.return.power", "180 W"),
        ("pumps.return.curve", CURVES["packhouse"]),
        ("valves.main.open", "25 %"),
        ("valves.column.open", "55 %"),
        ("circuits.comb.route", ["pipe dwv-4in 9 ft", "elbow-90 x2"]),
        ("vessels.reef.ports.comb.level", "4 ft 2 in"),
        ("vessels.reef.ports.spare.level", "4 ft 3 1/2 in"),
        ("vessels.sump.water", "17 in"),
        ("vessels.reef.walls.south.windows.long.thickness", "3.5 in"),
        ("supplies.tariff", "0.17 USD/kWh"),
        ("targets.turnover", "1.2"),
        ("name", "Another reef"),
    ],
    "skerry": [
        ("pumps.return.curve", CURVES["skerry"]),
        ("valves.siphon.open", "38 %"),
        ("valves.tower.open", "30 %"),
        ("circuits.jet.route", JET),
        ("vessels.basin.ports.comb.length", "1.4 m"),
        ("vessels.weirbox.ports.standby.level", "0.44 m"),
        ("vessels.tower.ports.outlet.level", "160 mm"),
        ("vessels.tower.walls.6.windows.eye.sill", "0.95 m"),
        ("vessels.tower.walls.all.sheathing.layers", 2),
        ("vessels.tower.walls.3.sheathing.layers", 1),
        ("vessels.tower.rings.spacing", "280 mm"),
        ("apparatus.lamp.lamp_left", "70 %"),
        ("vessels.sump.length", "2.0 m"),
    ],
}


def document(plan: Plan) -> Any:
    """What flow and foam answer, as programs read it."""
    inputs = Inputs(plan, plan.show)
    facts = flow.find(inputs)
    both = {"flow": flow.judge(inputs, facts), "foam": foam.judge(inputs, foam.find(inputs, facts))}
    return as_json.document(both, "plan")


def whole(plan: Plan) -> Any:
    """The same with nothing kept of plans, from all that stands in the plan."""
    inputs = Inputs(plan, plan.show)
    flow_found: Callable[[Plan], FlowFacts] = inspect.unwrap(flow_study._found)
    foam_found: Callable[[Plan, FlowFacts], FoamFacts] = inspect.unwrap(foam_study._found)
    facts = flow_found(plan)
    foam_facts = foam_found(plan, facts)
    return as_json.document({"flow": flow_told(inputs, facts), "foam": foam_told(inputs, foam_facts)}, "plan")


def edited(name: str, edits: list[Edit]) -> Plan:
    text = (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")
    for key, value in edits:
        text = with_value(text, path_of(key), value)
    return loads(text).plan


@st.composite
def sessions(draw: st.DrawFn) -> tuple[str, list[Edit]]:
    """An example, and edits that are made one after the other."""
    name = draw(st.sampled_from(NAMES))
    return name, draw(
        st.lists(st.sampled_from(EDITS[name]), min_size=2, max_size=3, unique_by=lambda one: one[0])
    )


@settings(max_examples=5, deadline=None)
@given(sessions())
def test_what_was_kept_never_shows(session: tuple[str, list[Edit]]) -> None:
    name, edits = session
    forget()
    document(edited(name, []))
    warm = [document(edited(name, edits[: n + 1])) for n in range(len(edits))]
    for number, found in enumerate(warm):
        forget()
        assert document(edited(name, edits[: number + 1])) == found


@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("number", range(5))
def test_an_outline_answers_as_the_whole_plan(name: str, number: int) -> None:
    plan = edited(name, EDITS[name][number * 2 : number * 2 + 3])
    assert document(plan) == whole(plan)


def changed_value(value: Any) -> Any:
    """Another value of the same sort; the same where there is no telling which would do."""
    if isinstance(value, bool):
        return not value
    if isinstance(value, int):
        return value + 1
    if isinstance(value, float):
        return value * 1.07 + 0.001
    if isinstance(value, str):
        return f"{value}-other"
    if isinstance(value, tuple) and value and all(isinstance(one, float) for one in value):
        return tuple(one * 1.07 for one in value)
    return value


def changed_plans(part: Any) -> Iterator[tuple[str, Any]]:
    """Every plan that differs in one number or word, by the key of that."""
    if isinstance(part, BaseModel):
        for field in sorted(part.model_fields_set):
            for key, other in changed_plans(getattr(part, field)):
                yield f"{field}.{key}", part.model_copy(update={field: other})
    elif isinstance(part, dict):
        for name, one in part.items():
            for key, other in changed_plans(one):
                yield f"{name}.{key}", {**part, name: other}
    elif (other := changed_value(part)) != part:
        yield "", other


def unread(name: str) -> list[tuple[str, Plan]]:
    """Plans that differ from an example in a number or word that the outline leaves out."""
    plan = load(EXAMPLES / f"{name}.toml").plan
    same = key_of(outline(plan))
    return [(key, other) for key, other in changed_plans(plan) if key_of(outline(other)) == same]


@pytest.mark.parametrize("name", NAMES)
def test_what_is_left_out_is_much_of_a_plan(name: str) -> None:
    keys = {key for key, _ in unread(name)}
    assert len(keys) > 60
    assert any(key.endswith("windows.long.thickness.") for key in keys)
    assert not any(key.startswith(("pumps.", "valves.", "circuits.", "apparatus.")) for key in keys)
    fields = {key.split(".")[2] for key in keys if key.startswith("vessels.")}
    assert fields.isdisjoint({"ports", "water", "brim", "height", "length", "across", "place", "cone", "air"})


@pytest.mark.parametrize("name", NAMES)
def test_some_of_what_is_left_out_changes_nothing(name: str) -> None:
    found = unread(name)
    straight = whole(load(EXAMPLES / f"{name}.toml").plan)
    for key, other in found[:: max(len(found) // 12, 1)]:
        assert whole(other) == straight, key


@pytest.mark.long
@pytest.mark.parametrize("name", NAMES)
def test_nothing_that_is_left_out_changes_anything(name: str) -> None:
    straight = whole(load(EXAMPLES / f"{name}.toml").plan)
    for key, other in unread(name):
        assert whole(other) == straight, key


def test_an_outline_says_no_more_than_the_plan() -> None:
    def said(part: Any) -> Iterator[tuple[Part, set[str]]]:
        if isinstance(part, Part):
            yield part, part.model_fields_set
            for field in part.model_fields_set:
                yield from said(getattr(part, field))
        elif isinstance(part, dict):
            for one in part.values():
                yield from said(one)

    for name in NAMES:
        plan = load(EXAMPLES / f"{name}.toml").plan
        assert sum(len(fields) for _, fields in said(outline(plan))) < sum(
            len(fields) for _, fields in said(plan)
        )
        assert outline(outline(plan)) == outline(plan)


def state_of(links: Any, fixed: Any) -> NetworkState | None:
    try:
        return solve_network(links, fixed)
    except SolverError:
        return None


def alike(one: NetworkState, other: NetworkState) -> None:
    most = max(1e-6, *(abs(flow) for flow in one.flows.values()))
    assert other.flows == pytest.approx(one.flows, abs=1e-8 * most, rel=1e-8)
    assert set(other.cut_off) == set(one.cut_off)
    known = {node: head for node, head in one.heads.items() if not math.isnan(head)}
    assert {node: other.heads[node] for node in known} == pytest.approx(known, abs=1e-7, rel=1e-7)


@settings(max_examples=many(60), deadline=None)
@given(st.lists(st.integers(0, 10_000), min_size=2, max_size=6), st.integers(3, 9))
def test_side_by_side_is_as_one_by_one(seeds: list[int], nodes: int) -> None:
    lots = [lot(seed, nodes, nodes + 2) for seed in seeds]
    whole_lots = [one for one in lots if not any(one.injections.values()) and not is_stuck(one)]
    states = solve_networks([NetworkCase(one.links, one.fixed) for one in whole_lots])
    for one, state in zip(whole_lots, states, strict=True):
        alone = state_of(one.links, one.fixed)
        assert (state is None) == (alone is None)
        if state is not None:
            assert not faults(one.links, one.fixed, one.injections, state)


def test_one_without_a_solution_does_not_spoil_the_others() -> None:
    adrift = NetworkCase(CIRCUIT[1:2], {"nowhere": 1.0})
    none = NetworkCase((), {})
    good = NetworkCase(CIRCUIT, SUMP)
    first, second, third, last = solve_networks([good, adrift, none, good])
    assert second is None
    assert third is None
    assert first is not None
    assert last is not None
    alike(solve_network(CIRCUIT, SUMP), first)
    alike(solve_network(CIRCUIT, SUMP), last)


@settings(max_examples=40, deadline=None)
@given(st.floats(0.05, 1.0), st.floats(0.05, 1.0))
def test_where_the_search_begins_means_nothing(level: float, before: float) -> None:
    start = solve_network(CIRCUIT, {"sump": before})
    plain, begun = (
        solve_network(CIRCUIT, {"sump": level}),
        solve_network(CIRCUIT, {"sump": level}, start=start),
    )
    assert begun.branch == plain.branch
    alike(plain, begun)


@given(st.floats(1e-3, 0.3), st.floats(0.05, 0.5), st.sampled_from([None, 0.02, 0.06]))
def test_the_slope_of_a_crest_is_that_of_its_flow(head: float, height: float, teeth: float | None) -> None:
    comb = None if teeth is None else Comb(20, 0.012, teeth)
    crest = Weir(0.5, height, 0.8, 0.012, comb)
    bends = [] if comb is None else [teeth, 0.004]
    if any(bend is not None and abs(head / bend - 1.0) < 1e-3 for bend in bends):
        return
    nudge = 1e-5 * head
    slope = (weir_flow(crest, head + nudge) - weir_flow(crest, head - nudge)) / (2.0 * nudge)
    assert 1.0 / WeirLaw(crest).at(weir_flow(crest, head)).slope == pytest.approx(slope, rel=1e-6)


ROW = (
    pipe(2.0, 0.0525, 1.0),
    FittingLaw(0.9, 0.0525),
    pipe(3.0, 0.0525),
    FittingLaw(2.0, 0.0409),
    CheckLaw(2.0, 0.05, 0.1),
)


@given(st.floats(-5e-3, 5e-3))
def test_laws_put_together_lose_the_same(flow_rate: float) -> None:
    one, other = SeriesLaw(ROW).at(flow_rate), gathered(ROW).at(flow_rate)
    assert len(gathered(ROW).parts) == 3
    assert other.head == pytest.approx(one.head, rel=1e-12)
    assert other.slope == pytest.approx(one.slope, rel=1e-12)


@given(st.floats(0.11, 4.0), st.floats(1e-6, 1e-1))
def test_where_a_driven_flow_is_sought_from_means_nothing(head: float, guess: float) -> None:
    for law in (SeriesLaw(ROW), SeriesLaw((*ROW, parabola_pump(5.0, 4e-3)))):
        assert driven_flow(law, head, guess) == pytest.approx(driven_flow(law, head), rel=1e-10)
