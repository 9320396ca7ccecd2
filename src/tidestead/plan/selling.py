"""How things are sold: in lengths, sheets, cans, bags, boxes or by measure; and which of these fit which item."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from math import prod
from types import MappingProxyType
from typing import Literal

from tidestead.core.errors import QuantityError
from tidestead.core.units import Gallon, parse, to_si
from tidestead.core.units.bands import with_units
from tidestead.core.units.typed import excerpt, plain
from tidestead.plan.items import OWN, PARTS, Item

Shape = Literal["length", "sheet", "block", "volume", "mass", "count"]
"""What one of it is: a length, a sheet or roll of two sides, a block of three, a can, a bag, so many pieces."""

Unit = Literal["1", "m", "m2", "m3", "kg", "J"]
"""What an amount is counted in, as a list counts it."""

UNITS: Mapping[Shape, Unit] = MappingProxyType(
    {"length": "m", "sheet": "m2", "block": "m3", "volume": "m3", "mass": "kg", "count": "1"}
)

MEASURES: Mapping[str, tuple[Unit, float]] = MappingProxyType(
    {
        **{unit: ("m", to_si(1.0, unit)) for unit in ("m", "ft", "yd")},
        **{unit: ("m2", to_si(1.0, unit)) for unit in ("m2", "ft2")},
        **{unit: ("m3", to_si(1.0, unit)) for unit in ("m3", "ft3", "L", "US gal", "imp gal")},
        **{unit: ("kg", to_si(1.0, unit, "mass")) for unit in ("kg", "g", "lb")},
        "kWh": ("J", to_si(1.0, "kWh")),
    }
)
"""What a price may be for one of by measure: the unit that lists count it in, and how many of that it is."""

BOARD_FOOT = "board foot"
PLAIN = ("piece", "set", "load", "visit", "trip")
"""Words that stand for one thing without more being said, where one of it is a piece."""
MOST_PIECES = 10_000
_MOST: Mapping[str, float] = {"length": 200.0, "volume": 100.0, "mass": 10_000.0}
"""Metres, cubic metres and kilograms in one of what is sold: more is a slip of the unit. Own choice."""
_SOLD_FORMS = '"3.6 m", "8 ft x 4 ft", "2440 x 1220 mm", "18 L", "25 kg" or "100"'
_BY_X = re.compile(r"(?<=[0-9A-Za-z'\"]) ?[xX] ?(?=[0-9])")


@dataclass(frozen=True)
class Sold:
    """What one of a thing is as it is sold. `sizes` in SI: a sheet's side along the grain, or a roll's width, first."""

    shape: Shape
    sizes: tuple[float, ...]

    @property
    def amount(self) -> float:
        """How much one of it holds: metres, square metres, cubic metres, kilograms or pieces."""
        return prod(self.sizes)

    @property
    def unit(self) -> Unit:
        return UNITS[self.shape]


@dataclass(frozen=True)
class Stock:
    """So much of a thing, in pieces ("1") of what is sold or by measure; `amount` None: all that is needed."""

    amount: float | None
    unit: Unit = "1"


@lru_cache(maxsize=1024)
def read_sold(text: str, gallon: Gallon) -> Sold:
    """ "12 ft", "8 ft x 4 ft", "18 L", "25 kg" or "100". Raises QuantityError."""
    words = plain(text)
    if re.fullmatch(r"-?[0-9]+(?:\.[0-9]+)?", words):
        return Sold("count", (float(_count(words, text)),))
    parts = _BY_X.split(words)
    if len(parts) > 3:
        raise QuantityError(excerpt(text), "has more than three sides.", f"Write it like {_SOLD_FORMS}.")
    if len(parts) > 1:
        sides = tuple(parse(part, "length", gallon) for part in with_units(parts))
        _judge_sizes(text, "length", sides)
        return Sold("sheet" if len(sides) == 2 else "block", sides)
    shape, value = _measure(words, text, gallon, f"Write it like {_SOLD_FORMS}.")
    return Sold(shape, (value,))


def read_stock(text: str, gallon: Gallon) -> Stock:
    """How much there is: "4" of what is sold, "12 kg", or "all" that is needed. Raises QuantityError."""
    words = plain(text)
    if words.lower() in ("all", "yes", "true"):
        return Stock(None)
    advice = 'Write how many there are, such as 4 or "12 kg"; "all" where there is all that is needed.'
    if words.startswith("-"):
        raise QuantityError(excerpt(text), "is less than nothing.", advice)
    if words.lower() in ("none", "no", "false") or re.fullmatch(r"0+", words):
        return Stock(0.0)
    if re.fullmatch(r"[0-9]+(?:\.[0-9]+)?", words):
        return Stock(float(_count(words, text)))
    shape, value = _measure(words, text, gallon, advice)
    return Stock(value, UNITS[shape])


def _count(words: str, text: str) -> int:
    advice = "Write how many pieces it holds, such as 100."
    if "." in words:
        raise QuantityError(excerpt(text), "is no whole number of pieces, and has no unit.", advice)
    if words.startswith("-") or int(words) == 0:
        raise QuantityError(excerpt(text), "must be one or more.", advice)
    if len(words) > 9 or int(words) > MOST_PIECES:
        raise QuantityError(excerpt(text), f"must be {MOST_PIECES} or less.", advice)
    return int(words)


def _measure(words: str, text: str, gallon: Gallon, advice: str) -> tuple[Shape, float]:
    """A length, a volume or a mass by its unit."""
    shapes: tuple[Shape, ...] = ("length", "volume", "mass")
    for shape in shapes:
        try:
            value = parse(words, shape, gallon)
        except QuantityError as error:
            if "gallons" in error.allowed:
                raise
            continue
        _judge_sizes(text, shape, (value,))
        return shape, value
    raise QuantityError(excerpt(text), "is no number of pieces, length, volume or weight.", advice)


def _judge_sizes(text: str, shape: str, sizes: tuple[float, ...]) -> None:
    if min(sizes) <= 0.0:
        raise QuantityError(excerpt(text), "must be more than nothing.", f"Write it like {_SOLD_FORMS}.")
    if max(sizes) > _MOST[shape]:
        allowed = "is more than anything here is sold in: a slip of the unit?"
        raise QuantityError(excerpt(text), allowed, f"Write it like {_SOLD_FORMS}.")


@dataclass(frozen=True)
class Terms:
    """How one sort of thing may be sold. `shapes` of what one is, `per` measures and words of its price.

    `alone`: one of it is a piece without more being said. `like` is a row's price and what is sold, to copy.
    """

    shapes: tuple[Shape, ...]
    measures: tuple[str, ...]
    packs: tuple[str, ...]
    like: tuple[str, str]
    alone: bool = False


_AREA, _VOLUME, _WEIGHT = ("m2", "ft2"), ("L", "m3", "US gal", "imp gal"), ("kg", "g", "lb")
_BOXED = ("piece", "box", "bag", "bucket", "can", "set")
_LENGTHS = Terms(("length",), ("m", "ft", "yd"), ("piece", "length", "roll"), ("3.6 m", "piece"))
_TIMBER = Terms(
    ("length",), ("m", "ft", "yd", "m3", "ft3", BOARD_FOOT), ("piece", "length"), ("3.6 m", "piece")
)
_SHEETS = Terms(("sheet",), _AREA, ("sheet", "piece"), ("2440 x 1220 mm", "sheet"))
_ROLLS = Terms(("sheet",), _AREA, ("piece", "sheet", "roll"), ("6 m x 8 m", "piece"))
_BANDS = Terms(("sheet", "length"), (*_AREA, "m", "ft", "yd"), ("roll", "piece"), ("0.2 m x 25 m", "roll"))
_LIQUIDS = Terms(("volume",), _VOLUME, ("can", "bucket", "cartridge", "piece", "set"), ("18 L", "can"))
_POWDERS = Terms(("mass",), _WEIGHT, ("bag", "bucket", "box", "can", "piece"), ("25 kg", "bag"))
_PIECES = Terms(("count",), (), _BOXED, ("100", "box"), alone=True)
_BLOCKS = Terms(
    ("block", "volume"), ("m3", "ft3"), ("piece", "sheet", "bag", "roll"), ("1250 x 600 x 100 mm", "piece")
)
_MEDIA = Terms(("count", "mass", "volume"), (*_WEIGHT, *_VOLUME), _BOXED, ("5 kg", "bag"), alone=True)
_COVERS = Terms(("count", "sheet"), _AREA, ("piece", "sheet", "set"), ("2 m x 1 m", "sheet"), alone=True)
_SUPPLY = Terms(("volume",), _VOLUME, ("load",), ("8 m3", "load"))
_CURRENT = Terms((), ("kWh",), (), ("", "kWh"))
_OWN = Terms(
    ("count", "length", "sheet", "block", "volume", "mass"),
    (*MEASURES, "h", "day", "week", "year"),
    (*_BOXED, "length", "sheet", "roll", "cartridge", "load", "visit", "trip"),
    ("100", "box"),
    alone=True,
)

_TERMS: Mapping[str, Terms] = MappingProxyType(
    {
        **dict.fromkeys(PARTS, _PIECES),
        **dict.fromkeys(("fastener", "bulkhead", "fitting", "valve", "anchor", "electrics"), _PIECES),
        **dict.fromkeys(("pipe", "frame"), _LENGTHS),
        **dict.fromkeys(("sheet", "clear", "glazing"), _SHEETS),
        **dict.fromkeys(("coating", "seal"), _LIQUIDS),
        **dict.fromkeys(("salt", "reagent", "chlorine-remover"), _POWDERS),
        **dict.fromkeys(("filter", "adsorber", "reactor"), _MEDIA),
        "lumber": _TIMBER,
        "liner": _ROLLS,
        "fabric": _BANDS,
        "layer": _BLOCKS,
        "cover": _COVERS,
        "water": _SUPPLY,
        "energy": _CURRENT,
        OWN: _OWN,
    }
)


def terms_of(item: Item) -> Terms:
    """How a thing may be sold."""
    return _TERMS[item.sort]
