"""Cross sections of conductors: "2.5 mm2", "AWG 10", "10 AWG", "AWG 2/0"."""

from __future__ import annotations

import math
import re

from tidestead.core.errors import QuantityError
from tidestead.core.units.dimensions import Gallon
from tidestead.core.units.reading import parse
from tidestead.core.units.typed import as_text, excerpt, plain

_THICKEST, _FINEST = 0.46 * 0.0254, 0.005 * 0.0254
_STEPS = 39
"""Metres of No. 4/0 and No. 36, and steps between them. Source: ASTM B258, the definition of the gauge."""

_GAUGE = re.compile(r"awg ?(?P<before>[0-9/]+)|(?P<after>[0-9/]+) ?awg", re.IGNORECASE)
_WHOLE = re.compile(r"[0-9]{1,2}")
_OUGHTS = {"0": 0, "1/0": 0, "2/0": -1, "3/0": -2, "4/0": -3, "00": -1, "000": -2, "0000": -3}
_LARGEST_NUMBER = 40
ADVICE = 'Write "2.5 mm2" or "AWG 12".'


def gauge_diameter(gauge: int) -> float:
    """Metres across the bare round wire of an AWG number; 0 stands for 1/0, -3 for 4/0."""
    return float(_FINEST * (_THICKEST / _FINEST) ** ((36.0 - gauge) / _STEPS))


def parse_conductor(text: str, gallon: Gallon = None) -> float:
    """Square metres of copper in "2.5 mm2" or "AWG 10". Raises `QuantityError`."""
    typed = as_text(text)
    found = _GAUGE.fullmatch(plain(typed))
    if found is None:
        return _area(typed, gallon)
    letters = found["before"] or found["after"]
    number = _OUGHTS.get(letters)
    if number is None and _WHOLE.fullmatch(letters) and int(letters) <= _LARGEST_NUMBER:
        number = int(letters)
    if number is None:
        allowed = f"is no AWG number; they run from 4/0 to {_LARGEST_NUMBER}."
        raise QuantityError(excerpt(typed), allowed, ADVICE)
    return math.pi / 4.0 * gauge_diameter(number) ** 2


def _area(typed: str, gallon: Gallon) -> float:
    try:
        return parse(typed, "area", gallon)
    except QuantityError as error:
        if error.bare:
            gauge = f' or "AWG {error.bare}"' if _WHOLE.fullmatch(error.bare) else ""
            advice = f'Write "{error.bare} mm2"{gauge}.'
            raise QuantityError(error.given, error.allowed, advice) from None
        raise QuantityError(error.given, error.allowed, ADVICE) from None
