"""The building in space: closed, of the right size, looking the right way; light in it keeps to what light must."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from tests.laws.sun_paths import sun_path
from tidestead.plan import loads
from tidestead.plan.model import Plan
from tidestead.studies.house import House, house_of, sun_absorbed, sun_through, water_light
from tidestead.studies.house.daylight import convex_house, quarter_turns

TEXT = """
tidestead = 1
name = "house"

[building]
shape = "{shape}"
length = "8 m"
width = "5 m"
eaves = "2.2 m"
ridge = "{ridge}"
faces = "{faces}"
glazing = "pc-16-triple"
{more}

[vessels.tank]
role = "display"
made = "bought"
shape = "box"
length = "3 m"
width = "1.5 m"
height = "0.9 m"
water = "0.8 m"
{place}
"""


def plan_of(
    shape: str = "gable", faces: str = "south", more: str = "", place: str = "", ridge: str = "3.4 m"
) -> Plan:
    return loads(TEXT.format(shape=shape, faces=faces, more=more, place=place, ridge=ridge)).plan


def house(shape: str = "gable", faces: str = "south", more: str = "") -> House:
    return house_of(plan_of(shape, faces, more))


@pytest.mark.parametrize("shape", ["gable", "lean-to"])
def test_faces_close_and_hold_the_volume(shape: str) -> None:
    """Gauss: outward areas of a closed body sum to nothing, and distance times area sums to three times its volume."""
    found = house(shape)
    sums = np.sum([np.array(face.normal) * face.area for face in found.faces], axis=0)
    assert sums == pytest.approx([0.0, 0.0, found.floor_area], abs=1e-9)
    assert sum(face.offset * face.area for face in found.faces) / 3.0 == pytest.approx(found.volume)


def test_a_gable_by_hand() -> None:
    found = house("gable", "south-east")
    slope = math.hypot(2.5, 1.2)
    areas = {face.name: face.area for face in found.faces}
    assert areas == pytest.approx(
        {
            "front": 17.6,
            "back": 17.6,
            "left": 14.0,
            "right": 14.0,
            "roof": 8.0 * slope,
            "roof-back": 8.0 * slope,
        }
    )
    bearings = {face.name: round(math.degrees(face.azimuth_rad)) % 360 for face in found.faces}
    assert bearings == {"front": 135, "back": 315, "left": 225, "right": 45, "roof": 135, "roof-back": 315}
    assert math.degrees(found.face("roof").tilt_rad) == pytest.approx(math.degrees(math.atan(1.2 / 2.5)))
    assert found.face("roof").words == "the front slope of the roof"


def test_a_lean_to_rises_to_its_back() -> None:
    found = house("lean-to")
    areas = {face.name: face.area for face in found.faces}
    assert areas == pytest.approx(
        {"front": 17.6, "back": 27.2, "left": 14.0, "right": 14.0, "roof": 8.0 * math.hypot(5.0, 1.2)}
    )
    assert found.face("roof").normal[1] < 0.0


def test_what_is_unsaid_is_named_and_nothing_is_guessed() -> None:
    silent = loads('tidestead = 1\nname = "a"\n[building]\nlength = "8 m"\n').plan
    found = house_of(silent)
    assert not found.open
    assert found.faces == ()
    assert [one.key for one in found.missing] == [
        "building.shape", "building.width", "building.eaves", "building.ridge", "building.faces", "building.glazing",
    ]  # fmt: skip
    open_air = house_of(loads('tidestead = 1\nname = "a"\n').plan)
    assert open_air.open
    assert open_air.assumptions[0].key == "building"


def test_walls_clear_parts_and_other_buildings() -> None:
    more = """
