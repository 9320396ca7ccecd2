"""Evaporation against print: Shah's table, the handbook's factor, Smith, Lof and Jones, salt.

The nine rows stand in an open code file that does not name where it has them from; it uses Shah's forms, so that they
are of Shah's tables is an inference.
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.published.case import Case
from tidestead.physics import air
from tidestead.physics.heat import evaporation
from tidestead.physics.heat.evaporation import OpenWater, Spread

TABLE = "table of evaporation at 50 % humidity in an open code file, Shah's by inference"
SHAH = "Shah (2014), SE-14-001, equation 7, worked"
HANDBOOK = "ASHRAE Handbook, HVAC Applications (2011), pages 5.6 to 5.9"
SMITH = "Smith, Lof and Jones (1998), 4146"
TEOS = "TEOS-10, chemical potential of water in seawater"
UNSTATED = "the table's saturation and constants are not stated; all nine rows lie within 0.21 % of ours"
ROUNDED = "worked with the coefficients as rounded, .089 and .0782"
HOURLY = 1.0 / 3600.0
ROWS = (
    (28.0, 28.0, 0.1360, 0.0219), (28.0, 29.0, 0.1171, 0.0168), (28.0, 30.0, 0.0968, 0.0116),
    (29.0, 28.0, 0.1651, 0.0282), (29.0, 29.0, 0.1463, 0.0231), (29.0, 30.0, 0.1268, 0.0180),
    (30.0, 28.0, 0.1959, 0.0347), (30.0, 29.0, 0.1771, 0.0295), (30.0, 30.0, 0.1575, 0.0244),
)  # fmt: skip


def still(temp_w: float, temp_a: float) -> OpenWater:
    """Fresh water under air of 50 %."""
    over, held = air.saturation_pressure(temp_w), 0.5 * air.saturation_pressure(temp_a)
    return OpenWater(temp_w, temp_a, float(over), float(held))


def driven(difference: float) -> OpenWater:
    """Water under air so hot that nothing rises off it."""
    return OpenWater(28.0, 60.0, 3000.0, 3000.0 - difference)


def _high(spread: Spread) -> float:
    return float(spread.high)


def _warmed(rate: Any) -> float:
    """Of a rate at 28 degC, the heat it takes."""
    return float(rate) * float(air.latent_heat(28.0))


CASES = [
    *[Case(f"water {water:g}, air {over:g} degC: {printed} kg/m2h", evaporation.shah_rate,
           {"water": still(water, over), "speed": 0.0}, printed, 3e-4, TABLE, f"row {water:g}/{over:g}", "read",
           unit=HOURLY, why=UNSTATED)
      for water, over, printed, _ in ROWS],
    *[Case(f"driven air of {speed} m/s over 1500 Pa", evaporation.shah_rate, {"water": driven(1500.0), "speed": speed},
           printed, 5e-5, SHAH, "5e-5*(u/0.15)^0.7*dp", "computed", unit=HOURLY)
      for speed, printed in ((0.15, 0.0750), (0.5, 0.1742), (1.0, 0.2830), (2.0, 0.4597))],
    *[Case(f"{printed:g} W/m2 at {speed} m/s", evaporation.latent_loss, {"rate": rate / 3600.0, "temp_w": 25.0},
           printed, 0.5, SHAH, "1500 Pa, 2.44 MJ/kg", "computed")
      for speed, rate, printed in ((0.15, 0.0750, 51.0), (0.5, 0.1742, 118.0), (1.0, 0.2830, 192.0),
                                   (2.0, 0.4597, 312.0))],
    Case("a factor of one is 4.00e-5 kg/s for m2 and kPa", evaporation.handbook_rate,
         {"water": driven(1000.0), "activity": 1.0}, 4.00, 0.005, HANDBOOK, "0.1 lb/(h ft2 inHg)", "quoted", unit=1e-5),
    Case("28 over 28 degC, factor 0.5: .136 kg/m2h", evaporation.handbook_rate,
         {"water": still(28.0, 28.0), "activity": 0.5}, 0.136, 5e-4, HANDBOOK, "worked", "computed", unit=HOURLY),
    Case("95 Btu/(h ft2 inHg) is .0885 kW/m2 for each kPa", evaporation.busy_rate,
         {"water": driven(1000.0), "speed": 0.0}, 0.0885, 5e-5, SMITH, "still air", "computed", unit=1e3, pick=_warmed),
    Case("and .0779 more for each m/s", evaporation.busy_rate, {"water": driven(1000.0), "speed": 1.0}, 0.1664, 1e-4,
         SMITH, "1 m/s", "computed", unit=1e3, pick=_warmed, why="the sum of two rounded figures"),
    Case("28 over 28 degC, .1 m/s: 74 % is .200 kg/m2h", evaporation.busy_rate,
         {"water": still(28.0, 28.0), "speed": 0.1}, 0.200, 1e-3, SMITH, "worked", "computed", unit=HOURLY / 0.74,
         why=ROUNDED),
    Case("the most of three is .200 kg/m2h", evaporation.evaporation_spread,
         {"water": still(28.0, 28.0), "speed": 0.1}, 0.200, 1e-3, SMITH, "74 %", "computed", unit=HOURLY, pick=_high,
         why=ROUNDED),
    Case("water activity at S 35", evaporation.water_activity, {"sal_psu": 35.0, "temp_c": 25.0}, 0.9813, 2e-4, TEOS,
         "20 to 28 degC", "computed", why="Weiss and Price's line lies within 0.0004 of TEOS-10"),
    Case("vapour over S 35 at 25 degC", evaporation.vapour_over, {"sal_psu": 35.0, "temp_c": 25.0}, 3110.0, 1.0, TEOS,
         ".9813 * 3169.2 Pa", "computed", why="as the activity"),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_evaporation_holds_to_print(case: Case) -> None:
    assert case.holds()


@pytest.mark.parametrize(("water", "over", "rate", "printed"), ROWS)
def test_dry_air_differs_as_in_the_table(water: float, over: float, rate: float, printed: float) -> None:
    """The table's other column: dry air, not moist air. Moist air differs by a third less."""
    at = still(water, over)
    differs = air.dry_air_density(over, at.vapour_a, at.pressure) - air.dry_air_density(
        water, at.vapour_w, at.pressure
    )
    assert differs == pytest.approx(printed, abs=5e-5)
    assert rate > 0.0


