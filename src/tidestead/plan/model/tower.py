"""Parts of a tall vessel: rings round it, ribs up it, buttresses beside it, a cone on it."""

from __future__ import annotations

from typing import Literal

from tidestead.plan.fields import (
    Count,
    Force,
    Length,
    Lengths,
    LumberName,
    Mass,
    Moment,
    NeckWidth,
    Section,
    Spacing,
)
from tidestead.plan.model.part import Fixing, MeasuredTimber, Part


class Rings(Part):
    """Timber rings that hold the faces together like hoops."""

    section: Section | None = None
    """Breadth is up and down, depth is outward, when it lies flat."""
    grade: LumberName | None = None
    """Strength grade: a catalogue name."""
    spacing: Spacing | None = None
    """Centre to centre, from the bottom plate up."""
    at: Lengths = ()
    """Heights of the rings, where they are not evenly spaced."""
    corners: Literal["pinned", "rigid"] | None = None
    """pinned: a side may turn against the next. rigid: it may not; counts only with corner_capacity."""
    corner_capacity: Moment | None = None
    """What one corner joint may carry in bending for good. Without it the corners count as pinned."""
    joint: Fixing = Fixing()
    """Fasteners at each corner."""
    as_built: MeasuredTimber = MeasuredTimber()


class Ribs(Part):
    """Uprights on the outside of the sheathing, from bottom plate to top plate."""

    section: Section | None = None
    """Size of one rib; its depth resists the push."""
    grade: LumberName | None = None
    """Strength grade: a catalogue name."""
    per_face: Count | None = None
    """How many on each face, evenly spaced."""
    at_corners: bool = False
    """Polygon: whether a rib stands at each corner too. Without one the sheet there has nothing to span to."""
    as_built: MeasuredTimber = MeasuredTimber()


class TowerButtresses(Part):
    """Raking struts from the top of a tower to feet that widen its stand."""

    count: Count | None = None
    """How many round the tower."""
    reach: Length | None = None
    """How far each foot stands out from the outside of the tower."""
    section: Section | None = None
    """Size of one strut."""
    grade: LumberName | None = None
    """Strength grade: a catalogue name."""
    anchor_capacity: Force | None = None
    """What holds one foot down, for good."""


class Cone(Part):
    """A cone that sits on the top ring and gathers the foam."""

    height: Length
    """From its seat to its neck."""
    neck: NeckWidth
    """Inside diameter at the top."""
    mass: Mass | None = None
    """Of the empty cone."""
    water: Length | None = None
    """How high water stands in it above its seat."""
