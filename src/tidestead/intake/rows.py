"""Numbers out of the lines of a file, column by column; a field that is no number is told with its line."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Array
from tidestead.core.errors import Fault, WeatherError
from tidestead.intake.hours import Flags, Whole, hour_number, no_dates

MOST_TOLD = 8
"""Faults told of one file; the rest is counted."""
_SHOWN = 40


@dataclass(frozen=True, eq=False)
class Rows:
    """Fields of the data lines of one file. `numbers` are the lines they stand in, from 1."""

    name: str
    fields: Sequence[Sequence[str]]
    numbers: Whole

    def column(self, at: int | slice, what: str, missing: Callable[[Array], Flags] | None = None) -> Array:
        """A column as numbers; not a number where the field is empty or marked as missing.

        With a slice the rows are texts of fixed columns. Raises a WeatherError that names the lines.
        """
        try:
            values = np.array([row[at] for row in self.fields], dtype=object).astype(float)
        except (ValueError, TypeError, IndexError, OverflowError):
            values = self._slowly(at, what)
        if bool(np.isinf(values).any()):
            self._refuse(np.isinf(values), at, what)
        if missing is not None:
            values = np.where(missing(values), np.nan, values)
        return values

    def whole(self, at: int | slice, what: str) -> Whole:
        """A column of whole numbers, none missing."""
        values = self.column(at, what)
        wrong = ~np.isfinite(values) | (values != np.floor(values)) | (np.abs(values) > 1e6)
        if bool(wrong.any()):
            self._refuse(wrong, at, what)
        return values.astype(np.int64)

    def hour_numbers(self, dates: tuple[Whole, Whole, Whole], hour: Whole) -> Whole:
        """Hours since 1970 of the hours that begin at year, month and day and an hour; wrong dates are told."""
        wrong = no_dates(*dates)
        if bool(wrong.any()):
            told = [
                Fault(self.name, int(self.numbers[row]), f'"{dates[0][row]}-{dates[1][row]}-{dates[2][row]}"',
                      "is not a date.", "Mend the line or take another file.")
                for row in np.flatnonzero(wrong)
            ]  # fmt: skip
            raise refused(told)
        return hour_number(*dates, hour)

    def _slowly(self, at: int | slice, what: str) -> Array:
        """Field by field, so that the lines that cannot be read can be named."""
        values, faults = np.full(len(self.fields), np.nan), []
        for row, found in enumerate(self.fields):
            try:
                text = str(found[at]).strip()
                values[row] = float(text) if text else np.nan
            except IndexError:
                faults.append(self._short(row, len(found), what))
            except (ValueError, OverflowError):
                faults.append(self._fault(row, at, what))
        if faults:
            raise refused(faults)
        return values

    def _refuse(self, wrong: Flags, at: int | slice, what: str) -> None:
        raise refused([self._fault(int(row), at, what) for row in np.flatnonzero(wrong)])

    def _fault(self, row: int, at: int | slice, what: str) -> Fault:
        given = str(self.fields[row][at])[:_SHOWN]
        return Fault(self.name, int(self.numbers[row]), f'"{given}"', f"is no number for the {what}.",
                     "Write a number, or leave the field empty where nothing was measured.")  # fmt: skip

    def _short(self, row: int, found: int, what: str) -> Fault:
        return Fault(self.name, int(self.numbers[row]), "", f"This line ends after {found} fields, before the {what}.",
                     "Was the file cut off? Take the whole of it.")  # fmt: skip


def refused(faults: Sequence[Fault]) -> WeatherError:
    """The first faults of a file, and how many more there are."""
    told = list(faults[:MOST_TOLD])
    if len(faults) > MOST_TOLD:
        more = len(faults) - MOST_TOLD
        told.append(Fault(faults[0].where, None, "", f"There are {more:,} more faults like these.", ""))
    return WeatherError(tuple(told))


def no_weather_in(
    name: str, allowed: str, advice: str, line: int | None = None, given: str = ""
) -> WeatherError:
    """One fault of a whole file."""
    return WeatherError((Fault(name, line, given, allowed, advice),))


def at_least(limit: float) -> Callable[[Array], Flags]:
    """The marks of a format that writes all nines for a missing value."""
    return lambda values: values >= limit


def at_most(limit: float) -> Callable[[Array], Flags]:
    """The marks of a format that writes a large negative number for a missing value."""
    return lambda values: values <= limit
