"""A plate by scikit-fem's Argyris triangles, for comparing: held edges, or seats that only push."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import skfem
from skfem.helpers import dd, ddot, eye, trace

from tidestead.core.dims import Array
from tidestead.physics.structure.plate_panel import EDGE_NAMES
from tidestead.physics.structure.plates import Panel, WaterLoad

NAMES = ("u", "u_x", "u_y", "u_xx", "u_xy", "u_yy")
LOST: dict[str, dict[str, list[str]]] = {
    "upright": {"simple": ["u", "u_y", "u_yy"], "clamped": ["u", "u_y", "u_yy", "u_x", "u_xy", "u_n"]},
    "level": {"simple": ["u", "u_x", "u_xx"], "clamped": ["u", "u_x", "u_xx", "u_y", "u_xy", "u_n"]},
}
"""What an edge holds at nothing, by its direction and support."""
MOST_ROUNDS = 40


@dataclass(frozen=True, eq=False)
class ArgyrisPlate:
    """A solved mesh. Argyris triangles keep bow, slopes and curvatures at every mesh point."""

    panel: Panel
    basis: skfem.Basis
    amounts: Array

    def nodal(self, name: str) -> Array:
        """Bow, slope or curvature at every mesh point."""
        return np.asarray(self.amounts[self.basis.nodal_dofs[NAMES.index(name)]])

    def moments(self) -> tuple[Array, Array, Array]:
        """mx, my, mxy at every mesh point."""
        stiff, nu = self.panel.rigidity, self.panel.poisson
        xx, yy, xy = self.nodal("u_xx"), self.nodal("u_yy"), self.nodal("u_xy")
        return -stiff * (xx + nu * yy), -stiff * (yy + nu * xx), -stiff * (1.0 - nu) * xy

    def along(self, edge: str) -> np.ndarray[Any, np.dtype[np.bool_]]:
        """Which mesh points lie on an edge."""
        x, y = self.basis.mesh.p
        places = {"left": x, "right": self.panel.width - x, "bottom": y, "top": self.panel.height - y}
        return np.asarray(np.abs(places[edge]) < 1e-9)


def solved(panel: Panel, load: WaterLoad, x: Array, y: Array) -> ArgyrisPlate:
    """A panel on held edges, on a mesh with lines at `x` and `y`."""
    basis = _basis(panel, x, y)
    stiffness, work = _assembled(panel, load, basis)
    return ArgyrisPlate(panel, basis, skfem.solve(*skfem.condense(stiffness, work, D=_lost(panel, basis))))


def pushed(panel: Panel, load: WaterLoad, seat: float, x: Array, y: Array) -> ArgyrisPlate:
    """A panel whose simple edges are seats that only push; the pressing points are found in rounds."""
    basis = _basis(panel, x, y)
    stiffness, work = _assembled(panel, load, basis)
    names = [name for name in EDGE_NAMES if getattr(panel.edges, name) == "simple"]
    facets = np.concatenate([basis.mesh.boundaries[name] for name in names])
    rim = skfem.FacetBasis(basis.mesh, basis.elem, facets=facets, intorder=14)

    lost = _lost(panel, basis, simple_holds=False)

    @skfem.BilinearForm
    def seat_push(u, v, w):  # type: ignore[no-untyped-def]  # a form of the library's own kind
        return seat * w.pressing * u * v

    pressing = np.ones_like(rim.dx)
    for _ in range(MOST_ROUNDS):
        matrix = stiffness + seat_push.assemble(rim, pressing=pressing)
        amounts = skfem.solve(*skfem.condense(matrix, work, D=lost))
        now = (np.asarray(rim.interpolate(amounts)) > 0.0).astype(float)
        if (now == pressing).all():
            return ArgyrisPlate(panel, basis, amounts)
        pressing = now
    raise AssertionError("the referee's seat did not settle")


def _basis(panel: Panel, x: Array, y: Array) -> skfem.Basis:
    mesh = skfem.MeshTri.init_tensor(np.asarray(x), np.asarray(y)).with_boundaries(
        {
            "left": lambda p: np.isclose(p[0], 0.0),
            "right": lambda p: np.isclose(p[0], panel.width),
            "bottom": lambda p: np.isclose(p[1], 0.0),
            "top": lambda p: np.isclose(p[1], panel.height),
        }
    )
    return skfem.Basis(mesh, skfem.ElementTriArgyris(), intorder=8)


def _lost(panel: Panel, basis: skfem.Basis, simple_holds: bool = True) -> Array:
    """Numbers of everything the edges hold at nothing."""
    lost = [np.zeros(0, dtype=int)]
    for name in EDGE_NAMES:
        support = getattr(panel.edges, name)
        if support == "clamped" or (support == "simple" and simple_holds):
            direction = "upright" if name in ("left", "right") else "level"
            lost.append(basis.get_dofs(name).all(LOST[direction][support]))
    return np.unique(np.concatenate(lost))


def _assembled(panel: Panel, load: WaterLoad, basis: skfem.Basis) -> tuple[Any, Array]:
    stiff, nu = panel.rigidity, panel.poisson

    @skfem.BilinearForm
    def bending(u, v, w):  # type: ignore[no-untyped-def]  # a form of the library's own kind
        return ddot(stiff * ((1.0 - nu) * dd(u) + nu * eye(trace(dd(u)), 2)), dd(v))

    @skfem.LinearForm
    def water(v, w):  # type: ignore[no-untyped-def]  # a form of the library's own kind
        return (load.pressure + load.weight * np.maximum(load.head - w.x[1], 0.0)) * v

    return bending.assemble(basis), water.assemble(basis)
