"""What the water does to a window: bow, moments, what its edges hand on. Nothing is judged here."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from tidestead.catalog import Row, Table
from tidestead.core.errors import SolverError
from tidestead.core.kept import kept
from tidestead.physics.structure import acrylic, glass
from tidestead.physics.structure.plates import (
    EdgeReactions,
    Edges,
    EdgeSprings,
    Panel,
    PanelState,
    Support,
    WaterLoad,
    solve_panel,
    solve_push_only,
)
from tidestead.plan.model import EdgeSupport, Window
from tidestead.studies.checks import At
from tidestead.studies.structure.ask import Tables
from tidestead.studies.structure.found import WallPlace

KEPT_STATES = 256
"""Solved panels kept: one level is met again in the first fill, the search for the safe level and the thicknesses."""

HARD_SEAT = 1e9
"""Push of a timber seat for each metre of bow, N/m2; see the plate solver. Assumed, no source."""

NEAR_RIM = 0.06
"""A held upper edge this near the rim hands its load to the rim and not to a header."""

TopOn = Literal["rim", "header", "nothing"]


@dataclass(frozen=True, eq=False)  # what was found is itself, as is the wall it is in
class WindowFacts:
    """One window under one load case.

    `width`, `height`, `sill` are those of the lines the sheet leans on. `thickness` is the nominal or measured
    one, `least` what the sheet may be as delivered. Creep ratios are lasting over short-term stiffness; they count
    where the load is `lasting`.
    """

    at: At
    name: str
    window: Window
    row: Row
    seal: Row | None
    place: WallPlace
    width: float
    height: float
    sill: float
    head: float
    thickness: float
    least: float
    measured: bool
    state: PanelState
    seat_stiffness: float
    rim_stiffness: float
    lasting: bool
    creep: tuple[float, ...]
    creep_caution: str
    asks_temperature: bool
    too_hot: bool
    top_on: TopOn

    @property
    def reactions(self) -> EdgeReactions:
        return self.state.edge_reactions

    @property
    def edges(self) -> tuple[EdgeSupport, EdgeSupport, EdgeSupport, EdgeSupport]:
        """Left, right, bottom, top as the plan says."""
        return _edges(self.window)

    @property
    def worst_creep(self) -> float:
        """What divides movements of the sheet at their worst under this load."""
        return min(self.creep) if self.lasting else 1.0

    @property
    def cautions(self) -> tuple[str, ...]:
        """What the catalogue warns of with this material."""
        words = self.row.tag("cautions", ())
        return words if isinstance(words, tuple) else (str(words),)

    @property
    def span(self) -> float:
        """The span that counts: between the sides where an edge above or below is free, else the shorter one."""
        left, right, bottom, top = self.edges
        if "free" in (bottom, top):
            return self.width
        if "free" in (left, right):
            return self.height
        return min(self.width, self.height)


@dataclass(frozen=True)
class WindowSetting:
    """What a window is solved with besides its own words: its wall, the water, the rim's give, the tables."""

    place: WallPlace
    level: float
    weight: float
    rim_stiffness: float | None
    tables: Tables
    lasting: bool


def missing_words(window: Window) -> list[str]:
    """What must stand in the plan before anything can be said of a window."""
    wanted = {
        "material": window.material,
        "thickness": window.thickness or (window.plies or None),
        "width": window.width,
        "height": window.height,
        "sill": window.sill,
        "edges": window.edges,
    }
    return [name for name, value in wanted.items() if value is None]


def window_top(window: Window, place: WallPlace) -> TopOn:
    """What the window's upper edge hands its load to."""
    top = window.edges.top if window.edges is not None else "free"
    if top == "free":
        return "nothing"
    reach = place.height - (window.sill or 0.0) - (window.height or 0.0)
    return "rim" if top == "rim" or reach <= NEAR_RIM else "header"


@kept(at_most=KEPT_STATES)
def find_window(at: At, name: str, window: Window, setting: WindowSetting) -> WindowFacts:
    """Solve a window. The plan must be complete for it (`missing_words` empty), and the rim's give known."""
    row = setting.tables["clear"][window.material or ""]
    inset = (window.seat.width or 0.0) / 2.0
    left, right, bottom, top = (_inset(edge, inset) for edge in _edges(window))
    width, height = (window.width or 0.0) - left - right, (window.height or 0.0) - bottom - top
    sill = (window.sill or 0.0) + bottom
    head = max(0.0, setting.level + setting.place.deeper - sill)
    thickness, least = _thickness(window, row)
    top_on = window_top(window, setting.place)
    seat = _seat_stiffness(window, setting.tables["seals"])
    rim = (setting.rim_stiffness or HARD_SEAT) if top_on == "rim" else 0.0
    panel = Panel(
        width,
        height,
        thickness,
        row.si("modulus"),
        row.si("poisson"),
        _supports(window, top_on),
        EdgeSprings(top=rim),
    )
    load = WaterLoad(head, setting.weight)
    pushes_only = any(edge in ("seat", "rim") for edge in _edges(window))
    state = solved(panel, load, seat if pushes_only else None)
    _check_balance(at, state)
    runs = _creep(window, row)
    return WindowFacts(
        at,
        name,
        window,
        row,
        setting.tables["seals"][window.seat.bed] if window.seat.bed is not None else None,
        setting.place,
        width,
        height,
        sill,
        head,
        thickness,
        least,
        window.as_built.thickness is not None,
        state,
        seat,
        rim,
        setting.lasting,
        runs.ratios,
        runs.caution,
        runs.asks_temperature,
        runs.too_hot,
        top_on,
    )


