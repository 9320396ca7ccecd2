"""Steps up and down: lengths, sections, grades, fasteners, sheets as they are sold; other figures by shares."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Any

from tidestead.catalog import Row as CatalogRow
from tidestead.catalog import table
from tidestead.core.errors import QuantityError
from tidestead.core.units import Section, System, parse_section
from tidestead.trials.moves.rows import Build, one_key
from tidestead.trials.remedy import Ladder
from tidestead.trials.said import Asked

INCH = 0.0254
FOOT = 12


def typed_length(size: float, system: System) -> str:
    """A length as a builder types it: feet and inches to a sixteenth, or whole millimetres."""
    if system == "metric":
        return f"{size:g} m" if size >= 1.0 else f"{round(1e3 * size, 1):g} mm"
    whole = Fraction(round(size / INCH * 16.0), 16)
    feet = whole.numerator // whole.denominator // FOOT if whole >= 2 * FOOT else 0
    inches = whole - FOOT * feet
    full, rest = divmod(inches.numerator, inches.denominator)
    part = " ".join([str(full)] * (full > 0) + [f"{rest}/{inches.denominator}"] * (rest > 0))
    return " ".join([f"{feet} ft"] * (feet > 0) + [f"{part} in"] * bool(part)) or "0 in"


SPACINGS = {
    "us": tuple(inches * INCH for inches in (24.0, 16.0, 12.0, 10.0, 8.0, 6.0, 5.0, 4.0, 3.0)),
    "metric": (0.6, 0.45, 0.4, 0.3, 0.25, 0.2, 0.15, 0.125, 0.1, 0.075),
}
"""Centre to centre, as framers set out. Common practice, no source."""

DEPTHS = ("95", "120", "145", "170", "195", "220", "245")
"""Millimetres: depths of dressed timber as merchants list them. Common practice, no source."""
NOMINAL_DEPTHS = ("4", "6", "8", "10", "12")
MOST_PIECES = 5

UP = (1.1, 1.25, 1.5, 2.0, 3.0, 5.0)
DOWN = (0.9, 0.8, 0.65, 0.5, 0.35, 0.2, 0.1)
"""Shares of what stands there now."""


def closer(asked: Asked, key: str) -> list[Ladder]:
    """Closer spacings than the one that stands there."""
    now = asked.said.size(key)
    if now is None:
        return []
    steps = [one for one in SPACINGS[asked.said.system] if one < now - 1e-6]
    return one_key(asked, key, [typed_length(one, asked.said.system) for one in steps])


def section(asked: Asked, key: str) -> list[Ladder]:
    """The next deeper sections, and more pieces side by side."""
    try:
        now = parse_section(asked.said.text(key))
    except QuantityError:
        return []
    pieces = [_named(now, at, None) for at in range(now.pieces + 1, MOST_PIECES + 1)]
    deeper = [_named(now, now.pieces, depth) for depth in _deeper(now)]
    return [*one_key(asked, key, deeper, f"{key}: deeper"), *one_key(asked, key, pieces, f"{key}: pieces")]


def _deeper(now: Section) -> list[str]:
    if now.nominal:
        depth = int(now.nominal.split("x")[1])
        return [one for one in NOMINAL_DEPTHS if int(one) > depth]
    return [one for one in DEPTHS if float(one) / 1e3 > now.depth + 1e-6]


def _named(now: Section, pieces: int, depth: str | None) -> str:
    """A section with that many pieces and that depth, as a plan writes it."""
    if now.nominal:
        thick, deep = now.nominal.split("x")
        one = f"{thick}x{depth or deep}"
        return one if pieces == 1 else f"{pieces}-{one}"
    deep = depth or f"{1e3 * now.depth:g}"
    one = f"{1e3 * now.breadth:g} x {deep} mm"
    return one if pieces == 1 else f"{pieces} of {one}"


def grade(asked: Asked, key: str) -> list[Ladder]:
    """Stronger grades under the same rules, that come in the size of the section beside them."""
    rows, name = table("lumber").rows, asked.said.text(key)
    if name not in rows:
        return []
    now = rows[name]
    nominal = _nominal(asked.said.text(key.rsplit(".", 1)[0] + ".section"))
    fits = [
        row
        for row in rows.values()
        if row.tag("basis") == now.tag("basis")
        and row.si("bending") > now.si("bending")
        and (not (found := re.search(r"\d+x\d+$", row.name)) or found[0] == nominal)
    ]
    fits.sort(key=lambda row: (row.si("bending"), row.name))
    return one_key(asked, key, [row.name for row in fits])


def _nominal(text: str) -> str:
    try:
        return parse_section(text).nominal
    except QuantityError:
        return ""


def clear_thickness(asked: Asked, key: str) -> list[Ladder]:
    """Thicker sheets of the same material, as it is sold in the plan's units."""
    now, rows = asked.said.size(key), table("clear").rows
    name = asked.said.text(key.rsplit(".", 1)[0] + ".material")
    if now is None or name not in rows:
        return []
    row, us = rows[name], asked.said.system == "us"
    sold = row.several("thicknesses_inch" if us and row.has("thicknesses_inch") else "thicknesses")
    return one_key(
        asked,
        key,
        [typed_length(one, asked.said.system) for one in sorted(sold) if one > now + 1e-6],
    )


