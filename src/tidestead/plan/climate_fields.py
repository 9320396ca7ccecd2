"""Kinds of value that weather, building, heat and light hold: bearings, layers, spells of months, readings of light."""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from typing import Annotated, Any, TypeAlias

from pydantic import Field, Strict, StringConstraints

from tidestead.catalog.rows import nearest, row_names
from tidestead.core.errors import QuantityError
from tidestead.core.units import Gallon, parse, parse_band
from tidestead.plan.fields import MOST_ITEMS, Named, Typed

COMPASS = {
    "north": 0.0, "north-east": 45.0, "east": 90.0, "south-east": 135.0, "south": 180.0, "south-west": 225.0,
    "west": 270.0, "north-west": 315.0,
}  # fmt: skip
_MONTHS = (
    "january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november",
    "december",
)  # fmt: skip
_YEARS = re.compile(r"^(?P<first>[0-9]{4})(?: to (?P<last>[0-9]{4}))?$")
_A_DAY = 86400.0
_THICKEST = 3.0
"""Metres of one layer: more is a slip of the unit."""
_DEGREE = math.pi / 180.0


@dataclass(frozen=True)
class Layer:
    """One layer of a wall: so thick of a material of the catalogue, or a resistance alone (m2 K/W), no material."""

    material: str
    thickness: float
    resistance: float | None = None


@dataclass(frozen=True)
class LightAt:
    """A reading of light, umol/(m2 s), at a depth under water in metres."""

    light: float
    depth: float


def read_bearing(text: str, _gallon: Gallon) -> float:
    """ "south-east" or "150 deg", in radians from north through east. Raises QuantityError."""
    word = text.strip().lower().replace(" ", "-")
    if word in COMPASS:
        return COMPASS[word] * _DEGREE
    try:
        angle = parse(text, "angle")
    except QuantityError as error:
        advice = 'Write a direction such as "south-east", or degrees from north through east: "150 deg".'
        raise QuantityError(error.given, error.allowed, advice) from error
    if not 0.0 <= angle <= 2.0 * 180.0 * _DEGREE:
        raise QuantityError(f'"{text[:40]}"', "must be from 0 to 360 degrees.", 'Write it like "150 deg".')
    return angle


def read_layer(text: str, gallon: Gallon) -> Layer:
    """ "100 mm mineral-wool", or "resistance 2.5 m2 K/W". Raises QuantityError."""
    words = text.strip()
    if words.startswith("resistance "):
        value = parse(words.removeprefix("resistance ").strip(), "thermal_resistance", gallon)
        if value <= 0.0:
            raise QuantityError(
                f'"{text[:40]}"', "must be more than nothing.", 'Write "resistance 2.5 m2 K/W".'
            )
        return Layer("", 0.0, value)
    size, _, material = words.rpartition(" ")
    known = row_names("layers")
    if material not in known:
        close = nearest(material, known)
        advice = f'Did you mean "{size} {close[0]}"?' if close else f"Known: {', '.join(known)}."
        raise QuantityError(f'"{text[:40]}"', "is not a thickness and a material of the catalogue.", advice)
    if not size:
        raise QuantityError(
            f'"{text[:40]}"', "does not say how thick.", f'Write it like "100 mm {material}".'
        )
    thickness = parse(size, "length", gallon)
    if not 0.0 < thickness <= _THICKEST:
        allowed = f"must be thicker than nothing and no more than {_THICKEST:g} m."
        raise QuantityError(f'"{text[:40]}"', allowed, f'Write "100 mm {material}".')
    return Layer(material, thickness)


def read_light(text: str, gallon: Gallon) -> LightAt:
    """ "310 umol/m2/s at 0.2 m". Raises QuantityError."""
    light, mark, depth = text.partition(" at ")
    if not mark:
        raise QuantityError(f'"{text[:40]}"', "is not a light at a depth.", 'Write "310 umol/m2/s at 0.2 m".')
    found = LightAt(parse(light.strip(), "light", gallon), parse(depth.strip(), "length", gallon))
    if found.light <= 0.0 or found.depth < 0.0:
        raise QuantityError(f'"{text[:40]}"', "must be more than nothing.", 'Write "310 umol/m2/s at 0.2 m".')
    return found


def read_months(text: str, _gallon: Gallon) -> tuple[int, ...]:
    """ "Oct to Apr" or "May" or "all year": numbers of months from 0. Raises QuantityError."""
    words = text.strip().lower()
    if words in ("all year", "always"):
        return tuple(range(12))
    ends = [_month(part.strip()) for part in words.split(" to ")]
    if len(ends) > 2 or None in ends:
        raise QuantityError(f'"{text[:40]}"', "is not a span of months.", 'Write "Oct to Apr" or "all year".')
    first, last = ends[0] or 0, ends[-1] or 0
    return tuple((first + step) % 12 for step in range((last - first) % 12 + 1))


def _month(word: str) -> int | None:
    """The number of a month by its name, or by three or more of its first letters."""
    found = [number for number, name in enumerate(_MONTHS) if len(word) >= 3 and name.startswith(word)]
    return found[0] if found else None


def read_years(text: str, _gallon: Gallon) -> tuple[int, int]:
    """ "2005 to 2023". Raises QuantityError."""
    found = _YEARS.match(text.strip())
    if found is None:
        raise QuantityError(f'"{text[:40]}"', "is not a span of years.", 'Write "2005 to 2023".')
    first, last = int(found["first"]), int(found["last"] or found["first"])
    if last < first or last - first > 60:
        raise QuantityError(f'"{text[:40]}"', "must rise, and by 60 at most.", 'Write "2005 to 2023".')
    return first, last


