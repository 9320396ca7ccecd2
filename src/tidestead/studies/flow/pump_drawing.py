"""A pump's curve against the head its lines take, with the point at which it runs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tidestead.core.scene import Note, Point, Scene, Shape, Stroke
from tidestead.core.units import System, show
from tidestead.physics.flow.pumps import pump_head
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.pumping import PumpFacts

_WIDE, _HIGH, _ASIDE = 3.2, 2.0, 0.1
"""Metres of the drawing: its field, and how far words stand off."""

_TICKS = 4

_DOT = 0.035

CURVE, SYSTEM, FOULED = "the pump's curve", "head its lines take", "head with {} half blocked"


@dataclass(frozen=True)
class _Field:
    """The greatest flow and head shown."""

    flow: float
    head: float

    def at(self, flow: float, head: float) -> Point:
        return _WIDE * flow / self.flow, _HIGH * head / self.head

    def holds(self, flow: float, head: float) -> bool:
        return 0.0 <= flow <= self.flow * 1.0001 and 0.0 <= head <= self.head * 1.0001


def pump_scenes(facts: FlowFacts, system: System) -> list[Scene]:
    """One drawing for each pump that runs."""
    return [_scene(pump, system) for pump in facts.pumps if len(pump.curve) > 1 and len(pump.system) > 1]


def _scene(pump: PumpFacts, system: System) -> Scene:
    field = _Field(pump.curve[-1][0], max(head for _, head in pump.curve))
    part = f"pumps.{pump.name}"
    shapes = [*_axes(field, part, system), *_curve(field, pump.curve, "solid", CURVE, part)]
    shapes += _curve(field, pump.system, "dashed", SYSTEM, part)
    for name, flow in pump.fouled.items():
        shapes += _fouled(field, pump, name, flow)
    at = field.at(pump.flow, pump.head)
    duty = f"{show(pump.flow, 'm3/s', system)} at {show(pump.head, 'm', system, 'head')}"
    shapes += [*_dot(at, part), Note(_beside(at), f"runs at {duty}", part)]
    told = f"Pump {pump.name} runs at {duty}, where its curve meets the head its lines take."
    for name, flow in pump.fouled.items():
        told += f" With {name} half blocked it moves {show(flow, 'm3/s', system)}."
    return Scene(f"flow.pumps.{pump.name}", f"Pump {pump.name}: where it runs", told, tuple(shapes))


def _beside(at: Point) -> Point:
    """Where words on the point stand: under the lines' curve where there is room, else over it."""
    return (
        max(at[0] - 0.15 * _WIDE, 0.3 * _WIDE),
        0.35 * at[1] if at[1] > 0.3 * _HIGH else at[1] + 0.3 * _HIGH,
    )


def _axes(field: _Field, part: str, system: System) -> list[Shape]:
    """The two axes with figures, and what they are."""
    shapes: list[Shape] = [Stroke(((0.0, _HIGH), (0.0, 0.0), (_WIDE, 0.0)), "outline", part)]
    for number in range(_TICKS + 1):
        share = number / _TICKS
        x, y = _WIDE * share, _HIGH * share
        flow, head = field.flow * share, field.head * share
        shapes.append(Stroke(((x, 0.0), (x, -0.3 * _ASIDE)), "outline", part))
        if number % 2 == 0:
            shapes.append(Note((x, -1.4 * _ASIDE), show(flow, "m3/s", system, "", (field.flow,)), part))
        if number:
            shapes.append(Stroke(((0.0, y), (-0.3 * _ASIDE, y)), "outline", part))
            shapes.append(Note((-0.6 * _ASIDE, y), show(head, "m", system, "head"), part))
    return shapes


def _curve(
    field: _Field, points: Sequence[tuple[float, float]], stuff: str, label: str, part: str
) -> list[Shape]:
    """A line through points, as far as the field goes."""
    inside = tuple(field.at(*point) for point in points if field.holds(*point))
    return [Stroke(inside, stuff, part, label)] if len(inside) > 1 else []  # type: ignore[arg-type]  # two of its words


def _fouled(field: _Field, pump: PumpFacts, name: str, flow: float) -> list[Shape]:
    """The lines' head with a strainer half blocked: through the point where the pump then runs, from the same lift.

    Between them it is taken to grow with the square of the flow.
    """
    head, part = float(pump_head(pump.law, flow)), f"apparatus.{name}"
    lift = _still(pump)
    most = min(field.flow, flow * ((field.head - lift) / max(head - lift, 1e-9)) ** 0.5)
    points = [(most * share, lift + (head - lift) * (most * share / flow) ** 2) for share in _SHARES]
    return [
        *_curve(field, points, "dotted", FOULED.format(name), part),
        *_dot(field.at(flow, head), part),
    ]


_SHARES = tuple(number / 24.0 for number in range(25))


def _still(pump: PumpFacts) -> float:
    """The head that the lines would take without flow: the curve of the system carried on as a square."""
    (one, first), (other, second) = pump.system[0], pump.system[-1]
    return max(first - (second - first) * one**2 / (other**2 - one**2), 0.0)


def _dot(at: Point, part: str) -> list[Shape]:
    ring = ((at[0] - _DOT, at[1]), (at[0], at[1] + _DOT), (at[0] + _DOT, at[1]), (at[0], at[1] - _DOT))
    return [Stroke((*ring, ring[0]), "solid", part)]
