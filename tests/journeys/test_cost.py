"""What plans cost: what is left out is told, what is changed moves what hangs on it and nothing else."""

from __future__ import annotations

import pickle
from datetime import date
from pathlib import Path

import pytest

from tests.journeys.cost_plans import (
    bought,
    cost_of,
    in_a_year,
    table_of,
    told_of,
    with_more,
    with_row,
    with_words,
)
from tests.journeys.flow_plans import example
from tidestead.build.cost.facts import CostFacts
from tidestead.build.cost.finding import Cash, cash_of
from tidestead.build.cost.tables import cash_lines, worth_lines
from tidestead.build.cost.totals import paid
from tidestead.core.answer import Verdict
from tidestead.core.errors import PlanError
from tidestead.desk.prices import with_prices
from tidestead.plan import load, loads
from tidestead.trials.pricing import difference, price_of

EXAMPLES = ("skerry", "packhouse")
CENT = 0.005
PUMP = 'of = "pump return", price = "{} EUR/piece", basis = "quote", life = "6 years"'


def money(facts: CostFacts, item: str) -> float:
    """Likely money that is paid for a thing."""
    return sum(paid(buy, facts.purchase.money) for buy in bought(facts, item).buys)


def counts(facts: CostFacts, item: str) -> dict[str, float]:
    """What is paid for of each row."""
    return {buy.offer.row: buy.count for buy in bought(facts, item).buys if buy.count}


def test_a_price_that_is_missing_marks_the_total() -> None:
    text = with_row("skerry", "pump", None)
    answer = told_of(text)
    (check,) = (check for check in answer.checks if check.id == "cost.cash")
    assert check.verdict is Verdict.UNPROVEN
    assert check.missing == "1 thing has no price, so the total is incomplete: pump return"
    assert answer.sentence.count(check.missing) == 1
    assert [row[0] for row in table_of(answer, "cost.unpriced").rows] == ["pump return"]
    assert table_of(answer, "cost.unpriced").rows[0][-1] == 'of = "pump return"'
    assert cost_of(text).unpriced == ("pump return",)
    assert cost_of(text).cash.base == pytest.approx(cost_of(example("skerry")).cash.base - 520.0)
    (year,) = (check for check in answer.checks if check.id == "cost.yearly")
    assert year.missing == check.missing  # a pump wears out, and nothing is set aside for it
    assert [one.complete for one in answer.figures if one.id == "cost.yearly"] == [False]
    assert [one.complete for one in told_of(example("skerry")).figures if one.id == "cost.yearly"] == [True]
    assert "Still to be spent, but for what has no price: " in answer.sentence
    assert "nine times in ten no more" not in answer.sentence  # it may well be more
    (figure,) = (figure for figure in answer.figures if figure.id == "cost.cash")
    assert figure.what == "cash still to spend, but for what has no price"
    lines = {str(row[0]).split(" (")[0]: row[2:4] for row in table_of(answer, "cost.lines").rows}
    assert lines["pump return: pump return"] == (None, None)  # not nought
    assert "What cannot be priced is not in it." in table_of(answer, "cost.trades").note
    whole = told_of(example("skerry"))
    assert "no price" not in whole.sentence + table_of(whole, "cost.trades").note


def test_a_price_of_what_never_wears_out_leaves_the_year_whole() -> None:
    text = "\n".join(line for line in example("packhouse").splitlines() if not line.startswith("stud-"))
    complete = {one.id: one.complete for one in told_of(text).figures}
    assert not complete["cost.cash"]
    assert complete["cost.yearly"]


def test_the_last_piece_on_a_length_needs_no_kerf() -> None:
    """Six struts of 1538.70 mm out of lengths that hold two and one cut of 3 mm, or miss that by a hair."""
    plan = example("skerry").replace('kerf = "3 mm"', 'kerf = "3 mm"\ntrim = "0 mm"\nspoils = "0 %"')
    first, *rest = (line for line in plan.splitlines() if line.startswith("brace-"))
    for row in rest:
        plan = plan.replace(row, "")
    for sold, wanted in (("3080.5 mm", 3.0), ("3080.3 mm", 6.0)):
        row = f'brace-3-0 = {{ of = "lumber 45 x 70 mm C24", sold = "{sold}", price = "2 EUR/piece" }}'
        facts = cost_of(plan.replace(first, row))
        assert counts(facts, "lumber 45 x 70 mm C24") == {"book.brace-3-0": wanted}


