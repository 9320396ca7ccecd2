"""Whole parts come and go in a plan's text, and several edits at once; every other character stays."""

from __future__ import annotations

import tomllib
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.plan_texts import SOUND, Made, known_texts
from tests.many import many
from tidestead.core.errors import PlanError
from tidestead.plan.editing import Value
from tidestead.plan.edits import Edit, edited
from tidestead.plan.parts import copied, removed, renamed, with_part
from tidestead.plan.reading import judged
from tidestead.plan.statements import Path, dotted

ENDS = st.sampled_from(["\n", "\r\n"])
LAST = st.sampled_from(["", "\n"])
BRACED = """\
[vessels.basin]
ports = { comb = { kind = "weir", level = "1 m" },  jet = { kind = "outlet", level = "1.1 m" } }  # both
walls.all.rim = { lies = "flat" }
walls.south.rim.lies = "on edge"
"""


def tables(values: Any, path: Path = ()) -> list[Path]:
    """The paths of all tables."""
    found = []
    for key, value in values.items() if isinstance(values, dict) else ():
        if isinstance(value, dict):
            found += [(*path, key), *tables(value, (*path, key))]
    return found


def at(values: Any, path: Path) -> Any:
    for part in path:
        values = values[part]
    return values


@settings(max_examples=many(60, 25), deadline=None)
@given(st.data(), st.sampled_from((*SOUND, BRACED)), ENDS, LAST)
def test_a_part_copied_and_taken_out_again_leaves_the_text_as_it_was(
    data: st.DataObject, text: str, end: str, last: str
) -> None:
    text = text.rstrip("\n").replace("\n", end) + last.replace("\n", end)
    path = data.draw(st.sampled_from(tables(tomllib.loads(text))))
    twice = copied(text, dotted(path), "once-more")
    new = (*path[:-1], "once-more")
    assert at(tomllib.loads(twice), new) == at(tomllib.loads(text), path)
    assert removed(twice, dotted(new)) == text


@settings(max_examples=many(40, 25), deadline=None)
@given(st.data(), st.sampled_from(SOUND), ENDS)
def test_a_part_renamed_and_named_back_leaves_the_text_as_it_was(
    data: st.DataObject, text: str, end: str
) -> None:
    text = text.replace("\n", end)
    path = data.draw(st.sampled_from(tables(tomllib.loads(text))))
    new = (*path[:-1], "Other name")
    other = renamed(text, dotted(path), "Other name")
    assert at(tomllib.loads(other), new) == at(tomllib.loads(text), path)
    assert renamed(other, dotted(new), str(path[-1])) == text


@settings(max_examples=many(40, 25), deadline=None)
@given(st.data(), st.sampled_from(SOUND))
def test_a_part_taken_out_takes_only_its_own_lines(data: st.DataObject, text: str) -> None:
    path = data.draw(st.sampled_from(tables(tomllib.loads(text))))
    gone = removed(text, dotted(path))
    wanted = tomllib.loads(text)
    del at(wanted, path[:-1])[path[-1]]
    assert flat(tomllib.loads(gone)) == flat(wanted)
    before = [line for line in text.splitlines() if line.startswith("#")]
    after = [line for line in gone.splitlines() if line.startswith("#")]
    inside = [line for line in before if line not in after]
    assert len(inside) <= 6
    assert all(line in before for line in after)


def flat(values: Any, path: Path = ()) -> dict[Path, Any]:
    if not isinstance(values, dict):
        return {path: values}
    return {key: value for name, inner in values.items() for key, value in flat(inner, (*path, name)).items()}


@settings(max_examples=many(60, 25), deadline=None)
@given(known_texts(), st.data())
def test_any_text_has_its_parts_copied_and_taken_out_soundly_or_is_left_alone(
    made: Made, data: st.DataObject
) -> None:
    values = tomllib.loads(made.text)
    paths = tables(values)
    if not paths:
        return
    path = data.draw(st.sampled_from(paths))
    try:
        twice = copied(made.text, dotted(path), "zz")
    except PlanError:
        return
    assert at(tomllib.loads(twice), (*path[:-1], "zz")) == at(values, path)
    once = removed(twice, dotted((*path[:-1], "zz")))
    assert tomllib.loads(once) == values


def test_remarks_within_a_part_go_with_it_and_those_round_it_stay() -> None:
    text = "# of a\n[x.a]\nk = 1   # one\n# within\nm = 2\n\n# of b\n[x.b]\nk = 3\n"
    assert copied(text, "x.a", "c") == text.replace(
        "m = 2\n", "m = 2\n\n[x.c]\nk = 1   # one\n# within\nm = 2\n"
    )
    assert removed(text, "x.a") == "# of a\n\n# of b\n[x.b]\nk = 3\n"


def test_a_part_in_braces_is_copied_and_taken_out_without_touching_its_neighbours() -> None:
    line = 'ports = { comb = { kind = "weir", level = "1 m" },  jet = { kind = "outlet", level = "1.1 m" } }  # both'
    twice = copied(BRACED, "vessels.basin.ports.comb", "comb2")
    assert line.replace(" }  # both", ', comb2 = { kind = "weir", level = "1 m" } }  # both') in twice
    only = removed(BRACED, "vessels.basin.ports.comb")
    assert 'ports = { jet = { kind = "outlet", level = "1.1 m" } }  # both' in only


