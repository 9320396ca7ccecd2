"""How a system is cut and shared out: resistance and store of layers are kept, rays and sun go somewhere once."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.arrays import broadcast
from tests.laws import heat_systems as made
from tests.laws.sun_paths import sun_path
from tidestead.core.weather import HOURS
from tidestead.physics import sunlit
from tidestead.physics.heat import _tables as at
from tidestead.physics.heat import engine
from tidestead.physics.heat._hour import fill_hour
from tidestead.physics.heat._layout import _SKIN, pieces
from tidestead.physics.heat._sharing import star_shares
from tidestead.physics.heat.system import Body, Layer, Room, Side, System, Wall

LAYERS = st.lists(
    st.builds(
        Layer, st.floats(0.001, 0.6), st.floats(0.02, 50.0), st.floats(0.0, 3000.0), st.floats(0.0, 4000.0)
    )
    | st.builds(Layer, resistance=st.floats(0.01, 10.0)),
    min_size=1,
    max_size=5,
)


@given(LAYERS, st.floats(0.1, 100.0))
def test_pieces_keep_resistance_and_store(layers: list[Layer], area: float) -> None:
    stores, leads = pieces(layers, area)
    assert len(stores) == len(leads) + 1
    whole = sum(layer.ohms for layer in layers)
    assert sum(1.0 / lead for lead in leads) == pytest.approx(whole / area, rel=1e-9)
    content = sum(one.density * one.heat * one.thickness for one in layers if one.resistance is None)
    assert sum(stores) == pytest.approx(area * (content + 2.0 * _SKIN), rel=1e-9)
    assert min(stores) > 0.0


def test_thick_layers_are_cut_and_thin_ones_not() -> None:
    """A piece is as thick as warmth goes in a quarter of an hour, six at most."""
    depth = math.sqrt(3.0 * 1.65 / 2.2e6 * 900.0)
    for thickness, number in ((0.9 * depth, 1), (1.1 * depth, 2), (2.5 * depth, 3), (50.0 * depth, 6)):
        stores, _ = pieces((Layer(thickness, 1.65, 2200.0, 1000.0),), 1.0)
        assert len(stores) == number + 1
    middle = pieces((Layer(resistance=1.0), Layer(resistance=2.0), made.PLY), 2.0)
    assert len(middle[0]) == 1 + len(pieces((made.PLY,), 2.0)[0])


def row(area: float, emissivity: float) -> dict[str, float]:
    return {"area": area, "star": emissivity}


def between(shares: Sequence[float], areas: Sequence[float]) -> float:
    """Conductance of rays from the first surface to all others, which share one temperature, over area and 4sT**3."""
    first = shares[0] * areas[0]
    rest = sum(share * area for share, area in zip(shares[1:], areas[1:], strict=True))
    return first * rest / (first + rest) / areas[0]


@given(st.floats(0.05, 1.0), st.floats(0.05, 1.0))
def test_two_like_faces_exchange_as_two_plates(one: float, other: float) -> None:
    """1/(1/e1 + 1/e2 - 1) of parallel plates."""
    shares, _ = star_shares([row(5.0, one), row(5.0, other)], ())
    assert between(shares, (5.0, 5.0)) == pytest.approx(1.0 / (1.0 / one + 1.0 / other - 1.0), rel=1e-6)


def test_a_black_face_of_a_cube_sends_all_to_the_five_others() -> None:
    shares, _ = star_shares([row(4.0, 1.0)] * 6, ())
    assert between(shares, [4.0] * 6) == pytest.approx(1.0, rel=1e-6)


def test_water_takes_part_in_the_rays_and_a_lone_face_keeps_its_own() -> None:
    body = Body("water", 1e6, 4.0)
    shares, waters = star_shares([row(4.0, 0.95)], (body,))
    assert shares[0] == pytest.approx(waters[0])
    assert star_shares([row(4.0, 0.7)], ())[0] == [0.7]
    assert star_shares([], (body,))[1] == [0.95]


def sunny(system: System) -> list[float]:
    """Share of the sun inside that each chain at the room takes."""
    chains = made.prepared(system).tables.chains
    return [float(one[at.SUNNY]) for one in chains if one[at.NEAR] == at.AT_ROOM]


def six(dark: float, floor: float | None = None) -> tuple[Wall, ...]:
    """A room of six faces."""
    sides = [Wall(f"wall {n}", 20.0, (made.PLY,), inside_absorptance=dark) for n in range(4)]
    roof = Wall("roof", 48.0, (made.PLY,), tilt_rad=0.0, inside_absorptance=dark)
    below = Wall(
        "floor", 48.0, (made.PLY,), "air", made.UNDER, inside_absorptance=dark if floor is None else floor
    )
    return (*sides, roof, below)


@given(st.floats(0.05, 1.0), st.floats(0.0, 1.0))
def test_sun_in_a_room_without_windows_falls_somewhere(dark: float, floor: float) -> None:
    shares = sunny(System(Room(130.0, 0.0), six(dark, floor)))
    assert sum(shares) == pytest.approx(1.0, abs=1e-9)
    assert min(shares) >= 0.0
    assert shares[-1] >= floor - 1e-9


def test_sun_leaves_again_by_windows_and_by_nothing_else() -> None:
    """Of a clear house a quarter, as rays followed through one did (0.18 of 0.75); of a room of six walls nothing."""
    assert sum(sunny(made.leanto())) == pytest.approx(1.0 - 0.18 / 0.75, abs=0.05)
    open_water = sunny(System(Room(130.0, 0.0), six(0.6), (), (Body("water", 1e6, 20.0),)))
    assert sum(open_water) == pytest.approx(1.0, abs=1e-9)


def test_a_wall_that_says_its_share_keeps_it() -> None:
    walls = six(0.6)
    said = (replace(walls[0], sun_share=0.25), *walls[1:-1], replace(walls[-1], sun_share=0.6))
    shares = sunny(System(Room(130.0, 0.0), said))
    assert shares == pytest.approx([0.25, 0.0, 0.0, 0.0, 0.0, 0.6])


@pytest.mark.parametrize("hour", [100, 2000, 4355, 4362, 7000])
def test_sun_on_the_panes_and_through_them_is_what_falls_on_them(hour: int) -> None:
    """What panes keep and what passes is never more than what meets the glazing; all of it is in the house's sun."""
    ready = made.prepared(made.leanto(shade=None))
    tables = engine.begin(ready, [20.0], 20.0)
    fill_hour(tables, ready.place, made.coast(), hour)
    meets = 0.0
    for chain in tables.chains[tables.chains[:, at.KIND] == at.CLEAR]:
        face = tables.faces[int(chain[at.FACE])]
        meets += chain[at.AREA] * chain[at.CLEAN] * face.sum()
    room = tables.room
    assert 0.0 <= room[at.CLEAR_SUN] <= meets + 1e-9
    assert room[at.SOLID_SUN] == pytest.approx(tables.nodes[:, at.SUN].sum())
    assert (tables.nodes[:, at.SUN] >= 0.0).all()


