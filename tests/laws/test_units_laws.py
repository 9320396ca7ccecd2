"""Laws of the units: writing reads back to the last bit, showing stays within half a step."""

from __future__ import annotations

import math
import re
import struct
from fractions import Fraction
from typing import Literal

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tests.many import many
from tidestead.core import dims
from tidestead.core.errors import QuantityError
from tidestead.core.units import DIMENSIONS, echo, from_si_unit, parse, show, to_si, write
from tidestead.core.units.showing import LADDERS
from tidestead.core.units.symbols import canonical

NAMES = sorted(DIMENSIONS)
SYSTEMS: tuple[Literal["metric"], Literal["us"]] = ("metric", "us")
LENGTH_STYLES = ("", "lumber", "sheet", "film", "bow", "level", "head", "hose", "bubble", "fine")

ANY_FLOAT = st.floats(allow_nan=False, allow_infinity=False)
HANDY = st.integers(-10_000, 10_000).flatmap(
    lambda number: st.sampled_from([number / 1000, number * 0.0254 / 16, number * 0.3048, float(number)])
)
VALUES = st.one_of(ANY_FLOAT, HANDY)


def bits(value: float) -> bytes:
    return struct.pack("<d", value)


# ---- writing -----------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
@settings(max_examples=many(60), deadline=None)
@given(value=VALUES, system=st.sampled_from(SYSTEMS))
@example(value=0.0, system="us")
@example(value=-0.0, system="us")
@example(value=5e-324, system="us")
@example(value=1.7976931348623157e308, system="us")
def test_what_is_written_reads_back_to_the_last_bit(
    name: str, value: float, system: Literal["metric", "us"]
) -> None:
    if DIMENSIONS[name].whole:
        value = float(round(value))
    text = write(value, name, system)
    assert len(text) <= 60
    assert bits(parse(text, name)) == bits(value)


@pytest.mark.parametrize(
    ("value", "name", "metric", "us"),
    [
        (0.038, "length", "38 mm", "38 mm"),
        (0.0381, "length", "38.1 mm", "1.5 in"),
        (0.0254 * 11 / 16, "length", "17.4625 mm", "11/16 in"),
        (1.2, "length", "1.2 m", "1.2 m"),
        (1.3716, "length", "1.3716 m", "54 in"),
        (24.0, "temperature", "24 degC", "75.2 degF"),
        (25.0, "temperature", "25 degC", "77 degF"),
        (12_000.0, "pressure", "12 kPa", "12 kPa"),
        (0.12, "ratio", "0.12", "0.12"),
        (0.65, "humidity", "65 %", "65 %"),
        (12.0, "count", "12", "12"),
        (math.radians(45.0), "angle", "45 deg", "45 deg"),
    ],
)
def test_the_shortest_text_is_written(value: float, name: str, metric: str, us: str) -> None:
    assert (write(value, name, "metric"), write(value, name, "us")) == (metric, us)


@pytest.mark.parametrize("value", [math.nan, math.inf, -math.inf])
def test_what_is_not_a_number_cannot_be_written(value: float) -> None:
    with pytest.raises(QuantityError, match="cannot be written"):
        write(value, "length", "metric")


# ---- showing -----------------------------------------------------------------------------------------------


def shown_value(text: str) -> tuple[Fraction, Fraction]:
    """The figure at the head of a shown text and half its last step, read without our parser."""
    number = text.replace("\u00a0", "").replace(",", "").split(" ")[0].rstrip("°")
    mantissa, _, power = number.partition("e")
    decimals = len(mantissa.partition(".")[2])
    scale = Fraction(10) ** int(power or 0)
    return Fraction(mantissa) * scale, Fraction(1, 2) * Fraction(1, 10**decimals) * scale


def shown_unit(text: str) -> str:
    return text.replace("\u00a0", "").partition(" ")[2]


SIZES = st.floats(min_value=1e-12, max_value=1e12).flatmap(lambda size: st.sampled_from([size, -size]))