def test_a_pump_at_three_times_the_price_moves_its_own_lines_alone() -> None:
    """Every other line to the last bit, the sums by just that, and throw by throw by its own range."""
    once, thrice = (cost_of(with_row("skerry", "pump", PUMP.format(price))) for price in (520, 1560))
    moved = []
    for before, after in zip(cash_lines(once), cash_lines(thrice), strict=True):
        assert before.line == after.line
        if before.money != after.money:
            moved.append((before.line.key, before.money, after.money))
    assert moved == [("pumps.return", 520.0, 1560.0)]
    assert thrice.cash.base - once.cash.base == pytest.approx(1040.0)
    assert thrice.replacement.base - once.replacement.base == pytest.approx(1040.0)
    assert thrice.year.base - once.year.base == pytest.approx(1040.0 / 6.0)
    pump = bought(once, "pump return").buys[0].offer.price
    assert pump is not None
    apart = thrice.cash.sums - once.cash.sums
    assert apart.min() == pytest.approx(2.0 * pump.low, rel=2e-3)
    assert apart.max() == pytest.approx(2.0 * pump.high, rel=2e-3)


@pytest.mark.parametrize("name", EXAMPLES)
def test_totals_are_the_sums_of_their_lines(name: str) -> None:
    facts, answer = cost_of(example(name)), told_of(example(name))
    cash = sum(row.money for row in cash_lines(facts))
    worth = sum(row.money for row in worth_lines(facts))
    assert cash == pytest.approx(facts.cash.base, abs=CENT)
    assert worth == pytest.approx(facts.replacement.base, abs=CENT)
    for split in ("trades", "vessels", "when"):
        rows = table_of(answer, f"cost.{split}").rows
        assert sum(float(row[1] or 0.0) for row in rows) == pytest.approx(cash, abs=CENT)
        assert sum(float(row[2] or 0.0) for row in rows) == pytest.approx(worth, abs=CENT)
        assert sum(float(row[3] or 0.0) for row in rows) == pytest.approx(100.0)
    lines = table_of(answer, "cost.lines").rows
    assert sum(float(row[2] or 0.0) for row in lines) == pytest.approx(cash, abs=CENT)
    shopping = table_of(answer, "cost.shopping").rows
    assert sum(float(row[3] or 0.0) for row in shopping) == pytest.approx(cash, abs=CENT)


@pytest.mark.parametrize("name", EXAMPLES)
def test_all_that_is_cut_is_on_the_lists_and_the_other_way_about(name: str) -> None:
    """Metres and square metres of a thing are those of its pieces and parts, where it has any."""
    taken = cost_of(example(name)).purchase.taken
    cut: dict[object, float] = {}
    for piece in taken.pieces:
        cut[piece.item] = cut.get(piece.item, 0.0) + piece.length * piece.count
    listed: dict[object, float] = {}
    for line in taken.lines:
        if line.unit == "m" and line.amount is not None and line.item.sort in ("lumber", "pipe"):
            listed[line.item] = listed.get(line.item, 0.0) + line.amount.likely
    assert set(cut) == set(listed)
    assert {item: cut[item] for item in listed} == pytest.approx(listed)


def test_what_is_owned_is_not_paid_for_and_still_has_its_worth() -> None:
    before, after = (
        cost_of(with_row("skerry", "pump", PUMP.format(520) + owned)) for owned in ("", ", owned = true")
    )
    assert before.cash.base - after.cash.base == pytest.approx(520.0)
    assert after.replacement.base == pytest.approx(before.replacement.base)
    assert after.year.base == pytest.approx(before.year.base)


