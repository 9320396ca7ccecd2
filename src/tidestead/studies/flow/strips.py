"""Every circuit as a strip down the page: its parts in order, with flow, velocity and the head each one takes."""

from __future__ import annotations

from tidestead.core.scene import Note, Scene, Shape, Stroke
from tidestead.core.units import System, show
from tidestead.studies.flow import symbols
from tidestead.studies.flow.facts import FlowFacts, Line, RunFlow
from tidestead.studies.flow.schematic import IDLE, sign_of

_ROW = 0.5
"""Metres between two parts."""

_SIGN = 0.26

_ASIDE = 0.2
"""Metres from the line to the words beside it."""

_MOST = 10
"""Parts on one drawing; a longer line goes on in the next."""

_DOWN = (0.0, -1.0)


def strips(facts: FlowFacts, system: System) -> list[Scene]:
    """One drawing for each circuit with parts, more where it is long."""
    found = []
    for line in facts.lines:
        passed = facts.passed[line.key]
        pages = [passed[at : at + _MOST] for at in range(0, len(passed), _MOST)]
        for number, page in enumerate(pages):
            found.append(_strip(facts, line, page, (number, len(pages)), system))
    return found


def _strip(
    facts: FlowFacts, line: Line, page: tuple[RunFlow, ...], place: tuple[int, int], system: System
) -> Scene:
    number, pages = place
    part, flow = f"circuits.{line.key}", facts.flows[line.key]
    foot = -_ROW * (len(page) + 1)
    shapes: list[Shape] = []
    runs = flow > 0.0
    ends = ((0.0, 0.0), (0.0, foot))
    shapes.append(Stroke(ends, "outline" if runs else "ghost", part, "" if runs else IDLE))
    first = f"from {line.circuit.start}" if number == 0 else "goes on"
    last = f"to {line.circuit.end}" if number == pages - 1 else "goes on"
    shapes += [Note((_ASIDE, 0.0), first, part), Note((_ASIDE, foot), last, part)]
    if runs:
        shapes += symbols.arrow((0.0, foot), _DOWN, 0.6 * _SIGN, part)
    for at, one in enumerate(page, start=1):
        shapes += _row(one, -_ROW * at, part, system)
    words = show(flow, "m3/s", system)
    title = f"Line {line.key}: {words if runs else 'nothing runs now'}" + (
        f", {number + 1} of {pages}" if pages > 1 else ""
    )
    told = f"From {line.circuit.start} to {line.circuit.end}: " + "; ".join(
        f"{one.run.words}, {_figures(one, system)}" for one in page
    )
    ident = f"flow.line.{line.key}" + (f".{number + 1}" if pages > 1 else "")
    signs = symbols.explained(sign for one in page if (sign := sign_of(one.run)) is not None)
    return Scene(ident, title, told + ".", tuple(shapes), signs=signs)


def _row(one: RunFlow, y: float, part: str, system: System) -> list[Shape]:
    """A part's sign on the line, its name on one side, its figures on the other."""
    sign = sign_of(one.run)
    shapes = sign((0.0, y), _DOWN, _SIGN, part) if sign is not None else [_tick(y, part)]
    count = f" x{one.run.item.count}" if one.run.item.kind == "fitting" and one.run.item.count > 1 else ""
    name = one.run.words.partition(",")[0] if one.run.item.kind == "valve" else one.run.words
    return [
        *shapes,
        Note((_ASIDE, y), f"{name}{count}", part),
        Note((-_ASIDE, y), _figures(one, system), part),
    ]


def _tick(y: float, part: str) -> Stroke:
    return Stroke(((-0.3 * _SIGN, y), (0.3 * _SIGN, y)), "outline", part)


def _figures(one: RunFlow, system: System) -> str:
    """Velocity and head; a pump gives head."""
    if one.run.item.kind == "pump":
        return f"gives {show(-one.head, 'm', system, 'head')}"
    velocity = f"{show(one.velocity, 'm/s', system)}, " if one.velocity > 0.0 else ""
    return f"{velocity}loses {show(one.head, 'm', system, 'bow')}"
