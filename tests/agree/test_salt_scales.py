"""Salinity as typed, against the library gsw and the polynomials of PSS-78 as printed."""

from __future__ import annotations

import gsw
import numpy as np
import pytest

from tidestead.core.units import parse_salinity
from tidestead.physics.water import readings

SALT = [0.5, 5.0, 20.0, 33.5, 35.0, 41.0]
TEMPS = [0.5, 10.0, 18.0, 25.0, 31.0, 34.5]
C_35_15 = 42.914
"""mS/cm at 15 degC on the scale of 1968."""
SCALE_1968 = 1.00024
RATIO = np.polynomial.Polynomial([0.6766097, 2.00564e-2, 1.104259e-4, -6.9698e-7, 1.0031e-9])
"""r_t of UNESCO Technical Papers in Marine Science 44: C(35, t, 0)/C(35, 15, 0), t on the scale of 1968."""


def psu(text: str) -> float:
    return parse_salinity(text).meant.psu


def test_the_referee_gives_the_check_values_of_unesco_44() -> None:
    for ratio, temp_68, pressure, printed in (
        (1.0, 15.0, 0.0, 35.0), (1.2, 20.0, 2000.0, 37.245628), (0.65, 5.0, 1500.0, 27.995347),
    ):  # fmt: skip
        found = gsw.SP_from_C(ratio * C_35_15, temp_68 / SCALE_1968, pressure)
        assert float(found) == pytest.approx(printed, abs=6e-7)


@pytest.mark.parametrize("sal_psu", SALT)
@pytest.mark.parametrize("temp_c", TEMPS)
def test_conductivity_as_it_is(sal_psu: float, temp_c: float) -> None:
    shown = float(gsw.C_from_SP(sal_psu, temp_c, 0.0))
    for text in (
        f"{shown:.6f} mS/cm at {temp_c:g} degC", f"{1000.0 * shown:.3f} uS/cm at {temp_c:g} degC",
        f"{shown / 10.0:.7f} S/m at {1.8 * temp_c + 32.0:.6g} degF",
    ):  # fmt: skip
        assert psu(text) == pytest.approx(sal_psu, abs=2e-4), text


@pytest.mark.parametrize("temp_c", [15.0, 20.0, 30.0])
def test_conductivity_led_back_along_a_line(temp_c: float) -> None:
    """What a meter shows is by hand: the conductivity there over the line's factor."""
    bare = float(gsw.C_from_SP(35.0, temp_c, 0.0))
    for reference, per_cent in ((25.0, 1.91), (20.0, 2.1), (25.0, 2.0)):
        shown = bare / (1.0 + per_cent / 100.0 * (temp_c - reference))
        typed = f"{shown:.5f} mS/cm at {temp_c:g} degC led back to {reference:g} degC by {per_cent:g} %/K"
        assert psu(typed) == pytest.approx(35.0, abs=1e-4), typed


@pytest.mark.parametrize("reference_c", [15.0, 20.0, 25.0, 30.0])
def test_slope_of_seawater(reference_c: float) -> None:
    """By hand r_t'/r_t; theirs is for degrees of 1968, of which there are 1.00024 to one of today's."""
    temp_68 = reference_c * SCALE_1968
    theirs = SCALE_1968 * RATIO.deriv()(temp_68) / RATIO(temp_68)
    assert readings.seawater_slope(reference_c) == pytest.approx(theirs, rel=1e-4)


@pytest.mark.parametrize("reference_c", [20.0, 25.0])
def test_a_line_that_is_not_typed_is_seawaters_own(reference_c: float) -> None:
    temp_68 = reference_c * SCALE_1968
    slope = SCALE_1968 * RATIO.deriv()(temp_68) / RATIO(temp_68)
    bare = float(gsw.C_from_SP(35.0, 12.0, 0.0))
    shown = bare / (1.0 + slope * (12.0 - reference_c))
    read = parse_salinity(f"{shown:.5f} mS/cm at 12 degC led back to {reference_c:g} degC")
    assert read.meant.psu == pytest.approx(35.0, abs=2e-3)
    assert read.meant.taken.startswith(f"along {100.0 * slope:.3g} % a kelvin, seawater's own slope there")


@pytest.mark.parametrize("sal_psu", SALT)
def test_led_back_without_error_is_conductivity_at_the_reference(sal_psu: float) -> None:
    shown = float(gsw.C_from_SP(sal_psu, 25.0, 0.0))
    assert psu(f"{shown:.6f} mS/cm led back to 25 degC") == pytest.approx(sal_psu, abs=1e-4)
