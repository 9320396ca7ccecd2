"""What every row of a table must have, by its kind ("*": any kind), so that studies may count on it."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

Keys = tuple[str, ...]

DEMANDS: Mapping[str, Mapping[str, Keys]] = MappingProxyType(
    {
        "lumber": {},
        "sheathing": {},
        "fasteners": {},
        "timber_factors": {},
        "clear": {},
        "linings": {},
        "seals": {},
        "soils": {},
        "floors": {},
    }
)
