"""Drawings for cutters: read back, they have the parts' own sizes, hole centres and layers."""

from __future__ import annotations

import io
import math
from dataclasses import replace
from itertools import combinations

import pytest
from ezdxf.colors import aci2rgb
from ezdxf.document import Drawing
from ezdxf.entities.lwpolyline import LWPolyline
from ezdxf.filemanagement import read
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.cut_samples import HOLES, MITRE, OPENING, PARTS, TAKEN
from tests.many import many
from tidestead.build.flats import Flat, file_stems, flats_of, mitred
from tidestead.build.lists import Outline, SheetPart
from tidestead.build.notches import notched
from tidestead.core.errors import ImpossibleInput
from tidestead.report.dxf import LAYERS, drawing, drawings

MM = 1000.0
FINE = 1e-6


def opened(text: str) -> Drawing:
    return read(io.StringIO(text))


def outlines(document: Drawing, layer: str = "OUTLINE") -> list[list[tuple[float, float]]]:
    found = document.modelspace().query(f'LWPOLYLINE[layer=="{layer}"]')
    return [[(x, y) for x, y in one.get_points("xy")] for one in found if isinstance(one, LWPolyline)]


def extents(corners: list[tuple[float, float]]) -> tuple[float, float, float, float]:
    across, up = zip(*corners, strict=True)
    return min(across), min(up), max(across), max(up)


FILES = drawings(flats_of(TAKEN, "metric"))


def test_a_file_for_every_part_that_is_no_plain_stick_and_one_for_all() -> None:
    assert list(FILES) == ["reef-S1", "reef-S2", "reef-W1", "reef-R1", "all-parts"]


@pytest.mark.parametrize("name", FILES)
def test_files_are_sound_and_in_millimetres(name: str) -> None:
    document = opened(FILES[name])
    assert not document.audit().errors
    assert document.header["$INSUNITS"] == 4
    assert document.header["$MEASUREMENT"] == 1
    assert set(LAYERS) <= {layer.dxf.name for layer in document.layers}
    assert {entity.dxf.layer for entity in document.modelspace()} <= set(LAYERS)


@pytest.mark.parametrize("part", PARTS, ids=lambda part: part.mark)
def test_outline_is_as_large_as_the_part(part: SheetPart) -> None:
    (corners,) = outlines(opened(FILES[part.mark.replace(" ", "-")]))
    wanted = (0.0, 0.0, MM * part.width, MM * part.height)
    assert extents(corners) == pytest.approx(wanted, abs=FINE)


def test_holes_and_openings_lie_where_the_part_has_them() -> None:
    document = opened(FILES["reef-S1"])
    space = document.modelspace()
    circles = [(one.dxf.center.x, one.dxf.center.y, one.dxf.radius) for one in space.query("CIRCLE")]
    points = [(one.dxf.location.x, one.dxf.location.y) for one in space.query('POINT[layer=="HOLE-CENTRES"]')]
    for hole, circle, point in zip(HOLES, circles, points, strict=True):
        assert circle == pytest.approx((MM * hole.x, MM * hole.y, MM * hole.diameter / 2.0), abs=FINE)
        assert point == pytest.approx((MM * hole.x, MM * hole.y), abs=FINE)
        crossed = [line for line in space.query('LINE[layer=="HOLE-CENTRES"]')
                   if math.dist(line.dxf.start.lerp(line.dxf.end).xyz[:2], point) < FINE]  # fmt: skip
        assert len(crossed) == 2
    (opening,) = outlines(document, "OPENINGS")
    assert opening == [pytest.approx((MM * x, MM * y), abs=FINE) for x, y in OPENING]


def test_grain_runs_as_it_was_asked_and_clear_sheets_have_none() -> None:
    """The long straight line of the sign lies along the side that is cut along the grain."""

    def way(name: str) -> list[str]:
        lines = opened(FILES[name]).modelspace().query('LINE[layer=="GRAIN"]')
        longest = max(lines, key=lambda line: line.dxf.start.distance(line.dxf.end), default=None)
        if longest is None:
            return []
        across = abs(longest.dxf.end.x - longest.dxf.start.x)
        return ["level" if across > abs(longest.dxf.end.y - longest.dxf.start.y) else "upright"]

    assert way("reef-S1") == ["upright"]
    assert way("reef-S2") == way("reef-R1") == ["level"]
    assert way("reef-W1") == []


