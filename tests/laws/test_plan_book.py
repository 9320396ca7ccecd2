"""The price book: what a row is of and how that is sold is known, every slip is refused where it stands, rates hold."""

from __future__ import annotations

import math
from datetime import date
from decimal import Decimal
from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.plan_texts import EXAMPLES
from tests.laws.plan_texts import PRICED as PLAN
from tests.many import many
from tidestead.build.lists import Trade
from tidestead.build.timber_sizes import board_feet_charged
from tidestead.catalog.rows import row_names
from tidestead.core.errors import Fault, QuantityError
from tidestead.plan import loads
from tidestead.plan.edits import Edit, edited
from tidestead.plan.forms import Draft, blank_form, edit_typed, field_at, form_at, part_typed, sheet_of
from tidestead.plan.items import PARTS, SORTS, Item, parse_item
from tidestead.plan.model import BookRow, TradeName
from tidestead.plan.model.book import PriceBasis
from tidestead.plan.parts import copied, removed
from tidestead.plan.reading import faults_in
from tidestead.plan.references import renamed_everywhere
from tidestead.plan.selling import Sold, Stock, read_sold, read_stock, terms_of


def row(words: str, plan: str = PLAN) -> tuple[Fault, ...]:
    return faults_in(f"{plan}x = {{ {words} }}\n")


def taken(words: str, plan: str = PLAN) -> BookRow:
    return loads(f"{plan}x = {{ {words} }}\n").plan.book["x"]


SOUND = [
    'of = "lumber 47 x 145 mm C24", sold = "3.6 m", price = "11.50 EUR/piece", owned = 4, at_most = 20',
    'of = "lumber 2x6 dfl-no2", sold = "12 ft", price = "8.90 .. 9.40 .. 11.20 EUR/piece", basis = "quote"',
    'of = "lumber 2x6 dfl-no2", price = "1.10 EUR/board foot"',
    'of = "lumber 47 x 145 mm C24", sold = "4.8 m", price = "420 EUR/m3"',
    'of = "sheet birch-plywood-18", sold = "2440 x 1220 mm", price = "90 EUR/sheet"',
    'of = "sheet yours:marine", price = "38 EUR/m2"',
    'of = "clear acrylic-cast 60 mm", price = "1650 .. 1750 .. 2000 GBP/m2"',
    'of = "coating liquid-rubber", sold = "18 L", price = "310 EUR/can", owned = "36 L"',
    'of = "seal silicone-neutral", sold = "310 mL", price = "13 EUR/cartridge"',
    'of = "fastener screw-6x120", sold = 100, price = "24 EUR/box", owned = true',
    'of = "liner epdm-45-mil", sold = "6 m x 8 m", price = "480 EUR/piece"',
    'of = "fabric", sold = "25 m", price = "38 EUR/roll"',
    'of = "layer mineral-wool", sold = "1250 x 600 x 100 mm", price = "5 EUR/piece"',
    'of = "salt", sold = "25 kg", price = "49 EUR/bag", owned = 3, lead = "3 weeks"',
    'of = "salt", price = "2.60 EUR/kg", owned = "40 kg"',
    'of = "pump return", price = "520 EUR/piece", life = "6 years", visit = 2, replacement = "560 EUR/piece"',
    'of = "fitting elbow-90 pvc-63-pn10", sold = "10", price = "40 EUR/bag", dated = 2026-05-04',
    'of = "extra crane", price = "90 EUR/h", count = 2.5, dated = "2026-05-04", supplier = "yard, offer 7"',
    'of = "chiller outside", price = "900 EUR/piece"',
    'of = "pump return", owned = true',  # there already: its price may be left out
]


@pytest.mark.parametrize("words", SOUND)
def test_a_sound_row_is_taken(words: str) -> None:
    assert row(words) == ()


def test_a_row_is_read_as_it_is_meant() -> None:
    found = taken(SOUND[0] + ', basis = "list", dated = "2026-05-04", lead = "2 weeks", visit = 3')
    assert found.of == Item("lumber", "C24", (0.047, 0.145))
    assert found.sold == Sold("length", (3.6,))
    assert found.price is not None
    assert (found.price.low, found.price.likely, found.price.high) == (Decimal("11.50"),) * 3
    assert found.price.single
    assert (found.owned, found.at_most) == (Stock(4.0), Stock(20.0))
    assert (found.dated, found.lead, found.visit) == (date(2026, 5, 4), 14 * 86400.0, 3)
    three = taken(SOUND[1]).price
    assert three is not None
    assert (three.low, three.likely, three.high) == (Decimal("8.90"), Decimal("9.40"), Decimal("11.20"))
    assert (three.currency, three.per, three.single) == ("EUR", "piece", False)
    assert taken(SOUND[9]).owned == Stock(None)
    assert taken(SOUND[7]).owned == Stock(0.036, "m3")
    assert taken(SOUND[16]).dated == date(2026, 5, 4)
    assert taken(SOUND[2]).basis == "guess"


