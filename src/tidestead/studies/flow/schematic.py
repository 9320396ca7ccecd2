"""The circuits in one drawing: vessels at their true heights, a numbered line for each circuit, its signs on it."""

from __future__ import annotations

from dataclasses import dataclass, field

from tidestead.core.scene import Area, Note, Point, Scene, Shape, Stroke
from tidestead.core.units import System, show
from tidestead.plan.model import Plan, Vessel
from tidestead.studies.flow import symbols
from tidestead.studies.flow.facts import FlowFacts, Line, Run
from tidestead.studies.flow.heights import floor_of, port_of

_NARROW, _WIDE = 0.7, 1.3
"""Least and greatest width drawn, metres, so that a long basin leaves room for the rest."""

_SLOT, _LANE = 0.26, 0.45
"""Metres between two lines that run up and down beside a vessel, and between two that run across."""

_SIGN = 0.22
"""Size of pumps and valves, metres."""

_ROW = 0.55
"""Metres between two rows of the list."""

IDLE = "carries nothing now"


@dataclass
class _Column:
    """A vessel or a junction: where it stands, and how many lines have taken a place beside it, left and right."""

    left: float
    width: float
    before: int = 0
    after: int = 0


@dataclass
class _Sheet:
    """Columns by vessel or junction, and the levels between which everything stands."""

    columns: dict[str, _Column]
    top: float
    bottom: float
    above: int = 0
    below: int = 0
    shapes: list[Shape] = field(default_factory=list)

    def lane(self, over: bool) -> float:
        """The height of the next free lane over all vessels, or under them."""
        if over:
            self.above += 1
            return self.top + _LANE * self.above
        self.below += 1
        return self.bottom - _LANE * self.below


def schematic(plan: Plan, facts: FlowFacts, system: System) -> Scene:
    """Vessels, lines with arrows, and a list of the lines by number."""
    drawn = [plan.vessels[key] for key in facts.levels]
    top = max(floor_of(vessel) + vessel.height for vessel in drawn)
    sheet = _Sheet(_columns(plan, facts), top, min(floor_of(vessel) for vessel in drawn))
    for key in facts.levels:
        sheet.shapes += _vessel(plan.vessels[key], key, sheet.columns[key], facts.levels[key])
    for name, column in sheet.columns.items():
        if name not in facts.levels:
            sheet.shapes += _joint(name, column, top)
    for number, line in enumerate(facts.lines, start=1):
        _line(plan, facts, line, number, sheet)
    _list(plan, facts, system, sheet)
    told = "Circuits, heights true, widths not: " + "; ".join(
        f"{line.key} from {line.circuit.start} to {line.circuit.end}, {show(facts.flows[line.key], 'm3/s', system)}"
        for line in facts.lines
    )
    return Scene("flow.schematic", "Where the water goes", told + ".", tuple(sheet.shapes))


def _ends(plan: Plan, facts: FlowFacts) -> dict[str, tuple[int, int]]:
    """How many lines end at, and begin at, each vessel and junction."""
    found: dict[str, tuple[int, int]] = {}
    for line in facts.lines:
        for name, at in ((line.circuit.end, 0), (line.circuit.start, 1)):
            key = _place(plan, name)
            one = found.get(key, (0, 0))
            found[key] = (one[0] + (at == 0), one[1] + (at == 1))
    return found


def _place(plan: Plan, name: str) -> str:
    found = port_of(plan, name)
    return name if found is None else found[0]


def _columns(plan: Plan, facts: FlowFacts) -> dict[str, _Column]:
    """Junctions first, then vessels, the highest water first; each with room for its lines on both sides."""
    ends = _ends(plan, facts)
    joints = [name for name in ends if name not in facts.levels]
    vessels = sorted(facts.levels, key=lambda key: -facts.levels[key])
    found, left = {}, 0.0
    for key in (*joints, *vessels):
        coming, going = ends.get(key, (0, 0))
        left += _SLOT * (coming + 0.5)
        width = _SLOT if key in joints else _width(plan.vessels[key])
        found[key] = _Column(left, width)
        left += width + _SLOT * (going + 0.5)
    return found


def _width(vessel: Vessel) -> float:
    true = vessel.length if vessel.shape == "box" else vessel.across
    return min(max(true or _NARROW, _NARROW), _WIDE)


def _vessel(vessel: Vessel, key: str, column: _Column, level: float) -> list[Shape]:
    floor, left, right = floor_of(vessel), column.left, column.left + column.width
    top = floor + vessel.height
    return [
        Area(((left, floor), (right, floor), (right, level), (left, level)), "water", key),
        Stroke(((left, top), (left, floor), (right, floor), (right, top)), "outline", key),
        Note(((left + right) / 2.0, (floor + level) / 2.0), key, key),
    ]


