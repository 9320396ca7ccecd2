"""What each kind of value in a plan takes, in SI, and what it refuses with which advice."""

from __future__ import annotations

from typing import Annotated, Any

import pytest
from pydantic import TypeAdapter, ValidationError

from tests.published.case import FOOT, INCH, LBF, PSF
from tidestead.core.units import SalinityReading, Section
from tidestead.plan import fields, loads, starter_text

DAY = 86400.0

TAKEN = [
    (fields.Length, "4 ft 6 in", 4.5 * FOOT),
    (fields.Length, "1 1/2 in", 1.5 * INCH),
    (fields.Length, "1 200 mm", 1.2),
    (fields.Level, "-10 cm", -0.1),
    (fields.Level, "0 m", 0.0),
    (fields.Share, "12 %", 0.12),
    (fields.Share, 0.12, 0.12),
    (fields.Share, 1, 1.0),
    (fields.Temperature, "75 F", (75 - 32) / 1.8),
    (fields.Temperature, "24 °C", 24.0),
    (fields.TemperatureBand, "24 to 27 degC", (24.0, 27.0)),
    (fields.ShareBand, "60 to 85 %", (0.60, 0.85)),
    (fields.Pressure, "250 psf", 250 * PSF),
    (fields.Force, "1000 lbf", 1000 * LBF),
    (fields.Moment, "250 N m", 250.0),
    (fields.Mass, "9 kg", 9.0),
    (fields.Duration, "7 days", 7 * DAY),
    (fields.Acceleration, "0.5 m/s2", 0.5),
    (fields.Count, 5, 5),
    (fields.Section, "2-2x6", Section(2, 0.0381, 0.1397, "2x6")),
    (fields.Section, "47 x 145 mm", Section(1, 0.047, 0.145, "")),
    (fields.Salinity, "35 psu", SalinityReading("psu", 35.0)),
    (fields.Lengths, ["1 m", "2 ft"], (1.0, 2 * FOOT)),
    (fields.Numbers, [1, 3], (1, 3)),
    (fields.ClearName, "acrylic-cast", "acrylic-cast"),
    (fields.ClearName, "yours:mine", "yours:mine"),
    (fields.LumberName, "C24", "C24"),
]

REFUSED = [
    (fields.Length, "24", 'has no unit. Write "24 in" or "610 mm".'),
    (fields.Length, 24, 'has no unit. Write "24 in" or "610 mm".'),
    (fields.Length, 0.5, 'has no unit. Write "0.5 m"'),
    (fields.Length, "0 m", "must be more than 0 m."),
    (fields.Length, "-1 m", "must be more than 0 m."),
    (fields.Length, "11 km", "must be 100 m or less."),
    (fields.Spacing, "3 m", "must be 2.5 m or less."),
    (fields.Level, "1.1 km", "must be 1000 m or less."),
    (fields.Section, "45 x 1000 m", "has a side over 1 m."),
    (fields.TemperatureBand, "24 to 270 degC", "must be 60 degC or less."),
    (fields.Length, True, "must be a quantity in quotes."),
    (fields.Length, ["1 m"], "must be a quantity in quotes."),
    (fields.Length, None, "must be a quantity in quotes."),
    (fields.Length, "75 degF", "length is wanted here"),
    (fields.Length, "9**9**9**9", "no sums are worked out here"),
    (fields.Share, "112 %", "must be from 0 % to 100 %."),
    (fields.Share, -0.1, "must be from 0 % to 100 %."),
    (fields.Share, float("nan"), ""),
    (fields.Share, float("inf"), ""),
    (fields.Temperature, "24", "has no unit"),
    (fields.TemperatureBand, "27 to 24 degC", "does not rise"),
    (fields.TemperatureBand, "24 degC", "is not a band"),
    (fields.Count, "5", "must be a whole number without quotes."),
    (fields.Count, 5.0, "must be a whole number without quotes."),
    (fields.Count, True, "must be a whole number without quotes."),
    (fields.Count, -1, "must be 0 or more."),
    (fields.Count, 10**30, ""),
    (fields.Section, "47 x 145", "has no unit"),
    (fields.Salinity, "35", "has no unit"),
    (fields.Numbers, [0], "greater than or equal to 1"),
    (fields.ClearName, "acrylic", "is not in the catalogue of clear."),
    (fields.ClearName, "mine", 'is a row of your own. Write "yours:mine".'),
    (fields.ClearName, "yours:other", "is not one of your rows for clear."),
    (fields.ClearName, 3, "must be a catalogue name in quotes."),
]
CONTEXT = {"gallons": "us", "yours": {"clear": ("mine",)}}


@pytest.mark.parametrize(("field", "typed", "value"), TAKEN)
def test_what_is_taken(field: Any, typed: Any, value: Any) -> None:
    read = TypeAdapter(field).validate_python(typed, context=CONTEXT)
    assert read == (pytest.approx(value, rel=1e-12) if isinstance(value, float) else value)
    assert isinstance(read, type(value))


@pytest.mark.parametrize(("field", "typed", "words"), REFUSED)
def test_what_is_refused(field: Any, typed: Any, words: str) -> None:
    with pytest.raises(ValidationError) as raised:
        TypeAdapter(field).validate_python(typed, context=CONTEXT)
    (detail,) = raised.value.errors()
    assert words in detail["msg"]


def test_a_bare_gallon_is_the_one_the_plan_means() -> None:
    volume = TypeAdapter(Annotated[float, fields.Typed("volume")])
    assert volume.validate_python("1 gal", context={"gallons": "us"}) == pytest.approx(3.785411784e-3)
    assert volume.validate_python("1 gal", context={"gallons": "imperial"}) == pytest.approx(4.54609e-3)
    with pytest.raises(ValidationError, match="could be US or imperial"):
        volume.validate_python("1 gal")


def test_without_a_plan_around_it_no_row_is_the_users_own() -> None:
    with pytest.raises(ValidationError, match="is not one of your rows"):
        TypeAdapter(fields.ClearName).validate_python("yours:mine")


@pytest.mark.parametrize("elevation", ["1609 m", "3640 m", "5280 ft", "-430 m"])
def test_a_place_may_lie_high_above_the_sea_or_below_it(elevation: str) -> None:
    """Denver, La Paz and the Dead Sea, from memory: no slip of the unit."""
    text = starter_text("metric").replace("[site]", f'[site]\nelevation = "{elevation}"', 1)
    assert loads(text).plan.site.elevation is not None
