"""A vessel: its shape, its water, what it is made of and what it stands on."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from tidestead.plan.fields import (
    Count,
    Duration,
    FloorName,
    Length,
    Lengths,
    Level,
    LiningName,
    LumberName,
    PartName,
    Pressure,
    Section,
    Share,
    SoilName,
    Temperature,
)
from tidestead.plan.model.flow import AirFeed, FloatValve, Port
from tidestead.plan.model.part import Fixing, MeasuredTimber, Part
from tidestead.plan.model.tower import Cone, Ribs, Rings, TowerButtresses
from tidestead.plan.model.wall import Wall

BOX_WALLS = ("north", "south", "east", "west")


class Place(Part):
    """Where the vessel stands: corner or centre in the building, and its floor level above the datum."""

    x: Level | None = None
    y: Level | None = None
    floor: Level | None = None


class TestFill(Part):
    """The first fill that proves the vessel."""

    level: Length | None = None
    water: Literal["fresh", "seawater"] = "fresh"
    lasts: Duration | None = None


class StandsOn(Part):
    """What is under the vessel."""

    kind: Literal["slab", "ground", "joists"] | None = None
    slab_thickness: Length | None = None
    soil: SoilName | None = None
    bearing: Pressure | None = None
    """Allowed bearing from a soil report or the local code; wins over `soil`."""
    floor: FloorName | None = None
    """For joists: what the floor was built for."""
    capacity: Pressure | None = None
    """For joists: what an engineer allows, spread load."""
    drop: Length | None = None
    """How much the floor falls from end to end."""
    falls_to: str | None = None
    """The wall or face number where the floor is lowest."""
    settles: Length | None = None
    """Further drop you want tried, at the same wall."""


class Lining(Part):
    """What keeps the water in. It carries no load."""

    kind: Literal["coating", "sheet"] | None = None
    product: LiningName | None = None
    coats: Count | None = None
    dry_film: Length | None = None
    """Measured or planned dry film; else coats times the film of one coat."""
    seams: Literal["plain", "reinforced"] | None = None
    ends_above_water: Level | None = None
    """How far above the water the lining is carried up before it ends."""
    screws_through: bool | None = None
    """Whether any screw goes through the lining below the water line."""


class Corner(Part):
    """How the rims of two walls meet."""

    kind: Literal["pinned", "rigid"] | None = None
    joint: Fixing = Fixing()


class Tie(Part):
    """Timbers across the top from rim to rim."""

    across: Literal["length", "width"]
    at: Lengths
    """Places along the other direction, from the west or south end."""
    section: Section | None = None
    grade: LumberName | None = None
    end_joint: Fixing = Fixing()
    as_built: MeasuredTimber = MeasuredTimber()


class Vessel(Part):
    """Anything that holds water."""

    role: Literal["display", "sump", "fractionator", "vat", "reservoir"]
    stage: Literal["planned", "building", "testing", "filled", "stocked"] = "planned"
    made: Literal["built", "bought"] = "built"
    """bought: nothing to prove here, its volume and weight count."""
    shape: Literal["box", "polygon", "round"]
    length: Length | None = None
    """Box: inside, west to east."""
    width: Length | None = None
    """Box: inside, south to north."""
    across: Length | None = None
    """Polygon: inside, flat to flat. Round: inside diameter."""
    sides: Count | None = None
    height: Length
    """Inside, floor to the top of the wall."""
    water: Length | None = None
    """Depth in service."""
    brim: Length | None = None
    """Depth at which it spills; the height when left out."""
    holds: Literal["seawater", "fresh"] = "seawater"
    place: Place = Place()
    test: TestFill = TestFill()
    stands_on: StandsOn = StandsOn()
    timber_rules: Literal["NDS", "EC5"] | None = None
    wood: Literal["dry", "humid", "wet"] | None = None
    """dry: proven dry, heated air. humid: under a roof beside water, vented. wet: may get and stay wet."""
    warmest_wood: Temperature | None = None
    """The warmest the timber stays for days on end; the building's when left out."""
    lining: Lining | None = None
    walls: dict[PartName, Wall] = Field(default_factory=dict)
    """`all`, then north, south, east, west of a box, or the face number of a tower."""
    corners: Corner | None = None
    ties: dict[PartName, Tie] = Field(default_factory=dict)
    rings: Rings | None = None
    ribs: Ribs | None = None
    buttresses: TowerButtresses | None = None
    cone: Cone | None = None
    ports: dict[PartName, Port] = Field(default_factory=dict)
    air: AirFeed | None = None
    """Air to a fractionator."""
    top_off: FloatValve | None = None
    dry_mass_share: Share | None = None
    """Own mass of the empty vessel as a share of its water; an assumption when left out."""
