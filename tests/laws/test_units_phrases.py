"""Bands, sections, salinities and prices as typed: what is taken, what is refused and in which words.

Dressed sizes: American Softwood Lumber Standard PS 20, from memory. The other values are worked out by hand.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from tidestead.core.errors import QuantityError
from tidestead.core.units import (
    Price,
    SalinityReading,
    Section,
    parse_band,
    parse_price,
    parse_salinity,
    parse_section,
    parse_three,
    parse_three_prices,
)

# ---- bands, and low likely high ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "dimension", "band"),
    [
        ("24 to 27 degC", "temperature", (24.0, 27.0)),
        ("24 degC to 27 degC", "temperature", (24.0, 27.0)),
        ("24 TO 27 C", "temperature", (24.0, 27.0)),
        ("-4 to 2 degC", "temperature", (-4.0, 2.0)),
        ("77 to 86 degF", "temperature", (25.0, 30.0)),
        ("45 to 80 %", "humidity", (0.45, 0.80)),
        ("10 to 20 %", "ratio", (0.1, 0.2)),
        ("0.1 to 0.2", "ratio", (0.1, 0.2)),
        ("4 ft to 4 ft 6 in", "length", (1.2192, 1.3716)),
        ("1 1/2 to 2 1/2 in", "length", (0.0381, 0.0635)),
    ],
)
def test_a_band_is_taken(text: str, dimension: str, band: tuple[float, float]) -> None:
    assert parse_band(text, dimension) == pytest.approx(band, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("24 .. 27 degC", '".."'),
        ("24 - 27 degC", "is not a band"),
        ("24-27 degC", "is not a band"),
        ("24 degC", "is not a band"),
        ("24 to 25 to 26 degC", "is not a band"),
        ("27 to 24 degC", "does not rise"),
        ("24 to 24 degC", "does not rise"),
        ("24 to 27", 'has no unit. Write "24 to 27 degC" or "24 to 27 degF"'),
        ("24 degC to 27", 'has no unit. Write "24 degC to 27 degC"'),
        ("24 mm to 27 degC", "is a length"),
        (" to ", "is not a band"),
        ("", "is not a band"),
    ],
)
def test_a_band_is_refused(text: str, words: str) -> None:
    with pytest.raises(QuantityError) as fault:
        parse_band(text, "temperature")
    assert words in str(fault.value)


def test_a_unit_of_feet_and_inches_is_not_lent_to_the_first_value() -> None:
    with pytest.raises(QuantityError, match='"4 to 4 ft 6 in" has no unit'):
        parse_band("4 to 4 ft 6 in", "length")


def test_three_values_are_taken() -> None:
    assert parse_three("14 .. 20 .. 34 h", "time") == (50_400.0, 72_000.0, 122_400.0)
    assert parse_three("410..460..560 mm", "length") == (0.41, 0.46, 0.56)
    assert parse_three("0.1 .. .2 .. .3", "ratio") == (0.1, 0.2, 0.3)
    assert parse_three("5 .. 5 .. 5 gph", "flow", "us") == pytest.approx((5 * 3.785411784 / 3.6e6,) * 3)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("14 to 20 h", '"to", which marks a band'),
        ("14 .. 20 h", "is not three values"),
        ("14 .. 20 .. 30 .. 40 h", "is not three values"),
        ("1...2..3 h", "is not three values"),
        ("14 … 20 … 30 h", "horizontal ellipsis"),
        ("20 .. 14 .. 34 h", "does not rise"),
        ("14 .. 20 .. 34", "has no unit"),
        (".. .. h", "is not three values"),
    ],
)
def test_three_values_are_refused(text: str, words: str) -> None:
    with pytest.raises(QuantityError) as fault:
        parse_three(text, "time")
    assert words in str(fault.value)


# ---- sections ----------------------------------------------------------------------------------------------

SIX = 0.1397
"""5 1/2 in."""


@pytest.mark.parametrize(
    ("text", "section"),
    [
        ("2x6", Section(1, 0.0381, SIX, "2x6")),
        ("2 x 6", Section(1, 0.0381, SIX, "2x6")),
        ("2 X 6", Section(1, 0.0381, SIX, "2x6")),
        ("2×6", Section(1, 0.0381, SIX, "2x6")),
        ("2-2x6", Section(2, 0.0381, SIX, "2x6")),
        ("(2) 2x6", Section(2, 0.0381, SIX, "2x6")),
        ("2 of 2x6", Section(2, 0.0381, SIX, "2x6")),
        ("3-2x8", Section(3, 0.0381, 0.18415, "2x8")),
        ("1x4", Section(1, 0.01905, 0.0889, "1x4")),
        ("5/4x6", Section(1, 0.0254, SIX, "5/4x6")),
        ("4x4", Section(1, 0.0889, 0.0889, "4x4")),
        ("6x6", Section(1, SIX, SIX, "6x6")),
        ("2x12", Section(1, 0.0381, 0.28575, "2x12")),
        ("47 x 145 mm", Section(1, 0.047, 0.145, "")),
        ("47x145mm", Section(1, 0.047, 0.145, "")),
        ("47 mm x 145 mm", Section(1, 0.047, 0.145, "")),
        ("2 of 47x145 mm", Section(2, 0.047, 0.145, "")),
        ("3 of 47 × 195 mm", Section(3, 0.047, 0.195, "")),
        ("1 1/2 in x 5 1/2 in", Section(1, 0.0381, SIX, "")),
        ("1 1/2 x 5 1/2 in", Section(1, 0.0381, SIX, "")),
        ('1½" x 5½"', Section(1, 0.0381, SIX, "")),
    ],
)
def test_a_section_is_taken(text: str, section: Section) -> None:
    assert parse_section(text) == section


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("47 x 145", 'has no unit. Write the true size: "47 x 145 mm"'),
        ("2x7", "is no nominal lumber size known here"),
        ("6x2", 'Write the smaller first: "2x6"'),
        ("145 x 47 mm", 'Write the smaller first: "47 mm x 145 mm"'),
        ("2x6 mm", "has a side under 5 mm"),
        ("0 x 145 mm", "has a side under 5 mm"),
        ("2 of 2-2x6", "counts the pieces twice"),
        ("2-47 x 145 mm", 'Write "2 of 47 x 145 mm"'),
        ("0 of 2x6", "no unit"),
        ("12 of 2x6", "no unit"),
        ("2x", "is not a section"),
        ("2x6x8", "is not a section"),
        ("145 mm", "is not a section"),
        ("47 kg x 145 mm", "is a mass"),
        ("", "is not a section"),
    ],
)
def test_a_section_is_refused(text: str, words: str) -> None:
    with pytest.raises(QuantityError) as fault:
        parse_section(text)
    assert words in str(fault.value)


# ---- salinity ----------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "reading"),
    [
        ("35 psu", SalinityReading("psu", 35.0)),
        ("35 PSU", SalinityReading("psu", 35.0)),
        ("35 ppt", SalinityReading("g/kg", 35.0)),
        ("35 ‰", SalinityReading("g/kg", 35.0)),
        ("35 g/kg", SalinityReading("g/kg", 35.0)),
        ("1.0264 sg at 25/25 degC", SalinityReading("sg", 1.0264, 25.0, 25.0)),
        ("1.0264 SG at 25 °C / 25 °C", SalinityReading("sg", 1.0264, 25.0, 25.0)),
        ("1.0264 sg 77/77 F", SalinityReading("sg", 1.0264, 25.0, 25.0)),
        ("1.0264 sg at 77 F/20 C", SalinityReading("sg", 1.0264, 25.0, 20.0)),
    ],
)
def test_a_salinity_is_taken(text: str, reading: SalinityReading) -> None:
    assert parse_salinity(text) == reading


def test_a_salinity_says_how_it_was_understood() -> None:
    assert "grams of salt per kilogram" in parse_salinity("35 ppt").understood
    assert "practical salinity" in parse_salinity("35 psu").understood
    assert parse_salinity("1.0264 sg 77/77 F").understood == (
        "specific gravity 1.0264: water at 25 °C = 77 °F against pure water at 25 °C = 77 °F"
    )


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("1.0264 sg", "needs two temperatures"),
        ("1.0264 sg at 25 degC", "needs two temperatures"),
        ("1.0264 sg at 25/25", "needs two temperatures"),
        ("1.0264 sg at 25/25 mm", "is a length"),
        ("26.4 sg at 25/25 degC", "is no specific gravity of water"),
        ("35", 'has no unit. Write "35 psu" or "35 g/kg".'),
        ("-35 psu", "is below zero"),
        ("350 psu", "must be 70 or less: the sea has 30 to 40."),
        ("350 ppt", "must be 70 or less"),
        ("70.1 g/kg", "must be 70 or less"),
        ("350", 'Write "35 psu"'),
        ("1.026", '"1.026 sg at 25/25 degC"'),
        ("35 ppm", "no unit of salinity"),
        ("35 mm", "no unit of salinity"),
        ("psu", "does not begin with a number"),
    ],
)
def test_a_salinity_is_refused(text: str, words: str) -> None:
    with pytest.raises(QuantityError) as fault:
        parse_salinity(text)
    assert words in str(fault.value)


# ---- prices ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "price"),
    [
        ("18 EUR/sheet", Price(Decimal(18), "EUR", "sheet")),
        ("18.50 EUR / sheet", Price(Decimal("18.50"), "EUR", "sheet")),
        ("18 eur per sheet", Price(Decimal(18), "EUR", "sheet")),
        ("18 EUR each", Price(Decimal(18), "EUR", "piece")),
        ("320 EUR", Price(Decimal(320), "EUR", "")),
        ("1,200 USD/m3", Price(Decimal(1200), "USD", "m3")),
        ("0.32 EUR/kWh", Price(Decimal("0.32"), "EUR", "kWh")),
        ("2.10 USD/sq ft", Price(Decimal("2.10"), "USD", "ft2")),
        ("31 USD/US gal", Price(Decimal(31), "USD", "US gal")),
        ("25 GBP/hour", Price(Decimal(25), "GBP", "h")),
        ("40 NOK/visit", Price(Decimal(40), "NOK", "visit")),
    ],
)
def test_a_price_is_taken(text: str, price: Price) -> None:
    assert parse_price(text) == price


def test_a_price_by_the_gallon_follows_the_plan() -> None:
    assert parse_price("31 USD/gal", "us").per == "US gal"
    assert parse_price("31 GBP/gallon", "imperial").per == "imp gal"


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("$18", 'Money is written with its three-letter code, such as "18 EUR/sheet".'),
        ("18 €/sheet", "three-letter code"),
        ("18", "has no currency"),
        ("18 mm", "has no currency"),
        ("18 psi", "has no currency"),
        ("18 gal/h", "has no currency"),
        ("18,50 EUR", "comma"),
        ("1/2 EUR", "is a fraction"),
        ("-5 EUR", "is below zero"),
        ("31 USD/gal", "US or imperial"),
        ("18 EUR/frog", 'for one "frog"'),
        ("18 EUR/", "has no currency"),
        ("EUR 18", "does not begin with a number"),
    ],
)
def test_a_price_is_refused(text: str, words: str) -> None:
    with pytest.raises(QuantityError) as fault:
        parse_price(text)
    assert words in str(fault.value)


def test_three_prices() -> None:
    low, likely, high = parse_three_prices("410 .. 460 .. 560 EUR/m2")
    assert (low.amount, likely.amount, high.amount) == (Decimal(410), Decimal(460), Decimal(560))
    assert {price.per for price in (low, likely, high)} == {"m2"}
    for text in (
        "410 .. 460 EUR/m2",
        "460 .. 410 .. 560 EUR/m2",
        "410 USD/m2 .. 460 .. 560 EUR/m2",
        "410 to 560 EUR/m2",
    ):
        with pytest.raises(QuantityError):
            parse_three_prices(text)
