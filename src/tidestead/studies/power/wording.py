"""Things, devices and rows of power in words."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal

from tidestead.catalog import Row
from tidestead.core.answer import Estimate
from tidestead.core.units import Price, System, show
from tidestead.plan.water_fields import OnCircuit
from tidestead.studies.power.facts import CableFacts
from tidestead.studies.power.things import words_of

_KWH, _HOUR = 3.6e6, 3600.0


def listed(words: Sequence[str]) -> str:
    """ "a", "a and b", "a, b and c"."""
    return " and ".join([", ".join(words[:-1]), words[-1]] if len(words) > 1 else words)


def items_words(items: Iterable[OnCircuit]) -> str:
    """ "pump return, air and dosing"."""
    return listed([words_of(item) for item in items]) or "nothing"


def capital(words: str) -> str:
    """As the begin of a sentence."""
    return words[:1].upper() + words[1:]


def cautions_of(row: Row) -> tuple[str, ...]:
    """What a row warns of."""
    found = row.tag("cautions", ())
    return found if isinstance(found, tuple) else ()


def copper(cable: CableFacts) -> str:
    """ "2.5 mm2", "AWG 12": the size that a cable is held to."""
    if cable.row is not None:
        return cable.row.title.removeprefix("Copper, ").replace("mm2", "mm²")
    return f"{1e6 * (cable.area or 0.0):g} mm²"


def level_words(amps: float) -> str:
    """ "30 mA"."""
    return f"{1e3 * amps:g} mA"


def energy_words(joules: float, system: System) -> str:
    """Energy of a year with no more digits than are known."""
    return show(_KWH * float(f"{joules / _KWH:.3g}"), "J", system)


def hours_words(seconds: float, system: System) -> str:
    """ "6.5 h": with no more digits than are known."""
    return show(_HOUR * float(f"{seconds / _HOUR:.2g}"), "s", system)


def money(joules: float, tariff: Price) -> Decimal:
    """What so much energy costs."""
    return (tariff.amount * Decimal(str(joules / _KWH))).quantize(Decimal("0.01"))


def cost_of(year: Estimate, tariff: Price) -> Estimate:
    """A year's energy in money, its range with it."""
    ends = [float(money(end, tariff)) for end in (year.low, year.likely, year.high)]
    return Estimate(ends[0], ends[1], ends[2], year.basis)
