"""Films of air and radiation, sheets, the sky and the ground, and hand's rules of cooling against print."""

from __future__ import annotations

import math
from typing import Any

import pytest

from tests.published.case import Case
from tidestead.physics import air
from tidestead.physics.heat import cooling, films, ground, sky

WIND = "Watmuff, Charters and Proctor (1977)"
POOL = "pool heating text, .22 Btu/(h ft2 F) at 1 F"
WALTON = "Walton, Thermal Analysis Research Program (1983)"
ISO_FILMS = "ISO 6946, table of black-body radiation films"
GLASS = "EN 673, float glass of 4 mm"
BERDAHL = "Berdahl and Martin (1984)"
CLARK = "Clark and Allen (1978)"
SWINBANK = "Swinbank (1963)"
HAURWITZ = "Haurwitz (1945), as Reno, Hansen and Stein (2012) print it"
KASTEN = "Kasten and Czeplak (1980)"
STEFAN = "Stefan-Boltzmann law"
SLAB = "ISO 13370 worked for 20 by 15 ft, walls .3 m, ground 2 W/mK"
EDGE = "ASHRAE Handbook, Fundamentals, chapter 18"
CUT = "power cut worked in a study of a tank of 11 m3, start 23.9 degC as its rows tell, outdoors -8 degC"
HOUR = 3600.0
KWH = 3.6e6
SIDE, ALONG = 20.0 * 0.3048, 15.0 * 0.3048
WIDE = SIDE * ALONG / (SIDE + ALONG)


def _slab(resistance: float) -> dict[str, Any]:
    return {"dimension": WIDE, "thickness": 0.3 + 2.0 * resistance, "conductivity": 2.0}


LEWIS = "Lewis relation with Shah's k, by hand"

