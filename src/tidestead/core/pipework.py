"""The closed-pipe part of a circulation as plain numbers, for files that other programs read.

Heads and levels in metres above the datum, lengths and bores in metres, flows in m3/s.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class FixedHead:
    """A place whose head is given: a water surface, or the level of a free fall."""

    name: str
    head: float


@dataclass(frozen=True)
class ClosedPipe:
    """A pipe, or with next to no length a fitting; `k` counts heads of the velocity in its bore."""

    name: str
    start: str
    end: str
    length: float
    bore: float
    roughness: float
    k: float = 0.0
    one_way: bool = False
    shut: bool = False


@dataclass(frozen=True)
class ClosedPump:
    """A pump by points of flow and head, flows rising from nothing."""

    name: str
    start: str
    end: str
    points: tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class ClosedNetwork:
    """Everything that runs full. `left_out` names what does not: weirs, open drains."""

    title: str
    viscosity: float
    fixed: tuple[FixedHead, ...]
    joints: tuple[str, ...]
    pipes: tuple[ClosedPipe, ...]
    pumps: tuple[ClosedPump, ...]
    left_out: tuple[str, ...]
