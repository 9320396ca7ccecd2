"""Values that no weather has: told with their line, or set right where it is known what is meant."""

from __future__ import annotations

from typing import NamedTuple

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.errors import Fault
from tidestead.intake.hours import SUN, Flags, Hours
from tidestead.intake.notes import Notes
from tidestead.intake.rows import refused


class _Range(NamedTuple):
    """What a column may hold, SI, and how that is said."""

    low: float
    high: float
    what: str
    words: str
    size: float = 1.0


_NIGHT = -5.0
"""W/m2 that a sun meter may show by night, when it is colder than the sky it looks at."""
_RANGES = {
    "temp_c": _Range(-70.0, 60.0, "temperature", "from -70 to 60 degC"),
    "dew_c": _Range(-90.0, 50.0, "dew point", "from -90 to 50 degC"),
    "humidity": _Range(0.0, 1.10, "humidity", "from 0 to 110 %", 0.01),
    "pressure": _Range(45e3, 110e3, "pressure", "from 450 to 1100 hPa", 100.0),
    "wind": _Range(-0.5, 90.0, "wind", "from 0 to 90 m/s"),
    "total": _Range(_NIGHT, 1500.0, "sun on level ground", "from 0 to 1500 W/m2"),
    "diffuse": _Range(_NIGHT, 1000.0, "diffuse sun", "from 0 to 1000 W/m2"),
    "beam": _Range(_NIGHT, 1500.0, "direct sun", "from 0 to 1500 W/m2"),
    "beam_level": _Range(_NIGHT, 1500.0, "direct sun on level ground", "from 0 to 1500 W/m2"),
}
_SKY = (50.0, 700.0)
"""W/m2. What lies outside these ranges is a slip and no weather; own choice, wider than the records of the earth."""


def checked(name: str, hours: Hours, notes: Notes) -> Hours:
    """The hours with small slips set right. Raises a WeatherError where a value is impossible."""
    faults: list[Fault] = []
    columns = {}
    for key, values in hours.columns.items():
        if key == "sky":
            columns[key] = _sky(values, hours, notes)
            continue
        bound = _RANGES[key]
        wrong = (values < bound.low) | (values > bound.high)
        faults += [
            Fault(
                name, int(hours.lines[row]), f"{values[row] / bound.size:.6g}",
                f"is no {bound.what}: {bound.words} may be.",
                "Correct the line, or leave the field empty; gaps of up to six hours are filled.",
            )
            for row in np.flatnonzero(wrong)
        ]  # fmt: skip
        columns[key] = _set_right(key, values, hours, notes)
    if faults:
        raise refused(sorted(faults, key=lambda fault: fault.line or 0))
    return Hours(
        hours.station, hours.begins, hours.lines, columns, hours.typical, hours.step, hours.late, hours.early
    )


def _set_right(key: str, values: Array, hours: Hours, notes: Notes) -> Array:
    if key in SUN:
        return _floored(values, "hours with a little less than no sun were set to none", hours, notes)
    if key == "wind":
        return _floored(values, "hours with a little less than no wind were set to none", hours, notes)
    if key == "humidity":
        over = values > 1.0
        notes.count("hours with a humidity over 100 % were set to 100 %", int(over.sum()), _line(over, hours))
        return np.where(over, 1.0, values)
    return values


def _floored(values: Array, words: str, hours: Hours, notes: Notes) -> Array:
    under = values < 0.0
    notes.count(words, int(under.sum()), _line(under, hours))
    return np.where(under, 0.0, values)


def _sky(values: Array, hours: Hours, notes: Notes) -> Array:
    odd = (values < _SKY[0]) | (values > _SKY[1])
    notes.count("hours with an impossible longwave from the sky were taken as not measured", int(odd.sum()),
                _line(odd, hours))  # fmt: skip
    return np.where(odd, np.nan, values)


def _line(odd: Flags, hours: Hours) -> str:
    return f"line {int(hours.lines[np.argmax(odd)])}" if bool(np.any(odd)) else ""
