"""The transient against sums worked by hand: what stops in 20 m3 of seawater, and how long it takes to matter."""

from __future__ import annotations

from dataclasses import replace
from math import inf

import numpy as np
import pytest

from tests.laws.waters import FULL, alone, around
from tests.published.case import Case
from tidestead.physics.transient.engine import Course, hours_until, run
from tidestead.physics.transient.system import Air, Forcing, Heater, Inflow, Leak, Life, System, TopOff

HAND = "20 m3 of seawater of 35 under 20 m2 at 26 degC, worked by hand"
CUT = "power cut by hand, m*c = 22.73 kWh/K"
HEATER = "heater stuck on, P/(m*c)"
SALT = "balance of salt, S = S0*V0/(V0 - E*t)"
AMMONIA = "form of EPA 440/5-88-004 (1989), 298 - T as printed, pH 8.2, 8.28 g N a day"
HOURS_A_DAY = 24.0
LITRES_A_DAY = 1e-3 / 86400.0
FRESH = 997.0


def hours_of_oxygen(uptake: float, exchange: float) -> float:
    """Hours to 30 %; inf where it holds."""
    body = alone(air=Air(20.0, exchange / 3600.0), life=Life(fixed=uptake))
    found = hours_until(run(System((body,)), 200.0, 360.0), 0, "oxygen", 0.3 * FULL, rising=False)
    return inf if found is None else found


def hours_of_warmth(loss: float, level: float) -> float:
    """Hours to a temperature, 5 degC outside."""
    found = hours_until(
        run(System((alone(),), forcing=around(1, 5.0, loss)), 80.0), 0, "temp_c", level, rising=False
    )
    return inf if found is None else found


def rise_in_an_hour(power: float, mode: str) -> float:
    """Kelvin, without losses, the setpoint far below."""
    heater = Heater(0, power, 20.0, mode=mode)  # type: ignore[arg-type]  # "auto", "off" or "on"
    course = run(System((alone(),), heaters=(heater,)), 1.0)
    return float(course.temp_c[0, -1] - course.temp_c[0, 0])


def days_of_ammonia(level: float) -> float:
    """Days to a level of un-ionised ammonia without any bacteria."""
    body = alone(life=Life(excretion=8.28 / HOURS_A_DAY))
    found = hours_until(run(System((body,)), 200.0, 360.0), 0, "nh3", level, rising=True)
    return inf if found is None else found / HOURS_A_DAY


def ammonia_after_a_day() -> float:
    """Total ammonia nitrogen, g/m3."""
    return float(run(System((alone(life=Life(excretion=8.28 / HOURS_A_DAY)),)), 24.0, 360.0).tan[0, -1])


def untopped(litres: float, days: float) -> Course:
    """Water that evaporates and is not made up."""
    forcing = around(1, 0.0, 0.0, litres * LITRES_A_DAY * FRESH)
    return run(System((alone(),), forcing=forcing), HOURS_A_DAY * days, 360.0)


def salinity_untopped(litres: float, days: float) -> float:
    """At the end."""
    return float(untopped(litres, days).sal_psu[0, -1])


def fall_with_top_off_open(stock: float) -> float:
    """How far salinity falls, the rim never reached."""
    body = alone(brim=30.0)
    tops = (TopOff(0, 20.0, 1e-4, stock, mode="open"),)
    course = run(System((body,), top_offs=tops), 24.0)
    return float(course.sal_psu[0, 0] - course.sal_psu[0, -1])


def change_a_day_with_salt_lost(litres: float) -> float:
    """Salinity in a day where salt water is lost and fresh water made up."""
    leak = Leak(0, 0.0, litres * LITRES_A_DAY)
    course = run(System((alone(),), leaks=(leak,), top_offs=(TopOff(0, 20.0, 1e-4),)), 24.0, 360.0)
    return float(course.sal_psu[0, -1] - course.sal_psu[0, 0])


def salinity_at_the_rim(turnovers: float) -> float:
    """Share of salinity left after so many volumes of fresh water have run through a full body."""
    flow = 20.0 / 3600.0
    body = alone(brim=20.0)
    course = run(System((body,), inflows=(Inflow(0, flow, 26.0),)), turnovers, 60.0)
    return float(course.sal_psu[0, -1] / course.sal_psu[0, 0])


def minutes_to_empty(hole: float, head: float) -> float:
    """Minutes of a hole under a body, 1 m2 and so many metres deep, to the last tenth of the head."""
    body = alone(volume=head, area=1.0, brim=head)
    level = 0.1 * head
    course = run(System((body,), leaks=(Leak(0, 0.0, hole=hole),)), 4.0, 10.0)
    head_left = hours_until(course, 0, "volume", level, rising=False)
    return inf if head_left is None else 60.0 * head_left


