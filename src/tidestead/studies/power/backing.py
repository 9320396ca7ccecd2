"""What stands in when the power fails: what hangs on it, how long it lasts, whether it bears a start."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from functools import partial

from tidestead.catalog import Row
from tidestead.core.answer import Estimate
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.power import backup as physics
from tidestead.physics.power.backup import BatteryUse
from tidestead.plan.model import Plan
from tidestead.plan.model.electrics import Backup
from tidestead.plan.water_fields import OnCircuit
from tidestead.studies.power.facts import Acting, BackupFacts, LoadFacts
from tidestead.studies.power.loading import load_of
from tidestead.studies.power.people import Seeing, acted, dead_in_a_cut, looked, pace_of, worst_begin
from tidestead.studies.power.rules import limit_row
from tidestead.studies.power.things import Thing, words_of

RATED_HOURS = 20.0
"""Hours over which lead-acid batteries are rated. Common practice."""
_DAY = 86400.0
_HOUR = 3600.0
_KWH = 3.6e6


def backups_of(plan: Plan, things: Mapping[OnCircuit, Thing], volts: float) -> tuple[BackupFacts, ...]:
    """Every battery and generator of the plan."""
    return tuple(_backup(key, one, things, volts) for key, one in plan.backups.items())


def _backup(key: str, backup: Backup, things: Mapping[OnCircuit, Thing], volts: float) -> BackupFacts:
    found = [load_of(things[item], volts) for item in backup.carries if item in things]
    hung = [load for load in found if load is not None]
    known = {load.item for load in hung}
    load = sum(one.power for one in hung)
    starting, peak = _starting(hung, volts), peak_of(backup)
    return BackupFacts(
        key,
        backup.kind,
        backup.carries,
        load,
        starting,
        _hours(backup, load),
        backup.starts == "by itself",
        backup.power,
        None if backup.power is None else peak.times(backup.power),
        _wanted(load, starting, backup, peak),
        tuple(words_of(item) for item in backup.carries if item not in known),
        None if backup.lasts is not None else backup.energy,
        backup.peak is not None,
    )


def peak_of(backup: Backup) -> Estimate:
    """Times its power that it gives for a start: the plan's, else as such sets and inverters do."""
    if backup.peak is not None:
        return Estimate.exact(backup.peak, "as your plan says")
    if backup.kind == "battery":
        return Estimate.exact(limit_row("inverter").si("peak"), "as inverters do")
    low, likely, high = (limit_row("generator-petrol").si(key) for key in ("peak_low", "peak", "peak_high"))
    return Estimate(low, likely, high, "as portable sets do")


def _starting(hung: Sequence[LoadFacts], volts: float) -> Estimate:
    """Power while all run and the largest start comes last, volt-amperes of the start counted as watts."""
    load = sum(one.power for one in hung)
    ends = [
        load + max((volts * _extra(one, end) for one in hung), default=0.0)
        for end in ("low", "likely", "high")
    ]
    return Estimate(ends[0], ends[1], ends[2], "what the largest start takes, low to high")


def _extra(load: LoadFacts, end: str) -> float:
    """What the start of one takes on top of its running, by its likely current: two ends at once are too much."""
    return load.running.likely / load.count * (load.sort.starting.si(end) - 1.0)


def generator_wanted(hung: Sequence[LoadFacts], volts: float) -> Estimate:
    """Rated power, W, of a portable generator that runs all of this and starts the largest last."""
    row = limit_row("generator-petrol")
    peak = Estimate(row.si("peak_low"), row.si("peak"), row.si("peak_high"))
    return _rated(sum(one.power for one in hung), _starting(hung, volts), peak, row.si("loaded"))


def _wanted(load: float, starting: Estimate, backup: Backup, peak: Estimate) -> Estimate:
    """Rated power of a generator or inverter for all this, which gives its peak for a start."""
    loaded = limit_row("generator-petrol").si("loaded") if backup.kind == "generator" else 1.0
    return _rated(load, starting, peak, loaded)


def _rated(load: float, starting: Estimate, peak: Estimate, loaded: float) -> Estimate:
    """Rated power, W, by the load for good and by the largest start."""
    pairs = ((starting.low, peak.high), (starting.likely, peak.likely), (starting.high, peak.low))
    ends = [physics.generator_power(load, max(end / times - load, 0.0), loaded) for end, times in pairs]
    return Estimate(ends[0], ends[1], ends[2], starting.basis)


def _hours(backup: Backup, load: float) -> Estimate | None:
    """Seconds that it carries its load."""
    if backup.lasts is not None:
        return Estimate.exact(backup.lasts, "as your plan says")
    if load <= 0.0:
        return None
    if backup.kind == "generator":
        return None if backup.tank is None else _tank(backup, backup.tank, load)
    return None if backup.energy is None else _battery(backup.energy, load)