def test_what_lies_in_store_is_used_up_once() -> None:
    """A bag of granulate at home is one bag less to buy at first, and no bag less in every year."""
    row = 'of = "adsorber iron", sold = "2 kg", price = "34 EUR/bag"'
    before, after = (cost_of(with_row("skerry", "iron", row + owned)) for owned in ("", ", owned = 1"))
    assert (money(before, "adsorber iron"), money(after, "adsorber iron")) == (34.0, 0.0)
    for facts in (before, after):
        assert [buy.count for buy in in_a_year(facts, "adsorber iron").buys] == [8.0]


@pytest.mark.parametrize(
    ("row", "fields", "words"),
    [
        ("pump", 'of = "pump return", price = "520 USD/piece"', "has no rate for USD"),
        ("heater", 'of = "heater sump", price = "78 EUR/piece", owned = -2', "is less than nothing"),
    ],
)
def test_a_book_that_cannot_be_counted_is_refused(row: str, fields: str, words: str) -> None:
    with pytest.raises(PlanError) as refused:
        loads(with_row("skerry", row, fields))
    (fault,) = refused.value.faults
    assert fault.where.startswith(f"book.{row}")
    assert words in fault.allowed
    assert row != "pump" or "USD = { worth" in fault.advice


def test_a_piece_longer_than_any_length_is_told_by_name() -> None:
    plan = example("skerry")
    for row in ("rim-4-2", "rim-4-8", "rim-5-4", "rim-3-6"):
        plan = plan.replace(f"\n{row} = {{", f"\n{row}-gone = {{", 1)
    text = "\n".join(line for line in plan.splitlines() if "-gone = {" not in line)
    (missing,) = (row for row in table_of(told_of(text), "cost.unpriced").rows)
    assert missing[0] == "47 x 195 mm C24"
    why = str(missing[2])
    assert "basin N3 is 4390 mm" in why
    assert "book.rim-3-0, is 3000 mm" in why
    assert "Splice the piece" in why
    assert "add a longer stock" in why
    (check,) = (check for check in told_of(text).checks if check.id == "cost.cash")
    assert check.verdict is Verdict.UNPROVEN
    assert check.missing.startswith("1 thing cannot be bought as it is sold")  # it has a price
    assert "47 x 195 mm C24 (why: the list Without a price)" in check.missing
    assert "Still to be spent, but for what cannot be priced: " in told_of(text).sentence


def test_old_prices_are_pointed_out_on_a_day_and_not_without_one() -> None:
    text = example("skerry")
    undated, dated, early = (
        " ".join(told_of(text, "metric", day).cautions)
        for day in (None, date(2026, 11, 1), date(2026, 6, 17))
    )
    assert "Older than" not in undated
    assert "Older than 12 months, ask anew: book.anchors-12." in dated
    assert "Older than" not in early
    assert "Dated after today" not in dated
    slip = with_row("skerry", "pump", 'of = "pump return", price = "520 EUR/piece", dated = "2036-09-20"')
    told = " ".join(told_of(slip, "metric", date(2026, 11, 1)).cautions)
    assert "Dated after today, so that nobody is told once they are old: book.pump." in told


def test_units_that_are_shown_change_no_number() -> None:
    metric = cost_of(example("skerry"))
    us = cost_of(with_words("skerry", 'show = "metric"', 'show = "us"'))
    assert (us.cash.sums == metric.cash.sums).all()
    assert (us.year.sums == metric.year.sums).all()
    assert [row.money for row in cash_lines(us)] == [row.money for row in cash_lines(metric)]
    per = {one.id: one.estimate.likely for one in told_of(example("skerry")).figures}
    gallon = {one.id: one.estimate.likely for one in told_of(example("skerry"), "us").figures}
    assert gallon["cost.per_display"] == pytest.approx(3.785411784 * per["cost.per_display"])


def test_what_is_found_can_be_handed_to_another_process() -> None:
    facts = cost_of(example("packhouse"))
    again = pickle.loads(pickle.dumps(facts))
    assert again.totals == facts.totals
    assert again.unpriced == facts.unpriced