@kept(at_most=KEPT_STATES)
def solved(panel: Panel, load: WaterLoad, seat: float | None) -> PanelState:
    """The panel under the load; where `seat` is given its simple edges push and do not pull."""
    return solve_panel(panel, load) if seat is None else solve_push_only(panel, load, seat)


BALANCE = 0.01
"""Share of the push that the seats may be found to carry too much or too little."""


def _check_balance(at: At, state: PanelState) -> None:
    """What the seats carry must be what the water pushes; else the solution is not one."""
    if abs(state.total_reaction - state.total_load) > BALANCE * state.total_load + 1.0:
        raise SolverError(f"{at.words}: the seats do not balance the push of the water")


def _edges(window: Window) -> tuple[EdgeSupport, EdgeSupport, EdgeSupport, EdgeSupport]:
    edges = window.edges
    if edges is None:
        return ("free", "free", "free", "free")
    return (edges.left, edges.right, edges.bottom, edges.top)


def _inset(edge: EdgeSupport, inset: float) -> float:
    """From the sheet's edge to the line it leans on: the middle of its seat."""
    return 0.0 if edge == "free" else inset


def _supports(window: Window, top_on: TopOn) -> Edges:
    """Seats and holds are lines that let the sheet turn; an edge on the rim is a free one on a spring."""
    words: dict[EdgeSupport, Support] = {
        "seat": "simple",
        "held": "simple",
        "clamped": "clamped",
        "rim": "free",
        "free": "free",
    }
    left, right, bottom, top = (words[edge] for edge in _edges(window))
    return Edges(left, right, bottom, "free" if top_on == "rim" else top)


def _thickness(window: Window, row: Row) -> tuple[float, float]:
    """Nominal or measured thickness, and the least it may be. Plies of a laminate slide freely."""
    if window.as_built.thickness is not None:
        return window.as_built.thickness, window.as_built.thickness
    if window.plies:
        nominal = glass.laminate_thickness(window.plies)
        thinner = [ply - _glass_tolerance(row, ply) for ply in window.plies]
        return nominal, glass.laminate_thickness(thinner)
    nominal = window.thickness or 0.0
    if row.tag("kind") == "glass":
        return nominal, nominal - _glass_tolerance(row, nominal)
    if row.has("thickness_tolerance_fixed"):
        fixed, share = row.si("thickness_tolerance_fixed"), row.si("thickness_tolerance_share")
        return nominal, acrylic.least_thickness(nominal, fixed, share)
    return nominal, nominal


def _glass_tolerance(row: Row, thickness: float) -> float:
    """Tolerance of the nearest nominal thickness."""
    if not row.has("thickness_tolerances"):
        return 0.0
    pairs = zip(row.several("thicknesses"), row.several("thickness_tolerances"), strict=True)
    return min(pairs, key=lambda pair: abs(pair[0] - thickness))[1]


def _seat_stiffness(window: Window, seals: Table) -> float:
    """A soft bed lets the sheet turn and sink further than a bare timber seat."""
    if window.seat.bed is None:
        return HARD_SEAT
    row = seals[window.seat.bed]
    return row.si("seat_stiffness_soft") if row.has("seat_stiffness_soft") else HARD_SEAT


def _creep(window: Window, row: Row) -> acrylic.CreepRuns:
    """Ratios to run the lasting bow with: the user's own, or the catalogue's and, where warm, the worse one."""
    if row.tag("kind") != "acrylic":
        return acrylic.CreepRuns((1.0,), asks_temperature=False, too_hot=False, caution="")
    basis = acrylic.CreepBasis(
        window.creep or row.si("creep_ratio"),
        min(window.creep or 1.0, row.si("creep_ratio_pessimistic")),
        row.si("creep_test_temperature"),
        row.si("service_temperature_max"),
    )
    return acrylic.creep_runs(basis, window.temperature)
