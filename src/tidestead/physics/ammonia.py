"""How much of the ammonia in water is un-ionised, which is the part that harms.

A test kit tells total ammonia. The share of it that is un-ionised grows tenfold with one pH, so the scale of the pH
matters: see `physics/ph.py`. Forms for the constant differ by up to 8 %; a limit is judged with the form it was
made with, which for the American marine limits is `pka_epa`.
"""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import PH, Celsius, GramPerM3, GramPerMole, Pascal, PracticalSalinity, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.ph import SALT_SHARE, PHScale, on_scale

NITROGEN_MASS: GramPerMole = 14.007
"""Source: IUPAC standard atomic weight."""

AMMONIA_PER_NITROGEN: Ratio = 17.031 / NITROGEN_MASS
"""Grams of NH3 that hold a gram of nitrogen. Source: IUPAC standard atomic weights."""

_KELVIN = 273.15
_ATMOSPHERE: Pascal = 101325.0


def pka_epa(sal_psu: PracticalSalinity, temp_c: Celsius, pressure: Pascal = _ATMOSPHERE) -> PH:
    """Constant of ammonium in seawater, as the American marine limits were worked out with.

        pKa = 9.245 + 0.116*I + 0.0324*(298 - T) + 0.0415*P/T      I = 19.9273*S/(1000 - 1.005109*S)

    P in atmospheres, T in kelvin; 298 as printed, not 298.15.
    Source: Khoo, Culberson and Bates (1977) as in EPA 440/5-88-004 (1989), quoted in public code.
    Valid:  salinity 5 to 40, 5 to 35 degC; pH of the NBS kind. Range recalled.
    """
    _refuse.no_water(sal_psu, temp_c)
    _refuse.not_positive(pressure=pressure)
    T = np.add(temp_c, _KELVIN)
    I = 19.9273 * sal_psu / (1000.0 - 1.005109 * sal_psu)  # noqa: E741 - the source's letter
    constant: PH = 9.245 + 0.116 * I + 0.0324 * (298.0 - T) + 0.0415 * (pressure / _ATMOSPHERE) / T
    return constant


def pka_whitfield(sal_psu: PracticalSalinity, temp_c: Celsius) -> PH:
    """Constant of ammonium in seawater after a second line of work.

        pKa = 0.0901821 + 2729.92/(t + 273.2) + (0.1552 - 0.0003142*t)*I      I = 19.973*S/(1000 - 1.2005109*S)

    Source: Whitfield (1974), Bower and Bidwell (1978) as in a procedure of the Florida Department of Environmental
            Protection, quoted in public code.
    Valid:  salinity 5 to 35, 5 to 35 degC, pH 7.8 to 8.3.
    """
    _refuse.no_water(sal_psu, temp_c)
    I = 19.973 * sal_psu / (1000.0 - 1.2005109 * sal_psu)  # noqa: E741 - the source's letter
    return 0.0901821 + 2729.92 / (temp_c + 273.2) + (0.1552 - 0.0003142 * temp_c) * I


def pka_bell(sal_psu: PracticalSalinity, temp_c: Celsius) -> PH:
    """Constant of ammonium as a plane through tables; the temperature is in Celsius, kelvin is a known mistake.

        pKa = 10.0423 - 0.0315536*t + 0.003071*S

    Source: Bell et al. (2007), equation 3, quoted in public code.
    Valid:  source's range not seen; within 8 % of the other forms at 20 to 30 degC.
    """
    _refuse.no_water(sal_psu, temp_c)
    return 10.0423 - 0.0315536 * temp_c + 0.003071 * sal_psu


def pka_emerson(temp_c: Celsius) -> PH:
    """Constant of ammonium in fresh water.

        pKa = 0.09018 + 2729.92/T

    Source: Emerson et al. (1975), quoted.
    Valid:  fresh water, 0 to 30 degC. In seawater it tells 17 to 27 % too much un-ionised ammonia.
    """
    _refuse.no_water(0.0, temp_c)
    constant: PH = 0.09018 + 2729.92 / np.add(temp_c, _KELVIN)
    return constant


