"""Kinds of value that the electric part of a plan holds: voltages, currents, copper, stores of energy."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Annotated, TypeAlias

from tidestead.core.errors import QuantityError
from tidestead.core.units import Gallon, parse, show
from tidestead.core.units.gauges import parse_conductor
from tidestead.core.units.typed import excerpt
from tidestead.plan.fields import Typed

_CHARGE = re.compile(r"^\s*(?P<charge>[0-9][0-9., ]*)\s*a-?h\b\s*(?:at|@|x)?\s*(?P<rest>.*)$", re.IGNORECASE)
_HOUR = 3600.0
_HIGHEST_VOLTS = 1000.0
_MOST_AMPS = 1000.0
_MOST_RESIDUAL = 0.5
_THINNEST, _THICKEST = 0.05e-6, 400.0e-6
_MOST_ENERGY = 3.6e9
"""Own bounds, 1 MWh the last of them: no house has more, a slip of the unit does."""


def read_energy(text: str, gallon: Gallon) -> float:
    """ "5 kWh" or "100 Ah at 12 V", in joules. Raises QuantityError."""
    found = _CHARGE.match(text)
    if found is None:
        return parse(text, "energy", gallon)
    charge, rest = found["charge"].strip(), found["rest"].strip()
    if not rest:
        allowed = "is a charge; the energy of a battery is wanted, which its voltage makes of it."
        raise QuantityError(excerpt(text), allowed, f'Write "{charge} Ah at 12 V", or "5 kWh".')
    volts = _volts(rest, text, charge)
    if not 0.0 < volts <= _HIGHEST_VOLTS:
        allowed = f"has a voltage that no battery has: more than nothing, {_HIGHEST_VOLTS:g} V at most."
        raise QuantityError(excerpt(text), allowed, f'Write "{charge} Ah at 12 V", or "5 kWh".')
    return parse(f"{charge} A", "current") * _HOUR * volts


def _volts(rest: str, text: str, charge: str) -> float:
    try:
        return parse(rest, "voltage")
    except QuantityError as error:
        advice = f'Write "{charge} Ah at {error.bare or "12"} V".'
        raise QuantityError(excerpt(text), "must end with the voltage of the battery.", advice) from None


def read_conductor(text: str, gallon: Gallon) -> float:
    """ "2.5 mm2" or "AWG 10", in square metres of copper. Raises QuantityError."""
    area = parse_conductor(text, gallon)
    if not _THINNEST <= area <= _THICKEST:
        allowed = "is no conductor of a house: they have from 0.05 to 400 mm2."
        raise QuantityError(excerpt(text), allowed, 'Write "2.5 mm2" or "AWG 10".')
    return area


@dataclass(frozen=True)
class Thousandths(Typed):
    """A current of thousandths of an ampere: one in amperes is taken for a slip of the unit."""

    def _read(self, text: str, gallon: Gallon) -> float:
        value = float(super()._read(text, gallon))
        if self.most is not None and 1.0 <= value <= 1000.0 * self.most:
            limit = show(self.most, "A", "metric")
            allowed = (
                f"must be {limit} or less: a breaker is named in amperes, what leaks to earth in thousandths."
            )
            raise QuantityError(excerpt(text), allowed, f'Did you mean "{value:g} mA"?')
        return value


Volts: TypeAlias = Annotated[
    float, Typed("voltage", above=0.0, most=_HIGHEST_VOLTS, examples=("230 V", "120 V"))
]
"""Of mains or battery: high voltage is no matter for a house."""
Amps: TypeAlias = Annotated[float, Typed("current", above=0.0, most=_MOST_AMPS, examples=("16 A", "20 A"))]
ResidualAmps: TypeAlias = Annotated[
    float, Thousandths("current", above=0.0, most=_MOST_RESIDUAL, examples=("30 mA", "6 mA"))
]
"""At which a device trips, or what leaks: thousandths of an ampere. A whole ampere is a slip of the unit."""
ConductorArea: TypeAlias = Annotated[
    float,
    Typed("area", read=read_conductor, examples=("2.5 mm2", "AWG 10")),
]
BatteryEnergy: TypeAlias = Annotated[
    float,
    Typed("energy", above=0.0, most=_MOST_ENERGY, read=read_energy, examples=("5 kWh", "100 Ah at 12 V")),
]
Peak: TypeAlias = Annotated[float, Typed("ratio", above=0.0, most=1000.0, examples=("2",))]
Burns: TypeAlias = Annotated[float, Typed("ratio", above=0.0, most=1000.0, examples=("0.5",))]
PowerFactor: TypeAlias = Annotated[float, Typed("ratio", above=0.0, most=1.0, examples=("0.85",))]
"""Of apparatus as its plate gives it."""
