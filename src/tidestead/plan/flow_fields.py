"""Kinds of value that circuits hold: points of a curve, what a line passes, names of ports, a tariff."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Annotated, Any, Literal, TypeAlias

from pydantic import Field, Strict, StringConstraints

from tidestead.catalog.rows import nearest, row_names
from tidestead.core.dims import G
from tidestead.core.errors import QuantityError
from tidestead.core.units import Gallon, Price, parse
from tidestead.plan.fields import MOST_ITEMS, Named, Typed
from tidestead.plan.price_fields import PriceOf


@dataclass(frozen=True)
class CurvePoint:
    """A head at a flow, SI."""

    flow: float
    head: float


FRESH = 998.0
"""Density of fresh water, kg/m3, by which a pump's pressure is told as a head: that of 20 degC, from memory."""

ItemKind = Literal["pipe", "fitting", "valve", "pump", "apparatus", "riser"]


@dataclass(frozen=True)
class RouteItem:
    """One thing the water passes: a pipe of a length, so many of a fitting, a named part of the plan, or the lip
    of an open riser at a `level` above the datum, over which the water falls into the rest of the line.
    """

    kind: ItemKind
    name: str
    length: float = 0.0
    count: int = 1
    level: float = 0.0


NAMED_KINDS: tuple[ItemKind, ...] = ("valve", "pump", "apparatus")
ITEM_FORMS = '"pipe NAME LENGTH", "FITTING x3", "valve NAME", "pump NAME", "apparatus NAME", "riser LEVEL"'
_COUNTED = re.compile(r"^(?P<name>\S+)(?: x ?(?P<count>[0-9]{1,3}))?$")
_NAME = re.compile(r"^[a-z0-9_-]{1,40}$")
_LONGEST_ITEM = 100
_LONGEST_PIPE = 1000.0
"""Metres in one piece of a route: more is a slip of the unit."""


def read_point(text: str, gallon: Gallon) -> CurvePoint:
    """ "6 m3/h at 6.1 m". Raises QuantityError."""
    flow, mark, head = text.partition(" at ")
    if not mark:
        raise QuantityError(f'"{text[:40]}"', "is not a flow and a head.", 'Write "6 m3/h at 6.1 m".')
    return CurvePoint(parse(flow.strip(), "flow", gallon), _head(flow.strip(), head.strip(), text, gallon))


def _head(flow: str, head: str, text: str, gallon: Gallon) -> float:
    """A head in metres of water; a pressure is refused with the head that it is."""
    try:
        return parse(head, "length", gallon)
    except QuantityError:
        try:
            pressure = parse(head, "pressure", gallon)
        except QuantityError:
            pressure = None
        if pressure is None:
            raise
        told = f"{pressure / (FRESH * G):.3g} m"
        raise QuantityError(
            f'"{text[:40]}"',
            "gives a pressure where a head of water is wanted.",
            f'Write "{flow} at {told}".',
        ) from None


def read_loss(text: str, gallon: Gallon) -> CurvePoint:
    """ "0.4 m at 4 m3/h": the head comes first, as a maker's sheet says it. Raises QuantityError."""
    head, mark, flow = text.partition(" at ")
    if not mark:
        raise QuantityError(f'"{text[:40]}"', "is not a head at a flow.", 'Write "0.4 m at 4 m3/h".')
    point = CurvePoint(parse(flow.strip(), "flow", gallon), parse(head.strip(), "length", gallon))
    if point.flow <= 0.0 or point.head < 0.0:
        raise QuantityError(
            f'"{text[:40]}"', "must be a loss at a flow above nothing.", 'Write "0.4 m at 4 m3/h".'
        )
    return point


def read_item(text: str, gallon: Gallon) -> RouteItem:
    """One item of a route. Raises QuantityError that names the word it stumbled over."""
    words = text.split()
    if not words or len(text) > _LONGEST_ITEM:
        raise QuantityError(f'"{text[:40]}"', "is not something water passes.", f"Write one of {ITEM_FORMS}.")
    first = words[0]
    if first == "pipe":
        return _pipe(text, words, gallon)
    if first == "riser":
        return _riser(text, words, gallon)
    for kind in NAMED_KINDS:
        if first == kind:
            if len(words) != 2 or not _NAME.match(words[1]):
                raise QuantityError(
                    f'"{text[:40]}"', f"needs the name of one {kind}.", f'Write it like "{kind} main".'
                )
            return RouteItem(kind, words[1])
    return _fitting(text)


