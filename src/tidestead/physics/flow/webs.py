"""Full pipes between still waters, joined at junctions: what flows in each while no pump runs."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import inf

import numpy as np

from tidestead.core.dims import Array, Count, CubicMetrePerSecond, Metre
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.flow._web_heads import Web


@dataclass(frozen=True)
class PipeEnd:
    """Where a pipe ends: in a vessel or at a junction, told by its place (vessels first).

    In a vessel it draws air, and gives nothing, once the water has sunk to `bare`; what comes out of it must rise to
    `mouth` where the water outside stands lower.
    """

    place: Count
    bare: Metre = -inf
    mouth: Metre = -inf


@dataclass(frozen=True)
class Pipe:
    """A full pipe that loses `head` at `flow` and else with the square of the flow. `one_way`: never end to start."""

    start: PipeEnd
    end: PipeEnd
    head: Metre
    flow: CubicMetrePerSecond
    one_way: bool = False

    def __post_init__(self) -> None:
        _refuse.not_positive(head=self.head, flow=self.flow)


def pipe_flows(levels: Sequence[Metre], pipes: Sequence[Pipe]) -> Array:
    """Flow in each pipe, positive from start to end, for the levels of the vessels.

        Q = Q1*sqrt(h/h1)      h: head at one end less head at the other, or less the mouth where that stands higher
        flow in - flow out = 0      at every junction

    Places from the number of levels on are junctions.
    Raises ImpossibleInput where a pipe leads nowhere.
    Source: energy equation with losses that grow as the square of the flow; continuity.
    Valid:  pipes full; below a micrometre of head flow falls with the head itself. A friction factor taken at one
            flow is a few per cent off at half of it.
    """
    if not levels or any(min(pipe.start.place, pipe.end.place) < 0 for pipe in pipes):
        raise ImpossibleInput("pipes join vessels and junctions, told by places from nought on")
    web = Web(pipes, len(levels))
    web.settle(levels, [0.0] * web.junctions)
    return np.array(web.flows(levels))
