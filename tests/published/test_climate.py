"""Parts of the weather generator against print, and the generator of chance against its authors' known answers."""

from __future__ import annotations

import math

import numpy as np
import pytest

from tests.published.case import Case
from tidestead.core.weather import HOURS, Normals, Spell, WeatherYear
from tidestead.physics.climate import clearness, spells, temperature
from tidestead.physics.climate._draws import philox

DAYS = "Duffie and Beckman, 5th edition, equations 2.9.4 to 2.9.6, worked by hand"
HOURLY = "Collares-Pereira and Rabl (1979), worked by hand"
ERBS = "Erbs, Klein and Duffie (1982), worked by hand"
WAVE = "Erbs, Klein and Beckman (1983), worked by hand"
OWN = "our own rule, worked by hand"
KNOWN = "known answers of the authors of Philox, ten rounds of four words of 32 bits (2011), from memory"
MILD = Normals(
    (4.0, 4.5, 6.0, 8.0, 11.0, 14.0, 16.0, 16.0, 14.0, 11.0, 7.0, 5.0),
    (100.0,) * 12,
    (0.8,) * 12,
    (4.0,) * 12,
)


def steps() -> WeatherYear:
    """Ten degrees all year but for six days of -2 from day 20 on and four of 30 from day 200 on."""
    temp_c = np.full(HOURS, 10.0)
    temp_c[24 * 20 : 24 * 26] = -2.0
    temp_c[24 * 200 : 24 * 204] = 30.0
    other = np.full(HOURS, 0.5)
    return WeatherYear("steps", temp_c, other, 1e5 + other, other, other, other, other, 300.0 + other)


def _days(spell: Spell) -> float:
    return spell.mean_c


CASES = [
    *[Case(f"clearest day about {mean}", clearness.highest_clearness, {"mean": mean}, printed, 5e-5, DAYS,
           "Kmax", "computed")
      for mean, printed in ((0.3, 0.6914), (0.5, 0.7646), (0.75, 0.8316))],
    *[Case(f"steepness about {mean}", clearness.days_steepness, {"mean": mean}, printed, 5e-4, DAYS, "gamma",
           "computed")
      for mean, printed in ((0.3, -2.1), (0.5, 2.314), (0.7, 8.517))],
    Case("days below 0.5 about 0.5", clearness.days_below, {"clearness": 0.5, "mean": 0.5}, 0.4337, 5e-5, DAYS, "F",
         "computed"),
    Case("half the days about 0.5 are below", clearness.day_clearness, {"share": 0.5, "mean": 0.5}, 0.541, 5e-4, DAYS,
         "F turned round", "computed"),
    Case("noon hour at the equinox", clearness.hour_ratio, {"hour_angle": 0.0, "sunset": math.pi / 2}, 0.1417, 5e-5,
         HOURLY, "(a + b)*pi/24", "computed"),
    Case("an hour at 45 degrees in high summer", clearness.hour_ratio,
         {"hour_angle": math.pi / 4, "sunset": 2.0 * math.pi / 3}, 0.0841, 5e-5, HOURLY, "a .8434, b .2481",
         "computed"),
    *[Case(f"diffuse share at {at}", clearness.diffuse_share, {"clearness": at}, printed, 5e-6, ERBS, "three ranges",
           "computed")
      for at, printed in ((0.1, 0.9910), (0.5, 0.65915), (0.7, 0.24398), (0.85, 0.165))],
    Case("swing of a month half clear", temperature.swing_of_clearness, {"clearness": 0.5}, 7.69, 0.005, WAVE,
         "25.8*.5 - 5.21", "computed"),
    Case("warmest at 15 h", temperature.daily_wave, {"hour": 15.0}, 0.5221, 5e-5, WAVE, "four waves", "computed"),
    Case("coldest at 5 h", temperature.daily_wave, {"hour": 5.0}, -0.4541, 5e-5, WAVE, "four waves", "computed"),
    Case("the coldest five days", spells.coldest_mean, {"year": steps(), "days": 5.0}, -2.0, 0.005, OWN, "steps",
         "computed"),
    Case("the warmest five days", spells.warmest_mean, {"year": steps(), "days": 5.0}, 26.0, 0.05, OWN, "steps",
         "computed"),
    Case("cold spell of a plan with normals only", spells.cold_spell_of_normals, {"normals": MILD}, -6.0, 0.05, OWN,
         "4 - 10", "practice", pick=_days),
    Case("heat wave of a plan with normals only", spells.heat_wave_of_normals, {"normals": MILD}, 22.0, 0.05, OWN,
         "16 + 6", "practice", pick=_days),
    Case("cold spell of one year", spells.cold_spell_of_years, {"years": (steps(),)}, -9.01, 0.005, OWN,
         "-2 - 3*.7797*ln 20", "practice", pick=_days),
    Case("heat wave of one year", spells.heat_wave_of_years, {"years": (steps(),)}, 29.50, 0.005, OWN,
         "26 + 1.5*.7797*ln 20", "practice", pick=_days),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_climate_holds_to_print(case: Case) -> None:
    assert case.holds()


@pytest.mark.parametrize(
    ("given", "answer"),
    [
        ((0, 0, 0, 0, 0, 0), (0x6627E8D5, 0xE169C58D, 0xBC57AC4C, 0x9B00DBD8)),
        ((0xFFFFFFFF,) * 6, (0x408F276D, 0x41C83B0E, 0xA20BC7C6, 0x6D5451FD)),
        (
            (0x243F6A88, 0x85A308D3, 0x13198A2E, 0x03707344, 0xA4093822, 0x299F31D0),
            (0xD16CFE09, 0x94FDCCEB, 0x5001E420, 0x24126EA1),
        ),
    ],
)
def test_chance_gives_the_known_answers(given: tuple[int, ...], answer: tuple[int, ...]) -> None:
    assert philox(*given) == answer, KNOWN
