"""The heading of a plain csv: which column is what, in which unit, and what its stamps mean."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Literal, TypeAlias

from tidestead.core.dims import Array
from tidestead.core.errors import Fault, QuantityError, WeatherError
from tidestead.core.units import parse
from tidestead.intake.hours import SUN

Mark: TypeAlias = Literal["end", "start", "middle"]

_WORDS = {
    "temp_c": "temperature|temp|air temperature|outdoor temperature|dry bulb",
    "humidity": "humidity|relative humidity|rh",
    "dew_c": "dew point|dewpoint",
    "pressure": "pressure|air pressure|station pressure",
    "wind": "wind|wind speed",
    "total": "sun|global|global sun|ghi|solar radiation|global radiation",
    "beam": "beam|direct|direct sun|dni",
    "diffuse": "diffuse|diffuse sun|dhi",
    "sky": "sky|longwave|longwave from the sky",
}
_KNOWN = {word: key for key, words in _WORDS.items() for word in words.split("|")}
_TIME = {"time", "timestamp", "datetime", "date time", "date and time", "date"}
_EXAMPLES = {
    "temp_c": "temperature [degC]", "humidity": "humidity [%]", "dew_c": "dew point [degC]",
    "pressure": "pressure [hPa]", "wind": "wind [m/s]", "total": "sun [W/m2]", "beam": "beam [W/m2]",
    "diffuse": "diffuse [W/m2]", "sky": "sky [W/m2]",
}  # fmt: skip
_DIMENSIONS = {"temp_c": "temperature", "dew_c": "temperature", "pressure": "pressure", "wind": "velocity"}
_KNOTS = {"kn": 1852.0 / 3600.0, "kt": 1852.0 / 3600.0, "knots": 1852.0 / 3600.0}
_ENERGY = {"wh/m2": 1.0, "kwh/m2": 1000.0, "kj/m2": 1.0 / 3.6, "mj/m2": 1000.0 / 3.6, "j/cm2": 1.0 / 0.36}
"""Mean watts over an hour that has brought one of these."""
_HEADING = re.compile(r"^(?P<name>[^\[\]()]*?)\s*(?:[\[(](?P<unit>[^\[\]()]*(?:\([^()]*\))?)[\])])?\s*$")
_LONGEST = 120
"""Characters of a heading that are looked at."""
_CLOCK = re.compile(r"^(?:utc|gmt)(?:(?P<sign>[+-])(?P<hours>\d{1,2})(?::?(?P<minutes>\d{2}))?)?$")
_EXAMPLE = "time,temperature [degC],humidity [%],sun [W/m2],wind [m/s],pressure [hPa]"


@dataclass(frozen=True)
class Heading:
    """Where each column stands and how its numbers become SI; the clock of the stamps (None is the site's)."""

    time: int
    places: dict[str, int]
    scales: dict[str, Callable[[Array], Array]]
    mark: Mark = "end"
    utc_offset: float | None = None
    unread: tuple[str, ...] = ()
    energy: tuple[str, ...] = ()


def is_heading(fields: Sequence[str]) -> bool:
    """Whether a line names columns of weather."""
    names = {_parted(text)[0] for text in fields}
    return len(fields) > 1 and bool(names & (_TIME | _KNOWN.keys()))


def column_words(key: str) -> str:
    """What a column is called in a complaint."""
    return _EXAMPLES[key].split(" [")[0]


def read_heading(name: str, line: int, fields: Sequence[str]) -> Heading:
    """The heading in the fields of a line. Raises a WeatherError that tells every column that is wrong."""
    found = _Found(name, line)
    for at, text in enumerate(fields):
        found.take(at, text)
    return found.heading(",".join(fields))


@dataclass
class _Found:
    """What of a heading has been read so far, and what is wrong with it."""

    name: str
    line: int
    time: int | None = None
    clock: tuple[Mark, float | None] = ("end", None)
    places: dict[str, int] = field(default_factory=dict)
    scales: dict[str, Callable[[Array], Array]] = field(default_factory=dict)
    unread: list[str] = field(default_factory=list)
    energy: list[str] = field(default_factory=list)
    faults: list[Fault] = field(default_factory=list)

    def take(self, at: int, text: str) -> None:
        """One field more."""
        word, unit = _parted(text)
        if word in _TIME and self.time is None:
            self.time = at
            try:
                self.clock = _stamps(unit)
            except ValueError as error:
                advice = 'Write "time", "time [UTC]", "time [UTC+1]" or "time [start]".'
                self._wrong(text, str(error), advice)
        elif word in _KNOWN and _KNOWN[word] not in self.places:
            self._take_weather(at, _KNOWN[word], text, unit)
        elif text.strip():
            self.unread.append(text.strip()[:30])

    def _take_weather(self, at: int, key: str, text: str, unit: str) -> None:
        self.places[key] = at
        try:
            self.scales[key] = _scale(key, unit)
        except QuantityError as error:
            self._wrong(text, error.allowed, f'Write such as "{_EXAMPLES[key]}".')
        if key in SUN and _plain(unit) in _ENERGY:
            self.energy.append(key)

    def heading(self, whole: str) -> Heading:
        """All of it. Raises a WeatherError."""
        if self.time is None:
            self._wrong(whole, "has no column of time.", f'Head it "time"; such as "{_EXAMPLE}".')
        if "temp_c" not in self.places:
            self._wrong(whole, "has no column of temperature.", f'Add one headed "{_EXAMPLES["temp_c"]}".')
        if "total" not in self.places and not {"beam", "diffuse"} <= self.places.keys():
            self._wrong(whole, "has no column of sun.", f'Add one headed "{_EXAMPLES["total"]}".')
        if self.faults or self.time is None:
            raise WeatherError(tuple(self.faults))
        mark, offset = self.clock
        unread, energy = tuple(self.unread), tuple(self.energy)
        return Heading(self.time, self.places, self.scales, mark, offset, unread, energy)

    def _wrong(self, given: str, allowed: str, advice: str) -> None:
        self.faults.append(Fault(self.name, self.line, f'"{given.strip()[:60]}"', allowed, advice))


def _parted(text: str) -> tuple[str, str]:
    """The name and the unit of one heading, small letters in the name."""
    found = _HEADING.match(" ".join(text.split())[:_LONGEST].strip('" '))
    if found is None:
        return text.strip().lower(), ""
    return " ".join(found["name"].replace("_", " ").lower().split()), (found["unit"] or "").strip()


def _stamps(unit: str) -> tuple[Mark, float | None]:
    """What the bracket after "time" says: the clock, and what a stamp marks."""
    mark: Mark = "end"
    offset = None
    for word in unit.lower().replace(",", " ").split():
        clock = _CLOCK.match(word)
        if clock is not None:
            hours = float(clock["hours"] or 0.0) + float(clock["minutes"] or 0.0) / 60.0
            offset = -hours if clock["sign"] == "-" else hours
        elif word in ("end", "start", "middle"):
            mark = word  # type: ignore[assignment]  # one of the three, just looked up
        elif word not in ("local", "standard", "iso", "hour", "of"):
            raise ValueError(f'says "{word[:20]}", which is no clock and no mark of the hour.')
    if offset is not None and abs(offset) > 14.0:
        raise ValueError("is more than 14 hours from UTC.")
    return mark, offset


def _scale(key: str, unit: str) -> Callable[[Array], Array]:
    """How numbers in a unit become SI. Raises a QuantityError."""
    if not unit:
        raise QuantityError("", "has no unit.", "")
    plain = _plain(unit)
    if key == "humidity":
        sizes = {"%": 0.01, "%rh": 0.01, "percent": 0.01, "1": 1.0, "share": 1.0}
        if plain not in sizes:
            raise QuantityError(unit, "is no unit of humidity.", "")
        return lambda values: values * sizes[plain]
    if key in SUN and plain in _ENERGY:
        return lambda values: values * _ENERGY[plain]
    if key == "wind" and plain in _KNOTS:
        return lambda values: values * _KNOTS[plain]
    dimension = _DIMENSIONS.get(key, "irradiance")
    zero, one = parse(f"0 {unit}", dimension), parse(f"1 {unit}", dimension)
    return lambda values: zero + values * (one - zero)


def _plain(unit: str) -> str:
    return unit.lower().replace(" ", "").replace("^", "").replace("²", "2").replace("m-2", "/m2")