@pytest.mark.parametrize("unit_si", sorted(set(LADDERS) - {"m3/s air"}))
@settings(max_examples=many(60), deadline=None)
@given(value=SIZES, system=st.sampled_from(SYSTEMS), style=st.sampled_from(["", "fine"]))
def test_shown_figure_is_within_half_its_step(
    unit_si: str, value: float, system: Literal["metric", "us"], style: str
) -> None:
    text = show(value, unit_si, system, style)
    figure, half = shown_value(text)
    name, _, _ = LADDERS[unit_si]
    symbol = canonical(
        shown_unit(text).replace("²", "2").replace("³", "3").replace("⁴", "4").replace("per ", "1/")
    )
    unit = DIMENSIONS[name].units[symbol.replace("µ", "u") or "°"]
    assert abs(figure - unit.from_si(Fraction(value))) <= half


@pytest.mark.parametrize("value", [99_999e3, -99_999e3, 9.9999e-5, 9.996e11])
def test_a_figure_that_rounds_to_ten_moves_on_to_the_next_power(value: float) -> None:
    text = show(value, "kg/m3", "metric")
    assert abs(shown_value(text)[0] - Fraction(value)) <= shown_value(text)[1]
    assert text.lstrip("-").startswith("1e")


@pytest.mark.parametrize("style", LENGTH_STYLES)
@settings(max_examples=many(150), deadline=None)
@given(value=st.floats(min_value=1e-7, max_value=1e4), system=st.sampled_from(SYSTEMS))
@example(value=0.0381, system="us")
@example(value=0.3047999, system="us")
@example(value=0.9995, system="metric")
def test_shown_length_reads_back_within_half_its_step(
    style: str, value: float, system: Literal["metric", "us"]
) -> None:
    text = show(value, "m", system, style)
    back = parse(text, "film" if style == "film" else "length")
    assert abs(Fraction(back) - Fraction(value)) <= length_step(text) / 2 + Fraction(value) * Fraction(
        1, 10**12
    )


def length_step(text: str) -> Fraction:
    """The last step of a shown length in metres: of its decimals, or of its fraction of an inch."""
    size = {"mm": "0.001", "µm": "0.000001", "m": "1", "mil": "0.0000254", "in": "0.0254", "ft": "0.3048"}
    figure, _, unit = text.rpartition(" ")
    last = figure.split(" ")[-1]
    if "/" in last:
        return Fraction(1, int(last.partition("/")[2])) * Fraction(size["in"])
    _, half = shown_value(f"{last} x")
    return 2 * half * Fraction(size[unit])


@pytest.mark.parametrize("style", ["lumber", "sheet", "level"])
@given(value=st.floats(min_value=0.0, max_value=100.0))
def test_fractions_of_an_inch_stop_where_the_style_says(style: str, value: float) -> None:
    finest = 8 if style == "level" else 16
    for under in re.findall(r"/(\d+)", show(value, "m", "us", style)):
        assert finest % int(under) == 0


@given(value=st.floats(min_value=1e-4, max_value=1e4), system=st.sampled_from(SYSTEMS))
def test_default_and_lumber_lengths_are_never_far_off(value: float, system: Literal["metric", "us"]) -> None:
    assert parse(show(value, "m", system), "length") == pytest.approx(value, rel=5e-3, abs=8e-4)


EVERY_UNIT_STRING = sorted(
    {unit for name in vars(dims) if (unit := dims.unit_of(getattr(dims, name))) is not None}
)


@pytest.mark.parametrize("unit_si", [*EVERY_UNIT_STRING, *sorted({d.si for d in DIMENSIONS.values()})])
@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("value", [0.0, 1.0, -3.7, 1234.5678, 2.5e-7, 8.1e11])
def test_every_unit_of_the_program_can_be_shown(
    unit_si: str, system: Literal["metric", "us"], value: float
) -> None:
    figure, _ = shown_value(show(value, unit_si, system))
    if unit_si != "degC":
        assert figure * (1 if value >= 0 else -1) >= 0
    assert show(value, unit_si, "metric") in echo(value, unit_si)