def thicker_sheet(asked: Asked, key: str) -> list[Ladder]:
    """Thicker sheathing of the same family, and further layers of what is there."""
    said, rows = asked.said, table("sheathing").rows
    name = said.text(f"{key}.sheet")
    found = []
    if name in rows:
        found += one_key(asked, f"{key}.sheet", [row.name for row in _thicker_rows(rows[name])])
    layers = said.number(f"{key}.layers") or 1
    found += one_key(asked, f"{key}.layers", [one for one in range(layers + 1, 5)])
    return found


def _thicker_rows(now: CatalogRow) -> list[CatalogRow]:
    """Rows of the same rules and kind that are thicker and may get wet; of one thickness the first."""
    best: dict[float, CatalogRow] = {}
    for row in table("sheathing"):
        same = row.tag("basis") == now.tag("basis") and row.tag("kind") == now.tag("kind")
        sort = row.name.split("-", 1)[0] == now.name.split("-", 1)[0] and "3ply" not in row.name
        if same and sort and row.tag("wet_places", True) and row.si("thickness") > now.si("thickness") + 1e-6:
            best.setdefault(row.si("thickness"), row)
    return [best[thick] for thick in sorted(best)]


def turned(asked: Asked, key: str) -> list[Ladder]:
    """The face grain turned."""
    turns = {"across studs": "along studs", "along studs": "across studs", "along rings": "across rings",
             "across rings": "along rings"}  # fmt: skip
    now = asked.said.text(key) or "across studs"
    return one_key(asked, key, [turns[now]] if now in turns else [])


MOST_FASTENERS = 60


def more_fasteners(asked: Asked, key: str) -> list[Ladder]:
    """More of the same fastener in a joint."""
    now = asked.said.number(f"{key}.count")
    if now is None:
        return []
    most = min(max(5 * now, now + 8), MOST_FASTENERS)
    return one_key(asked, f"{key}.count", list(range(now + 1, most + 1)))


def stronger_fasteners(asked: Asked, key: str) -> list[Ladder]:
    """Thicker and longer fasteners of the same kind, and those of kinds that carry more, as many as there are."""
    return stronger_at(asked, f"{key}.fastener")


_KINDS = ("nail", "wood screw", "timber screw", "lag screw", "bolt")


