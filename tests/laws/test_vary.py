"""Sweeps: a point is the edited file asked alone, steps are even, what none beats is found, what is done is kept."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from fractions import Fraction
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.many import many
from tidestead import desk
from tidestead.core.answer import Check, Estimate, MustBe, Verdict
from tidestead.core.errors import PlanError
from tidestead.core.kept import forget
from tidestead.core.source import PRACTICE
from tidestead.core.units import parse
from tidestead.plan import LoadedPlan, load, loads
from tidestead.plan.edits import Edit, edited
from tidestead.plan.model import Plan
from tidestead.trials.axes import Axis
from tidestead.trials.grid import Grid, read_grid
from tidestead.trials.pareto import pareto
from tidestead.trials.plans import Plans
from tidestead.trials.shows import Cell
from tidestead.trials.vary import Request, asked, vary

EXAMPLES = Path(__file__).parents[2] / "examples"
WINDOW = "vessels.reef.walls.south.windows.long"
THICK, STUDS = f"{WINDOW}.thickness", "vessels.reef.walls.all.studs.spacing"
BOW = "structure.reef.south.long.bow.long"
VOLUME = "structure.sump.volume"
SUMP = ("vessels.sump.length=4..6 ft:5", "vessels.sump.width=3,4 ft")


@cache
def plan(name: str = "packhouse") -> LoadedPlan:
    return load(EXAMPLES / f"{name}.toml")


@pytest.fixture(autouse=True)
def own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Nothing is known of earlier sweeps, and nothing of these is left."""
    for name in ("XDG_CACHE_HOME", "LOCALAPPDATA", "HOME"):
        monkeypatch.setenv(name, str(tmp_path))
    return tmp_path


def refusal(*words: str) -> str:
    with pytest.raises(PlanError) as refused:
        asked(plan(), Request(words))
    return str(refused.value)


def one_axis(words: str) -> Axis:
    return read_grid(plan(), [words]).axes[0]


# ---- grids and steps ---------------------------------------------------------------------------


@settings(deadline=None)
@given(st.lists(st.integers(1, 5), min_size=1, max_size=4))
def test_grid_has_every_combination_once_with_the_last_key_quickest(sizes: list[int]) -> None:
    axes = [
        Axis(f"a{n}", (f"a{n}",), tuple(range(size)), tuple(map(str, range(size))))
        for n, size in enumerate(sizes)
    ]
    grid = Grid(tuple(axes))
    places = [grid.at(number) for number in range(len(grid))]
    assert len(grid) == math.prod(sizes) == len(set(places))
    assert places == sorted(places)


@settings(max_examples=many(100), deadline=None)
@given(
    st.decimals(1, 400, places=1),
    st.decimals(1, 400, places=1),
    st.integers(2, 40),
    st.sampled_from([("mm", "mm"), ("in", "in"), ("mm", "in"), ("in", "cm")]),
)
def test_steps_are_even_and_end_as_typed(
    low: object, high: object, count: int, units: tuple[str, str]
) -> None:
    first, last = f"{low} {units[0]}", f"{high} {units[1]}"
    if low == high:
        return
    axis = one_axis(f"{THICK}={first}..{last}:{count}")
    assert len(axis) == count
    assert (axis.typed[0], axis.typed[-1]) == (first, last)
    start, end = parse(first, "length"), parse(last, "length")
    even = [start + (end - start) * step / (count - 1) for step in range(count)]
    assert axis.numbers == pytest.approx(even, rel=1e-8)
    assert [parse(text, "length") for text in axis.typed] == list(axis.numbers)


@pytest.mark.parametrize(
    ("typed", "values"),
    [
        ("60..90 mm:3", ("60 mm", "75 mm", "90 mm")),
        ("90 mm..60 mm:3", ("90 mm", "75 mm", "60 mm")),
        ("2 1/2..3 in:3", ("2 1/2 in", "2.75 in", "3 in")),
        ("2 in..3 in:4", ("2 in", "2.33333333 in", "2.66666667 in", "3 in")),
        ("60, 70,80 mm", ("60 mm", "70 mm", "80 mm")),
        ("60 mm;3 in", ("60 mm", "3 in")),
        ("3 in", ("3 in",)),
    ],
)
def test_values_are_put_as_a_person_would_type_them(typed: str, values: tuple[str, ...]) -> None:
    assert one_axis(f"{THICK}={typed}").typed == values


