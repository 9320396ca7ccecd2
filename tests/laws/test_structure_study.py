"""Laws of the whole structure study: more water is never better, the compass does not matter, the safe level is one."""

from __future__ import annotations

import pickle
from collections.abc import Iterable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.journeys.structure_plans import PLAIN, TANK, TOWER, VAT, asked, changed, facts, use
from tidestead.core.answer import Verdict
from tidestead.plan import loads
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged
from tidestead.studies.structure import study
from tidestead.studies.structure.case_checks import judge_case
from tidestead.studies.structure.case_facts import Subject, find_case
from tidestead.studies.structure.water import tried, water_facts

FEW = settings(max_examples=15, deadline=None)
BRIM = 27.0 * 0.0254


def judged_at(text: str, *levels: float) -> list[dict[str, Judged]]:
    """The checks of a plan's one vessel, with water standing for good at each level."""
    inputs = Inputs(loads(text).plan, "metric")
    (key, vessel), *_ = inputs.plan.vessels.items()
    subject = Subject(key, vessel, inputs.plan, study.tables_of(inputs))
    water = water_facts(inputs.plan, vessel)
    found = []
    for level in levels:
        case = tried(level, water)
        found.append({one.check.id: one for one in judge_case(subject, find_case(subject, case), "metric")})
    return found


def uses(judged: Iterable[Judged]) -> dict[str, float]:
    """What can be told of the checks that grow with the water's height.

    How far a corner lifts off its seat does not: water that rises to a window's upper edge presses it back.
    """
    return {
        one.check.id: one.use for one in judged if one.by_level and not one.check.id.endswith("seal.lift")
    }


# ---- depth ---------------------------------------------------------------------------------------


BRIMS = {PLAIN: (0.1, BRIM), VAT: (0.1, BRIM), TANK: (0.1, 1.2192), TOWER: (0.4, 1.55)}
"""From which share of the brim on. A tower's face is judged across or up, the way it bends less; in shallow water the
way changes and with it the span that its bow is held to."""


