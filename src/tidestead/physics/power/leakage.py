"""What sound apparatus leaks to earth all the time, against the residual-current device that watches it."""

from __future__ import annotations

from math import ceil

from tidestead.core.dims import Ampere, AmperePerWatt, Count, Ratio, Watt
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

_WHOLE = 1e-9
"""A share of one device that is a slip of a float and no further device."""


def standing_leakage(leaks: tuple[Ampere, ...]) -> Ampere:
    """Leakage of all apparatus on one residual-current device.

        I = sum(I_i)

    Source: sum without regard to phase angles, which is never less than the true one.
    Valid:  one phase. Leaks of three phases partly cancel; a wet or aged heating element is not sound.
    """
    for leak in leaks:
        _refuse.negative(leakage=leak)
    return sum(leaks, 0.0)


def leakage_ceiling(power: Watt, per_power: AmperePerWatt, least: Ampere, most: Ampere) -> Ampere:
    """Leakage that a product standard allows one apparatus, by its power between two ends.

        I = min(max(i*P, I_least), I_most)

    Source: form of IEC 60335-1, clause 13.2, quoted: fixed heating appliances of class I 0.75 mA or 0.75 mA/kW,
            whichever is more, at most 5 mA.
    Valid:  new and whole, at working warmth.
    """
    _refuse.negative(power=power, leakage_per_power=per_power, least=least)
    if not most >= least:
        raise ImpossibleInput(f"the most of a leakage cannot be below its least, got {most} and {least} A")
    return min(max(per_power * power, least), most)


def trip_share(standing: Ampere, trip_low: Ampere) -> Ratio:
    """Standing leakage as a share of the residual current from which the device may trip; from 1 on it may.

        I/I_low

    Source: definition.
    Valid:  I_low 15 mA of 30 mA by IEC 61008, 4 mA of class A by UL 943.
    """
    _refuse.negative(standing_leakage=standing)
    _refuse.not_positive(trip_level=trip_low)
    return standing / trip_low


def leakage_room(standing: Ampere, trip_low: Ampere) -> Ampere:
    """Leakage that may come on top before the device may trip; below nothing where it may trip as it is.

        I_low - I

    Source: definition.
    Valid:  as `trip_share`.
    """
    _refuse.negative(standing_leakage=standing)
    _refuse.not_positive(trip_level=trip_low)
    return trip_low - standing


def devices_wanted(standing: Ampere, rated: Ampere, share: Ratio) -> Count:
    """Residual-current devices, at least, over which a leakage is to be spread so that none carries more than a share.

        n = ceil(I/(k*I_rated))      k = 0.3 by IEC 60364-5-53, recalled

    Source: division.
    Valid:  a lower bound: single apparatus do not divide evenly. At least one.
    """
    _refuse.negative(standing_leakage=standing)
    _refuse.not_positive(rated_residual_current=rated, share=share)
    _refuse.not_a_share(share=share)
    return max(1, ceil(standing / (share * rated) - _WHOLE))