def _pipe(text: str, words: list[str], gallon: Gallon) -> RouteItem:
    if len(words) < 3:
        raise QuantityError(f'"{text[:40]}"', "needs a size and a length.", 'Write "pipe pvc40-2in 3.2 m".')
    name = words[1]
    known = row_names("pipes")
    if name not in known and _is_length(" ".join(words[1:]), gallon):
        advice = f'Write the size before the length, such as "pipe pvc40-2in {" ".join(words[1:])}".'
        raise QuantityError(
            f'"{text[:40]}"', "says how long a pipe is but not which: its size is missing.", advice
        )
    if name not in known:
        close = [one for one in known if name and one.endswith(f"-{name}")] or nearest(name, known)
        listed = " or ".join(f'"{one}"' for one in close) or f"one of {', '.join(known)}"
        advice = f"Put {listed} in its place." if len(close) != 1 else f"Did you mean {listed}?"
        raise QuantityError(
            f'"{text[:40]}"', f'names a pipe "{name[:40]}" that is not in the catalogue of pipes.', advice
        )
    length = parse(" ".join(words[2:]), "length", gallon)
    if not 0.0 < length <= _LONGEST_PIPE:
        nothing = "has a length of nothing or less; it must be more."
        allowed = nothing if length <= 0.0 else f"is longer than {_LONGEST_PIPE:g} m."
        raise QuantityError(f'"{text[:40]}"', allowed, f'Write it like "pipe {name} 3.2 m".')
    return RouteItem("pipe", name, length=length)


def _is_length(text: str, gallon: Gallon) -> bool:
    try:
        parse(text, "length", gallon)
    except QuantityError:
        return False
    return True


def _riser(text: str, words: list[str], gallon: Gallon) -> RouteItem:
    if len(words) < 2:
        raise QuantityError(f'"{text[:40]}"', "needs the level of its lip.", 'Write "riser 1.42 m".')
    return RouteItem("riser", "riser", level=parse(" ".join(words[1:]), "length", gallon))


def _fitting(text: str) -> RouteItem:
    counted = _COUNTED.match(text.strip())
    words = text.split()
    if counted is None and len(words) == 2 and words[0] in row_names("fittings"):
        allowed = f'says how many in a way not known here: "{words[1][:20]}".'
        raise QuantityError(f'"{text[:40]}"', allowed, f'Write "{words[0]} x3" for three of them.')
    name = counted["name"] if counted is not None else text.split(maxsplit=1)[0]
    known = row_names("fittings")
    if counted is None or name not in known:
        close = nearest(name, (*known, "pipe", "riser", *NAMED_KINDS))
        advice = f'Did you mean "{close[0]}"?' if close else f"Write one of {ITEM_FORMS}."
        raise QuantityError(f'"{text[:40]}"', "is not something water passes.", advice)
    count = int(counted["count"] or 1)
    if count < 1:
        raise QuantityError(f'"{text[:40]}"', "names none of them.", f'Write "{name} x2", or leave it out.')
    return RouteItem("fitting", name, count=count)


def _typed(dimension: str, reader: Any, *examples: str) -> Typed:
    return Typed(dimension, read=reader, examples=examples)


TopOffFlow: TypeAlias = Annotated[float, Typed("flow", above=0.0, examples=("2 L/min", "30 US gal/h"))]
Evaporation: TypeAlias = Annotated[float, Typed("flow", above=0.0, examples=("40 L/day", "10 US gal/day"))]
LampPower: TypeAlias = Annotated[float, Typed("power", above=0.0, examples=("55 W",))]
PumpPower: TypeAlias = Annotated[float, Typed("power", above=0.0, examples=("150 W",))]
ChamberVolume: TypeAlias = Annotated[float, Typed("volume", above=0.0, examples=("14 L", "3.7 US gal"))]
Volume: TypeAlias = Annotated[float, Typed("volume", above=0.0)]
AirFlow: TypeAlias = Annotated[float, Typed("air_flow", above=0.0)]
Point: TypeAlias = Annotated[
    CurvePoint, _typed("flow", read_point, "6 m3/h at 6.1 m", "1600 US gal/h at 20 ft")
]
CurvePoints: TypeAlias = Annotated[tuple[Point, ...], Strict(False), Field(max_length=MOST_ITEMS)]
LossPoint: TypeAlias = Annotated[
    CurvePoint, _typed("flow", read_loss, "0.4 m at 4 m3/h", "1.3 ft at 1000 US gal/h")
]
Item: TypeAlias = Annotated[
    RouteItem, _typed("length", read_item, "pipe pvc40-2in 3.2 m", "elbow-90 x3", "pump return")
]
Items: TypeAlias = Annotated[tuple[Item, ...], Strict(False), Field(max_length=MOST_ITEMS)]
TariffPrice: TypeAlias = Annotated[Price, PriceOf("kWh")]

PipeName: TypeAlias = Annotated[str, Named("pipes")]
BulkheadName: TypeAlias = Annotated[str, Named("bulkheads")]
LampTarget: TypeAlias = Annotated[str, Named("uv_targets")]
ValveKind: TypeAlias = Annotated[str, Named("valves")]
PortName: TypeAlias = Annotated[
    str, StringConstraints(pattern=r"^[a-z0-9_-]+(\.[a-z0-9_-]+)?$", max_length=80)
]
"""A port as vessel.port, or the name of a junction."""