CASES = [
    Case("3 m/s of wind", films.wind_film, {"speed": 3.0}, 11.8, 0.05, WIND, "2.8 + 3.0*v", "quoted"),
    Case("water to air", films.water_film, {"difference": 1.0}, 1.52, 0.005, POOL, "in SI", "computed"),
    Case("with vapour, still air", films.vapour_film, {"speed": 0.0}, 2.049, 5e-4, LEWIS,
         "0.9*1006*101325/0.621945*5e-5/3600", "computed"),
    Case("with vapour, 1 m/s", films.vapour_film, {"speed": 1.0}, 7.73, 5e-3, LEWIS, "2.0487*(1/0.15)^0.7", "computed"),
    Case("an upright face", films.wall_film, {"difference": 8.0}, 2.62, 0.005, WALTON, "1.31*8^(1/3)", "recalled"),
    Case("heat rising", films.rising_film, {"difference": 1.0}, 1.520, 5e-4, WALTON, "9.482/6.238", "recalled"),
    Case("heat sinking", films.sinking_film, {"difference": 1.0}, 0.760, 5e-4, WALTON, "1.810/2.382", "recalled"),
    Case("a warm face looking up at 45 degrees", films.tilted_film, {"difference": 1.0, "tilt": math.pi / 4}, 1.452,
         5e-4, WALTON, "9.482/(7.238 - .7071)", "recalled"),
    Case("a cold face looking up at 45 degrees", films.tilted_film, {"difference": -1.0, "tilt": math.pi / 4}, 0.866,
         5e-4, WALTON, "1.810/(1.382 + .7071)", "recalled"),
    *[Case(f"radiation film at {temp} degC", films.radiation_film,
           {"temp1_c": float(temp), "temp2_c": float(temp), "emissivity": 1.0}, printed, 0.05, ISO_FILMS,
           f"{temp} degC", "recalled")
      for temp, printed in ((-10, 4.1), (0, 4.6), (10, 5.1), (20, 5.7), (30, 6.3))],
    Case("4 mm of glass passes 250 W/m2K by itself", films.sheet_conductance,
         {"transmittance": 1.0 / (0.13 + 0.04 + 0.004)}, 250.0, 0.5, GLASS, "conductivity 1 W/mK", "recalled"),
    *[Case(f"dew point {dew} degC", sky.clark_emissivity, {"dew_c": float(dew), "cloud": 0.0}, printed, to, CLARK,
           "clear", "quoted")
      for dew, printed, to in ((0, 0.787, 5e-4), (10, 0.8145, 5e-5))],
    Case("a sky all in cloud", sky.clark_emissivity, {"dew_c": 0.0, "cloud": 1.0}, 0.908, 5e-4, CLARK,
         ".787*(1 + .224 - .35 + .28)", "computed"),
    *[Case(f"dew point {dew} degC at 6 h", sky.berdahl_emissivity,
           {"dew_c": float(dew), "hour": 6.0, "pressure": 1e5, "cloud": 0.0}, printed, 5e-5, BERDAHL, "clear", "quoted")
      for dew, printed in ((-10, 0.6623), (0, 0.7110), (10, 0.7743), (20, 0.8522))],
    Case("midnight on a mountain of 900 mbar", sky.berdahl_emissivity,
         {"dew_c": 0.0, "hour": 0.0, "pressure": 9e4, "cloud": 0.0}, 0.712, 5e-4, BERDAHL, ".711 + .013 - .012",
         "computed"),
    *[Case(f"sky over air of {temp} degC", sky.swinbank_temperature, {"temp_c": float(temp)}, printed, 0.005, SWINBANK,
           ".0552*T^1.5", "read")
      for temp, printed in ((0, -23.95), (10, -10.15), (20, 3.91))],
    Case("black sky at 20 degC", sky.longwave, {"emissivity": 1.0, "temp_c": 20.0}, 418.77, 0.005, STEFAN, "293.15 K",
         "computed"),
    Case("and back", sky.sky_temperature, {"longwave": 315.64}, 0.0, 0.005, STEFAN, "273.15 K", "computed"),
    Case("a sky of 200 W/m2", sky.sky_temperature, {"longwave": 200.0}, -29.45, 0.005, STEFAN, "243.70 K", "computed"),
    Case("clear sky, sun at 60 degrees from straight up", sky.clear_sun, {"zenith": math.pi / 3}, 487.9, 0.05, HAURWITZ,
         "1098*.5*exp(-.118)", "read"),
    Case("half the sky in cloud lets 92.9 % through", sky.cloud_of_sun, {"total": 464.48, "clear": 500.0}, 0.5, 5e-4,
         KASTEN, "1 - .75*.5^3.4", "quoted"),
    Case("clear air of 20 degC with a dew point of 10", sky.yearly_longwave,
         {"temp_c": 20.0, "humidity": 0.52504, "cloud": 0.0}, 341.1, 0.05, CLARK, ".8145*418.77", "computed"),
    Case("dimension of the floor", ground.floor_dimension, {"area": SIDE * ALONG, "perimeter": 2.0 * (SIDE + ALONG)},
         2.6126, 5e-5, SLAB, "27.871/10.668", "computed"),
    Case("its equivalent thickness", ground.equivalent_thickness,
         {"wall": 0.3, "conductivity": 2.0, "resistance": 0.17}, 0.64, 0.005, SLAB, ".3 + 2*.17", "computed"),
    *[Case(f"films {around}, floor {laid}: {printed}", ground.slab_transmittance, _slab(around + laid), printed, 5e-4,
           SLAB, f"R {laid}", "computed")
      for around, laid, printed in ((0.21, 0.0, 1.128), (0.17, 1.5, 0.414), (0.21, 1.5, 0.407), (0.17, 3.0, 0.255),
                                    (0.21, 3.0, 0.253))],
    Case("films 0.17, bare floor: 1.188", ground.slab_transmittance, _slab(0.17), 1.188, 7e-4, SLAB, "R 0", "computed",
         why="worked with the floor's dimension rounded to 2.61 m"),
    Case("resistance to lay below it", ground.virtual_resistance,
         {"transmittance": 1.128, "floor": 0.0, "conductivity": 2.0}, 0.467, 5e-4, SLAB, "1/1.128 - .17 - .25",
         "computed"),
    Case("loss by the edge", ground.edge_conductance,
         {"factor": 0.73 * 1.7307347, "perimeter": 2.0 * (SIDE + ALONG)}, 27.0, 0.5, EDGE, "F .73, 70 ft", "computed"),
    Case("a metre of edge", ground.edge_conductance, {"factor": 0.73 * 1.7307347, "perimeter": 1.0}, 1.263, 5e-4, EDGE,
         "F .73 in SI", "computed"),
    Case("ground between the year and the month", ground.ground_temperature,
         {"yearly_c": 10.0, "recent_c": 2.0, "share": 0.5}, 6.0, 0.05, "mean of two", "worked by hand", "computed"),
    Case("+1 K needs 12.9 kWh", cooling.water_capacity, {"volume": 11.356, "sal_psu": 35.0, "temp_c": 25.0}, 12.9, 0.05,
         CUT, "3000 gal", "computed", unit=KWH),
    *[Case(f"fades in {printed:g} h", cooling.fading_time, {"capacity": 12.9 * KWH, "loss": loss}, printed, to, CUT,
           f"{loss:g} W/K", "computed", unit=HOUR, why="the loss is printed rounded to a watt")
      for loss, printed, to in ((91.0, 141.0, 1.0), (32.0, 402.0, 6.5), (25.0, 518.0, 10.0))],
    *[Case(f"{after:g} h of {fading:g}", cooling.temperature_after,
           {"start_c": 23.9, "rest_c": -8.0, "fading": fading * HOUR, "time": after * HOUR}, printed, to, CUT,
           "formula", "computed", why=why)
      for fading, after, printed, to, why in ((141.0, 24.0, 18.91, 0.005, ""),
                                              (141.0, 48.0, 14.71, 0.02, "tau is printed rounded"),
                                              (402.0, 48.0, 20.3, 0.05, ""))],
    *[Case(f"down to 20 degC in {printed:g} h", cooling.time_to_temperature,
           {"start_c": 23.9, "rest_c": -8.0, "fading": fading * HOUR, "goal_c": 20.0}, printed, 0.5, CUT, "backwards",
           "computed", unit=HOUR)
      for fading, printed in ((141.0, 18.0), (402.0, 52.0), (518.0, 68.0))],
    Case("a quarter more than the load", cooling.heater_power, {"load": 2900.0, "margin": 1.25}, 3625.0, 0.5,
         "common practice", "1.25", "practice"),
    Case("1 kW to spare: 12.9 h for a kelvin", cooling.recovery_time,
         {"capacity": 12.9 * KWH, "rise": 1.0, "power": 2000.0, "loss": 1000.0}, 12.9, 0.05, CUT, "C dT/(P - loss)",
         "computed", unit=HOUR),
    Case("400 W and 20 K keep a heater idle", cooling.idle_loss,
         {"gain": 400.0, "wanted_c": 25.0, "outdoors_c": 5.0}, 20.0, 0.05, "balance of heat", "worked by hand",
         "computed"),
    Case("the inner face of a wall", cooling.face_temperature,
         {"outdoors_c": -8.0, "indoors_c": 20.0, "factor": 0.75}, 13.0, 0.05, "ISO 13788, f_Rsi", "worked by hand",
         "computed"),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_heat_holds_to_print(case: Case) -> None:
    assert case.holds()


def test_slab_and_edge_say_much_the_same() -> None:
    """Two ways from different continents for one floor without insulation: 33 and 27 W/K."""
    by_slab = float(ground.slab_transmittance(**_slab(0.17))) * SIDE * ALONG
    assert by_slab == pytest.approx(33.0, abs=0.5)
    assert by_slab / 27.0 == pytest.approx(1.0, abs=0.25)


@pytest.mark.parametrize(("temp_c", "dew_c"), [(10.0, 0.0), (20.0, 10.0)])
def test_three_clear_skies_lie_within_a_tenth(temp_c: float, dew_c: float) -> None:
    """The reference spread: 0.04 to 0.10 between Clark and Berdahl; Swinbank's needs no dew point."""
    clark = float(sky.clark_emissivity(dew_c, 0.0))
    berdahl = float(sky.berdahl_emissivity(dew_c, 6.0, 1e5, 0.0))
    swinbank = float(sky.longwave(1.0, float(sky.swinbank_temperature(temp_c))) / sky.longwave(1.0, temp_c))
    assert 0.04 <= clark - berdahl <= 0.10
    assert min(clark, berdahl) - 0.05 < swinbank < max(clark, berdahl) + 0.05


def test_dew_point_of_the_case_is_ten_degrees() -> None:
    assert air.dew_point(0.52504 * air.saturation_pressure(20.0)) == pytest.approx(10.0, abs=0.001)
