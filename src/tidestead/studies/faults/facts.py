"""What the faults study finds: for every fault the hours to warn, act and harm, what drives them, who acts when."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from tidestead.core.answer import Assumption, Estimate
from tidestead.core.source import Source

Quantity = Literal["oxygen", "cold", "hot", "ammonia", "salt", "fresh", "floor", "low", "film", "alkalinity"]
"""What may go wrong: too little oxygen, too cold, too hot, too much ammonia, too salty, too fresh, water on the floor,
too little water, film on windows, too much alkalinity at once."""

Season = Literal["winter", "summer"]
STEPS = ("warn", "act", "harm")
_HOUR = 3600.0
_FELT = 1.05
"""Times the time to harm that a help must reach to be told. Own choice."""


@dataclass(frozen=True)
class Threshold:
    """Three levels of one quantity, in the unit of the courses: g/m3, degC, psu, m3, share. `rising`: harm is above.

    `own` are the steps that the plan gives, `printed` the source of the others.
    """

    quantity: Quantity
    warn: float
    act: float
    harm: float
    rising: bool
    unit: str
    source: Source
    printed: Source | None = None
    own: tuple[str, ...] = ()

    @property
    def levels(self) -> tuple[float, float, float]:
        return self.warn, self.act, self.harm


@dataclass(frozen=True)
class Hours:
    """Hours to warn, act and harm by one run; endless where not in the time followed. `by` reaches the last first.

    `reached` has the three of every quantity that was watched, nothing where there was no run. `sunk`: until the sump
    stands so much lower that whoever looks, or a level switch, sees it.
    """

    warn: float
    act: float
    harm: float
    by: Quantity | None
    reached: Mapping[Quantity, tuple[float, float, float]] = field(default_factory=dict)
    sunk: float = math.inf

    @property
    def all_three(self) -> tuple[float, float, float]:
        return self.warn, self.act, self.harm


@dataclass(frozen=True)
class Curves:
    """The likely course of the display, hour by hour: degC, g O2/m3, g NH3/m3, psu, m3 in it, m3 on the floor.

    `level` is that of the sump, or of the display where there is none, m over where it stood.
    """

    hours: tuple[float, ...]
    temp_c: tuple[float, ...]
    oxygen: tuple[float, ...]
    ammonia: tuple[float, ...]
    sal_psu: tuple[float, ...]
    volume: tuple[float, ...]
    flood: tuple[float, ...]
    level: tuple[float, ...] = ()


@dataclass(frozen=True)
class Driver:
    """The assumption that moves the hours most, and the hours to the worst step reached at its adverse end."""

    name: str
    words: str
    hours: float


@dataclass(frozen=True)
class Chain:
    """From the event until somebody has acted, hours: best, mean and worst hour of the day to begin.

    `noticed` by whom, in the worst case; `parts` are the links of that, in hours. `by_hour` has all 24. `chance` of
    harm in the longest time that nobody may look, None where the plan says none; `why_not` why the alarm does not help.
    `unheard` is the worst where no call comes: the alarm or its network is gone by itself.
    """

    best: float
    mean: float
    worst: float
    noticed: str
    parts: tuple[tuple[str, float], ...]
    by_hour: tuple[float, ...]
    chance: float | None
    why_not: str = ""
    unheard: float = math.inf


@dataclass(frozen=True)
class Need:
    """What a help takes: a key of the plan's prices, how much of it in SI, and in which unit, none for pieces."""

    key: str
    amount: float = 1.0
    unit: str = ""


@dataclass(frozen=True)
class Generator:
    """A portable generator that starts by itself: rated W by its largest start, fuel in m3, its price if it has one."""

    power: float
    fuel: float
    cost: float | None
    currency: str


@dataclass(frozen=True)
class Bought:
    """Something tried against a fault: its `name`, hours to harm with it, `numbers` that belong to its words.

    `before` are the hours without it, by the same run: the likely one, or the adverse one (`at_worst`) where only that
    comes to harm.
    `draws` is the power, W, that it must be fed with; `needs` what is bought for it, which lasts `hours` hours; `cost`
    its money in `currency`, None where something has no price, of which `unpriced` names the keys. A generator may
    stand `instead` of the battery.
    """

    name: str
    harm: float
    numbers: tuple[tuple[float, str], ...] = ()
    part: str = ""
    before: float = math.inf
    at_worst: bool = False
    draws: float = 0.0
    needs: tuple[Need, ...] = ()
    hours: float = 0.0
    cost: float | None = None
    currency: str = ""
    unpriced: tuple[str, ...] = ()
    instead: Generator | None = None


