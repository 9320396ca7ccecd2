"""A window: a clear sheet set in a wall, and how each edge is held."""

from __future__ import annotations

from typing import Literal

from tidestead.plan.fields import (
    ClearName,
    Length,
    Lengths,
    Level,
    LineMoment,
    LumberName,
    SealName,
    Section,
    Share,
    Temperature,
)
from tidestead.plan.model.part import Fixing, Part

EdgeSupport = Literal["seat", "held", "clamped", "rim", "free"]
"""seat: leans on a frame that can only push back. held: cannot move either way but may turn.
clamped: cannot turn. rim: leans on the rim, which bends. free: nothing."""


class WindowEdges(Part):
    """How each edge of the sheet is supported. Never defaulted."""

    left: EdgeSupport
    """As seen from outside. seat: leans on a frame that can only push back. held: can move neither way but may
    turn. clamped: cannot turn. rim: leans on the rim, which bends. free: nothing holds it."""
    right: EdgeSupport
    """As for left."""
    bottom: EdgeSupport
    """As for left."""
    top: EdgeSupport
    """As for left."""


class Seat(Part):
    """What the sheet leans on and what keeps the water in."""

    width: Length | None = None
    """How much of the sheet rests on the frame at each seated edge."""
    bed: SealName | None = None
    """The seal or gasket between sheet and seat: a catalogue name."""
    bed_thickness: Length | None = None
    """Thickness of that bed."""
    gap: Length | None = None
    """Free room round each edge of the sheet for growth."""
    clamp_capacity: LineMoment | None = None
    """What the frame that clamps an edge may carry in bending for good, for each metre of edge."""
    membrane: Literal["clamp flange", "bed"] | None = None
    """How the lining meets the window: under a clamp flange, or in the bed."""


class Timber(Part):
    """A length of timber whose depth resists the push of the water."""

    section: Section | None = None
    """Its size."""
    grade: LumberName | None = None
    """Strength grade: a catalogue name."""


class Crosspiece(Part):
    """A timber that spans from jamb to jamb; its depth resists the push of the water."""

    section: Section | None = None
    """Its size."""
    grade: LumberName | None = None
    """Strength grade: a catalogue name."""
    joint: Fixing = Fixing()
    """What holds each of its ends to a jamb."""


class Jambs(Part):
    """Timbers beside a window, from base to rim; their depth resists the push of the water."""

    section: Section | None = None
    """Its size, or of several side by side."""
    grade: LumberName | None = None
    """Strength grade: a catalogue name."""
    top: Fixing = Fixing()
    """What holds the head of each to the rim."""
    foot: Fixing = Fixing()
    """What holds the foot of each to the base."""


class Opening(Part):
    """The timbers round a window, which hand its load to the rim and the base."""

    sill: Crosspiece | None = None
    """Under the clear opening and flush with it, so that the sheet's lower edge leans on it; from jamb to jamb."""
    sill_held_by: Literal["jambs", "base"] | None = None
    """jambs: the sill spans between them. base: it stands on the floor joint along its whole length."""
    header: Crosspiece | None = None
    """Over the clear opening of a sheet that ends below the rim, flush with it, from jamb to jamb."""
    jambs: Jambs | None = None
    """Beside the clear opening and flush with it, so that the sheet's sides lean on them; from base to rim."""


class MeasuredWindow(Part):
    """The sheet as it was delivered or is found."""

    thickness: Length | None = None
    """The least of several measured places."""


class Window(Part):
    """A clear sheet on a wall's wet side. Sizes are of the sheet itself; the clear opening follows from the seat."""

    material: ClearName | None = None
    """A catalogue name, such as "acrylic-cast"."""
    thickness: Length | None = None
    """Whole thickness of a single sheet. For laminated glass give `plies` instead."""
    plies: Lengths = ()
    """Thickness of each ply of a laminated glass."""
    width: Length | None = None
    """Of the whole sheet."""
    height: Length | None = None
    """Of the whole sheet."""
    sill: Level | None = None
    """Height of the sheet's lower edge above the vessel floor."""
    from_left: Length | None = None
    """From the left end of the wall, seen from outside, to the sheet; centred when left out."""
    edges: WindowEdges | None = None
    seat: Seat = Seat()
    opening: Opening = Opening()
    temperature: Temperature | None = None
    """The warmest the sheet stays for days on end."""
    creep: Share | None = None
    """Long-term stiffness as a share of the short-term one, from the maker's data."""
    edge_work: Literal["polished", "seamed", "as cut"] | None = None
    """How the edges of a glass sheet are worked. A free edge is pulled along; as cut is taken when left out."""
    bonded: bool = False
    """True when the sheet is made of pieces bonded edge to edge."""
    bow_limit: Length | None = None
    """The most you accept; else span over 200."""
    as_built: MeasuredWindow = MeasuredWindow()
