"""What the floors above lend to this one: core reads what instruments show, and knows no law of seawater."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from tidestead.core.units.salt_readings import SalinityReading


class Meant(NamedTuple):
    """The practical salinity that a reading means, and in words what was taken where the reading is silent."""

    psu: float
    taken: str = ""


SaltLaw = Callable[["SalinityReading"], Meant]
_LENT: list[SaltLaw] = []


def lend(law: SaltLaw) -> None:
    """The law that tells what a reading means, which raises ImpossibleInput where no water reads so."""
    _LENT[:] = [law]


def meant(reading: SalinityReading) -> Meant:
    """The practical salinity of a reading. Raises ImpossibleInput."""
    return _LENT[0](reading)
