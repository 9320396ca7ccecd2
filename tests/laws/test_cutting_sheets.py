"""What every plan of sheets keeps, what its second look finds, and what is refused."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.many import many
from tidestead.build.cutting import sheet_plans
from tidestead.build.cutting.check_sheets import separable, sheet_faults
from tidestead.build.cutting.guillotine import filled, rules
from tidestead.build.cutting.panels import PanelTerms, place_panels
from tidestead.build.cutting.sheet_bounds import least_cost
from tidestead.build.cutting.sheet_job import sheet_job
from tidestead.build.cutting.sheets import (
    Cut,
    CutSheet,
    OffCut,
    Placed,
    Rect,
    SheetPlan,
    SheetSaw,
    SheetStock,
    cut_sheets,
)
from tidestead.core.errors import ImpossibleInput, SolverError

PLY = SheetStock("plywood", 2.44, 1.22, 40.0)
SAW = SheetSaw(kerf=0.003, trim=0.010)

sides = st.integers(60, 1200).map(lambda size: size / 1e3)
shapes = st.lists(st.tuples(sides, sides, st.integers(1, 3), st.booleans()), min_size=1, max_size=9)
saws = st.sampled_from([SheetSaw(), SAW, SheetSaw(kerf=0.0032, trim=0.0), SheetSaw(kerf=0.006, trim=0.002)])
sizes = st.sampled_from(
    [
        [PLY],
        [PLY, SheetStock("large", 3.05, 1.525, 62.0)],
        [PLY, SheetStock("left", 1.5, 1.22, 0.0, 2), SheetStock("none", 9.0, 9.0, 0.0, 0)],
        [SheetStock("short", 1.25, 1.25, 11.0, 1), SheetStock("long", 2.5, 1.25, 21.0), PLY],
    ]
)


def rects_of(drawn: list[tuple[float, float, int, bool]]) -> list[Rect]:
    return [Rect(f"part {at}", *one) for at, one in enumerate(drawn)]


@settings(deadline=None, max_examples=many(150))
@given(shapes, sizes, saws)
def test_every_plan_stands_a_second_look(
    drawn: list[tuple[float, float, int, bool]], stocks: list[SheetStock], saw: SheetSaw
) -> None:
    rects = rects_of(drawn)
    plan = cut_sheets(rects, stocks, saw)
    assert sheet_faults(plan, rects, stocks, saw) == ()
    assert plan.bound <= plan.cost * (1.0 + 1e-9)
    assert plan.proven == (plan.bound == plan.cost)
    turns = {rect.mark: rect.turns for rect in rects}
    assert all(turns[part.mark] for sheet in plan.sheets for part in sheet.placed if part.turned)


@settings(deadline=None, max_examples=many(100, 25))
@given(
    shapes.filter(lambda drawn: len(drawn) < 5),
    sizes,
    saws,
    st.tuples(sides, sides, st.just(1), st.booleans()),
)
def test_one_part_more_never_costs_less(
    drawn: list[tuple[float, float, int, bool]],
    stocks: list[SheetStock],
    saw: SheetSaw,
    more: tuple[float, float, int, bool],
) -> None:
    few, many_parts = rects_of(drawn), rects_of([*drawn, more])
    assert cut_sheets(few, stocks, saw).cost <= cut_sheets(many_parts, stocks, saw).cost
    less, great = (least_cost(sheet_job(rects, stocks, saw)).cost for rects in (few, many_parts))
    assert less <= great + 1e-9


@settings(deadline=None, max_examples=many(100))
@given(shapes, saws)
def test_no_rule_beats_the_bound(drawn: list[tuple[float, float, int, bool]], saw: SheetSaw) -> None:
    """The bound knows nothing of rules, nor rules of it."""
    job = sheet_job(rects_of(drawn), [PLY], saw)
    bound = least_cost(job).cost
    for rule in rules(job)[:20]:
        layouts = filled(job, rule)
        assert layouts is not None
        assert sheet_plans.cost_of(layouts) >= bound - 1e-9


def test_the_same_parts_are_cut_the_same_way() -> None:
    rects = rects_of(
        [(0.7, 0.41, 3, True), (1.13, 0.52, 2, False), (0.33, 0.29, 5, True), (0.9, 0.6, 3, True)]
    )
    stocks = [PLY, SheetStock("large", 3.05, 1.525, 62.0)]
    assert cut_sheets(rects, stocks, SAW) == cut_sheets(rects, stocks, SAW)


def test_sizes_in_inches_fit_exactly() -> None:
    """Eight parts of 2 ft by 2 ft out of 4 ft by 8 ft, where nothing is lost to the saw."""
    foot = 0.3048
    plan = cut_sheets(
        [Rect("quarter", 2 * foot, 2 * foot, 8)], [SheetStock("sheet", 8 * foot, 4 * foot, 50.0)], SheetSaw()
    )
    assert plan.count == 1
    assert plan.sheets[0].share == pytest.approx(1.0)
    assert plan.sheets[0].offcuts == ()


def test_a_part_at_the_edge_loses_no_kerf() -> None:
    """Two parts and one kerf fill the sheet; a hair less of it does not take them."""
    half = Rect("half", 1.0, 0.5, 2)
    saw = SheetSaw(kerf=0.003)
    assert cut_sheets([half], [SheetStock("just", 2.003, 0.5, 1.0)], saw).count == 1
    assert cut_sheets([half], [SheetStock("short", 2.0029, 0.5, 1.0)], saw).count == 2


def test_what_is_on_hand_is_used_first_and_no_further() -> None:
    stocks = [PLY, SheetStock("left over", 1.3, 1.22, 0.0, 2)]
    plan = cut_sheets([Rect("shelf", 1.2, 1.1, 4)], stocks, SAW)
    assert plan.cost == PLY.price
    assert {sheet.stock: sheet.times for sheet in plan.sheets} == {"left over": 2, "plywood": 1}


ABOUT = [Rect("long", 1.1, 0.5, 2), Rect("short", 0.6, 0.4, 3, turns=True), Rect("strip", 1.9, 0.1, 1)]


def planned() -> SheetPlan:
    """A plan of one sheet that is known to be sound."""
    plan = cut_sheets(ABOUT, [PLY], SAW)
    assert plan.count == 1
    assert sheet_faults(plan, ABOUT, [PLY], SAW) == ()
    return plan


def with_sheet(change: Callable[[CutSheet], CutSheet]) -> Callable[[SheetPlan], SheetPlan]:
    return lambda plan: replace(plan, sheets=(change(plan.sheets[0]), *plan.sheets[1:]))


def with_part(change: Callable[[Placed], Placed], at: int = -1) -> Callable[[SheetPlan], SheetPlan]:
    def changed(sheet: CutSheet) -> CutSheet:
        parts = list(sheet.placed)
        parts[at] = change(parts[at])
        return replace(sheet, placed=tuple(parts))

    return with_sheet(changed)


def with_cuts(change: Callable[[tuple[Cut, ...]], tuple[Cut, ...]]) -> Callable[[SheetPlan], SheetPlan]:
    return with_sheet(lambda sheet: replace(sheet, cuts=change(sheet.cuts)))


def renumbered(cuts: tuple[Cut, ...]) -> tuple[Cut, ...]:
    return tuple(replace(cut, number=at) for at, cut in enumerate(cuts, 1))


TAMPERED: list[tuple[Callable[[SheetPlan], SheetPlan], str]] = [
    (with_part(lambda part: replace(part, x=part.x - 0.001)), "less than a kerf apart|outside"),
    (with_part(lambda part: replace(part, x=-0.5)), "outside the trimmed sheet"),
    (with_part(lambda part: replace(part, x=0.0), 0), "outside the trimmed sheet"),
    (with_part(lambda part: replace(part, along=part.along - 0.01)), "wanted"),
    (with_part(lambda part: replace(part, along=part.across, across=part.along, turned=True), 0), "across the grain"),
    (with_part(lambda part: replace(part, mark="other")), '"other" is not wanted'),
    (with_sheet(lambda sheet: replace(sheet, placed=sheet.placed[1:])), "wanted 2 times"),
    (with_sheet(lambda sheet: replace(sheet, placed=(*sheet.placed, sheet.placed[0]))), "is cut 3 times"),
    (with_sheet(lambda sheet: replace(sheet, times=2)), "is cut 4 times"),
    (with_sheet(lambda sheet: replace(sheet, times=0)), "is cut 0 times"),
    (with_sheet(lambda sheet: replace(sheet, stock="steel")), 'no stock "steel"'),
    (with_sheet(lambda sheet: replace(sheet, share=0.999)), "becomes parts"),
    (with_sheet(lambda sheet: replace(sheet, offcuts=sheet.offcuts[1:])), "is not told"),
    (with_sheet(lambda sheet: replace(sheet, offcuts=(*sheet.offcuts, OffCut(1.0, 1.0, 0.2, 0.2)))), "do not leave"),
    (with_cuts(lambda cuts: cuts[:-1]), "do not free part"),
    (with_cuts(lambda cuts: renumbered((cuts[-1], *cuts[:-1]))), "no piece that is left"),
    (with_cuts(lambda cuts: (replace(cuts[0], number=7), *cuts[1:])), "has the number 7"),
    (with_cuts(lambda cuts: (replace(cuts[0], x0=0.3), *cuts[1:])), "no piece that is left"),
    (lambda plan: replace(plan, cost=plan.cost - 1.0), "the sheets cost 40"),
    (lambda plan: replace(plan, bound=plan.cost + 1.0), "lies above the cost"),
    (lambda plan: replace(plan, bound=plan.cost - 1.0), "called proven"),
    (lambda plan: replace(plan, bound=math.nan, proven=False), "or is no number"),
]  # fmt: skip


@pytest.mark.parametrize(("tamper", "told"), TAMPERED)
def test_tampering_is_found(tamper: Callable[[SheetPlan], SheetPlan], told: str) -> None:
    faults = sheet_faults(tamper(planned()), ABOUT, [PLY], SAW)
    assert any(word in fault for fault in faults for word in told.split("|")), faults


def test_more_than_is_on_hand_is_found() -> None:
    plan = cut_sheets([Rect("whole", 2.4, 1.2, 3)], [PLY], SAW)
    faults = sheet_faults(plan, [Rect("whole", 2.4, 1.2, 3)], [replace(PLY, on_hand=2)], SAW)
    assert faults == ('stock "plywood": 3 used, 2 on hand',)


def test_a_pinwheel_comes_not_apart() -> None:
    """Four parts round a fifth: a router lays them so, no saw cuts them."""
    wheel = [
        (0.0, 0.0, 3.0, 2.0),
        (3.0, 0.0, 5.0, 3.0),
        (2.0, 3.0, 5.0, 5.0),
        (0.0, 2.0, 2.0, 5.0),
        (2.0, 2.0, 3.0, 3.0),
    ]
    assert not separable(wheel, 0.0)
    assert separable(wheel[:3], 0.0)
    rects = [Rect("arm", 3.0, 2.0, 4, turns=True), Rect("hub", 1.0, 1.0, 1)]
    square = [SheetStock("square", 5.0, 5.0, 10.0)]
    routed = place_panels(rects, square, SheetSaw(), "cost", PanelTerms(seconds=10.0))
    assert (routed.count, routed.proven, routed.sheets[0].cuts) == (1, True, ())
    assert (
        sheet_faults(routed, rects, square, SheetSaw())[0]
        == "sheet 1: no cuts from edge to edge part its parts"
    )
    assert cut_sheets(rects, square, SheetSaw()).count == 2


def test_a_plan_that_fails_its_second_look_is_not_given_out(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sheet_plans, "sheet_faults", lambda *_given, **_how: ("sheet 1: a planted fault",))
    with pytest.raises(SolverError, match="a planted fault"):
        cut_sheets(ABOUT, [PLY], SAW)


REFUSED: list[tuple[list[Rect], list[SheetStock], SheetSaw, str]] = [
    ([], [PLY], SAW, "no parts"),
    ([Rect("a", 0.0, 1.0, 1)], [PLY], SAW, 'part "a": a side cannot be 0 m'),
    ([Rect("a", 1.0, -0.2, 1)], [PLY], SAW, "a side cannot be -0.2 m"),
    ([Rect("a", float("nan"), 1.0, 1)], [PLY], SAW, "a side cannot be nan m"),
    ([Rect("a", 1.0, 1.0, 0)], [PLY], SAW, "cannot be cut 0 times"),
    ([Rect("a", 1.0, 1.0, -2)], [PLY], SAW, "cannot be cut -2 times"),
    ([Rect("a", 1.0, 1.0, 1), Rect("a", 0.5, 0.5, 1)], [PLY], SAW, "listed twice"),
    (ABOUT, [], SAW, "no sheets"),
    (ABOUT, [replace(PLY, on_hand=0)], SAW, "no sheets"),
    (ABOUT, [replace(PLY, across=0.0)], SAW, 'sheet "plywood": a side cannot be 0 m'),
    (ABOUT, [replace(PLY, price=-1.0)], SAW, "the price cannot be -1"),
    (ABOUT, [replace(PLY, price=0.0)], SAW, "costs nothing though any number may be bought"),
    (ABOUT, [replace(PLY, on_hand=-1)], SAW, "cannot be -1 on hand"),
    (ABOUT, [PLY, PLY], SAW, "listed twice"),
    (ABOUT, [PLY], SheetSaw(kerf=-0.001), "the kerf cannot be -0.001 m"),
    (ABOUT, [PLY], SheetSaw(trim=float("inf")), "the trim cannot be inf m"),
    (ABOUT, [PLY], SheetSaw(trim=0.61), "nothing is left of it"),
    ([Rect("wall", 3.0, 1.0, 1)], [PLY], SAW, "by 1000 mm ≈ 3 ft 3 3/8 in, along the grain first, fits on no sheet"),
    ([Rect("wall", 3.0, 1.0, 1)], [PLY], SAW, "less 10 mm ≈ 3/8 in off each edge"),
    ([Rect("tall", 1.0, 2.0, 1)], [PLY], SAW, "a scarf or a backed joint"),
    (ABOUT, [SheetStock("left", 2.0, 0.6, 1.0, 1)], SAW, "The sheets on hand do not suffice"),
]  # fmt: skip


@pytest.mark.parametrize(("rects", "stocks", "saw", "told"), REFUSED)
def test_what_cannot_be_cut_is_refused(
    rects: list[Rect], stocks: list[SheetStock], saw: SheetSaw, told: str
) -> None:
    with pytest.raises(ImpossibleInput) as refused:
        cut_sheets(rects, stocks, saw)
    assert told in str(refused.value)


def test_panels_refuse_what_they_cannot_lay() -> None:
    for rects, stocks, kind, terms, told in [
        ([Rect("a", 0.1, 0.1, 61)], [PLY], "cost", PanelTerms(), "61 parts are too many"),
        (ABOUT, [PLY, replace(PLY, name="other")], "worth", PanelTerms(), "2 sizes of sheet"),
        (ABOUT, [PLY], "worth", PanelTerms((1.0,)), "needs its worth"),
        (ABOUT, [PLY], "worth", PanelTerms((1.0, 0.0, 1.0)), 'part "short": cannot be worth 0'),
        (ABOUT, [PLY], "worth", PanelTerms((1.0, 1.0, 1.0), (3, 0, 0)), 'part "long": at least 3 of 2'),
        ([Rect("big", 2.4, 1.2, 2)], [PLY], "length", PanelTerms(seconds=5.0), "however they are laid"),
    ]:
        with pytest.raises(ImpossibleInput) as refused:
            place_panels(rects, stocks, SAW, kind, terms)  # type: ignore[arg-type]  # a list of mixed cases
        assert told in str(refused.value)


class _StopError(Exception):
    """What a tick raises when the user has had enough."""


@pytest.mark.parametrize("after", [0, 3, 40])
def test_a_tick_may_stop_the_work(after: int) -> None:
    heard: list[tuple[int, int]] = []

    def tick(done: int, of: int) -> None:
        heard.append((done, of))
        if len(heard) > after:
            raise _StopError

    rects = rects_of([(0.1 * at + 0.3, 0.07 * at + 0.2, 3, False) for at in range(9)])
    with pytest.raises(_StopError):
        cut_sheets(rects, [PLY, SheetStock("large", 3.05, 1.525, 62.0)], SAW, tick)
    assert len(heard) == after + 1
    assert all(0 <= done <= of for done, of in heard)


def test_a_tick_may_stop_the_free_search() -> None:
    def tick(done: int, of: int) -> None:
        assert done <= of
        raise _StopError

    rects = rects_of([(0.1 * at + 0.3, 0.07 * at + 0.2, 3, True) for at in range(7)])
    with pytest.raises(_StopError):
        place_panels(
            rects, [SheetStock("roll", 20.0, 1.22, 1.0)], SAW, "length", PanelTerms(seconds=60.0), tick
        )


def test_length_asked_for_counts_trims_and_kerfs() -> None:
    """Three parts side by side across a roll, two rows of them: 2 x 1.0 m, a kerf between, a trim at each end."""
    roll = SheetStock("roll", 10.0, 1.22, 9.0)
    plan = place_panels([Rect("part", 1.0, 0.39, 6)], [roll], SAW, "length", PanelTerms(seconds=20.0))
    assert plan.reached == pytest.approx(2.0 + SAW.kerf + 2.0 * SAW.trim, abs=1e-9)
    assert plan.bound == plan.reached
