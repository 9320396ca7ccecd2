"""A small vat that fails by its studs: quick to mend."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.journeys.structure_plans import VAT

WEAK = VAT.replace('spacing = "12 in"\ntop', 'spacing = "24 in"\ntop')
"""Studs so far apart that sheets bend and the screws at their feet are near."""
FEET = "structure.vat.east.studs.foot"


def weak_vat(folder: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Its file, with a cache of its own beside it."""
    monkeypatch.setenv("XDG_CACHE_HOME", str(folder / "cache"))
    path = folder / "vat.toml"
    path.write_text(WEAK, encoding="utf-8")
    return path
