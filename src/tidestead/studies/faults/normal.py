"""The transient's system of a plan in one state: what runs, what is dead and from when, which season, which ends."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

import numpy as np

from tidestead.catalog import table
from tidestead.core.dims import Array
from tidestead.physics import oxygen
from tidestead.physics.ph import PHScale, on_scale
from tidestead.physics.transient.system import (
    Air,
    Body,
    Forcing,
    Heater,
    Life,
    Nitrifiers,
    Organic,
    System,
)
from tidestead.plan.model import Cover
from tidestead.plan.water_fields import OnCircuit
from tidestead.studies.faults.case import HOURS, Case, at_end, held, runs_for
from tidestead.studies.faults.knobs import ACID, HEAT, LIKELY, End, Knobs
from tidestead.studies.faults.moves import leaks_of, overflows_of, pumps_of, top_offs_of
from tidestead.studies.faults.waters import SHADE, Basis, exchange
from tidestead.studies.heat.facts import Holding
from tidestead.studies.heat.machines import BAND
from tidestead.studies.water.aeration import FALL, TOWER_AIR, Stone, stone_oxygen

MONTH = {"winter": 0, "summer": 6}
SOUTH = {"winter": 6, "summer": 0}
HALF = 0.05
"""g/m3 of oxygen at which life has slowed to half: courses stop at nothing. Own choice."""

FALLBACK_PH = 8.2
"""NBS, where the plan is silent: reef water by day. Common practice, no source."""

_A_DAY = 86400.0


def system_of(basis: Basis, case: Case, knobs: Knobs = LIKELY) -> System:
    """The waters under a case, at the kept salinity, as warm as the season makes them, fed with oxygen as before."""
    holding = holding_of(basis, case)
    start = basis.setting.temp_c if holding is None else holding.start_c
    bodies = tuple(_body(basis, case, knobs, number, start) for number in range(len(basis.pools)))
    stored = None if holding is None else holding.stores / basis.setting.volume
    system = System(
        bodies,
        tuple(pumps_of(basis, case, knobs)),
        tuple(overflows_of(basis)),
        tuple(leaks_of(basis, case, knobs)),
        tuple(top_offs_of(basis, case)),
        heaters=tuple(_heaters(basis, case)),
        forcing=_forcing(basis, holding, knobs),
        air_share=basis.air_share,
    )
    return system if stored is None else replace(system, heat_stored=stored)


def holding_of(basis: Basis, case: Case) -> Holding | None:
    """The surroundings of a case."""
    return basis.heat.holding(case.season, not case.cut, case.covered)


def _body(basis: Basis, case: Case, knobs: Knobs, number: int, start_c: float) -> Body:
    pool, sal = basis.pools[number], basis.setting.sal_psu
    cleared, _ = _clearing(basis, knobs)
    held = 0.9 * float(oxygen.held_mass(sal, start_c, basis.air_pressure))
    return Body(
        pool.volume,
        pool.area,
        pool.brim,
        start_c,
        sal,
        held,
        _excreted(basis, knobs, case) / cleared if cleared > 0.0 else 0.0,
        ph_of(basis, knobs),
        Organic(case.decays[0], table("fault_limits")["stock"].si("decays") * _A_DAY, case.decays[1])
        if number == 0
        else Organic(),
        air=_air(basis, case, knobs, number),
        life=_life(basis, case, knobs, number),
        nitrifiers=_nitrifiers(basis, case, knobs, number),
    )


def ph_of(basis: Basis, knobs: Knobs = LIKELY) -> float:
    """The plan's pH on the NBS scale."""
    said, setting = basis.plan.water.ph, basis.setting
    value = FALLBACK_PH
    if said is not None:
        value = float(on_scale(said.value, PHScale(said.scale), PHScale.NBS, setting.sal_psu, setting.temp_c))
    return value + {"likely": 0.0, "adverse": ACID, "mild": -ACID}[knobs.end("acid")]


