"""A plain csv with named columns and units in its heading, as a weather station or a spreadsheet writes it."""

from __future__ import annotations

import csv
from collections.abc import Sequence

import numpy as np

from tidestead.intake.headings import column_words, is_heading, read_heading
from tidestead.intake.hours import Hours, Station
from tidestead.intake.notes import Notes
from tidestead.intake.rows import Rows, no_weather_in
from tidestead.intake.stamps import hours_of, minutes_of, standard, step_of

_FIRST_LINES = 50
_MARKS = {"", "-", "na", "n/a", "nan", "null", "none"}
"""What people and programs write where nothing was measured."""


def heading_line(lines: Sequence[str]) -> int | None:
    """Where the heading stands: the first line that is no comment, if it names columns of weather."""
    for at, line in enumerate(lines[:_FIRST_LINES]):
        if line.strip() and not line.lstrip().startswith("#"):
            return at if is_heading(_fields(line, _separator(line))) else None
    return None


def read_table(name: str, lines: Sequence[str]) -> Hours:
    """The hours of a plain csv. Raises a WeatherError."""
    first = heading_line(lines)
    if first is None:
        raise no_weather_in(name, "This csv has no heading.", 'Such as "time,temperature [degC],sun [W/m2]".')
    mark = _separator(lines[first])
    heading = read_heading(name, first + 1, _fields(lines[first], mark))
    numbers = np.array(
        [at for at in range(first + 1, len(lines)) if lines[at].strip() and not lines[at].startswith("#")],
        dtype=np.int64,
    )
    if not len(numbers):
        raise no_weather_in(name, "This csv ends with its heading.", "Give the hours of a year.", first + 1)
    most = max(heading.time, *heading.places.values()) + 1
    fields = [_plain(_fields(lines[at], mark, most), mark) for at in numbers]
    rows = Rows(name, fields, numbers + 1)
    short = next((row for row, found in enumerate(fields) if len(found) <= heading.time), None)
    if short is not None:
        raise no_weather_in(
            name,
            "This line has no time.",
            "Was the file cut off? Take the whole of it.",
            int(rows.numbers[short]),
        )
    minutes, stated = minutes_of(name, [row[heading.time] for row in fields], rows.numbers)
    notes = Notes()
    step = step_of(name, minutes)
    offset = 0.0 if stated else heading.utc_offset
    if offset is None:
        minutes = standard(minutes, step, notes)
    begins, late = hours_of(minutes, step, heading.mark)
    columns = {
        key: heading.scales[key](rows.column(at, column_words(key))) for key, at in heading.places.items()
    }
    for key in heading.energy:
        columns[key] = columns[key] * (60.0 / step)
    if heading.unread:
        notes.say(f"Columns that are not used: {', '.join(heading.unread[:12])}.")
    return Hours(
        Station("csv", utc_offset=offset), begins, rows.numbers, columns, None, step / 60.0, late, -late,
        notes.sentences(),
    )  # fmt: skip


def _separator(line: str) -> str:
    return next((mark for mark in (";", "\t") if mark in line), ",")


def _fields(line: str, mark: str, most: int = -1) -> list[str]:
    if '"' not in line:
        return line.split(mark, most)
    try:
        return next(csv.reader([line], delimiter=mark))
    except (csv.Error, StopIteration):
        return line.split(mark, most)


def _plain(fields: list[str], mark: str) -> list[str]:
    """Decimal commas as points where the comma parts no fields; marks of nothing measured as nothing."""
    found = [field.replace(",", ".") if mark != "," else field for field in fields]
    return ["" if field.strip().lower() in _MARKS else field for field in found]