CASES = [
    *[Case(f"{uptake} g/h, {speed} m/h: {printed} h to 30 %", hours_of_oxygen,
           {"uptake": float(uptake), "exchange": speed}, printed, 0.1 if why else 0.05, HAND, "oxygen to 30 %",
           "computed", why=why)
      for uptake, speed, printed, why in (
          (3, 0.018, 45.5, ""), (8, 0.018, 13.1, ""), (15, 0.018, 6.6, ""),
          (3, 0.026, 63.5, "the speed of exchange is printed rounded"), (8, 0.026, 13.9, ""), (15, 0.026, 6.8, ""),
          (8, 0.039, 15.5, ""), (15, 0.039, 7.1, ""))],
    *[Case(f"{loss} W/K, 5 degC outside, to {level} degC", hours_of_warmth,
           {"loss": float(loss), "level": float(level)}, printed, 0.05, CUT, "26 degC, 5 degC outside", "computed")
      for loss, level, printed in ((400, 22, 12.0), (400, 18, 27.3), (200, 22, 24.0), (200, 18, 54.5))],
    Case("6 kW stuck on: 0.264 degC an hour", rise_in_an_hour, {"power": 6000.0, "mode": "on"}, 0.264, 5e-4, HEATER,
         "6 kW", "computed"),
    Case("ammonia without bacteria: 0.414 mg/L a day", ammonia_after_a_day, {}, 0.414, 5e-4, "200 g of feed of 45 %",
         "8.28 g N a day in 20 m3", "computed"),
    Case("0.93 d to 0.035 mg NH3/L", days_of_ammonia, {"level": 0.035}, 0.93, 0.005, AMMONIA, "S 35, 26 degC",
         "computed"),
    Case("6.2 d to 0.233 mg NH3/L", days_of_ammonia, {"level": 0.233}, 6.2, 0.05, AMMONIA, "S 35, 26 degC", "computed"),
    Case("150 L a day not made up for 3 d: 35.81", salinity_untopped, {"litres": 150.0, "days": 3.0}, 35.81, 0.005,
         SALT, "150 L/d, 3 d", "computed"),
    Case("a top-off stuck open with 1.21 m3 takes 2", fall_with_top_off_open, {"stock": 1.21}, 2.0, 0.005,
         "V*dS/(S - dS)", "dS = 2", "computed", why="1.21 is printed rounded"),
    Case("20 L of salt water lost a day: -0.035 a day", change_a_day_with_salt_lost, {"litres": 20.0}, -0.035, 5e-4,
         "-S*q/V", "20 L/d, made up with fresh water", "computed"),
    Case("one volume run through leaves all but 63.212 %", salinity_at_the_rim, {"turnovers": 1.0}, 0.36788, 5e-6,
         "well mixed exchange, exp(-Q*t/V)", "one volume", "computed"),
    Case("a hole of 10 cm2, 1 m of head, to a tenth", minutes_to_empty, {"hole": 1e-3, "head": 1.0}, 5.15, 0.005,
         "Torricelli, t = A/(C*a)*sqrt(2/g)*(sqrt(h0) - sqrt(h))", "1 m2, C*a = 10 cm2", "computed"),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_transient_holds_to_print(case: Case) -> None:
    assert case.holds()


def test_a_surface_may_hold_oxygen_for_good() -> None:
    """3 g/h at 0.039 m/h: never down to 30 %."""
    assert hours_of_oxygen(3.0, 0.039) == inf


def test_a_heater_that_works_stays_off_above_its_setpoint() -> None:
    assert rise_in_an_hour(6000.0, "auto") == 0.0


def test_evaporated_water_is_counted() -> None:
    course = untopped(150.0, 3.0)
    assert course.ledgers.evaporated[0] == pytest.approx(0.45, rel=1e-12)
    assert course.volume[0, -1] == pytest.approx(19.55, rel=1e-12)


def test_the_last_day_of_the_surroundings_goes_on() -> None:
    day = [[0.0] * 24 + [1000.0] * 12 + [0.0] * 12]
    none = [[0.0] * 48]
    quiet = np.array(none)
    forcing = Forcing(np.array(day), quiet, quiet, quiet)
    system = replace(System((alone(),)), forcing=forcing)
    warmed = run(system, 24.0 * 5.0, 600.0).ledgers.heat_air[0]
    assert warmed == pytest.approx(4 * 12 * 3600.0 * 1000.0, rel=1e-9)
