"""The waters of an aquarium, what lives in them and what moves water between them, as the transient takes them.

A `course` of a part is a share of it for every hour from the run's start on; its last hour holds on when it ends.
Bodies are named by their place in the list, the floor by `FLOOR`.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import inf
from typing import Literal

from tidestead.core.dims import (
    Array,
    Celsius,
    Count,
    CubicMetre,
    CubicMetrePerHour,
    CubicMetrePerSecond,
    Gram,
    GramPerHour,
    GramPerM3,
    JoulePerM3Kelvin,
    MetrePerSecond,
    PerDay,
    PracticalSalinity,
    Ratio,
    SquareMetre,
    Watt,
)
from tidestead.physics import _refuse
from tidestead.physics.transient import _checked

FLOOR: Count = -1
"""Where a burst hose ends."""

SEAWATER_HEAT: JoulePerM3Kelvin = 4.0916e6
"""Of seawater of 35 at 26 degC: 1023.03 kg/m3 times 3999.5 J/(kg K). Source: TEOS-10."""

_Q10: Ratio = 1.75
"""From the slope of resting fish at 26 degC. Source: Clarke and Johnston (1999): exp(5020*10/(294.15*304.15))."""


@dataclass(frozen=True, eq=False)
class Air:
    """What gives oxygen to a body: its free surface, and bubbles (g/h into water without any).

    `exchange` is the speed of transfer at the surface, `surface_course` and `bubble_course` shares of both.
    """

    surface: SquareMetre = 0.0
    exchange: MetrePerSecond = 0.0
    bubbles: GramPerHour = 0.0
    surface_course: Array | None = None
    bubble_course: Array | None = None

    def __post_init__(self) -> None:
        _refuse.negative(surface=self.surface, exchange=self.exchange, bubbles=self.bubbles)
        _refuse.endless(surface=self.surface, exchange=self.exchange, bubbles=self.bubbles)
        _checked.course(surface_course=self.surface_course, bubble_course=self.bubble_course)


@dataclass(frozen=True, eq=False)
class Life:
    """What uses oxygen and gives ammonia.

    `uptake` of animals is that at `reference_c` and goes with `q10`; `fixed` is that of corals, rock and bacteria.
    Both fall with C/(C + half): `half` of 0 means even uptake, below nothing too, which is the bad case.
    `excretion` is total ammonia nitrogen with its course; a course of `fixed` may be below nothing (light).
    """

    uptake: GramPerHour = 0.0
    reference_c: Celsius = 26.0
    q10: Ratio = _Q10
    half: GramPerM3 = 0.0
    fixed: GramPerHour = 0.0
    excretion: GramPerHour = 0.0
    fixed_course: Array | None = None
    excretion_course: Array | None = None

    def __post_init__(self) -> None:
        _refuse.negative(uptake=self.uptake, half=self.half, fixed=self.fixed, excretion=self.excretion)
        _refuse.not_positive(q10=self.q10)
        _refuse.endless(uptake=self.uptake, half=self.half, fixed=self.fixed, excretion=self.excretion)
        _refuse.endless(q10=self.q10, reference=self.reference_c)
        _checked.course(excretion_course=self.excretion_course)
        _checked.numbers(fixed_course=self.fixed_course)


@dataclass(frozen=True, eq=False)
class Nitrifiers:
    """What turns ammonia into nitrate: water cleared in an hour, at most a ceiling (g N/h), with oxygen only.

    It falls with oxygen, C/(C + half); a course tells how it dies or comes.
    """

    clearance: CubicMetrePerHour = 0.0
    ceiling: GramPerHour = inf
    half: GramPerM3 = 0.05
    course: Array | None = None

    def __post_init__(self) -> None:
        _refuse.negative(clearance=self.clearance, ceiling=self.ceiling)
        _refuse.endless(clearance=self.clearance, half=self.half)
        _refuse.not_positive(half=self.half)
        _checked.course(course=self.course)


@dataclass(frozen=True)
class Organic:
    """Nitrogen (g) of what decays, as dead fish or feed: share a day, and oxygen (g) for a gram that decays.

    It stays in its body; without oxygen it decays as well and uses none.
    """

    nitrogen: Gram = 0.0
    decay: PerDay = 0.0
    oxygen: Ratio = 0.0

    def __post_init__(self) -> None:
        _refuse.negative(nitrogen=self.nitrogen, decay=self.decay, oxygen=self.oxygen)
        _refuse.endless(nitrogen=self.nitrogen, decay=self.decay, oxygen=self.oxygen)


@dataclass(frozen=True, eq=False)
class Body:
    """A well mixed body of water at the start; above `brim` it spills to the floor.

    `ph` (NBS scale) only tells how much ammonia is un-ionised. A thousandth of the brim's volume never leaves.
    """

    volume: CubicMetre
    area: SquareMetre
    brim: CubicMetre
    temp_c: Celsius
    sal_psu: PracticalSalinity
    oxygen: GramPerM3
    tan: GramPerM3 = 0.0
    ph: Ratio = 8.2
    organic: Organic = Organic()
    air: Air = Air()
    life: Life = Life()
    nitrifiers: Nitrifiers = Nitrifiers()

    def __post_init__(self) -> None:
        _refuse.not_positive(volume=self.volume, area=self.area, brim=self.brim)
        _refuse.negative(salinity=self.sal_psu, ammonia=self.tan)
        _refuse.endless(volume=self.volume, area=self.area, brim=self.brim, temperature=self.temp_c)
        _refuse.endless(salinity=self.sal_psu, oxygen=self.oxygen, ammonia=self.tan, ph=self.ph)
        _checked.filled(self.volume, self.brim)


@dataclass(frozen=True, eq=False)
class Pump:
    """Water from a body to another or to the floor; it starves when its source is down to `intake`."""

    source: Count
    target: Count
    flow: CubicMetrePerSecond
    intake: CubicMetre = 0.0
    course: Array | None = None

    def __post_init__(self) -> None:
        _refuse.negative(flow=self.flow, intake=self.intake)
        _refuse.endless(flow=self.flow, intake=self.intake)
        _checked.course(course=self.course)


@dataclass(frozen=True, eq=False)
class Overflow:
    """Water above a crest falls to another body, at most `capacity`; its own body then stays at the crest."""

    source: Count
    target: Count
    crest: CubicMetre
    capacity: CubicMetrePerSecond = inf
    course: Array | None = None

    def __post_init__(self) -> None:
        _refuse.negative(crest=self.crest, capacity=self.capacity)
        _refuse.endless(crest=self.crest)
        _checked.course(course=self.course)


@dataclass(frozen=True)
class Leak:
    """Water to the floor down to a volume: an even flow, or else through a hole by its head.

    Of a hole `hole` is area times coefficient of discharge; its head is (V - low)/area of the body.
    """

    body: Count
    low: CubicMetre
    flow: CubicMetrePerSecond = 0.0
    hole: SquareMetre = 0.0

    def __post_init__(self) -> None:
        _refuse.negative(low=self.low, flow=self.flow, hole=self.hole)
        _refuse.endless(low=self.low, flow=self.flow, hole=self.hole)
        _checked.one_way(self.flow, self.hole)


@dataclass(frozen=True)
class TopOff:
    """A float that holds a body's volume with at most a flow from a stock; a stock without end is the mains."""

    body: Count
    holds: CubicMetre
    flow: CubicMetrePerSecond
    stock: CubicMetre = inf
    temp_c: Celsius = 20.0
    sal_psu: PracticalSalinity = 0.0
    oxygen: GramPerM3 = 0.0
    mode: Literal["hold", "open", "shut"] = "hold"

    def __post_init__(self) -> None:
        _refuse.negative(holds=self.holds, flow=self.flow, stock=self.stock, salinity=self.sal_psu)
        _refuse.negative(oxygen=self.oxygen)
        _refuse.endless(holds=self.holds, flow=self.flow, temperature=self.temp_c, oxygen=self.oxygen)
        _checked.one_of(self.mode, ("hold", "open", "shut"))