def _life(basis: Basis, case: Case, knobs: Knobs, number: int) -> Life:
    """Animals, corals and bacteria of the whole water breathe in the display, where the harm is done.

    Oxygen that the filter needs is counted with what it clears, so that it is left out here: what it needs as usual,
    for whoever stops feeding does not make corals and sand breathe more. All of it goes with warmth alike: what fish
    breathe of one food is not breathed by bacteria, so that more fish on it would else help in the cold.
    """
    if number != 0:
        return Life(half=HALF)
    now, end = basis.stock.now, knobs.end("uptake")
    fish = at_end(now.fish, end) * case.breathes
    usual = replace(case, eats=1.0)
    feeds_filter = _NITRIFYING * _excreted(basis, knobs, usual) if _clearing(basis, knobs)[0] > 0.0 else 0.0
    other = max(at_end(now.uptake, end) - at_end(now.fish, end) - feeds_filter, 0.0)
    return Life(fish + other, basis.setting.temp_c, half=HALF, excretion=_excreted(basis, knobs, case))


_NITRIFYING = 4.57
"""Grams of oxygen for a gram of nitrogen. Source: stoichiometry, 64/14."""


def _excreted(basis: Basis, knobs: Knobs, case: Case) -> float:
    """Ammonia of all animals, g N/h."""
    return at_end(basis.stock.ammonia, knobs.end("ammonia")) * case.eats


def _clearing(basis: Basis, knobs: Knobs) -> tuple[float, float]:
    """Water that all filters clear of ammonia, m3/h, and the most that they turn over, g N/h."""
    clearance = basis.stock.clearance
    if clearance is None:
        return 0.0, 1e-9
    ends = {"likely": clearance.likely, "adverse": clearance.low, "mild": clearance.high}
    return ends[knobs.end("filter")], max(basis.stock.ceiling, 1e-9)


def _nitrifiers(basis: Basis, case: Case, knobs: Knobs, number: int) -> Nitrifiers:
    """The share of the filters that stands in a body; without them where the filter is lost."""
    areas = basis.stock.areas
    whole = sum(areas.values())
    if whole <= 0.0 or case.no_filter:
        return Nitrifiers()
    here = (area for key, area in areas.items() if basis.pool_of(basis.plan.filters[key].vessel) == number)
    share = sum(here) / whole
    clearance, ceiling = _clearing(basis, knobs)
    return Nitrifiers(clearance * share, max(ceiling * share, 1e-9))


def _air(basis: Basis, case: Case, knobs: Knobs, number: int) -> Air:
    pool = basis.pools[number]
    stirs = _hours_of_flow(basis, case, number)
    moved, still = _exchanges(knobs)
    if number == 0:
        shade = 1.0 - at_end(SHADE, knobs.end("lid")) * cover_share(basis, case)
        moved, still = moved * shade, still * shade
    surface = held(stirs, 1.0, still / moved)
    bubbles, course = _bubbles(basis, case, knobs, number)
    return Air(pool.area, moved, bubbles, surface, course)


def _exchanges(knobs: Knobs) -> tuple[float, float]:
    """Speed of exchange of a stirred and of a still surface, m/s; the low end of each is the adverse one."""
    ends = {"likely": "likely", "adverse": "low", "mild": "high"}
    stirred, still = exchange("stirred-surface"), exchange("still-surface")
    return (
        float(getattr(stirred, ends[knobs.end("stirred")])),
        float(getattr(still, ends[knobs.end("still")])),
    )


def cover_share(basis: Basis, case: Case) -> float:
    """Share of the display that is covered at night in the season; that of a cover that is tried where that is more."""
    month = (SOUTH if (basis.plan.site.latitude or 1.0) < 0.0 else MONTH)[case.season]
    covers: list[Cover] = [
        one for one in basis.plan.covers.values() if one.over == basis.setting.display and month in one.months
    ]
    share = max((one.share for one in covers), default=0.0)
    return max(share, 0.9) if case.covered else share


def _hours_of_flow(basis: Basis, case: Case, number: int) -> float:
    """Hours for which a pump goes on to feed a body; the sump is stirred as long as any pump runs."""
    fed = [name for name, into in basis.feeds.items() if number == 1 or into > 0.0]
    if not basis.feeds:
        return 0.0 if case.cut else math.inf
    return max((runs_for(basis, case, OnCircuit("pump", name)) for name in fed), default=0.0)


