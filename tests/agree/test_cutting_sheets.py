"""Sheets cut by us beside other methods: every way tried for few parts, parts laid freely, shelves for many parts."""

from __future__ import annotations

from functools import cache
from itertools import combinations
from random import Random
from time import monotonic

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.many import many
from tidestead.build.cutting.panels import PanelTerms, place_panels
from tidestead.build.cutting.sheets import Rect, SheetSaw, SheetStock, cut_sheets

Size = tuple[int, int, bool]
SHEET, KERF = (20, 12), 1


def sums(sizes: tuple[Size, ...], limit: int) -> list[int]:
    """Every place where a cut could stand: sums of sides, a kerf between them."""
    found = {0}
    for along, across, _ in sizes:
        found |= {one + side + KERF for one in found for side in (along, across)}
    return sorted(one - KERF for one in found if 0 < one - KERF < limit)


@cache
def fits(sizes: tuple[Size, ...], along: int, across: int) -> bool:
    """Whether parts can be cut out of one rectangle from edge to edge: every part of them, every place is tried."""
    if len(sizes) == 1:
        own, other, turns = sizes[0]
        return (own <= along and other <= across) or (turns and other <= along and own <= across)
    numbers = range(1, len(sizes))
    for count in range(len(sizes)):
        for chosen in combinations(numbers, count):
            first = tuple(size for at, size in enumerate(sizes) if at == 0 or at in chosen)
            second = tuple(size for at, size in enumerate(sizes) if at != 0 and at not in chosen)
            if second and (
                any(
                    fits(first, at, across) and fits(second, along - at - KERF, across)
                    for at in sums(sizes, along)
                )
                or any(
                    fits(first, along, at) and fits(second, along, across - at - KERF)
                    for at in sums(sizes, across)
                )
            ):
                return True
    return False


def fewest(sizes: tuple[Size, ...]) -> int:
    """The least number of sheets, over every way to share the parts out."""
    if not sizes:
        return 0
    best = len(sizes)
    for count in range(len(sizes)):
        for chosen in combinations(range(1, len(sizes)), count):
            here = tuple(size for at, size in enumerate(sizes) if at == 0 or at in chosen)
            if fits(here, *SHEET):
                rest = tuple(size for at, size in enumerate(sizes) if at != 0 and at not in chosen)
                best = min(best, 1 + fewest(rest))
    return best


parts = st.lists(st.tuples(st.integers(2, 20), st.integers(2, 12), st.booleans()), min_size=2, max_size=4)


@settings(deadline=None, max_examples=many(300))
@given(parts)
def test_few_parts_against_every_way(sizes: list[Size]) -> None:
    rects = [Rect(f"part {at}", along, across, 1, turns) for at, (along, across, turns) in enumerate(sizes)]
    plan = cut_sheets(rects, [SheetStock("sheet", *SHEET, 1.0)], SheetSaw(KERF, 0.0))
    assert plan.count == fewest(tuple(sorted(sizes)))


def random_rects(parts: int, seed: int, least: int = 150, most: int = 1200) -> list[Rect]:
    drawn = Random(seed)
    return [
        Rect(
            f"part {at}",
            drawn.randrange(least, 2 * most, 5) / 1e3,
            drawn.randrange(least, most, 5) / 1e3,
            1,
            turns=True,
        )
        for at in range(parts)
    ]


PLYWOOD = SheetStock("plywood", 2.44, 1.22, 40.0)
ACRYLIC = [SheetStock("large", 3.05, 2.03, 900.0), SheetStock("small", 2.5, 1.25, 420.0)]
SAW = SheetSaw(kerf=0.003, trim=0.010)
BUDGET = 10.0
"""Seconds; a busy machine is allowed twice as many."""


@pytest.mark.parametrize(
    "seed", [5, 9, *(pytest.param(seed, marks=pytest.mark.long) for seed in (3, 6, 10, 11, 12))]
)
def test_free_laying_is_never_dearer(seed: int) -> None:
    """A router may do all that a saw can; each keeps to the bound of the other. No seed ends at the bound by area."""
    rects = random_rects(8, seed, 300, 900)
    sawn = cut_sheets(rects, ACRYLIC, SAW)
    routed = place_panels(rects, ACRYLIC, SAW, "cost", PanelTerms(seconds=20.0))
    assert routed.proven
    assert routed.bound > sawn.bound
    assert routed.cost <= sawn.cost
    assert sawn.bound <= routed.cost
    assert routed.bound <= sawn.cost


def shelves(rects: list[Rect], stock: SheetStock, saw: SheetSaw) -> int:
    """Sheets by first fit on shelves: parts turned lengthwise, the deepest first, each on the first shelf with room."""
    width, depth = stock.along - 2.0 * saw.trim + saw.kerf, stock.across - 2.0 * saw.trim + saw.kerf
    sides = [
        sorted((rect.along + saw.kerf, rect.across + saw.kerf)) for rect in rects for _ in range(rect.count)
    ]
    sheets: list[float] = []
    filled: list[tuple[int, float, float]] = []
    for across, along in sorted(sides, reverse=True):
        for at, (sheet, deep, used) in enumerate(filled):
            if across <= deep and used + along <= width:
                filled[at] = (sheet, deep, used + along)
                break
        else:
            sheet = next((at for at, used in enumerate(sheets) if used + across <= depth), len(sheets))
            if sheet == len(sheets):
                sheets.append(0.0)
            sheets[sheet] += across
            filled.append((sheet, across, along))
    return len(sheets)


@pytest.mark.parametrize(
    "seed", [1, pytest.param(2, marks=pytest.mark.long), pytest.param(3, marks=pytest.mark.long)]
)
def test_ninety_parts_against_shelves(seed: int) -> None:
    rects = random_rects(90, seed)
    began = monotonic()
    plan = cut_sheets(rects, [PLYWOOD], SAW, budget_s=BUDGET)
    assert monotonic() - began < 2.0 * BUDGET
    assert plan.count < shelves(rects, PLYWOOD, SAW)
    assert plan.cost <= plan.bound + 2 * PLYWOOD.price
