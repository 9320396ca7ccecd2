"""A plan with faults: every one is told at once, on its own line, with what to write instead."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.journeys.planted import (
    SOUND,
    TEN,
    WINDOW,
    expected_lines,
    faults_of,
    line_of,
    planted,
    told,
)
from tidestead.core.answer import Verdict
from tidestead.core.errors import PlanError
from tidestead.core.units import System
from tidestead.plan import load, loads, starter_text
from tidestead.plan.faults import missing_key
from tidestead.plan.lines import Lines
from tidestead.studies import flow
from tidestead.studies.inputs import Inputs

POLES = "must be from 90 S to 90 N"


def test_the_sound_plan_has_no_fault() -> None:
    assert loads(SOUND).plan.vessels["tank"].length == 4.0


@pytest.mark.parametrize("newline", ["\n", "\r\n"], ids=["LF", "CRLF"])
@pytest.mark.parametrize("mark", ["", "\ufeff"], ids=["plain", "marked"])
def test_ten_planted_faults_are_all_told_on_their_lines(newline: str, mark: str) -> None:
    text = planted()
    found = told(mark + text.replace("\n", newline))
    assert {where: fault.line for where, fault in found.items()} == expected_lines(text)
    for _, _, where, given in TEN:
        assert found[where].given.startswith(given)
        assert found[where].allowed
        assert found[where].advice


SYNTAX = (
    ('water = "1.1 m"', 'water = "1.1 m', "vessels.tank.water"),
    ('water = "1.1 m"', "water = 1.1 m", "vessels.tank.water"),
    ('water = "1.1 m"', "water =", "vessels.tank.water"),
    ('water = "1.1 m"', 'water "1.1 m"', "vessels.tank.water"),
    ('water = "1.1 m"', 'water = "1.1 m" deep', "vessels.tank.water"),
    ('water = "1.1 m"', 'water = ["1.1 m"', "vessels.tank.water"),
    ('water = "1.1 m"', 'water = { deep = "1.1 m"', "vessels.tank.water"),
    ('water = "1.1 m"', 'water = """1.1 m', "vessels.tank.water"),
    ('water = "1.1 m"', 'water = "1.1 m"\nwater = "1 m"', "vessels.tank.water"),
    ('water = "1.1 m"', 'water = "1.1 m"\n= 4', "vessels.tank"),
    ("[vessels.tank.ties.cross]", "[vessels.tank.ties.cross", "vessels.tank.ties.cross"),
    ("[vessels.tank.ties.cross]", "[vessels.tank.ties.cross] ties", "vessels.tank.ties.cross"),
    ('across = "width"', "across = 'width", "vessels.tank.ties.cross.across"),
    ('sill = "0.2 m"', "sill = 0.2m", f"{WINDOW}.sill"),
    ('left = "seat", right', 'left = "seat" right', f"{WINDOW}.edges"),
    ('thickness = "50 mm"', 'thickness = "50 \\mm"', f"{WINDOW}.thickness"),
)


@pytest.mark.parametrize("newline", ["\n", "\r\n"], ids=["LF", "CRLF"])
@pytest.mark.parametrize(("before", "after", "where"), SYNTAX, ids=[after for _, after, _ in SYNTAX])
def test_a_syntax_error_hides_no_other_fault_and_moves_no_line(
    before: str, after: str, where: str, newline: str
) -> None:
    text = planted()
    assert text.count(before) == 1
    text = text.replace(before, after)
    faults = faults_of(text.replace("\n", newline))
    at = line_of(text, after) + ("\n" in after)
    assert at in [fault.line for fault in faults if fault.where == where], faults
    others = {fault.where: fault.line for fault in faults if fault.where != where}
    for planted_at, line in expected_lines(text).items():
        assert others.pop(planted_at) == line
    assert not others


def test_an_unquoted_quantity_is_still_judged_as_one() -> None:
    faults = faults_of(SOUND.replace('"1.1 m"', "1.1 parsec"))
    assert [fault.allowed.split(",")[0] for fault in faults] == [
        "must stand in quotes.",
        'has "parsec"',
    ]
    assert faults[0].advice == 'Write "1.1 parsec".'


def test_the_words_of_a_fault() -> None:
    fault = told(SOUND.replace('spacing = "400 mm"', 'spacing = "24"'))[
        "vessels.tank.walls.all.studs.spacing"
    ]
    assert str(fault) == (
        'vessels.tank.walls.all.studs.spacing (line 15): "24" has no unit. Write "24 in" or "610 mm".'
    )


