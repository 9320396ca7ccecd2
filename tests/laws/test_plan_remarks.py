"""The remark that a value was assumed goes with that value's change, and no other character of the plan does."""

from __future__ import annotations

import tomllib
from collections import Counter
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.journeys.first_answers import METRIC, NEEDED, NEEDED_US, US
from tidestead.plan.edits import Edit, edited
from tidestead.plan.first import plan_text
from tidestead.plan.parts import copied, removed
from tidestead.plan.reading import loads
from tidestead.plan.remarks import assumed_in, remark, remarks
from tidestead.plan.saving import Document, set_value
from tidestead.plan.statements import dotted

PLAN = """\
# assumed: nothing; change it when you know
# a remark of one's own

[vessels.basin]          # the vessel
wood = "wet"             # assumed: it may be wet; change it when you know
stage = "planned"        # assumed: nothing is built yet
brim = "98 cm"           # assumed: a finger; change it when you know: at the top
# assumed: how the rims are joined; change it when you know
joint = { fastener = "screw", count = 6 }   # mine
plies = ["1 m", "2 m"]   # assumed: even; change it when you know
#assumed: crooked; change it when you know
at = 1

# assumed: how deep; change it when you know
base.embedment = "70 mm"
base.word = "# assumed: not a remark; change it when you know"
"""
TOLD = {
    "vessels.basin.wood": "it may be wet",
    "vessels.basin.joint": "how the rims are joined",
    "vessels.basin.plies": "even",
    "vessels.basin.base.embedment": "how deep",
}


def told_in(text: str) -> dict[str, str]:
    return {dotted(one.path): one.why for one in assumed_in(text)}


def lines_lost(before: str, after: str) -> list[str]:
    """The lines of a text that another has no more."""
    return list((Counter(before.splitlines()) - Counter(after.splitlines())).elements())


def test_only_remarks_of_the_programs_own_form_are_found() -> None:
    assert told_in(PLAN) == TOLD
    assert told_in(PLAN.replace("\n", "\r\n")) == TOLD
    assert told_in("x = [") == {}


@pytest.mark.parametrize("end", ["\n", "\r\n"])
@pytest.mark.parametrize(
    ("key", "value", "lost", "left"),
    [
        ("wood", "dry", ['wood = "wet"             # assumed: it may be wet; change it when you know'], 'wood = "dry"'),
        ("stage", "filled", ['stage = "planned"        # assumed: nothing is built yet'], None),
        ("brim", "1 m", ['brim = "98 cm"           # assumed: a finger; change it when you know: at the top'], None),
        ("at", 2, ["at = 1"], "at = 2"),
        ("plies", ["1 m", "3 m"], ['plies = ["1 m", "2 m"]   # assumed: even; change it when you know'],
         'plies = ["1 m", "3 m"]'),
        ("plies[2]", "3 m", ['plies = ["1 m", "2 m"]   # assumed: even; change it when you know'],
         'plies = ["1 m", "3 m"]'),
    ],
)  # fmt: skip
def test_a_changed_value_loses_its_own_remark_and_nothing_else(
    end: str, key: str, value: Any, lost: list[str], left: str | None
) -> None:
    text = PLAN.replace("\n", end)
    after = edited(text, [Edit(f"vessels.basin.{key}", value)])
    assert lines_lost(text, after) == lost
    new = [line for line in after.splitlines() if line not in text.splitlines()]
    assert len(new) == 1
    assert left is None or new == [left]
    assert len(after.splitlines()) == len(text.splitlines())
    assert set(told_in(after)) == set(TOLD) - {f"vessels.basin.{key.partition('[')[0]}"}
    assert after.count("\r\n") == after.count("\n") * (end == "\r\n")


def test_what_is_changed_inside_a_value_or_taken_out_takes_the_line_before_along() -> None:
    own = "# assumed: how the rims are joined; change it when you know"
    for edit in (Edit("vessels.basin.joint.count", 7), Edit("vessels.basin.joint", {"fastener": "nail"})):
        after = edited(PLAN, [edit])
        assert own in lines_lost(PLAN, after)
        assert "# mine" in after
    gone = edited(PLAN, [Edit("vessels.basin.joint", None)])
    assert lines_lost(PLAN, gone) == [own, 'joint = { fastener = "screw", count = 6 }   # mine']
    assert removed(PLAN, "vessels.basin.joint") == gone
    deep = edited(PLAN, [Edit("vessels.basin.base.embedment", None)])
    assert lines_lost(PLAN, deep) == [
        "# assumed: how deep; change it when you know", 'base.embedment = "70 mm"',
    ]  # fmt: skip


