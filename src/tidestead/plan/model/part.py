"""What every part of a plan shares: frozen, no unknown keys, measured values beside planned ones."""

from __future__ import annotations

from typing import Literal

from pydantic import BaseModel, ConfigDict

from tidestead.plan.fields import Count, FastenerName, Length, Numbers, Share


class Part(BaseModel):
    """One real thing. A change means a new copy; results are never stored here."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)


class MeasuredTimber(Part):
    """A piece of timber as it is found, beside as it was planned."""

    breadth: Length | None = None
    """Measured small side of one piece."""
    depth: Length | None = None
    """Measured large side of one piece."""
    lost: Share | None = None
    """Share of the depth gone to rot, notches or holes."""
    cracked: Numbers = ()
    """Numbers (from 1) of pieces that are cracked through and carry nothing."""


class MeasuredFixing(Part):
    """A fixing as it is found."""

    missing: Count = 0
    """How many fasteners are missing, rusted through or missed the wood."""


class Fixing(Part):
    """Fasteners of one kind that join two parts."""

    fastener: FastenerName | None = None
    """A catalogue name, such as "nail-16d" or "screw-6x120"."""
    count: Count | None = None
    """How many in this joint."""
    through: Length | None = None
    """Thickness of the piece under the fastener's head; that of one plank when left out."""
    behind: Length | None = None
    """Thickness of wood that can hold the point; that of the other piece when left out."""
    row_spacing: Length | None = None
    """Between neighbours of a row along the pull; the worst that counts is taken when left out."""
    rows: Count | None = None
    """How many such rows lie side by side; one when left out."""
    into: Literal["side", "end"] | None = None
    """Side grain or end grain of the piece that holds the point; the weaker is taken when left out."""
    as_built: MeasuredFixing = MeasuredFixing()
