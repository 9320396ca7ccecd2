"""Light for plants against print: photons of daylight, days of light, water, lamps."""

from __future__ import annotations

import math

import pytest

from tests.published.case import Case, marked
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.light import attenuation, lamps, photons
from tidestead.physics.light.attenuation import CLEAR_OCEAN, COASTAL
from tidestead.physics.light.lamps import LampLight

G173 = "ASTM G173 reference sun, global on a tilted plane"
TRIAL = "trial with Pocillopora acuta, PMC7673984"
ALASKA = "monthly sun of a TMY3 file, Sand Point, Alaska"
SEA = "Fresnel's equations for seawater, n = 1.34, worked beforehand"
HAND = "Beer and Lambert, by hand"
OCEAN = "C. Paulson and J. Simpson (1977)"
WORKED = "lamps for a reef at 55 north in December, worked beforehand"
FIXTURES = "J. Nelson and B. Bugbee (2014), PLoS ONE 9(6):e99010"

REEF = LampLight(2.2, 0.7, 7.4, math.exp(-0.15 * 1.4))

CASES = [
    Case("429.8 W/m2 of the reference sun between 400 and 700 nm", photons.photon_flow,
         {"power": 429.8, "photons": photons.OF_PAR}, 1977.9, 15.0, G173, "spectrum summed", "computed",
         why="4.57 stems from another spectrum of the sun; this one has 4.60"),
    Case("1000.4 W/m2 of it at 1.977", photons.photon_flow, {"power": 1000.4, "photons": 1.977}, 1977.9, 0.2, G173,
         "spectrum summed", "computed", why="the factor is printed to four digits"),
    *[Case(f"{flow} umol for 12 h", photons.daily_light, {"mean": flow * 12.0 / 24.0}, printed, 0.05, TRIAL,
           "light levels", "read")
      for flow, printed in ((105.0, 4.5), (157.0, 6.8), (250.0, 10.8))],
    *[Case(f"a mean of {sun} W/m2 at 2.06", lambda sun: photons.daily_light(photons.photon_flow(sun, 2.06)),
           {"sun": float(sun)}, printed, 0.1, ALASKA, "daily light outside by month", "computed",
           why="the mean is printed in whole watts")
      for sun, printed in ((24, 4.3), (44, 7.8), (77, 13.7), (137, 24.3))],
    Case("sun straight above, at the surface", attenuation.sun_under_water, {"angle": 0.0, "depth": 0.0, "rate": 0.2},
         0.9789, 5e-5, SEA, "1 - 0.0211", "computed"),
    Case("sun at 60 degrees, 1 m down, Kd 0.2", attenuation.sun_under_water,
         {"angle": math.radians(60.0), "depth": 1.0, "rate": 0.2}, 0.7225, 5e-5, HAND,
         "sin = 0.6463, cos = 0.7631; 0.9390*exp(-0.2621)", "computed"),
    Case("even sky, at the surface", attenuation.sky_under_water, {"depth": 0.0, "rate": 0.2}, 0.9325, 5e-5, SEA,
         "1 - 0.0675", "computed"),
    Case("straight down 1.4 m at 0.15", attenuation.straight_share, {"depth": 1.4, "rate": 0.15}, 0.8106, 5e-5, HAND,
         "exp(-0.21)", "computed"),
    Case("310 at 0.2 m and 240 at 1.0 m", attenuation.fitted_rate, {"depths": (0.2, 1.0), "lights": (310.0, 240.0)},
         0.320, 5e-4, HAND, "ln(310/240)/0.8", "computed", pick=lambda fit: fit.rate),
    Case("and what the light is just under the surface", attenuation.fitted_rate,
         {"depths": (0.2, 1.0), "lights": (310.0, 240.0)}, 330.5, 0.05, HAND, "310*exp(0.31992*0.2)", "computed",
         pick=lambda fit: fit.surface),
    Case("their meter's error", attenuation.fitted_rate, {"depths": (0.2, 1.0), "lights": (310.0, 240.0)}, 0.0884,
         5e-5, HAND, "0.05*sqrt(2)/0.8", "computed", pick=lambda fit: fit.error),
    Case("heat at the floor of 1.5 m of clear ocean", attenuation.heat_left, {"depth": 1.5, "water": CLEAR_OCEAN},
         0.40, 0.005, OCEAN, "type I", "computed"),
    Case("and of coastal water", attenuation.heat_left, {"depth": 1.5, "water": COASTAL}, 0.449, 5e-4, OCEAN,
         "0.78*exp(-1.0714) + 0.22*exp(-0.18987)", "computed"),
    Case("lamps that make up 5.3 mol/m2/day over 7.4 m2, 1.4 m down", lamps.lamp_power,
         {"missing": 5.3, "lamp": REEF, "hours": 12.0}, 730.0, 5.0, WORKED, "31 MJ/d = 8.7 kWh/d", "computed",
         why="printed to two digits"),
    Case("a double-ended sodium lamp of 1000 W over 4 m2", lamps.lamp_flow,
         {"power": 1000.0, "lamp": LampLight(1.70, 1.0, 4.0)}, 425.0, 0.5, FIXTURES, "1.70 umol/J", "read"),
    Case("heat in the water of 100 W at 2.2 umol/J, seven tenths of the light", lamps.lamp_heat_in_water,
         {"power": 100.0, "efficacy": 2.2, "reaches": 0.7}, 33.7, 0.05, HAND, "100*0.7*2.2/4.57", "computed"),
]  # fmt: skip


@pytest.mark.parametrize("case", [marked(case) for case in CASES])
def test_light_holds_to_print(case: Case) -> None:
    assert case.holds()


def test_readings_that_tell_nothing_are_refused() -> None:
    for depths, lights in (((0.2,), (310.0,)), ((0.2, 0.2), (310.0, 300.0)), ((0.2, 1.0), (310.0, 0.0))):
        with pytest.raises(ImpossibleInput):
            attenuation.fitted_rate(depths, lights)


def test_lamps_that_nothing_is_left_of_are_refused() -> None:
    with pytest.raises(ImpossibleInput):
        LampLight(2.2, 0.7, 7.4, 0.0)
    with pytest.raises(ImpossibleInput):
        lamps.lamp_power(3.0, LampLight(2.2, 0.0, 7.4), 12.0)