def test_a_misspelt_key_is_answered_with_the_nearest_and_not_called_missing_too() -> None:
    (fault,) = faults_of(SOUND.replace('height = "1.2 m"', 'hieght = "1.2 m"'))
    assert (fault.where, fault.line, fault.given) == ("vessels.tank.hieght", 9, 'hieght = "1.2 m"')
    assert fault.advice.startswith("Did you mean height? Known here: role, stage, ")


def test_an_unknown_name_is_answered_with_the_nearest_of_the_catalogue() -> None:
    (fault,) = faults_of(SOUND.replace("acrylic-cast", "acrylic-casted"))
    assert fault.advice.startswith('Did you mean "acrylic-cast"')


@pytest.mark.parametrize(
    ("before", "after", "where", "words"),
    [
        ('length = "4 m"\n', "", "vessels.tank.length", "a box needs it"),
        ('shape = "box"', 'shape = "polygon"', "vessels.tank.across", "a polygon needs it"),
        ('shape = "box"', 'shape = "polygon"', "vessels.tank.sides", "a polygon needs it"),
        ('shape = "box"', 'shape = "polygon"', "vessels.tank.length", "means nothing for a polygon"),
        ('shape = "box"', 'shape = "round"', "vessels.tank.across", "a round needs it"),
        ('shape = "box"', 'shape = "round"', "vessels.tank.ties", "means nothing for a round"),
        ('shape = "box"', 'shape = "polygon"\nsides = 2', "vessels.tank.sides", "must be 3 to"),
        ('water = "1.1 m"', 'water = "1.3 m"', "vessels.tank.water", "deeper than the height"),
        ('water = "1.1 m"', 'water = "1.1 m"\nbrim = "1.05 m"', "vessels.tank.water", "deeper than the brim"),
        ('water = "1.1 m"', 'brim = "1.3 m"', "vessels.tank.brim", "higher than the wall"),
        ('water = "1.1 m"', 'test.level = "2 m"', "vessels.tank.test.level", "deeper than the height"),
        ("walls.south.windows", "walls.left.windows", "vessels.tank.walls.left", "is not a wall"),
        ('water = "1.1 m"', 'stands_on.falls_to = "6"', "vessels.tank.stands_on.falls_to", "is not a wall"),
        ('height = "0.8 m"', 'height = "1.1 m"', f"{WINDOW}.sill", "sticks out above"),
        ('height = "0.8 m"', 'height = "1.3 m"', f"{WINDOW}.height", "sticks out above"),
        ('sill = "0.2 m"', 'sill = "0.2 m"\nfrom_left = "3 m"',
         f"{WINDOW}.from_left", "sideways"),
        ('sill = "0.2 m"', 'sill = "-0.1 m"', f"{WINDOW}.sill", "below the vessel floor"),
        ('thickness = "50 mm"', 'thickness = "50 mm"\nplies = ["10 mm", "10 mm"]',
         f"{WINDOW}.plies", "beside a thickness"),
        ('thickness = "50 mm"', 'as_built.thickness = "0 mm"',
         f"{WINDOW}.as_built.thickness", "must be more than 0"),
        ('bottom = "seat"', 'bottom = "rim"',
         f"{WINDOW}.edges.bottom", "cannot lean on the rim"),
        ('across = "width"', 'across = "width"\nas_built.cracked = [3]',
         "vessels.tank.ties.cross.as_built.cracked[1]", "there are 2"),
        ('across = "width"', 'across = "width"\nas_built.cracked = [0]',
         "vessels.tank.ties.cross.as_built.cracked[1]", "must be 1 or more"),
        ('across = "width"', 'across = "length"', "vessels.tank.ties.cross.at[2]", "within the vessel"),
        ('  "3 m",', '  "1 m",', "vessels.tank.ties.cross.at[2]", "place of another tie"),
        ("ties.cross]", "ties.Cross]", "vessels.tank.ties.Cross", "name of a part"),
        ('name = "Test basin"', 'name = "Test basin"\nsite.latitude = 91', "site.latitude", POLES),
        ('name = "Test basin"', 'name = "x"\nsite.elevation = "12 km"', "site.elevation", "9000 m or less"),
        ('name = "Test basin"', 'name = "Test basin"\nsite.latitude = nan', "site.latitude", POLES),
        ('name = "Test basin"', 'name = "x"\nsite.longitude = "3 N"', "site.longitude", "does not lie E or W"),
        ('name = "Test basin"', 'name = "Test basin"\ncurrency = "euro"', "currency", "has the wrong form"),
        ('name = "Test basin"', 'name = ""', "name", "is empty"),
        ('name = "Test basin"', "name = 2026-08-01", "name", "must be text in quotes"),
        ('water = "1.1 m"', 'lining = "rubber"', "vessels.tank.lining", "must be a table"),
        ('water = "1.1 m"', 'lining.coats = "5"', "vessels.tank.lining.coats", "whole number"),
        ('water = "1.1 m"', 'lining.screws_through = "no"', "vessels.tank.lining.screws_through", "true or"),
        ('water = "1.1 m"', 'rings = { at = ["1 m", "0.5 m"] }', "vessels.tank.rings.at[2]", "not above"),
        ('water = "1.1 m"', 'rings = { at = ["1 m"], spacing = "1 m" }',
         "vessels.tank.rings.spacing", "says again"),
        ('water = "1.1 m"', 'cone = { height = "1 m", neck = "3 m" }', "vessels.tank.cone.neck", "wider"),
    ],
)  # fmt: skip
def test_parts_that_do_not_fit(before: str, after: str, where: str, words: str) -> None:
    assert before in SOUND
    text = SOUND.replace(before, after, 1)
    fault = told(text)[where]
    assert words in fault.allowed
    assert fault.advice
    assert 1 <= (fault.line or 0) <= text.count("\n")


