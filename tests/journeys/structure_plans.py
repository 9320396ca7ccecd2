"""Plans that the journeys of structure are made on, and how they are asked.

TANK is the worked wall of 4 ft of water; VAT is small and sound in every check, so that whatever a change does to
it shows in its verdict; SHEET holds one window to print; TOWER is eight-sided. Every number is invented or printed.
"""

from __future__ import annotations

from functools import lru_cache

from tidestead import desk
from tidestead.core.answer import Answer, Check, Estimate, Verdict
from tidestead.core.units import System
from tidestead.plan import loads
from tidestead.studies.inputs import Inputs
from tidestead.studies.structure import study
from tidestead.studies.structure.facts import StructureFacts, VesselFacts
from tidestead.studies.structure.tower_facts import TowerFacts

HEAVY_WATER = """
[water]
salinity = "35 psu"
keep = "18.375 to 25 degC"
"""
"""64.00 lb/ft3 (1025.18 kg/m3) at its coolest, by the equation of state."""

TANK = (
    """\
tidestead = 1
name = "Worked wall"
show = "us"

[building]
warmest_wood = "98 degF"
humidity = "50 to 80 %"
"""
    + HEAVY_WATER
    + """
[vessels.tank]
role = "display"
stage = "filled"
shape = "box"
length = "12 ft"
width = "6 ft"
height = "4 ft"
water = "4 ft"
timber_rules = "NDS"
wood = "wet"
stands_on = { kind = "slab", slab_thickness = "6 in", soil = "gravel" }

[vessels.tank.lining]
kind = "sheet"
product = "epdm-45-mil"
seams = "plain"
ends_above_water = "3 in"
screws_through = false

[vessels.tank.walls.all]
sheathing = { sheet = "plywood-23/32", face_grain = "across studs" }
rim = { section = "2-2x6", grade = "spf-no2", lies = "flat" }

[vessels.tank.walls.all.studs]
section = "2x6"
grade = "spf-no2"
spacing = "16 in"
top = { fastener = "nail-16d", count = 9, into = "end" }
foot = { fastener = "nail-16d", count = 9, into = "end" }

[vessels.tank.walls.all.base]
carried_by = "ledger"
capacity = "500 lbf"
spacing = "1 ft"
bears_on = "steel"

[vessels.tank.ties.thirds]
across = "width"
at = ["4 ft", "8 ft"]
section = "2x6"
grade = "spf-no2"
end_joint = { fastener = "nail-16d", count = 10, into = "side" }

[vessels.tank.corners]
kind = "rigid"
joint = { fastener = "screw-lag-1/2x6", count = 6, into = "side" }
"""
)

_IN_METRES = (
    ('show = "us"', 'show = "metric"'),
    ('warmest_wood = "98 degF"', 'warmest_wood = "36.6667 degC"'),
    ('length = "12 ft"', 'length = "3657.6 mm"'),
    ('width = "6 ft"', 'width = "1828.8 mm"'),
    ('height = "4 ft"', 'height = "121.92 cm"'),
    ('water = "4 ft"', 'water = "1.2192 m"'),
    ('slab_thickness = "6 in"', 'slab_thickness = "152.4 mm"'),
    ('ends_above_water = "3 in"', 'ends_above_water = "76.2 mm"'),
    ('section = "2-2x6"', 'section = "2 of 38.1 x 139.7 mm"'),
    ('section = "2x6"', 'section = "38.1 x 139.7 mm"'),
    ('spacing = "16 in"', 'spacing = "406.4 mm"'),
    ('capacity = "500 lbf"', 'capacity = "2224.11 N"'),
    ('spacing = "1 ft"', 'spacing = "304.8 mm"'),
    ('at = ["4 ft", "8 ft"]', 'at = ["1.2192 m", "2.4384 m"]'),
)

