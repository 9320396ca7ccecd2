"""Where rays leave a house, and how much sky a patch in it sees, against geometry by other ways and pvlib."""

from __future__ import annotations

import math

import numpy as np
import pvlib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.arrays import broadcast
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import sunlit
from tidestead.physics.sunlit import ConvexHouse

NORMALS = np.array([[0, -1, 0], [0, 1, 0], [-1, 0, 0], [1, 0, 0], [0, 0, 1]], dtype=float)
OFFSETS = np.array([0.0, 6.0, 0.0, 8.0, 2.7])
"""A flat house of 8 by 6 by 2.7 m: front, back, left, right, roof."""

ANGLES = st.floats(0.0, 2.0 * math.pi)


def house(*open_faces: int) -> ConvexHouse:
    """The flat house with nothing but air in some faces and the rest dark."""
    return ConvexHouse(
        NORMALS, OFFSETS, np.array([np.full(91, float(face in open_faces)) for face in range(5)])
    )


def corner_factor(across: float, along: float) -> float:
    """View factor from a level patch to a rectangle straight above one of whose corners stands over it; across and
    along in heights. J. Howell, A Catalog of Radiation Heat Transfer Configuration Factors, B-4 (from memory)."""
    root_a, root_b = math.sqrt(1.0 + across**2), math.sqrt(1.0 + along**2)
    return (across / root_a * math.atan(along / root_a) + along / root_b * math.atan(across / root_b)) / (
        2.0 * math.pi
    )


@given(zenith=st.floats(0.0, math.pi / 2.0), azimuth=ANGLES, tilt=st.floats(0.0, math.pi), facing=ANGLES)
def test_incidence_is_as_pvlibs(zenith: float, azimuth: float, tilt: float, facing: float) -> None:
    ours = sunlit.incidence_cosine(zenith, azimuth, tilt, facing)
    theirs = pvlib.irradiance.aoi_projection(*map(math.degrees, (tilt, facing, zenith, azimuth)))
    assert float(ours) == pytest.approx(float(theirs), abs=1e-9)


@given(zenith=st.floats(0.0, math.pi / 2.0), azimuth=ANGLES, facing=ANGLES)
def test_axes_of_the_house_are_its_faces(zenith: float, azimuth: float, facing: float) -> None:
    """What a direction has along x, y and z is its cosine to the right end, the back and a flat roof."""
    along = sunlit.direction(zenith, azimuth, facing)
    right, back = facing - math.pi / 2.0, facing + math.pi
    walls = [
        pvlib.irradiance.aoi_projection(90.0, *map(math.degrees, (side, zenith, azimuth)))
        for side in (right, back)
    ]
    assert along == pytest.approx([*walls, math.cos(zenith)], abs=1e-9)


@given(
    point=st.tuples(st.floats(0.1, 7.9), st.floats(0.1, 5.9), st.floats(0.0, 2.6)),
    zenith=st.floats(0.0, 1.55),
    azimuth=ANGLES,
)
def test_a_ray_leaves_where_walking_along_it_says(
    point: tuple[float, float, float], zenith: float, azimuth: float
) -> None:
    """The last step inside, of many small ones, is over no plane; the next is over the one that is named."""
    way = sunlit.direction(zenith, azimuth, 0.0)
    named = int(sunlit.exit_face(np.array(point), way[None, :], house())[0])
    start, step = np.array(point), 1e-3
    low, high = 0.0, 20.0
    while high - low > step * 1e-6:
        middle = (low + high) / 2.0
        inside = bool(np.all(NORMALS @ (start + middle * way) <= OFFSETS))
        low, high = (middle, high) if inside else (low, middle)
    over = NORMALS @ (start + (high + 1e-6) * way) - OFFSETS
    assert over[named] > -1e-5


def test_a_ray_from_outside_is_refused() -> None:
    with pytest.raises(ImpossibleInput, match="outside"):
        sunlit.exit_face(np.array([9.0, 1.0, 1.0]), np.array([[0.0, 0.0, 1.0]]), house())


@pytest.mark.parametrize(("x", "y", "z"), [(4.0, 3.0, 0.5), (1.0, 2.0, 0.0), (7.0, 5.0, 1.2)])
def test_the_sky_through_a_roof_is_its_view_factor(x: float, y: float, z: float) -> None:
    """A patch sees the roof as four rectangles that meet over it."""
    up = 2.7 - z
    factor = sum(corner_factor(a / up, b / up) for a in (x, 8.0 - x) for b in (y, 6.0 - y))
    assert sunlit.sky_share(np.array([[x, y, z]]), house(4)) == pytest.approx(factor, abs=0.01)


def test_the_sky_through_every_face_is_all_of_it() -> None:
    points = np.array([[4.0, 3.0, 0.5], [1.0, 1.0, 1.0]])
    assert sunlit.sky_share(points, house(0, 1, 2, 3, 4)) == pytest.approx(1.0)
    parts = [sunlit.sky_share(points, house(face)) for face in range(5)]
    assert sum(parts) == pytest.approx(1.0)


def test_the_sun_through_the_front_by_hand() -> None:
    """Sun before the front at 45 degrees: patches nearer to it than they lie under its top are lit."""
    sun = sunlit.direction(math.pi / 4.0, 0.0, 0.0)[None, :]
    points = np.array([[4.0, near, 0.7] for near in (0.5, 1.5, 2.5, 3.5)])
    assert sunlit.share_through(points, sun, house(0)) == pytest.approx([0.5])
    assert sunlit.share_through(points, sun, house(4)) == pytest.approx([0.5])
    assert sunlit.share_through(points, sun, house(1, 2, 3)) == pytest.approx([0.0])


def test_light_falls_off_with_the_angle_at_the_face_it_passes() -> None:
    """Panes that let through the cosine of the angle: 45 degrees at the front and at the roof."""
    cosine = np.cos(np.radians(np.arange(91.0)))
    panes = ConvexHouse(NORMALS, OFFSETS, np.tile(cosine, (5, 1)))
    sun = sunlit.direction(broadcast([math.pi / 4.0, math.pi / 4.0, 2.0]), broadcast([0.0, 0.5, 0.0]), 0.0)
    shares = sunlit.share_through(np.array([[4.0, 3.0, 0.5]]), sun, panes)
    assert shares == pytest.approx([math.sqrt(0.5), math.sqrt(0.5), 0.0], abs=1e-4)


def test_a_year_of_hours_at_once() -> None:
    hours = np.linspace(0.0, 50.0, 8760)
    sun = sunlit.direction(broadcast(np.abs(np.cos(hours)) * 1.5), broadcast(hours), 1.0)
    points = np.array([[3.0 + x, 2.5 + y, 1.0] for x in (0.0, 1.0, 2.0) for y in (0.0, 1.0)])
    shares = sunlit.share_through(points, sun, house(0, 4))
    assert shares.shape == (8760,)
    assert 0.0 <= shares.min() <= shares.max() <= 1.0
