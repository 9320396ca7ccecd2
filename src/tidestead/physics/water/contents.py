"""What standard seawater holds of boron and calcium, from its salinity, and mg/L against umol/kg."""

from __future__ import annotations

from enum import StrEnum

from tidestead.core.dims import GramPerM3, GramPerMole, KgPerM3, MicromolePerKg, PracticalSalinity
from tidestead.physics import _refuse
from tidestead.physics.ph import CHLORINITY

_MICRO = 1e-6

CALCIUM_MASS: GramPerMole = 40.078
"""Source: IUPAC standard atomic weight."""


class BorateLaw(StrEnum):
    """Whose count of boron is taken."""

    LEE = "lee"
    UPPSTROM = "uppstrom"


def borate(sal_psu: PracticalSalinity, law: BorateLaw = BorateLaw.LEE) -> MicromolePerKg:
    """Boric acid and borate together.

        BT = 432.6*S/35 (Lee)      BT = 415.7*S/35 (Uppstrom)

    Source: Lee et al., Geochimica et Cosmochimica Acta 74 (2010) 1801-1811; Uppstrom, Deep-Sea Research 21 (1974)
            161-162; both as quoted in public code. Dickson, Sabine and Christian (2007) take Uppstrom's.
    Valid:  salt of the sea's composition. The two are 4 % apart: 0.003 of pH where alkalinity and dissolved carbon
            are known. Salt mixes may hold several times as much.
    """
    _refuse.negative(salinity=sal_psu)
    at_35 = 432.6 if law is BorateLaw.LEE else 415.7
    return at_35 * sal_psu / 35.0


def calcium(sal_psu: PracticalSalinity) -> MicromolePerKg:
    """Calcium of standard seawater.

        CaT = 0.02128/40.087 * S/1.80655      mol/kg

    Source: Riley and Tongudai, Chemical Geology 2 (1967) 263-269, as in Dickson, Sabine and Christian (2007).
    Valid:  salt of the sea's composition; a reef's own calcium is measured.
    """
    _refuse.negative(salinity=sal_psu)
    return 0.02128 / 40.087 * sal_psu / CHLORINITY / _MICRO


def content_of_mass(mass: GramPerM3, molar_mass: GramPerMole, density: KgPerM3) -> MicromolePerKg:
    """Content by the kilogram of water from a reading in mg/L.

        c = m/(M*rho)

    Source: definition.
    Valid:  anywhere; density by `seawater.density`.
    """
    _refuse.negative(mass=mass)
    _refuse.not_positive(molar_mass=molar_mass, density=density)
    return mass / (molar_mass * density) / _MICRO


def mass_of_content(content: MicromolePerKg, molar_mass: GramPerMole, density: KgPerM3) -> GramPerM3:
    """A reading in mg/L from content by the kilogram of water.

        m = c*M*rho

    Source: definition.
    Valid:  anywhere; density by `seawater.density`.
    """
    _refuse.negative(content=content)
    _refuse.not_positive(molar_mass=molar_mass, density=density)
    return content * _MICRO * molar_mass * density
