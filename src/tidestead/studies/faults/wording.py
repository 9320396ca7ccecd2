"""Words for times and for what may go wrong."""

from __future__ import annotations

import math
from collections.abc import Mapping

from tidestead.studies.faults.facts import Quantity

HARMS: Mapping[Quantity, str] = {
    "oxygen": "too little oxygen",
    "cold": "too cold",
    "hot": "too warm",
    "ammonia": "too much ammonia",
    "salt": "too salty",
    "fresh": "too fresh",
    "floor": "water on the floor",
    "low": "too little water in the display",
    "film": "film on the windows",
    "alkalinity": "too much alkalinity at once",
}
_TWO_DAYS = 48.0


def hours_words(hours: float) -> str:
    """A time as one says it: 12 min, 3.4 h, 17 h, 4.2 days."""
    if math.isinf(hours):
        return "never in the time followed"
    if hours < 1.0 / 60.0:
        return "at once"
    if hours < 1.0:
        return f"{60.0 * hours:.0f} min"
    if hours < _TWO_DAYS:
        return f"{hours:.2g} h" if hours < 10.0 else f"{hours:.0f} h"
    days = hours / 24.0
    return f"{days:.2g} days" if days < 10.0 else f"{days:.0f} days"