def test_range_without_a_number_of_values_has_ten_steps() -> None:
    axis = one_axis(f"{THICK}=50..100 mm")
    assert axis.typed == tuple(f"{number} mm" for number in range(50, 101, 5))
    assert axis.unit == "m"


@pytest.mark.parametrize(
    ("typed", "values"),
    [("4..8", (4, 5, 6, 7, 8)), ("4..8:3", (4, 6, 8)), ("8..4:3", (8, 6, 4)), ("3,6", (3, 6))],
)
def test_counts_stay_whole(typed: str, values: tuple[int, ...]) -> None:
    assert one_axis(f"vessels.reef.ties.cross.end_joint.count={typed}").values == values


def test_words_sections_and_places_in_a_list_can_be_varied() -> None:
    grid = read_grid(
        plan(),
        [
            "vessels.reef.walls.all.rim.section=2-2x8,3-2x8",
            "vessels.reef.walls.all.rim.lies=flat,on edge",
            "vessels.reef.ties.cross.at[1]=3..4 ft:3",
        ],
    )
    assert [axis.numbers != () for axis in grid.axes] == [False, False, True]
    assert len(grid) == 12


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (THICK, "says no key with its values"),
        (f"{THICK}=", "says no key with its values"),
        ("=3 in", "says no key with its values"),
        (f"{WINDOW}.thicknes=3 in", f"Did you mean {THICK}?"),
        ("vessels.reff.water=1..2 m", "Did you mean vessels.reef.water?"),
        ("vesels.reef.water=1..2 m", "Did you mean vessels.reef.water?"),
        (f"{WINDOW}=3 in", "is a table, not a value"),
        ("vessels.reef.ties.cross.at=3 ft", "is a list"),
        ("vessels.reef.ties.cross.at[99]=3 ft", "is no item of that list"),
        (f"{THICK}=60..90", "has no unit"),
        (f"{THICK}=60 mm..90 kg", "kg"),
        (f"{THICK}=60..90 mm:1", "is not a number of values"),
        (f"{THICK}=60 mm..60 mm:3", "begins where it ends"),
        (f"{THICK}=60..70 mm:3,80 mm", "mixes a range with a list"),
        (f"{THICK}=60,,70 mm", "has an empty value"),
        (f"{THICK}=60,60 mm", "stands there twice"),
        (f"{THICK}=60..70 mm:99999", "is not a number of values"),
        (f"{THICK}=..70 mm", '".." where there is nothing'),
        (f"{THICK}=60 mm,70 kg", '"70 kg"'),
        (f"{WINDOW}.edges.top=free,loose", '"loose"'),
        (f"{WINDOW}.edges.top=free..seat", '".." where there is nothing'),
        (f"{WINDOW}.material=acrylic-cast,acrylic-cats", "Did you mean"),
        ("vessels.reef.ties.cross.end_joint.count=4..9:4", "Write :2 or :6"),
        ("vessels.reef.ties.cross.end_joint.count=4.5..9", "is not a whole number"),
        ("vessels.reef.ties.cross.end_joint.count=1..9000", "Say how many of them"),
    ],
)
def test_what_cannot_be_varied_is_told_with_what_to_write(words: str, told: str) -> None:
    assert told in refusal(words)


def test_every_fault_of_a_request_is_told_at_once() -> None:
    told = refusal(
        f"{THICK}=60..90", "vessels.reff.water=1..2 m", "vessels.reef.water=1..2 m", "vessels.reef.water=1 m"
    )
    assert told.count("\n") == 2
    assert "is varied twice" in told


def test_grid_of_too_many_points_is_refused() -> None:
    told = refusal(f"{THICK}=60..90 mm:1000", f"{STUDS}=8..16 in:1000")
    assert "1,000,000 points are too many. At most 100,000" in told


