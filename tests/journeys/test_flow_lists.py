"""What is to be bought and where the head goes, counted and summed by hand."""

from __future__ import annotations

import math

import pytest

from tests.journeys.flow_plans import SMALL, answer_of, changed, example, facts_of
from tidestead.core.answer import Table
from tidestead.plan import loads
from tidestead.studies.flow.heads import head_shares


def _table(text: str, ident: str) -> Table:
    return next(table for table in answer_of(text).tables if table.id == ident)


def _counts(text: str) -> dict[tuple[float | str | None, ...], float | str | None]:
    """The count of each fitting by its words and the pipe it is of, None where it is of none."""
    return {row[:2]: row[2] for row in _table(text, "flow.fittings").rows}


def test_everything_of_the_example_is_counted_once() -> None:
    """Counted in the plan's routes by eye: one tee of two ways, four changes of size, three fittings in walls."""
    counts = _counts(example("skerry"))
    ninety, seventy, sixty, fifty, forty = (f"PVC-U {size} mm, PN 10" for size in (90, 75, 63, 50, 40))
    assert counts == {
        ("Ball valve", sixty): 1,
        ("Bulkhead 3 in, Schedule 80", None): 1,
        ("Elbow 90 degrees", forty): 2,
        ("Elbow 90 degrees", fifty): 2,
        ("Elbow 90 degrees", sixty): 3 + 1 + 2 + 2,
        ("Elbow 90 degrees", seventy): 2,
        ("Elbow 90 degrees", ninety): 2,
        ("Gate or slide valve", forty): 1,
        ("Gate or slide valve", sixty): 1,
        ("Gate or slide valve", ninety): 2,
        ("Reducer", f"{ninety} to {seventy}"): 1,
        ("Reducer", f"{seventy} to {sixty}"): 1,
        ("Reducer", f"{seventy} to {forty}"): 1,
        ("Reducer", f"{sixty} to {fifty}"): 1,
        ("Swing check valve, straight seat", ninety): 1,
        ("Tank connector for 50 mm pipe", None): 1,
        ("Tank connector for 63 mm pipe", None): 1,
        ("Tee", seventy): 1,
        ("Tee open upward, for a riser", fifty): 1,
    }
    lengths = {row[0]: row[1] for row in _table(example("skerry"), "flow.pipe").rows}
    assert lengths[sixty] == pytest.approx(2.4 + 1.4 + 1.5 + 1.6)
    assert lengths[fifty] == pytest.approx(1.8)
    assert lengths[ninety] == pytest.approx(0.5 + 1.5)


BRANCHED = (
    ('"pipe pvc-75-pn10 2.5 m", "elbow-90 x3", "valve set"]\nend = "tank.jet"',
     '"pipe pvc-75-pn10 2.5 m", "elbow-90 x3", "valve set"]\nend = "head"\n'
     '[circuits.one]\nstart = "head"\nroute = ["tee-branch", "pipe pvc-75-pn10 0.4 m"]\nend = "tank.jet"\n'
     '[circuits.two]\nstart = "head"\nroute = ["tee-through", "tee-branch", "pipe pvc-63-pn10 0.4 m"]\n'
     'end = "tank.jet_two"\n'
     '[circuits.three]\nstart = "head"\nroute = ["tee-through x2", "pipe pvc-50-pn10 0.4 m"]\nend = "tank.jet_three"'),
    ('ports.jet = { kind = "outlet", level = "0.775 m" }',
     'ports.jet = { kind = "outlet", level = "0.775 m" }\nports.jet_two = { kind = "outlet", level = "0.775 m" }\n'
     'ports.jet_three = { kind = "outlet", level = "0.775 m" }'),
)  # fmt: skip


def test_four_pipes_meet_in_two_tees() -> None:
    counts = _counts(changed(SMALL, *BRANCHED))
    wide = "PVC-U 75 mm, PN 10"
    assert {key: count for key, count in counts.items() if str(key[0]).startswith("Tee")} == {
        ("Tee", wide): 2
    }
    assert counts[("Reducer", f"{wide} to PVC-U 63 mm, PN 10")] == 1
    assert counts[("Reducer", f"{wide} to PVC-U 50 mm, PN 10")] == 1


def test_a_tee_within_a_line_stands_for_itself() -> None:
    counts = _counts(changed(SMALL, ('"elbow-90 x3", ', '"elbow-90 x3", "tee-through x2", ')))
    assert counts[("Tee, straight through", "PVC-U 75 mm, PN 10")] == 2


