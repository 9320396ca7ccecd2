"""The balance of acids and bases in one water: constants worked out once, and what each pH takes of alkalinity.

Everything here counts in mol/kg. `h` is hydrogen on the total scale.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

from tidestead.core.errors import ImpossibleInput
from tidestead.physics import ammonia, ph
from tidestead.physics.water import constants

LOWEST, HIGHEST = 1.0, 13.5
"""The pH that is searched: stomach acid to far beyond limewater. Beyond it an alkalinity is a mistake."""

_CLOSE = 1e-12


@dataclass(frozen=True)
class Balance:
    """Constants and whole contents of one water, by the letters of Dickson, Sabine and Christian (2007)."""

    K0: float
    """Carbon dioxide dissolved for each atmosphere of its partial pressure, fugacity counted in."""
    K1: float
    K2: float
    KB: float
    KW: float
    KS: float
    KF: float
    KP: tuple[float, float, float]
    KSi: float
    KN: float
    BT: float
    ST: float
    FT: float
    PT: float
    SiT: float
    NT: float


class Totals(NamedTuple):
    """Whole contents that a balance cannot get from salinity, mol/kg."""

    borate: float
    phosphate: float
    silicate: float
    ammonia: float


def balance(sal_psu: float, temp_c: float, totals: Totals) -> Balance:
    """The constants of a water of this salinity and temperature, with its contents."""
    bare = 10.0 ** -float(ammonia.pka_clegg_whitfield(sal_psu, temp_c))
    at = (sal_psu, temp_c)
    return Balance(
        K0=float(constants.co2_solubility(*at) * constants.co2_fugacity(temp_c)),
        K1=float(constants.carbonic_first(*at)),
        K2=float(constants.carbonic_second(*at)),
        KB=float(constants.boric(*at)),
        KW=float(constants.water_ions(*at)),
        KS=float(ph.bisulphate_constant(*at)),
        KF=float(ph.hydrogen_fluoride_constant(*at)),
        KP=(
            float(constants.phosphoric_first(*at)),
            float(constants.phosphoric_second(*at)),
            float(constants.phosphoric_third(*at)),
        ),
        KSi=float(constants.silicic(*at)),
        KN=bare * (1.0 - ph.SALT_SHARE * sal_psu),
        BT=totals.borate,
        ST=ph.sulphate(sal_psu),
        FT=ph.fluoride(sal_psu),
        PT=totals.phosphate,
        SiT=totals.silicate,
        NT=totals.ammonia,
    )


def alkalinity_beside_carbon(at: Balance, h: float) -> float:
    """Alkalinity that everything but carbon makes up.

    [B(OH)4] + [OH] + [HPO4] + 2*[PO4] - [H3PO4] + [SiO(OH)3] + [NH3] - [H]free - [HSO4] - [HF]
    """
    free = h / (1.0 + at.ST / at.KS)
    bound = at.ST * free / (at.KS + free) + at.FT * free / (at.KF + free)
    weak = at.BT * at.KB / (at.KB + h) + at.SiT * at.KSi / (at.KSi + h) + at.NT * at.KN / (at.KN + h)
    return weak + at.KW / h + _phosphate(at, h) - free - bound


def _phosphate(at: Balance, h: float) -> float:
    """Alkalinity of phosphate, counted from H2PO4."""
    first, second, third = at.KP
    acid, once = h**3, first * h**2
    twice = first * second * h
    thrice = first * second * third
    return at.PT * (twice + 2.0 * thrice - acid) / (acid + once + twice + thrice)


def alkalinity_of_dissolved(at: Balance, h: float, dic: float) -> float:
    """Alkalinity of a water that holds so much dissolved carbon."""
    parts = h**2 + at.K1 * h + at.K1 * at.K2
    return dic * at.K1 * (h + 2.0 * at.K2) / parts + alkalinity_beside_carbon(at, h)


def alkalinity_of_gas(at: Balance, h: float, co2: float) -> float:
    """Alkalinity of a water that holds so much carbon dioxide."""
    return co2 * at.K1 / h * (1.0 + 2.0 * at.K2 / h) + alkalinity_beside_carbon(at, h)


def hydrogen_where(of: Callable[[float], float], alkalinity: float) -> float:
    """The hydrogen at which a water has this alkalinity.

    Alkalinity falls without a turn as hydrogen rises, so that there is one answer or none; it is closed in on
    from both sides (Brent), in pH.
    """
    from scipy.optimize import brentq  # noqa: PLC0415 - only where a water is solved

    def missing(power: float) -> float:
        return of(10.0**-power) - alkalinity

    if missing(LOWEST) > 0.0 or missing(HIGHEST) < 0.0:
        raise ImpossibleInput(
            f"no pH from {LOWEST:g} to {HIGHEST:g} gives an alkalinity of {alkalinity * 1e6:.6g} umol/kg"
        )
    found: float = brentq(missing, LOWEST, HIGHEST, xtol=_CLOSE)
    hydrogen: float = 10.0**-found
    return hydrogen
