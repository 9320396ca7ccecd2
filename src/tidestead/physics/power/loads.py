"""What a circuit draws: running, starting, at its worst moment and when everything comes back at once."""

from __future__ import annotations

from dataclasses import dataclass
from math import sqrt

from tidestead.core.dims import Ampere, Ratio, Volt, Watt
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse


@dataclass(frozen=True)
class Load:
    """One apparatus: current while it runs, and for the moment of its start, never less than that."""

    running: Ampere
    starting: Ampere

    def __post_init__(self) -> None:
        _refuse.negative(running_current=self.running)
        if not self.starting >= self.running:
            raise ImpossibleInput(
                f"a starting current cannot be below the running one, got {self.starting} and {self.running} A"
            )


def single_phase_current(power: Watt, voltage: Volt, power_factor: Ratio) -> Ampere:
    """Current of a load between two conductors.

        I = P/(U*cos(phi))

    Source: definition of the power factor.
    Valid:  P electric power taken from the mains, not what a motor gives at its shaft. On a low mains a heater draws
            less, an electronic supply more.
    """
    _check_supply(power, voltage, power_factor)
    return power / (voltage * power_factor)


def three_phase_current(power: Watt, voltage: Volt, power_factor: Ratio) -> Ampere:
    """Current in each line of an even three-phase load.

        I = P/(sqrt(3)*U*cos(phi))      U between lines

    Source: definition of the power factor.
    Valid:  as `single_phase_current`; the three phases loaded alike.
    """
    _check_supply(power, voltage, power_factor)
    return power / (sqrt(3.0) * voltage * power_factor)


def starting_current(running: Ampere, multiple: Ratio) -> Ampere:
    """Current of a motor that stands still with the voltage on it.

        I_start = m*I

    Source: locked-rotor current as makers and plates give it.
    Valid:  root mean square; the first half cycle may peak at twice that. Multiple of 1 or more.
    """
    _refuse.negative(running_current=running)
    if not multiple >= 1.0:
        raise ImpossibleInput(f"a start draws no less than running: a multiple of 1 or more, got {multiple}")
    return running * multiple


def demand_current(loads: tuple[Load, ...], demand: Ratio = 1.0) -> Ampere:
    """Current of all that runs, times the share of it that is on at once.

        I = k*sum(I_i)

    Source: sum without regard to phase angles, which is never less than the true one.
    Valid:  one phase. A share below 1 must be warranted: what controls may all switch on is on at once.
    """
    _refuse.not_a_share(demand_factor=demand)
    return demand * sum(load.running for load in loads)


def worst_moment(loads: tuple[Load, ...]) -> Ampere:
    """Current at the worst moment of common running: all run, and the largest start comes last.

        I = sum(I_i) + max(I_start,i - I_i)

    Source: sum without regard to phase angles, which is never less than the true one.
    Valid:  one phase, one start at a time. After a power cut several start together: `all_starting`.
    """
    return demand_current(loads) + max((load.starting - load.running for load in loads), default=0.0)


def all_starting(loads: tuple[Load, ...]) -> Ampere:
    """Current when the power comes back and everything that was on starts at once.

        I = sum(I_start,i)

    Source: sum without regard to phase angles, which is never less than the true one.
    Valid:  one phase, nothing delays a start.
    """
    return sum((load.starting for load in loads), 0.0)


def rating_share(current: Ampere, rating: Ampere, allowed: Ratio = 1.0) -> Ratio:
    """Current as a share of what a protective device may carry for hours.

        I/(k*In)

    Source: k = 0.8 for loads of three hours and more by NEC 210.20(A), recalled; k = 1 by IEC 60898, recalled.
    Valid:  air at the device of 30 degC (IEC) or 40 degC (US) and no warm neighbours; hotter boards carry less.
    """
    _refuse.negative(current=current)
    _refuse.not_positive(rating=rating, allowed_share=allowed)
    _refuse.not_a_share(allowed_share=allowed)
    return current / (allowed * rating)


def _check_supply(power: Watt, voltage: Volt, power_factor: Ratio) -> None:
    _refuse.negative(power=power)
    _refuse.not_positive(voltage=voltage, power_factor=power_factor)
    _refuse.not_a_share(power_factor=power_factor)
