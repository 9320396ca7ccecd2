"""A wall: sheathing on studs, a rim along its top, a joint along its base, windows in it."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from tidestead.plan.fields import (
    Count,
    FastenerName,
    Force,
    Length,
    LumberName,
    PartName,
    Section,
    SheetName,
    Spacing,
)
from tidestead.plan.model.part import Fixing, MeasuredFixing, MeasuredTimber, Part
from tidestead.plan.model.window import Timber, Window


class MeasuredSheet(Part):
    """Sheathing as it is found."""

    thickness: Length | None = None
    """The least of several measured places."""


class Sheathing(Part):
    """The sheet that the water presses on the studs, behind the lining."""

    sheet: SheetName | None = None
    """A catalogue name, such as "plywood-18"."""
    layers: Count = 1
    """How many sheets, not glued to each other."""
    face_grain: Literal["across studs", "along studs", "along rings", "across rings"] = "across studs"
    """across studs and along rings: level. along studs and across rings: upright."""
    as_built: MeasuredSheet = MeasuredSheet()


class Studs(Part):
    """Upright timbers of a wall."""

    section: Section | None = None
    """Size of one stud; its depth resists the push."""
    grade: LumberName | None = None
    """Strength grade: a catalogue name."""
    spacing: Spacing | None = None
    """Centre to centre."""
    top: Fixing = Fixing()
    """What holds the head of each stud to the rim."""
    foot: Fixing = Fixing()
    """What holds the foot of each stud to the bottom plate."""
    as_built: MeasuredTimber = MeasuredTimber()


class Rim(Part):
    """The timber along the top of the wall that holds the heads of the studs."""

    section: Section | None = None
    """Size of one piece, or of several side by side: "2-2x6"."""
    grade: LumberName | None = None
    """Strength grade: a catalogue name."""
    lies: Literal["flat", "on edge"] | None = None
    """flat: wide face up, so that the depth resists the push. Never guessed."""
    as_built: MeasuredTimber = MeasuredTimber()


class BaseJoint(Part):
    """What carries the push at the foot of the wall. It takes twice what the rim takes."""

    carried_by: Literal["ledger", "anchors", "floor ties"] | None = None
    """ledger: a timber fixed to the floor outside the wall; anchors: bolts from the bottom plate into the
    slab; floor ties: timbers or straps under the floor from this wall to the opposite one."""
    fastener: FastenerName | None = None
    """What goes through the plate: a catalogue name."""
    capacity: Force | None = None
    """What one fastener or anchor may carry sideways for good, from its maker's data or an engineer: the working
    load under NDS, the design resistance under EC5."""
    bears_on: Literal["wood", "steel"] | None = None
    """wood: the anchor goes through the bottom plate and presses on its wood. steel: on an angle along the plate."""
    plate: Length | None = None
    """Thickness of the bottom plate or ledger that the fastener goes through."""
    spacing: Spacing | None = None
    """Centre to centre along the wall."""
    diameter: Length | None = None
    """Of an anchor."""
    embedment: Length | None = None
    """How deep an anchor sits in the slab."""
    edge_distance: Length | None = None
    """From the anchor to the edge of the slab that the push drives at."""
    tie: Timber | None = None
    """For floor ties: one of them, at every `spacing`."""
    tie_joint: Fixing = Fixing()
    """What holds each end of a floor tie to the bottom plates."""
    as_built: MeasuredFixing = MeasuredFixing()


class WallButtresses(Part):
    """Raking struts or frames that stand outside a wall and hold it up without ties."""

    spacing: Length | None = None
    """Centre to centre along the wall."""
    reach: Length | None = None
    """How far the foot stands out from the wall."""
    section: Section | None = None
    """Size of a strut."""
    grade: LumberName | None = None
    """Strength grade: a catalogue name."""
    anchor_capacity: Force | None = None
    """What holds the foot of the wall beside it down, for good."""
    heel_capacity: Force | None = None
    """What holds the heel against the sideways push, for good."""
    joint: Fixing = Fixing()
    """What holds the strut's head to the rim or post."""
    as_built: MeasuredTimber = MeasuredTimber()


class Wall(Part):
    """One wall of a vessel, or `all` for what they share. What is given here wins over `all`, key by key."""

    sheathing: Sheathing | None = None
    studs: Studs | None = None
    rim: Rim | None = None
    base: BaseJoint | None = None
    buttresses: WallButtresses | None = None
    windows: dict[PartName, Window] = Field(default_factory=dict)
    """Clear sheets in the wall, by names of yours."""