def test_a_ring_segment_is_mitred_at_both_ends() -> None:
    """Its short edge is shorter by twice the width times the tangent: 5 1/2 in wide, 22.5 degrees."""
    (corners,) = outlines(opened(FILES["reef-R1"]))
    lower = sorted(x for x, y in corners if abs(y) < FINE)
    upper = sorted(x for x, y in corners if y > FINE)
    assert lower == pytest.approx([0.0, 620.0], abs=FINE)
    assert upper[1] - upper[0] == pytest.approx(620.0 - 2.0 * 139.7 * math.tan(MITRE), abs=FINE)
    assert extents(corners)[3] == pytest.approx(139.7, abs=FINE)


def words_and_outlines(text: str) -> list[tuple[float, float, float, float]]:
    """Boxes of every outline, and of every line of words as wide as its letters could be."""
    space = opened(text).modelspace()
    found = [extents(corners) for corners in outlines(opened(text))]
    for one in space.query("TEXT"):
        x, y = one.dxf.insert.x, one.dxf.insert.y
        found.append((x, y, x + 0.9 * one.dxf.height * len(one.dxf.text), y + one.dxf.height))
    return found


@pytest.mark.parametrize("times", [1, 3])
def test_no_part_touches_another_or_any_words(times: int) -> None:
    flats = [
        replace(flat, mark=f"{flat.mark} {at}") for at in range(times) for flat in flats_of(TAKEN, "metric")
    ]
    boxes = words_and_outlines(drawings(flats)["all-parts"])
    assert len(boxes) > 16 * times
    for one, other in combinations(boxes, 2):
        apart = max(one[0] - other[2], other[0] - one[2], one[1] - other[3], other[1] - one[3])
        assert apart > 0.0, f"{one} and {other} overlap"


@pytest.mark.parametrize("name", FILES)
def test_a_file_says_how_far_it_reaches_and_opens_at_that(name: str) -> None:
    document = opened(FILES[name])
    low, high = document.header["$EXTMIN"], document.header["$EXTMAX"]
    boxes = words_and_outlines(FILES[name])
    assert min(box[0] for box in boxes) >= low[0]
    assert min(box[1] for box in boxes) >= low[1]
    assert max(box[2] for box in boxes) <= high[0]
    assert max(box[3] for box in boxes) <= high[1]
    (view,) = document.viewports.get_config("*Active")
    assert view.dxf.height >= high[1] - low[1]
    assert view.dxf.center.x == pytest.approx((low[0] + high[0]) / 2.0)
    assert view.dxf.center.y == pytest.approx((low[1] + high[1]) / 2.0)


def brightness(colour: int) -> float:
    """Relative luminance of an index of colours, as WCAG 2 defines it."""
    shares = [part / 255.0 for part in aci2rgb(colour)]
    red, green, blue = (one / 12.92 if one <= 0.03928 else ((one + 0.055) / 1.055) ** 2.4 for one in shares)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


@pytest.mark.parametrize("layer", sorted(set(LAYERS) - {"OUTLINE"}))
def test_lines_can_be_seen_on_white_and_on_black(layer: str) -> None:
    """Three to one, as WCAG asks of graphics; outlines have the colour that turns with the ground."""
    bright = brightness(LAYERS[layer])
    assert 1.05 / (bright + 0.05) >= 3.0
    assert (bright + 0.05) / 0.05 >= 3.0


def box(left: float, low: float, right: float, high: float) -> tuple[tuple[float, float], ...]:
    return (left, low), (right, low), (right, high), (left, high)


SHEET = box(0.0, 0.0, 2.4, 1.2)


def test_an_opening_that_reaches_the_edge_is_a_notch_of_the_outline() -> None:
    """A window with a free top edge: the part is a U, cut along one line, and no opening is left of it."""
    inner = box(0.2, 0.1, 0.4, 0.3)
    outline, openings = notched(SHEET, [box(0.5, 0.4, 1.9, 1.2), inner])
    assert outline == ((0, 0), (2.4, 0), (2.4, 1.2), (1.9, 1.2), (1.9, 0.4), (0.5, 0.4), (0.5, 1.2), (0, 1.2))
    assert openings == (inner,)


