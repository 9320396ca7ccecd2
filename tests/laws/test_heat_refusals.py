"""What the year of heat refuses: parts that hang on nothing, tables of another size, weather that is no weather."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

import numpy as np
import pytest

from tests.laws import heat_systems as made
from tidestead.core.errors import ImpossibleInput
from tidestead.core.weather import HOURS
from tidestead.physics.heat import engine
from tidestead.physics.heat.system import (
    Body,
    Heating,
    Layer,
    Link,
    Room,
    Shade,
    Sheet,
    Side,
    System,
    Thermostat,
    Vents,
    Wall,
    Window,
)

SHEET = made.clear_sheet()
SHORT = np.zeros(24)
WALL = Wall("wall", 10.0, (made.PLY,))
WATER = Body("water", 4e6, 1.0)
HOLED = np.where(np.arange(HOURS) == 7, np.nan, 0.5)

IMPOSSIBLE: dict[str, tuple[Callable[..., Any], tuple[Any, ...], dict[str, Any], str]] = {
    "layer of nothing": (Layer, (), {}, "thickness"),
    "layer that conducts nothing": (Layer, (0.1, 0.0), {}, "conductivity"),
    "layer without resistance": (Layer, (), {"resistance": 0.0}, "resistance"),
    "layer lighter than nothing": (Layer, (0.1, 1.0, -5.0), {}, "density"),
    "wall without area": (Wall, ("wall", 0.0, (made.PLY,)), {}, "area"),
    "wall without layers": (Wall, ("wall", 1.0, ()), {}, "no layer"),
    "wall blacker than black": (Wall, ("wall", 1.0, (made.PLY,)), {"absorptance": 1.2}, "absorptance"),
    "wall that sends nothing inside": (
        Wall,
        ("wall", 1.0, (made.PLY,)),
        {"inside_emissivity": 0.0},
        "inside emiss",
    ),
    "sheet of few angles": (Sheet, (np.zeros((10, 2)), np.zeros(2), (), 3e3), {}, r"\(91, 2\)"),
    "sheet of other panes": (Sheet, (np.zeros((91, 2)), np.zeros(2), (3.0,), 3e3), {}, r"\(91, 3\)"),
    "sheet that makes light": (Sheet, (np.full((91, 2), 0.6), np.zeros(2), (), 3e3), {}, "together"),
    "sheet without heat": (Sheet, (np.zeros((91, 2)), np.zeros(2), (), 0.0), {}, "stores"),
    "sheet whose panes touch not": (
        Sheet,
        (np.zeros((91, 3)), np.zeros(3), (0.0,), 3e3),
        {},
        "between panes",
    ),
    "window without area": (Window, ("window", -1.0, SHEET), {}, "area"),
    "window cleaner than clean": (Window, ("window", 1.0, SHEET), {"clean": 1.1}, "clean"),
    "vents that open at once": (Vents, (25.0, 0.0), {}, "over"),
    "vents that blow out only": (Vents, (25.0,), {"rate": -1.0}, "rate"),
    "shade of more than all": (Shade, (1.5, 25.0), {}, "share"),
    "shade for a day": (Shade, (0.5, 25.0), {"drawn": SHORT}, "8760"),
    "thermostat against itself": (Thermostat, (25.0,), {"cool_to_c": 20.0}, "works against"),
    "thermostat that takes": (Thermostat, (25.0, -1.0), {}, "most heat"),
    "room without air": (Room, (0.0, 0.0), {}, "volume"),
    "room that leaks inward": (Room, (10.0, -1.0), {}, "infiltration"),
    "lamps for a day": (Room, (10.0, 0.0), {"lamps": SHORT}, "8760"),
    "side without area": (Side, (0.0, (made.PLY,)), {}, "area"),
    "side without layers": (Side, (1.0, ()), {}, "no layer"),
    "water without heat": (Body, ("water", 0.0, 1.0), {}, "stores"),
    "water of less than no surface": (Body, ("water", 1e6, -1.0), {}, "surface"),
    "sun with a hole": (Body, ("water", 1e6, 1.0), {"sun_beam": HOLED}, "no number"),
    "cover over more than all": (Body, ("water", 1e6, 1.0), {"cover": HOLED * 0.0 + 2.0}, "cover"),
    "cover for a day": (Body, ("water", 1e6, 1.0), {"cover": SHORT}, "8760"),
    "water saltier than salt": (Body, ("water", 1e6, 1.0), {"activity": 1.2}, "activity"),
    "heater that takes": (Heating, (0, -5.0, 24.0), {}, "power"),
    "stream uphill": (Link, (0, 1, -3.0), {}, "carries"),
    "wall in the open": (System, (None, (WALL,)), {}, "need a room"),
    "window in the open": (System, (None, (), (Window("window", 1.0, SHEET),)), {}, "need a room"),
    "side onto no room": (System, (), {"bodies": (made.tank(),)}, "onto a room"),
    "heater in no water": (System, (), {"heatings": (Heating(0, 5.0, 24.0),)}, "body 0"),
    "link to nowhere": (System, (), {"bodies": (WATER,), "links": (Link(0, 1, 3.0),)}, "link"),
    "link to itself": (System, (), {"bodies": (WATER,), "links": (Link(0, 0, 3.0),)}, "link"),
    "room of nothing": (System, (Room(10.0, 0.0),), {}, "at least"),
    "ground whiter than white": (System, (), {"albedo": 1.5}, "albedo"),
}


@pytest.mark.parametrize("name", IMPOSSIBLE)
def test_refused_where_it_is_made(name: str) -> None:
    make, given, named, word = IMPOSSIBLE[name]
    with pytest.raises(ImpossibleInput, match=word):
        make(*given, **named)


def test_refused_when_it_is_laid_out_or_begun() -> None:
    with pytest.raises(ImpossibleInput, match="8760"):
        engine.prepare(made.leanto(), made.night(), SHORT)
    with pytest.raises(ImpossibleInput, match="from 0 to 1"):
        engine.prepare(made.leanto(), made.night(), np.full(HOURS, 2.0))
    ready = engine.prepare(made.leanto(), made.night())
    with pytest.raises(ImpossibleInput, match="1 bodies"):
        engine.begin(ready, [20.0, 20.0], 20.0)
    with pytest.raises(ImpossibleInput, match="finite"):
        engine.begin(ready, [float("nan")], 20.0)


@pytest.mark.parametrize("row", range(9))
@pytest.mark.parametrize("wrong", [float("nan"), float("inf")])
def test_weather_with_a_hole_is_refused(row: int, wrong: float) -> None:
    ready, rows = engine.prepare(made.pond(), made.night()), made.steady(10.0)
    rows[row, 4000] = wrong
    with pytest.raises(ImpossibleInput, match="no number"):
        engine.run(ready, rows, engine.begin(ready, [20.0], 20.0), 24)


def test_runs_that_are_none_are_refused() -> None:
    ready, rows = engine.prepare(made.pond(), made.night()), made.steady(10.0)
    state = engine.begin(ready, [20.0], 20.0)
    for hours, steps in ((0, 4), (24, 0), (-3, 4), (24, -1)):
        with pytest.raises(ImpossibleInput, match="at least one"):
            engine.run(ready, rows, state, hours, 0, steps)
    for other in (rows[:8], rows[:, :24], np.zeros((9, HOURS + 24)), rows[0]):
        with pytest.raises(ImpossibleInput, match="9 rows"):
            engine.run(ready, other, state, 24)
    wider = engine.prepare(replace(made.pond(), bodies=(*made.pond().bodies, WATER)), made.night())
    with pytest.raises(ImpossibleInput, match="another system"):
        engine.run(wider, rows, state, 24)
