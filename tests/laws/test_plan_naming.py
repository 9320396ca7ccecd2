"""Keys of the plan in plain words: every key of a real plan has some, and no two have the same."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tidestead.plan.forms import words_of_key, words_of_keys
from tidestead.plan.statements import dotted
from tidestead.plan.toml import values_in

EXAMPLES = Path(__file__).parents[2] / "examples"


def keys_of(values: Any, path: tuple[str, ...] = ()) -> Iterator[str]:
    for key, inner in values.items():
        yield dotted((*path, key))
        if isinstance(inner, dict):
            yield from keys_of(inner, (*path, key))


@pytest.mark.parametrize(
    ("key", "words"),
    [
        ("name", "Name"),
        ("site.place", "Site: place"),
        ("vessels.reef", "Vessel reef"),
        (
            "vessels.reef.walls.south.windows.long.thickness",
            "Vessel reef, wall south, window long: thickness",
        ),
        ("vessels.reef.ties.cross.at[2]", "Vessel reef, tie cross: at"),
        ("yours.soils.peat.bearing", "Soils: peat: bearing"),
        ("vessels.reef.nonsense", "vessels.reef.nonsense"),
        ("a..b", "a..b"),
        ("", ""),
    ],
)
def test_a_key_in_words(key: str, words: str) -> None:
    assert words_of_key(key) == words


@pytest.mark.parametrize("name", ["packhouse", "skerry"])
def test_every_key_of_an_example_has_words_of_its_own(name: str) -> None:
    keys = list(keys_of(values_in((EXAMPLES / f"{name}.toml").read_text("utf-8"))))
    words = [words_of_key(key) for key in keys]
    assert [key for key, told in zip(keys, words, strict=True) if told == key] == []
    assert len(set(words)) == len(words)


def test_many_keys_are_counted() -> None:
    keys = ["site.place", "site.latitude", "name", "show", "currency"]
    assert words_of_keys(keys[:3]) == "Site: place; Site: latitude; Name"
    assert words_of_keys(keys) == "Site: place; Site: latitude; Name; and 2 more"