def test_windows_that_overlap() -> None:
    second = (
        "[vessels.tank.walls.south.windows.low]\n"
        'width = "1 m"\nheight = "0.3 m"\nsill = "0.1 m"\nfrom_left = "2 m"\n'
    )
    (fault,) = faults_of(SOUND + second)
    assert (fault.where, fault.allowed) == (
        "vessels.tank.walls.south.windows.low",
        "overlaps long in wall south.",
    )
    assert loads(SOUND + second.replace('"2 m"', '"3 m"')).plan.vessels


def test_a_window_that_all_walls_share_must_fit_each_of_them() -> None:
    text = SOUND.replace("walls.south.windows", "walls.all.windows").replace(
        'width = "2 m"\nheight = "0.8', 'width = "3 m"\nheight = "0.8'
    )
    faults = faults_of(text)
    assert {fault.where for fault in faults} == {"vessels.tank.walls.all.windows.long.width"}
    assert {fault.allowed for fault in faults} == {
        f"sticks out of wall {wall} sideways." for wall in ("east", "west")
    }


def test_a_face_of_a_polygon_is_as_wide_as_geometry_says() -> None:
    """Twelve sides of 640 mm flat to flat: each face 640 tan(15 deg) = 171.5 mm wide."""
    tower = """\
tidestead = 1
name = "Tower"
[vessels.tower]
role = "fractionator"
shape = "polygon"
sides = 12
across = "640 mm"
height = "1.5 m"
[vessels.tower.walls.6.windows.eye]
width = "171 mm"
height = "500 mm"
sill = "0.8 m"
"""
    assert loads(tower).plan.vessels["tower"].walls["6"].windows["eye"].width == 0.171
    (fault,) = faults_of(tower.replace("171 mm", "172 mm"))
    assert fault.line == 10
    (fault,) = faults_of(tower.replace("walls.6.", "walls.13."))
    assert fault.advice == "Its walls: 1 to 12; all for all of them."


def test_a_misspelt_key_in_a_row_of_the_users_own() -> None:
    row = '\n[yours.linings.mine]\nlike = "epdm-45-mil"\nelongatoin = "250 %"\n'
    (fault,) = faults_of(SOUND + row)
    assert (fault.where, fault.line) == ("yours.linings.mine.elongatoin", SOUND.count("\n") + 4)
    assert "Did you mean elongation?" in fault.advice


def test_own_rows_are_used_by_their_marked_name_only() -> None:
    row = '\n[yours.clear.mine]\nlike = "acrylic-cast"\nmodulus = "3200 MPa"\n'
    used = SOUND.replace('"acrylic-cast"', '"yours:mine"')
    assert loads(used + row).plan.yours["clear"]["mine"]["modulus"] == "3200 MPa"
    (fault,) = faults_of(SOUND.replace('"acrylic-cast"', '"mine"') + row)
    assert fault.advice == 'Write "yours:mine".'
    (fault,) = faults_of(used)
    assert fault.advice == "Write its figures under [yours.clear.mine]."
    (fault,) = faults_of(SOUND + row.replace("yours.clear", "yours.claer"))
    assert fault.advice.startswith("Did you mean clear?")


def test_a_plan_of_a_newer_layout_is_told_so_and_nothing_else() -> None:
    (fault,) = faults_of(SOUND.replace("tidestead = 1", "tidestead = 2\nnovelty = 3"))
    assert (
        str(fault)
        == "tidestead (line 1): 2 is a newer layout than this program knows (1). Bring tidestead up to date."
    )