def test_cosines_are_those_of_the_sunlit_laws() -> None:
    system = made.leanto()
    ready, sun = made.prepared(system), sun_path(made.LATITUDE)
    for window, chain in zip(system.windows, ready.tables.chains[len(system.walls) :], strict=False):
        theirs = sunlit.incidence_cosine(
            broadcast(sun.zenith_rad),
            broadcast(sun.azimuth_rad),
            window.tilt_rad,
            window.azimuth_rad,
        )
        ours = ready.place.cosine[int(chain[at.FACE])]
        np.testing.assert_allclose(ours, np.where(sun.up > 0.0, np.maximum(theirs, 0.0), 0.0), atol=1e-8)


def test_level_ground_gets_what_the_weather_says() -> None:
    """A level face sees all of the beam and the whole sky, whatever part of it is counted to the sun's surroundings."""
    roof = Wall("roof", 10.0, (made.PLY,), tilt_rad=0.0, absorptance=1.0)
    ready, rows = made.prepared(System(Room(10.0, 0.0), (roof,))), made.coast()
    tables = engine.begin(ready, [], 20.0)
    high = np.flatnonzero(ready.place.height > 0.1)
    for hour in high[:: len(high) // 40]:
        fill_hour(tables, ready.place, rows, int(hour))
        beam, diffuse = rows[4, hour], rows[5, hour]
        assert tables.faces[0].sum() == pytest.approx(beam * ready.place.height[hour] + diffuse, rel=1e-9)


def test_sides_are_cut_from_their_water_outward() -> None:
    """A side onto the room begins at the water, one onto the ground ends at it: its layers are turned round."""
    side = Side(2.0, (made.PLY, made.FOAM), "weather")
    tables = engine.prepare(System(bodies=(Body("water", 1e6, 1.0, (side,)),)), made.night()).tables
    chain = tables.chains[0]
    assert (chain[at.FAR], chain[at.NEAR]) == (at.WEATHER, at.AT_WATER)
    stores = tables.nodes[:, at.STORES]
    turned, _ = pieces(side.layers, side.area)
    np.testing.assert_allclose(stores, turned[::-1])


def test_hours_of_a_place_have_the_bodies_in_rows() -> None:
    two = replace(made.leanto(), bodies=(made.tank(), Body("sump", 4e6, 1.0, lamps=np.full(HOURS, 7.0))))
    place = made.prepared(two).place
    assert place.body_sun.shape == place.body_cover.shape == (2, HOURS)
    assert (place.body_lamps[1] == 7.0).all()
    assert (place.body_sun[1] == 0.0).all()
