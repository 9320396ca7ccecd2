"""Numbers as people write them: 38, 1.5, .5, 1 200, 2,400, 1/2, 1 1/2, 1-1/2, 7e-5."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import NamedTuple

from tidestead.core.errors import QuantityError
from tidestead.core.units.typed import SHOWN, excerpt

NUMBER = r"""(?P<whole>[0-9]+)[ -](?P<over>[0-9]+)/(?P<under>[0-9]+)
    |   (?P<num>[0-9]+)/(?P<den>[0-9]+)
    |   (?P<grouped>[1-9][0-9]{0,2}(?:(?:,[0-9]{3})+|(?:\ [0-9]{3})+)(?![0-9,])(?:\.[0-9]+)?)
    |   (?P<decimal>(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)(?:[eE](?P<power>[+-]?[0-9]+))?)
    """


class Numeral(NamedTuple):
    """A number at the start of a text: its value, its letters, what follows it, and whether it is whole."""

    value: Fraction
    letters: str
    rest: str

    @property
    def is_whole(self) -> bool:
        return self.value.denominator == 1


NO_NUMBER = "does not begin with a number."


def numeral(text: str, typed: str) -> Numeral:
    """The unsigned number that a plain text begins with; `typed` is the whole as typed, for the message."""
    found = re.match(NUMBER, text, re.VERBOSE)
    if not found:
        raise QuantityError(excerpt(typed), NO_NUMBER, 'Write the number first: "24 in".')
    letters, rest = found.group(), text[found.end() :]
    _refuse_rest(rest, letters, typed)
    return Numeral(_value(found, typed), letters, rest)


def _value(found: re.Match[str], typed: str) -> Fraction:
    if found["under"]:
        return int(found["whole"]) + _proper(int(found["over"]), int(found["under"]), typed)
    if found["den"]:
        return _over(int(found["num"]), int(found["den"]), typed)
    if found["grouped"]:
        return Fraction(found["grouped"].replace(",", "").replace(" ", ""))
    if found["power"] and len(found["power"].lstrip("+-0")) > 3:
        raise QuantityError(
            excerpt(typed), "has a power of ten that no quantity has.", "Write the number out."
        )
    return Fraction(found["decimal"])


def _proper(over: int, under: int, typed: str) -> Fraction:
    if over >= under:
        raise QuantityError(
            excerpt(typed),
            "mixes a whole number with a fraction of one or more.",
            'Write it like "1 1/2 in".',
        )
    return _over(over, under, typed)


def _over(over: int, under: int, typed: str) -> Fraction:
    if under == 0:
        raise QuantityError(excerpt(typed), "divides by zero.", 'Write a fraction like "1/2 in".')
    return Fraction(over, under)


def _refuse_rest(rest: str, letters: str, typed: str) -> None:
    """Digits, points and commas left over right after a number mean that it was not read as it was meant."""
    if rest[:1] == ",":
        raise QuantityError(excerpt(typed), *_comma(letters, rest, typed))
    if rest[:1] == "." or (rest[:1] == "/" and rest[1:2].isdigit()):
        raise QuantityError(
            excerpt(typed),
            f'has "{rest[:1]}" where none can be read.',
            'Write the number like "1.5" or "1 1/2".',
        )
    if re.match(r" [0-9]", rest) and not re.match(r" 1/[A-Za-z]", rest):
        raise QuantityError(
            excerpt(typed),
            "has two numbers with nothing between them.",
            'A space parts thousands in threes ("1 200 mm") or a fraction ("1 1/2 in").',
        )


def _comma(letters: str, rest: str, typed: str) -> tuple[str, str]:
    digits = re.match(r",([0-9]*)", rest)
    after = digits.group(1) if digits else ""
    meant = typed.strip().replace(f"{letters},{after}", f"{letters}.{after}")
    sure = after and "." not in letters and "," not in meant and len(meant) <= SHOWN
    advice = f'Write "{meant}" if a decimal is meant' if sure else "Write a decimal with a point"
    fault = "has a comma that could be read two ways; a comma parts thousands only."
    return fault, f"{advice}, and thousands without a comma."
