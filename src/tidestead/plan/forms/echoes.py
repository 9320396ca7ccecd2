"""What was typed, read back in both unit systems as it was understood."""

from __future__ import annotations

import math
from datetime import date
from functools import singledispatch
from typing import Any

from tidestead.catalog.rows import table
from tidestead.core.errors import QuantityError
from tidestead.core.units import (
    DIMENSIONS,
    Gallon,
    Price,
    SalinityReading,
    Section,
    echo,
    parse,
    show,
)
from tidestead.plan.book_fields import Day, read_day
from tidestead.plan.climate_fields import Layer, LightAt, read_bearing, read_months, read_years
from tidestead.plan.electric_fields import read_conductor
from tidestead.plan.fields import Typed
from tidestead.plan.flow_fields import CurvePoint, RouteItem
from tidestead.plan.forms.bought import told_item, told_sold, told_stock
from tidestead.plan.items import Item
from tidestead.plan.outline import Spot
from tidestead.plan.price_fields import PriceOf, PriceRange
from tidestead.plan.selling import Sold, Stock
from tidestead.plan.water_fields import FilmLook, OnCircuit, PHReading, read_clock

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)  # fmt: skip
_HOUR, _DAY = 3600.0, 86400.0
_PER_KWH_DAY = 3.6e6 / _DAY
"""Watts that make one kWh in a day."""
_STYLES = {"air_flow": "air", "film": "film"}
"""How echoes of a dimension are shown, where it is not plainly."""


def reading_back(spot: Spot, typed: str, gallon: Gallon) -> str:
    """A typed value in both systems, or in plain words; empty where it cannot be read or says all itself."""
    try:
        value = _read(spot, typed, gallon)
    except QuantityError:
        return ""
    return "" if value is None else told(spot, value)


def told(spot: Spot, value: Any) -> str:
    """A value as read, in words."""
    kind = spot.typed
    if not isinstance(kind, Typed):
        return _plainly(value, "")
    if kind.read is read_months:
        return _months(value)
    if kind.read is read_years:
        first, last = value
        return f"{last - first + 1} years" if last > first else "1 year"
    if kind.read is read_clock:
        return _clock(value)
    if kind.read is read_bearing:
        return f"{math.degrees(value):g}° from north through east"
    if kind.dimension in ("ratio", "humidity") and isinstance(value, float):
        return _percent(value) if kind.most == 1.0 else f"{value:g}"
    return _in_its_unit(kind, value) or _plainly(value, kind.dimension)


def _in_its_unit(kind: Typed, value: Any) -> str:
    """What is told in a unit of its own in both systems; nothing of all else."""
    if kind.read is read_conductor:
        return f"{show(value, 'm2', 'metric')} of copper"
    if kind.dimension == "flow" and all("/day" in one for one in kind.examples or ("",)):
        return echo(value, "m3/s", "day")
    return ""


def _read(spot: Spot, typed: str, gallon: Gallon) -> Any:
    """The value of a text, None where only a word was wanted. Raises QuantityError."""
    kind = spot.typed
    if isinstance(kind, Typed):
        return kind.read(typed, gallon) if kind.read else parse(typed, kind.dimension, gallon)
    for item in spot.metadata:
        if isinstance(item, PriceOf):
            return item.read(typed, gallon)
        if isinstance(item, Day):
            return read_day(typed)
    return None


def _months(numbers: tuple[int, ...]) -> str:
    if len(numbers) == len(MONTHS):
        return "all year"
    first, last = MONTHS[numbers[0]], MONTHS[numbers[-1]]
    return f"{first} to {last}, {len(numbers)} months" if len(numbers) > 1 else first


def _clock(hours: float) -> str:
    """ "19:30 = 7:30 pm"."""
    hour, minute = divmod(round(60.0 * hours), 60)
    return f"{hour:02d}:{minute:02d} = {hour % 12 or 12}:{minute:02d} {'am' if hour < 12 else 'pm'}"


def _percent(value: float) -> str:
    return f"{100.0 * value:.4g} %"


@singledispatch
def _plainly(_value: Any, _dimension: str) -> str:
    """A value of a sort that is not known here has no words."""
    return ""


@_plainly.register(bool)
def _yes_or_no(value: bool, _dimension: str) -> str:
    return "yes" if value else "no"


@_plainly.register(str)
def _word(value: str, _dimension: str) -> str:
    return value


