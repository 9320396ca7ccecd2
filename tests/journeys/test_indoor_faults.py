"""Building, heaters, covers, lamps, corals and readings that do not fit: each fault in its line, with what to write."""

from __future__ import annotations

import pytest

from tests.journeys.flow_plans import changed
from tidestead.core.errors import PlanError
from tidestead.plan import loads

PLAN = """
tidestead = 1
name = "indoors"

[building]
shape = "lean-to"
length = "7 m"
width = "4 m"
eaves = "2.3 m"
ridge = "3.4 m"
faces = "south"
glazing = "pc-16-triple"
sides.back = { wall = ["18 mm plywood"] }

[vessels.basin]
role = "display"
made = "bought"
shape = "box"
length = "3 m"
width = "2 m"
height = "1.2 m"
water = "1.1 m"

[heaters.one]
vessel = "basin"
power = "1 kW"
setpoint = "25 degC"

[chillers.one]
vessel = "basin"
cooling = "2 kW"
draws = "700 W"
setpoint = "26 degC"

[covers.lid]
over = "basin"
share = "80 %"

[fans.one]
over = "basin"
speed = "1 m/s"
power = "40 W"
above = "27 degC"

[lamps.bars]
over = "basin"
power = "200 W"
hours = "11 h"
lights = "4 m2"

[corals.soft]
kind = "soft"
vessel = "basin"
depth = "0.5 to 0.9 m"

[measured]
light = ["310 umol/m2/s at 0.2 m", "240 umol/m2/s at 1.0 m"]
"""

CASES = (
    (
        "heater",
        ('[heaters.one]\nvessel = "basin"', '[heaters.one]\nvessel = "basn"'),
        "heaters.one.vessel",
        "basin",
    ),
    (
        "chiller",
        ('[chillers.one]\nvessel = "basin"', '[chillers.one]\nvessel = "sea"'),
        "chillers.one.vessel",
        "basin",
    ),
    (
        "cover",
        ('over = "basin"\nshare', 'over = "basinn"\nshare'),
        "covers.lid.over",
        'Did you mean "basin"?',
    ),
    ("fan", ('over = "basin"\nspeed', 'over = "tub"\nspeed'), "fans.one.over", "Vessels: basin."),
    (
        "lamp",
        ('over = "basin"\npower = "200 W"', 'over = "bassin"\npower = "200 W"'),
        "lamps.bars.over",
        "basin",
    ),
    (
        "coral",
        ('kind = "soft"\nvessel = "basin"', 'kind = "soft"\nvessel = "reef"'),
        "corals.soft.vessel",
        "basin",
    ),
    ("kind of coral", ('kind = "soft"', 'kind = "sfot"'), "corals.soft.kind", "soft"),
    ("face", ("sides.back =", "sides.bakc ="), "building.sides.bakc", "Did you mean back?"),
    ("second slope", ("sides.back =", "sides.roof-back ="), "building.sides.roof-back", "one slope"),
    ("ridge", ('ridge = "3.4 m"', 'ridge = "2.0 m"'), "building.ridge", "swap the two"),
    (
        "coral in the floor",
        ("0.5 to 0.9 m", "0.5 to 1.2 m"),
        "corals.soft.depth",
        "from the water's surface down",
    ),
    ("lamps all day and more", ('hours = "11 h"', 'hours = "25 h"'), "lamps.bars.hours", "hours of a day"),
    (
        "lamps beside the water",
        ('lights = "4 m2"', 'lights = "8 m2"'),
        "lamps.bars.lights",
        "part of the water",
    ),
    (
        "lamps beside the tank",
        ('lights = "4 m2"', 'reaches = "0 %"'),
        "lamps.bars.reaches",
        "enters the water",
    ),
    ("heater of nothing", ('power = "1 kW"', 'power = "0 W"'), "heaters.one.power", '"750 W"'),
    ("one reading", (', "240 umol/m2/s at 1.0 m"]', "]"), "measured.light[1]", "Add a second one"),
    ("one depth", ("at 1.0 m", "at 0.2 m"), "measured.light[2]", "different depths"),
)


def test_the_plan_itself_is_read() -> None:
    assert loads(PLAN).plan.corals["soft"].depth == (0.5, 0.9)


@pytest.mark.parametrize(
    ("change", "where", "advice"), [case[1:] for case in CASES], ids=[case[0] for case in CASES]
)
def test_each_misfit_is_told_in_its_line(change: tuple[str, str], where: str, advice: str) -> None:
    text = changed(PLAN, change)
    with pytest.raises(PlanError) as caught:
        loads(text)
    (fault,) = caught.value.faults
    assert fault.where == where
    assert advice in fault.advice
    assert fault.line is not None
    assert (fault.given or where.rsplit(".", maxsplit=1)[-1]) in text.splitlines()[fault.line - 1]


def test_all_of_them_at_once() -> None:
    """Faults of many parts are told together, from the top down."""
    text = changed(
        PLAN, *(case[1] for case in CASES if case[0] in ("heater", "cover", "ridge", "one depth", "face"))
    )
    with pytest.raises(PlanError) as caught:
        loads(text)
    assert [fault.where for fault in caught.value.faults] == [
        "building.ridge", "building.sides.bakc", "heaters.one.vessel", "covers.lid.over", "measured.light[2]",
    ]  # fmt: skip


def test_a_gable_may_have_a_back_slope_and_a_flat_roof_is_one() -> None:
    gable = changed(
        PLAN, ('"lean-to"', '"gable"'), ("sides.back =", "sides.roof-back ="), ('"3.4 m"', '"2.3 m"')
    )
    assert loads(gable).plan.building.sides["roof-back"].wall
