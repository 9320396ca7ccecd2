"""What is taken of one vessel as it is found: pieces, parts and lines, and sentences of what the plan does not say."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from tidestead.build.lists import Hole, Line, Outline, Phase, Piece, SheetPart, TakenOff, Trade, Unit
from tidestead.build.takeoff.marks import Marks
from tidestead.core.answer import Estimate
from tidestead.core.source import COMPUTED, PRACTICE, Source
from tidestead.core.units import Section, System, show
from tidestead.plan.items import OWN, Item

JOINING_SCREW = Item(OWN, "joining-screw")

JOIN_ROWS, JOIN_SPACING, JOIN_LENGTHS = 2, 0.300, 1.75
"""Rows of screws between planks, how far apart along them in metres, how long for each thickness of a plank. Common
practice, no source."""

_ALIKE = 5
"""Lengths that agree to so many digits of a metre, a hundredth of a millimetre, are one length."""


@dataclass(frozen=True)
class Part:
    """A part of the plan that things are bought for: its key, what it is in words, the letters of its marks."""

    key: str
    what: str
    letters: str


@dataclass(frozen=True)
class Cut:
    """Timbers of one length within a part; `what` where it is called otherwise than the part."""

    length: float
    count: int
    what: str = ""
    ends: tuple[float, float] = (0.0, 0.0)
    holes: str = ""


@dataclass(frozen=True)
class Shape:
    """A sheet's shape: level side, upright side, what is cut out of it, in metres from its lower left corner."""

    width: float
    height: float
    openings: tuple[Outline, ...] = ()
    holes: tuple[Hole, ...] = ()

    @property
    def area(self) -> float:
        """Without its openings; holes are left in."""
        return self.width * self.height - sum(_area(outline) for outline in self.openings)


@dataclass
class Gathered:
    """The list of one vessel while it grows."""

    vessel: str
    system: System
    lines: list[Line] = field(default_factory=list)
    pieces: list[Piece] = field(default_factory=list)
    parts: list[SheetPart] = field(default_factory=list)
    missing: list[tuple[str, str]] = field(default_factory=list)
    marks: Marks = field(init=False)

    def __post_init__(self) -> None:
        self.marks = Marks(self.vessel)

    def taken(self) -> TakenOff:
        """All of it."""
        gaps = tuple(dict.fromkeys(self.missing))
        return TakenOff(tuple(self.lines), tuple(self.pieces), tuple(self.parts), gaps)

    def told(self, length: float, style: str = "lumber") -> str:
        """A length in the reader's units."""
        return show(length, "m", self.system, style)

    def lacks(self, key: str, sentence: str) -> None:
        """The plan must say more before this can be listed."""
        self.missing.append((key, sentence))

    def line(self, line: Line) -> None:
        """A line of this vessel."""
        self.lines.append(line)

    def timber(
        self,
        part: Part,
        timber: tuple[Section, str],
        cuts: Iterable[Cut],
        basis: str,
        source: Source = COMPUTED,
    ) -> None:
        """Timbers of one section and grade: every piece of the section by itself, and their metres as one line."""
        section, grade = timber
        item, total = Item.lumber(section, grade), 0.0
        for cut in _together(cuts):
            count = cut.count * section.pieces
            what = cut.what or part.what
            mark = self.marks.following(part.letters)
            self.pieces.append(
                Piece(mark, item, cut.length, count, what, part.key, self.vessel, cut.ends, cut.holes)
            )
            total += count * cut.length
        if total > 0.0:
            amount = Estimate.exact(total)
            where = (part.what, part.key, TIMBER.trade, TIMBER.phase, self.vessel)
            self.line(Line(item, amount, "m", *where, basis, source, nested=True))
            self.fastened(part, total * (section.pieces - 1) / section.pieces, section.breadth)

    def fastened(self, part: Part, metres: float, plank: float) -> None:
        """Screws that hold planks side by side together, over so many metres of them."""
        count = JOIN_ROWS * math.ceil(metres / JOIN_SPACING - 1e-9)
        basis = (
            f"assumed, since the plan names none: {JOIN_ROWS} rows, every {self.told(JOIN_SPACING)} along "
            f"{self.told(metres, 'level')} of plank on plank; at least {self.told(JOIN_LENGTHS * plank)} long"
        )
        called = Part(part.key, f"screws between planks of the {part.what}", "")
        self.counted(JOINING_SCREW, float(count), called, basis, ASSUMED)

    def sheets(self, part: Part, item: Item, shapes: Sequence[Shape], made: Sheets) -> None:
        """Sheet parts; those of one shape share a mark. Their square metres are one line, without openings."""
        counted: dict[Shape, int] = {}
        for shape in shapes:
            counted[shape] = counted.get(shape, 0) + 1
        for shape, count in counted.items():
            self.parts.append(
                made.part(self.marks.following(part.letters), item, shape, count, part, self.vessel)
            )
        total = sum(shape.area for shape in shapes)
        if total > 0.0:
            amount = Estimate.exact(total)
            where = (part.what, part.key, made.trade, made.phase, self.vessel)
            self.line(Line(item, amount, "m2", *where, made.basis, nested=True))

    def counted(self, item: Item, amount: float, part: Part, basis: str, more: Counted | None = None) -> None:
        """So many or so much of a thing that no cut plan holds."""
        how = more or Counted()
        if amount > 0.0:
            exact = Estimate.exact(amount)
            where = (part.what, part.key, how.trade, how.phase, self.vessel)
            self.line(Line(item, exact, how.unit, *where, basis, how.source))


@dataclass(frozen=True)
class Counted:
    """How a thing is counted, who sells it, when it is needed."""

    unit: Unit = "1"
    trade: Trade = "fixings"
    phase: Phase = "frame"
    source: Source = COMPUTED


TIMBER = Counted(unit="m", trade="timber")

ASSUMED = Counted(source=PRACTICE)
"""A thing that the plan does not name and common practice asks for."""


@dataclass(frozen=True)
class Sheets:
    """What sheet parts share: whether the grain runs level, whether they may turn, edges, trade."""

    grain_level: bool
    basis: str
    trade: Trade = "sheet goods"
    phase: Phase = "frame"
    turns: bool = False
    edges: str = ""

    def part(self, mark: str, item: Item, shape: Shape, count: int, of: Part, vessel: str) -> SheetPart:
        """Parts of one shape."""
        along, across = (shape.width, shape.height) if self.grain_level else (shape.height, shape.width)
        return SheetPart(
            mark,
            item,
            along,
            across,
            count,
            of.what,
            of.key,
            vessel,
            self.turns,
            "along" if self.grain_level else "across",
            openings=shape.openings,
            holes=shape.holes,
            edges=self.edges,
        )


def _together(cuts: Iterable[Cut]) -> list[Cut]:
    """Cuts of one length and kind as one, in the order in which they came."""
    found: dict[object, Cut] = {}
    for cut in cuts:
        if cut.count < 1 or cut.length <= 0.0:
            continue
        key = (round(cut.length, _ALIKE), cut.what, cut.ends, cut.holes)
        before = found.get(key)
        count = cut.count + (before.count if before else 0)
        found[key] = Cut(before.length if before else cut.length, count, cut.what, cut.ends, cut.holes)
    return list(found.values())


def _area(outline: Outline) -> float:
    """Area within corner points, counter-clockwise."""
    ends = (*outline[1:], outline[0])
    return sum(x * v - u * y for (x, y), (u, v) in zip(outline, ends, strict=True)) / 2.0
