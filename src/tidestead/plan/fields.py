"""The kinds of value a plan holds: text as a person types it becomes a number in SI, or a named row.

What validates here sees three things beside the value, through pydantic's validation context: which gallon the
plan means (`gallons`), the names of the user's own catalogue rows (`yours`, by table), and the units that the
plan is shown in (`show`), for advice in the user's own units.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, NamedTuple, TypeAlias

from pydantic import (
    Field,
    GetCoreSchemaHandler,
    GetJsonSchemaHandler,
    Strict,
    StringConstraints,
    ValidationInfo,
)
from pydantic_core import CoreSchema, PydanticCustomError, core_schema

from tidestead.catalog.rows import YOURS_MARK, nearest, row_names
from tidestead.core.errors import QuantityError
from tidestead.core.units import (
    DIMENSIONS,
    NO_NUMBER,
    Gallon,
    SalinityReading,
    System,
    bare_as,
    bare_in,
    likely_units,
    parse,
    parse_band,
    parse_salinity,
    parse_section,
    show,
)
from tidestead.core.units import Section as SectionSize
from tidestead.plan.advice import MOST_OFFERED, QUOTED, like, listed, taken_only, with_units
from tidestead.plan.degrees import Degrees
from tidestead.plan.refusals import refusal
from tidestead.plan.usual import NOTHING_USUAL, USUAL, Usual

Reader: TypeAlias = Callable[[str, Gallon], Any]


@dataclass(frozen=True)
class Typed:
    """A quantity of one dimension, typed with its unit, within limits given in SI.

    `above` is excluded, `least` and `most` are not. `read` replaces the plain reading of one number. `lettered`: no
    text without a letter or a sign is a value.
    """

    dimension: str
    above: float | None = None
    least: float | None = None
    most: float | None = None
    read: Reader | None = None
    examples: tuple[str, ...] = ()
    lettered: bool = True

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self.validate)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        if self.whole:
            return {
                "type": "integer",
                "minimum": int(self.least or 0),
                "maximum": int(self.most or LARGEST_COUNT),
            }
        text = {"type": "string", "minLength": 1, "maxLength": 60, "examples": list(self.shown_examples)}
        if not self.lettered:
            return text
        if not self.bare:
            return {**text, "pattern": "[A-Za-z%\"'\u00b0\u2032\u2033]"}
        return {**text, "type": ["string", "number"]}

    @property
    def bare(self) -> bool:
        """Whether a number without a unit is a value."""
        return self.read is None and DIMENSIONS[self.dimension].bare

    @property
    def whole(self) -> bool:
        return self.read is None and DIMENSIONS[self.dimension].whole

    @property
    def shown_examples(self) -> tuple[str, ...]:
        """What a person may write here."""
        known = DIMENSIONS[self.dimension].example.split(" or ")
        return self.examples or tuple(example.strip('"') for example in known)

    def validate(self, value: Any, info: ValidationInfo) -> Any:
        """The SI value of what stands in the file."""
        number = isinstance(value, int | float) and not isinstance(value, bool)
        if self.whole and not (number and isinstance(value, int)):
            raise refusal("", "must be a whole number without quotes.", "Write 4.")
        context = info.context or {}
        asked = _Asked(context.get("show"), info.field_name or "", context.get("gallons"))
        if not (number or isinstance(value, str)):
            raise refusal("", "must be a quantity in quotes.", f'Write "{self.example(*asked[:2])}".')
        text = value if isinstance(value, str) else repr(value)
        try:
            result = self._read(text, asked.gallon)
        except QuantityError as error:
            allowed, advice = self._told(error, text, asked)
            raise refusal(error.given, allowed, advice) from error
        return self._within(int(result) if self.whole else result, asked)

    def _read(self, text: str, gallon: Gallon) -> Any:
        return self.read(text, gallon) if self.read else parse(text, self.dimension, gallon)

    def usual(self, key: str | None) -> Usual:
        """What is usual at a key of a kind that says no more than its dimension."""
        own = self.examples or self.read
        return NOTHING_USUAL if own else USUAL.get((self.dimension, key or ""), NOTHING_USUAL)

    def examples_for(self, system: System | None, key: str | None = None) -> tuple[str, ...]:
        """What may be written at a key, that of the reader's own system first."""
        shown = self.usual(key).examples or self.shown_examples
        return (shown[-1], *shown[:-1]) if system == "us" else shown

    def example(self, system: System | None, key: str | None = None) -> str:
        """What a person who reads one system may write here, at a key."""
        return self.examples_for(system, key)[0]

    def takes(self, text: str, system: System | None, key: str, gallon: Gallon) -> bool:
        """Whether a text would be taken at a key."""
        return not self._why_not(text, _Asked(system, key, gallon))

    def _why_not(self, text: str, asked: _Asked) -> str:
        """What is wrong with a text; empty where it is taken."""
        try:
            self._within(self._read(text, asked.gallon), asked)
        except QuantityError as error:
            return error.allowed
        except PydanticCustomError as error:
            return str((error.context or {})["allowed"])
        return ""

    def _told(self, error: QuantityError, text: str, asked: _Asked) -> tuple[str, str]:
        """What is wrong with a text that cannot be read, and what to write, which would then be taken."""
        examples = self.examples_for(asked.system, asked.key)
        known, own = DIMENSIONS[self.dimension].example, listed(examples[:MOST_OFFERED])
        advice, allowed = error.advice.replace(known, own), error.allowed
        if allowed == NO_NUMBER:
            advice = like(examples)
        if error.bare:
            meant = self._meant(error.bare, text, asked)
            good = [one for one in meant if not self._why_not(one, asked)]
            if meant and not good and self.read is None:
                allowed = f"has no unit, and {self._why_not(meant[0], asked)}"
            advice = f"Write {listed(good[:MOST_OFFERED])}." if good else like(examples)
        elif self.read is not None and " to " in examples[0]:
            advice = like(examples)
        return allowed, taken_only(advice, lambda one: not self._why_not(one, asked), examples)

    def _meant(self, bare: str, text: str, asked: _Asked) -> list[str]:
        """Ways to write a text in which a number has no unit, the likeliest first; some may not be taken."""
        dimension, examples = DIMENSIONS[self.dimension], self.examples_for(asked.system, asked.key)
        small = self.usual(asked.key).thin or (self.read is not None and " mm" in examples[0])
        if self.read is not None:
            symbols = likely_units(bare, dimension, asked.system, thin=small)
            symbols += likely_units(bare, DIMENSIONS["length"], asked.system, thin=small)
            return list(with_units(text.strip(), bare, dict.fromkeys(symbols)))
        if self.examples and dimension.name != "temperature":
            return QUOTED.findall(bare_as(bare, examples))
        return QUOTED.findall(bare_in(bare, dimension, asked.system, thin=small))

    def _within(self, value: Any, asked: _Asked) -> Any:
        if isinstance(value, tuple) and self.dimension != "time":
            for end in value:
                self._within(end, asked)
        if not isinstance(value, int | float):
            return value
        if (self.dimension, self.least, self.most) == ("ratio", 0.0, 1.0) and not 0.0 <= value <= 1.0:
            advice = 'Write "100 %" for all of it, "0 %" for none.'
            advice = like(self.examples) if self.read else advice
            raise refusal("", "must be from 0 % to 100 %.", advice)
        usual = self.usual(asked.key)
        least = self.least if usual.least is None else usual.least
        most = self.most if usual.most is None else usual.most
        advice = like(self.examples_for(asked.system, asked.key)) if not self.whole else "Write it like 4."
        for broken, limit, words in (
            (self.above is not None and value <= self.above, self.above, "must be more than {}."),
            (least is not None and value < least, least, "must be {} or more."),
            (most is not None and value > most, most, "must be {} or less."),
        ):
            if broken and limit is not None:
                percent = self.dimension == "ratio" and "%" in advice
                said = f"{100.0 * limit:g} %" if percent else _plain(limit, self.dimension, asked.system)
                raise refusal("", words.format(said), advice)
        return value