def _bubbles(basis: Basis, case: Case, knobs: Knobs, number: int) -> tuple[float, Array | None]:
    """Oxygen of air pumps and of what airs the water on its way round, g/h into empty water, and its course."""
    end = knobs.end("bubbles")
    parts = [(case.air, case.air_for)] if number == 0 and case.air > 0.0 else []
    for name, one in basis.plan.airpumps.items():
        if basis.pool_of(one.vessel) == number:
            hours = runs_for(basis, case, OnCircuit("air", name))
            parts.append((air_oxygen(basis, Stone(one.flow, one.depth, one.bubbles), end), hours))
    if number == len(basis.pools) - 1:
        parts += _on_the_way(basis, case, _hours_of_flow(basis, case, number))
    whole = sum(amount for amount, _ in parts)
    if whole <= 0.0:
        return 0.0, None
    course = np.zeros(HOURS + 1)
    for amount, hours in parts:
        goes = held(hours, 1.0, 0.0)
        course += amount / whole * np.pad(goes, (0, len(course) - len(goes)), mode="edge")
    return whole, course


def _on_the_way(basis: Basis, case: Case, flows: float) -> Iterator[tuple[float, float]]:
    """Fractionators and falls as the answer on water has them, likely at every end, and the hours for which each goes
    on: while the water goes round, and a fractionator no longer than what makes its air.
    """
    for one in basis.stock.exchanges:
        gain = basis.stock.saturation * one.clears.likely
        if one.how.startswith(TOWER_AIR):
            yield gain, min(flows, _blown(basis, case, one.where))
        elif one.how.startswith(FALL):
            yield gain, flows


def _blown(basis: Basis, case: Case, tower: str) -> float:
    """Hours for which a fractionator has air; where its plan names no blower, it hangs on the mains."""
    feed = basis.plan.vessels[tower].air
    if feed is None or feed.blower is None:
        return 0.0 if case.cut else math.inf
    return runs_for(basis, case, feed.blower)


def air_oxygen(basis: Basis, stone: Stone, end: End = "likely") -> float:
    """Oxygen that air gives to water without any, g/h; the low end is the adverse one."""
    found = stone_oxygen(stone, basis.setting.temp_c, basis.air_pressure)
    return {"likely": found.likely, "adverse": found.low, "mild": found.high}[end]


def _heaters(basis: Basis, case: Case) -> list[Heater]:
    found = []
    for name, one in basis.plan.heaters.items():
        if one.vessel not in basis.setting.volumes:
            continue
        course = held(runs_for(basis, case, OnCircuit("heater", name)), 1.0, 0.0)
        band, at = BAND if one.band is None else one.band, basis.pool_of(one.vessel)
        count = one.count
        if name == case.stuck_on:
            count -= 1
            stuck = one.power / 2.0 if case.halved else one.power
            found.append(Heater(at, stuck, one.setpoint, band, "on"))
            if case.halved:
                found.append(Heater(at, one.power - stuck, one.setpoint, band, course=course))
        if count:
            found.append(Heater(at, one.power * count, one.setpoint, band, course=course))
    for name, cold in basis.plan.chillers.items():
        if cold.vessel in basis.setting.volumes:
            course = held(runs_for(basis, case, OnCircuit("chiller", name)), 1.0, 0.0)
            band, at = BAND if cold.band is None else cold.band, basis.pool_of(cold.vessel)
            found.append(Heater(at, cold.cooling, cold.setpoint, band, cools=True, course=course))
    return found


def _forcing(basis: Basis, holding: Holding | None, knobs: Knobs) -> Forcing | None:
    """Heat by what each body stores, vapour by its surface."""
    if holding is None:
        return None
    volumes = np.array([pool.volume for pool in basis.pools])
    areas = np.array([pool.area for pool in basis.pools])
    heat = np.outer(volumes / volumes.sum(), np.ones(len(holding.gain))) * knobs.factor("heat", HEAT)
    vapour = np.outer(areas / areas.sum(), np.ones(len(holding.even))) * knobs.factor(
        "vapour", _vapour_share(basis)
    )
    return Forcing(
        heat * np.array(holding.gain),
        heat * np.array(holding.loss),
        vapour * np.array(holding.even),
        vapour * np.array(holding.warm),
        reference_c=0.0,
    )


def _vapour_share(basis: Basis) -> float:
    """Share by which evaporation may be more, by the range of the year of heat."""
    whole = basis.setting.yearly_evaporation
    if whole is None or whole.likely <= 0.0:
        return HEAT
    return max(min(whole.high / whole.likely - 1.0, 0.9), 0.0)