REFUSED = [
    ('of = "wood", price = "1 EUR/m"', "of", "no sort of thing", "lumber, sheet, clear"),
    ('of = "lumber 47 x 145 mm C25", price = "1 EUR/m"', "of", 'names "C25"', 'Did you mean "C24"'),
    ('of = "sheet birch-plywod-18", price = "1 EUR/m2"', "of", "not in the catalogue", "birch-plywood-18"),
    ('of = "sheet marine", price = "1 EUR/m2"', "of", "a row of your own", 'Write "yours:marine"'),
    ('of = "sheet yours:teak", price = "1 EUR/m2"', "of", "none of your rows", "[yours.sheathing.teak]"),
    ('of = "pump retrun", price = "1 EUR/piece"', "of", "names no pump", 'Did you mean "pump return"'),
    ('of = "pump old", price = "1 EUR/piece"', "of", "names no pump", 'There are: "pump return".'),
    ('of = "valve ball pvc-62-pn10", price = "1 EUR/piece"', "of", "catalogue of pipes", "pvc-63-pn10"),
    ('of = "2 of 2x6", price = "1 EUR/m"', "of", "no sort of thing", "Begin with one of"),
    ('of = "lumber 3-2x8 dfl-no2", price = "1 EUR/m"', "of", "several pieces side by side", "Write it like"),
    ('of = "salt coarse", price = "1 EUR/kg"', "of", "one sort only", 'Write it like "salt"'),
    ('of = "salt", price = "49 EUR"', "price", "for one of what", "EUR/piece"),
    ('of = "salt", price = 49', "price", "must be a price in quotes", "49 EUR"),
    ('of = "salt", price = "-2 EUR/kg"', "price", "below zero", "Write it like"),
    ('of = "salt", price = "3 .. 2 .. 4 EUR/kg"', "price", "does not rise", "in order"),
    ('of = "salt", price = "2 USD/kg"', "price", "no rate for USD", "USD = { worth = "),
    ('of = "salt", price = "49 EUR/bag"', "price", "how much that holds is not said", 'Add sold = "25 kg"'),
    ('of = "salt", sold = "25 kg", price = "49 EUR/sheet"', "price", "salt is not sold so", "bag"),
    ('of = "salt", sold = "25 L", price = "49 EUR/bag"', "sold", "by a weight", 'Write it like "25 kg"'),
    ('of = "salt", sold = "-25 kg", price = "49 EUR/bag"', "sold", "more than nothing", "Write it like"),
    ('of = "fastener screw-6x120", sold = 0, price = "2 EUR/box"', "sold", "one or more", "such as 100"),
    ('of = "fastener screw-6x120", sold = 2.5, price = "2 EUR/box"', "sold", "no whole number", "such as 100"),
    ('of = "sheet birch-plywood-18", sold = "18 m", price = "2 EUR/sheet"', "sold", "by two sides", "2440"),
    ('of = "pump return", sold = "2 m", price = "2 EUR/piece"', "sold", "so many pieces", "leave it out"),
    ('of = "fabric", sold = "25 m", price = "2 EUR/m2"', "price", "what is sold is a length", "for one roll"),
    ('of = "energy", sold = "1 kg", price = "0.3 EUR/kWh"', "sold", "does not belong to energy", "Take it out"),
    ('of = "pump return", price = "1 EUR/piece", owned = -2', "owned", "less than nothing", "such as 4"),
    ('of = "salt", price = "1 EUR/kg", owned = "-2 kg"', "owned", "less than nothing", "such as 4"),
    ('of = "salt", price = "1 EUR/kg", owned = 4', "owned", "no unit", '"10 kg"'),
    ('of = "salt", sold = "25 kg", price = "1 EUR/bag", owned = "3 m"', "owned", "not counted as", "such as 4"),
    ('of = "pump return", price = "1 EUR/piece", at_most = -1', "at_most", "less than nothing", "such as 4"),
    ('of = "pump return", price = "1 EUR/piece", at_most = true', "at_most", "quantity in quotes", "Write"),
    ('of = "pump return", price = "1 EUR/piece", owned = 3, at_most = 2', "at_most", "already", "with those"),
    ('of = "salt", price = "1 EUR/kg", basis = "hearsay"', "basis", '"quote" or "list" or "guess"', "one of"),
    ('of = "salt", price = "1 EUR/kg", dated = "4.5.2026"', "dated", "not a day", "2026-05-04"),
    ('of = "salt", price = "1 EUR/kg", dated = "2026-02-30"', "dated", "no day of the calendar", "2026-05-04"),
    ('of = "salt", price = "1 EUR/kg", dated = 2026-05-04T10:00:00', "dated", "without an hour", "2026-05-04"),
    ('of = "salt", price = "1 EUR/kg", dated = "1026-05-04"', "dated", "before 1990", "2026-05-04"),
    ('of = "salt", price = "1 EUR/kg", count = 3', "count", "for extras only", "Take it out"),
    ('of = "salt", price = "1 EUR/kg", visit = 0', "visit", "1 or more", "Write"),
    ('of = "salt", price = "1 EUR/kg", life = "0 years"', "life", "more than 0", "5 years"),
    ('of = "salt", price = "1 EUR/kg", lead = "3"', "lead", "has no unit", "weeks"),
]  # fmt: skip


