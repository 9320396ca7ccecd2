"""Oxygen that comes in, held against figures of the reference in their own units."""

from __future__ import annotations

import pytest

from tests.journeys.flow_plans import changed, example
from tidestead.plan import loads
from tidestead.studies import flow, foam
from tidestead.studies.foam.facts import GasFacts
from tidestead.studies.inputs import Inputs


def gas() -> GasFacts:
    text = changed(example("skerry"), ('elevation = "9 m"', 'elevation = "0 m"'))
    inputs = Inputs(loads(text).plan, "metric")
    return foam.find(inputs, flow.find(inputs)).gas


def test_water_holds_what_the_reference_says() -> None:
    """S 35: 6.888 mg/L at 24 degC, 6.55 at 27 degC (between 6.657 at 26 and 6.440 at 28)."""
    found = gas()
    assert found.cool == pytest.approx(6.888, abs=0.002)
    assert found.warm == pytest.approx(6.548, abs=0.005)


def test_danger_is_in_the_units_of_what_is_held() -> None:
    assert gas().danger == pytest.approx(4.0)


def test_a_broken_surface_gives_its_speed_times_what_is_missing() -> None:
    """0.05 m/h over 4.0 x 2.2 m, from 4 mg/L: 0.05*8.8*2.55 g/h."""
    gain = next(one for one in gas().gains if one.where == "basin" and "broken" in one.how)
    assert gain.likely == pytest.approx(0.05 * 8.8 * (gas().warm - 4.0), rel=1e-6)
    assert gain.low < gain.likely < gain.high
