"""Every figure of the catalog names a source that is written down beside it, and how well it is known."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from tests.house.tree import PACKAGE, named
from tidestead.core.source import Known

FILES = sorted((PACKAGE / "catalog").rglob("*.toml"))
KNOWN = {kind.name.lower() for kind in Known} - {"yours"}


def faults(catalog: dict[str, Any]) -> list[str]:
    """What one catalog file leaves unsaid."""
    sources = catalog.get("sources", {})
    found = [
        f"sources.{key}: no {word}"
        for key, row in sources.items()
        for word in ("work", "known")
        if not row.get(word)
    ]
    found += [
        f"sources.{key}: known = {row.get('known')!r} is none of {sorted(KNOWN)}"
        for key, row in sources.items()
        if row.get("known") not in KNOWN
    ]
    cited: set[str] = set()
    for place, figure in _figures(catalog.get("rows", {}), "rows"):
        source = figure.get("source") if isinstance(figure, dict) else None
        cited.add(str(source))
        if source not in sources:
            found.append(
                f"{place}: source {source!r} is not written down" if source else f"{place}: no source"
            )
    found += [f"sources.{key}: nothing cites it" for key in sources if key not in cited]
    return found


def _figures(part: Any, place: str) -> Iterator[tuple[str, Any]]:
    """Every figure with its place; a bare number is a figure without a source."""
    if isinstance(part, dict) and ("value" in part or "source" in part):
        yield place, part
    elif isinstance(part, dict):
        for key, inner in part.items():
            yield from _figures(inner, f"{place}.{key}")
    elif isinstance(part, list):
        for number, inner in enumerate(part):
            yield from _figures(inner, f"{place}[{number}]")
    elif isinstance(part, (int, float)) and not isinstance(part, bool):
        yield place, part


@pytest.mark.parametrize("path", FILES, ids=named)
def test_figures_name_their_source(path: Path) -> None:
    found = faults(tomllib.loads(path.read_text(encoding="utf-8")))
    assert not found, f"{named(path)}\n" + "\n".join(found)


def test_there_is_a_catalog() -> None:
    assert FILES


@pytest.mark.parametrize(
    ("text", "word"),
    [
        ("[rows.a]\nx = { value = 1, unit = 'm' }", "rows.a.x: no source"),
        ("[rows.a]\nx = { value = 1, unit = 'm', source = 'book' }", "'book' is not written down"),
        ("[rows.a]\nx = 1.0", "rows.a.x: no source"),
        ("[rows.a]\nx = [{ value = 1 }]", "rows.a.x[0]: no source"),
        (
            "[sources.s]\nwork = 'w'\nknown = 'surely'\n[rows.a]\nx = { value = 1, source = 's' }",
            "is none of",
        ),
        ("[sources.s]\nwork = 'w'\nknown = 'read'", "nothing cites it"),
        ("[sources.s]\nknown = 'read'\n[rows.a]\nx = { value = 1, source = 's' }", "no work"),
    ],
)
def test_planted_fault_is_found(text: str, word: str) -> None:
    found = faults(tomllib.loads(text))
    assert any(word in fault for fault in found), found


def test_whole_row_passes() -> None:
    sources = "[sources.s]\nwork = 'w'\nknown = 'read'\n"
    rows = "[rows.a]\ntitle = 't'\nwet = true\nx = { value = 1, source = 's' }"
    assert faults(tomllib.loads(sources + rows)) == []
