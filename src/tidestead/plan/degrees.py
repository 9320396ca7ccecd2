"""Places on the earth as people write them: 45.2, 45.2 N, 55°57′N, 45°12'30"S, W 3."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from fractions import Fraction
from typing import Any

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationInfo
from pydantic_core import CoreSchema, core_schema

from tidestead.plan.refusals import refusal

_LONGEST = 40
_PLAIN = str.maketrans(
    {
        **dict.fromkeys("′’‘ʹ", "'"), **dict.fromkeys("″”“ʺ", '"'), **dict.fromkeys("º˚", "°"),
        **dict.fromkeys("−–‐‑", "-"), **dict.fromkeys("\u00a0\u2009\u202f\t", " "),
    }
)  # fmt: skip
_NUMBER = r"[0-9]{1,6}(?:\.[0-9]{1,12})?"
_ANGLE = re.compile(
    rf"(?P<lead>[NSEW])?(?P<sign>[+-])?(?P<degrees>{_NUMBER})°?"
    rf"(?: ?(?P<minutes>{_NUMBER})'(?: ?(?P<seconds>{_NUMBER})(?:\"|'')?)?)?(?P<tail>[NSEW])?",
    re.IGNORECASE,
)
_WORDS = {"north": "N", "south": "S", "east": "E", "west": "W"}


@dataclass(frozen=True)
class Degrees:
    """Degrees from `most` of one letter to `most` of the other: the first is positive. `example`: one to copy."""

    most: float
    positive: str
    negative: str
    example: float

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self.validate)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        number = {"type": "number", "minimum": -self.most, "maximum": self.most}
        return {"anyOf": [number, {"type": "string", "minLength": 1, "maxLength": _LONGEST}]}

    def validate(self, value: Any, _info: ValidationInfo) -> float:
        """Decimal degrees. Raises as a value of the plan does."""
        if isinstance(value, str):
            return self.read(value)
        if not isinstance(value, int | float) or isinstance(value, bool):
            raise refusal("", "must be a number of degrees.", self._advice(""))
        return self._within(float(value) if abs(value) <= 1e9 else math.inf)

    def read(self, text: str) -> float:
        """The decimal degrees of a text. Raises as a value of the plan does."""
        found = _ANGLE.fullmatch(_plain(text))
        if found is None:
            raise refusal("", "is not a number of degrees.", self._advice(text))
        minutes, seconds = (Fraction(found[part] or 0) for part in ("minutes", "seconds"))
        letters = {letter.upper() for letter in (found["lead"], found["tail"]) if letter}
        if len(letters) > 1 or (letters and found["sign"]):
            raise refusal("", "says twice to which side it lies.", self._advice(text))
        letter = next(iter(letters), "")
        if letter and letter not in (self.positive, self.negative):
            raise refusal("", f"does not lie {self.positive} or {self.negative}.", self._advice(text))
        if minutes >= 60 or seconds >= 60:
            raise refusal("", "has 60 or more minutes or seconds.", self._advice(""))
        size = float(Fraction(found["degrees"]) + minutes / 60 + seconds / 3600)
        return self._within(-size if letter == self.negative or found["sign"] == "-" else size)

    def _within(self, value: float) -> float:
        if not -self.most <= value <= self.most:
            allowed = f"must be from {self.most:g} {self.negative} to {self.most:g} {self.positive}."
            raise refusal("", allowed, self._advice(""))
        return value

    def _advice(self, text: str) -> str:
        """What to write; the number that was typed where it is one."""
        found = re.search(_NUMBER, text)
        shown = found[0] if found and float(found[0]) <= self.most else f"{self.example:g}"
        return f'Write it like {shown} or "{shown} {self.positive}"; {self.side} is negative.'

    @property
    def side(self) -> str:
        """The side that is negative, in a word."""
        return next(word for word, letter in _WORDS.items() if letter == self.negative)


def _plain(text: str) -> str:
    """A text with one sort of each mark, and spaces only where two numbers would run together."""
    words = " ".join(text[: 2 * _LONGEST].translate(_PLAIN).split())
    for word, letter in _WORDS.items():
        words = re.sub(rf"\b{word}\b", letter, words, flags=re.IGNORECASE)
    for word, mark in (("deg(?:rees?)?", "°"), ("min(?:utes?)?", "'"), ("sec(?:onds?)?", '"')):
        words = re.sub(rf"(?<=[0-9 ]){word}\b", mark, words, flags=re.IGNORECASE)
    return re.sub(r" ?([°'\"NSEW+-]) ?", r"\1", words, flags=re.IGNORECASE) if len(text) <= _LONGEST else ""
