"""The lists that a saw, a yard and a sheet cutter work by, as plain tables. Sizes are finished sizes."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from tidestead.build.lists import Piece, SheetPart, TakenOff
from tidestead.build.materials import Rows, shipped, thickness_of, title_of
from tidestead.build.timber_sizes import face_area, section_words
from tidestead.core.answer import Column, Table

if TYPE_CHECKING:
    from tidestead.catalog import Row
    from tidestead.plan.items import Item

Cells = tuple["float | str | None", ...]

LUMBER = "lumber"
"""Style of lengths that are sawn: millimetres, or feet, inches and sixteenths."""

FINE = "fine"
"""Style of thicknesses: sheets are not sixteenths of an inch thick."""

DONE = "done"
"""Head of a column that stays empty: a box to tick."""

CUT_HEADS = (
    Column("mark"),
    Column("part"),
    Column("assembly"),
    Column("qty", "count"),
    Column("T", "m", FINE),
    Column("W", "m", LUMBER),
    Column("L", "m", LUMBER),
    Column("material"),
    Column("grade"),
    Column("grain"),
    Column("end cut, left", "rad"),
    Column("end cut, right", "rad"),
    Column("holes and notes"),
    Column("from stock no."),
    Column(DONE),
)

CUT_NOTE = (
    "T is thickness, W width, L length; all are finished sizes, nothing is added for waste. The length runs along the "
    "grain even where it is the shorter, for a piece with end cuts from point to point. End cuts are told from square "
    "across the wide face: of one sign they lean towards each other, of unlike sign they are parallel."
)


def cut_list(taken: TakenOff, stock: Mapping[str, str], rows: Rows = shipped) -> Table:
    """Every timber piece and sheet part. `stock` says from which numbered lengths and sheets a mark is cut."""
    pieces = sorted(taken.pieces, key=lambda piece: (_place(piece.item), -piece.length, piece.mark))
    parts = sorted(taken.parts, key=lambda part: (_place(part.item), -part.along * part.across, part.mark))
    made = [_piece_row(piece, stock, rows) for piece in pieces]
    made += [_part_row(part, stock, rows) for part in parts]
    return Table("cost.cut-list", "Cut list", CUT_HEADS, tuple(made), CUT_NOTE)


def _place(item: Item) -> tuple[bool, tuple[float, ...], Item]:
    """Clear sheets, which another cutter makes, after all else; small sections first."""
    return item.sort == "clear", item.sizes, item


def chosen(table: Table, heads: Sequence[str]) -> Table:
    """The table with only so many of its columns, in its own order."""
    kept = [index for index, column in enumerate(table.columns) if column.head in heads]
    rows = tuple(tuple(row[index] for index in kept) for row in table.rows)
    return Table(table.id, table.title, tuple(table.columns[index] for index in kept), rows, table.note)


def _piece_row(piece: Piece, stock: Mapping[str, str], rows: Rows) -> Cells:
    thick, wide = piece.item.sizes if piece.item.sort == "lumber" else (None, None)
    size = (float(piece.count), thick, wide, piece.length)
    name = f"{section_words(piece.item)} timber" if thick else piece.item.sort
    grain = "along L" if thick else "none"
    made = (name, title_of(piece.item, rows), grain, *piece.ends, piece.holes)
    return (
        piece.mark,
        piece.what,
        assembly(piece.key, piece.vessel),
        *size,
        *made,
        stock.get(piece.mark, ""),
        "",
    )


def _part_row(part: SheetPart, stock: Mapping[str, str], rows: Rows) -> Cells:
    size = (float(part.count), thickness_of(part.item, rows), part.across, part.along)
    row = rows(part.item)
    kind = str(row.tag("kind", part.item.sort)) if row is not None else part.item.sort
    grain = "none" if part.item.sort == "clear" else "along L"
    made = (kind, title_of(part.item, rows), grain, None, None, _part_notes(part))
    return (part.mark, part.what, assembly(part.key, part.vessel), *size, *made, stock.get(part.mark, ""), "")


def _part_notes(part: SheetPart) -> str:
    """What else is done to a sheet part; its places stand in the drawing."""
    cut = ["cut to an outline"] if part.outline else []
    cut += [_many(len(part.openings), "opening")] if part.openings else []
    cut += [_many(len(part.holes), "hole")] if part.holes else []
    return ", ".join([*cut, *([part.edges] if part.edges else [])])


def _many(count: int, noun: str) -> str:
    return f"{count} {noun}" if count == 1 else f"{count} {noun}s"


def assembly(key: str, vessel: str) -> str:
    """The vessel and the wall, or the circuit, that a key speaks of, in words: "reef, north wall, window long"."""
    steps = key.split(".")
    words = [vessel] if vessel else []
    words += [_wall(name) for name in _after(steps, "walls")]
    words += [f"window {name}" for name in _after(steps, "windows")]
    for group in ("rings", "ties", "ribs", "buttresses"):
        words += [f"{group} {name}" for name in _after(steps, group)]
    words += [f"circuit {name}" for name in _after(steps, "circuits")]
    return ", ".join(words) or key


def _wall(name: str) -> str:
    """Walls of a box go by their side, faces of a tower by their number."""
    if name == "all":
        return "all walls"
    return f"face {name}" if name.isdigit() else f"{name} wall"


def _after(steps: Sequence[str], word: str) -> list[str]:
    """The name that follows a word in a key; none where the key does not have it."""
    return [name for before, name in pairwise(steps) if before == word]


QUANTITY_HEADS = tuple(
    Column(head, "1")
    for head in (
        "Length, m", "CrossSectionArea, m²", "OuterSurfaceArea, m²", "GrossSurfaceArea, m²", "GrossVolume, m³",
        "NetVolume, m³", "GrossWeight, kg",
    )
)  # fmt: skip

QUANTITY_NOTE = (
    "Of one piece, in SI, under the names that Qto_BeamBaseQuantities of IFC has for them: the outer surface is that "
    "of the long sides, gross is before the end cuts, net is after them. Holes are not taken off. Weight by the mean "
    "density of the grade."
)


def quantities(pieces: Iterable[Piece], rows: Rows = shipped) -> Table:
    """Lengths, faces, volume and weight of each timber piece, for other programs to read."""
    heads = (Column("mark"), Column("qty", "count"), *QUANTITY_HEADS)
    made = tuple(_quantity_row(piece, rows(piece.item)) for piece in pieces)
    return Table("cost.quantities", "Quantities of timber pieces", heads, made, QUANTITY_NOTE if made else "")


def _quantity_row(piece: Piece, row: Row | None) -> Cells:
    thick, wide = piece.item.sizes
    section, round_it = thick * wide, 2.0 * (thick + wide)
    volume = section * piece.length
    weight = volume * row.si("density_mean") if row is not None and "density_mean" in row.figures else None
    faces = (round_it * piece.length, round_it * piece.length + 2.0 * section)
    return (
        piece.mark,
        float(piece.count),
        piece.length,
        section,
        *faces,
        volume,
        thick * face_area(piece),
        weight,
    )
