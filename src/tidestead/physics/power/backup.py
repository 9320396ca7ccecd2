"""Keeping going without the mains: how large a battery, how long it lasts, how large a generator and its tank."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.dims import Ampere, CubicMetre, CubicMetrePerJoule, Joule, Ratio, Second, Watt
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse


@dataclass(frozen=True)
class BatteryUse:
    """What of a battery's rated energy reaches the load, each a share of 1 at most.

    `depth` is how far it may be emptied, `inverter` the inverter's efficiency, `aged` what is left of its energy at the
    end of its life, `cold` what is left in the cold. `idle` is what the inverter draws from the battery by itself.
    """

    depth: Ratio
    inverter: Ratio
    aged: Ratio = 1.0
    cold: Ratio = 1.0
    idle: Watt = 0.0

    def __post_init__(self) -> None:
        shares = {"depth": self.depth, "inverter": self.inverter, "aged": self.aged, "cold": self.cold}
        _refuse.not_positive(**shares)
        _refuse.not_a_share(**shares)
        _refuse.negative(idle=self.idle)


def battery_draw(load: Watt, use: BatteryUse) -> Watt:
    """Power that leaves the battery for a load.

        P_b = P/eta + P_idle

    Source: balance of energy.
    Valid:  efficiency at this load; small loads have a worse one, which the idle draw stands for.
    """
    _refuse.negative(load=load)
    return load / use.inverter + use.idle


def battery_capacity(load: Watt, time: Second, use: BatteryUse) -> Joule:
    """Rated energy of a battery that carries a load for a time, at the end of its life and in the cold.

        E = P_b*t/(DoD*a*c)

    Source: balance of energy.
    Valid:  a load drawn no faster than the battery's rating; lead-acid gives less when emptied fast: `peukert_share`.
    """
    _refuse.negative(time=time)
    return battery_draw(load, use) * time / (use.depth * use.aged * use.cold)


def battery_time(capacity: Joule, load: Watt, use: BatteryUse) -> Second:
    """Time for which a battery carries a load.

        t = E*DoD*a*c/P_b

    Source: `battery_capacity` read backwards.
    Valid:  as that. Something must draw.
    """
    _refuse.negative(capacity=capacity)
    draw = battery_draw(load, use)
    _refuse.not_positive(draw=draw)
    return capacity * use.depth * use.aged * use.cold / draw


def peukert_time(rated_current: Ampere, rated_time: Second, current: Ampere, exponent: Ratio) -> Second:
    """Time in which a lead-acid battery is flat, from the current at which its maker rates it.

        t = H*(I_H/I)**k

    Source: Peukert (1897), quoted.
    Valid:  constant current at or above the rated one, 20 to 25 degC; below it overstates. k 1.05 to 1.6.
    """
    _refuse.negative(rated_time=rated_time)
    time: Second = rated_time * _peukert(rated_current, current, exponent) ** exponent
    return time


def peukert_share(rated_current: Ampere, current: Ampere, exponent: Ratio) -> Ratio:
    """Share of its rated charge that a lead-acid battery gives at a current.

        (I_H/I)**(k - 1)

    Source: Peukert (1897), quoted.
    Valid:  as `peukert_time`; multiplies the depth of discharge.
    """
    share: Ratio = _peukert(rated_current, current, exponent) ** (exponent - 1.0)
    return share


def generator_power(running: Watt, extra: Watt, loaded: Ratio, left: Ratio = 1.0) -> Watt:
    """Rated power of a generator that runs all and bears the largest start on top.

        P = max(P_run/k, P_run + P_extra)/c

    `extra` is what the largest start takes beyond its running, its volt-amperes counted as watts; `loaded` (k) the
    share of its rating at which a generator may run for hours, `left` (c) the share that heat and height leave of it.
    Source: own rule on common practice.
    Valid:  a bound on the high side for power; not for the dip of voltage at a start, which a maker's sheet gives.
    """
    _refuse.negative(running=running, extra=extra)
    _refuse.not_positive(loaded=loaded, left=left)
    _refuse.not_a_share(loaded=loaded, left=left)
    return max(running / loaded, running + extra) / left


def fuel_volume(energy: Joule, use: CubicMetrePerJoule) -> CubicMetre:
    """Fuel that a generator burns for an amount of electric energy.

        V = v*E

    Source: definition of the specific consumption.
    Valid:  half load to full load. At a quarter of the load petrol sets burn up to twice as much for a kilowatt-hour.
    """
    _refuse.negative(energy=energy)
    _refuse.not_positive(fuel_use=use)
    return use * energy


def tank_time(tank: CubicMetre, load: Watt, use: CubicMetrePerJoule) -> Second:
    """Time for which a tank of fuel carries a load.

        t = V/(v*P)

    Source: `fuel_volume` read backwards.
    Valid:  as that.
    """
    _refuse.negative(tank=tank)
    _refuse.not_positive(load=load, fuel_use=use)
    return tank / (use * load)


def _peukert(rated_current: Ampere, current: Ampere, exponent: Ratio) -> Ratio:
    _refuse.not_positive(rated_current=rated_current, current=current)
    if not exponent >= 1.0:
        raise ImpossibleInput(f"Peukert's exponent is 1 or more, got {exponent}")
    return rated_current / current