@pytest.mark.parametrize(
    ("show", "told"),
    [
        ("structure.reef.south.long.bow", "Did you mean structure.reef.south.long.bow."),
        ("structur.reef.volume", "Did you mean structure.reef.volume?"),
        ("structure.reef.*.bwo", "is no check and no figure"),
        ("*", "begins with no subject"),
        ("visits", "begins with no subject"),
    ],
)
def test_unknown_thing_to_show_is_met_with_the_nearest(show: str, told: str) -> None:
    with pytest.raises(PlanError, match=told.replace("?", r"\?").replace("*", r"\*")):
        asked(plan(), Request((f"{THICK}=3..4 in:2",), (show,)))


def test_wildcards_stand_for_every_check_and_figure_that_they_match() -> None:
    points, _ = asked(plan(), Request((f"{THICK}=3..4 in:2",), ("structure.reef.*.studs.bow", VOLUME)))
    found = [one.id for one in points.shown]
    assert found == [
        *(f"structure.reef.{wall}.studs.bow" for wall in ("north", "south", "east", "west")),
        VOLUME,
    ]


def test_nothing_named_shows_the_subjects_that_read_the_key() -> None:
    points, _ = asked(plan(), Request(("vessels.reef.corners.joint.count=4,6",)))
    assert [one.id for one in points.shown] == ["structure", "flow", "foam"]


# ---- a point is the edited file ----------------------------------------------------------------

PACKHOUSE_EDITS = (
    f"{THICK}=2.5,3,3.5 in",
    f"{STUDS}=6..16 in:6",
    f"{WINDOW}.width=4,7,13 ft",
    "vessels.reef.walls.north.studs.spacing=8,12 in",
    "vessels.reef.ties.cross.at[2]=5..7 ft:3",
    "vessels.reef.walls.all.rim.section=3-2x8,4-2x8",
    "vessels.reef.stands_on.soil=clay,sand",
    "vessels.reef.stage=planned,filled",
    "vessels.reef.water=3..4.4 ft:3",
    "water.salinity=33 ppt,36 ppt",
    "water.keep=75 to 79 degF,76 to 80 degF",
    "site.latitude=40,48.5",
    "gallons=us,imperial",
    "show=us,metric",
    "building.warmest_wood=90,120 degF",
)


@pytest.mark.parametrize("first", PACKHOUSE_EDITS)
@settings(max_examples=many(12, 3), deadline=None)
@given(st.data())
def test_plan_at_a_point_is_that_of_the_edited_file(first: str, data: st.DataObject) -> None:
    key = first.partition("=")[0]
    other = data.draw(st.sampled_from([one for one in PACKHOUSE_EDITS if one.partition("=")[0] != key]))
    grid = read_grid(plan(), [first, other])
    number = data.draw(st.integers(0, len(grid) - 1))
    put = zip(grid.axes, grid.values(number), strict=True)
    text = edited(plan().text, [Edit(axis.key, value) for axis, value in put])
    wanted, got = outcome(lambda: loads(text).plan), outcome(lambda: Plans.of(plan(), grid).at(number).plan)
    assert got == wanted


def outcome(read: Callable[[], Plan]) -> tuple[object, ...]:
    """A plan with what of it was said in the file, or every fault."""
    try:
        found = read()
    except PlanError as error:
        return tuple(str(fault) for fault in error.faults)
    return found, found.model_dump_json(exclude_unset=True)


def test_sweep_finds_what_each_edited_file_says_when_asked_alone() -> None:
    ties = "structure.reef.ties.cross.tension"
    request = Request(
        (f"{THICK}=2.5..3.5 in:3", f"{STUDS}=7,12 in"), (BOW, ties, "structure.reef.weight", "structure")
    )
    found = vary(plan(), request, cores=1)
    for number in (4,) if many(100) < 100 else range(6):
        thick, studs = found.grid.typed(number)
        forget()
        alone = desk.answer(
            loads(edited(plan().text, [Edit(THICK, thick), Edit(STUDS, studs)])), ["structure"]
        )
        answer = alone["structure"]
        checks = {check.id: check for check in answer.checks}
        bow, pull, weight, whole = found.rows[number].cells
        for cell, check in ((bow, checks[BOW]), (pull, checks[ties])):
            assert check.estimate is not None
            assert (cell.low, cell.value, cell.high) == (
                check.estimate.low,
                check.estimate.likely,
                check.estimate.high,
            )
            assert (cell.margin, cell.verdict) == (check.margin, check.verdict.value)
            assert cell.judged(check.must_be) == check.estimate.high, "each must stay below its limit"
        assert (
            weight.value
            == next(one for one in answer.figures if one.id == "structure.reef.weight").estimate.likely
        )
        margins = [check.margin for check in answer.checks if check.margin is not None]
        assert (whole.verdict, whole.margin) == (answer.verdict.value, min(margins))
        assert whole.verdict == Verdict.FAILS


