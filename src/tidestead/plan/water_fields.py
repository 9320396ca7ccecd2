"""Kinds of value that water, stock and care hold: a pH with its scale, an hour of the day, apparatus on a circuit."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Annotated, Any, Literal, TypeAlias

from pydantic import Field, Strict

from tidestead.core.errors import QuantityError
from tidestead.core.units import Gallon, parse
from tidestead.plan.fields import MOST_ITEMS, Named, Typed
from tidestead.plan.price_fields import PriceOf

PHScaleName: TypeAlias = Literal["nbs", "total", "free", "seawater"]

PH_SCALES: dict[str, PHScaleName] = {
    "nbs": "nbs", "nist": "nbs", "total": "total", "free": "free", "seawater": "seawater", "sws": "seawater",
}  # fmt: skip
"""Words that name a scale of pH. NBS and NIST are the buffers that meters are set with."""

PH_ADVICE = 'Write "8.2 NBS" where a meter was set with bought buffers of 4, 7 and 10; else "8.1 total".'
_PH = re.compile(
    r"^(?:pH ?)?(?P<value>[0-9]{1,2}(?:[.,][0-9]{1,3})?)(?: (?P<scale>[A-Za-z]+)(?: scale)?)?$", re.I
)
_ACID, _BASIC = 6.0, 9.5
"""A pH outside these is no seawater with animals in it: a slip. Own choice."""
_CLOCK = re.compile(r"^(?P<hour>[0-9]{1,2})[:.](?P<minute>[0-9]{2})$")
_ON = re.compile(r"^(?P<kind>[a-z-]+) (?P<name>[a-z0-9_-]{1,40})$")
_A_DAY = 86400.0
_LARGEST_WEIGHT = 5000.0
"""Kilograms of fish: more is a slip of the unit."""

ApparatusKind: TypeAlias = Literal["pump", "heater", "chiller", "lamp", "fan", "air", "device"]
ON_TABLES: dict[ApparatusKind, str] = {
    "pump": "pumps", "heater": "heaters", "chiller": "chillers", "lamp": "lamps", "fan": "fans", "air": "airpumps",
    "device": "devices",
}  # fmt: skip
"""Where a plan describes what draws power."""
ON_KINDS: tuple[ApparatusKind, ...] = tuple(ON_TABLES)


@dataclass(frozen=True)
class PHReading:
    """A pH and the scale that it is counted on."""

    value: float
    scale: PHScaleName


@dataclass(frozen=True)
class OnCircuit:
    """One thing that hangs on an electric circuit: its kind and its name in the plan."""

    kind: ApparatusKind
    name: str


def read_ph(text: str, _gallon: Gallon) -> PHReading:
    """ "8.2 NBS" or "8.1 total". Raises QuantityError: a pH without its scale says too little."""
    found = _PH.match(text.strip())
    if found is None:
        raise QuantityError(f'"{text[:40]}"', "is not a pH with its scale.", PH_ADVICE)
    value = float(found["value"].replace(",", "."))
    if found["scale"] is None:
        allowed = "does not say on which scale: NBS reads about 0.14 above total in seawater, a third of the ammonia."
        raise QuantityError(f'"{text[:40]}"', allowed, PH_ADVICE)
    scale = PH_SCALES.get(found["scale"].lower())
    if scale is None:
        allowed = f'names a scale "{found["scale"][:20]}" that is not known here.'
        raise QuantityError(f'"{text[:40]}"', allowed, "Scales: NBS, total, free, seawater. " + PH_ADVICE)
    if not _ACID <= value <= _BASIC:
        allowed = f"must be from {_ACID:g} to {_BASIC:g}: nothing else lives in seawater."
        raise QuantityError(f'"{text[:40]}"', allowed, PH_ADVICE)
    return PHReading(value, scale)


def read_clock(text: str, _gallon: Gallon) -> float:
    """ "08:30", in hours after midnight. Raises QuantityError."""
    found = _CLOCK.match(text.strip())
    if found is None or int(found["hour"]) > 23 or int(found["minute"]) > 59:
        raise QuantityError(f'"{text[:40]}"', "is not a time of the day.", 'Write "08:30" or "19:00".')
    return int(found["hour"]) + int(found["minute"]) / 60.0


def read_on_circuit(text: str, _gallon: Gallon) -> OnCircuit:
    """ "pump return" or "device router". Raises QuantityError."""
    found = _ON.match(text.strip())
    kind = next((one for one in ON_KINDS if found is not None and found["kind"] == one), None)
    if found is None or kind is None:
        named = ", ".join(f'"{one} NAME"' for one in ON_KINDS)
        advice = f"Write one of {named}."
        raise QuantityError(f'"{text[:40]}"', "is not a thing of the plan that draws power.", advice)
    return OnCircuit(kind, found["name"])


Seen: TypeAlias = Literal["clean", "some", "many"]
_FILM_WORDS: tuple[Seen, ...] = ("clean", "some", "many")
_FILM = re.compile(r"^(?P<word>[a-z]+) after (?P<days>.+)$")


@dataclass(frozen=True)
class FilmLook:
    """What a window looked like so long after it was cleaned: clean, some set patches, many. `after` in seconds."""

    word: Seen
    after: float


def read_film(text: str, gallon: Gallon) -> FilmLook:
    """ "some after 4 days". Raises QuantityError."""
    found = _FILM.match(text.strip().lower())
    word = next((one for one in _FILM_WORDS if found is not None and found["word"] == one), None)
    if found is None or word is None:
        advice = 'Write "clean after 2 days", "some after 4 days" or "many after 8 days".'
        raise QuantityError(f'"{text[:40]}"', "is not what a window looked like after so long.", advice)
    after = parse(found["days"], "time", gallon)
    if not 0.0 < after <= 400.0 * _A_DAY:
        raise QuantityError(f'"{text[:40]}"', "must be from an hour to a year.", 'Write "some after 4 days".')
    return FilmLook(word, after)


def _typed(dimension: str, reader: Any, *examples: str) -> Typed:
    return Typed(dimension, read=reader, examples=examples)


PH: TypeAlias = Annotated[PHReading, _typed("ratio", read_ph, "8.2 NBS", "8.1 total")]
Clock: TypeAlias = Annotated[
    float, Typed("time", read=read_clock, examples=("08:00", "19:30"), lettered=False)
]
Clocks: TypeAlias = Annotated[tuple[Clock, ...], Strict(False), Field(max_length=24)]
OnCircuitItem: TypeAlias = Annotated[
    OnCircuit, _typed("ratio", read_on_circuit, "pump return", "heater sump", "device router")
]
OnCircuitItems: TypeAlias = Annotated[tuple[OnCircuitItem, ...], Strict(False), Field(max_length=MOST_ITEMS)]
FilmReading: TypeAlias = Annotated[
    FilmLook, _typed("time", read_film, "clean after 2 days", "some after 4 days", "many after 8 days")
]
FilmReadings: TypeAlias = Annotated[tuple[FilmReading, ...], Strict(False), Field(max_length=MOST_ITEMS)]

Alkalinity: TypeAlias = Annotated[
    float, Typed("alkalinity", above=0.0, most=20.0, examples=("2.9 meq/L", "8 dKH"))
]
AlkalinityRate: TypeAlias = Annotated[
    float, Typed("alkalinity", least=0.0, most=5.0, examples=("0.1 meq/L", "0.3 dKH"))
]
"""Of one day."""
Calcium: TypeAlias = Annotated[float, Typed("concentration", above=0.0, most=2.0, examples=("420 mg/L",))]
CalciumRate: TypeAlias = Annotated[
    float, Typed("concentration", least=0.0, most=0.1, examples=("1 mg/L", "2.5 mg/L"))
]
"""Of one day."""
Magnesium: TypeAlias = Annotated[float, Typed("concentration", above=0.0, most=5.0, examples=("1300 mg/L",))]
Nutrient: TypeAlias = Annotated[float, Typed("concentration", least=0.0, most=1.0, examples=("5 mg/L",))]
Chlorine: TypeAlias = Annotated[float, Typed("concentration", least=0.0, most=0.01, examples=("0.5 mg/L",))]
Thiosulfate: TypeAlias = Annotated[
    float, Typed("concentration", least=0.0, most=0.1, examples=("2 mg/L", "4 g/m3"))
]
"""Crystals with five of water, in a litre of what they are stirred into."""
OxygenLevel: TypeAlias = Annotated[float, Typed("concentration", above=0.0, most=0.02, examples=("5 mg/L",))]
AmmoniaLevel: TypeAlias = Annotated[
    float, Typed("concentration", above=0.0, most=0.01, examples=("0.035 mg/L",))
]
"""Of un-ionised ammonia, NH3."""
FeedRate: TypeAlias = Annotated[
    float, Typed("mass_rate", least=0.0, most=20.0 / _A_DAY, examples=("60 g/day", "2 oz/day"))
]
OxygenUptake: TypeAlias = Annotated[float, Typed("mass_rate", above=0.0, most=1.0e-3, examples=("6 g/h",))]
FishMass: TypeAlias = Annotated[
    float, Typed("mass", above=0.0, most=_LARGEST_WEIGHT, examples=("1.5 kg", "3 lb"))
]
MediaMass: TypeAlias = Annotated[
    float, Typed("mass", above=0.0, most=_LARGEST_WEIGHT, examples=("1.5 kg", "3 lb"))
]
"""Of a granulate as it is bought, or of algae as they are taken out, drained."""
SaltFactor: TypeAlias = Annotated[float, Typed("ratio", least=0.8, most=2.0, examples=("1.08",))]
DailyVolume: TypeAlias = Annotated[
    float, Typed("flow", least=0.0, most=1.0, examples=("3 L/day", "0.8 US gal/day"))
]
SourceFlow: TypeAlias = Annotated[float, Typed("flow", above=0.0, examples=("60 L/h", "15 US gal/h"))]
TankVolume: TypeAlias = Annotated[
    float, Typed("volume", above=0.0, most=1000.0, examples=("400 L", "100 US gal"))
]
VatVolume: TypeAlias = Annotated[
    float, Typed("volume", least=0.01, most=1000.0, examples=("400 L", "100 US gal"))
]
"""From a bucket of 10 L on: with less a change would take hundreds of loads. Own choice."""
SmallVolume: TypeAlias = Annotated[
    float, Typed("volume", above=0.0, most=2.0, examples=("5 L", "1.3 US gal"))
]
Strength: TypeAlias = Annotated[float, Typed("concentration", above=0.0, most=1500.0, examples=("80 g/L",))]
"""Of a stock solution: reagent in a litre of it."""
MediaSurface: TypeAlias = Annotated[
    float, Typed("area", above=0.0, most=1.0e5, examples=("40 m2", "430 ft2"))
]
DailyShare: TypeAlias = Annotated[float, Typed("frequency", least=0.0, most=1.0e-4, examples=("0.01 1/day",))]
"""Share of what there is that goes in a day."""
ChangeShare: TypeAlias = Annotated[float, Typed("ratio", above=0.0, most=1.0, examples=("10 %",))]
SaltPrice: TypeAlias = Annotated[Any, PriceOf("kg")]
WaterPrice: TypeAlias = Annotated[Any, PriceOf("m3")]
ReagentName: TypeAlias = Annotated[str, Named("reagents")]
FilmLimit: TypeAlias = Annotated[float, Typed("ratio", above=0.0, most=1.0, examples=("15 %",))]
Reach: TypeAlias = Annotated[
    float, Typed("time", least=0.0, most=60.0 * _A_DAY, examples=("20 min", "5 days"))
]
Deviation: TypeAlias = Annotated[
    float, Typed("practical_salinity", above=0.0, most=20.0, examples=("1.5 psu",))
]
