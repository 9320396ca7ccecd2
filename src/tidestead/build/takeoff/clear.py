"""The clear sheets of windows: their sizes, edges, seats and the holes through them."""

from __future__ import annotations

from tidestead.build.lists import Hole
from tidestead.build.takeoff.gathered import Gathered, Part, Shape, Sheets
from tidestead.plan.items import Item
from tidestead.plan.model import Window
from tidestead.studies.openings import ON_SEAT


def clear_sheet(
    gathered: Gathered, path: str, called: tuple[str, str], window: Window, holes: tuple[Hole, ...] = ()
) -> None:
    """One window's sheet; `called` is what it is and what its marks begin with, `holes` are in its own places."""
    words, letters = called
    part = Part(path, words, letters)
    thickness = window.thickness or sum(window.plies)
    absent = [
        name
        for name, value in (
            ("material", window.material),
            ("thickness", thickness),
            ("width", window.width),
            ("height", window.height),
        )
        if not value
    ]
    if absent or window.material is None:
        gathered.lacks(f"{path}.{absent[0]}", f"Say the {' and '.join(absent)} of {words}.")
        return
    shape = Shape(window.width or 0.0, window.height or 0.0, holes=holes)
    made = Sheets(
        grain_level=True,
        basis=_basis(gathered, window, thickness),
        trade="windows",
        phase="windows",
        turns=True,
        edges=_edges(window),
    )
    gathered.sheets(part, Item.clear(window.material, thickness), [shape], made)


def _basis(gathered: Gathered, window: Window, thickness: float) -> str:
    size = " x ".join(gathered.told(side or 0.0, "sheet") for side in (window.width, window.height))
    told = [f"the sheet itself, {size}, {gathered.told(thickness, 'sheet')} thick"]
    if window.plies:
        told.append(f"laminated of {' + '.join(gathered.told(ply, 'sheet') for ply in window.plies)}")
    edges, seat = window.edges, window.seat
    if edges is not None and seat.width:
        seated = [name for name in ("left", "right", "bottom", "top") if getattr(edges, name) in ON_SEAT]
        if seated:
            told.append(f"rests {gathered.told(seat.width, 'sheet')} at {', '.join(seated)}")
    if seat.bed_thickness:
        told.append(f"on a bed of {gathered.told(seat.bed_thickness, 'sheet')}")
    if window.bonded:
        told.append("of pieces bonded edge to edge")
    return "; ".join(told)


def _edges(window: Window) -> str:
    return f"all edges {window.edge_work}" if window.edge_work else ""
