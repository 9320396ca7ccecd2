"""An edit changes one value and nothing else: comments, spacing and line ends stay as typed."""

from __future__ import annotations

import tomllib
from collections import Counter
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.plan_texts import SOUND, Made, known_texts
from tests.many import many
from tidestead.core.errors import PlanError
from tidestead.plan.editing import path_of, with_value, without, written
from tidestead.plan.statements import Path, dotted

TOWER = """\
# the tower
[vessels.tower]   # tall
a = "1 m"   # first
  b = { c = "2 m" }   # second
place.x = "3 m"

# ---- the sump: bought ----
[vessels.sump]
role = "sump"
"""

ENDS = st.sampled_from(["\n", "\r\n"])
NEW = st.sampled_from([("new",), ("new", "newer"), ("a b",)])
VALUES = st.one_of(
    st.text(max_size=20),
    st.integers(-(10**6), 10**6),
    st.floats(allow_nan=False, allow_infinity=False),
    st.booleans(),
    st.lists(st.text(max_size=5), max_size=3),
)


def leaves(values: Any, path: Path = ()) -> list[Path]:
    """The paths of all plain values and lists."""
    if not isinstance(values, dict):
        return [path]
    return [leaf for key, value in values.items() for leaf in leaves(value, (*path, key))]


def at(values: Any, path: Path) -> Any:
    for part in path:
        values = values[part]
    return values


@settings(max_examples=many(150, 30), deadline=None)
@given(st.data(), st.sampled_from(SOUND), VALUES, ENDS)
def test_a_changed_value_changes_only_its_own_place(
    data: st.DataObject, text: str, value: Any, end: str
) -> None:
    text = text.replace("\n", end)
    path = data.draw(st.sampled_from(leaves(tomllib.loads(text))))
    edited = with_value(text, path, value)
    assert at(tomllib.loads(edited), path) == value
    gone, come = unlike(text.split(end), edited.split(end))
    assert len(come) <= 1
    assert len(gone) <= 1 or isinstance(at(tomllib.loads(text), path), list)  # a list may run over lines
    if come and gone:
        assert str(path[-1]) in gone[0]
        assert come[0].endswith(gone[-1].partition("  #")[2])


def unlike(before: list[str], after: list[str]) -> tuple[list[str], list[str]]:
    """What is left of both between their like beginning and their like end."""
    start = like(before, after)
    rest = like(before[start:][::-1], after[start:][::-1])
    return before[start : len(before) - rest], after[start : len(after) - rest]


def like(one: list[str], other: list[str]) -> int:
    """How many lines two texts begin with in common."""
    pairs = zip(one, other, strict=False)
    return next((n for n, (left, right) in enumerate(pairs) if left != right), min(len(one), len(other)))


@settings(max_examples=many(150, 30), deadline=None)
@given(st.data(), st.sampled_from(SOUND), VALUES, ENDS)
def test_a_new_key_leaves_every_line_that_was_there(
    data: st.DataObject, text: str, value: Any, end: str
) -> None:
    text = text.replace("\n", end)
    values = tomllib.loads(text)
    tables = sorted({path[:depth] for path in leaves(values) for depth in range(len(path))})
    path = (*data.draw(st.sampled_from(tables)), *data.draw(NEW))
    edited = with_value(text, path, value)
    assert at(tomllib.loads(edited), path) == value
    lost = Counter(text.split(end)) - Counter(edited.split(end))
    assert lost.total() <= 1
    assert all("{" in line for line in lost)
    assert edited.count("\r\n") == (edited.count("\n") if end == "\r\n" else 0)


@settings(max_examples=many(100, 30), deadline=None)
@given(st.data(), st.sampled_from(SOUND))
def test_a_key_that_is_added_can_be_taken_out_again(data: st.DataObject, text: str) -> None:
    path = data.draw(st.sampled_from(leaves(tomllib.loads(text))))
    gone = without(text, path)
    with pytest.raises(KeyError):
        at(tomllib.loads(gone), path)
    assert at(tomllib.loads(with_value(gone, path, "again")), path) == "again"


@settings(max_examples=many(100, 30), deadline=None)
@given(known_texts(), VALUES)
def test_any_sound_text_is_edited_soundly_or_left_alone(made: Made, value: Any) -> None:
    for path in [*made.typed, ("new",), ("t0", "new", "x")]:
        try:
            edited = with_value(made.text, path, value)
        except PlanError:
            continue
        assert at(tomllib.loads(edited), path) == value


@given(VALUES)
def test_a_written_value_reads_back(value: Any) -> None:
    assert tomllib.loads(f"x = {written(value)}")["x"] == value


def test_a_new_key_stands_before_the_remark_that_leads_in_the_next_table() -> None:
    edited = with_value(TOWER, ("vessels", "tower", "brim"), "4 ft 6 in")
    assert edited == TOWER.replace('place.x = "3 m"\n', 'place.x = "3 m"\nbrim = "4 ft 6 in"\n')


def test_a_new_table_stands_before_the_remark_that_leads_in_the_next_table() -> None:
    edited = with_value(TOWER, ("vessels", "tower", "rim", "lies"), "flat")
    assert edited == TOWER.replace(
        'place.x = "3 m"\n', 'place.x = "3 m"\n\n[vessels.tower.rim]\nlies = "flat"\n'
    )


def test_a_table_spelt_with_dots_or_in_braces_goes_on_as_it_is_spelt() -> None:
    assert 'place.x = "3 m"\nplace.y = "1 m"\n' in with_value(TOWER, path_of("vessels.tower.place.y"), "1 m")
    assert 'b = { c = "2 m", d.e = 5 }   # second' in with_value(TOWER, path_of("vessels.tower.b.d.e"), 5)


def test_the_first_key_of_the_plan_stands_at_its_top() -> None:
    assert with_value(TOWER, ("currency",), "EUR").startswith('currency = "EUR"\n# the tower')


def test_a_list_item_is_changed_in_place() -> None:
    text = 'at = [ "1 m",   # west\n  "2 m" ]\n'
    assert with_value(text, path_of("at[2]"), "2.5 m") == 'at = [ "1 m",   # west\n  "2.5 m" ]\n'


def test_a_key_under_a_plain_value_is_refused() -> None:
    with pytest.raises(PlanError, match=r"cannot stand under vessels\.tower\.a"):
        with_value(TOWER, path_of("vessels.tower.a.b"), 1)


def test_a_table_goes_with_all_that_is_under_it() -> None:
    assert without(TOWER + "x = 1\n", path_of("vessels.sump")) == TOWER.partition("[vessels.sump]")[0]
    assert "b = { }" not in without(TOWER, path_of("vessels.tower.b.c"))


@pytest.mark.parametrize(
    "path", [("vessels", "a-b", "at", 2), ("x", "two words", "y"), ("vessels", "6", "é")]
)
def test_a_dotted_key_and_its_path_are_one(path: Path) -> None:
    assert path_of(dotted(path)) == path


@pytest.mark.parametrize("key", ["", ".", "a.", "a..b", "[1]x", "a b]", "a[x]"])
def test_what_is_no_key_is_refused(key: str) -> None:
    with pytest.raises(PlanError, match="is not a key"):
        path_of(key)
