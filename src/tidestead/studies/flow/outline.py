"""The plan as flow and foam see it: what they never read is left blank.

They are given nothing else, so that an edit of what is blank here (a sheet's thickness, a grade) cannot change what
they find, and what they found stands.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar, cast

from tidestead.plan.model import Part, Plan, Vessel, Wall, Window

KEPT = 32
"""Plans of which what was found is kept, and as many answers."""

Kind = TypeVar("Kind", bound=Part)

_PLAN = frozenset(
    {
        "tidestead",
        "name",
        "gallons",
        "show",
        "currency",
        "site",
        "water",
        "vessels",
        "pumps",
        "valves",
        "apparatus",
    }
    | {"circuits", "outfalls", "supplies", "targets", "yours"}
)
_SITE = frozenset({"elevation"})
_VESSEL = frozenset(
    {
        "role",
        "shape",
        "length",
        "width",
        "across",
        "sides",
        "height",
        "water",
        "brim",
        "lower_to",
        "holds",
        "place",
    }
    | {"ports", "cone", "air", "top_off"}
)
_PIERCED = frozenset({"lining", "walls", "rings", "ribs"})
"""What is read of a vessel with a fitting through a wall or its floor."""

_WALL = frozenset({"sheathing", "studs", "rim", "base", "windows"})
_WINDOW = frozenset({"width", "height", "sill", "from_left", "opening"})
_OPENING = frozenset({"sill", "header", "jambs"})
_TIMBER = frozenset({"section"})


def outline(plan: Plan) -> Plan:
    """The plan without what flow and foam never read."""
    vessels = {key: _vessel(vessel) for key, vessel in plan.vessels.items()}
    return _only(plan, _PLAN, {"site": _only(plan.site, _SITE), "vessels": vessels})


def key_of(plan: Plan) -> str:
    """All that an outline says, and nothing that it leaves to a default: of two walls one may say what the other leaves
    to the wall of all."""
    return plan.model_dump_json(exclude_unset=True)


@dataclass(frozen=True, eq=False)
class Same:
    """Something told by which one it is, not by what it says: kept as long as what was found with it."""

    one: object

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Same) and self.one is other.one

    def __hash__(self) -> int:
        return id(self.one)


def _vessel(vessel: Vessel) -> Vessel:
    if all(port.bulkhead is None for port in vessel.ports.values()):
        return _only(vessel, _VESSEL)
    timbers = {name: _timbers(vessel, name) for name in ("rings", "ribs")}
    walls = {key: _wall(wall) for key, wall in vessel.walls.items()}
    return _only(vessel, _VESSEL | _PIERCED, {"walls": walls, **timbers})


def _timbers(vessel: Vessel, name: str) -> Part | None:
    part: Part | None = getattr(vessel, name)
    return None if part is None else _only(part, {"section", "spacing", "at", "per_face", "at_corners"})


def _wall(wall: Wall) -> Wall:
    kept = {"studs": {"section", "spacing"}, "rim": {"section", "lies"}, "base": {"plate"}}
    kept |= {"sheathing": {"sheet", "layers", "as_built"}}
    parts = {name: _only(part, fields) for name, fields in kept.items() if (part := getattr(wall, name))}
    windows = {key: _window(window) for key, window in wall.windows.items()}
    return _only(wall, _WALL, {**parts, "windows": windows})


def _window(window: Window) -> Window:
    opening = window.opening
    parts = {name: _only(part, _TIMBER) for name in _OPENING if (part := getattr(opening, name)) is not None}
    return _only(window, _WINDOW, {"opening": _only(opening, _OPENING, parts)})


def _only(part: Kind, fields: Collection[str], other: Mapping[str, Any] | None = None) -> Kind:
    """A part with only some of its fields, some of these changed for others; what it never said it does not say now."""
    said = part.model_fields_set & frozenset(fields)
    changed = other or {}
    values = {name: changed.get(name, getattr(part, name)) for name in said}
    return cast(Kind, type(part).model_construct(set(said), **values))