@pytest.mark.parametrize(("words", "key", "allowed", "advice"), REFUSED)
def test_each_slip_is_told_where_it_stands(words: str, key: str, allowed: str, advice: str) -> None:
    (fault,) = row(words)
    assert fault.where == f"book.x.{key}"
    assert fault.line == PLAN.count("\n") + 1
    assert fault.given
    assert fault.given.strip('"') in words.replace('"', "") or fault.given in words
    assert allowed in fault.allowed
    assert advice in fault.advice


def test_a_row_without_its_price_or_thing_says_what_to_add() -> None:
    (priceless,) = row('of = "salt"')
    assert (priceless.where, priceless.allowed) == ("book.x.price", "is missing.")
    assert priceless.advice == 'Add price = "9.40 EUR/piece".'
    (nothing,) = row('price = "1 EUR/kg"')
    assert nothing.where == "book.x.of"


MONEY = [
    ("[rates]\nEUR = { worth = \"1 EUR\" }\n", "rates.EUR", "the money that this plan counts in"),
    ("[rates]\nUSD = { worth = \"0.9 USD\" }\n", "rates.USD.worth", "this plan counts in EUR"),
    ("[rates]\nUSD = { worth = \"0.9 EUR/piece\" }\n", "rates.USD.worth", "the whole sum is wanted"),
    ("[rates]\nusd = { worth = \"0.9 EUR\" }\n", "rates.usd", "cannot be the name"),
    ("[risks]\nx = { what = \"w\", chance = \"130 %\", cost = \"9 EUR\" }\n", "risks.x.chance", "from 0 % to 100 %"),
    ("[risks]\nx = { what = \"w\", chance = \"3 %\", cost = \"9 EUR/piece\" }\n", "risks.x.cost", "whole sum"),
    ("[risks]\nx = { what = \"w\", chance = \"3 %\", cost = \"9 CHF\" }\n", "risks.x.cost", "no rate for CHF"),
    ("[risks]\nx = { what = \"w\", chance = \"3 %\", cost = \"9 EUR\", vessel = \"smp\" }\n", "risks.x.vessel",
     'there is no vessel called "smp"'),
    ("[targets]\nbudget = \"8000 EUR/year\"\n", "targets.budget", "the whole sum is wanted"),
    ("[targets]\nrunning = \"900 EUR\"\n", "targets.running", "not a price for one year"),
    ("[targets]\nbudget = \"8000 GBP\"\n", "targets.budget", "this plan counts in EUR"),
    ("[cutting]\nkerf = \"-1 mm\"\n", "cutting.kerf", "must be 0 m or more"),
    ("[cutting]\nspoils = \"120 %\"\n", "cutting.spoils", "from 0 % to 100 %"),
    ("[supplies]\nbook = \"../prices.toml\"\n", "supplies.book", "wrong form"),
]  # fmt: skip


@pytest.mark.parametrize(("words", "where", "allowed"), MONEY)
def test_each_slip_of_money_is_told_where_it_stands(words: str, where: str, allowed: str) -> None:
    plan = PLAN[: PLAN.index("[rates]")]
    (fault,) = faults_in(plan + words)
    assert fault.where == where
    assert allowed in fault.allowed
    assert fault.advice


