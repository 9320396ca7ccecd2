"""Sheathing of a box: layers of each wall cut into sheets, with their openings and holes, and blocking at joints."""

from __future__ import annotations

from collections.abc import Sequence

from tidestead.build.lists import Hole
from tidestead.build.takeoff.box_corners import RULE, Box, sheet_ends
from tidestead.build.takeoff.box_layout import Layout, bays_at
from tidestead.build.takeoff.box_timber import LETTERS
from tidestead.build.takeoff.clear import clear_sheet
from tidestead.build.takeoff.fixings import sheathing_screws
from tidestead.build.takeoff.gathered import ASSUMED, JOINING_SCREW, Cut, Gathered, Part, Shape, Sheets
from tidestead.build.takeoff.seams import seam_fabric
from tidestead.build.takeoff.sheeting import Field, Prop, Sheeted, grain_is_level, sheeted
from tidestead.core.source import PRACTICE
from tidestead.plan.items import Item
from tidestead.plan.model import Sheathing
from tidestead.studies.openings import Rect, opening_of
from tidestead.studies.structure.drawings_box import stud_places

BLOCK = 0.06
"""Room between uprights that a level joint crosses without a block, m. Own choice."""
BLOCK_SCREWS = 2
"""Screws through each end of a block. Common practice, no source."""


def wall_sheets(
    gathered: Gathered, box: Box, layout: Layout, size: tuple[float, float], holes: Sequence[Hole]
) -> None:
    """The sheathing of one wall; `size` of a sheet along and across its face grain, `holes` in places of the wall."""
    wall = layout.place.name
    path = f"{box.path}.walls.{wall}"
    openings = _openings(gathered, path, layout)
    sheathing, one = layout.place.wall.sheathing, box.sheet(wall)
    if sheathing is None or one is None:
        gathered.lacks(f"{path}.sheathing.sheet", f"Say the sheathing of the {wall} wall.")
        return
    level = grain_is_level(sheathing)
    room = size if level else (size[1], size[0])
    layers: list[tuple[Field, Sheeted]] = []
    for layer in range(sheathing.layers):
        ends = sheet_ends(box, wall, layer)
        if ends is None:
            sentence = f"Say the sheathing of the walls beside the {wall} wall: its own ends there."
            gathered.lacks(f"{box.path}.walls", sentence)
            return
        field = Field(
            -ends[0],
            layout.place.length + ends[1],
            layout.place.height,
            _props(layout),
            openings=openings,
            holes=tuple(holes),
        )
        layers.append((field, sheeted(field, room, from_right=layer % 2 == 1)))
    _list(gathered, (path, layout), sheathing, [sheets for _, sheets in layers], one)
    part = Part(f"{path}.sheathing", f"sheathing of the {wall} wall", "")
    seam_fabric(gathered, box.vessel, part, layers[:1])


def _list(
    gathered: Gathered, at: tuple[str, Layout], sheathing: Sheathing, layers: list[Sheeted], one: float
) -> None:
    path, layout = at
    wall = layout.place.name
    part = Part(f"{path}.sheathing", f"sheathing of the {wall} wall", f"{LETTERS[wall]}-s")
    shapes: list[Shape] = [shape for layer in layers for shape in layer.shapes]
    made = Sheets(grain_is_level(sheathing), sheets_told(gathered, sheathing, layers) + f"; {RULE}")
    gathered.sheets(part, Item("sheet", sheathing.sheet or ""), shapes, made)
    screwed = Part(part.key, f"screws through the {part.what}", "")
    lengths = sum(layer.edges for layer in layers), sum(layer.between for layer in layers)
    sheathing_screws(gathered, screwed, lengths, one * sheathing.layers)
    _blocking(gathered, part, layout, layers[0].level_joints)


