"""Which rules hold where: of countries with 120 V, or the international ones."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.catalog import Row, table
from tidestead.core.answer import Estimate
from tidestead.core.source import Source
from tidestead.physics.power.cables import conductor_resistance, copper_resistance
from tidestead.plan.model import Plan
from tidestead.studies.power.facts import CableFacts

_US_VOLTS, _MOST_US = 150.0, 260.0
_COOL_C = 20.0
_HAIR = 0.02
"""Share by which a printed cross section may miss that of the catalogue."""
_CLASS_A = 6.0e-3
"""Trip level, A, up to which a device is a ground-fault interrupter of class A."""


def is_us(plan: Plan) -> bool:
    """Whether the rules of countries with 120 V hold; their 208 and 240 V where the plan shows US units."""
    if plan.supply is None:
        return plan.show == "us"
    volts = plan.supply.volts
    return volts < _US_VOLTS or (plan.show == "us" and volts < _MOST_US)


def limit_row(name: str) -> Row:
    """One row of the table of electric limits."""
    return table("electric_limits")[name]


def loading(us: bool) -> Row:
    """Share of a breaker for hours on end."""
    return limit_row("loading-us" if us else "loading-iec")


def magnet(us: bool) -> Row:
    """How many times its rating a breaker bears without opening at once."""
    return limit_row("magnet-us" if us else "magnet-iec")


def residual_row(rated: float) -> Row:
    """The sort of residual-current device by its trip level."""
    return limit_row("gfci-a" if rated <= _CLASS_A * (1.0 + _HAIR) else "rcd-30")


def personal_row(us: bool) -> Row:
    """The sort of residual-current device that protects people: 6 mA by the US code, where 30 mA guards apparatus."""
    return limit_row("gfci-a" if us else "rcd-30")


def cable_of(area: float | None, length: float | None, us: bool, indoors: bool) -> CableFacts:
    """A cable as the table knows it; what is not known stays None."""
    if area is None:
        return CableFacts(None, length, None, None, None)
    warm = limit_row("warm-house")
    resistance = Estimate(
        float(copper_resistance(area, _COOL_C)),
        float(conductor_resistance(area, warm.si("air"))),
        float(conductor_resistance(area, warm.si("conductor"))),
        "cold solid copper to a cable as hot as it may get",
    )
    row = max(
        (one for one in _cables(us) if one.si("area") <= area * (1.0 + _HAIR)),
        key=lambda one: one.si("area"),
        default=None,
    )
    derated = warm.si("share") if indoors and not us else 1.0
    ampacity = None if row is None else row.si("ampacity") * derated
    return CableFacts(area, length, resistance, row, ampacity, derated)


def _cables(us: bool) -> Iterator[Row]:
    for row in table("electric_limits"):
        if row.tag("kind") == "cable" and row.name.startswith("copper-awg") == us:
            yield row


def ampacity_source(cable: CableFacts) -> Source:
    """Where the current that a cable bears is from."""
    row = cable.row or limit_row("copper-1p5mm2")
    return row.figure("ampacity").source