VAT = """\
tidestead = 1
name = "Little vat"
show = "us"

[building]
warmest_wood = "85 degF"
humidity = "60 to 80 %"

[water]
salinity = "35 psu"
keep = "70 to 78 degF"

[vessels.vat]
role = "vat"
stage = "building"
shape = "box"
length = "6 ft"
width = "4 ft"
height = "2 ft 6 in"
water = "2 ft"
brim = "2 ft 3 in"
timber_rules = "NDS"
wood = "humid"
dry_mass_share = "15 %"
stands_on = { kind = "slab", slab_thickness = "6 in", soil = "gravel" }
test = { level = "2 ft 3 in", water = "fresh", lasts = "7 days" }

[vessels.vat.lining]
kind = "sheet"
product = "epdm-45-mil"
seams = "plain"
ends_above_water = "5 in"
screws_through = false

[vessels.vat.walls.all]
sheathing = { sheet = "plywood-23/32", face_grain = "across studs" }
rim = { section = "2x6", grade = "dfl-no2", lies = "flat" }

[vessels.vat.walls.all.studs]
section = "2x4"
grade = "dfl-no2"
spacing = "12 in"
top = { fastener = "screw-no14x4", count = 2, into = "side" }
foot = { fastener = "screw-no14x4", count = 3, into = "side" }

[vessels.vat.walls.all.base]
carried_by = "ledger"
capacity = "400 lbf"
spacing = "1 ft"
bears_on = "steel"

[vessels.vat.walls.south.windows.pane]
material = "acrylic-cast"
thickness = "1 1/4 in"
width = "30 in"
height = "18 in"
sill = "6 in"
from_left = "21 in"
edges = { left = "seat", right = "seat", bottom = "seat", top = "seat" }
temperature = "72 degF"

[vessels.vat.walls.south.windows.pane.seat]
width = "1 1/2 in"
bed = "silicone-neutral"
bed_thickness = "1/4 in"
gap = "1/8 in"
membrane = "clamp flange"

[vessels.vat.walls.south.windows.pane.opening]
sill_held_by = "jambs"

[vessels.vat.walls.south.windows.pane.opening.sill]
section = "2-2x4"
grade = "dfl-no2"
joint = { fastener = "screw-no14x4", count = 4, into = "side" }

[vessels.vat.walls.south.windows.pane.opening.header]
section = "2-2x4"
grade = "dfl-no2"
joint = { fastener = "screw-no14x4", count = 2, into = "side" }

[vessels.vat.walls.south.windows.pane.opening.jambs]
section = "2-2x4"
grade = "dfl-no2"
top = { fastener = "screw-no14x4", count = 3, into = "side" }
foot = { fastener = "screw-no14x4", count = 5, behind = "3 in", into = "side" }

[vessels.vat.ties.middle]
across = "width"
at = ["2 ft", "4 ft"]
section = "2x4"
grade = "dfl-no2"
end_joint = { fastener = "screw-no14x4", count = 3, into = "side" }

[vessels.vat.corners]
kind = "pinned"
joint = { fastener = "screw-no14x4", count = 3, into = "side" }
"""

PLAIN = VAT[: VAT.index("[vessels.vat.walls.south.windows")] + VAT[VAT.index("[vessels.vat.ties") :]
"""The vat without its window: quicker to answer."""

SHEET = """\
tidestead = 1
name = "One sheet"

[water]
salinity = "35 psu"
keep = "19.1 to 25 degC"

[yours.clear.printed]
like = "acrylic-cast"
modulus = "3300 MPa"
poisson = 0.38

[vessels.box]
role = "display"
stage = "filled"
shape = "box"
length = "4 m"
width = "2 m"
height = "1.4 m"
water = "1.2 m"
brim = "1.2 m"
timber_rules = "EC5"

[vessels.box.walls.south.windows.sheet]
material = "yours:printed"
thickness = "50 mm"
width = "1.8 m"
height = "1.2 m"
sill = "0 m"
edges = { left = "held", right = "held", bottom = "held", top = "free" }
temperature = "20 degC"
as_built = { thickness = "50 mm" }
"""

