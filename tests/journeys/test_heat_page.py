"""The how-to page of warmth: every key it names is one of a plan, its pieces fit the examples and do what it says."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterator, Mapping
from typing import Any, get_args

import pytest

from tests.house.tree import ROOT
from tests.journeys.flow_plans import example
from tests.journeys.heat_plans import brief, example_found
from tidestead.plan.model import Plan
from tidestead.plan.model.part import Part

PAGE = (ROOT / "docs" / "how-to" / "warmth.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```toml\n(.*?)^```", PAGE, re.MULTILINE | re.DOTALL)


def parts_in(annotation: Any) -> Iterator[type[Part]]:
    """The tables that a key may hold, however they are wrapped."""
    if isinstance(annotation, type) and issubclass(annotation, Part):
        yield annotation
    for inner in get_args(annotation):
        yield from parts_in(inner)


def known(model: type[Part] | None, values: Mapping[str, Any], named: bool = False) -> Iterator[str]:
    """Keys of a piece of a plan that no plan has; `named`: these are names of the user's own."""
    for key, value in values.items():
        if named or model is None:
            inner, free = model, False
        elif key not in model.model_fields:
            yield key
            continue
        else:
            annotation = model.model_fields[key].annotation
            inner = next(parts_in(annotation), None)
            free = str(annotation).startswith("dict[")
        if isinstance(value, Mapping) and inner is not None:
            yield from known(inner, value, free)


def every_key(model: type[Part], seen: set[type[Part]]) -> set[str]:
    keys = set(model.model_fields)
    for field in model.model_fields.values():
        for inner in parts_in(field.annotation):
            if inner not in seen:
                seen.add(inner)
                keys |= every_key(inner, seen)
    return keys


def test_every_key_of_its_pieces_is_one_of_a_plan() -> None:
    assert len(BLOCKS) >= 2
    for block in BLOCKS:
        assert list(known(Plan, tomllib.loads(block))) == []
    assert list(known(Plan, {"heaters": {"sump": {"watts": "1 W"}}})) == ["watts"]


def test_every_key_that_its_words_name_is_one_of_a_plan() -> None:
    """Dotted ones level by level, single ones anywhere in a plan."""
    prose = re.sub(r"```.*?```", "", PAGE, flags=re.DOTALL)
    named = [word for word in re.findall(r"`([a-z_.]+)(?: = [^`]*)?`", prose) if not word.startswith("-")]
    assert len(named) > 15
    anywhere = every_key(Plan, set())
    for word in named:
        parts = word.split(".")
        nested: Any = "x"
        for part in reversed(parts):
            nested = {part: nested}
        wrong = list(known(Plan, nested)) if len(parts) > 1 else [word] if word not in anywhere else []
        assert wrong == [], word


def test_first_piece_fits_the_example_and_says_what_it_says() -> None:
    told = tomllib.loads(BLOCKS[0])
    plan = tomllib.loads(example("skerry"))
    for table, values in told.items():
        for key, value in values.items():
            assert plan[table][key] == value, f"{table}.{key}"


def test_piece_to_add_cools_the_example() -> None:
    """A fan over the water and a cover on the sump: cooler at its warmest, and less water lost from the sump."""
    (piece,) = [block for block in BLOCKS if block.startswith("# add to packhouse.toml")]
    text = example("packhouse").replace("[weather]\n", "[weather]\nyears = 3\n")
    before, after = brief(text), brief(f"{text}\n{piece}")
    assert after.warmest < before.warmest - 0.2
    assert after.wave < before.wave


@pytest.mark.parametrize(
    "title",
    ["The heat wave, with and without", "What decides the heaters' energy", "What each improvement would save",
     "The power fails in the cold spell", "Damp, month by month"],
)  # fmt: skip
def test_tables_that_the_page_tells_of_are_there(title: str) -> None:
    assert any(table.title.startswith(title) for table in example_found("skerry").answer.tables)