def sheets_told(gathered: Gathered, sheathing: Sheathing, layers: Sequence[Sheeted]) -> str:
    """How the sheets of a wall or a face lie."""
    told = [
        f"{sheathing.layers} layer{'s' if sheathing.layers > 1 else ''}, face grain "
        f"{'level' if grain_is_level(sheathing) else 'upright'}"
    ]
    upright = sorted({at for layer in layers for at in layer.upright_joints})
    if upright:
        told.append(f"upright joints at {', '.join(gathered.told(at) for at in upright)} from the left end")
    if layers[0].level_joints:
        told.append(f"level joints {', '.join(gathered.told(at) for at in layers[0].level_joints)} up")
    if any(layer.unbacked for layer in layers):
        told.append("no upright stands behind some upright joints: the sheet sold is shorter than a bay")
    return "; ".join(told)


def _blocking(gathered: Gathered, part: Part, layout: Layout, joints: Sequence[float]) -> None:
    """Short timbers between the studs, behind level joints of sheets."""
    studs = layout.place.wall.studs
    if studs is None or studs.section is None or studs.grade is None:
        return
    cuts = [Cut(width, 1) for level in joints for width in bays_at(layout, level) if width > BLOCK]
    wall = layout.place.name
    blocks = Part(part.key, f"blocking behind level joints of the {wall} wall", LETTERS[wall])
    basis = "assumed, since the plan names none: a level joint between studs has a stud's timber behind it"
    gathered.timber(blocks, (studs.section, studs.grade), cuts, basis, PRACTICE)
    ends = Part(part.key, f"ends of the {blocks.what}", "")
    told = f"assumed, since the plan names none: {BLOCK_SCREWS} at each end of {len(cuts)}"
    gathered.counted(JOINING_SCREW, 2.0 * BLOCK_SCREWS * len(cuts), ends, told, ASSUMED)


def _openings(gathered: Gathered, path: str, layout: Layout) -> tuple[Rect, ...]:
    found: list[Rect] = []
    for name, window in layout.place.wall.windows.items():
        here = f"{path}.windows.{name}"
        if name not in layout.windows:
            gathered.lacks(here, f"Say width, height and sill of window {name}.")
            continue
        opening = opening_of(window, layout.windows[name])
        if opening is None:
            absent = "edges" if window.edges is None else "seat.width"
            sentence = f"Say {absent} of window {name}: its opening in the sheathing follows."
            gathered.lacks(f"{here}.{absent}", sentence)
        else:
            found.append(opening)
    return tuple(found)


def _props(layout: Layout) -> tuple[Prop, ...]:
    """Studs and jambs behind the sheathing; a joint lies on what reaches from plate to rim, else at a stud's place."""
    standing = {one.at for one in layout.uprights}
    found = [Prop(at, 0.0, 0.0, bears_joint=False) for at in stud_places(layout.place) if at not in standing]
    found += [Prop(one.at, one.foot, one.head, one.on_plate and one.under_rim) for one in layout.uprights]
    for frame in layout.frames.values():
        found += [Prop((rect[0] + rect[2]) / 2.0, layout.plate, rect[3]) for rect in frame["jambs"]]
    return tuple(found)


def wall_windows(gathered: Gathered, box: Box, layout: Layout, holes: Sequence[Hole]) -> None:
    """The clear sheets of one wall."""
    wall = layout.place.name
    for name, window in layout.place.wall.windows.items():
        own = in_sheet(holes, layout.windows[name]) if name in layout.windows else ()
        called = f"window {name} in the {wall} wall", f"{LETTERS[wall]}-w"
        clear_sheet(gathered, f"{box.path}.walls.{wall}.windows.{name}", called, window, own)


def in_sheet(holes: Sequence[Hole], sheet: Rect) -> tuple[Hole, ...]:
    """Holes that go through a clear sheet, in its own places."""
    left, low, right, high = sheet
    return tuple(
        Hole(hole.x - left, hole.y - low, hole.diameter, hole.what)
        for hole in holes
        if left < hole.x < right and low < hole.y < high
    )