def _joint(name: str, column: _Column, top: float) -> list[Shape]:
    """A place where pipes meet."""
    at, half = (column.left + column.width / 2.0, top), column.width / 2.0
    ring = ((at[0] - half, at[1]), (at[0], at[1] + half), (at[0] + half, at[1]), (at[0], at[1] - half))
    return [Stroke((*ring, ring[0]), "outline", name), Note((at[0], at[1] - 2.2 * half), name, name)]


def _line(plan: Plan, facts: FlowFacts, line: Line, number: int, sheet: _Sheet) -> None:
    """Out of the vessel, along a lane of its own, and in: over all vessels where a pump drives it, else under them."""
    part = f"circuits.{line.key}"
    start, end = (
        _mouth(plan, line.circuit.start, sheet, out=True),
        _mouth(plan, line.circuit.end, sheet, out=False),
    )
    over = line.pump is not None or port_of(plan, line.circuit.start) is None
    lane = sheet.lane(over)
    points: tuple[Point, ...] = (
        start[0], start[1], (start[1][0], lane), (end[1][0], lane), end[1], end[0],
    )  # fmt: skip
    runs = facts.flows[line.key] > 0.0
    sheet.shapes.append(Stroke(points, "outline" if runs else "ghost", part, "" if runs else IDLE))
    way = (1.0 if end[1][0] > start[1][0] else -1.0, 0.0)
    if runs:
        into = (1.0 if end[0][0] > end[1][0] else -1.0, 0.0)
        sheet.shapes += symbols.arrow(end[0], into, 0.6 * _SIGN, part)
    _signs(line, (points[2], points[3]), way, part, number, sheet)


def _mouth(plan: Plan, name: str, sheet: _Sheet, out: bool) -> tuple[Point, Point]:
    """Where a line leaves or enters, and the place beside it where it turns up or down."""
    found, column = port_of(plan, name), sheet.columns[_place(plan, name)]
    level = sheet.top if found is None else floor_of(found[1]) + found[2].level
    if out:
        column.after += 1
        right = column.left + column.width
        return (right, level), (right + _SLOT * column.after, level)
    column.before += 1
    return (column.left, level), (column.left - _SLOT * column.before, level)


def _signs(
    line: Line, lane: tuple[Point, Point], way: tuple[float, float], part: str, number: int, sheet: _Sheet
) -> None:
    """Pumps, valves and apparatus along the lane, in order, as many as find room; the number at its middle."""
    begin, end = lane
    signs = [sign for run in line.runs if (sign := sign_of(run)) is not None]
    length = abs(end[0] - begin[0])
    fits = max(int(length / (2.0 * _SIGN)) - 1, 0)
    kept = sorted(signs, key=lambda sign: sign is not symbols.pump)[:fits]
    shown = [sign for sign in signs if sign in kept][:fits]
    for at, sign in enumerate(shown, start=1):
        x = begin[0] + way[0] * length * at / (len(shown) + 2)
        sheet.shapes += sign((x, begin[1]), way, _SIGN, part)
    x = begin[0] + way[0] * length * (len(shown) + 1) / (len(shown) + 2)
    sheet.shapes.append(Note((x, begin[1]), str(number), part))


def sign_of(run: Run) -> symbols.Sign | None:
    """The sign of a part; pipe and fittings have none."""
    kind = run.item.kind
    if kind == "valve":
        return symbols.check_valve if run.checks else symbols.valve
    return {"pump": symbols.pump, "apparatus": symbols.box}.get(kind)


def _list(plan: Plan, facts: FlowFacts, system: System, sheet: _Sheet) -> None:
    """Under the drawing: number, name and flow of every line, and the depth in every vessel."""
    right = max(column.left + column.width + _SLOT * column.after for column in sheet.columns.values())
    rows = [
        f"{number} {line.key} {show(facts.flows[line.key], 'm3/s', system)}"
        for number, line in enumerate(facts.lines, start=1)
    ]
    rows += [
        f"{key} {show(level - floor_of(plan.vessels[key]), 'm', system, 'level')} deep"
        for key, level in facts.levels.items()
    ]
    first = sheet.bottom - _LANE * sheet.below - 2.6 * _ROW
    half = (len(rows) + 1) // 2
    for at, words in enumerate(rows):
        column, row = divmod(at, half)
        sheet.shapes.append(Note((right * (0.25 + 0.5 * column), first - _ROW * row), words))
