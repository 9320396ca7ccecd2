"""The balance of every step of systems of all kinds, and again from the hourly columns alone."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws import heat_systems as made
from tests.laws.test_heat_engine import INTO_HOUSE, INTO_WATER
from tests.many import many
from tidestead.core.dims import Array
from tidestead.core.weather import HOURS
from tidestead.physics.heat import engine
from tidestead.physics.heat._layout import LATENT
from tidestead.physics.heat.system import (
    Body,
    Heating,
    Layer,
    Link,
    Room,
    Shade,
    Side,
    System,
    Thermostat,
    Vents,
    Wall,
    Window,
)

CLOSES = 1e-9
"""Share of the heat that moved in a step. It comes out near 1e-13; the bound of the subject is 1e-6."""
STACKS = (
    (made.PLY,),
    (made.PLY, made.FOAM, made.PLY),
    (made.SOIL, made.CONCRETE),
    (Layer(resistance=0.4), made.ACRYLIC),
)
BEARINGS = st.floats(0.0, 2.0 * math.pi)
SHARES = st.floats(0.0, 1.0)
NIGHTLY = (np.arange(HOURS) % 24 < 8).astype(float)
CUT = np.where((np.arange(HOURS) // 24) % 3 == 1, 0.0, 1.0)


def walls() -> st.SearchStrategy[Wall]:
    return st.builds(
        Wall,
        st.just("wall"),
        st.floats(1.0, 60.0),
        st.sampled_from(STACKS),
        st.sampled_from(("weather", "air", "ground", "kept", "nothing")),
        st.sampled_from((0.0, 0.5, made.UPRIGHT, made.UNDER)),
        BEARINGS,
        absorptance=SHARES,
        emissivity=st.floats(0.0, 1.0),
        inside_absorptance=SHARES,
        inside_emissivity=st.floats(0.05, 1.0),
        kept_c=st.floats(-5.0, 30.0),
        far_film=st.floats(0.0, 30.0),
        wets=st.booleans(),
    )


def windows() -> st.SearchStrategy[Window]:
    return st.builds(
        Window,
        st.just("window"),
        st.floats(0.5, 40.0),
        st.sampled_from([made.clear_sheet(panes) for panes in (1, 2, 3)]),
        st.sampled_from((0.0, 0.4, made.UPRIGHT)),
        BEARINGS,
        SHARES,
        st.booleans(),
    )


def rooms() -> st.SearchStrategy[Room]:
    vents = st.builds(
        Vents, st.floats(15.0, 30.0), st.floats(0.5, 6.0), st.sampled_from((0.0, 0.01)), st.sampled_from((0.0, 1.0)),
        st.floats(0.0, 2.0),
    )  # fmt: skip
    shades = st.builds(Shade, SHARES, st.floats(15.0, 35.0), st.booleans(), st.sampled_from((None, NIGHTLY)))
    thermostats = st.sampled_from(
        (
            Thermostat(),
            Thermostat(15.0, 800.0),
            Thermostat(18.0, cool_to_c=24.0),
            Thermostat(cool_to_c=20.0, cool_most=2e3),
        )
    )
    return st.builds(
        Room,
        st.floats(5.0, 300.0),
        st.floats(0.0, 2.0 / 3600.0),
        st.none() | vents,
        st.none() | shades,
        thermostats,
        st.floats(0.0, 500.0),
        st.floats(0.0, 300.0),
        st.floats(1.0, 10.0),
        st.sampled_from((None, NIGHTLY * 200.0)),
    )


def bodies(onto: tuple[str, ...]) -> st.SearchStrategy[Body]:
    sides = st.builds(
        Side, st.floats(0.5, 20.0), st.sampled_from(STACKS), st.sampled_from(onto),
        st.sampled_from((made.UPRIGHT, made.UNDER)), BEARINGS, SHARES,
    )  # fmt: skip
    return st.builds(
        Body,
        st.just("water"),
        st.floats(1e5, 1e8),
        st.floats(0.0, 20.0),
        st.lists(sides, max_size=3).map(tuple),
        st.floats(0.9, 1.0),
        st.sampled_from((None, np.full(HOURS, 0.4))),
        st.floats(0.0, 0.5),
        st.sampled_from((None, NIGHTLY * 0.9)),
        SHARES,
        st.floats(0.01, 0.3),
        st.sampled_from((None, NIGHTLY * 150.0)),
        st.floats(0.0, 400.0),
        st.floats(0.0, 2.0),
        st.floats(10.0, 30.0),
        st.floats(0.0, 0.3),
        st.floats(0.0, 1.5),
        st.booleans(),
    )


@st.composite
def systems(draw: Any) -> System:
    in_house = draw(st.booleans())
    room = draw(rooms()) if in_house else None
    waters = draw(
        st.lists(bodies(("room", "ground", "weather") if in_house else ("ground", "weather")), max_size=3)
    )
    shell = tuple(draw(st.lists(walls(), max_size=4))) if in_house else ()
    clear = tuple(draw(st.lists(windows(), max_size=3))) if in_house else ()
    if in_house and not (shell or clear):
        shell = (draw(walls()),)
    numbers = range(len(waters))
    heatings = tuple(
        draw(
            st.builds(
                Heating,
                st.just(body),
                st.floats(0.0, 3000.0),
                st.floats(10.0, 30.0),
                st.floats(0.1, 1.0),
                st.booleans(),
                st.floats(0.0, 300.0),
            )
        )
        for body in numbers
        if draw(st.booleans())
    )
    links = tuple(Link(one, one + 1, draw(st.floats(0.0, 5000.0))) for one in numbers if one + 1 in numbers)
    return System(room, shell, clear, tuple(waters), heatings, links, draw(SHARES), draw(SHARES))


def check_balance(system: System, found: engine.HeatYear, start: list[float]) -> None:
    """Every step, every hour from the columns, and the stores of the water over the whole run."""
    assert all(np.isfinite(column).all() for column in found.columns.values())
    assert found.closure < CLOSES
    if system.room is not None:
        assert found["humidity"].max() < 1.1, "fog takes what the air cannot hold"
    for parts, whole in ((INTO_WATER, "w_stored"), (INTO_HOUSE, "h_stored")):
        moved = sum(np.abs(found[name]) for name in parts) + np.abs(found[whole]) + 3600.0
        gap = sum(found[name] for name in parts) - found[whole]
        assert np.max(np.abs(gap) / moved) < CLOSES, whole
    stores = np.array([body.stores for body in system.bodies])
    before = np.column_stack([start, found.water_c[:, :-1]]) if len(start) else found.water_c
    stored = (stores[:, None] * (found.water_c - before)).sum(axis=0)
    np.testing.assert_allclose(stored, found["w_stored"], rtol=1e-9, atol=1e-6 * stores.sum() + 1.0)
    np.testing.assert_allclose(-found["w_evaporation"], found["evaporated"] * LATENT, rtol=1e-9, atol=1e-3)
    assert (found["condensate"] > -1e-6).all() or system.room is not None


@settings(max_examples=many(60), deadline=None)
@given(systems(), st.sampled_from((1, 2, 4, 7)), st.integers(0, HOURS - 1), st.floats(5.0, 35.0))
def test_any_system_closes(system: System, steps: int, first: int, temp: float) -> None:
    start = [temp + number for number in range(len(system.bodies))]
    ready = made.prepared(system, CUT)
    found = engine.run(ready, made.coast(), engine.begin(ready, start, temp - 3.0), 72, first, steps)
    check_balance(system, found, start)


NAMED: dict[str, System] = {
    "lean-to": made.leanto(),
    "lean-to, by area": made.leanto(vents=Vents(22.0, 4.0, area=2.0, height=1.5)),
    "heated air": made.heated(made.leanto(heatings=()), 16.0, 28.0),
    "pond": made.pond(),
    "dry box": made.heated(made.box((made.PLY,), gains=80.0, radiant=120.0), 20.0),
    "chilled": made.leanto(
        heatings=(Heating(0, 1500.0, 24.0), Heating(0, 900.0, 25.0, cools=True, heats_room=1200.0))
    ),
    "two bodies": replace(
        made.leanto(), bodies=(made.tank(), Body("sump", 4e6, 1.5, gains=200.0)), links=(Link(0, 1, 900.0),)
    ),
    "a chiller in the open": replace(
        made.pond(), heatings=(Heating(0, 900.0, 15.0, cools=True, heats_room=1200.0),)
    ),
}


@pytest.mark.parametrize("name", NAMED)
def test_a_year_closes(name: str) -> None:
    """A whole year at the default steps."""
    system = NAMED[name]
    start = [22.0] * len(system.bodies)
    ready = made.prepared(system, CUT)
    found = engine.run(ready, made.coast(), engine.begin(ready, start, 15.0))
    check_balance(system, found, start)


def test_the_columns_say_where_heat_went() -> None:
    """Signs: what cools counts below nothing, what warms above; only what is there counts at all."""
    ready = made.prepared(NAMED["chilled"])
    found = engine.run(ready, made.coast(), engine.begin(ready, [22.0], 15.0))
    for name in ("w_sun", "w_machines", "w_heaters", "h_sun", "h_machines", "h_heaters", "evaporated"):
        assert (found[name] >= -1e-9).all(), name
        assert found[name].sum() > 0.0, name
    for name in ("w_chillers", "h_chillers"):
        assert (found[name] <= 0.0).all(), name
    for name in ("h_air_heater", "h_air_cooler", "h_kept", "w_lamps"):
        assert (found[name] == 0.0).all(), name
    assert found["h_clear"].sum() < 0.0
    assert found["w_evaporation"].sum() < 0.0
    assert found["air_changed"].min() == pytest.approx(0.75 * 94.4)
    assert found["air_changed"].max() > 2.0 * 94.4
    assert (found["warmest_c"] >= found["coldest_c"]).all()
    assert (found["air_c"] <= found["warmest_c"] + 1e-9).all()


def spread(values: Array) -> float:
    return float(values.max() - values.min())


def test_a_store_on_the_air_slows_it() -> None:
    """Ten times the store of the air (shelves, goods): its days swing less."""
    plain = made.leanto(heatings=(), vents=None, shade=None)
    assert plain.room is not None
    heavy = replace(plain, room=replace(plain.room, stores_as=30.0))
    swings = []
    for system in (plain, heavy):
        ready = made.prepared(system)
        found = engine.run(ready, made.coast(), engine.begin(ready, [20.0], 15.0), 240, 4344)
        swings.append(spread(found["air_c"][-48:]))
    assert swings[1] < 0.9 * swings[0]