def test_what_stays_as_it_is_keeps_its_remark() -> None:
    for key, value in (("wood", "wet"), ("joint.count", 6), ("plies", ["1 m", "2 m"]), ("other", None)):
        assert edited(PLAN, [Edit(f"vessels.basin.{key}", value)]) == PLAN
    assert (
        "how the rims are joined"
        not in told_in(edited(PLAN, [Edit("vessels.basin.joint.count", True)])).values()
    )
    added = edited(PLAN, [Edit("vessels.basin.new", 1), Edit("vessels.other.wood", "dry")])
    assert told_in(added) == TOLD


def test_a_copy_keeps_what_is_assumed_of_it() -> None:
    text = copied(PLAN.partition("# assumed: how deep")[0], "vessels.basin", "twin")
    assert {key: why for key, why in told_in(text).items() if ".twin." in key} == {
        key.replace("basin", "twin"): why for key, why in TOLD.items() if "embedment" not in key
    }
    after = edited(text, [Edit("vessels.twin.wood", "dry")])
    assert "vessels.basin.wood" in told_in(after)
    assert "vessels.twin.wood" not in told_in(after)
    assert "vessels.twin.joint" in told_in(after)


@pytest.mark.parametrize("answers", [METRIC, US, NEEDED, NEEDED_US], ids=lambda one: one["name"])
def test_every_assumed_value_of_a_first_plan_is_found_and_lets_go_of_its_remark(
    answers: dict[str, str],
) -> None:
    plan = plan_text(answers)
    assert told_in(plan.text) == {one.key: one.why for one in plan.assumed}
    for one in plan.assumed:
        after = edited(plan.text, [Edit(one.key, None)])
        assert set(told_in(after)) == {other.key for other in plan.assumed} - {one.key}
        lost = lines_lost(plan.text, after)
        assert len([line for line in lost if line and not line.startswith(("[", "# assumed: "))]) == 1
        assert (
            plan.text.count("#") - after.count("#") <= 2
        )  # its own, and that of a heading that is empty now


def test_a_value_set_in_a_notebook_lets_go_of_its_remark_too() -> None:
    document = Document(plan_text(METRIC).text)
    set_value(document, "vessels.basin.wood", "dry")
    assert "vessels.basin.wood" not in told_in(document.text)
    assert loads(document.text).plan.vessels["basin"].wood == "dry"


WORDS = st.sampled_from(
    [
        remark("why"), remark("a; b"), "# assumed: why", "# assumed: ; change it when you know", "# mine", "",
        "# Assumed: why; change it when you know", "#" + remark("why"),
    ]
)  # fmt: skip


@given(st.lists(st.tuples(WORDS, WORDS), min_size=1, max_size=5), st.data())
def test_an_edit_takes_at_most_the_remarks_of_what_it_changes(
    told: list[tuple[str, str]], data: st.DataObject
) -> None:
    """Written out by hand from the same parts, the text after the edit is the one that is wanted."""
    own = (remark("why"), remark("a; b"))

    def text_of(changed: int | None) -> str:
        lines = ["[part]"]
        for at, (before, behind) in enumerate(told):
            gone = at == changed
            lines += [before] * (not (gone and before in own))
            lines.append(
                f"k{at} = {at + 10 * gone}"
                + (f"  {behind}" if behind and not (gone and behind in own) else "")
            )
        return "\n".join(lines) + "\n"

    text, at = text_of(None), data.draw(st.integers(0, len(told) - 1))
    after = edited(text, [Edit(f"part.k{at}", at + 10)])
    assert after == text_of(at)
    assert tomllib.loads(after)["part"][f"k{at}"] == at + 10
    assert len(remarks(text)) == sum(before in own or behind in own for before, behind in told)