@dataclass(frozen=True, eq=False)
class Inflow:
    """Water from outside, come what may."""

    body: Count
    flow: CubicMetrePerSecond
    temp_c: Celsius
    sal_psu: PracticalSalinity = 0.0
    oxygen: GramPerM3 = 0.0
    course: Array | None = None

    def __post_init__(self) -> None:
        _refuse.negative(flow=self.flow, salinity=self.sal_psu, oxygen=self.oxygen)
        _refuse.endless(flow=self.flow, temperature=self.temp_c, salinity=self.sal_psu, oxygen=self.oxygen)
        _checked.course(course=self.course)


@dataclass(frozen=True, eq=False)
class Heater:
    """A heater (or chiller) in a body, in proportion within its band: half its power at the setpoint.

    All of its power from half a band on the wrong side, none from half a band on the right one.
    """

    body: Count
    power: Watt
    setpoint_c: Celsius
    band: Celsius = 0.5
    mode: Literal["auto", "off", "on"] = "auto"
    cools: bool = False
    course: Array | None = None

    def __post_init__(self) -> None:
        _refuse.negative(power=self.power)
        _refuse.not_positive(band=self.band)
        _refuse.endless(power=self.power, setpoint=self.setpoint_c, band=self.band)
        _checked.one_of(self.mode, ("auto", "off", "on"))
        _checked.course(course=self.course)


@dataclass(frozen=True, eq=False)
class Forcing:
    """The surroundings, (bodies, hours): watts = gain - loss*T, evaporation kg/s = even + warm*(T - reference_c).

    Evaporation is never below nothing; its latent heat stands in gain and loss. The last day goes on when they end.
    """

    gain: Array
    loss: Array
    even: Array
    warm: Array
    reference_c: Celsius = 26.0

    def __post_init__(self) -> None:
        _checked.alike(gain=self.gain, loss=self.loss, even=self.even, warm=self.warm)
        _refuse.endless(reference=self.reference_c)
        _refuse.negative(loss=self.loss)  # type: ignore[arg-type]  # an array is meant


@dataclass(frozen=True, eq=False)
class System:
    """All of it. `air_share` is the oxygen that the air gives, of that at one atmosphere (`oxygen.air_share`)."""

    bodies: tuple[Body, ...]
    pumps: tuple[Pump, ...] = ()
    overflows: tuple[Overflow, ...] = ()
    leaks: tuple[Leak, ...] = ()
    top_offs: tuple[TopOff, ...] = ()
    inflows: tuple[Inflow, ...] = ()
    heaters: tuple[Heater, ...] = ()
    forcing: Forcing | None = None
    air_share: Ratio = 1.0
    heat_stored: JoulePerM3Kelvin = SEAWATER_HEAT

    def __post_init__(self) -> None:
        _refuse.not_positive(heat_stored=self.heat_stored, air_share=self.air_share)
        _checked.system(self)