def test_a_plan_of_nothing_says_what_to_write() -> None:
    answer = told_of('tidestead = 1\nname = "nothing yet"\n')
    assert "write a price book under [book]" in answer.sentence
    assert {check.verdict for check in answer.checks} == {Verdict.UNPROVEN}
    assert not answer.figures


def test_a_plan_without_a_book_says_what_to_write() -> None:
    text = example("skerry")
    bare = text[: text.index("[book]")] + text[text.index("[rates]") :]
    answer = told_of(bare)
    assert "write a price book under [book]" in answer.sentence
    assert {check.verdict for check in answer.checks if check.id != "cost.coats"} >= {Verdict.UNPROVEN}
    assert len(table_of(answer, "cost.unpriced").rows) == len(cost_of(bare).unpriced) > 60


def test_things_priced_by_what_lists_do_not_count_are_not_multiplied() -> None:
    """A lid listed by area at a price for one piece: no money is made up of square metres times a piece."""
    text = with_row("skerry", "lid", 'of = "cover lid", price = "68 EUR/piece"')
    lid = bought(cost_of(text), "cover lid")
    assert not lid.buys
    assert lid.missing == (
        "is priced by the piece in book.lid and listed by area: say by sold what one of it is"
    )


def test_fabric_on_a_wide_roll_goes_by_its_length() -> None:
    text = with_row("skerry", "fabric", 'of = "fabric", sold = "0.2 m x 25 m", price = "38 EUR/roll"')
    assert counts(cost_of(text), "fabric") == {"book.fabric": 2.0}


def test_extras_count_as_they_are_sold() -> None:
    """Two and a half days of hire, three lengths of angle, one of two offers for the same thing."""
    text = with_more(
        "skerry",
        'crane = { of = "extra crane", price = "200 EUR/day", count = 2.5 }',
        'rail = { of = "extra rail", sold = "3 m", price = "12 EUR/length", count = 3 }',
        'tent-here = { of = "extra tent", price = "150 EUR/piece" }',
        'tent-there = { of = "extra tent", price = "120 EUR/piece" }',
        'sand = { of = "extra sand", price = "0.50 EUR/kg", count = 40.5 }',
    )
    facts = cost_of(text)
    assert money(facts, "extra crane") == pytest.approx(500.0)
    assert money(facts, "extra rail") == pytest.approx(36.0)
    assert counts(facts, "extra tent") == {"book.tent-there": 1.0}
    assert money(facts, "extra sand") == pytest.approx(20.25)


def test_a_file_of_prices_counts_as_the_plan_does(tmp_path: Path) -> None:
    """The desk reads the rows of a file that a plan names."""
    text = example("skerry")
    start, end = text.index("[book]"), text.index("[rates]")
    (tmp_path / "prices.toml").write_text(text[start:end], encoding="utf-8")
    plan = text[:start] + text[end:]
    plan = plan.replace("[supplies]\n", '[supplies]\nbook = "prices.toml"\n', 1)
    (tmp_path / "plan.toml").write_text(plan, encoding="utf-8")
    loaded = load(tmp_path / "plan.toml")
    priced, whole = price_of(loaded), cash_of(loads(text).plan)
    assert isinstance(whole, Cash)
    assert priced is not None
    assert priced.cash == whole.throws.estimate
    assert with_prices(loads(text)).plan.book == with_prices(loaded).plan.book


def test_a_change_is_priced_throw_by_throw() -> None:
    """One more heater: its own range is told, and not that of a whole house."""
    before = price_of(loads(example("skerry")))
    after = price_of(loads(with_words("skerry", "count = 4\nsetpoint", "count = 5\nsetpoint")))
    found = difference(before, after)
    assert found is not None
    assert found.cash.likely == pytest.approx(78.0, rel=0.05)
    assert 0.8 * 78.0 < found.cash.low < found.cash.high < 1.3 * 78.0


