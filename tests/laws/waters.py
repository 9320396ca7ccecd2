"""Waters for trials of the transient: one alone, and a tank with its sump and a side tank."""

from __future__ import annotations

from dataclasses import replace

import numpy as np

from tidestead.physics.transient.engine import Course
from tidestead.physics.transient.system import (
    Air,
    Body,
    Forcing,
    Heater,
    Inflow,
    Leak,
    Life,
    Nitrifiers,
    Organic,
    Overflow,
    Pump,
    System,
    TopOff,
)

FULL = 6.657
"""g/m3 of oxygen in seawater of 35 at 26 degC."""


def alone(**other: object) -> Body:
    """20 m3 under 20 m2 at 26 degC."""
    plain = Body(volume=20.0, area=20.0, brim=25.0, temp_c=26.0, sal_psu=35.0, oxygen=FULL)
    return replace(plain, **other)  # type: ignore[arg-type]  # fields by name


def around(bodies: int, ambient_c: float, loss: float, even: float = 0.0, warm: float = 0.0) -> Forcing:
    """Surroundings that stay as they are: W/K to a temperature, evaporation in kg/s."""
    one = np.ones((bodies, 1))
    return Forcing(loss * ambient_c * one, loss * one, even * one, warm * one)


def circuit(warm: float = 0.0, hole: float = 0.0) -> System:
    """A tank over a sump with a side tank, everything in them at work, no two alike."""
    tank = Body(
        18.0, 15.0, 19.0, 26.0, 35.0, 6.2, 0.05, 8.2,
        Organic(4.0, 0.3, 6.0), Air(14.0, 0.026 / 3600.0), Life(8.0, 26.0, 1.75, 0.05, 1.5, 0.35),
    )  # fmt: skip
    sump = Body(
        1.5, 2.0, 3.0, 25.0, 34.0, 6.6, 0.02, 8.1, Organic(), Air(2.0, 0.05 / 3600.0, 60.0),
        Life(fixed=0.2, half=0.05), Nitrifiers(8.0, 0.6),
    )  # fmt: skip
    side = Body(
        2.0, 3.0, 2.5, 24.0, 36.0, 5.0, 0.1, 8.3, Organic(1.0, 0.5, 5.0), Air(3.0, 0.03 / 3600.0),
        Life(0.5, 25.0, 2.0, 0.1, 0.3, 0.02), Nitrifiers(1.0),
    )  # fmt: skip
    forcing = Forcing(
        np.array([[2600.0], [150.0], [300.0]]), np.array([[200.0], [20.0], [30.0]]),
        np.array([[1e-3], [1e-4], [2e-4]]), np.full((3, 1), warm), 25.0,
    )  # fmt: skip
    return System(
        (tank, sump, side),
        pumps=(Pump(1, 0, 20.0 / 3600.0, 0.3), Pump(1, 2, 2.0 / 3600.0, 0.3)),
        overflows=(Overflow(0, 1, 18.0), Overflow(2, 1, 2.0, 0.01)),
        leaks=(Leak(2, 1.0, 0.0 if hole else 2e-6, hole),),
        top_offs=(TopOff(1, 1.5, 0.01 / 60.0, 0.5, 20.0, 0.5, 7.0),),
        inflows=(Inflow(0, 1e-6, 15.0, 1.0, 8.0),),
        heaters=(Heater(1, 3000.0, 26.0, 1.0), Heater(0, 800.0, 25.5, 0.8, cools=True)),
        forcing=forcing,
    )


def gaps(system: System, course: Course) -> dict[str, float]:
    """What each balance misses, as a share of what was there and what moved."""
    books, stored = course.ledgers, system.heat_stored
    volume = course.volume

    def gap(before: float, after: float, came: float, went: float) -> float:
        size = max(abs(before), abs(after), abs(came), abs(went), 1e-6)
        return abs(after - before - came + went) / size

    def mass(of: np.ndarray, at: int) -> float:
        return float(np.sum(of[:, at] * volume[:, at]))

    floor = books.leaked + books.spilled + books.pumped_out
    water = (float(np.sum(books.topped_up + books.came_in)), float(np.sum(floor + books.evaporated)))
    heat_in = float(np.sum(books.heat_in + books.heat_air + books.heat_heaters))
    oxygen_out = float(np.sum(books.oxygen_animals + books.oxygen_bacteria + books.oxygen_lost))
    nitrogen = [mass(course.tan, at) + float(np.sum(course.organic[:, at])) for at in (0, -1)]
    return {
        "water": gap(float(np.sum(volume[:, 0])), float(np.sum(volume[:, -1])), *water),
        "salt": gap(
            mass(course.sal_psu, 0), mass(course.sal_psu, -1),
            float(np.sum(books.salt_in)), float(np.sum(books.salt_lost)),
        ),
        "heat": gap(
            stored * mass(course.temp_c, 0), stored * mass(course.temp_c, -1), heat_in, float(np.sum(books.heat_lost))
        ),
        "nitrogen": gap(
            nitrogen[0], nitrogen[1], float(np.sum(books.excreted)), float(np.sum(books.nitrified + books.tan_lost))
        ),
        "oxygen": gap(
            mass(course.oxygen, 0), mass(course.oxygen, -1),
            float(np.sum(books.oxygen_in + books.oxygen_air)), oxygen_out,
        ),
        "flood": gap(0.0, float(course.flood[-1]), float(np.sum(floor)), 0.0),
    }  # fmt: skip
