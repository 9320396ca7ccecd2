"""Salinity as typed: practical salinity, grams per kilogram, or what an instrument shows."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from tidestead.core.errors import ImpossibleInput, QuantityError
from tidestead.core.units.numerals import numeral
from tidestead.core.units.reading import to_float
from tidestead.core.units.salt_instruments import BRIGHTEST, DULLEST, Shown, instrument
from tidestead.core.units.salt_readings import SalinityReading
from tidestead.core.units.symbols import canonical
from tidestead.core.units.typed import as_text, excerpt, plain

SALTIEST = 70.0
"""psu or g/kg: the sea has 30 to 40, twice that is a slip of the pen."""

ADVICE = (
    'Write "35 psu", "35 g/kg", "1.0264 sg at 25/25 degC", "53.1 mS/cm at 25 degC", '
    '"35 ppt seawater refractometer at 20 degC" or "1.3394 nD at 20 degC".'
)

_KINDS: Mapping[str, Literal["psu", "g/kg"]] = {"psu": "psu", "g/kg": "g/kg", "ppt": "g/kg", "‰": "g/kg"}


def parse_salinity(text: str) -> SalinityReading:
    """The reading that "35 psu", "35 ppt" or "53.1 mS/cm at 25 degC" names. Raises `QuantityError`."""
    typed = as_text(text)
    words = plain(typed)
    if words.startswith("-"):
        raise QuantityError(excerpt(typed), "is below zero.", ADVICE)
    number = numeral(words, typed)
    value, rest = to_float(number.value, typed), number.rest.strip()
    if not rest:
        raise QuantityError(excerpt(typed), "has no unit.", _unit_advice(value, number.letters))
    read = instrument(Shown(value, number.letters, rest, typed))
    if read is not None:
        return _salty(read, typed)
    kind = _KINDS.get(canonical(rest))
    if kind is None:
        told = f'has "{rest[:20]}", which is no unit of salinity known here.'
        raise QuantityError(excerpt(typed), told, ADVICE)
    if value > SALTIEST:
        told = f"must be {SALTIEST:g} or less: the sea has 30 to 40."
        raise QuantityError(excerpt(typed), told, ADVICE)
    return SalinityReading(kind, value)


def _unit_advice(value: float, letters: str) -> str:
    """The number with a unit: one close to 1 is what a hydrometer shows, one above 1.32 an index."""
    if DULLEST < value < BRIGHTEST:
        return f'Write "{letters} nD at 20 degC" for a refractive index, with the temperature of the drop.'
    if 1.0 <= value < DULLEST:
        return f'Write "{letters} sg at 25/25 degC" (or degF), as printed on the hydrometer, or "35 psu".'
    return f'Write "{letters} psu" or "{letters} g/kg".' if value <= SALTIEST else ADVICE


def _salty(read: SalinityReading, typed: str) -> SalinityReading:
    """A reading that some seawater gives."""
    try:
        psu = read.meant.psu
    except ImpossibleInput:
        told = "is what no seawater reads, from fresh to brine: the sea has 30 to 40 psu."
        raise QuantityError(excerpt(typed), told, ADVICE) from None
    if psu > SALTIEST:
        told = f"would be {psu:.0f} psu; it must be {SALTIEST:g} or less: the sea has 30 to 40."
        raise QuantityError(excerpt(typed), told, ADVICE)
    return read