def test_every_source_has_its_own_price_and_the_book_prices_the_rest() -> None:
    """Osmosis and a tanker by their own prices, the sea by a row of the book."""
    rows = {
        offer.item.name: (offer.row, offer.price.likely)
        for offer in cost_of(
            with_more("skerry", 'any-water = { of = "water", price = "1.20 EUR/m3", basis = "list" }')
        ).purchase.offers
        if offer.item.sort == "water" and offer.price is not None and offer.item.name
    }
    assert rows == {
        "osmosis": ("sources.osmosis.price", 2.90),
        "tanker": ("sources.tanker.price", 55.0),
        "sea": ("book.any-water", 1.20),
    }


def test_fuel_goes_by_the_price_of_its_heater() -> None:
    """0.11 EUR for a kWh of fuel, counted in joules."""
    text = with_words(
        "skerry", "count = 4\nsetpoint", 'count = 4\nenergy = "fuel"\nprice = "0.11 EUR/kWh"\nsetpoint'
    )
    (fuel,) = (one for one in cost_of(text).purchase.offers if one.item.name == "fuel of heater sump")
    assert (fuel.row, fuel.unit) == ("heaters.sump.price", "J")
    assert fuel.price is not None
    assert fuel.price.likely * 3.6e6 == pytest.approx(0.11)


def test_what_stands_without_a_price_leaves_the_cash_whole() -> None:
    """A basin that is filled, its rubber no more in the book: what is still to be paid is known, its worth is not."""
    text = with_words("skerry", 'stage = "building"', 'stage = "filled"')
    text = "\n".join(line for line in text.splitlines() if not line.startswith("window-end"))
    (check,) = (check for check in told_of(text).checks if check.id == "cost.cash")
    assert check.verdict is not Verdict.UNPROVEN
    assert "1 thing has no price" in told_of(text).sentence


@pytest.mark.parametrize(
    ("row", "fields", "paid_for"),
    [("router", 'of = "device router", owned = true', 0.0), ("heater", 'of = "heater sump", owned = 4', 0.0)],
)
def test_what_is_there_without_a_price_is_worth_nobody_knows_what(
    row: str, fields: str, paid_for: float
) -> None:
    """The cash is whole, what all is worth is not: it is said, and never counted as nothing."""
    text = with_row("skerry", row, fields)
    (one,) = cost_of(text).purchase.unvalued
    assert (one.missing, sum(buy.count for buy in one.buys)) == ("", paid_for)
    answer = told_of(text)
    assert "1 thing has no price, so what all is worth is incomplete" in answer.sentence
    (check,) = (check for check in answer.checks if check.id == "cost.cash")
    assert check.verdict is not Verdict.UNPROVEN
    (figure,) = (figure for figure in answer.figures if figure.id == "cost.replacement")
    assert figure.what == "all of it at today's prices, but for what has no price"
    assert [one.complete for one in answer.figures if one.id == "cost.yearly"] == [False]
    (table,) = (table for table in answer.tables if table.id == "cost.unpriced")
    assert [str(line[3]) for line in table.rows] == [f'of = "{one.item.written()}"']
    assert not cost_of(example("skerry")).purchase.unvalued


SMALL = """
tidestead = 1
name = "one device"
{top}
[supplies]
tariff = "0.32 {tariff}/kWh"

[devices.a]
power = "10 W"

[targets]
budget = "100 {budget}"

[book]
a = {{ of = "device a", price = "5 EUR/piece" }}
"""


def test_money_of_several_lands_wants_one_that_is_counted_in() -> None:
    """Without one, a budget in dollars would be held against a sum in euros."""
    for tariff, budget, where in (("GBP", "EUR", "supplies.tariff"), ("EUR", "USD", "targets.budget")):
        with pytest.raises(PlanError) as refused:
            loads(SMALL.format(top="", tariff=tariff, budget=budget))
        (fault,) = refused.value.faults
        assert fault.where == where
        assert 'Write currency = "EUR" at the top' in fault.advice
    facts = cost_of(SMALL.format(top="", tariff="EUR", budget="EUR"))
    assert (facts.currency, facts.cash.base) == ("EUR", 5.0)
    assert facts.year.base == pytest.approx(
        87.6 * 0.32 + 5.0 / 5.0
    )  # 10 W all year; lasts five years by practice