@FEW
@given(st.sampled_from(sorted(BRIMS)), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_deeper_water_never_uses_less_of_any_limit(text: str, one: float, other: float) -> None:
    least, brim = BRIMS[text]
    low, high = (brim * (least + (1.0 - least) * share) for share in sorted((one, other)))
    shallow, deep = (uses(found.values()) for found in judged_at(text, low, high))
    assert set(shallow) <= set(deep)
    for ident, before in shallow.items():
        assert deep[ident] >= before * (1.0 - 1e-6) - 1e-9, (ident, low, high)


# ---- compass -------------------------------------------------------------------------------------

QUARTER = {"south": "east", "east": "north", "north": "west", "west": "south"}
"""A quarter turn against the clock: what looked south looks east."""


def box(sizes: dict[str, str], low: str, ties: tuple[str, ...], wide: str) -> str:
    """A box with a window and wide studs in one wall, ties across it, on a floor that falls."""
    length, width, window, left = (sizes[name] for name in ("length", "width", "window", "left"))
    across, first, second = ties
    return changed(
        VAT.replace("walls.south.windows", f"walls.{window}.windows"),
        ('length = "6 ft"', f'length = "{length}"'),
        ('width = "4 ft"', f'width = "{width}"'),
        ('soil = "gravel"', f'soil = "gravel", drop = "15 mm", falls_to = "{low}"'),
        ('from_left = "21 in"', f'from_left = "{left}"'),
        ('across = "width"', f'across = "{across}"'),
        ('at = ["2 ft", "4 ft"]', f'at = ["{first}", "{second}"]'),
        ("[vessels.vat.corners]", f'[vessels.vat.walls.{wide}.studs]\nspacing = "400 mm"\n\n[vessels.vat.corners]'),
    )  # fmt: skip


def millimetres(value: int) -> str:
    return f"{value} mm"


@st.composite
def turned(draw: st.DrawFn) -> tuple[str, str]:
    """A box, and the same box a quarter turn on. Places count from the west and from the south in both."""
    long, short = draw(st.integers(1500, 2400)), draw(st.integers(1100, 2000))
    window, low, wide = (draw(st.sampled_from(sorted(QUARTER))) for _ in range(3))
    wall = long if window in ("south", "north") else short
    left = millimetres(draw(st.integers(50, wall - 762 - 50)))
    across = draw(st.sampled_from(["width", "length"]))
    run = long if across == "width" else short
    places = [draw(st.integers(200, run // 2 - 50)), draw(st.integers(run // 2 + 50, run - 200))]
    # From the west they come to count from the south as they are, from the south to the west from the other end.
    after = places if across == "width" else [run - place for place in reversed(places)]
    sizes = {"length": millimetres(long), "width": millimetres(short), "window": window, "left": left}
    swapped = {"length": sizes["width"], "width": sizes["length"], "window": QUARTER[window], "left": left}
    other = "length" if across == "width" else "width"
    first = box(sizes, low, (across, *map(millimetres, places)), wide)
    second = box(swapped, QUARTER[low], (other, *map(millimetres, after)), QUARTER[wide])
    return first, second


@FEW
@given(turned())
def test_a_quarter_turn_changes_no_use(pair: tuple[str, str]) -> None:
    (before,), (after,) = (judged_at(text, BRIM) for text in pair)
    assert len(before) == len(after) > 60
    for ident, one in before.items():
        parts = [QUARTER.get(part, part) for part in ident.split(".")]
        other = after[".".join(parts)]
        assert other.check.verdict is one.check.verdict, ident
        assert other.use == pytest.approx(one.use, rel=1e-5, abs=1e-9), ident


# ---- thickness -----------------------------------------------------------------------------------

EDGE = st.sampled_from(["seat", "held", "clamped"])


@FEW
@given(
    st.integers(12, 40),
    st.integers(300, 900),
    st.integers(250, 450),
    st.tuples(EDGE, EDGE, EDGE, st.sampled_from(["seat", "held", "clamped", "free", "rim"])),
)
def test_twice_the_thickness_bends_and_strains_a_window_less(
    thick: int, width: int, height: int, edges: tuple[str, str, str, str]
) -> None:
    left, right, bottom, top = edges

    def pane(thickness: int) -> str:
        return changed(
            VAT,
            ('thickness = "1 1/4 in"', f'thickness = "{thickness} mm"'),
            ('width = "30 in"\nheight = "18 in"', f'width = "{width} mm"\nheight = "{height} mm"'),
            ('from_left = "21 in"\n', ""),
            (
                '{ left = "seat", right = "seat", bottom = "seat", top = "seat" }',
                f'{{ left = "{left}", right = "{right}", bottom = "{bottom}", top = "{top}" }}',
            ),
        )

    thin, double = (judged_at(pane(value), 0.4)[0] for value in (thick, 2 * thick))
    # The side pulled more is compared: a stiff sheet on a soft bed turns at its corners, so that a thousandth of the
    # allowed pull may wander from one side to the other.
    for names in (("stress.water", "stress.air"), ("bow.short",), ("bow.long",)):
        idents = [f"structure.vat.south.pane.{name}" for name in names]
        before, after = (max(found[ident].use for ident in idents) for found in (thin, double))
        assert 0.0 < after <= before * (1.0 + 1e-9), names


# ---- how high may it be filled ---------------------------------------------------------------------


@st.composite
def weakened(draw: st.DrawFn) -> str:
    """The vat with a part or two too weak for it."""
    text = PLAIN
    changes = {
        'capacity = "400 lbf"': [f'capacity = "{value} lbf"' for value in (60, 90, 120)],
        'spacing = "12 in"': [f'spacing = "{value} in"' for value in (20, 24)],
        'foot = { fastener = "screw-no14x4", count = 3': ['foot = { fastener = "nail-8d", count = 1'],
        'end_joint = { fastener = "screw-no14x4", count = 3': ['end_joint = { fastener = "nail-8d", count = 2'],
        'section = "2x4"\ngrade = "dfl-no2"\nspacing': ['section = "2x3"\ngrade = "spf-no2"\nspacing'],
    }  # fmt: skip
    chosen = draw(st.lists(st.sampled_from(sorted(changes)), min_size=1, max_size=2, unique=True))
    if len(chosen) == 2 and all("spacing" in words for words in chosen):
        chosen = chosen[:1]
    for before in chosen:
        text = changed(text, (before, draw(st.sampled_from(changes[before]))))
    return text


@settings(max_examples=8, deadline=None)
@given(weakened())
def test_below_the_safe_level_nothing_fails_and_above_it_something_does(text: str) -> None:
    (vessel,) = facts(text).built
    level = vessel.level
    assert level is not None
    for depth, good in (
        (level.holds, {Verdict.SOUND, Verdict.NEAR}),
        (level.sound, {Verdict.SOUND}),
    ):
        if depth is None:
            continue
        below, above = judged_at(text, max(depth - 0.005, 0.05), min(depth + 0.010, BRIM))
        assert {one.check.verdict for one in below.values() if one.by_level} <= good
        if depth < BRIM - 0.010:
            assert {one.check.verdict for one in above.values() if one.by_level} - good
    assert level.sound is None or (level.holds is not None and level.sound <= level.holds)
    fails = any(check.verdict is Verdict.FAILS for check in asked(text).checks)
    assert fails or level.holds == pytest.approx(BRIM)


# ---- from process to process -----------------------------------------------------------------------


@pytest.mark.parametrize("text", [PLAIN, VAT, TOWER], ids=["plain", "vat", "tower"])
def test_facts_go_from_process_to_process(text: str) -> None:
    inputs = Inputs(loads(text).plan, "us")
    found = study.find(inputs)
    sent = pickle.loads(pickle.dumps(found))
    assert study.judge(inputs, sent) == study.judge(inputs, found)


def test_the_study_changes_nothing_it_is_given() -> None:
    plan = loads(VAT).plan
    before = plan.model_dump_json()
    first = asked(VAT)
    assert plan.model_dump_json() == before
    inputs = Inputs(plan, "us")
    assert study.judge(inputs, study.find(inputs)) == first
    assert use(VAT, "vat.south.pane.bow.long") > 0.0