@settings(max_examples=many(300), deadline=None)
@given(
    value=ANY_FLOAT,
    unit_si=st.sampled_from([*EVERY_UNIT_STRING, "m"]),
    system=st.sampled_from(SYSTEMS),
    style=st.sampled_from(LENGTH_STYLES),
)
def test_any_float_is_shown_in_short(
    value: float, unit_si: str, system: Literal["metric", "us"], style: str
) -> None:
    text = show(value, unit_si, system, style)
    assert len(text) <= 40
    assert "-0 " not in f"{text} "


@pytest.mark.parametrize("unit_si", EVERY_UNIT_STRING)
@pytest.mark.parametrize("system", SYSTEMS)
def test_what_is_no_number_is_shown_in_words(unit_si: str, system: Literal["metric", "us"]) -> None:
    assert show(math.nan, unit_si, system) == "not a number"
    assert show(math.inf, unit_si, system) == "no limit"
    assert show(-math.inf, unit_si, system) == "no lower limit"


@pytest.mark.parametrize(
    ("value", "unit_si", "style", "metric", "us"),
    [
        (0.038, "m", "", "38 mm", "1 1/2 in"),
        (0.038, "m", "lumber", "38 mm", "1 1/2 in"),
        (0.0381, "m", "lumber", "38.1 mm", "1 1/2 in"),
        (0.018, "m", "sheet", "18 mm", "11/16 in"),
        (2.4384, "m", "lumber", "2438.4 mm", "8 ft"),
        (1.3716, "m", "", "1.372 m", "4 ft 6 in"),
        (0.6096, "m", "", "610 mm", "24 in"),
        (1.2954, "m", "level", "1.30 m", "4 ft 3 in"),
        (0.0032, "m", "bow", "3.2 mm", "0.13 in"),
        (1.9629, "m", "head", "1.96 m", "6.44 ft"),
        (0.9144, "m", "head", "0.91 m", "3 ft"),
        (0.0012, "m", "film", "1200 µm", "47.2 mil"),
        (0.0123456, "m", "fine", "12.35 mm", "0.486 in"),
        (0.0008, "m", "bubble", "0.8 mm", "0.8 mm"),
        (10.0, "m", "hose", "10 m", "33 ft"),
        (0.0728, "N/m", "", "0.0728 N/m", "0.00499 lbf/ft"),
        (1000.0, "N/m", "", "1 kN/m", "68.5 lb/ft"),
        (0.001, "Pa s", "", "0.001 Pa s", "0.000672 lb/(ft s)"),
        (1.78, "m^0.5/s", "", "1.78 m^0.5/s", "3.22 ft^0.5/s"),
        (12_000.0, "Pa", "", "12 kPa", "251 psf"),
        (5.0e6, "Pa", "", "5 MPa", "725 psi"),
        (11.0e9, "Pa", "", "11 GPa", "1,595 ksi"),
        (4500.0, "N", "", "4.5 kN", "1,012 lbf"),
        (860.7, "N m/m", "", "861 N m/m", "193 lb-ft/ft"),
        (24.44, "degC", "", "24.4 °C", "76 °F"),
        (3.0, "K", "", "3 K", "5.4 °F"),
        (10.4, "m3", "", "10.4 m³", "2,747 US gal"),
        (1025.0, "kg/m3", "", "1025 kg/m³", "64 lb/ft³"),
        (0.01, "rad", "", "0.573°", "0.573°"),
        (604_800.0, "s", "", "7 days", "7 days"),
        (12, "count", "", "12", "12"),
        (0.0025, "m3/s", "air", "150 L/min", "5.3 cfm"),
        (1234.5, "EUR", "", "1234 EUR", "1,234 EUR"),
    ],
)
def test_a_sensible_size_is_shown(value: float, unit_si: str, style: str, metric: str, us: str) -> None:
    assert (show(value, unit_si, "metric", style), show(value, unit_si, "us", style)) == (metric, us)


