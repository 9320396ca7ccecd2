"""The practical salinity that a reading means, whatever it was read with."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import lru_cache

from tidestead.core.errors import ImpossibleInput
from tidestead.core.lent import Meant
from tidestead.core.units import SalinityReading
from tidestead.physics import seawater
from tidestead.physics.water import readings

_MS_PER_CM = 0.1
"""In S/m."""

_LAST_DIGIT = 1e-4
"""Of a refractive index as instruments show it: pure water may read so much too low."""

_WITHOUT_ERROR = "taken as led back without error, for the water's own temperature is not typed"


def salinity_psu(reading: SalinityReading) -> float:
    """Practical salinity of a reading of any kind."""
    return meant(reading).psu


@lru_cache(maxsize=512)
def meant(reading: SalinityReading) -> Meant:
    """Practical salinity, and what was taken where the reading is silent. Raises ImpossibleInput."""
    return _BY_KIND[reading.kind](reading)


def _gravity(reading: SalinityReading) -> Meant:
    if reading.sample_c is None or reading.reference_c is None:
        raise ImpossibleInput(
            "a specific gravity needs the temperatures it was read and its instrument made at"
        )
    found = seawater.salinity_from_specific_gravity(reading.value, reading.sample_c, reading.reference_c)
    return Meant(float(found))


def _conductivity(reading: SalinityReading) -> Meant:
    shown, sample, reference = _MS_PER_CM * reading.value, reading.sample_c, reading.reference_c
    if sample is None and reference is None:
        raise ImpossibleInput("a conductivity needs the temperature it was read at or led back to")
    if reference is None or sample is None:
        at = sample if reference is None else reference
        psu = float(readings.salinity_from_conductivity(shown, at or 0.0))
        return Meant(psu, "" if reference is None else _WITHOUT_ERROR)
    slope = readings.seawater_slope(reference) if reading.slope is None else reading.slope
    own = f"along {100.0 * slope:.3g} % a kelvin, seawater's own slope there, for none is typed"
    psu = float(readings.salinity_from_compensated(shown, sample, reference, slope))
    return Meant(psu, own if reading.slope is None else "")


def _seawater_scale(reading: SalinityReading) -> Meant:
    """A scale for 20 degC: in other water, without compensation, it shows the index it meets there."""
    if reading.sample_c is None:
        return Meant(reading.value)
    return Meant(_bent(readings.refractive_index(reading.value, readings.SCALE_AT), reading.sample_c))


def _sodium_chloride(reading: SalinityReading) -> Meant:
    at = readings.SCALE_AT if reading.sample_c is None else reading.sample_c
    return Meant(_bent(readings.sodium_chloride_index(reading.value), at))


def _index(reading: SalinityReading) -> Meant:
    if reading.sample_c is None:
        raise ImpossibleInput("a refractive index needs the temperature of the drop")
    return Meant(_bent(reading.value, reading.sample_c))


def _bent(index: float, temp_c: float) -> float:
    """Salinity by the index at a temperature; nothing where it lies below pure water by a rounding."""
    pure = float(readings.refractive_index(0.0, temp_c))
    if pure - _LAST_DIGIT <= index <= pure:
        return 0.0
    return float(readings.salinity_from_refractive_index(index, temp_c))


_BY_KIND: Mapping[str, Callable[[SalinityReading], Meant]] = {
    "psu": lambda reading: Meant(reading.value),
    "g/kg": lambda reading: Meant(float(seawater.practical_from_absolute(reading.value))),
    "sg": _gravity,
    "mS/cm": _conductivity,
    "sea": _seawater_scale,
    "NaCl": _sodium_chloride,
    "nD": _index,
}