class _Asked(NamedTuple):
    """Where a value stands: the units its plan is shown in, its key, and which gallon is meant."""

    system: System | None
    key: str
    gallon: Gallon


@dataclass(frozen=True)
class Named:
    """The name of a row in one table of the catalogue, or of a row of the user's own."""

    table: str

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self.validate)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        ours: dict[str, Any] = {"enum": list(row_names(self.table))}
        return {"type": "string", "anyOf": [ours, {"pattern": f"^{YOURS_MARK}."}]}

    def validate(self, value: Any, info: ValidationInfo) -> str:
        """The name, once it is known to be one."""
        if not isinstance(value, str):
            raise refusal("", "must be a catalogue name in quotes.", self._choices())
        yours: Mapping[str, Any] = (info.context or {}).get("yours", {}).get(self.table, {})
        own = value.removeprefix(YOURS_MARK)
        if value.startswith(YOURS_MARK):
            if own not in yours:
                advice = f"Write its figures under [yours.{self.table}.{own[:40]}]."
                raise refusal("", f"is not one of your rows for {self.table}.", advice)
        elif value not in row_names(self.table):
            if own in yours:
                raise refusal("", "is a row of your own.", f'Write "{YOURS_MARK}{own}".')
            raise refusal("", f"is not in the catalogue of {self.table}.", self._choices(value))
        return value

    def _choices(self, near: str = "") -> str:
        names = row_names(self.table)
        close = nearest(near, names)
        if close:
            return " or ".join(f'"{name}"' for name in close).join(("Did you mean ", "?"))
        some = ", ".join(names[:12]) + (", ..." if len(names) > 12 else "")
        return f"Known: {some}. Your own: [yours.{self.table}.NAME]."


