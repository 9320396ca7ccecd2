"""The sun against print: the worked example of the algorithm, lengths of days, the diffuse share, moist air."""

from __future__ import annotations

import datetime
import math
from typing import Any

import numpy as np
import pytest

from tests.published.case import Case
from tidestead.intake.air import dew_point, station_pressure
from tidestead.intake.parts import diffuse_share
from tidestead.intake.sun import lifted, sky_at, sun_path

SPA = "Reda and Andreas (2004), Solar Energy 76:577, worked example"
PLACE = "17 October 2003, 12:30:30 by UTC-7, 39.742476 N 105.1786 W, 1830.14 m, 820 hPa, 11 degC"
FORSYTHE = "Forsythe et al. (1995), Ecological Modelling 80:87"
ERBS = "Erbs, Klein and Duffie (1982), Solar Energy 28:293"
ISO_AIR = "ISO 2533 (1975), standard atmosphere"
MOMENT = datetime.datetime(2003, 10, 17, 19, 30, 30, tzinfo=datetime.UTC).timestamp()
GOLDEN = {"latitude": 39.742476, "longitude": -105.1786, "elevation": 1830.14}
ZENITH, AZIMUTH = 50.11162, 194.34024


def _sky(air: tuple[float, float], **place: float) -> tuple[float, float]:
    """Zenith as seen through the air, and azimuth, degrees, at the moment of the example."""
    sky = sky_at(np.array([MOMENT]), **place, ahead=67.0)
    return 90.0 - float(lifted(sky.height, *air)[0]), float(sky.azimuth[0])


def _hour(latitude: float, longitude: float, elevation: float, at: int) -> tuple[float, float]:
    """Zenith and azimuth, degrees, in the middle of an hour of the path, by UTC-7."""
    path = sun_path(latitude, longitude, elevation, -7.0)
    return math.degrees(path.zenith_rad[at]), math.degrees(path.azimuth_rad[at])


def _light(latitude: float, day: int) -> float:
    """Hours of light of a day, from 0, by the upper edge of the sun: its middle's, and 0.26667 degrees at each end."""
    path = sun_path(latitude, 0.0, 0.0, 0.0)
    middle = float(path.up.reshape(365, 24)[day].sum())
    declination = math.radians(23.44) * math.sin(2.0 * math.pi * (day - 79.8) / 365.25)
    steep = math.sqrt(math.cos(math.radians(latitude)) ** 2 - math.sin(declination) ** 2)
    return middle + 2.0 * 0.26667 / steep / 15.0


def forsythe(latitude: float, number: int) -> float:
    """The formula in print, with 0.8333 degrees for the upper edge lifted by the air; day 1 is 1 January."""
    bow = 0.2163108 + 2.0 * math.atan(0.9671396 * math.tan(0.0086 * (number - 186)))
    tilt, lat = math.asin(0.39795 * math.cos(bow)), math.radians(latitude)
    edge = math.sin(math.radians(0.8333)) + math.sin(lat) * math.sin(tilt)
    return 24.0 - 24.0 / math.pi * math.acos(max(-1.0, min(1.0, edge / (math.cos(lat) * math.cos(tilt)))))


def _first(found: Any) -> float:
    return float(found[0])


def _second(found: Any) -> float:
    return float(found[1])


CASES = [
    Case("zenith in the worked example", _sky, {"air": (82000.0, 11.0), **GOLDEN}, ZENITH, 5e-6, SPA, PLACE, "read",
         pick=_first),
    Case("azimuth in the worked example", _sky, {"air": (82000.0, 11.0), **GOLDEN}, AZIMUTH, 5e-6, SPA, PLACE, "read",
         pick=_second),
    Case("zenith of that hour in the path", _hour, {**GOLDEN, "at": 289 * 24 + 12}, ZENITH, 0.05, SPA, PLACE, "read",
         pick=_first, why="half a minute earlier and twenty years later"),
    Case("azimuth of that hour in the path", _hour, {**GOLDEN, "at": 289 * 24 + 12}, AZIMUTH, 0.18, SPA, PLACE, "read",
         pick=_second, why="half a minute earlier: 0.16 degrees"),
    *[Case(f"hours of light, {latitude} N, day {day + 1}", _light, {"latitude": float(latitude), "day": day}, printed,
           to, FORSYTHE, "the formula, with the upper edge of the sun lifted by the air", "computed", why=why)
      for latitude, day, printed, to, why in (
          (35, 171, 14.51, 0.01, "worked out from the formula, rounded"),
          (35, 354, 9.80, 0.01, "worked out from the formula, rounded"),
          (55, 171, 17.38, 0.015, "worked out from the formula, rounded; a bow in place of its chord at sunrise"),
          (55, 354, 7.16, 0.02, "the true sun gives 7.17"))],
    *[Case(f"hours of light at the equinox, {latitude} N", _light, {"latitude": float(latitude), "day": 79}, printed,
           0.01, "the algorithm's own sunrise and sunset", "21 March", "computed", why="rounded")
      for latitude, printed in ((35, 12.16), (55, 12.24))],
    *[Case(f"diffuse share at clearness {k}", diffuse_share, {"clearness": np.array(k)}, printed, to, ERBS,
           "equation 1", "recalled")
      for k, printed, to in ((0.0, 1.0, 0.005), (0.22, 0.9802, 5e-5), (0.85, 0.165, 5e-4))],
    *[Case(f"air {height} m up", station_pressure, {"elevation": float(height)}, printed, 0.05, ISO_AIR, f"{height} m",
           "recalled", unit=100.0)
      for height, printed in ((0, 1013.2), (500, 954.6), (1000, 898.7), (2000, 795.0))],
    *[Case(f"dew point of {temp} degC at {humidity:.0%}", dew_point,
           {"temp_c": np.array(float(temp)), "humidity": np.array(humidity)}, printed, 0.1,
           "steam tables, saturation", "pressure of vapour times the humidity, looked up backwards", "computed",
           why="two roundings")
      for temp, humidity, printed in ((25, 0.5, 13.9), (20, 0.8, 16.4), (30, 0.6, 21.4))],
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_sun_holds_to_print(case: Case) -> None:
    assert case.holds()


@pytest.mark.parametrize("latitude", [0.0, 20.0, 35.0, 50.0, 58.0])
def test_every_days_light_is_near_the_formula_in_print(latitude: float) -> None:
    """The formula is said to be good to a few minutes; worst at the equinoxes."""
    for day in range(0, 365, 7):
        assert _light(latitude, day) == pytest.approx(forsythe(latitude, day + 1), abs=0.1)


def test_formula_in_print_gives_its_own_check_values() -> None:
    """21 June, 21 December and 21 March, as the reference gives them."""
    rows = (
        (35, 172, 14.51),
        (35, 355, 9.80),
        (35, 80, 12.13),
        (55, 172, 17.38),
        (55, 355, 7.16),
        (55, 80, 12.18),
    )
    for latitude, number, printed in rows:
        assert forsythe(latitude, number) == pytest.approx(printed, abs=0.006)
