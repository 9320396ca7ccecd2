"""The kinds of value a plan holds: text as a person types it becomes a number in SI, or a named row.

What validates here sees three things beside the value, through pydantic's validation context: which gallon the
plan means (`gallons`), the names of the user's own catalogue rows (`yours`, by table), and the units that the
plan is shown in (`show`), for advice in the user's own units.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Annotated, Any, TypeAlias

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
    Gallon,
    SalinityReading,
    System,
    bare_as,
    bare_in,
    parse,
    parse_band,
    parse_salinity,
    parse_section,
    show,
)
from tidestead.core.units import Section as SectionSize

Reader: TypeAlias = Callable[[str, Gallon], Any]


@dataclass(frozen=True)
class Typed:
    """A quantity of one dimension, typed with its unit, within limits given in SI.

    `above` is excluded, `least` and `most` are not. `read` replaces the plain reading of one number.
    """

    dimension: str
    above: float | None = None
    least: float | None = None
    most: float | None = None
    read: Reader | None = None
    examples: tuple[str, ...] = ()

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
        system: System | None = context.get("show")
        if not (number or isinstance(value, str)):
            raise refusal(
                "", "must be a quantity in quotes.", f'Write "{self.example(system, info.field_name)}".'
            )
        try:
            result = self._read(value if isinstance(value, str) else repr(value), context.get("gallons"))
        except QuantityError as error:
            advice = error.advice
            if error.bare:
                thin = info.field_name in THIN
                advice = bare_in(error.bare, DIMENSIONS[self.dimension], system, thin=thin)
                if self.examples and self.read is None:
                    advice = bare_as(error.bare, self._in_system(system))
            raise refusal(error.given, error.allowed, advice) from error
        return self._within(int(result) if self.whole else result, system, info.field_name)

    def _read(self, text: str, gallon: Gallon) -> Any:
        return self.read(text, gallon) if self.read else parse(text, self.dimension, gallon)

    def _in_system(self, system: System | None) -> tuple[str, ...]:
        """The examples of one system, where there is one of each."""
        if system is None or len(self.examples) < 2:
            return self.examples
        return self.examples[-1:] if system == "us" else self.examples[:1]

    def example(self, system: System | None, key: str | None = None) -> str:
        """What a person who reads one system may write here, at a key."""
        small = key in THIN and self.dimension == "length" and not (self.read or self.examples)
        first, *others = THIN_EXAMPLES if small else self.shown_examples
        return others[-1] if others and system == "us" else first

    def _within(self, value: Any, system: System | None, key: str | None) -> Any:
        if not isinstance(value, int | float):
            return value
        if (self.dimension, self.least, self.most) == ("ratio", 0.0, 1.0) and not 0.0 <= value <= 1.0:
            raise refusal("", "must be from 0 % to 100 %.", 'Write "100 %" for all of it, "0 %" for none.')
        advice = f'Write such as "{self.example(system, key)}".' if not self.whole else "Write such as 4."
        for broken, limit, words in (
            (self.above is not None and value <= self.above, self.above, "must be more than {}."),
            (self.least is not None and value < self.least, self.least, "must be {} or more."),
            (self.most is not None and value > self.most, self.most, "must be {} or less."),
        ):
            if broken and limit is not None:
                raise refusal("", words.format(_plain(limit, self.dimension, system)), advice)
        return value


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


def refusal(given: str, allowed: str, advice: str) -> PydanticCustomError:
    """A fault in one value, as pydantic carries it; `faults` turns it into a Fault with its line."""
    context = {"given": given, "allowed": allowed, "advice": advice}
    return PydanticCustomError("refused", "{allowed} {advice}", context)


def _plain(limit: float, dimension: str, system: System | None) -> str:
    unit = DIMENSIONS[dimension].si
    if unit in ("1", "count"):
        return f"{limit:g}"
    if system:
        return show(limit, unit, system) if limit else "0"
    return f"{limit:g} {unit}"


THIN = frozenset(
    (
        "thickness", "plies", "plate", "bed_thickness", "gap", "dry_film", "diameter", "embedment", "edge_distance",
        "slab_thickness", "bow_limit", "drop", "settles", "breadth", "depth", "through", "behind", "ends_above_water",
        "neck", "bubble", "hole", "teeth",
    )
)  # fmt: skip
"""Keys of small sizes: a bare number there is never metres or feet."""
THIN_EXAMPLES = ("40 mm", "1 1/2 in")

LARGEST_COUNT = 10_000
MOST_ITEMS = 1_000
LONGEST = 10_000.0
"""Metres. A slip of the unit ("1200 m" for mm in a wall) is for the cross-checks to find."""


def _band(dimension: str) -> Reader:
    return lambda text, gallon: parse_band(text, dimension, gallon)


Length = Annotated[float, Typed("length", above=0.0, most=LONGEST)]
NeckWidth = Annotated[float, Typed("length", above=0.0, most=LONGEST, examples=("250 mm", "10 in"))]
BubbleSize = Annotated[float, Typed("length", above=0.0, most=LONGEST, examples=("0.8 mm",))]
HoleSize = Annotated[float, Typed("length", above=0.0, most=LONGEST, examples=("6 mm", "1/4 in"))]
SmallHead = Annotated[float, Typed("length", above=0.0, most=LONGEST, examples=("150 mm", "6 in"))]
"""A head or a height of a hand or so."""
Level = Annotated[float, Typed("length", least=-LONGEST, most=LONGEST)]
Share = Annotated[float, Typed("ratio", least=0.0, most=1.0)]
Ratio = Annotated[float, Typed("ratio", above=0.0, most=1000.0)]
Temperature = Annotated[float, Typed("temperature", least=-90.0, most=150.0)]
TemperatureBand = Annotated[
    tuple[float, float],
    Typed("temperature", read=_band("temperature"), examples=("24 to 27 degC", "75 to 80 degF")),
]
ShareBand = Annotated[tuple[float, float], Typed("ratio", read=_band("ratio"), examples=("60 to 85 %",))]
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
        examples=("35 psu", "35 ppt", "1.0264 sg at 25/25 degC"),
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
Currency: TypeAlias = Annotated[str, StringConstraints(pattern=r"^[A-Z]{3}$")]
Zone: TypeAlias = Annotated[
    str, StringConstraints(pattern=r"^[A-Za-z0-9_+-]+(/[A-Za-z0-9_+-]+)*$", max_length=60)
]
Latitude: TypeAlias = Annotated[float, Field(ge=-90.0, le=90.0)]
Longitude: TypeAlias = Annotated[float, Field(ge=-180.0, le=180.0)]

ClearName: TypeAlias = Annotated[str, Named("clear")]
SheetName: TypeAlias = Annotated[str, Named("sheathing")]
LumberName: TypeAlias = Annotated[str, Named("lumber")]
FastenerName: TypeAlias = Annotated[str, Named("fasteners")]
SealName: TypeAlias = Annotated[str, Named("seals")]
LiningName: TypeAlias = Annotated[str, Named("linings")]
SoilName: TypeAlias = Annotated[str, Named("soils")]
FloorName: TypeAlias = Annotated[str, Named("floors")]