def test_moist_air_would_give_a_quarter_too_little() -> None:
    """The first trap, at 28 over 28 degC and 50 %: by the weight of moist air Shah's first equation falls by 28 %."""
    at = still(28.0, 28.0)
    kelvin = 28.0 + 273.15

    def vapour_weight(vapour: float) -> float:
        return vapour / (461.52 * kelvin)

    dry_w = float(air.dry_air_density(28.0, at.vapour_w, at.pressure))
    dry_a = float(air.dry_air_density(28.0, at.vapour_a, at.pressure))
    moist = dry_a + vapour_weight(at.vapour_a) - dry_w - vapour_weight(at.vapour_w)
    assert 1.0 - (moist / (dry_a - dry_w)) ** (1 / 3) == pytest.approx(0.28, abs=0.005)


@pytest.mark.parametrize(("humidity", "less"), [(0.5, 0.037), (0.8, 0.093)])
def test_salt_takes_more_off_evaporation_than_off_vapour(humidity: float, less: float) -> None:
    """1.9 % less vapour pressure is 3.7 % less driving pressure at 50 %, 9.3 % at 80 %; water as warm as the air.

    The two were worked with 0.9813; ours lies 0.0002 below it, which is 0.001 of the rate at 80 %.
    """
    salty, fresh = evaporation.vapour_over(35.0, 26.0), air.saturation_pressure(26.0)
    air_holds = humidity * fresh
    assert 1.0 - (salty - air_holds) / (fresh - air_holds) == pytest.approx(
        less, abs=0.0005 + 0.0002 / (1.0 - humidity)
    )