def test_a_new_part_stands_as_its_neighbours_do() -> None:
    skerry = next(text for text in SOUND if "Skerry" in text)
    assert '\nx = { kind = "gate" }\n' in with_part(skerry, "valves.x", {"kind": "gate"})
    vat: dict[str, Value] = {"role": "vat", "shape": "box", "place": {"x": "1 m", "y": "2 m"}}
    whole = '\n[vessels.vat]\nrole = "vat"\nshape = "box"\nplace = { x = "1 m", y = "2 m" }\n'
    assert whole in with_part(skerry, "vessels.vat", vat)


def test_a_part_with_tables_in_it_is_added_whole() -> None:
    window: dict[str, Value] = {
        "material": "acrylic-cast",
        "opening": {"sill": {"section": "2x6", "joint": {"count": 3}}},
    }
    text = with_part('name = "x"\n', "vessels.a.walls.south.windows.w", window)
    assert at(tomllib.loads(text), ("vessels", "a", "walls", "south", "windows", "w")) == window


@pytest.mark.parametrize(
    ("change", "words"),
    [
        (lambda text: with_part(text, "vessels.basin", {"role": "vat"}), "is there already"),
        (lambda text: with_part(text, "vessels.new", {}), "has nothing in it"),
        (lambda text: copied(text, "vessels.nowhere", "x"), "is not a part"),
        (lambda text: copied(text, "vessels.basin", "basin"), "is there already"),
        (lambda text: renamed(text, "vessels.basin", "  "), "needs a name"),
        (lambda text: removed(text, "vessels.nowhere"), "is not in the plan"),
    ],
)
def test_what_cannot_be_done_is_refused(change: Any, words: str) -> None:
    with pytest.raises(PlanError, match=words):
        change(BRACED)


def test_edits_at_once_are_the_edits_one_by_one() -> None:
    skerry = next(text for text in SOUND if "Skerry" in text)
    edits = [
        Edit("vessels.basin.water", "1.1 m"),
        Edit("vessels.basin.lower_to", "40 cm"),
        Edit("covers.lid", None),
        Edit("heaters.second", {"vessel": "basin", "power": "500 W", "setpoint": "24 degC"}),
        Edit("vessels.basin.ties.cross.at[2]", "2.1 m"),
        Edit("vessels.basin.nothing", None),
    ]
    text = edited(skerry, edits)
    assert tomllib.loads(text)["vessels"]["basin"]["lower_to"] == "40 cm"
    assert 'water = "1.1 m"  ' in text
    assert '"1.0 m", "2.1 m", "3.0 m"' in text
    assert "covers" not in tomllib.loads(text)
    assert tomllib.loads(text)["heaters"]["second"]["power"] == "500 W"
    assert judged(text, "plan")[1] == []


LISTED = """\
[x]
at = [
  "1 m",   # west
  "2 m",   # middle
  "3 m",   # east
]   # places
y = { b = ["a", "b"] }
"""


@settings(max_examples=many(100, 25), deadline=None)
@given(st.lists(st.sampled_from(["1 m", "2 m", "3 m", "4 ft", '30"']), min_size=1, max_size=6))
def test_items_of_a_list_change_where_they_stand(items: list[str]) -> None:
    text = edited(LISTED, [Edit("x.at", items), Edit("x.y.b", items)])
    assert tomllib.loads(text)["x"] == {"at": items, "y": {"b": items}}
    assert text.endswith("] }\n")
    assert "# places" in text


@pytest.mark.parametrize(
    ("items", "before", "after"),
    [
        (["1 m", "2.5 m", "3 m"], '"2 m",   # middle', '"2.5 m",   # middle'),
        (["1 m", "3 m"], '"2 m",   # middle\n  ', ""),
        (["2 m", "3 m"], '"1 m",   # west\n  ', ""),
        (["1 m", "2 m", "3 m", "4 m"], '"3 m",   # east', '"3 m", "4 m",   # east'),
        (["0.5 m", "1 m", "2 m", "3 m"], '"1 m",   # west', '"0.5 m", "1 m",   # west'),
        (["1 m", "1.5 m", "2 m", "3 m"], '"1 m",   # west', '"1 m", "1.5 m",   # west'),
    ],
)
def test_one_item_changed_leaves_the_lines_and_remarks_of_the_others(
    items: list[str], before: str, after: str
) -> None:
    assert edited(LISTED, [Edit("x.at", items)]) == LISTED.replace(before, after)


@pytest.mark.parametrize("text", ["name = Skerry\n", "[a\n", 'x = "'])
def test_a_text_that_is_no_toml_is_not_edited(text: str) -> None:
    with pytest.raises(PlanError, match="is not TOML"):
        edited(text, [Edit("name", "x")])


@pytest.mark.parametrize("key", ["vessels.basin.ties.cross.at[9]", "name[2]", "vessels[1].x"])
def test_an_edit_that_has_no_place_is_refused(key: str) -> None:
    skerry = next(text for text in SOUND if "Skerry" in text)
    with pytest.raises(PlanError):
        edited(skerry, [Edit(key, "1 m")])