def _plain(limit: float, dimension: str, system: System | None) -> str:
    unit = DIMENSIONS[dimension].si
    if dimension == "daily_irradiation" and limit:
        return f"{limit / _KWH_A_DAY:.4g} kWh/m² a day"
    if unit in ("1", "count"):
        return f"{limit:g}"
    if system:
        return show(limit, unit, system) if limit else "0"
    return f"{limit:g} {unit}"


_KWH_A_DAY = 3.6e6 / 86400.0
"""Watts that make one kWh in a day: the sun of a day is told in those, whatever else is shown."""
LARGEST_COUNT = 10_000
MOST_ITEMS = 1_000
LONGEST, HIGHEST = 100.0, 1000.0
"""Metres that anything here is long, and that a level lies above or below the datum; a slip of the unit is more.

These bounds, and those of the single kinds below, are own choices: no honest builder meets them, a slip does."""


def _band(dimension: str) -> Reader:
    return lambda text, gallon: parse_band(text, dimension, gallon)


Length = Annotated[float, Typed("length", above=0.0, most=LONGEST)]
Spacing = Annotated[float, Typed("length", above=0.0, most=2.5)]
"""Centre to centre of studs, rings and bolts."""
NeckWidth = Annotated[float, Typed("length", above=0.0, most=10.0, examples=("250 mm", "10 in"))]
BubbleSize = Annotated[float, Typed("length", above=0.0, most=0.1, examples=("0.8 mm",))]
HoleSize = Annotated[float, Typed("length", above=0.0, most=0.5, examples=("6 mm", "1/4 in"))]
SmallHead = Annotated[float, Typed("length", above=0.0, most=20.0, examples=("150 mm", "6 in"))]
"""A head or a height of a hand or so."""
Level = Annotated[float, Typed("length", least=-HIGHEST, most=HIGHEST)]
Elevation = Annotated[float, Typed("length", least=-500.0, most=9000.0, examples=("120 m", "400 ft"))]
"""Of a place above the sea: from below the lowest shore to above the highest summit; both heights from memory."""
Share = Annotated[float, Typed("ratio", least=0.0, most=1.0)]
Ratio = Annotated[float, Typed("ratio", above=0.0, most=1000.0)]
Temperature = Annotated[float, Typed("temperature", least=-90.0, most=150.0)]
TemperatureBand = Annotated[
    tuple[float, float],
    Typed(
        "temperature",
        least=-5.0,
        most=60.0,
        read=_band("temperature"),
        examples=("24 to 27 degC", "75 to 80 degF"),
    ),
]
ShareBand = Annotated[
    tuple[float, float], Typed("ratio", least=0.0, most=1.0, read=_band("ratio"), examples=("60 to 85 %",))
]
Pressure = Annotated[float, Typed("pressure", above=0.0)]
Force = Annotated[float, Typed("force", above=0.0)]
Moment = Annotated[float, Typed("moment", above=0.0)]
LineMoment = Annotated[float, Typed("moment_per_length", above=0.0)]
Mass = Annotated[float, Typed("mass", above=0.0)]
Duration = Annotated[float, Typed("time", above=0.0)]
CleanUp = Annotated[float, Typed("time", above=0.0, examples=("4 days", "96 h"))]
"""Either may be meant where a number stands bare: both are offered, in any system."""
Acceleration = Annotated[float, Typed("acceleration", least=0.0)]
Count = Annotated[int, Typed("count", least=0, most=LARGEST_COUNT)]
Section = Annotated[
    SectionSize,
    Typed(
        "length",
        read=lambda text, _: parse_section(text),
        examples=("47 x 145 mm", "2 of 47 x 145 mm", "2x6", "2-2x6"),
    ),
]
Salinity = Annotated[
    SalinityReading,
    Typed(
        "salinity",
        read=lambda text, _: parse_salinity(text),
        examples=(
            "35 psu",
            "35 ppt",
            "53.1 mS/cm at 25 degC",
            "35 ppt seawater refractometer at 20 degC",
            "36.5 ppt NaCl refractometer, ATC",
            "1.3394 nD at 20 degC",
            "1.0264 sg at 25/25 degC",
        ),
    ),
]

