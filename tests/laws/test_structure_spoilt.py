"""Any plan that can be read gets an answer, with parts left out and odd sizes: never a trace, never a fifth word."""

from __future__ import annotations

import copy
import math
import tomllib
from functools import lru_cache
from pathlib import Path
from typing import Any

import pytest
import tomlkit
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.journeys.structure_plans import SHEET, TANK, TOWER, VAT
from tidestead import desk
from tidestead.core.answer import Answer, Verdict
from tidestead.core.errors import PlanError
from tidestead.plan import loads
from tidestead.report import as_json

EXAMPLES = Path(__file__).parents[2] / "examples"
FEW = settings(
    max_examples=30, deadline=None, suppress_health_check=list(HealthCheck)
)  # whole answers are slow
MANY = settings(FEW, max_examples=1500)

SIZES = ("1 mm", "7 mm", "19 mm", "38 mm", "6 in", "0.3 m", "30 in", "1.1 m", "5 ft", "2.9 m", "40 m")
ODD = {
    "section": ("2x4", "3-2x12", "20 x 20 mm", "5 of 47 x 295 mm", "300 x 10 mm"),
    "grade": ("C16", "C30", "dfl-no2", "sp-no2-2x8"),
    "fastener": ("nail-8d", "screw-6x120", "bolt-1/2", "screw-lag-1/2x8", "nail-stainless-16d"),
    "sheet": ("osb-23/32", "plywood-3/8", "birch-plywood-12", "spruce-plywood-24", "plywood-3ply-23/32"),
    "face_grain": ("across studs", "along studs"),
    "lies": ("flat", "on edge"),
    "carried_by": ("ledger", "anchors", "floor ties"),
    "kind": ("slab", "ground", "joists", "coating", "sheet", "pinned", "rigid"),
    "soil": ("clay", "gravel"),
    "material": ("acrylic-cast", "acrylic-extruded", "glass-toughened", "glass-annealed"),
    "left": ("seat", "held", "clamped", "free"),
    "right": ("seat", "held", "clamped", "free"),
    "bottom": ("seat", "held", "clamped", "free"),
    "top": ("seat", "held", "clamped", "free", "rim"),
    "bed": ("silicone-neutral", "gasket-epdm"),
    "membrane": ("bed", "clamp flange"),
    "timber_rules": ("NDS", "EC5"),
    "wood": ("dry", "humid", "wet"),
    "corners": ("pinned", "rigid"),
    "stage": ("planned", "filled"),
    "holds": ("fresh", "seawater"),
    "across": ("width", "length"),
    "temperature": ("5 degC", "40 degC", "120 degC"),
    "warmest_wood": ("5 degC", "45 degC", "59 degC", "90 degC"),
    "count": (1, 3, 40),
    "coats": (1, 2, 9),
    "layers": (1, 3),
    "sides": (3, 5, 40),
    "per_face": (1, 4),
    "falls_to": ("north", "south", "east", "west"),
    "shape": ("box", "polygon", "round"),
    "product": ("epdm-45-mil", "liquid-rubber"),
    "capacity": ("1 N", "90 kN"),
    "bears_on": ("wood", "steel"),
    "sill_held_by": ("jambs", "base"),
    "into": ("side", "end"),
    "seams": ("plain", "reinforced"),
    "screws_through": (True, False),
}
"""Other values for a key; any other text that is a size gets another size."""

TIMBER = ({"lost": "30 %"}, {"lost": "97 %"}, {"cracked": [1]}, {"depth": "40 mm"}, {"breadth": "3 in"})
FIXED = ({"missing": 1}, {"missing": 30})
FOUND: dict[str, tuple[dict[str, Any], ...]] = {
    "studs": TIMBER,
    "rim": TIMBER,
    "rings": TIMBER,
    "ribs": TIMBER,
    "cross": TIMBER,
    "thirds": TIMBER,
    "base": FIXED,
    "top": FIXED,
    "foot": FIXED,
    "joint": FIXED,
    "end_joint": FIXED,
    "sheathing": ({"thickness": "9 mm"},),
    "pane": ({"thickness": "15 mm"},),
    "long": ({"thickness": "1 in"},),
}
"""Values that may be measured on a part, by the key it stands under."""

