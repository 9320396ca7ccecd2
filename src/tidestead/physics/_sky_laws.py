"""The sky's longwave and its cloud, one number at a time. Private to physics: the sky's calculators of heat check and
offer them, the makers of weather compile them.

Each law stands alone (no law calls another), so that a compiler can take it by itself. Temperatures in degC.
"""

from __future__ import annotations

import math

_KELVIN = 273.15

_STEFAN = 5.670374419e-8
"""Stefan-Boltzmann constant, W/(m2 K4). Source: 2019 SI."""


def sky_emissivity_clark(dew_c: float, cloud_tenths: float) -> float:
    """Emissivity of the sky by the dew point at the ground and opaque cloud; Clark and Allen (1978)."""
    N = cloud_tenths
    clear = 0.787 + 0.764 * math.log((dew_c + _KELVIN) / _KELVIN)
    return min(1.0, max(0.0, clear) * (1.0 + N * (0.0224 + N * (-0.0035 + N * 0.00028))))


def sky_emissivity_berdahl(dew_c: float, hour: float, pressure: float, cloud_tenths: float) -> float:
    """Emissivity of the sky by the dew point at the ground, the hour from midnight, and opaque cloud.

    Clear: Berdahl and Martin (1984); cloud as Clark and Allen (1978).
    """
    N, D = cloud_tenths, dew_c / 100.0
    clear = 0.711 + D * (0.56 + 0.73 * D) + 0.013 * math.cos(2.0 * math.pi * hour / 24.0)
    clear = clear + 0.00012 * (pressure / 100.0 - 1000.0)
    return min(1.0, clear * (1.0 + N * (0.0224 + N * (-0.0035 + N * 0.00028))))


def sky_longwave(emissivity: float, temp_c: float) -> float:
    """Longwave that comes from the sky over air of a temperature, W/m2."""
    T = temp_c + _KELVIN
    return emissivity * _STEFAN * T * T * T * T


def sky_temperature(longwave: float) -> float:
    """Temperature of a black sky that sends so much, degC."""
    return math.sqrt(math.sqrt(longwave / _STEFAN)) - _KELVIN


def clear_sun(cosine: float) -> float:
    """Sun on level ground under a clear sky, W/m2, by the cosine of its angle from straight up.

    Source: Haurwitz (1945), as Reno, Hansen and Stein (2012) print it.
    """
    if cosine <= 0.0:
        return 0.0
    return 1098.0 * cosine * math.exp(-0.059 / cosine)


def cloud_of_sun(total: float, clear: float) -> float:
    """Share of the sky in cloud by the sun that came and the sun of a clear sky; Kasten and Czeplak (1980), turned
    round."""
    if clear <= 0.0:
        return 0.0
    dimmed = (1.0 - total / clear) / 0.75
    return math.pow(min(max(dimmed, 0.0), 1.0), 1.0 / 3.4)