@pytest.mark.parametrize(
    ("opening", "corners"),
    [
        (box(-0.1, 0.4, 0.3, 1.3), 6),
        (box(-1.0, -1.0, 0.5, 2.0), 4),
        (box(0.4, 0.0, 0.8, 0.5), 8),
        (box(2.0, 0.3, 2.4 + 1e-9, 0.6), 8),
    ],
)
def test_what_a_notch_takes_is_its_area_inside(opening: Outline, corners: int) -> None:
    outline, openings = notched(SHEET, [opening])
    assert (len(outline), openings) == (corners, ())
    ring = zip(outline, (*outline[1:], outline[0]), strict=True)
    area = sum(ax * by - bx * ay for (ax, ay), (bx, by) in ring) / 2.0
    left, low, right, high = extents(list(opening))
    taken = (min(right, 2.4) - max(left, 0.0)) * (min(high, 1.2) - max(low, 0.0))
    assert area == pytest.approx(2.4 * 1.2 - taken, abs=1e-8)


@pytest.mark.parametrize(
    ("outline", "opening"),
    [
        (SHEET, box(0.5, 0.4, 1.9, 1.0)),
        (SHEET, box(0.5, 0.0, 1.9, 1.2)),
        (SHEET, box(2.4, 0.0, 3.0, 1.2)),
        (SHEET, ((0.5, 0.4), (1.9, 0.4), (1.2, 1.2))),
        (((0.0, 0.0), (2.4, 0.0), (1.2, 1.2)), box(0.5, 0.0, 1.0, 0.2)),
    ],
    ids=["inside", "from edge to edge", "beside it", "three corners", "a part of three corners"],
)
def test_what_is_no_notch_stays_as_it_is(outline: Outline, opening: Outline) -> None:
    assert notched(outline, [opening]) == (outline, (opening,))


ANGLES = st.floats(-1.2, 1.2).map(lambda angle: round(angle, 4))


@settings(max_examples=many(100), deadline=None)
@given(st.floats(0.05, 4.0), st.floats(0.03, 0.3), ANGLES, ANGLES)
def test_a_mitred_piece_lies_within_its_length_and_width(
    length: float, width: float, left: float, right: float
) -> None:
    """Whatever its ends, its outline turns counter-clockwise; where it has two long edges it touches all four sides."""
    lost = width * (abs(math.tan(left)) + abs(math.tan(right)))
    try:
        corners = list(mitred(length, width, (left, right)))
    except ImpossibleInput:
        assert lost > length
        return
    low_x, low_y, high_x, high_y = extents(corners)
    assert -FINE < low_x < high_x < length + FINE
    assert -FINE < low_y < high_y < width + FINE
    ring = zip(corners, corners[1:] + corners[:1], strict=True)
    area = sum(ax * by - bx * ay for (ax, ay), (bx, by) in ring) / 2.0
    assert area > 0.0
    if lost < length:
        assert (low_x, low_y, high_x, high_y) == pytest.approx((0.0, 0.0, length, width), abs=1e-12)
        assert area == pytest.approx(width * (length - lost / 2.0))


ODD = (
    "",
    " ",
    "%%u",
    "{\\H3x;big}",
    "\\P",
    "^J",
    "a\x00b",
    "two\nlines",
    "\t",
    "\x1b[2J",
    "\u202eback",
    "ä€漢🐟",
    "0\nEOF",
)


@pytest.mark.parametrize("words", ODD)
def test_any_words_make_a_sound_file(words: str) -> None:
    flat = Flat(words, ((0.0, 0.0), (1.0, 0.0), (0.5, 0.7)), told=(words, f"S1 {words}"))
    document = opened(drawing([flat]))
    assert not document.audit().errors
    assert outlines(document) == [[(0.0, 0.0), (1000.0, 0.0), (500.0, 700.0)]]
    assert len(document.modelspace().query("LWPOLYLINE")) == 1


def test_names_of_files_are_safe_and_differ_where_capitals_do_not_count() -> None:
    assert file_stems(["reef N1", "reef n1", "../x", "", "ä"]) == [
        "reef-N1",
        "reef-n1-2",
        "x",
        "part",
        "part-2",
    ]
