"""Parts laid freely on a sheet, against published optima.

| problem | source | optima |
|---|---|---|
| the parts of most worth out of one sheet, 12 instances | J. E. Beasley, An exact two-dimensional non-guillotine cutting tree search procedure, Operations Research 33 (1985) 49-64 | as tabled in a public code repository (read) |
| the least height of a strip, class C1, turning allowed | E. Hopper, B. C. H. Turton, An empirical investigation of meta-heuristic and heuristic algorithms for a 2D packing problem, European Journal of Operational Research 128 (2001) 34-57 | 20, as the parts fill it exactly (read) |

Neither is a problem of cuts from edge to edge: they judge the free search alone.
"""  # noqa: E501 - a table of sources

from __future__ import annotations

import csv
import os
from collections import defaultdict
from pathlib import Path

import pytest

from tidestead.build.cutting.panels import PanelTerms, place_panels
from tidestead.build.cutting.sheet_types import Rect, SheetSaw, SheetStock

FOLDER = (
    Path(os.environ.get("TIDESTEAD_VALIDATION") or Path(__file__).parents[3] / "shared" / "validation")
    / "cutting"
)
NGCUT, STRIPS = FOLDER / "beasley_ngcut.txt", FOLDER / "hopper_turton_c1.csv"
WORTH = (164, 230, 247, 268, 358, 289, 430, 834, 924, 1452, 1688, 1865)
"""Optima of the first twelve instances, as printed."""
QUICK = {2, 4, 7, 10}
SECONDS = 120.0


def instance(number: int) -> tuple[list[Rect], SheetStock, PanelTerms]:
    """One of Beasley's: parts with the least and most number and the worth, and the sheet."""
    if not NGCUT.is_file():
        pytest.skip(f"the validation data are not there: {FOLDER}")
    values = iter(float(word) for word in NGCUT.read_text(encoding="utf-8").split())
    next(values)
    for _ in range(number):
        parts = int(next(values))
        along, across = next(values), next(values)
        rows = [[next(values) for _ in range(5)] for _ in range(parts)]
    rects = [Rect(f"part {at}", row[0], row[1], int(row[3])) for at, row in enumerate(rows)]
    terms = PanelTerms(tuple(row[4] for row in rows), tuple(int(row[2]) for row in rows), SECONDS)
    return rects, SheetStock("sheet", along, across, 1.0), terms


@pytest.mark.parametrize(
    "number",
    [pytest.param(at, marks=() if at in QUICK else pytest.mark.long) for at in range(1, len(WORTH) + 1)],
)
def test_most_worth_of_one_sheet(number: int) -> None:
    rects, stock, terms = instance(number)
    plan = place_panels(rects, [stock], SheetSaw(), "worth", terms)
    assert plan.reached == WORTH[number - 1]
    assert plan.proven
    assert plan.bound == plan.reached
    held = [part.mark for part in plan.sheets[0].placed]
    worth = dict(zip((rect.mark for rect in rects), terms.worth, strict=True))
    assert sum(worth[mark] for mark in held) == plan.reached


def strips() -> dict[str, tuple[float, float, list[Rect]]]:
    """Hopper and Turton's: width, optimum and parts by name."""
    if not STRIPS.is_file():
        pytest.skip(f"the validation data are not there: {FOLDER}")
    rows: dict[str, list[dict[str, str]]] = defaultdict(list)
    with STRIPS.open(encoding="utf-8", newline="") as lines:
        for row in csv.DictReader(lines):
            rows[row["instance"]].append(row)
    return {
        name: (
            float(those[0]["strip_width"]),
            float(those[0]["optimal_height"]),
            [
                Rect(row["item"], float(row["length"]), float(row["height"]), int(row["demand"]), turns=True)
                for row in those
            ],
        )
        for name, those in rows.items()
    }


@pytest.mark.long
@pytest.mark.parametrize("name", ["C1_1", "C1_2", "C1_3"])
def test_least_length_of_a_strip(name: str) -> None:
    width, optimum, rects = strips()[name]
    assert sum(rect.along * rect.across * rect.count for rect in rects) == width * optimum
    strip = SheetStock("strip", 3.0 * optimum, width, 1.0)
    plan = place_panels(rects, [strip], SheetSaw(), "length", PanelTerms(seconds=2.0 * SECONDS))
    assert plan.reached == pytest.approx(optimum, abs=1e-9)
    assert plan.proven
    assert plan.bound == plan.reached
