"""What is bought, by the name that lists and price books share: "lumber 2x6 dfl-no2", "pump return", "salt"."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache, lru_cache
from types import MappingProxyType

from tidestead.core.errors import QuantityError
from tidestead.core.units import Section, System, parse, parse_section, write

CATALOGUE = MappingProxyType(
    {
        "lumber": "lumber",
        "sheet": "sheathing",
        "clear": "clear",
        "liner": "linings",
        "coating": "linings",
        "fastener": "fasteners",
        "seal": "seals",
        "pipe": "pipes",
        "bulkhead": "bulkheads",
        "glazing": "glazings",
        "layer": "layers",
        "reagent": "reagents",
    }
)
"""Sorts that are named after a row of the catalogue, and the table it stands in."""

FITTED = MappingProxyType({"fitting": "fittings", "valve": "valves"})
"""Sorts that are named after a row of the catalogue and the pipe they fit: "fitting elbow-90 pvc40-2in"."""

PARTS = MappingProxyType(
    {
        "vessel": "vessels",
        "cone": "vessels",
        "pump": "pumps",
        "apparatus": "apparatus",
        "heater": "heaters",
        "chiller": "chillers",
        "lamp": "lamps",
        "cover": "covers",
        "fan": "fans",
        "airpump": "airpumps",
        "device": "devices",
        "backup": "backups",
        "source": "sources",
        "filter": "filters",
        "adsorber": "adsorbers",
        "doser": "dosers",
        "reactor": "reactors",
    }
)
"""Sorts that are named after a part of the plan, and the table of the plan that it stands in."""

ALONE = ("salt", "water", "energy", "fabric", "frame", "electrics", "chlorine-remover")
"""Sorts of which there is one. fabric: in seams and corners of a coating. frame: bars of the glazed house."""

OWN = "extra"
"""What no geometry leads to: carriage, tools, hire. Its name is the user's."""

SORTS = (*CATALOGUE, *FITTED, *PARTS, *ALONE, "anchor", OWN)


@dataclass(frozen=True, order=True)
class Item:
    """One thing that is bought. `name` is a catalogue row, a part of the plan or, of lumber, the grade.

    `sizes` are metres, to a micron: breadth and depth of lumber, thickness of a clear sheet, diameter of
    an anchor.
    """

    sort: str
    name: str = ""
    sizes: tuple[float, ...] = ()

    @classmethod
    def lumber(cls, section: Section, grade: str) -> Item:
        """One of the pieces of a section, at the size it is sold."""
        return cls("lumber", grade, (_micron(section.graded[0]), _micron(section.graded[1])))

    @classmethod
    def clear(cls, material: str, thickness: float) -> Item:
        """A clear sheet."""
        return cls("clear", material, (_micron(thickness),))

    @classmethod
    def anchor(cls, diameter: float) -> Item:
        """A resin anchor with its rod."""
        return cls("anchor", "", (_micron(diameter),))

    def written(self, system: System = "metric") -> str:
        """As a price book names it, in the reader's units."""
        words = [self.sort]
        if self.sort == "lumber":
            words += [_section(self.sizes, system), self.name]
        else:
            words += [self.name, *(_size(size, system) for size in self.sizes)]
        return " ".join(word for word in words if word)


@lru_cache(maxsize=1024)
def parse_item(text: str) -> Item:
    """The item that a text names. Raises a `QuantityError` that says what is wrong; names are not looked up."""
    words = text.split()
    sort = words[0] if words else ""
    rest = words[1:]
    if sort not in SORTS:
        raise QuantityError(f'"{text[:60]}"', "begins with no sort of thing that is bought here.",
                            f"Begin with one of: {', '.join(SORTS)}.")  # fmt: skip
    if sort == "lumber":
        return _lumber(text, rest)
    if sort == "clear":
        return _sized(text, sort, rest, named=True)
    if sort == "anchor":
        return _sized(text, sort, rest, named=False)
    wanted = 0 if sort in ALONE else 2 if sort in FITTED else 1
    if sort == OWN and rest:
        return Item(sort, " ".join(rest))
    if len(rest) != wanted:
        raise QuantityError(f'"{text[:60]}"', _wants(sort, wanted), f"Write it like {_like(sort)}.")
    return Item(sort, " ".join(rest))


def _lumber(text: str, rest: list[str]) -> Item:
    if len(rest) < 2:
        raise QuantityError(
            f'"{text[:60]}"', "must name a section and a grade.", f"Write it like {_like('lumber')}."
        )
    section = parse_section(" ".join(rest[:-1]))
    if section.pieces != 1:
        raise QuantityError(f'"{text[:60]}"', "names several pieces side by side; one of them is bought at a time.",
                            f"Write it like {_like('lumber')}.")  # fmt: skip
    return Item.lumber(section, rest[-1])


def _sized(text: str, sort: str, rest: list[str], *, named: bool) -> Item:
    if len(rest) < (2 if named else 1):
        raise QuantityError(f'"{text[:60]}"', "must end with its size.", f"Write it like {_like(sort)}.")
    name, size = (rest[0], rest[1:]) if named else ("", rest)
    return Item(sort, name, (_micron(parse(" ".join(size), "length")),))


def _wants(sort: str, wanted: int) -> str:
    if wanted == 0:
        return f"says more than {sort}, of which there is one sort only."
    return "must name what it is and the pipe it fits." if wanted == 2 else "must be followed by one name."


def _like(sort: str) -> str:
    examples = {"lumber": "lumber 47 x 145 mm C24", "clear": "clear acrylic-cast 60 mm", "anchor": "anchor 12 mm",
                "fitting": "fitting elbow-90 pvc-63-pn10", "valve": "valve ball pvc-63-pn10"}  # fmt: skip
    return f'"{examples.get(sort, sort if sort in ALONE else f"{sort} NAME")}"'


def _section(sizes: tuple[float, ...], system: System) -> str:
    breadth, depth = sizes
    for thick in _THICK:
        for wide in _WIDE:
            one = _nominal(thick, wide)
            if one is not None and (_micron(one.breadth), _micron(one.depth)) == (breadth, depth):
                return one.nominal
    sides = [_size(side, system) for side in sizes]
    if any(side.endswith(" mm") for side in sides):
        return f"{1e3 * breadth:g} x {1e3 * depth:g} mm"
    return " x ".join(sides)


def _size(size: float, system: System) -> str:
    """A thickness as it is asked for at a counter: inches where it is made to them."""
    words = write(size, "length", system)
    return words if system == "us" and words.endswith(" in") else f"{1e3 * size:g} mm"


_THICK, _WIDE = ("1", "5/4", "2", "3", "4", "6"), ("2", "3", "4", "5", "6", "8", "10", "12", "14")


@cache
def _nominal(thick: str, wide: str) -> Section | None:
    try:
        return parse_section(f"{thick}x{wide}")
    except QuantityError:
        return None


def _micron(size: float) -> float:
    return round(size, 6)
