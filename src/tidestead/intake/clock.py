"""The clock of a site: hours by which its standard time is ahead of UTC."""

from __future__ import annotations

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo, ZoneInfoNotFoundError

from tidestead.core.dims import Degree, Hour
from tidestead.intake.notes import Notes

_SAME_SUN = 3.5
"""Hours by which a lawful clock may differ from the sun's: western China is at 3.2."""


def site_offset(zone: str | None, longitude: Degree, of_file: Hour | None, notes: Notes) -> Hour:
    """Standard time of the site's zone, else the clock of the file, else whole hours by the longitude; told."""
    sun = longitude / 15.0
    named = _standard(zone) if zone else None
    if zone and named is None:
        notes.say(f'The time zone "{zone}" is not known; write one like "Europe/London" under [site].')
    if named is not None:
        offset = named
    elif of_file is not None:
        offset = of_file
        notes.say(f"Hours are told by the clock of the file, {clock_words(offset)}.")
    else:
        offset = float(round(sun))
        notes.say(f"Hours are told by the clock that fits the longitude, {clock_words(offset)}.")
    apart = abs((offset - sun + 12.0) % 24.0 - 12.0)
    if apart > _SAME_SUN:
        notes.say(
            f"The clock {clock_words(offset)} and the longitude {longitude:g} are {apart:.0f} hours apart: "
            "east is positive, west is negative."
        )
    return offset


def _standard(zone: str) -> Hour | None:
    """The smaller of the offsets in January and July 2023: summer time is the larger one."""
    try:
        place = ZoneInfo(zone)
        moments = (datetime(2023, month, 1, tzinfo=place).utcoffset() for month in (1, 7))
        return min((moment or timedelta(0)).total_seconds() for moment in moments) / 3600.0
    except (ZoneInfoNotFoundError, ValueError, OSError):
        return None


def clock_words(offset: Hour) -> str:
    """ "UTC", "UTC+1", "UTC-3:30"."""
    minutes = round(abs(offset) * 60.0)
    if not minutes:
        return "UTC"
    hours, rest = divmod(minutes, 60)
    return f"UTC{'+' if offset > 0 else '-'}{hours}" + (f":{rest:02d}" if rest else "")
