"""Four real climates for tests: three typical years that pvlib brings along, and Denver from the validation data.

| name | station | climate |
|---|---|---|
| sand_point | Sand Point, Alaska, 55.3 N | cool, by the sea |
| greensboro | Greensboro, North Carolina, 36.1 N | warm and damp summers |
| miami | Miami, Florida, 25.8 N | hot |
| denver | Denver, Colorado, 39.8 N, 1650 m | dry and high |
"""

from __future__ import annotations

import importlib.util
import os
from functools import cache
from pathlib import Path

import pytest

from tidestead.core.weather import Weather
from tidestead.intake.choosing import weather_of
from tidestead.intake.wanted import Site, Wanted

VALIDATION = Path(
    os.environ.get("TIDESTEAD_VALIDATION") or Path(__file__).parents[3] / "shared" / "validation"
)
BUILDING = VALIDATION / "building"
DENVER = BUILDING / "725650TYCST.epw"
FILES = {
    "sand_point": ("703165TY.csv", Site(55.317, -160.517, 7.0, "Etc/GMT+9")),
    "greensboro": ("723170TYA.CSV", Site(36.1, -79.95, 273.0, "America/New_York")),
    "miami": ("12839.tm2", Site(25.8, -80.267, 2.0, "America/New_York")),
}
NAMES = (*FILES, "denver")


def bundled() -> Path:
    """The folder of data that the installed pvlib brings along; the library is not loaded for it."""
    found = importlib.util.find_spec("pvlib")
    assert found is not None
    assert found.origin is not None
    return Path(found.origin).parent / "data"


@cache
def climate(name: str) -> Weather:
    """The weather of one of the four places; Denver skips the test where the validation data are missing."""
    if name == "denver":
        if not DENVER.is_file():
            pytest.skip(f"the validation data are not there: {VALIDATION}")
        return read(DENVER, Site(39.83, -104.65, 1650.0, "America/Denver"))
    file, site = FILES[name]
    return read(bundled() / file, site)


def read(file: Path, site: Site) -> Weather:
    """The weather in one file, which must be sound."""
    found = weather_of(site, Wanted(file.name), file.parent)
    assert isinstance(found, Weather), found
    return found