@pytest.mark.parametrize(
    ("version", "words"),
    [("0", "no layout"), ('"1"', "without quotes"), ("1.0", "whole")],
)
def test_a_version_that_is_none(version: str, words: str) -> None:
    fault = told(SOUND.replace("tidestead = 1", f"tidestead = {version}"))["tidestead"]
    assert words in fault.allowed


def test_a_plan_may_be_partial() -> None:
    plan = loads('tidestead = 1\nname = "x"\n').plan
    assert not plan.vessels
    assert plan.water.salinity is None


@pytest.mark.parametrize("name", ["skerry", "packhouse"])
def test_the_example_plans_have_no_fault(name: str) -> None:
    plan = load(Path(__file__).parents[2] / "examples" / f"{name}.toml").plan
    assert plan.vessels
    assert plan.water.salinity is not None


@pytest.mark.parametrize("system", ["metric", "us"])
def test_the_starter_plans_have_no_fault(system: System) -> None:
    loaded = loads(starter_text(system))
    assert loaded.plan.show == system
    assert list(loaded.plan.vessels) == ["basin", "sump"]
    inputs = Inputs(loaded.plan, loaded.plan.show)
    answer = flow.judge(inputs, flow.find(inputs))
    silent = [check.id for check in answer.checks if check.verdict in (Verdict.FAILS, Verdict.UNPROVEN)]
    assert silent == []


US_PLAN = (
    'tidestead = 1\nname = "x"\nshow = "us"\n[site]\nlatitude = "45.2 E"\nlongitude = "3 S"\n'
    '[vessels.a]\nrole = "display"\nshape = "box"\nlength = 12\nwidth = “4 ft”\nheight = "0 ft"\n'
    '[vessels.a.walls.south.windows.w]\nthickness = 3\nwidth = "3-1/2"\n'
    '[vessels.b]\nrole = "sump"\nshape = "box"\nheight = 1200\n'
)


@pytest.mark.parametrize(
    ("where", "advice"),
    [
        ("site.latitude", 'Write it like 45.2 or "45.2 N"; south is negative.'),
        ("site.longitude", 'Write it like 3 or "3 E"; west is negative.'),
        ("vessels.a.length", 'Write "12 ft" or "12 in" or "12 m".'),
        ("vessels.a.width", 'Write "4 ft".'),
        ("vessels.a.height", 'Write it like "4 ft 6 in" or "1.2 m".'),
        ("vessels.a.walls.south.windows.w.thickness", 'Write "3 in" or "3 mm".'),
        ("vessels.a.walls.south.windows.w.width", 'Write "3-1/2 in".'),
        ("vessels.b.height", 'Write "1200 in" or "1200 mm".'),
        ("vessels.b.length", 'Add length = "12 ft".'),
    ],
)
def test_advice_is_in_the_units_of_the_plan_and_of_a_likely_size(where: str, advice: str) -> None:
    """One fault for each, none for a value that is plain once its curly quotes are straight."""
    with pytest.raises(PlanError) as raised:
        loads(US_PLAN)
    told = [fault for fault in raised.value.faults if fault.where == where]
    assert [fault.advice for fault in told] == [advice]


def test_advice_in_a_metric_plan_is_metric() -> None:
    with pytest.raises(PlanError) as raised:
        loads(US_PLAN.replace('"us"', '"metric"'))
    told = {fault.where: fault.advice for fault in raised.value.faults}
    assert told["vessels.a.length"] == 'Write "12 m" or "12 ft".'
    assert told["vessels.b.height"] == 'Write "1200 mm" or "1200 in".'
    assert told["vessels.a.walls.south.windows.w.thickness"] == 'Write "3 mm" or "3 in".'
    assert told["vessels.a.height"] == 'Write it like "1.2 m" or "4 ft 6 in".'


@pytest.mark.parametrize(
    ("path", "examples"),
    [
        (("vessels", "tower", "cone", "neck"), ("250 mm", "10 in")),
        (("vessels", "tower", "air", "bubble"), ("0.8 mm", "0.8 mm")),
        (("vessels", "sump", "top_off", "flow"), ("2 L/min", "30 US gal/h")),
        (("vessels", "sump", "top_off", "evaporation"), ("40 L/day", "10 US gal/day")),
        (("apparatus", "lamp", "uvc"), ("55 W", "55 W")),
    ],
)
def test_hints_are_of_the_size_that_the_key_has(path: tuple[str, ...], examples: tuple[str, str]) -> None:
    """A key that is missing is shown with a value that a builder could keep."""
    systems: tuple[System, System] = ("metric", "us")
    for system, example in zip(systems, examples, strict=True):
        advice = missing_key(path, Lines.of(""), system).advice
        assert advice == f'Add {path[-1]} = "{example}".'
