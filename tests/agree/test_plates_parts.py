"""The parts of the plate solver against numpy's and scipy's own routines."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import quad
from scipy.interpolate import BarycentricInterpolator
from scipy.special import eval_legendre, roots_legendre

from tidestead.core.errors import SolverError
from tidestead.physics.structure.plate_basis import gauss_points, kept_functions, line_basis, strip_functions
from tidestead.physics.structure.plate_fields import Surface, field_peaks, principal_moments
from tidestead.physics.structure.plate_ritz import factored, ritz_plate
from tidestead.physics.structure.plates import Edges, EdgeSprings, Panel, Support, WaterLoad, solve_panel

CUTS, DEGREES = (0.0, 0.2, 1.1, 1.5), (6, 9, 7)


@pytest.mark.parametrize("count", [1, 4, 17, 30])
def test_gauss_points(count: int) -> None:
    points, weights = gauss_points(count)
    ours = roots_legendre(count)
    assert points == pytest.approx(ours[0], abs=1e-14)
    assert weights == pytest.approx(ours[1], rel=1e-12)


@pytest.mark.parametrize("degree", [4, 9, 20])
def test_inner_functions_bend_as_legendre_polynomials(degree: int) -> None:
    x = np.linspace(-1.0, 1.0, 41)
    strip = strip_functions(degree)
    value, first, second = strip.jets(x)
    for k in range(2, degree - 1):
        assert second[:, k + 2] == pytest.approx(np.sqrt(k + 0.5) * eval_legendre(k, x), abs=1e-10)
    assert value[[0, -1], 4:] == pytest.approx(0.0, abs=1e-12)
    assert first[[0, -1], 4:] == pytest.approx(0.0, abs=1e-11)
    assert np.array([value[0], first[0], value[-1], first[-1]])[:, :4] == pytest.approx(np.eye(4), abs=1e-14)


@pytest.mark.parametrize("pair", [(0, 0), (1, 6), (3, 9), (7, 7), (2, 12), (11, 14)])
def test_integrals_of_products(pair: tuple[int, int]) -> None:
    line = line_basis(CUTS, DEGREES)
    i, j = pair
    orders = {"mass": (0, 0), "slope": (1, 1), "curve": (2, 2), "cross": (0, 2)}
    for name, (left, right) in orders.items():

        def product(x: float, left: int = left, right: int = right) -> float:
            jets = line.jets(np.array([x]))
            return float(jets[left][0, i] * jets[right][0, j])

        true, _ = quad(product, 0.0, CUTS[-1], points=CUTS[1:-1], epsabs=1e-11, epsrel=1e-11)
        size = np.sqrt(abs(line.mass[i, i] * line.curve[j, j])) if name == "cross" else abs(true)
        assert getattr(line, name)[i, j] == pytest.approx(true, rel=1e-8, abs=1e-9 * (1.0 + size))


def test_functions_and_slopes_join_at_the_cuts() -> None:
    line = line_basis(CUTS, DEGREES)
    amounts = np.random.default_rng(5).normal(size=line.size)
    for cut in CUTS[1:-1]:
        before, after = line.jets(np.array([cut - 1e-9])), line.jets(np.array([cut + 1e-9]))
        for order, size in ((0, 1e-6), (1, 1e-5)):
            jump = (before[order] - after[order]) @ amounts
            assert jump[0] == pytest.approx(
                0.0, abs=size * np.abs(line.jets(np.array([cut]))[order + 1]).sum()
            )


def test_greatest_on_a_line() -> None:
    line = line_basis((0.0, 2.0), (8,))
    x = np.linspace(0.0, 2.0, 9)
    wave = np.asarray(np.linalg.solve(line.values(x), np.sin(2.1 * x)), dtype=np.float64)
    fine = BarycentricInterpolator(x, np.sin(2.1 * x))(np.linspace(0.0, 2.0, 20001))
    assert line.greatest(wave) == pytest.approx(np.abs(fine).max(), rel=1e-5)


@pytest.mark.parametrize(("start", "end"), [("free", "free"), ("simple", "clamped"), ("clamped", "clamped")])
def test_kept_functions_hold_what_the_supports_hold(start: Support, end: Support) -> None:
    line = line_basis((0.0, 0.3, 1.0, 1.3), (7, 9, 7))
    kept = kept_functions(line, start, end, mirrored=False)
    value, slope, _ = (table @ kept.T for table in line.jets(np.array([0.0, 1.3])))
    for row, support in ((0, start), (1, end)):
        assert (np.abs(value[row]).max() < 1e-12) == (support != "free")
        assert (np.abs(slope[row]).max() < 1e-12) == (support == "clamped")
    assert np.linalg.matrix_rank(kept) == len(kept)
    if start == end:
        even = kept_functions(line, start, end, mirrored=True)
        x = np.linspace(0.0, 1.3, 27)
        shapes = line.values(x) @ even.T
        assert shapes == pytest.approx(shapes[::-1], abs=1e-12)
        odd = len(kept) - len(even)
        assert len(even) >= odd


def test_factored_solves() -> None:
    some = np.random.default_rng(1).normal(size=(30, 20))
    matrix, work = some.T @ some, np.arange(40.0).reshape(20, 2)
    assert factored(matrix).solve(work) == pytest.approx(np.linalg.solve(matrix, work), rel=1e-7)
    assert factored(matrix).solve(work[:, 0]) == pytest.approx(np.linalg.solve(matrix, work[:, 0]), rel=1e-7)
    with pytest.raises(SolverError, match="mechanism"):
        factored(np.ones((3, 3)) - np.eye(3) * 1e-3)


@pytest.mark.parametrize("springs", [EdgeSprings(), EdgeSprings(right=3e5, top=2e6)])
def test_energy_of_a_bow(springs: EdgeSprings) -> None:
    """The energy matrix against the energy integral taken on a fine grid."""
    edges = Edges("simple", "free", "clamped", "free")
    panel = Panel(1.4, 1.0, 0.03, 3e9, 0.35, edges, springs)
    plate = ritz_plate(panel)
    kept = np.random.default_rng(2).normal(size=len(plate.across) * len(plate.above))
    kept *= 1.0 / np.sqrt(np.diag(plate.stiffness()))
    table = plate.spread(kept)
    (x, dx), (y, dy) = plate.along.quadrature(1.4, 6), plate.up.quadrature(1.0, 6)
    wide, high = plate.along.jets(x), plate.up.jets(y)
    xx, yy, xy = (wide[i] @ table @ high[j].T for i, j in ((2, 0), (0, 2), (1, 1)))
    nu = panel.poisson
    density = xx**2 + yy**2 + 2.0 * nu * xx * yy + 2.0 * (1.0 - nu) * xy**2
    energy = panel.rigidity * dx @ density @ dy
    right = plate.along.values(np.array([1.4])) @ table @ high[0].T
    top = wide[0] @ table @ plate.up.values(np.array([1.0])).T
    energy += springs.right * (right[0] ** 2) @ dy + springs.top * dx @ (top[:, 0] ** 2)
    assert kept @ plate.stiffness() @ kept == pytest.approx(energy, rel=1e-9)


def test_principal_moments() -> None:
    mx, my, mxy = np.random.default_rng(3).normal(size=(3, 50))
    tensors = np.stack([[mx, mxy], [mxy, my]]).transpose(2, 0, 1)
    least, greatest = np.linalg.eigvalsh(tensors).T
    ours = principal_moments(mx, my, mxy)
    assert ours[0] == pytest.approx(greatest, abs=1e-12)
    assert ours[1] == pytest.approx(least, abs=1e-12)


@pytest.mark.parametrize("supports", ["SSSS", "SSSF", "CCCC", "CSSC", "SSCF"])
@pytest.mark.parametrize("width", [0.6, 1.37, 3.3])
def test_peaks_against_a_dense_search(supports: str, width: float) -> None:
    names: dict[str, Support] = {"S": "simple", "C": "clamped", "F": "free"}
    panel = Panel(width, 1.0, 0.03, 3e9, 0.38, Edges(*(names[letter] for letter in supports)))
    state = solve_panel(panel, WaterLoad(0.85, 10055.0))
    plate = state.plate
    surface = Surface(plate.along, plate.up, state.table, panel.rigidity, panel.poisson)
    bow, air, water = field_peaks(surface, panel)
    grid = state.grid(601, 601)
    for peak, field in ((bow, grid.bow), (air, grid.air_side), (water, grid.water_side)):
        assert peak.value == pytest.approx(field.max(), rel=1e-4)
    greatest, least = principal_moments(*(np.asarray(float(part)) for part in state.moments(air.x, air.y)))
    assert greatest == pytest.approx(air.value, rel=1e-9)
    assert least <= greatest
