"""What things cost that would buy time when something stops; the answer on faults prices its helps by them."""

from __future__ import annotations

from tidestead.plan.model.part import Part
from tidestead.plan.price_fields import BatteryPrice, PiecePrice


class HelpPrices(Part):
    """What would buy time when something stops, each ready to use. What has no price here is told by its size alone."""

    battery: BatteryPrice | None = None
    """Of a kWh of battery with its inverter, such as "450 EUR/kWh"."""
    generator: PiecePrice | None = None
    """Of a generator with its lead, such as "700 EUR/piece"."""
    air_pump: PiecePrice | None = None
    """Of an air pump that takes over by itself, with stones and check valve."""
    cover: PiecePrice | None = None
    """Of a cover for nine tenths of the display."""
    drain: PiecePrice | None = None
    """Of one more drain like the one there is: bulkhead, pipe and bends."""
    leak_switch: PiecePrice | None = None
    """Of a switch on the floor that stops the pump and shuts the fresh water."""
