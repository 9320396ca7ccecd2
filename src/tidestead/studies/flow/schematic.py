"""The circuits in one drawing: vessels at their true heights, a numbered line for each circuit, its signs on it.

Lines run where there is room: their heights tell nothing, and where several end at one height they are spread.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from tidestead.core.scene import Area, Note, Point, Scene, Shape, Sign, Stroke
from tidestead.core.units import System, show
from tidestead.plan.model import Plan, Vessel
from tidestead.studies.flow import symbols
from tidestead.studies.flow.clear_places import Path, clear_places, number_place, spread
from tidestead.studies.flow.facts import FlowFacts, Line, Run
from tidestead.studies.flow.heights import floor_of, place_of, port_of

_NARROW, _WIDE = 0.7, 1.3
"""Least and greatest width drawn, metres, so that a long basin leaves room for the rest."""

_SLOT, _LANE = 0.26, 0.45
"""Metres between two lines that run up and down beside a vessel, and between two that run across."""

_SIGN = 0.22
"""Size of pumps and valves, metres."""

_APART = 0.14
"""Least metres between the ends of two lines at one side of a vessel."""

_ROW, _LINES, _MOST = 0.55, 23.0, 20
"""Least metres between two rows of the list; rows a sheet has the height for, and for how many of them it is kept."""

_SHAPE = 0.85
"""Width of the list over the height of the sheet, where the drawing is narrower."""

_COLUMNS = (0.14, 0.41, 0.66, 0.88)
"""Where the columns of the list stand, as shares of its width."""

HEADS = ("line", "flow", "velocity, most", "head lost")
DEPTHS = ("vessel", "depth", "vessel", "depth")
OVER_A_WEIR = "over a weir"
"""Stands in place of the velocity of a line that has no pipe."""

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
    mouths: dict[tuple[str, bool], float] = field(default_factory=dict)
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
    sheet.mouths = _mouths(plan, facts)
    paths = [_path(plan, line, sheet) for line in facts.lines]
    for number, line in enumerate(facts.lines, start=1):
        _line(facts, line, number, paths, sheet)
    _list(plan, facts, system, sheet)
    told = "Circuits, vessels at their true heights, pipes drawn where there is room: " + "; ".join(
        f"{line.key} from {line.circuit.start} to {line.circuit.end}, {show(facts.flows[line.key], 'm3/s', system)}"
        for line in facts.lines
    )
    return Scene(
        "flow.schematic", "Where the water goes", told + ".", tuple(sheet.shapes), signs=_used(facts, sheet)
    )


def _used(facts: FlowFacts, sheet: _Sheet) -> tuple[Sign, ...]:
    """The signs that the key explains."""
    used = [sign for line in facts.lines for run in line.runs if (sign := sign_of(run)) is not None]
    joints = [symbols.junction for name in sheet.columns if name not in facts.levels]
    return symbols.explained([*used, *joints])


def _mouths(plan: Plan, facts: FlowFacts) -> dict[tuple[str, bool], float]:
    """The height at which each line leaves its vessel (True) and enters one (False), apart from its neighbours."""
    sides: dict[tuple[str, bool], list[tuple[float, str]]] = {}
    for line in facts.lines:
        for name, out in ((line.circuit.start, True), (line.circuit.end, False)):
            if (found := port_of(plan, name)) is not None:
                level = floor_of(found[1]) + found[2].level
                sides.setdefault((found[0], out), []).append((level, line.key))
    return {
        (key, out): level
        for (_, out), ends in sides.items()
        for key, level in spread([(key, level) for level, key in ends], _APART).items()
    }


def _ends(plan: Plan, facts: FlowFacts) -> dict[str, tuple[int, int]]:
    """How many lines end at, and begin at, each vessel and junction."""
    found: dict[str, tuple[int, int]] = {}
    for line in facts.lines:
        for name, at in ((line.circuit.end, 0), (line.circuit.start, 1)):
            key = place_of(plan, name)
            one = found.get(key, (0, 0))
            found[key] = (one[0] + (at == 0), one[1] + (at == 1))
    return found


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
    at = (column.left + column.width / 2.0, top)
    return [
        *symbols.junction(at, (1.0, 0.0), column.width, name),
        Note((at[0], at[1] - 1.1 * column.width), name, name),
    ]


def _path(plan: Plan, line: Line, sheet: _Sheet) -> Path:
    """Out of the vessel, along a lane of its own, and in: over all vessels where a pump drives it, else under them."""
    start, turn = _mouth(plan, line, sheet, out=True)
    end, back = _mouth(plan, line, sheet, out=False)
    lane = sheet.lane(line.pump is not None or port_of(plan, line.circuit.start) is None)
    return Path((start, turn, (turn[0], lane), (back[0], lane), back, end))


def _mouth(plan: Plan, line: Line, sheet: _Sheet, out: bool) -> tuple[Point, Point]:
    """Where a line leaves or enters, and the place beside it where it turns up or down."""
    column = sheet.columns[place_of(plan, line.circuit.start if out else line.circuit.end)]
    level = sheet.mouths.get((line.key, out), sheet.top)
    if out:
        column.after += 1
        right = column.left + column.width
        return (right, level), (right + _SLOT * column.after, level)
    column.before += 1
    return (column.left, level), (column.left - _SLOT * column.before, level)


def _line(facts: FlowFacts, line: Line, number: int, paths: Sequence[Path], sheet: _Sheet) -> None:
    """One line with its arrow, its signs in their order and its number, all where no other line crosses it."""
    part, runs, path = f"circuits.{line.key}", facts.flows[line.key] > 0.0, paths[number - 1]
    others = [other for other in paths if other is not path]
    sheet.shapes.append(Stroke(path.points, "outline" if runs else "ghost", part, "" if runs else IDLE))
    if runs:
        sheet.shapes += symbols.arrow(path.points[-1], (1.0, 0.0), 0.6 * _SIGN, part)
    signs = [sign for run in line.runs if (sign := sign_of(run)) is not None]
    places = clear_places(path, others, len(signs), _SIGN)
    kept = sorted(signs, key=lambda sign: sign is not symbols.pump)[: len(places)]
    shown = [sign for sign in signs if sign in kept][: len(places)]
    for sign, x in zip(shown, places, strict=True):
        sheet.shapes += sign((x, path.lane), (path.way, 0.0), _SIGN, part)
    sheet.shapes.append(Note(number_place(path, others, places, _SIGN), str(number), part))


def sign_of(run: Run) -> symbols.Sign | None:
    """The sign of a part; pipe and fittings have none."""
    kind = run.item.kind
    if kind == "valve":
        return symbols.check_valve if run.checks else symbols.valve
    return {"pump": symbols.pump, "apparatus": symbols.box}.get(kind)


def _list(plan: Plan, facts: FlowFacts, system: System, sheet: _Sheet) -> None:
    """Under the drawing: every line with its flow, greatest velocity and head lost, and the depth in every vessel."""
    right = max(column.left + column.width + _SLOT * column.after for column in sheet.columns.values())
    rows = [HEADS, *(_row(facts, line, number, system) for number, line in enumerate(facts.lines, start=1))]
    depths = [
        (key, show(level - floor_of(plan.vessels[key]), "m", system, "level"))
        for key, level in facts.levels.items()
    ]
    heads = [0, len(rows) + 1]
    rows.append(("", "", "", ""))  # a list of its own begins, which must not read as a row of the one above
    rows.append(DEPTHS if len(depths) > 1 else (*DEPTHS[:2], "", ""))
    for at in range(0, len(depths), 2):
        rows.append((*depths[at], *(depths[at + 1] if at + 1 < len(depths) else ("", ""))))
    foot = sheet.bottom - _LANE * sheet.below
    height = sheet.top + _LANE * sheet.above - foot
    pitch = max(_ROW, height / (_LINES - min(len(rows) + 4, _MOST)))
    width = max(right, _SHAPE * (height + pitch * (len(rows) + 4)))
    left, first = (right - width) / 2.0, foot - 4.4 * pitch
    said = "vessels at true heights, pipes where there is room"
    sheet.shapes.append(Note((right / 2.0, foot - 2.5 * pitch), said))
    for head in heads:
        rule = first - (head + 0.5) * pitch
        sheet.shapes.append(Stroke(((left, rule), (left + width, rule)), "outline"))
    for at, cells in enumerate(rows):
        sheet.shapes += [
            Note((left + width * share, first - pitch * at), words)
            for share, words in zip(_COLUMNS, cells, strict=True)
            if words
        ]


def _row(facts: FlowFacts, line: Line, number: int, system: System) -> tuple[str, str, str, str]:
    """Number and name, flow, the greatest velocity of its runs, and the head that all of them lose."""
    flow, passed = facts.flows[line.key], facts.passed[line.key]
    name = f"{number} {line.key}"
    if flow <= 0.0:
        return name, show(flow, "m3/s", system), "none", "none"
    fastest = max((one.velocity for one in passed), default=0.0)
    speed = show(fastest, "m/s", system) if fastest > 0.0 else OVER_A_WEIR
    lost = sum(one.head for one in passed if one.run.item.kind != "pump")
    return name, show(flow, "m3/s", system), speed, show(lost, "m", system, "head")