def pka_clegg_whitfield(sal_psu: PracticalSalinity, temp_c: Celsius) -> PH:
    """Constant of ammonium on the total scale, counted in a kilogram of water without its salt.

        pKa = 9.244605 - 2729.33*(1/298.15 - 1/T) + (0.04203362 - 11.24742/T)*S**0.25
              + (-13.6416 + 1.176949*T**0.5 - 0.02860785*T + 545.4834/T)*S**0.5
              + (-0.1462507 + 0.0090226468*T**0.5 - 0.0001471361*T + 10.5425/T)*S**1.5
              + (0.004669309 - 0.0001691742*T**0.5 - 0.5677934/T)*S**2 + (-2.354039e-5 + 0.009698623/T)*S**2.5

    Source: Clegg and Whitfield, Geochimica et Cosmochimica Acta 59 (1995) 2403-2421, equation 18, quoted in public
            code.
    Valid:  salinity 0 to 40, -2 to 40 degC.
    """
    _refuse.no_water(sal_psu, temp_c)
    T = np.add(temp_c, _KELVIN)
    S, root = sal_psu, np.sqrt(T)
    constant: PH = (
        9.244605 - 2729.33 * (1.0 / 298.15 - 1.0 / T)
        + (0.04203362 - 11.24742 / T) * S**0.25
        + (-13.6416 + 1.176949 * root - 0.02860785 * T + 545.4834 / T) * S**0.5
        + (-0.1462507 + 0.0090226468 * root - 0.0001471361 * T + 10.5425 / T) * S**1.5
        + (0.004669309 - 0.0001691742 * root - 0.5677934 / T) * S**2
        + (-2.354039e-5 + 0.009698623 / T) * S**2.5
    )  # fmt: skip
    return constant


def share_at(pka: PH, ph: PH) -> Ratio:
    """Share of total ammonia that is un-ionised, where constant and pH are of one scale.

        f = 1/(1 + 10**(pKa - pH))

    Source: law of mass action.
    Valid:  anywhere.
    """
    _refuse.endless(pKa=pka, pH=ph)
    share: Ratio = 1.0 / (1.0 + 10.0 ** np.subtract(pka, ph))
    return share


def unionised_share(ph: PH, scale: PHScale, sal_psu: PracticalSalinity, temp_c: Celsius) -> Ratio:
    """Share of total ammonia that is un-ionised in seawater, to be held against the American marine limits.

        f = 1/(1 + 10**(pKa - pH))      pKa by `pka_epa`, pH told on the NBS scale

    Source: EPA 440/5-88-004 (1989), quoted; that its pH is of the NBS kind is our reading.
    Valid:  as `pka_epa` and `on_scale`; the highest of the sea forms, by up to 8 %.
    """
    return share_at(pka_epa(sal_psu, temp_c), on_scale(ph, scale, PHScale.NBS, sal_psu, temp_c))


def unionised_share_total(ph: PH, scale: PHScale, sal_psu: PracticalSalinity, temp_c: Celsius) -> Ratio:
    """Share of total ammonia that is un-ionised in seawater by the model of Clegg and Whitfield.

        f = 1/(1 + 10**(pKa - pH'))      pH' = pH on the total scale + log10(1 - 0.001005*S)

    pH' counts hydrogen in a kilogram of water, as the constant does; pH in a kilogram of seawater.
    Source: Clegg and Whitfield (1995), equation 18, quoted; kilograms as in the DOE handbook (1994).
    Valid:  as `pka_clegg_whitfield`; some programs leave the step of kilograms out, which tells 3.5 % more at 35.
    """
    total = on_scale(ph, scale, PHScale.TOTAL, sal_psu, temp_c)
    return share_at(pka_clegg_whitfield(sal_psu, temp_c), total + np.log10(1.0 - SALT_SHARE * sal_psu))


def ammonia_mass(nitrogen: GramPerM3) -> GramPerM3:
    """NH3 that holds so much nitrogen: 1 mg/L NH3-N is 1.216 mg/L NH3.

        NH3 = 17.031/14.007 * N

    Source: IUPAC standard atomic weights.
    Valid:  anywhere.
    """
    _refuse.negative(nitrogen=nitrogen)
    return nitrogen * AMMONIA_PER_NITROGEN


def unionised_ammonia(total_nitrogen: GramPerM3, share: Ratio) -> GramPerM3:
    """Un-ionised ammonia, as NH3, in water with so much total ammonia, as nitrogen.

        NH3 = 17.031/14.007 * f * TAN

    Source: definition.
    Valid:  anywhere.
    """
    _refuse.not_a_share(share=share)
    return ammonia_mass(total_nitrogen) * share


def total_that_holds(ammonia: GramPerM3, share: Ratio) -> GramPerM3:
    """Total ammonia, as nitrogen, of water that holds so much un-ionised ammonia, as NH3.

        TAN = 14.007/17.031 * NH3/f

    Source: definition.
    Valid:  anywhere.
    """
    _refuse.negative(ammonia=ammonia)
    _refuse.not_a_share(share=share)
    if np.any(np.less_equal(share, 0.0)):
        raise ImpossibleInput(
            "water without un-ionised ammonia holds none of it, however much ammonia it has"
        )
    return ammonia / (AMMONIA_PER_NITROGEN * share)
