"""Kinds of value that the price book holds: what a row is of, what one of it is, how much there is, a day."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date, datetime
from typing import Annotated, Any, TypeAlias

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationInfo
from pydantic_core import CoreSchema, core_schema

from tidestead.core.errors import QuantityError
from tidestead.core.units import Gallon
from tidestead.plan.fields import LARGEST_COUNT, Typed
from tidestead.plan.items import Item, parse_item
from tidestead.plan.refusals import refusal
from tidestead.plan.selling import Sold, Stock, read_sold, read_stock

_A_DAY = 86400.0
_A_YEAR = 365.25 * _A_DAY
_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_FIRST_YEAR, _LAST_YEAR = 1990, 2200
"""Between them prices of a plan are asked; another year is a slip. Own choice."""
DAY_EXAMPLE = "2026-05-04"
DAY_ADVICE = f'Write the year, the month and the day, such as "{DAY_EXAMPLE}".'


def read_bought(text: str, _gallon: Gallon) -> Item:
    """ "lumber 2x6 dfl-no2" or "pump return". Raises QuantityError; names are looked up elsewhere."""
    return parse_item(text)


@dataclass(frozen=True)
class Counted(Typed):
    """So many without a unit, or a quantity with one; `all_of_it`: true stands for all that is needed."""

    all_of_it: bool = False

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        text = {"type": "string", "minLength": 1, "maxLength": 60, "examples": list(self.shown_examples)}
        number = {"type": "integer", "minimum": 0, "maximum": LARGEST_COUNT}
        return {"anyOf": [text, number, *([{"type": "boolean"}] if self.all_of_it else [])]}

    def validate(self, value: Any, info: ValidationInfo) -> Any:
        """What stands in the file, read."""
        if isinstance(value, bool) and self.all_of_it:
            return Stock(None if value else 0.0)
        read = super().validate(value, info)
        if isinstance(read, Stock) and read.amount is None and not self.all_of_it:
            raise refusal("", "must say how many.", 'Write a number, such as 4 or "12 kg".')
        return read


@dataclass(frozen=True)
class Day:
    """A day of the calendar: a date of TOML, or a text such as "2026-05-04"."""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self.validate)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return {"type": "string", "format": "date", "examples": [DAY_EXAMPLE]}

    def validate(self, value: Any, _info: ValidationInfo) -> date:
        """The day."""
        if isinstance(value, date) and not isinstance(value, datetime):
            return self._within(value)
        if not isinstance(value, str):
            raise refusal("", "must be a day, without an hour.", DAY_ADVICE)
        try:
            return self._within(read_day(value))
        except QuantityError as error:
            raise refusal(error.given, error.allowed, error.advice) from error

    def _within(self, day: date) -> date:
        if not _FIRST_YEAR <= day.year <= _LAST_YEAR:
            raise refusal("", f"is before {_FIRST_YEAR} or after {_LAST_YEAR}.", DAY_ADVICE)
        return day


def read_day(text: str) -> date:
    """The day that "2026-05-04" names. Raises QuantityError."""
    words = text.strip()
    if not _DAY.fullmatch(words):
        raise QuantityError(f'"{text[:40]}"', "is not a day as it is written here.", DAY_ADVICE)
    try:
        return date.fromisoformat(words)
    except ValueError:
        raise QuantityError(f'"{text[:40]}"', "is no day of the calendar.", DAY_ADVICE) from None


Bought: TypeAlias = Annotated[
    Item,
    Typed(
        "ratio",
        read=read_bought,
        examples=("lumber 47 x 145 mm C24", "pump return", "salt", "lumber 2x6 dfl-no2"),
    ),
]
SoldAs: TypeAlias = Annotated[
    Sold,
    Counted(
        "ratio",
        read=read_sold,
        examples=("3.6 m", "2440 x 1220 mm", "18 L", "25 kg", "100", "12 ft"),
        lettered=False,
    ),
]
Owned: TypeAlias = Annotated[
    Stock,
    Counted("ratio", read=read_stock, examples=("4",), lettered=False, all_of_it=True),
]
AtMost: TypeAlias = Annotated[Stock, Counted("ratio", read=read_stock, examples=("10",), lettered=False)]
Dated: TypeAlias = Annotated[date, Day()]
Lead: TypeAlias = Annotated[float, Typed("time", least=0.0, most=5.0 * _A_YEAR, examples=("3 weeks",))]
Life: TypeAlias = Annotated[float, Typed("time", above=0.0, most=100.0 * _A_YEAR, examples=("5 years",))]
VisitNumber: TypeAlias = Annotated[int, Typed("count", least=1, most=1000)]
HowMany: TypeAlias = Annotated[float, Typed("ratio", above=0.0, most=100_000.0, examples=("2.5",))]
Kerf: TypeAlias = Annotated[float, Typed("length", least=0.0, most=0.02, examples=("3 mm", "1/8 in"))]
"""What a saw turns to dust."""
Trim: TypeAlias = Annotated[float, Typed("length", least=0.0, most=0.5, examples=("10 mm", "3/8 in"))]
"""What is cut off at an end or an edge before anything is cut of it."""
OffCut: TypeAlias = Annotated[float, Typed("length", least=0.0, most=10.0, examples=("300 mm", "12 in"))]
"""The least that is kept for later."""