def _typed(dimension: str, reader: Any, *examples: str) -> Typed:
    return Typed(dimension, read=reader, examples=examples)


def _band(dimension: str) -> Any:
    return lambda text, gallon: parse_band(text, dimension, gallon)


_TWELVE = Field(min_length=12, max_length=12)

Bearing: TypeAlias = Annotated[float, _typed("angle", read_bearing, "south-east", "150 deg")]
LayerItem: TypeAlias = Annotated[
    Layer, _typed("length", read_layer, "100 mm mineral-wool", "3 1/2 in mineral-wool")
]
Layers: TypeAlias = Annotated[tuple[LayerItem, ...], Strict(False), Field(max_length=12)]
Months: TypeAlias = Annotated[tuple[int, ...], _typed("time", read_months, "Oct to Apr", "all year")]
Passing: TypeAlias = Annotated[float, Typed("ratio", least=0.01, most=1.0, examples=("76 %",))]
"""Share of light that clear sheet lets through: what lets none through is a wall."""
HeaterCount: TypeAlias = Annotated[int, Typed("count", least=1, most=100)]
YearCount: TypeAlias = Annotated[int, Typed("count", least=1, most=1000)]
SpellLength: TypeAlias = Annotated[
    float, Typed("time", least=_A_DAY, most=30.0 * _A_DAY, examples=("5 days",))
]
"""Days on end; of longer ones the months tell."""
HeatPower: TypeAlias = Annotated[float, Typed("power", above=0.0, most=1.0e5, examples=("750 W",))]
"""What a heater gives or a chiller takes."""
Years: TypeAlias = Annotated[tuple[int, int], _typed("time", read_years, "2005 to 2023")]
LightReading: TypeAlias = Annotated[LightAt, _typed("light", read_light, "310 umol/m2/s at 0.2 m")]
LightReadings: TypeAlias = Annotated[tuple[LightReading, ...], Strict(False), Field(max_length=MOST_ITEMS)]
AirChange: TypeAlias = Annotated[float, Typed("frequency", least=0.0, examples=("0.75 1/h",))]
Difference: TypeAlias = Annotated[
    float, Typed("temperature_difference", above=0.0, examples=("0.4 K", "0.7 degF"))
]
Conductance: TypeAlias = Annotated[float, Typed("thermal_transmittance", above=0.0)]
Power: TypeAlias = Annotated[float, Typed("power", above=0.0, examples=("750 W",))]
Speed: TypeAlias = Annotated[float, Typed("velocity", above=0.0, most=20.0, examples=("1 m/s", "200 ft/min"))]
Area: TypeAlias = Annotated[float, Typed("area", above=0.0, examples=("1.2 m2", "13 ft2"))]
Attenuation: TypeAlias = Annotated[float, Typed("attenuation", above=0.0, most=20.0, examples=("0.2 1/m",))]
Efficacy: TypeAlias = Annotated[float, Typed("efficacy", above=0.0, most=8.0, examples=("2.2 umol/J",))]
Irradiance: TypeAlias = Annotated[float, Typed("irradiance", above=0.0, examples=("600 W/m2",))]
DailyLight: TypeAlias = Annotated[
    tuple[float, float],
    Typed(
        "daily_light",
        least=0.0,
        most=200.0,
        read=lambda text, gallon: parse_band(text, "daily_light", gallon),
        examples=("4 to 8 mol/m2/day",),
    ),
]
DepthBand: TypeAlias = Annotated[
    tuple[float, float],
    Typed(
        "length",
        least=0.0,
        most=20.0,
        read=lambda text, gallon: parse_band(text, "length", gallon),
        examples=("0.5 to 0.9 m", "20 to 36 in"),
    ),
]
_MonthTemperature: TypeAlias = Annotated[
    float, Typed("temperature", least=-60.0, most=60.0, examples=("4 degC", "39 degF"))
]
_MonthSwing: TypeAlias = Annotated[
    float, Typed("temperature_difference", above=0.0, examples=("6 K", "11 degF"))
]
_MonthSun: TypeAlias = Annotated[
    float, Typed("daily_irradiation", least=0.0, most=600.0, examples=("2.1 kWh/m2/day",))
]
_MonthHumidity: TypeAlias = Annotated[float, Typed("humidity", above=0.0, most=1.0, examples=("80 %",))]
_MonthWind: TypeAlias = Annotated[
    float, Typed("velocity", least=0.0, most=60.0, examples=("5 m/s", "11 mph"))
]
TwelveTemperatures: TypeAlias = Annotated[tuple[_MonthTemperature, ...], Strict(False), _TWELVE]
TwelveSwings: TypeAlias = Annotated[tuple[_MonthSwing, ...], Strict(False), _TWELVE]
TwelveSuns: TypeAlias = Annotated[tuple[_MonthSun, ...], Strict(False), _TWELVE]
TwelveShares: TypeAlias = Annotated[tuple[_MonthHumidity, ...], Strict(False), _TWELVE]
TwelveSpeeds: TypeAlias = Annotated[tuple[_MonthWind, ...], Strict(False), _TWELVE]
FileName: TypeAlias = Annotated[
    str, StringConstraints(pattern=r"^[^/\\:*?\"<>|\x00-\x1f]{1,120}$", max_length=120)
]
"""A file that lies beside the plan: a name, no folders and no address."""
GlazingName: TypeAlias = Annotated[str, Named("glazings")]
CoralKind: TypeAlias = Annotated[str, Named("corals")]
