"""Salinity from what instruments show: conductivity and the bending of light. Hydrometers: `seawater`.

Every scale names the temperature it is made for. A hydrometer's reading is turned by
`seawater.salinity_from_specific_gravity`, grams in a kilogram by `seawater.practical_from_absolute`.
"""

from __future__ import annotations

from typing import cast

import numpy as np

from tidestead.core.dims import (
    Celsius,
    GramPerKg,
    Metre,
    PerKelvin,
    PracticalSalinity,
    Ratio,
    SiemensPerMetre,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

_MS_PER_CM: SiemensPerMetre = 0.1

_STANDARD: PracticalSalinity = 35.0

_SODIUM_LINE: Metre = 589.3e-9
"""Wavelength that refractometers are made for. Source: sodium D lines, mean."""

SCALE_AT: Celsius = 20.0
"""Temperature that the scales of refractometers are made for. Source: trade convention (nD20)."""

_SODIUM_CHLORIDE = 1.752e-4
"""Refractive index by g/kg of sodium chloride at 20 degC. Source: own line through the table of the CRC Handbook
of Chemistry and Physics (102nd edition), 0.1 to 6 %, as quoted; within 0.00006 of every row."""


def conductivity(sal_psu: PracticalSalinity, temp_c: Celsius) -> SiemensPerMetre:
    """Conductivity of seawater at the temperature it has and the pressure of the air; 1 S/m is 10 mS/cm.

        PSS-78 read backwards; C(35, 15 degC on the scale of 1968) = 42.914 mS/cm

    Source: UNESCO Technical Papers in Marine Science 44 (1983); IOC Manuals and Guides 56 (2010), through the
            library gsw.
    Valid:  salinity 2 to 42, -2 to 35 degC; below 2 by Hill's extension.
    """
    _refuse.negative(salinity=sal_psu)
    import gsw  # noqa: PLC0415 - only where it is asked for

    return cast(float, _MS_PER_CM * gsw.C_from_SP(sal_psu, temp_c, 0.0))


def salinity_from_conductivity(conductivity: SiemensPerMetre, temp_c: Celsius) -> PracticalSalinity:
    """Practical salinity from the conductivity at the temperature of the water, uncompensated.

        PSS-78

    Source: UNESCO Technical Papers in Marine Science 44 (1983), through the library gsw.
    Valid:  salinity 2 to 42, -2 to 35 degC; below 2 by Hill's extension. Salt of the sea's composition.
    """
    _refuse.negative(conductivity=conductivity)
    import gsw  # noqa: PLC0415 - only where it is asked for

    found = gsw.SP_from_C(np.divide(conductivity, _MS_PER_CM), temp_c, 0.0)
    if not np.all(np.isfinite(found)):
        raise ImpossibleInput(f"no seawater conducts {conductivity} S/m at {temp_c} degC")
    return cast(float, found)


def compensated_conductivity(
    conductivity: SiemensPerMetre, temp_c: Celsius, reference_c: Celsius, slope: PerKelvin
) -> SiemensPerMetre:
    """What an instrument shows that leads conductivity back to a temperature along a line.

        C_ref = C/(1 + a*(t - t_ref))      t_ref 25 or 20 degC, a often 0.019 to 0.021 for each kelvin

    Source: ISO 7888 (1985), linear compensation, from memory.
    Valid:  as the instrument's maker says. Seawater's own slope is 0.0197 at 25 degC, 0.0212 at 20.
    """
    _refuse.negative(conductivity=conductivity)
    return conductivity / _slope_factor(temp_c, reference_c, slope)


def seawater_slope(reference_c: Celsius) -> PerKelvin:
    """Slope of the line that leads the conductivity of seawater back rightly, close to the reference.

        a = (C(t_ref + 1/2) - C(t_ref - 1/2))/C(t_ref)      salinity 35

    Source: `conductivity`.
    Valid:  0 to 34 degC; 2 % steeper at salinity 10. A straight line errs by 0.3 of salinity ten kelvin below the
            reference, by 0.7 fifteen below.
    """
    half = 0.5
    above, below = (conductivity(_STANDARD, reference_c + step) for step in (half, -half))
    return (above - below) / conductivity(_STANDARD, reference_c)


def salinity_from_compensated(
    shown: SiemensPerMetre, temp_c: Celsius, reference_c: Celsius, slope: PerKelvin
) -> PracticalSalinity:
    """Practical salinity from an instrument that compensates along a line, its compensation taken back first.

        C = C_ref*(1 + a*(t - t_ref)), then PSS-78

    Source: `compensated_conductivity` read backwards, `salinity_from_conductivity`.
    Valid:  reference and slope as the instrument is set. At t = t_ref no slope matters.
    """
    return salinity_from_conductivity(shown * _slope_factor(temp_c, reference_c, slope), temp_c)


def refractive_index(sal_psu: PracticalSalinity, temp_c: Celsius, wavelength: Metre = _SODIUM_LINE) -> Ratio:
    """Refractive index of seawater, relative to air.

        n = n0 + (n1 + n2*T + n3*T**2)*S + n4*T**2 + (n5 + n6*S + n7*T)/w + n8/w**2 + n9/w**3      w in nm

    Source: Quan and Fry, Applied Optics 34 (1995) 3477-3480, a fit to Austin and Halikas (1976); as quoted.
    Valid:  salinity 0 to 35 (a little beyond is computed), 0 to 30 degC, 400 to 700 nm, pressure of the air.
    """
    _refuse.negative(salinity=sal_psu)
    _refuse.not_positive(wavelength=wavelength)
    slope, rest = _light(temp_c, wavelength)
    return slope * sal_psu + rest


def salinity_from_refractive_index(
    index: Ratio, temp_c: Celsius, wavelength: Metre = _SODIUM_LINE
) -> PracticalSalinity:
    """Salinity from a refractive index measured at a temperature.

        `refractive_index` read backwards: it is a straight line in S

    Source: Quan and Fry, Applied Optics 34 (1995) 3477-3480.
    Valid:  as that; 0.0001 of the index is half a unit of salinity, so hand-held instruments tell 1 at best.
    """
    _refuse.not_positive(wavelength=wavelength)
    slope, rest = _light(temp_c, wavelength)
    found = np.subtract(index, rest) / slope
    _refuse.negative(salinity_found=found)
    return cast(float, found)


def uncompensated_reading(sal_psu: PracticalSalinity, temp_c: Celsius) -> PracticalSalinity:
    """What a refractometer with a seawater scale for 20 degC, set with water of 20 degC, shows in other water.

        S such that n(S, 20 degC) = n(S_true, t)

    Source: `refractive_index`.
    Valid:  no compensation in the instrument; one that compensates, for its own temperature, shows less error.
            Never negative: below the scale it shows nothing.
    """
    slope, rest = _light(SCALE_AT, _SODIUM_LINE)
    shown = (refractive_index(sal_psu, temp_c) - rest) / slope
    return cast(float, np.maximum(shown, 0.0)[()])


def sodium_chloride_index(salt_gkg: GramPerKg) -> Ratio:
    """Refractive index of a solution of sodium chloride at 20 degC, sodium light, relative to air.

        n = n(0, 20 degC) + 0.0001752*w      w in g/kg

    Source: own line through the CRC Handbook of Chemistry and Physics (102nd edition), Concentrative Properties of
            Aqueous Solutions, as quoted.
    Valid:  0 to 60 g/kg, 20 degC, within 0.00006.
    """
    _refuse.negative(salt=salt_gkg)
    return refractive_index(0.0, SCALE_AT) + _SODIUM_CHLORIDE * salt_gkg


def sodium_chloride_reading(sal_psu: PracticalSalinity) -> GramPerKg:
    """What a refractometer with a scale for sodium chloride shows in seawater, both at 20 degC.

        w = (n(S, 20 degC) - n(0, 20 degC))/0.0001752

    Source: `refractive_index` and `sodium_chloride_index`.
    Valid:  zero set with pure water. Shows some 1.5 too much at 35; a solution of 36.5 g/kg sodium chloride
            therefore sets a seawater scale to 35.
    """
    return (refractive_index(sal_psu, SCALE_AT) - refractive_index(0.0, SCALE_AT)) / _SODIUM_CHLORIDE


def salinity_from_sodium_chloride_reading(shown_gkg: GramPerKg) -> PracticalSalinity:
    """Salinity of seawater that a refractometer with a scale for sodium chloride shows so, at 20 degC.

        `sodium_chloride_reading` read backwards

    Source: `refractive_index` and `sodium_chloride_index`.
    Valid:  as that.
    """
    return salinity_from_refractive_index(sodium_chloride_index(shown_gkg), SCALE_AT)


def _slope_factor(temp_c: float, reference_c: float, slope: float) -> float:
    factor = 1.0 + slope * np.subtract(temp_c, reference_c)
    if not np.all(np.greater(factor, 0.0)):
        raise ImpossibleInput(f"a slope of {slope} from {reference_c} degC leaves nothing at {temp_c} degC")
    return cast(float, factor)


def _light(temp_c: float, wavelength: float) -> tuple[float, float]:
    """The line that the index is in salinity: slope and what is left without salt."""
    if np.any(np.less(temp_c, -5.0)) or not np.all(np.less(temp_c, 50.0)):
        raise ImpossibleInput(f"water between -5 and 50 degC is meant, got {temp_c} degC")
    T, w = np.asarray(temp_c), np.asarray(wavelength) * 1e9
    slope = 1.779e-4 - 1.05e-6 * T + 1.6e-8 * T**2 + 0.01155 / w
    rest = 1.31405 - 2.02e-6 * T**2 + (15.868 - 0.00423 * T) / w - 4382.0 / w**2 + 1.1455e6 / w**3
    return cast(float, slope[()]), cast(float, rest[()])