@pytest.mark.parametrize(
    ("must_be", "limits", "end"),
    [
        ("below", (5.0,), 4.0),
        ("above", (1.0,), 2.0),
        ("within", (0.0, 5.0), 4.0),
        ("within", (1.5, 6.0), 2.0),
    ],
)
def test_end_that_is_judged_is_the_one_nearer_to_harm(
    must_be: MustBe, limits: tuple[float, ...], end: float
) -> None:
    limit = limits[0] if len(limits) == 1 else (limits[0], limits[1])
    cell = Cell(3.0, 2.0, 4.0, limits=limits)
    at_end = Check("a.b", "", "", "1", Estimate.exact(end), limit, PRACTICE, must_be)
    assert cell.judged(must_be) == end
    assert (
        at_end.margin == Check("a.b", "", "", "1", Estimate(2.0, 3.0, 4.0), limit, PRACTICE, must_be).margin
    )


def test_point_that_is_no_plan_is_a_row_with_its_reason() -> None:
    found = vary(plan(), Request((f"{WINDOW}.width=7,14 ft",), (BOW,)), cores=1)
    assert [row.refused == "" for row in found.rows] == [True, False]
    assert found.rows[1].cells == ()
    assert f"{WINDOW}.width" in found.rows[1].refused


# ---- what none beats ---------------------------------------------------------------------------


@settings(max_examples=many(300, 100), deadline=None)
@given(
    st.lists(
        st.tuples(
            *[st.one_of(st.none(), st.integers(-3, 3).map(float), st.just(math.inf), st.just(math.nan))] * 3
        ),
        max_size=30,
    ),
    st.lists(st.booleans(), min_size=3, max_size=3),
    st.integers(1, 3),
)
def test_what_none_beats_is_what_its_definition_says(
    choices: list[tuple[float | None, ...]], more: list[bool], goals: int
) -> None:
    cut = [choice[:goals] for choice in choices]

    def better(one: Sequence[float | None], other: Sequence[float | None]) -> bool:
        pairs = [
            (float(a), float(b)) if up else (float(b), float(a))
            for a, b, up in zip(one, other, more, strict=False)
            if a is not None and b is not None
        ]
        return all(a >= b for a, b in pairs) and any(a > b for a, b in pairs)

    whole = [
        n
        for n, choice in enumerate(cut)
        if all(value is not None and not math.isnan(value) for value in choice)
    ]
    wanted = tuple(n for n in whole if not any(better(cut[other], cut[n]) for other in whole))
    assert pareto(cut, more[:goals]) == wanted


def test_sweep_marks_the_points_that_none_beats() -> None:
    found = vary(plan(), Request(SUMP, best=(VOLUME, "structure.sump.stands_on.edge")), cores=1)
    assert [goal.more for goal in found.goals] == [False, True]
    assert found.best == pareto([found.goal_values(row) for row in found.rows], [False, True])
    assert 0 < len(found.best) < 10
    both = vary(plan(), Request(SUMP, best=(VOLUME, "structure.sump.mass")), cores=1)
    assert [found.grid.typed(number) for number in both.best] == [("4 ft", "3 ft")]


@pytest.mark.parametrize("best", [(VOLUME,), (VOLUME, VOLUME), (VOLUME, "structure.sump.*")])
def test_choices_are_held_against_each_other_by_different_single_things(best: tuple[str, ...]) -> None:
    with pytest.raises(PlanError, match="--pareto"):
        asked(plan(), Request(SUMP, best=best))


def test_exact_fractions_make_the_steps() -> None:
    axis = one_axis(f"{THICK}=0..1 m:4".replace("0..", "0.1.."))
    assert [Fraction(text.split()[0]) for text in axis.typed] == [Fraction(n, 10) for n in (1, 4, 7, 10)]
