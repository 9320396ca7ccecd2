"""Stamps of a plain csv: dates as ISO 8601 writes them, summer time undone, hours found."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

import numpy as np

from tidestead.core.errors import Fault
from tidestead.intake.headings import Mark
from tidestead.intake.hours import Whole, hour_number, no_dates
from tidestead.intake.notes import Notes
from tidestead.intake.rows import no_weather_in, refused

_ISO = re.compile(
    r'^\s*"?(\d{4})[-/.](\d{1,2})[-/.](\d{1,2})(?:[T ]\s*(\d{1,2}):(\d{2})(?::(\d{2})(?:[.,]\d+)?)?)?'
    r'\s*(Z|UTC|[+-]\d{2}:?\d{2})?"?\s*$',
    re.IGNORECASE,
)
_WIDEST = 60
"""Characters of a stamp."""
_FURTHEST = 14 * 60
"""Minutes that a clock may be from UTC."""
_WRITE = "Write the year first: 2024-01-31 13:00."
_LONGEST = 60
"""Minutes between rows."""
_SUMMER = (100.0, 300.0)
"""Days that summer time lasts anywhere."""


def minutes_of(name: str, stamps: Sequence[str], numbers: Whole) -> tuple[Whole, bool]:
    """Minutes since 1970 of stamps, and whether they say themselves how far they are from UTC (then they are UTC)."""
    parts = np.zeros((len(stamps), 6), dtype=np.int64)
    faults: list[Fault] = []
    stated = 0
    for row, stamp in enumerate(stamps):
        found = _ISO.match(stamp) if len(stamp) <= _WIDEST else None
        if found is None or int(found[4] or 0) > 24 or int(found[5] or 0) > 59:
            faults.append(Fault(name, int(numbers[row]), f'"{stamp[:30]}"', "is no date and time.", _WRITE))
            continue
        parts[row, :5] = [int(part or 0) for part in found.groups()[:5]]
        if found[7]:
            stated += 1
            parts[row, 5] = _ahead(found[7])
        if abs(parts[row, 5]) > _FURTHEST:
            faults.append(Fault(name, int(numbers[row]), f'"{stamp[:30]}"', "is too far from UTC.", _WRITE))
    if faults:
        raise refused(faults)
    year, month, day, hour, minute, ahead = parts.T
    wrong = no_dates(year, month, day)
    if bool(wrong.any()):
        row = int(np.argmax(wrong))
        raise no_weather_in(name, "is not a date.", _WRITE, int(numbers[row]), f'"{stamps[row][:30]}"')
    if stated not in (0, len(stamps)):
        raise no_weather_in(
            name, "Some stamps say how far they are from UTC, others do not.", "Write all alike."
        )
    found_minutes: Whole = hour_number(year, month, day, hour) * 60 + minute - ahead
    return found_minutes, stated > 0


def _ahead(zone: str) -> int:
    """Minutes that a stamp's clock is ahead of UTC."""
    if zone[0] not in "+-":
        return 0
    digits = zone[1:].replace(":", "")
    minutes = int(digits[:2]) * 60 + int(digits[2:])
    return minutes if zone[0] == "+" else -minutes


def step_of(name: str, minutes: Whole) -> int:
    """Minutes between rows, by most of them. Raises a WeatherError where they are more than an hour."""
    apart = np.diff(minutes)
    forward = apart[apart > 0]
    step = int(np.median(forward)) if len(forward) else _LONGEST
    if step > _LONGEST:
        raise no_weather_in(name, f"The rows are {step} minutes apart.", "Give hours, or shorter.")
    return step


def standard(minutes: Whole, step: int, notes: Notes) -> Whole:
    """The stamps with summer time undone, where the clock plainly goes forward in spring and back in autumn."""
    apart = np.diff(minutes)
    forward, back = np.flatnonzero(apart == step + 60) + 1, np.flatnonzero(apart == step - 60) + 1
    if not (len(forward) and len(back)):
        return minutes
    turns = sorted([(int(row), 1) for row in forward] + [(int(row), -1) for row in back])
    ways = [way for _, way in turns]
    if any(one == two for one, two in pairwise(ways)) or not _lawful(minutes, turns):
        return minutes
    summer = np.zeros(len(minutes), dtype=bool)
    edges = [row for row, _ in turns]
    if ways[0] == -1:
        edges.insert(0, 0)
    if len(edges) % 2:
        edges.append(len(minutes))
    for begin, end in zip(edges[::2], edges[1::2], strict=True):
        summer[begin:end] = True
    notes.say("The stamps follow summer time; an hour was taken off from spring to autumn.")
    winter: Whole = minutes - 60 * summer
    return winter


def _lawful(minutes: Whole, turns: list[tuple[int, int]]) -> bool:
    """Whether the clock is changed in the small hours, and summers last as summers do."""
    if any(minutes[row] // 60 % 24 > 5 for row, _ in turns):
        return False
    for (begin, way), (end, _) in pairwise(turns):
        days = (minutes[end] - minutes[begin]) / 1440.0
        if way == 1 and not _SUMMER[0] < days < _SUMMER[1]:
            return False
    return True


def hours_of(minutes: Whole, step: int, mark: Mark) -> tuple[Whole, float]:
    """Hours since 1970 in which rows lie, and by how much rows an hour apart are later than the middle of theirs."""
    half = step / 2.0
    middle = minutes + {"end": -half, "start": half, "middle": 0.0}[mark]
    begins: Whole = np.floor(middle / 60.0).astype(np.int64)
    if step < _LONGEST:
        return begins, 0.0
    late = float(np.median(middle / 60.0 - begins)) - 0.5
    return begins, late