@dataclass(frozen=True)
class FaultFacts:
    """One fault. Hours in likely, adverse (`soonest`) and mild (`latest`) runs; `unproven` says why there are none,
    `untold` what may harm too and could not be run.

    `spills` is water on the floor in the end, m3; `drains` share of the display that is left, where it sinks for good.
    `quiet` are the hours of the same water at the adverse end with nothing wrong, `quiet_likely` the likely ones.
    `until` is the time followed, hours. `words` say more, with places for `numbers`, each a value and its SI unit.
    """

    key: str
    title: str
    season: Season | None
    acts: tuple[str, ...]
    never: str
    part: str = ""
    likely: Hours | None = None
    soonest: Hours | None = None
    latest: Hours | None = None
    quiet: Hours | None = None
    quiet_likely: Hours | None = None
    until: float = 0.0
    driver: Driver | None = None
    spills: Estimate | None = None
    drains: float = 1.0
    chain: Chain | None = None
    curves: Curves | None = None
    bought: tuple[Bought, ...] = ()
    unproven: str = ""
    untold: str = ""
    words: str = ""
    numbers: tuple[tuple[float, str], ...] = ()

    @property
    def harm(self) -> Estimate | None:
        """Hours to harm with their range; what is not reached within the time followed is over it."""
        if self.likely is None or self.soonest is None or self.latest is None:
            return None
        ends = [min(one.harm, self.until) for one in (self.soonest, self.likely, self.latest)]
        basis = "adverse and mild ends of all that is uncertain, together"
        return Estimate(min(ends), ends[1], max(ends), basis, self.until)

    @property
    def harm_seconds(self) -> Estimate | None:
        """The same in seconds."""
        return None if self.harm is None else self.harm.times(_HOUR)

    @property
    def best_help(self) -> Bought | None:
        """What was tried that lengthens the time to harm most; None where nothing does by a twentieth."""
        best = max(self.bought, key=lambda one: one.harm, default=None)
        return None if best is None or best.harm <= best.before * _FELT else best

    @property
    def reaches(self) -> bool:
        """Whether harm comes within the time followed, at worst."""
        return self.soonest is not None and math.isfinite(self.soonest.harm)


@dataclass(frozen=True)
class FilmFacts:
    """Film on windows: share under set patches by days since the wipe (0 to `len` - 1) for each month.

    `last` is the last safe day by month with its range; `every` days between wipes as planned, `scraped` days between
    scrapes; `patches` the share at the end of that; `fitted` says whether the plan's own looks made it.
    """

    shares: tuple[tuple[float, ...], ...]
    last: tuple[Estimate, ...]
    allowed: float
    allowed_source: Source
    every: float | None
    scraped: float | None
    patches: Estimate | None
    fitted: str
    growth: tuple[float, ...]
    source: Source
    sets: tuple[float, float, float]
    """Days before any patch sets, days in which most do, and how suddenly: likely."""
    missed: tuple[Estimate, Estimate, Estimate]
    """Days since the wipe, in the fastest month: patches are seen, no more are borne, half the window is set."""


@dataclass(frozen=True)
class Refuge:
    """Where the fish may go: m3 of water, and hours of oxygen they have there, without and with a small air stone."""

    name: str
    volume: float
    still: Estimate
    with_air: float
    mass: float


@dataclass(frozen=True)
class Floor:
    """Where water on the floor goes: m2 of it round the vessels, and the side that the slab falls to, if any."""

    area: float | None
    falls_to: str


@dataclass(frozen=True, eq=False)
class FaultsFacts:
    """All of it. `missing` says why nothing could be told. `thresholds` by quantity."""

    missing: tuple[str, ...]
    faults: tuple[FaultFacts, ...] = ()
    thresholds: Mapping[Quantity, Threshold] | None = None
    film: FilmFacts | None = None
    refuge: tuple[Refuge, ...] = ()
    assumptions: tuple[Assumption, ...] = ()
    notes: tuple[str, ...] = ()
    no_response: str = ""
    floor: Floor | None = None