sides.front = { clear = "60 %", wall = ["18 mm plywood"] }
sides.left = { wall = ["18 mm plywood", "100 mm mineral-wool"] }
sides.right = { clear = "50 %" }
sides.back = { behind = "building" }
sides.roof = { glazing = "glass-4" }
passes = "70 %"
"""
    found = house("gable", "south", more)
    clear = {face.name: face.clear / face.area for face in found.faces}
    assert clear == pytest.approx(
        {"front": 0.6, "left": 0.0, "right": 0.5, "back": 0.0, "roof": 1.0, "roof-back": 1.0}
    )
    assert [one.key for one in found.bare] == ["building.sides.back.wall", "building.sides.right.wall"]
    sheets = {face.name: face.glazing for face in found.faces}
    assert sheets["left"] is None
    assert sheets["front"] is not None
    assert sheets["front"].light == pytest.approx(0.70)
    assert sheets["roof"] is not None
    assert sheets["roof"].light == pytest.approx(0.90)


def test_sheet_keeps_no_more_than_what_does_not_go_through() -> None:
    sheet = house().face("roof").glazing
    assert sheet is not None
    angles = np.radians(np.arange(0.0, 91.0))
    through, kept = sun_through(sheet, angles), sun_absorbed(sheet, angles)
    assert np.all(through >= -1e-12)
    assert np.all(kept >= -1e-12)
    assert np.all(through + kept <= 1.0 + 1e-9)


def test_morning_is_as_afternoon_where_the_front_looks_south() -> None:
    """A sun as far east of south as another is west of it gives the same share, the tank in the middle."""
    plan, path = plan_of(), sun_path(50.0)
    mirrored = replace(path, azimuth_rad=2.0 * math.pi - path.azimuth_rad)
    one, other = (water_light(house_of(plan), plan.vessels["tank"], sun).beam for sun in (path, mirrored))
    assert one == pytest.approx(other, abs=1e-9)
    turned = plan_of(faces="west")
    assert not np.allclose(water_light(house_of(turned), turned.vessels["tank"], path).beam, one, atol=0.02)


def test_light_inside_is_less_than_outside_and_falls_with_dirt() -> None:
    clean, dirty = plan_of(more='dirt = "0 %"'), plan_of(more='dirt = "30 %"')
    path = sun_path(50.0)
    light = [water_light(house_of(plan), plan.vessels["tank"], path) for plan in (clean, dirty)]
    assert np.all(light[0].beam <= 0.8 * 0.73 + 1e-9)
    assert light[1].diffuse == pytest.approx(0.7 * light[0].diffuse)
    assert light[1].beam == pytest.approx(0.7 * light[0].beam)
    assert np.all(light[0].beam[path.up == 0.0] == 0.0)


def test_the_share_of_an_even_sky_is_that_of_the_sheet_where_all_is_clear() -> None:
    """Seen from low down in a wide flat house nearly all light comes by the roof: its hemispherical mean."""
    wide = plan_of(
        shape="lean-to",
        ridge="2.2 m",
        more='dirt = "0 %"\nbars = "0 %"',
        place='place = { floor = "-0.8 m" }',
    )
    wide = wide.model_copy(
        update={"building": wide.building.model_copy(update={"length": 400.0, "width": 400.0})}
    )
    found = house_of(wide)
    body = convex_house(found)
    light = water_light(found, wide.vessels["tank"], sun_path(50.0))
    angle = np.arcsin(np.sqrt((np.arange(400) + 0.5) / 400))
    sheet = found.face("roof").glazing
    assert sheet is not None
    assert light.diffuse == pytest.approx(float(np.mean(sun_through(sheet, angle))), abs=2e-3)
    assert body.through.shape == (5, 91)


def test_a_dark_roof_takes_the_light_of_the_high_sun() -> None:
    plan = plan_of(
        more='sides.roof = { wall = ["18 mm plywood"] }\nsides.roof-back = { wall = ["18 mm plywood"] }'
    )
    found = water_light(house_of(plan), plan.vessels["tank"], sun_path(20.0))
    high = sun_path(20.0).zenith_rad < math.radians(30.0)
    assert np.all(found.beam[high] == 0.0)
    assert found.beam.max() > 0.1


@pytest.mark.parametrize(
    ("faces", "turns"),
    [("south", 0), ("south-east", 0), ("south-west", 0), ("west", 1), ("north", 2), ("north-east", 2), ("east", 3),
     ("200 deg", 0), ("250 deg", 1), ("100 deg", 3)],
)  # fmt: skip
def test_a_vessels_compass_is_the_nearest_side(faces: str, turns: int) -> None:
    assert quarter_turns(house("gable", faces).facing_rad) == turns


def test_place_counts_from_the_south_west_corner() -> None:
    """By the roof's dark back slope: a tank at the north of a house that looks east stands at its right end."""
    at = 'place = { x = "1.75 m", y = "6.0 m" }'
    more = 'sides.right = { wall = ["18 mm plywood"] }'
    sky = {}
    for place in (at, 'place = { x = "1.75 m", y = "0.5 m" }'):
        plan = plan_of(faces="east", more=more, place=place)
        light = water_light(house_of(plan), plan.vessels["tank"], sun_path(50.0))
        assert light.missing == ""
        sky[place] = light.diffuse
    assert sky[at] < min(value for place, value in sky.items() if place != at)


def test_a_vessel_outside_its_building_is_not_reckoned() -> None:
    plan = plan_of(place='place = { x = "20 m", y = "1 m" }')
    light = water_light(house_of(plan), plan.vessels["tank"], sun_path(50.0))
    assert "not inside the building" in light.missing
    assert not light.beam.any()


def test_under_the_open_sky_all_arrives() -> None:
    vessel = TEXT.partition("{more}")[2].format(place="")
    plan = loads('tidestead = 1\nname = "pond"\n' + vessel).plan
    light = water_light(house_of(plan), plan.vessels["tank"], sun_path(50.0))
    assert light.diffuse == 1.0
    assert set(light.beam) == {0.0, 1.0}
