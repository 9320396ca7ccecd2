"""Sizes that are advice: two digits in the reader's own unit, never the wrong side of what is needed."""

from __future__ import annotations

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tidestead.core.units import System, advised, parse


@pytest.mark.parametrize(
    ("value", "unit", "style", "metric", "us"),
    [
        (0.01 / 60.0, "m3/s", "air", "10 L/min", "0.35 cfm"),
        (0.6, "m", "", "600 mm", "24 in"),
        (0.25, "m", "", "250 mm", "9 3/4 in"),
        (0.05, "m", "", "50 mm", "2 in"),
        (2.0, "m", "", "2 m", "6 ft 7 in"),
        (3.861, "kg", "", "3.9 kg", "8.5 lb"),
        (0.001432, "m3", "", "1.4 L", "0.38 US gal"),
        (1673.0, "W", "", "1.7 kW", "1.7 kW"),
        (0.0, "kg", "", "0 mg", "0 oz"),
        (math.inf, "kg", "", "no limit", "no limit"),
    ],
)
def test_sizes_are_rounded_where_their_reader_reads_them(
    value: float, unit: str, style: str, metric: str, us: str
) -> None:
    assert advised(value, unit, "metric", style=style) == metric
    assert advised(value, unit, "us", style=style) == us


@pytest.mark.parametrize("system", ["metric", "us"])
@given(value=st.floats(1e-3, 1e3))
def test_up_is_enough_and_down_is_not_too_much(system: System, value: float) -> None:
    """Read back, what is told lies on its side of what was asked, and within a tenth of it."""
    for dimension, unit in (("mass", "kg"), ("volume", "m3")):
        more, less = (
            parse(advised(value, unit, system, "up"), dimension),
            parse(advised(value, unit, system, "down"), dimension),
        )
        assert less <= value * (1.0 + 1e-9)
        assert more >= value * (1.0 - 1e-9)
        assert more <= 1.1 * value * (1.0 + 1e-9)
        assert less >= value / 1.1 * (1.0 - 1e-9)


@given(value=st.floats(0.01, 20.0))
def test_lengths_are_told_in_inches_that_a_tape_has(value: float) -> None:
    more, less = (parse(advised(value, "m", "us", way), "length") for way in ("up", "down"))
    step = 0.0254 if value >= 0.254 else 0.0254 / 4.0
    assert less <= value * (1.0 + 1e-9)
    assert value * (1.0 - 1e-9) <= more <= value + step * (1.0 + 1e-9)


def test_a_temperature_is_left_as_it_is() -> None:
    assert advised(25.46, "degC", "metric") == "25.5 °C"