@_plainly.register(int)
@_plainly.register(float)
def _number(value: float, dimension: str) -> str:
    if dimension == "frequency":
        return f"{value * _HOUR:g} an hour"
    if dimension == "daily_irradiation":
        return f"{value / _PER_KWH_DAY:.3g} kWh/m² a day"
    if dimension == "concentration":
        return _concentration(value)
    if dimension in ("count", ""):
        return f"{value:g}"
    return echo(value, DIMENSIONS[dimension].si, _STYLES.get(dimension, ""))


def _concentration(value: float) -> str:
    """As tests and bottles print it, in both systems: never weight by the cubic metre or foot."""
    return show(value, "g/L", "metric") if value >= _A_STOCK else show(1000.0 * value, "mg/L", "metric")


_A_STOCK = 10.0
"""Kilograms in a cubic metre from which it is a stock solution. Own choice."""


@_plainly.register(tuple)
def _band(value: tuple[float, ...], dimension: str) -> str:
    low, high = value
    if dimension in ("ratio", "humidity"):
        return f"{_percent(low)} to {_percent(high)}"
    unit = DIMENSIONS[dimension].si
    metric, us = (f"{show(low, unit, way)} to {show(high, unit, way)}" for way in ("metric", "us"))
    return metric if metric == us else f"{metric} ≈ {us}"


@_plainly.register(Section)
def _section(value: Section, _dimension: str) -> str:
    count = f"{value.pieces} of " if value.pieces > 1 else ""
    sides = (value.breadth, value.depth)
    metric, us = (" by ".join(show(side, "m", way, "lumber") for side in sides) for way in ("metric", "us"))
    return f"{count}{metric} ≈ {us}"


@_plainly.register(SalinityReading)
def _salinity(value: SalinityReading, _dimension: str) -> str:
    """Practical salinity first, which all is counted in; then what it was made of."""
    if value.kind == "psu":
        return f"{value.value:g}, practical salinity"
    psu, taken = value.meant
    return f"{psu:.2f}, practical salinity: {value.understood}{taken and ', ' + taken}"


@_plainly.register(CurvePoint)
def _point(value: CurvePoint, _dimension: str) -> str:
    return f"{echo(value.flow, 'm3/s')}, at a head of {echo(value.head, 'm')}"


@_plainly.register(RouteItem)
def _item(value: RouteItem, _dimension: str) -> str:
    if value.kind == "pipe":
        return f"{table('pipes')[value.name].title}, {echo(value.length, 'm')}"
    if value.kind == "riser":
        return f"lip of an open pipe, {echo(value.level, 'm')} above the datum"
    if value.kind == "fitting":
        return f"{table('fittings')[value.name].title}, {value.count} of them"
    return f"{value.kind} {value.name} of this plan"


@_plainly.register(Layer)
def _layer(value: Layer, _dimension: str) -> str:
    if value.resistance is not None:
        return echo(value.resistance, "m2 K/W")
    return f"{table('layers')[value.material].title}, {echo(value.thickness, 'm')}"


@_plainly.register(LightAt)
def _light(value: LightAt, _dimension: str) -> str:
    return f"{echo(value.light, 'umol/(m2 s)')}, {echo(value.depth, 'm')} under the surface"


@_plainly.register(Price)
def _price(value: Price, _dimension: str) -> str:
    return f"{value.amount} {value.currency}{_for_one(value.per)}"


@_plainly.register(PriceRange)
def _prices(value: PriceRange, _dimension: str) -> str:
    if value.single:
        return f"{value.likely} {value.currency}{_for_one(value.per)}"
    ends = f"{value.low} to {value.high}"
    return f"{value.likely} {value.currency}, {ends} {value.currency}{_for_one(value.per)}"


def _for_one(per: str) -> str:
    return f" for one {per}" if per else ""


_plainly.register(Item)(told_item)
_plainly.register(Sold)(told_sold)
_plainly.register(Stock)(told_stock)


@_plainly.register(date)
def _day(value: date, _dimension: str) -> str:
    return f"{value.day} {MONTHS[value.month - 1]} {value.year}"


_SCALES = {"nbs": "NBS", "total": "total", "free": "free", "seawater": "seawater"}
_SEEN = {"clean": "clean", "some": "some set patches", "many": "many set patches"}


@_plainly.register(PHReading)
def _ph(value: PHReading, _dimension: str) -> str:
    return f"pH {value.value:g} on the {_SCALES[value.scale]} scale"


@_plainly.register(OnCircuit)
def _on_circuit(value: OnCircuit, _dimension: str) -> str:
    return f"{value.kind} {value.name} of this plan"


@_plainly.register(FilmLook)
def _film(value: FilmLook, _dimension: str) -> str:
    return f"{_SEEN[value.word]}, {echo(value.after, 's')} after it was wiped"
