"""A pump's curve against the head its lines take, with the point at which it runs."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from tidestead.core.scene import Note, Point, Scene, Shape, Stroke
from tidestead.core.units import System, show, to_si
from tidestead.physics.flow.pumps import pump_head
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.pumping import PumpFacts

_WIDE, _HIGH, _ASIDE = 3.2, 2.0, 0.1
"""Metres of the drawing: its field, and how far words stand off."""

_ROUND, _TICKS = (1.0, 2.0, 5.0, 10.0), 6
"""Steps of an axis, times a power of ten in the unit shown, and the most steps that one has."""

_DOT = 0.035

CURVE, SYSTEM, FOULED = "the pump's curve", "head its lines take", "head with {} half blocked"


@dataclass(frozen=True)
class _Field:
    """The greatest flow and head shown, and the values marked on the two axes."""

    flow: float
    head: float
    flows: tuple[float, ...]
    heads: tuple[float, ...]

    def at(self, flow: float, head: float) -> Point:
        return _WIDE * flow / self.flow, _HIGH * head / self.head

    def holds(self, flow: float, head: float) -> bool:
        return 0.0 <= flow <= self.flow * 1.0001 and 0.0 <= head <= self.head * 1.0001


def pump_scenes(facts: FlowFacts, system: System) -> list[Scene]:
    """One drawing for each pump that runs."""
    return [_scene(pump, system) for pump in facts.pumps if len(pump.curve) > 1 and len(pump.system) > 1]


def _scene(pump: PumpFacts, system: System) -> Scene:
    field = _field(pump, system)
    part = f"pumps.{pump.name}"
    shapes = [*_axes(field, part, system), *_curve(field, pump.curve, "solid", CURVE, part)]
    shapes += _curve(field, [*_from_still(pump), *pump.system], "dashed", SYSTEM, part)
    for name, flow in pump.fouled.items():
        shapes += _fouled(field, pump, name, flow, system)
    at = field.at(pump.flow, pump.head)
    duty = f"{show(pump.flow, 'm3/s', system)} at {show(pump.head, 'm', system, 'head')}"
    shapes += [*_dot(at, part), Note(at, f"runs at {duty}", part)]
    told = f"Pump {pump.name} runs at {duty}, where its curve meets the head its lines take."
    for name, flow in pump.fouled.items():
        told += f" With {name} half blocked it moves {show(flow, 'm3/s', system)}."
    return Scene(f"flow.pumps.{pump.name}", f"Pump {pump.name}: where it runs", told, tuple(shapes))


def _field(pump: PumpFacts, system: System) -> _Field:
    """Axes as far as the pump's curve goes, with round numbers on them."""
    flow, head = pump.curve[-1][0], max(head for _, head in pump.curve)
    return _Field(flow, head, _marks(flow, "m3/s", system, ""), _marks(head, "m", system, "head"))


def _marks(most: float, unit: str, system: System, style: str) -> tuple[float, ...]:
    """Nothing, and on in even steps, round in the unit that is shown, up to the greatest value."""
    size = to_si(1.0, show(most, unit, system, style).partition(" ")[2])
    rough = most / size / _TICKS
    power = 10.0 ** math.floor(math.log10(rough))
    step = next(power * part for part in _ROUND if power * part >= rough * (1.0 - 1e-9)) * size
    return tuple(step * number for number in range(math.floor(most / step + 1e-9) + 1))


def _axes(field: _Field, part: str, system: System) -> list[Shape]:
    """The two axes with figures, and what they are."""
    shapes: list[Shape] = [Stroke(((0.0, _HIGH), (0.0, 0.0), (_WIDE, 0.0)), "outline", part)]
    for number, flow in enumerate(field.flows):
        x = field.at(flow, 0.0)[0]
        shapes.append(Stroke(((x, 0.0), (x, -0.3 * _ASIDE)), "outline", part))
        if number % 2 == 0:
            shapes.append(Note((x, -1.4 * _ASIDE), show(flow, "m3/s", system, "", (field.flow,)), part))
    for head in field.heads[1:]:
        y = field.at(0.0, head)[1]
        shapes.append(Stroke(((0.0, y), (-0.3 * _ASIDE, y)), "outline", part))
        shapes.append(Note((-0.6 * _ASIDE, y), show(head, "m", system, "head"), part))
    return [
        *shapes,
        Note((0.0, _HIGH + 2.4 * _ASIDE), "head", part),
        Note((_WIDE / 2.0, -3.8 * _ASIDE), "flow", part),
    ]


def _curve(
    field: _Field, points: Sequence[tuple[float, float]], stuff: str, label: str, part: str
) -> list[Shape]:
    """A line through points, as far as the field goes."""
    inside = tuple(field.at(*point) for point in points if field.holds(*point))
    return [Stroke(inside, stuff, part, label)] if len(inside) > 1 else []  # type: ignore[arg-type]  # two of its words


def _fouled(field: _Field, pump: PumpFacts, name: str, flow: float, system: System) -> list[Shape]:
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
        Note(field.at(flow, head), f"half blocked {show(flow, 'm3/s', system)}", part),
    ]


_SHARES = tuple(number / 24.0 for number in range(25))


def _still(pump: PumpFacts) -> float:
    """The head that the lines would take without flow: the curve of the system carried on as a square."""
    (one, first), (other, second) = pump.system[0], pump.system[-1]
    return max(first - (second - first) * one**2 / (other**2 - one**2), 0.0)


def _from_still(pump: PumpFacts) -> list[tuple[float, float]]:
    """The curve of the system from no flow on up to its first point that was reckoned, as a square."""
    (flow, head), lift = pump.system[0], _still(pump)
    return [(flow * share, lift + (head - lift) * share**2) for share in _SHARES[:-1]]


def _dot(at: Point, part: str) -> list[Shape]:
    ring = ((at[0] - _DOT, at[1]), (at[0], at[1] + _DOT), (at[0] + _DOT, at[1]), (at[0], at[1] - _DOT))
    return [Stroke((*ring, ring[0]), "solid", part)]