def test_mixed_money_without_a_currency_of_the_plan_is_told() -> None:
    bare = PLAN.replace('currency = "EUR"\n', "").replace(
        'GBP = { worth = "1.17 EUR", dated = "2026-08-30" }\n', ""
    )
    both = 'a = { of = "salt", price = "2 EUR/kg" }\nb = { of = "salt", price = "2 GBP/kg" }\n'
    (fault,) = faults_in(bare + both)
    assert fault.where == "book.b.price"
    assert "does not say which it counts in" in fault.allowed
    assert 'currency = "EUR"' in fault.advice
    assert faults_in(bare + both.replace("GBP", "EUR")) == ()


LENGTHS = st.integers(1, 40_000).map(lambda mm: mm / 1000.0)
SOLDS = st.one_of(
    LENGTHS.map(lambda size: (f"{size:g} m", Sold("length", (size,)))),
    st.tuples(LENGTHS, LENGTHS).map(lambda two: (f"{two[0]:g} x {two[1]:g} m", Sold("sheet", two))),
    LENGTHS.map(lambda size: (f"{size:g} kg", Sold("mass", (size,)))),
    LENGTHS.map(lambda size: (f"{size:g} L", Sold("volume", (size / 1000.0,)))),
    st.integers(1, 10_000).map(lambda count: (f"{count}", Sold("count", (float(count),)))),
)


@settings(max_examples=many(150), deadline=None)
@given(SOLDS)
def test_what_is_sold_reads_back(made: tuple[str, Sold]) -> None:
    text, wanted = made
    found = read_sold(text, None)
    assert found.shape == wanted.shape
    assert found.sizes == pytest.approx(wanted.sizes)
    assert found.amount == pytest.approx(math.prod(wanted.sizes))


@settings(max_examples=many(150), deadline=None)
@given(st.text(max_size=30))
def test_any_words_are_a_size_and_a_stock_or_are_refused_with_advice(words: str) -> None:
    for reader in (read_sold, read_stock):
        try:
            found = reader(words, None)
        except QuantityError as error:
            said = (error.allowed, error.advice)
        else:
            said = (found.unit, found.unit)
            assert found.unit in ("1", "m", "m2", "m3", "kg")
        assert all(said)


ROWS = st.fixed_dictionaries(
    {"price": st.decimals("0.01", "9999", places=2), "basis": st.sampled_from(get_args(PriceBasis))},
    optional={"owned": st.integers(0, 50), "dated": st.dates(date(1991, 1, 1), date(2090, 1, 1)),
              "supplier": st.text("abc ,#\"'", min_size=1, max_size=20), "visit": st.integers(1, 9)},
)  # fmt: skip


@settings(max_examples=many(60), deadline=None)
@given(ROWS)
def test_a_written_row_reads_back(made: dict[str, object]) -> None:
    values = {"of": "pump return", **made, "price": f"{made['price']} EUR/piece"}
    text = edited(PLAN, [Edit("book.x", values)])
    found = loads(text).plan.book["x"]
    assert found.price is not None
    assert (found.price.likely, found.basis) == (made["price"], made["basis"])
    assert found.owned == (Stock(float(str(made["owned"]))) if "owned" in made else None)
    assert (found.dated, found.supplier) == (made.get("dated"), made.get("supplier"))
    assert loads(copied(text, "book.x", "y")).plan.book["y"] == found
    assert removed(copied(text, "book.x", "y"), "book.y") == text


def test_every_sort_of_thing_has_terms_and_one_may_be_written_by_them() -> None:
    names = {"fitting": "elbow-90 pvc-63-pn10", "valve": "ball pvc-63-pn10", "lumber": "47 x 145 mm C24",
             "clear": "acrylic-cast 60 mm", "anchor": "12 mm", "extra": "crane"}  # fmt: skip
    tables = {"sheet": "sheathing", "liner": "linings", "coating": "linings", "fastener": "fasteners", "seal": "seals",
              "pipe": "pipes", "bulkhead": "bulkheads", "glazing": "glazings", "layer": "layers",
              "reagent": "reagents"}  # fmt: skip
    known = {"pump": "return", "heater": "sump", "vessel": "sump", "cone": "sump"}
    for sort in SORTS:
        name = names.get(sort) or known.get(sort) or ("x" if sort in PARTS else "")
        name = name or (row_names(tables[sort])[0] if sort in tables else "")
        item = parse_item(f"{sort} {name}".strip())
        sold, per = terms_of(item).like
        said = f'sold = "{sold}", ' if sold else ""
        assert row(f'of = "{item.written()}", {said}price = "5 EUR/{per}"') == (), sort
        for measure in terms_of(item).measures:
            assert row(f'of = "{item.written()}", price = "5 EUR/{measure}"') == (), (sort, measure)