@pytest.mark.parametrize(
    ("times", "expected"),
    [
        ((24.0, 180.0, 4800.0), ["24 s", "3 min", "1.33 h"]),
        ((24.0, 180.0), ["24 s", "180 s"]),
        ((30.0, 600.0), ["30 s", "10 min"]),
        ((36_000.0, 96_000.0, 345_600.0), ["10 h", "26.7 h", "96 h"]),
        ((0.0, 90.0), ["0 min", "1.5 min"]),
        ((200_000.0, 800_000.0), ["2.31 days", "9.26 days"]),
    ],
)
def test_times_side_by_side_are_one_or_more_of_their_unit(
    times: tuple[float, ...], expected: list[str]
) -> None:
    """They share the unit that the smallest fills, or each has its own where that gives large figures."""
    assert [show(time, "s", "metric", "", times) for time in times] == expected


@pytest.mark.parametrize(
    ("value", "unit_si", "style", "expected"),
    [
        (0.0381, "m", "", "38.1 mm = 1 1/2 in"),
        (0.038, "m", "", "38 mm ≈ 1 1/2 in"),
        (0.0381, "m", "lumber", "38.1 mm = 1 1/2 in"),
        (1.3716, "m", "", "1.372 m ≈ 4 ft 6 in"),
        (25.0, "degC", "", "25 °C = 77 °F"),
        (0.25, "1", "", "0.25"),
        (35.0, "psu", "", "35 psu"),
        (1234.0, "EUR", "", "1234 EUR"),
        (math.nan, "m", "", "not a number"),
    ],
)
def test_echo_says_both_and_whether_they_are_equal(
    value: float, unit_si: str, style: str, expected: str
) -> None:
    assert echo(value, unit_si, style) == expected


# ---- tables ------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("name", NAMES)
def test_every_symbol_is_spelled_as_the_speller_leaves_it(name: str) -> None:
    for symbol in DIMENSIONS[name].symbols:
        assert canonical(symbol) == symbol


@pytest.mark.parametrize("name", NAMES)
def test_capitals_never_change_a_size(name: str) -> None:
    units = DIMENSIONS[name].units
    for symbol, unit in units.items():
        for changed in (
            symbol.upper(),
            symbol.lower(),
            symbol.title(),
            symbol.swapcase(),
            symbol.capitalize(),
        ):
            read = units.get(canonical(changed))
            if read is not None and changed not in units:
                assert read.factor == unit.factor, changed


@pytest.mark.parametrize(
    ("text", "name"),
    [("5 Mm", "length"), ("5 mPa", "pressure"), ("5 Mbar", "pressure"), ("5 mN", "force"), ("5 ML", "volume"),
     ("5 Mg", "mass"), ("2 T", "mass"), ("5 MW", "power"), ("30 MA", "current"), ("5 Mrad", "angle")],
)  # fmt: skip
def test_a_million_is_never_read_as_a_thousandth(text: str, name: str) -> None:
    with pytest.raises(QuantityError):
        parse(text, name)


@pytest.mark.parametrize("name", NAMES)
def test_every_unit_reads_back_its_own_factor(name: str) -> None:
    dimension = DIMENSIONS[name]
    for symbol, unit in dimension.units.items():
        assert unit.factor > 0
        assert parse(f"3 {symbol}" if symbol != "1" else "3", name) == float(unit.to_si(Fraction(3)))


@pytest.mark.parametrize("name", NAMES)
def test_every_example_reads(name: str) -> None:
    texts = re.findall(r'"([^"]+)"', DIMENSIONS[name].example)
    assert texts
    values = [parse(text, name) for text in texts]
    if DIMENSIONS[name].metric != DIMENSIONS[name].us:
        assert values[-1] == pytest.approx(values[0], rel=0.3)


@settings(max_examples=many(60), deadline=None)
@given(
    value=st.floats(min_value=-1e9, max_value=1e9),
    unit=st.sampled_from(["psi", "lb-in2/ft", "MPa", "degC", "in4/ft"]),
)
def test_catalog_units_turn_back(value: float, unit: str) -> None:
    assert from_si_unit(to_si(value, unit), unit) == pytest.approx(value, rel=1e-14, abs=1e-300)


@pytest.mark.parametrize("unit_si", ["m", "N"])
def test_a_style_that_does_not_exist_is_told(unit_si: str) -> None:
    with pytest.raises(ValueError, match='no style "bough"'):
        show(1.0, unit_si, "metric", "bough")
