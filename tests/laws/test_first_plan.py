"""Whatever is typed into the questions of a first plan, it makes faults or a sound plan, and never keys of its own."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from typing import Any

from hypothesis import example, given, settings
from hypothesis import strategies as st

from tests.journeys.first_answers import METRIC, NEEDED, NEEDED_US, US
from tidestead.plan import loads
from tidestead.plan.first import WHOLE, plan_text
from tidestead.plan.first_questions import blanks

IDS = [blank.id for blank in blanks()]
OPEN = [blank.id for blank in blanks() if blank.optional]
PICKED = {blank.id: [one.value for one in blank.choices] for blank in blanks() if blank.choices}
SPITEFUL = st.sampled_from(
    [
        '"', "'", '"""', "'''", "\\", "\\u0022", '1 m"\nx = 1', "]\n[yours]", "# remark", '1 m" # ', "{a=1}", "=", "\0",
        "\ud800", "\u2028", "\x7f", "1 m\r", "9" * 400, "9" * 58 + " m", "1e-300 m", "0 m", "-1 m", "1/0 in", "nan m",
        "inf m", "9999 m", "0.1 mm", "0.4 mm", "1 1/2 in", "4 ft 6 in", "24 to 27 degC", "90", "-90.0", "+0", "00", "²",
        "yes", "no", "1 ly", "5 gal", "x" * 301, "2-2x6", "9 of 9 x 9 mm",
    ]
)  # fmt: skip
TYPED = st.one_of(st.text(max_size=40), SPITEFUL, st.sampled_from(sorted({*METRIC.values(), *US.values()})))


def keys_of(values: Any, under: tuple[str, ...] = ()) -> set[tuple[str, ...]]:
    """Every key of a plan, tables too."""
    if not isinstance(values, Mapping):
        return set()
    return {(*under, key) for key in values} | {
        path for key, inner in values.items() for path in keys_of(inner, (*under, key))
    }


@st.composite
def answers(draw: st.DrawFn) -> dict[str, str]:
    """A good scenario with some answers turned, picked, left open or spoilt."""
    base = draw(st.sampled_from([METRIC, US, NEEDED, NEEDED_US]))
    left = dict.fromkeys(draw(st.sets(st.sampled_from(OPEN), max_size=12)), "")
    picked = {
        name: draw(st.sampled_from(PICKED[name]))
        for name in draw(st.sets(st.sampled_from(sorted(PICKED)), max_size=6))
    }
    return {**base, **left, **picked, **draw(st.dictionaries(st.sampled_from(IDS), TYPED, max_size=5))}


UNTIMED = settings(deadline=None)
"""A whole plan is made and read again each time: how long that takes is for the benchmarks."""


@UNTIMED
@given(answers())
@example({**METRIC, "length": "0.1 mm", "width": "0.1 mm"})
@example({**METRIC, "sump_height": "1 mm", "sump_water": "0.9 mm"})
@example({**US, "winter": "60 degC", "summer": "60 degC"})
def test_answers_make_faults_or_a_sound_plan(typed: dict[str, str]) -> None:
    plan = plan_text(typed)
    assert bool(plan.text) is not bool(plan.faults)
    assert WHOLE not in plan.faults, plan.faults
    if plan.text:
        loads(plan.text)


@UNTIMED
@given(st.sets(st.sampled_from(OPEN)))
@example(set(OPEN))
def test_any_details_may_be_left_open_together(left: set[str]) -> None:
    """What is open is taken, is left out, or is told at blanks that are open themselves."""
    plan = plan_text({**METRIC, **dict.fromkeys(left, "")})
    assert set(plan.faults) <= left
    if plan.text:
        loads(plan.text)


@UNTIMED
@given(st.dictionaries(st.text(max_size=12), TYPED, max_size=8))
def test_answers_to_anything_at_all_make_faults(typed: dict[str, str]) -> None:
    assert plan_text(typed).faults


@UNTIMED
@given(
    st.dictionaries(
        st.sampled_from(["name", "place", "length", "keep", "winter", "heater", "turnover"]), TYPED
    )
)
def test_what_is_typed_is_never_read_as_keys(typed: dict[str, str]) -> None:
    """A plan has the keys of its scenario whatever words and quantities are typed, and says the words as typed."""
    before, plan = keys_of(tomllib.loads(plan_text(METRIC).text)), plan_text({**METRIC, **typed})
    if not plan.text:
        return
    values = tomllib.loads(plan.text)
    gone: dict[str, set[tuple[str, ...]]] = {
        "place": {("site", "place")},
        "turnover": {("targets",), ("targets", "turnover")},
    }
    for name, keys in gone.items():
        before -= set() if typed.get(name, "x").strip() else keys
    assert keys_of(values) == before
    assert values["name"] == {**METRIC, **typed}["name"].strip()
