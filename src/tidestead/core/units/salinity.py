"""Salinity as typed: practical salinity, grams per kilogram, or a hydrometer's specific gravity."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from tidestead.core.errors import QuantityError
from tidestead.core.units.numerals import numeral
from tidestead.core.units.reading import parse_part, to_float
from tidestead.core.units.symbols import canonical
from tidestead.core.units.typed import as_text, excerpt, plain

LIGHTEST, HEAVIEST = 0.9, 1.3
"""Specific gravities outside these are no water: saturated brine is about 1.2."""

SALTIEST = 70.0
"""psu or g/kg: the sea has 30 to 40, twice that is a slip of the pen."""

ADVICE = 'Write "35 psu", "35 g/kg" or "1.0264 sg at 25/25 degC".'

GRAVITY = (
    r"[sS][gG](?: at)? (?P<sample>-?[0-9.]+) ?(?P<own>[^0-9/]*?)"
    r" ?/ ?(?P<reference>-?[0-9.]+) ?(?P<unit>[^0-9/]+)"
)


@dataclass(frozen=True)
class SalinityReading:
    """What was read, on which scale; the two temperatures, in degree Celsius, of a specific gravity only."""

    kind: Literal["psu", "g/kg", "sg"]
    value: float
    sample_c: float | None = None
    reference_c: float | None = None

    @property
    def understood(self) -> str:
        """How it was understood, in words."""
        if self.kind == "psu":
            return f"{self.value:g} on the practical salinity scale"
        if self.kind == "g/kg":
            return f"{self.value:g} grams of salt per kilogram of water (ppt is taken as that)"
        return (
            f"specific gravity {self.value:g}: water at {self.sample_c:.4g} °C "
            f"against pure water at {self.reference_c:.4g} °C"
        )


def parse_salinity(text: str) -> SalinityReading:
    """The reading that "35 psu", "35 ppt" or "1.0264 sg at 25/25 degC" names. Raises `QuantityError`."""
    typed = as_text(text)
    words = plain(typed)
    if words.startswith("-"):
        raise QuantityError(excerpt(typed), "is below zero.", ADVICE)
    number = numeral(words, typed)
    value, rest = to_float(number.value, typed), number.rest.strip()
    if not rest:
        raise QuantityError(excerpt(typed), "has no unit.", _unit_advice(value, number.letters))
    if rest[:2].lower() == "sg":
        return _gravity(value, number.letters, rest, typed)
    kind = _KINDS.get(canonical(rest))
    if kind is None:
        told = f'has "{rest[:20]}", which is no unit of salinity known here.'
        raise QuantityError(excerpt(typed), told, ADVICE)
    if value > SALTIEST:
        told = f"must be {SALTIEST:g} or less: the sea has 30 to 40."
        raise QuantityError(excerpt(typed), told, ADVICE)
    return SalinityReading(kind, value)


_KINDS: Mapping[str, Literal["psu", "g/kg"]] = {"psu": "psu", "g/kg": "g/kg", "ppt": "g/kg", "‰": "g/kg"}


def _unit_advice(value: float, letters: str) -> str:
    """The number with a unit: one close to 1 is what a hydrometer shows."""
    if 1.0 <= value < HEAVIEST:
        return f'Write "{letters} sg at 25/25 degC" (or degF), as printed on the hydrometer, or "35 psu".'
    return f'Write "{letters} psu" or "{letters} g/kg".' if value <= SALTIEST else ADVICE


def _gravity(value: float, letters: str, rest: str, typed: str) -> SalinityReading:
    """A specific gravity with the temperature of the sample and of the water it is compared with."""
    found = re.fullmatch(GRAVITY, rest)
    if not found:
        raise QuantityError(
            excerpt(typed),
            "needs two temperatures: of the sample, and of the pure water it is compared with.",
            f'Write "{letters} sg at 25/25 degC" (or degF), as printed on the hydrometer.',
        )
    if not LIGHTEST < value < HEAVIEST:
        raise QuantityError(
            excerpt(typed), "is no specific gravity of water; seawater has about 1.026.", ADVICE
        )
    own = found["own"] or found["unit"]
    sample = parse_part(f"{found['sample']} {own}", typed, "temperature")
    reference = parse_part(f"{found['reference']} {found['unit']}", typed, "temperature")
    return SalinityReading("sg", value, sample, reference)
