"""What was answered to the questions of a first plan: read, held to the rules of the plan, with its faults."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import cast

from pydantic import ValidationInfo
from pydantic_core import PydanticCustomError

from tidestead.catalog.rows import nearest
from tidestead.core.errors import Fault
from tidestead.core.units import Gallon, System
from tidestead.core.units.typed import excerpt
from tidestead.plan.degrees import Degrees
from tidestead.plan.editing import path_of
from tidestead.plan.first_questions import Blank, asked, blanks
from tidestead.plan.forms.echoes import reading_back
from tidestead.plan.outline import Spot, spot_at

LONGEST = 300
"""Characters of one answer, as of any words in a plan."""

_COUNT = re.compile(r"[1-9][0-9]{0,3}")
_BOTH = re.compile(r"([0-9]+ of )?(.+?) ([=≈]) (.+)")
"""A reading back that tells both unit systems."""


@dataclass(frozen=True)
class _Info:
    """What a validator of the plan is told beside the text."""

    context: Mapping[str, object]
    field_name: str


@dataclass(frozen=True, eq=False)
class Said:
    """Answers by the id of their blank. Those of blanks that are not asked count for nothing."""

    answers: Mapping[str, str]

    @cached_property
    def asked(self) -> Mapping[str, Blank]:
        """What is asked, given these answers."""
        return asked(self.answers)

    def text(self, name: str) -> str:
        """An answer as typed; empty where nothing was answered, or where it is not asked."""
        return self.answers.get(name, "").strip() if name in self.asked else ""

    @property
    def system(self) -> System:
        return "us" if self.text("show") == "us" else "metric"

    @property
    def gallon(self) -> Gallon:
        found = self.text("gallons")
        return cast("Gallon", found) if found in ("us", "imperial") else None

    @cached_property
    def faults(self) -> dict[str, tuple[Fault, ...]]:
        """What is wrong with each answer by itself, by blank."""
        found = {name: fault for name, blank in self.asked.items() if (fault := self._fault(blank))}
        known = {blank.id for blank in blanks()}
        for name in self.answers:
            if name not in known:
                found[name] = Fault(
                    excerpt(name), None, "", "is not asked here.", "Take it out, or look at its spelling."
                )
        return {name: (fault,) for name, fault in found.items()}

    @cached_property
    def echoes(self) -> dict[str, str]:
        """Every quantity that was understood, read back in both unit systems, own first; the place; by blank."""
        told = {}
        for name, blank in self.asked.items():
            if blank.typed is not None and self.value(name) is not None:
                words = reading_back(Spot(float, (blank.typed,)), self.text(name), self.gallon)
                told[name] = _turned(words) if self.system == "us" else words
        return {name: words for name, words in {**told, **self._place}.items() if words}

    @property
    def _place(self) -> dict[str, str]:
        """Where it stands, so that a sign that was forgotten is seen."""
        ways = {"latitude": ("N", "S"), "longitude": ("E", "W")}
        degrees = {
            name: words
            for name, (plus, minus) in ways.items()
            if (words := _degrees(self.degrees(name), plus, minus))
        }
        whole = ", ".join(degrees.values()) if len(degrees) == len(ways) else ""
        return {name: whole or words for name, words in degrees.items()}

    def size(self, name: str) -> float | None:
        """A quantity in SI; None where there is no good one."""
        value = self.value(name)
        return value if isinstance(value, float) else None

    def value(self, name: str) -> object:
        """What a quantity is read as; None where there is none, or it has a fault."""
        return self.reading(name, self.text(name))

    def reading(self, name: str, text: str) -> object:
        """What a text would be read as in a blank for a quantity; None where it has a fault, or is not asked."""
        blank = self.asked.get(name)
        if blank is None or blank.kind != "quantity" or not text:
            return None
        try:
            return self._read(blank, text)
        except PydanticCustomError:
            return None

    def degrees(self, name: str) -> float | None:
        """Decimal degrees; None where there is no good answer."""
        blank, text = self.asked.get(name), self.text(name)
        if blank is None or blank.kind != "degrees" or not text:
            return None
        try:
            return _reader(blank).read(text)
        except PydanticCustomError:
            return None

    def count(self, name: str) -> int | None:
        """A whole number; None where there is no good one."""
        text = self.text(name)
        return int(text) if _COUNT.fullmatch(text) else None

    def _fault(self, blank: Blank) -> Fault | None:
        text = self.text(blank.id)
        if not text:
            return None if blank.optional else self._empty(blank)
        if len(text) > LONGEST:
            return _told(blank, text, f"is longer than {LONGEST} characters.", "Write it shorter.")
        if not text.isprintable():
            return _told(
                blank, text, "holds a line end or a sign that cannot be seen.", "Type it again without it."
            )
        if blank.choices:
            return self._picked(blank, text)
        if blank.kind == "degrees":
            return _placed(blank, text)
        if blank.kind == "count":
            return _counted(blank, text)
        return self._measured(blank, text) if blank.kind == "quantity" else None

    def _empty(self, blank: Blank) -> Fault:
        advice = "Pick one." if blank.choices else f'Write such as "{blank.example(self.system)}".'
        return Fault(blank.words, None, "", "is not answered yet.", advice)

    def _picked(self, blank: Blank, text: str) -> Fault | None:
        offered = [one.value for one in blank.offered(self.answers)]
        if text in offered:
            return None
        close = nearest(text, offered, 1)
        advice = f'Did you mean "{close[0]}"?' if close else "Pick one of those that are listed."
        return _told(blank, text, "is not one of the choices that go with your other answers.", advice)

    def _measured(self, blank: Blank, text: str) -> Fault | None:
        try:
            self._read(blank, text)
        except PydanticCustomError as error:
            told = error.context or {}
            return Fault(blank.words, None, excerpt(text), told["allowed"], told["advice"])
        return None

    def _read(self, blank: Blank, text: str) -> object:
        typed = blank.typed
        assert typed is not None, f"{blank.id} is a quantity of no kind"
        key = str(path_of(blank.reads)[-1]) if blank.reads else ""
        context: dict[str, object] = {"gallons": self.gallon, "show": self.system, "yours": {}}
        return typed.validate(text, cast("ValidationInfo", _Info(context, key)))


def _told(blank: Blank, text: str, allowed: str, advice: str) -> Fault:
    return Fault(blank.words, None, excerpt(text), allowed, advice)


def _turned(echo: str) -> str:
    """A reading back with US units before metric ones; as it is where it tells but one."""
    found = _BOTH.fullmatch(echo)
    return f"{found[1] or ''}{found[4]} {found[3]} {found[2]}" if found else echo


def _degrees(number: float | None, plus: str, minus: str) -> str:
    """An angle of a map in words; empty where there is none."""
    if number is None:
        return ""
    return f"{abs(number):.6g}° {plus if number > 0.0 else minus}" if number else "0°"


def _placed(blank: Blank, text: str) -> Fault | None:
    """Degrees on a map, in any of the ways in which people write them."""
    try:
        _reader(blank).read(text)
    except PydanticCustomError as error:
        told = error.context or {}
        return Fault(blank.words, None, excerpt(text), told["allowed"], told["advice"])
    return None


def _reader(blank: Blank) -> Degrees:
    """What reads the value of the plan that a blank for degrees fills."""
    place = spot_at(path_of(blank.reads))
    assert place is not None, f"{blank.id} fills nothing"
    return next(one for one in place.metadata if isinstance(one, Degrees))


def _counted(blank: Blank, text: str) -> Fault | None:
    """A whole number."""
    if _COUNT.fullmatch(text) and int(text) <= blank.most:
        return None
    allowed = f"must be a whole number from 1 to {blank.most}."
    return _told(blank, text, allowed, f"Write such as {blank.example('metric')}.")