Path_ = tuple[str, ...]


@lru_cache(maxsize=1)
def sources() -> tuple[dict[str, Any], ...]:
    texts = [(EXAMPLES / f"{name}.toml").read_text(encoding="utf-8") for name in ("packhouse", "skerry")]
    return tuple(tomllib.loads(text) for text in (*texts, TANK, VAT, SHEET, TOWER))


def places(node: Any, path: Path_ = ()) -> list[Path_]:
    """Every key of a plan, tables and what is in them."""
    found: list[Path_] = []
    if isinstance(node, dict):
        for key, value in node.items():
            found += [(*path, key), *places(value, (*path, key))]
    return found


def at(node: Any, path: Path_) -> Any:
    for key in path:
        node = node[key]
    return node


def is_size(value: Any) -> bool:
    return isinstance(value, str) and value[:1].isdigit() and value.split()[-1] in ("mm", "m", "in", "ft")


@st.composite
def spoilt(draw: st.DrawFn) -> str:
    """A plan with a few of its keys left out and a few changed."""
    plan = copy.deepcopy(draw(st.sampled_from(sources())))
    for _ in range(draw(st.integers(0, 3))):
        path = draw(st.sampled_from(places(plan)))
        del at(plan, path[:-1])[path[-1]]
        if not plan:
            break
    for _ in range(draw(st.integers(0, 4))):
        open_to = [
            path for path in places(plan) if path[-1] in ODD and not isinstance(at(plan, path), dict)
        ] + [path for path in places(plan) if is_size(at(plan, path))]
        if not open_to:
            break
        path = draw(st.sampled_from(open_to))
        value = draw(st.sampled_from(ODD.get(path[-1], SIZES)))
        at(plan, path[:-1])[path[-1]] = value
    for _ in range(draw(st.integers(0, 1))):
        parts = [path for path in places(plan) if path[-1] in FOUND and isinstance(at(plan, path), dict)]
        if parts:
            path = draw(st.sampled_from(parts))
            at(plan, path)["as_built"] = draw(st.sampled_from(FOUND[path[-1]]))
    return tomlkit.dumps(plan)


def check_sane(answer: Answer) -> None:
    """Four words only, a reason wherever nothing is proved, and numbers where something is."""
    for check in answer.checks:
        assert check.verdict in Verdict
        if check.verdict is Verdict.UNPROVEN:
            assert (
                check.missing
                or (check.estimate is not None and not check.estimate.finite)
                or (isinstance(check.limit, float) and not math.isfinite(check.limit))
            ), check.id
        else:
            assert check.estimate is not None
            assert check.estimate.finite
    assert len({check.id for check in answer.checks}) == len(answer.checks)
    assert answer.sentence
    assert answer.cautions
    assert answer.verdict in Verdict


def answered(text: str) -> Answer | None:
    """The answer, told in both systems; None where the plan cannot be read, which is told as faults."""
    try:
        loaded = loads(text)
    except PlanError:
        return None
    answer = desk.answer(loaded, ["structure"], "metric")["structure"]
    as_json.dump({"structure": answer}, "spoilt.toml")
    return answer


@FEW
@given(spoilt())
def test_a_spoilt_plan_is_answered_all_the_same(text: str) -> None:
    answer = answered(text)
    if answer is not None:
        check_sane(answer)


@pytest.mark.long
@pytest.mark.timeout(3600)
@MANY
@given(spoilt())
def test_many_spoilt_plans_are_answered_all_the_same(text: str) -> None:
    answer = answered(text)
    if answer is not None:
        check_sane(answer)
