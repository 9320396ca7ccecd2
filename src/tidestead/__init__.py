"""Tidestead: decide, prove and look after a large self-built seawater aquarium."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tidestead.core import lent

if TYPE_CHECKING:
    from tidestead.core.units import SalinityReading

__version__ = "0.1.0"


def _meant(reading: SalinityReading) -> lent.Meant:
    """Seawater's laws, loaded when an instrument's reading is there to be turned."""
    from tidestead.studies.salt_scales import meant  # noqa: PLC0415 - help and faults come at once

    return meant(reading)


lent.lend(_meant)