Lengths: TypeAlias = Annotated[tuple[Length, ...], Strict(False), Field(max_length=MOST_ITEMS)]
"""A list in the file, a tuple here."""
Numbers: TypeAlias = Annotated[
    tuple[Annotated[int, Field(ge=1, le=LARGEST_COUNT)], ...], Strict(False), Field(max_length=MOST_ITEMS)
]
"""Numbers of pieces, counted from 1."""

Words: TypeAlias = Annotated[str, StringConstraints(min_length=1, max_length=300)]
PartName: TypeAlias = Annotated[str, StringConstraints(pattern=r"^[a-z0-9_-]+$", max_length=40)]
CURRENCY = re.compile(r"[A-Z]{3}")
Currency: TypeAlias = Annotated[str, StringConstraints(pattern=rf"^{CURRENCY.pattern}$")]
Zone: TypeAlias = Annotated[
    str, StringConstraints(pattern=r"^[A-Za-z0-9_+-]+(/[A-Za-z0-9_+-]+)*$", max_length=60)
]
Latitude: TypeAlias = Annotated[float, Degrees(90.0, "N", "S", 58.4)]
Longitude: TypeAlias = Annotated[float, Degrees(180.0, "E", "W", 3.2)]

ClearName: TypeAlias = Annotated[str, Named("clear")]
SheetName: TypeAlias = Annotated[str, Named("sheathing")]
LumberName: TypeAlias = Annotated[str, Named("lumber")]
FastenerName: TypeAlias = Annotated[str, Named("fasteners")]
SealName: TypeAlias = Annotated[str, Named("seals")]
LiningName: TypeAlias = Annotated[str, Named("linings")]
SoilName: TypeAlias = Annotated[str, Named("soils")]
FloorName: TypeAlias = Annotated[str, Named("floors")]
