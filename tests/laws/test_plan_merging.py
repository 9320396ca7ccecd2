"""`all` says once what walls share; a wall's own words win, key by key."""

from __future__ import annotations

import pytest

from tidestead.plan import loads, wall_of
from tidestead.plan.merging import merged
from tidestead.plan.model import Vessel, Wall

TEXT = """\
tidestead = 1
name = "x"
[vessels.tank]
role = "sump"
shape = "box"
length = "2 m"
width = "1 m"
height = "1 m"
[vessels.tank.walls.all]
sheathing = { sheet = "birch-plywood-18", layers = 2 }
[vessels.tank.walls.all.studs]
section = "47 x 145 mm"
grade = "C24"
spacing = "400 mm"
top = { fastener = "screw-6x120", count = 4 }
[vessels.tank.walls.all.windows.eye]
width = "300 mm"
height = "200 mm"
thickness = "10 mm"
[vessels.tank.walls.south]
studs = { spacing = "300 mm", top = { count = 6 } }
sheathing = { layers = 1 }
windows.eye.thickness = "12 mm"
windows.low.width = "200 mm"
[vessels.tank.walls.north.rim]
lies = "flat"
"""


@pytest.fixture(scope="module")
def tank() -> Vessel:
    return loads(TEXT).plan.vessels["tank"]


def test_what_a_wall_says_wins_key_by_key(tank: Vessel) -> None:
    south, shared = wall_of(tank, "south"), tank.walls["all"]
    assert south.studs is not None
    assert shared.studs is not None
    assert (south.studs.spacing, south.studs.grade) == (0.3, "C24")
    assert (south.studs.top.count, south.studs.top.fastener) == (6, "screw-6x120")
    assert south.sheathing is not None
    assert (south.sheathing.layers, south.sheathing.sheet) == (1, "birch-plywood-18")
    assert (south.windows["eye"].thickness, south.windows["eye"].width) == (0.012, 0.3)
    assert list(south.windows) == ["eye", "low"]
    assert shared.studs.spacing == 0.4


def test_a_default_that_is_written_out_wins_over_what_is_shared(tank: Vessel) -> None:
    """layers = 1 is also what stands there when nobody says it; said, it counts."""
    south, east = wall_of(tank, "south").sheathing, wall_of(tank, "east").sheathing
    assert south is not None
    assert east is not None
    assert (south.layers, east.layers) == (1, 2)


def test_a_wall_that_says_nothing_is_what_all_says(tank: Vessel) -> None:
    assert wall_of(tank, "east") == tank.walls["all"]
    north = wall_of(tank, "north")
    assert north.rim is not None
    assert north.studs == tank.walls["all"].studs


def test_without_all_a_wall_is_its_own(tank: Vessel) -> None:
    alone = tank.model_copy(update={"walls": {"south": tank.walls["south"]}})
    assert wall_of(alone, "south") is tank.walls["south"]
    assert wall_of(alone, "north") == Wall()


def test_tables_merge_as_models_do() -> None:
    shared = {"a": {"b": 1, "c": 2}, "d": 3}
    assert merged(shared, {"a": {"c": 4}, "d": {"e": 5}}) == {"a": {"b": 1, "c": 4}, "d": {"e": 5}}
    assert shared == {"a": {"b": 1, "c": 2}, "d": 3}