TOWER = """\
tidestead = 1
name = "Eight sides"

[building]
warmest_wood = "30 degC"
humidity = "60 to 80 %"

[water]
salinity = "35 psu"
keep = "24 to 26 degC"

[vessels.tower]
role = "fractionator"
shape = "polygon"
sides = 8
across = "600 mm"
height = "1.6 m"
water = "1.5 m"
brim = "1.55 m"
timber_rules = "EC5"
wood = "humid"
stands_on = { kind = "slab", slab_thickness = "150 mm", soil = "gravel" }

[vessels.tower.lining]
kind = "coating"
product = "liquid-rubber"
coats = 5
seams = "reinforced"
ends_above_water = "80 mm"
screws_through = false

[vessels.tower.walls.all]
sheathing = { sheet = "birch-plywood-15", face_grain = "across studs" }

[vessels.tower.rings]
section = "45 x 95 mm"
grade = "C24"
spacing = "400 mm"
corners = "pinned"
joint = { fastener = "bolt-m10", count = 4, rows = 4, into = "side" }

[vessels.tower.ribs]
section = "45 x 45 mm"
grade = "C24"
per_face = 1
at_corners = true

[vessels.tower.buttresses]
count = 4
reach = "400 mm"
section = "45 x 95 mm"
grade = "C24"
anchor_capacity = "1.5 kN"

[vessels.tower.cone]
height = "400 mm"
neck = "300 mm"
mass = "8 kg"
"""


def changed(text: str, *changes: tuple[str, str]) -> str:
    """A plan with each pair's first words, which stand in it once, replaced by its second."""
    for before, after in changes:
        assert text.count(before) == 1, f"{before!r} stands {text.count(before)} times in the plan"
        text = text.replace(before, after)
    return text


def in_metres(text: str) -> str:
    """TANK with every size typed in metric."""
    for before, after in _IN_METRES:
        assert before in text, before
        text = text.replace(before, after)
    return text


@lru_cache(maxsize=128)
def asked(text: str, system: System | None = None) -> Answer:
    """The answer to a plan, as a door gets it from the desk."""
    return desk.answer(loads(text), ["structure"], system)["structure"]


@lru_cache(maxsize=32)
def facts(text: str) -> StructureFacts:
    """What the study finds in a plan."""
    plan = loads(text).plan
    return study.find(Inputs(plan, plan.show))


def only_vessel(text: str) -> VesselFacts:
    """The one built vessel of a plan, as found."""
    (vessel,) = facts(text).built
    return vessel


def tower(text: str) -> TowerFacts:
    """The one built vessel of a plan, a tower, as found in its first case."""
    found = only_vessel(text).cases[0].tower
    assert found is not None
    return found


def checks(text: str) -> dict[str, Check]:
    """Checks by what follows "structure." in their id."""
    return {check.id.removeprefix("structure."): check for check in asked(text).checks}


def missing(text: str, ident: str) -> str:
    """Why a check cannot be made; it must be unproven, and the answer no better."""
    check = checks(text)[ident]
    assert check.verdict is Verdict.UNPROVEN
    assert asked(text).verdict in (Verdict.UNPROVEN, Verdict.FAILS)
    return check.missing


def use(text: str, ident: str) -> float:
    """Share of its limit that a check uses; fails where nothing could be proved."""
    share = checks(text)[ident].use
    assert share is not None, checks(text)[ident].missing
    return share


def limit(text: str, ident: str) -> float:
    """The limit of a check that has one, and not a lowest and a highest."""
    found = checks(text)[ident].limit
    assert isinstance(found, float), found
    return found


def value(text: str, ident: str) -> Estimate:
    """The estimate of a check."""
    estimate = checks(text)[ident].estimate
    assert estimate is not None, checks(text)[ident].missing
    return estimate


def worked(text: str, ident: str, symbol: str) -> float:
    """The result of one line of a check's working, in SI."""
    full = f"structure.{ident}"
    steps = [step for one in asked(text).working if one.check == full for step in one.steps]
    (found,) = [step.result for step in steps if step.symbol == symbol]
    return found
