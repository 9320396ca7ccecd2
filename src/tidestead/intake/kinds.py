"""Which sort of weather file a text is, told from its first lines and not from its name."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from tidestead.intake.epw import read_epw
from tidestead.intake.hours import Hours
from tidestead.intake.pvgis_files import read_pvgis_csv, read_pvgis_json
from tidestead.intake.rows import no_weather_in
from tidestead.intake.table import heading_line, read_table
from tidestead.intake.tmy import TMY2_HEADING, read_tmy2, read_tmy3

_ADVICE = (
    'Give an EPW, TMY3 or PVGIS file, or a csv with a heading such as "time,temperature [degC],sun [W/m2]".'
)
_Reader = Callable[[str, Sequence[str]], Hours]


def read_hours(name: str, lines: Sequence[str]) -> Hours:
    """The hours of a weather file of any sort that is known. Raises a WeatherError."""
    reader = _reader(lines)
    if reader is None:
        raise no_weather_in(name, "This is no weather file of a sort known here.", _ADVICE)
    return reader(name, lines)


def _reader(lines: Sequence[str]) -> _Reader | None:
    first = lines[0].lstrip()
    second = lines[1] if len(lines) > 1 else ""
    if first.upper().startswith("LOCATION,"):
        return read_epw
    if "Date (MM/DD/YYYY)" in second:
        return read_tmy3
    if TMY2_HEADING.match(lines[0]):
        return read_tmy2
    if first.startswith("{"):
        return read_pvgis_json
    if first.startswith("Latitude (decimal degrees)"):
        return read_pvgis_csv
    return read_table if heading_line(lines) is not None else None