def test_hose_on_pipe_takes_a_tail_and_schedules_of_one_size_take_nothing() -> None:
    """ASTM D1785: Schedules 40 and 80 of one size have one outer diameter."""
    text = changed(SMALL, ('"pipe pvc-75-pn10 2.5 m"', '"pipe pvc40-2.5in 1 m", "pipe pvc80-2.5in 1 m", '
                           '"pipe hose-50mm 0.5 m"'))  # fmt: skip
    counts = _counts(text)
    assert counts[("Hose tail", "Smooth hose, 50 mm on PVC Schedule 80, 2 1/2 in")] == 1
    assert counts[("Reducer", "PVC-U 90 mm, PN 10 to PVC Schedule 40, 2 1/2 in")] == 1
    assert len([key for key in counts if key[0] == "Reducer"]) == 1


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_lift_and_losses_add_up_to_the_pumps_head(name: str) -> None:
    facts, plan = facts_of(example(name)), loads(example(name)).plan
    for pump in facts.pumps:
        shares = head_shares(plan, facts, pump.name)
        assert sum(one.head for one in shares) == pytest.approx(pump.head, rel=1e-9)
        assert any(one.words == "lift" for one in shares)
        assert not any(one.words == "falls over lips" for one in shares)
        assert [one.head for one in shares] == sorted((one.head for one in shares), reverse=True)


def test_lift_is_from_surface_to_surface_or_to_the_mouth_it_falls_from() -> None:
    facts, plan = facts_of(SMALL), loads(SMALL).plan
    lift = next(one for one in head_shares(plan, facts, "lift") if one.words == "lift")
    assert lift.head == pytest.approx(facts.levels["tank"] - 0.40)
    free = changed(SMALL, ('kind = "outlet", level = "0.775 m"', 'kind = "spill", level = "0.88 m"'))
    shares = head_shares(loads(free).plan, facts_of(free), "lift")
    assert next(one for one in shares if one.words == "lift").head == pytest.approx(1.88 - 0.40)


def test_power_is_that_of_the_parts_own_flow() -> None:
    facts = facts_of(example("skerry"))
    rows = {(row[1], row[2]): row for row in _table(example("skerry"), "flow.heads").rows}
    lamp = rows[("uv lamp", "jet")]
    assert isinstance(lamp[3], float)
    assert isinstance(lamp[5], float)
    assert lamp[5] == pytest.approx(facts.water.density * 9.80665 * facts.flows["jet"] * lamp[3])
    assert math.isclose(sum(float(row[4] or 0.0) for row in rows.values()), 1.0, rel_tol=1e-9)


def test_working_gives_every_number_of_its_sum() -> None:
    """H = lift + losses, and Q = C*L*h**1.5, summed anew from what is printed beside the formula."""
    working = {one.check: one.steps for one in answer_of(example("packhouse")).working}
    balance = {number.symbol: number.value for number in working["flow.pumps.return.delivers"][0].numbers}
    assert balance["lift"] + balance["losses"] == pytest.approx(balance["H"], rel=1e-9)
    head = working["flow.reef.comb.head"][0]
    terms = {number.symbol: number.value for number in head.numbers}
    assert terms["C"] * terms["L"] * head.result**1.5 == pytest.approx(terms["Q"], rel=1e-9)
    assert 1.6 < terms["C"] < 2.1


def test_what_a_pipe_loses_can_be_worked_out_from_its_row() -> None:
    """Colebrook's formula for the pressure pipe of the small plan, and h = f*L/D*v**2/(2*g), by hand."""
    facts = facts_of(SMALL)
    runs = next(table for table in answer_of(SMALL).tables if table.id == "flow.runs")
    row = next(row for row in runs.rows if row[0] == "up" and "75 mm" in str(row[1]))
    _, _, flow, bore, speed, factor, head = row
    assert isinstance(flow, float)
    assert isinstance(factor, float)
    assert bore == pytest.approx(0.0678)
    by_hand = flow / (math.pi * 0.0678**2 / 4.0)
    assert speed == pytest.approx(by_hand)
    root = 7.0
    for _ in range(50):
        reynolds = by_hand * 0.0678 / facts.water.kinematic_viscosity
        root = -2.0 * math.log10(1.524e-6 / 0.0678 / 3.7 + 2.51 * root / reynolds)
    assert factor == pytest.approx(1.0 / root**2, rel=1e-3)
    assert head == pytest.approx(factor * 2.5 / 0.0678 * by_hand**2 / (2.0 * 9.80665), rel=1e-6)