def stronger_at(asked: Asked, key: str) -> list[Ladder]:
    """The same for a key that names a fastener."""
    rows, name = table("fasteners").rows, asked.said.text(key)
    if name not in rows:
        return []
    now = rows[name]
    bases = set(_words(now.tag("bases")))
    found: list[Ladder] = []
    for kind in _KINDS[_KINDS.index(str(now.tag("kind"))) :]:
        fits = [
            row
            for row in rows.values()
            if row.tag("kind") == kind
            and bases & set(_words(row.tag("bases")))
            and row.tag("stainless") == now.tag("stainless")
            and row.figure("diameter").printed_unit == now.figure("diameter").printed_unit
            and _size(row) > _size(now)
            and _size(row)[1] >= min(_size(now)[1], 1.0) - 1e-6
        ]
        fits.sort(key=_size)
        found += one_key(asked, key, [row.name for row in fits], f"{key}: {kind}")
    return found


def _words(tag: Any) -> tuple[str, ...]:
    return tag if isinstance(tag, tuple) else (str(tag),)


def _size(row: CatalogRow) -> tuple[float, float]:
    return row.si("diameter"), row.si("length") if row.has("length") else 1.0


def joint(asked: Asked, key: str) -> list[Ladder]:
    """Everything for a joint: more of them, and stronger ones."""
    return more_fasteners(asked, key) + stronger_fasteners(asked, key)


def timber(asked: Asked, key: str) -> list[Ladder]:
    """Everything for a timber: its section and its grade."""
    return section(asked, f"{key}.section") + grade(asked, f"{key}.grade")


def shares(factors: Sequence[float] = UP, *, most: float | None = None) -> Build:
    """The quantity at a key times these, in the unit it is typed in, and rounded."""

    def build(asked: Asked, key: str) -> Iterable[Ladder]:
        texts = [scaled(asked.said.text(key), factor, most) for factor in factors]
        return one_key(asked, key, list(dict.fromkeys(text for text in texts if text)))

    return build


def lengths(steps_us: Sequence[float], steps_metric: Sequence[float], *, least: float = 0.0) -> Build:
    """The length at a key with these added: inches where the plan is in US units, else millimetres."""

    def build(asked: Asked, key: str) -> Iterable[Ladder]:
        now, us = asked.said.size(key), asked.said.system == "us"
        if now is None:
            return []
        steps = [one * INCH for one in steps_us] if us else [one / 1e3 for one in steps_metric]
        sizes = [now + step for step in steps if now + step > least]
        return one_key(asked, key, [typed_length(round(size, 4), asked.said.system) for size in sizes])

    return build


def counts(most_more: int, *, largest: int = 60) -> Build:
    """One more, two more, and so on, of what is counted at a key."""

    def build(asked: Asked, key: str) -> Iterable[Ladder]:
        now = asked.said.number(key) or 1
        return one_key(asked, key, list(range(now + 1, min(now + most_more, largest) + 1)))

    return build


def choices(*values: Any) -> Build:
    """These values, but for the one that stands there."""

    def build(asked: Asked, key: str) -> Iterable[Ladder]:
        now = asked.said.raw(key)
        return [
            ladder
            for value in values
            if value != now
            for ladder in one_key(asked, key, [value], f"{key}: {value}")
        ]

    return build


_NUMBER = re.compile(r"\s*(\d+(?:\.\d+)?)(\s*(?:1/)?[^\d\s/.,][^,]*)?\s*")
"""One number and its unit, which may be one of a rate: 1/h."""
_FIGURES = 3


def scaled(text: str, factor: float, most: float | None = None) -> str:
    """A quantity of one number times a factor, in its own unit; empty where it is not of one number."""
    found = _NUMBER.fullmatch(text)
    if found is None or re.search(r"\d/\d|[a-z]\s+\d", text):
        return ""
    number = float(found[1]) * factor
    if most is not None and number > most:
        number = most
    tidy = f"{number:.{_FIGURES}g}"
    tidy = f"{float(tidy):g}" if float(tidy) < 1e6 else tidy
    return "" if float(tidy) == float(found[1]) else f"{tidy}{found[2] or ''}"
