"""A vessel: its shape, its water, what it is made of and what it stands on."""

from __future__ import annotations

from typing import Literal

from pydantic import Field

from tidestead.plan.climate_fields import Layers
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
from tidestead.plan.lining_fields import ClothWeight, LabelRate, LaidVolumes, Solids
from tidestead.plan.model.flow import AirFeed, FloatValve, Port
from tidestead.plan.model.part import Fixing, MeasuredTimber, Part
from tidestead.plan.model.tower import Cone, Ribs, Rings, TowerButtresses
from tidestead.plan.model.wall import Wall

BOX_WALLS = ("north", "south", "east", "west")


class Place(Part):
    """Where the vessel stands: corner or centre in the building, and its floor level above the datum."""

    x: Level | None = None
    """East of the corner that you count from."""
    y: Level | None = None
    """North of it."""
    floor: Level | None = None
    """Level of its floor above the datum of all levels."""


class TestFill(Part):
    """The first fill that proves the vessel."""

    level: Length | None = None
    """Depth of the test fill."""
    water: Literal["fresh", "seawater"] = "fresh"
    """What it is filled with."""
    lasts: Duration | None = None
    """How long the water stands."""


class StandsOn(Part):
    """What is under the vessel."""

    kind: Literal["slab", "ground", "joists"] | None = None
    """slab: concrete on the ground. ground: soil alone. joists: a timber floor."""
    slab_thickness: Length | None = None
    """Thickness of the slab."""
    soil: SoilName | None = None
    """What lies under the slab, where no report says what it bears."""
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
    """coating: painted on. sheet: a liner."""
    product: LiningName | None = None
    """A catalogue name, such as "epdm-45-mil"."""
    coats: Count | None = None
    """How many coats of a coating."""
    dry_film: Length | None = None
    """Measured or planned dry film; else coats times the film of one coat."""
    solids: Solids | None = None
    """Solids of a coating by volume, where its maker's sheet says another share than the catalogue."""
    label_rate: LabelRate | None = None
    """Area that one coat of it covers, as the label of its can says, such as "6 m2/L"."""
    laid: LaidVolumes = ()
    """What each coat so far took, in the order they were laid, such as ["4.5 L", "4.2 L"]."""
    cloth: ClothWeight | None = None
    """Glass cloth laid over all of an epoxy coating: the weight of a square metre of it."""
    over_rim: Length | None = None
    """How far a sheet reaches over the top of the wall, on every side; 1 ft (305 mm) when left out."""
    seams: Literal["plain", "reinforced"] | None = None
    """reinforced: fabric is laid in the seams, over a strip that is free to stretch."""
    ends_above_water: Level | None = None
    """How far above the water the lining is carried up before it ends."""
    screws_through: bool | None = None
    """Whether any screw goes through the lining below the water line."""


class Corner(Part):
    """How the rims of two walls meet."""

    kind: Literal["pinned", "rigid"] | None = None
    """pinned: the rims may turn against each other. rigid: they may not; it counts as pinned all the same."""
    joint: Fixing = Fixing()


class Tie(Part):
    """Timbers across the top from rim to rim."""

    across: Literal["length", "width"]
    """width: from south to north. length: from west to east."""
    at: Lengths
    """Places along the other direction, from the west or south end."""
    section: Section | None = None
    """Size of one tie."""
    grade: LumberName | None = None
    """Strength grade: a catalogue name."""
    end_joint: Fixing = Fixing()
    """What holds each end to the rim."""
    as_built: MeasuredTimber = MeasuredTimber()


class Vessel(Part):
    """Anything that holds water."""

    role: Literal["display", "sump", "fractionator", "vat", "reservoir"]
    """What it is for."""
    stage: Literal["planned", "building", "testing", "filled", "stocked"] = "planned"
    """How far it has got."""
    made: Literal["built", "bought"] = "built"
    """bought: nothing to prove here, its volume and weight count."""
    shape: Literal["box", "polygon", "round"]
    """box, or a tower: polygon or round."""
    length: Length | None = None
    """Box: inside, west to east."""
    width: Length | None = None
    """Box: inside, south to north."""
    across: Length | None = None
    """Polygon: inside, flat to flat. Round: inside diameter."""
    sides: Count | None = None
    """Polygon: how many faces."""
    height: Length
    """Inside, floor to the top of the wall."""
    water: Length | None = None
    """Depth in service."""
    brim: Length | None = None
    """Depth at which it spills; the height when left out."""
    lower_to: Length | None = None
    """Depth to which you would lower the water, for work or a catch; half its depth when left out."""
    holds: Literal["seawater", "fresh"] = "seawater"
    """What water."""
    place: Place = Place()
    test: TestFill = TestFill()
    stands_on: StandsOn = StandsOn()
    timber_rules: Literal["NDS", "EC5"] | None = None
    """The rules that timber is judged by: NDS (United States) or EC5 (Europe). Never guessed."""
    wood: Literal["dry", "humid", "wet"] | None = None
    """dry: proven dry, heated air. humid: under a roof beside water, vented. wet: may get and stay wet."""
    warmest_wood: Temperature | None = None
    """The warmest the timber stays for days on end; the building's when left out."""
    lining: Lining | None = None
    walls: dict[PartName, Wall] = Field(default_factory=dict)
    """`all`, then north, south, east, west of a box, or the face number of a tower."""
    corners: Corner | None = None
    ties: dict[PartName, Tie] = Field(default_factory=dict)
    """Timbers across the top of a box, by names of yours."""
    rings: Rings | None = None
    ribs: Ribs | None = None
    buttresses: TowerButtresses | None = None
    cone: Cone | None = None
    ports: dict[PartName, Port] = Field(default_factory=dict)
    """Places where water enters or leaves, by names of yours."""
    air: AirFeed | None = None
    """Air to a fractionator."""
    top_off: FloatValve | None = None
    insulation: Layers = ()
    """What is laid round the outside of its walls against the cold, from the wall outward, such as ["50 mm xps"]."""
    floor_insulation: Layers = ()
    """The same under its floor."""
    dry_mass_share: Share | None = None
    """Own mass of the empty vessel as a share of its water; an assumption when left out."""