def test_a_board_foot_counts_the_nominal_size() -> None:
    """A piece 2 by 6 inches and 12 feet long holds 12 board feet: 2 * 6 * 12 / 12, elementary, by its nominal size."""
    assert board_feet_charged(parse_item("lumber 2x6 dfl-no2"), 12 * 0.3048) == pytest.approx(12.0)
    assert board_feet_charged(parse_item("lumber 1x4 dfl-no2"), 3 * 0.3048) == pytest.approx(1.0)
    true = board_feet_charged(parse_item("lumber 47 x 145 mm C24"), 3.6)
    assert true == pytest.approx(0.047 * 0.145 * 3.6 / (0.0254 * 0.3048**2))


def test_trades_of_risks_are_those_of_lists() -> None:
    assert get_args(TradeName) == get_args(Trade)


def test_a_part_renamed_is_renamed_in_the_book() -> None:
    text = f'{PLAN}x = {{ of = "pump return", price = "5 EUR/piece" }}\ny = {{ of = "salt", price = "2 EUR/kg" }}\n'
    other = renamed_everywhere(text, "pumps.return", "main")
    assert loads(other).plan.book["x"].of == Item("pump", "main")
    assert loads(other).plan.book["y"].of == Item("salt")
    assert renamed_everywhere(other, "pumps.main", "return") == text


# ---- forms ---------------------------------------------------------------------------------------


def test_a_row_has_a_form_that_offers_what_the_plan_buys() -> None:
    text = f'{PLAN}x = {{ of = "pump return", price = "5 EUR/piece", owned = true, dated = 2026-05-04 }}\n'
    draft = Draft.of(text)
    form = form_at(sheet_of(draft), "book.x")
    assert form is not None
    fields = {field.name: field for field in form.fields}
    assert set(fields) == set(BookRow.model_fields)
    offered = {choice.value for choice in fields["of"].choices}
    assert {"pump return", "heater sump", "vessel sump", "salt"} <= offered
    assert "cone sump" not in offered
    assert fields["of"].echo == "pump return of this plan"
    assert fields["price"].echo == "5 EUR for one piece"
    assert (fields["owned"].typed, fields["owned"].echo) == ("yes", "all that is needed")
    assert (fields["dated"].typed, fields["dated"].echo) == ("2026-05-04", "4 May 2026")
    assert [choice.value for choice in fields["basis"].choices] == ["quote", "list", "guess"]
    for field in fields.values():
        assert edit_typed(draft, field.key, field.typed).value == draft.at(("book", "x", field.name))
        assert field.told


def test_a_row_is_added_by_its_form() -> None:
    draft = Draft.of(PLAN)
    blank = blank_form(draft, "book.studs")
    assert blank is not None
    assert {field.name for field in blank.fields if field.needed} == {
        "of"
    }  # and a price, where none is there
    words = {
        "of": "lumber 47 x 145 mm C24",
        "sold": "3.6 m",
        "price": "11.5 EUR/piece",
        "owned": "4",
        "dated": "2026-05-04",
    }
    text = edited(PLAN, [part_typed(draft, "book.studs", words)])
    found = loads(text).plan.book["studs"]
    assert (found.owned, found.dated) == (Stock(4.0), date(2026, 5, 4))
    rates = form_at(sheet_of(draft), "rates")
    assert rates is not None
    assert rates.can_add[0].only
    assert "USD" in rates.can_add[0].names
    assert not {"EUR", "GBP"} & set(rates.can_add[0].names)
    told = field_at(Draft.of(text), "book.studs.of")
    assert told is not None
    assert "C24" in told.echo


@pytest.mark.parametrize("text", EXAMPLES, ids=["one", "other"])
def test_the_examples_say_that_their_prices_are_invented(text: str) -> None:
    plan = loads(text).plan
    above = text[: text.index("[book]")].rstrip().splitlines()[-1]
    assert above.startswith("# Every price")
    assert "invented" in above
    days = [one.dated for one in plan.book.values() if one.dated is not None]
    assert len(days) == len(plan.book)
    assert sum(day < date(2025, 11, 27) for day in days) == 1
    assert any(one.price is not None and not one.price.single for one in plan.book.values())
    assert any(one.owned is not None for one in plan.book.values())
