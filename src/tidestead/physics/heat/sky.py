"""How cold the sky is: its emissivity by dew point and cloud, its longwave, and cloud where nobody looked."""

from __future__ import annotations

from typing import cast

import numpy as np

from tidestead.core.dims import Array, Celsius, Hour, Pascal, Radian, Ratio, WattPerM2
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse, _sky_laws, air
from tidestead.physics._each import each

_KELVIN = 273.15
_DAY = 24
_DRIEST: Pascal = 1.0
"""Air drier than this has a dew point that no formula of the sky is made for."""

_DIM: WattPerM2 = 10.0
"""Days whose clear sun is weaker than this on average say nothing of cloud. Common practice, no source."""


def clark_emissivity(dew_c: Celsius, cloud: Ratio) -> Ratio:
    """Emissivity of the sky by the dew point at the ground and the share of it in opaque cloud.

        e = (0.787 + 0.764*ln(Td/273.15))*(1 + 0.0224*N - 0.0035*N**2 + 0.00028*N**3)      N: tenths, Td: K

    Source: Clark and Allen (1978), as quoted; cloud by Walton (1983). Copies with other signs or digits go round.
    Valid:  dew point -20 to 30 degC; 0.04 to 0.10 above `berdahl_emissivity` in dry air. At most 1.
    """
    _refuse.not_a_share(cloud=cloud)
    _not_frozen_out(dew_c)
    return each(_sky_laws.sky_emissivity_clark, dew_c, 10.0 * cloud)


def berdahl_emissivity(dew_c: Celsius, hour: Hour, pressure: Pascal, cloud: Ratio) -> Ratio:
    """Emissivity of the sky by the dew point at the ground, the hour from midnight, and the share in opaque cloud.

        e = 0.711 + 0.56*D + 0.73*D**2 + 0.013*cos(2*pi*h/24) + 0.00012*(p - 1000)       D = Td/100, p: mbar

    Source: Berdahl and Martin (1984), as quoted; cloud as in `clark_emissivity`, which is common practice.
    Valid:  dew point -20 to 30 degC; one copy counts the pressure from 1013.25 mbar, 0.0016 less. At most 1.
    """
    _refuse.not_a_share(cloud=cloud)
    _refuse.not_positive(pressure=pressure)
    _not_frozen_out(dew_c)
    return each(_sky_laws.sky_emissivity_berdahl, dew_c, hour, pressure, 10.0 * cloud)


def swinbank_temperature(temp_c: Celsius) -> Celsius:
    """Temperature of a clear sky by that of the air alone.

        T_sky = 0.0552*T**1.5       K

    Source: Swinbank (1963), as quoted.
    Valid:  clear sky; a second opinion where the dew point is not known.
    """
    if not np.all(np.greater(temp_c, -_KELVIN)):
        raise ImpossibleInput(f"nothing is colder than {-_KELVIN} degC, got {temp_c} degC")
    cold: Celsius = 0.0552 * np.add(temp_c, _KELVIN) ** 1.5 - _KELVIN
    return cold


def longwave(emissivity: Ratio, temp_c: Celsius) -> WattPerM2:
    """Longwave that comes from the sky on level ground.

        L = e*s*T**4

    Source: Stefan-Boltzmann law.
    Valid:  exact; T of the air at the ground, which the emissivity is made for.
    """
    _refuse.not_a_share(emissivity=emissivity)
    return each(_sky_laws.sky_longwave, emissivity, temp_c)


def sky_temperature(longwave: WattPerM2) -> Celsius:
    """Temperature that a black sky would have to send so much.

        T = (L/s)**(1/4)

    Source: Stefan-Boltzmann law.
    Valid:  exact.
    """
    _refuse.negative(longwave=longwave)
    return each(_sky_laws.sky_temperature, longwave)


def clear_sun(zenith: Radian) -> WattPerM2:
    """Sun on level ground under a clear sky, by its angle from straight up.

        G0 = 1098*cos z*exp(-0.059/cos z)

    Source: Haurwitz (1945), as Reno, Hansen and Stein, SAND2012-2389, print it.
    Valid:  near sea level; 10 % more in clear mountain air, less in haze. Kasten and Czeplak's 910*cos z - 30 for
            northern Germany lies 10 to 15 % below it.
    """
    return each(_sky_laws.clear_sun, np.cos(zenith))


def cloud_of_sun(total: WattPerM2, clear: WattPerM2) -> Ratio:
    """Share of the sky in cloud by the sun that came on level ground and what a clear sky would have sent.

        N = ((1 - G/G0)/0.75)**(1/3.4), from 0 to 1; no sun to compare with: 0

    Source: Kasten and Czeplak (1980), turned round.
    Valid:  means of some hours; one hour errs by half the sky.
    """
    _refuse.negative(sun=total, clear_sun=clear)
    return each(_sky_laws.cloud_of_sun, total, clear)


def daily_cloud(total: Array, zenith: Array) -> Array:
    """Cloud of every hour of whole days, from the sun of each day; days with next to no sun have that of the last
    day with some. Arrays of (hours,), from midnight.

        N of a day = `cloud_of_sun`(sum of G, sum of G0)

    Source: Kasten and Czeplak (1980), by the day; that it holds by night too is our own choice.
    Valid:  whole days; no sun all through: half the sky.
    """
    hours = np.asarray(total, dtype=float)
    if hours.ndim != 1 or hours.size % _DAY or hours.shape != np.shape(zenith):
        raise ImpossibleInput(
            f"whole days of 24 hours are meant, got {np.shape(total)} and {np.shape(zenith)}"
        )
    came = hours.reshape(-1, _DAY).mean(axis=1)
    clear = np.reshape(clear_sun(cast(float, zenith)), (-1, _DAY)).mean(axis=1)
    told = clear >= _DIM
    if not told.any():
        return np.full(hours.size, 0.5)
    dimmed = np.clip((1.0 - came / np.where(told, clear, 1.0)) / 0.75, 0.0, 1.0) ** (1.0 / 3.4)
    days = np.arange(told.size)
    last = np.maximum.accumulate(np.where(told, days, -1))
    last[last < 0] = days[told][-1]
    return np.repeat(dimmed[last], _DAY)


def yearly_longwave(temp_c: Celsius, humidity: Ratio, cloud: Ratio) -> WattPerM2:
    """Longwave from the sky where nobody measured it, by temperature, relative humidity and cloud; arrays of hours.

        L = e*s*T**4       e: `clark_emissivity` at the dew point of that air

    Source: Clark and Allen (1978), Stefan-Boltzmann law; dew point by Hyland and Wexler (1983).
    Valid:  as those. A year of hours takes some hundredths of a second.
    """
    _refuse.not_a_share(humidity=humidity, cloud=cloud)
    vapour = np.maximum(humidity * air.saturation_pressure(temp_c), _DRIEST)
    emissivity = clark_emissivity(air.dew_point(vapour), cloud)
    return longwave(emissivity, temp_c)


def _not_frozen_out(dew_c: Celsius) -> None:
    if not np.all(np.greater(dew_c, -100.0)):
        raise ImpossibleInput(f"a dew point above -100 degC is meant, got {dew_c} degC")