def _battery(energy: float, load: float) -> Estimate:
    """The plan does not say of what kind: from an old cold flooded lead-acid battery to a new lithium iron one."""
    old, new, inverter = limit_row("lead-acid-flooded"), limit_row("lithium-iron"), limit_row("inverter")
    worn = BatteryUse(
        old.si("depth") * _fast(energy, load, old, inverter),
        inverter.si("low"),
        old.si("aged"),
        old.si("cold"),
    )
    usual = BatteryUse(old.si("depth"), inverter.si("likely"))
    best = BatteryUse(new.si("depth"), inverter.si("high"))
    low, likely, high = (float(physics.battery_time(energy, load, use)) for use in (worn, usual, best))
    return Estimate(low, likely, high, "at worst lead-acid, old and cold; at best lithium iron, new")


def battery_wanted(load: float, seconds: float) -> float:
    """Energy, J, of a lead-acid battery that carries a load for a time when it is old and cold."""
    old, inverter = limit_row("lead-acid-flooded"), limit_row("inverter")
    plain = BatteryUse(old.si("depth"), inverter.si("low"), old.si("aged"), old.si("cold"))
    energy = float(physics.battery_capacity(load, seconds, plain))
    return energy / _fast(energy, load, old, inverter) if load > 0.0 else energy


def fuel_of_a_day(load: float, power: float | None, burns: float | None) -> float:
    """Fuel, m3, that a generator burns in a day with its load."""
    if burns is not None:
        return float(physics.fuel_volume(load * _DAY, burns * 1e-3 / _KWH))
    return _fuel(load, power or 0.0, _DAY, "fuel")


def most_fuel(load: float, power: float, seconds: float) -> float:
    """Fuel, m3, that the thirstiest portable set burns with its load in a time, no less than at half load."""
    return _fuel(load, power, seconds, "fuel_high")


def _fuel(load: float, power: float, seconds: float, end: str) -> float:
    """Fuel, m3, by an end of the catalogue; a set burns no less than at half load."""
    burns = limit_row("generator-petrol").si(end)
    return float(physics.fuel_volume(max(load, power / 2.0) * seconds, burns))


def _fast(energy: float, load: float, row: Row, inverter: Row) -> float:
    """What a lead-acid battery gives of its charge at this load; all of it where that is no faster than its rating."""
    rated, drawn = energy / (RATED_HOURS * 3600.0), load / inverter.si("low")
    try:
        return min(1.0, float(physics.peukert_share(rated, drawn, row.si("peukert"))))
    except ImpossibleInput:
        return 1.0


def _tank(backup: Backup, tank: float, load: float) -> Estimate:
    """A set burns no less than at half load: at a quarter that is twice the fuel for a kilowatt-hour."""
    row = limit_row("generator-petrol")
    if backup.burns is not None:
        use = backup.burns * 1e-3 / _KWH
        return Estimate.exact(float(physics.tank_time(tank, load, use)), "by what your plan says it burns")
    counted = max(load, (backup.power or 0.0) / 2.0)
    ends = [row.si(key) for key in ("fuel_high", "fuel", "fuel_low")]
    low, likely, high = (float(physics.tank_time(tank, counted, use)) for use in ends)
    return Estimate(low, likely, high, "what portable sets burn, no less than at half load")


def goes_on(plan: Plan, backups: Sequence[BackupFacts], item: OnCircuit) -> float:
    """Hours for which something goes on by itself when the power stops; the short end of what is known."""
    ready = (one for one in backups if one.starts_by_itself and one.holds_start)
    hours = [one.hours.low / _HOUR for one in ready if one.hours is not None and item in one.carries]
    if item.kind == "air" and item.name in plan.airpumps:
        pump = plan.airpumps[item.name]
        if pump.starts == "battery":
            hours.append((pump.lasts or 0.0) / _HOUR)
    return max(hours, default=0.0)


def acting_of(plan: Plan, backups: Sequence[BackupFacts]) -> Acting | None:
    """How long until somebody has acted once the power is gone, with people at their slowest: by the alarm, where it
    sees the power and lives without the mains, else by the next look.
    """
    pace = pace_of(plan)
    if pace is None or plan.response is None:
        return None
    alarm = plan.response.alarm
    calls = (
        alarm is not None
        and "power" in alarm.watches
        and not dead_in_a_cut(plan, alarm, partial(goes_on, plan, backups))
    )
    seeing = Seeing(0.0 if calls else math.inf, 0.0)
    begins = worst_begin(pace.slow, seeing)
    hours, looks = acted(pace.slow, begins, seeing), looked(pace.slow, begins, seeing) + pace.slow.does
    words = "the longest from one look to the next, and the first acts"
    if hours < looks:
        words = "the alarm calls, is answered, and somebody comes and acts"
    return Acting(_HOUR * hours, words)
