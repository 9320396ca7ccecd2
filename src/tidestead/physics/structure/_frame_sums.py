"""The sums of a frame: every bar's stiffness at once, releases, assembly, solution, and naming what is loose.

Private workings of `frames`; a bar has twelve end movements, six at its start and six at its end, in its own
directions: along, strong, weak, and the turns about these three.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from tidestead.core.dims import Array
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics.structure._frame_band import Band, gathered
from tidestead.physics.structure._line_loads import LineLoads
from tidestead.physics.structure.frame_model import DIRECTIONS, END_FREEDOMS, BarSection, FrameModel

_SPUN = 1e12
"""Condition of the freed part of a bar above which its own releases make it a mechanism."""

_OFF_BALANCE = 1e-8
"""Forces left over at a node, as a share of the largest bar force, that are not put up with."""


@dataclass(frozen=True)
class FrameNumbers:
    """A model as arrays: `ends` are node numbers, `turn` holds each bar's three directions as rows.

    `bars_under` are the bars called by a name, or so and a dot and more.
    """

    places: Array
    ends: NDArray[np.intp]
    lengths: Array
    turn: Array
    axial: Array
    strong: Array
    weak: Array
    twist: Array
    node_number: Mapping[str, int]
    bar_number: Mapping[str, int]
    bars_under: Mapping[str, list[int]]


@dataclass(frozen=True, eq=False)
class FrameParts:
    """All of a frame that no load changes: stiffnesses, releases, what is held, the factored band.

    `follow` says how a bar's end movements follow from its nodes' in its own directions, `lead` in those of space;
    `place` are the numbers of the node directions at a bar's ends.
    """

    model: FrameModel
    numbers: FrameNumbers
    stiff: Array
    releases: tuple[_Release, ...]
    spin: Array
    lead: Array
    place: NDArray[np.intp]
    springs: Array
    held: NDArray[np.bool_]
    band: Band
    factor: Array


@dataclass(frozen=True, eq=False)
class _Release:
    """Bars with the same freed end movements, and the inverse of each one's stiffness in these."""

    bars: list[int]
    free: list[int]
    inverse: Array


@dataclass(frozen=True)
class FrameSums:
    """A solved frame: node movements and reactions (nodes, 6), bar end movements and forces (bars, 12)."""

    displacements: Array
    reactions: Array
    end_moves: Array
    end_forces: Array


def frame_numbers(model: FrameModel) -> FrameNumbers:
    """The model's names turned into numbers, its bars into lengths and directions.

    Source: geometry.
    Valid:  every name used is known and used once, bars have length, `strong_along` is not along the bar.
    """
    nodes = _numbered("node", [node.name for node in model.nodes])
    bars = _numbered("bar", [bar.name for bar in model.bars])
    if not bars:
        raise ImpossibleInput("a frame without bars holds nothing")
    places = np.array([(node.x, node.y, node.z) for node in model.nodes], dtype=float)
    ends = np.array([[_known(nodes, "node", name) for name in (bar.start, bar.end)] for bar in model.bars])
    run = places[ends[:, 1]] - places[ends[:, 0]]
    lengths = np.linalg.norm(run, axis=1)
    _refuse_bars(model, ~(lengths > 0.0), "has no length: its ends are at one place")
    along = run / lengths[:, None]
    aim = np.array([bar.strong_along for bar in model.bars], dtype=float)
    size = np.linalg.norm(aim, axis=1)
    _refuse_bars(model, ~(size > 0.0), "has no direction for its deep side")
    aim = aim / size[:, None]
    strong = aim - np.sum(aim * along, axis=1)[:, None] * along
    reach = np.linalg.norm(strong, axis=1)
    _refuse_bars(model, reach < 1e-6, "has its deep side pointing along itself")
    strong = strong / reach[:, None]
    worth = np.array([_worth(bar.section) for bar in model.bars])
    _refuse_bars(model, ~np.all(worth > 0.0, axis=1), "has a stiffness that is not more than nothing")
    turn = np.stack([along, strong, np.cross(along, strong)], axis=1)
    axial, bend_strong, bend_weak, twist = worth.T
    return FrameNumbers(
        places, ends, lengths, turn, axial, bend_strong, bend_weak, twist, nodes, bars, _under(bars)
    )


def _under(bars: Mapping[str, int]) -> dict[str, list[int]]:
    """The bars by every beginning of their names that ends at a dot or at the name's end, in order."""
    found: dict[str, list[int]] = {}
    for name, number in bars.items():
        words = name.split(".")
        for count in range(1, len(words) + 1):
            found.setdefault(".".join(words[:count]), []).append(number)
    return found


def _worth(section: BarSection) -> tuple[float, float, float, float]:
    modulus = section.youngs_modulus
    return (
        modulus * section.area,
        modulus * section.strong,
        modulus * section.weak,
        section.shear_modulus * section.torsion,
    )


def _numbered(what: str, names: list[str]) -> Mapping[str, int]:
    numbers = {name: number for number, name in enumerate(names)}
    if len(numbers) < len(names):
        twice = sorted({name for name in names if names.count(name) > 1})
        raise ImpossibleInput(f"{what} {', '.join(twice)} is there twice")
    return numbers


def _known(numbers: Mapping[str, int], what: str, name: str) -> int:
    if name not in numbers:
        raise ImpossibleInput(f"there is no {what} called {name}")
    return numbers[name]


def _refuse_bars(model: FrameModel, wrong: NDArray[np.bool_], why: str) -> None:
    if np.any(wrong):
        raise ImpossibleInput(f"bar {model.bars[int(np.argmax(wrong))].name} {why}")


def line_loads(model: FrameModel, numbers: FrameNumbers) -> LineLoads:
    """The bars' loads in the bars' own directions.

    Source: geometry.
    Valid:  loads within their bars.
    """
    loads = model.bar_loads
    bar = np.array([_known(numbers.bar_number, "bar", load.bar) for load in loads], dtype=np.intp)
    run = np.array([(load.start, load.end) for load in loads], dtype=float).reshape(-1, 2)
    both = np.array([(load.load_start, load.load_end) for load in loads], dtype=float).reshape(-1, 2, 3)
    own = np.einsum("lij,lkj->lki", numbers.turn[bar], both)
    return LineLoads(numbers.lengths, bar, run[:, 0], run[:, 1], own[:, 0], own[:, 1])


def _stiffness(numbers: FrameNumbers) -> Array:
    """Stiffness of every bar in its own directions, (bars, 12, 12). Slender-beam theory."""
    length = numbers.lengths
    stiff: Array = np.zeros((len(length), 12, 12))
    for place, worth in ((0, numbers.axial / length), (3, numbers.twist / length)):
        stiff[:, place, place] = stiff[:, place + 6, place + 6] = worth
        stiff[:, place, place + 6] = stiff[:, place + 6, place] = -worth
    # Pushing along `strong` (row 1) turns the end about `weak` (row 5); along `weak` (2) about `strong` (4),
    # the other way round.
    for push, bend, sign, bending in ((1, 5, 1.0, numbers.strong), (2, 4, -1.0, numbers.weak)):
        four = [push, bend, push + 6, bend + 6]
        shape = np.array(
            [[12.0, 6.0, -12.0, 6.0], [6.0, 4.0, -6.0, 2.0], [-12.0, -6.0, 12.0, -6.0], [6.0, 2.0, -6.0, 4.0]]
        )
        lever = np.stack([np.ones_like(length), sign * length] * 2, axis=1)
        scaled = shape * lever[:, :, None] * lever[:, None, :] * (bending / length**3)[:, None, None]
        stiff[np.ix_(range(len(length)), four, four)] = scaled
    return stiff


def _held_ends(loads: LineLoads) -> Array:
    """Forces on the ends of every bar, were they clamped, under the bar's loads; (bars, 12)."""
    places, forces = loads.points()
    length = loads.lengths[loads.bar][:, None]
    share = places / length
    near, far = 1.0 - 3.0 * share**2 + 2.0 * share**3, 3.0 * share**2 - 2.0 * share**3
    lever_near = length * share * (1.0 - share) ** 2
    lever_far = -length * share**2 * (1.0 - share)
    given: Array = np.zeros((len(loads.bar), 12))
    for place, axis, weight in (
        (0, 0, 1.0 - share), (6, 0, share), (1, 1, near), (7, 1, far), (2, 2, near), (8, 2, far),
        (5, 1, lever_near), (11, 1, lever_far), (4, 2, -lever_near), (10, 2, -lever_far),
    ):  # fmt: skip
        given[:, place] = np.sum(weight * forces[:, :, axis], axis=1)
    return -loads.per_bar(given)


def _releases(model: FrameModel, stiff: Array) -> tuple[_Release, ...]:
    """Freed movements settle so that they carry nothing; a SolverError where that leaves a bar loose."""
    found = []
    for freed, bars in _patterns(model).items():
        free = list(freed)
        inner = stiff[np.ix_(bars, free, free)]
        scale = 1.0 / np.sqrt(np.einsum("bii->bi", inner))
        if np.linalg.cond(inner[0] * scale[0][:, None] * scale[0]) > _SPUN:
            name = model.bars[bars[0]].name
            raise SolverError(f"bar {name} is loose: its freed ends leave it nothing to hold by")
        found.append(_Release(bars, free, np.asarray(np.linalg.inv(inner), dtype=np.float64)))
    return tuple(found)


def _follow(releases: tuple[_Release, ...], stiff: Array) -> Array:
    """How a bar's end movements follow from its nodes' (bars, 12, 12): those that are not freed are the nodes'."""
    follow: Array = np.broadcast_to(np.eye(12), stiff.shape).copy()
    for release in releases:
        bars, free = release.bars, release.free
        rest = [place for place in range(12) if place not in free]
        follow[np.ix_(bars, free, range(12))] = 0.0
        follow[np.ix_(bars, free, rest)] = -release.inverse @ stiff[np.ix_(bars, free, rest)]
    return follow


def _own(releases: tuple[_Release, ...], held_ends: Array) -> Array:
    """How the freed ends of the bars move from the bars' own loads, (bars, 12)."""
    own: Array = np.zeros(held_ends.shape)
    for release in releases:
        bars, free = release.bars, release.free
        own[np.ix_(bars, free)] = -np.einsum("bij,bj->bi", release.inverse, held_ends[np.ix_(bars, free)])
    return own


def _patterns(model: FrameModel) -> dict[tuple[int, ...], list[int]]:
    """Bars by which of their twelve end movements are freed."""
    patterns: dict[tuple[int, ...], list[int]] = {}
    for number, bar in enumerate(model.bars):
        if bar.start_free or bar.end_free:
            strange = {*bar.start_free, *bar.end_free} - set(END_FREEDOMS)
            if strange:
                raise ImpossibleInput(f"bar {bar.name} cannot be freed in {', '.join(sorted(strange))}")
            start = [place for place, name in enumerate(END_FREEDOMS) if name in bar.start_free]
            end = [place + 6 for place, name in enumerate(END_FREEDOMS) if name in bar.end_free]
            patterns.setdefault((*start, *end), []).append(number)
    return patterns


def _place(numbers: FrameNumbers, node: str, direction: str) -> int:
    if direction not in DIRECTIONS:
        raise ImpossibleInput(f"a node has no direction called {direction}")
    return 6 * _known(numbers.node_number, "node", node) + DIRECTIONS.index(direction)


def _given(model: FrameModel, numbers: FrameNumbers) -> Array:
    """Node loads, one number per node direction."""
    loads = np.zeros(6 * len(model.nodes))
    for load in model.node_loads:
        start = _place(numbers, load.node, "x")
        loads[start : start + 6] += (*load.force, *load.moment)
    return loads


def _supported(model: FrameModel, numbers: FrameNumbers) -> tuple[Array, NDArray[np.bool_]]:
    """Springs and held directions, one number per node direction."""
    size = 6 * len(model.nodes)
    springs, held = np.zeros(size), np.zeros(size, dtype=bool)
    for spring in model.springs:
        if not spring.stiffness >= 0.0:
            raise ImpossibleInput(
                f"the spring at node {spring.node} cannot be of stiffness {spring.stiffness}"
            )
        springs[_place(numbers, spring.node, spring.direction)] += spring.stiffness
    for support in model.supports:
        held[[_place(numbers, support.node, direction) for direction in support.held]] = True
    return springs, held


def frame_parts(model: FrameModel) -> FrameParts:
    """Stiffness of a frame, assembled and factored, for any loads on it.

    Source: direct stiffness method, see `frame_sums`.
    Valid:  as `frame_sums`. A mechanism raises SolverError.
    """
    numbers = frame_numbers(model)
    stiff = _stiffness(numbers)
    releases = _releases(model, stiff)
    spin = np.zeros_like(stiff)
    for corner in range(0, 12, 3):
        spin[:, corner : corner + 3, corner : corner + 3] = numbers.turn
    lead = _follow(releases, stiff) @ spin
    place = (6 * numbers.ends[:, :, None] + np.arange(6)).reshape(-1, 12)
    springs, held = _supported(model, numbers)
    band = Band.of(numbers.ends, held, np.swapaxes(lead, 1, 2) @ stiff @ lead, springs)
    factor = band.factor()
    if factor is None:
        raise _mechanism(model, band.loosest(float(np.mean(numbers.lengths))))
    return FrameParts(model, numbers, stiff, releases, spin, lead, place, springs, held, band, factor)


def frame_sums(model: FrameModel, parts: FrameParts, loads: LineLoads) -> FrameSums:
    """Movements, reactions and bar end forces of a frame.

    Source: direct stiffness method, for example W. McGuire, R. Gallagher and R. Ziemian, Matrix Structural
            Analysis, 2nd edition (2000), chapters 4 and 5, known from memory.
    Valid:  small movements, slender bars, linear material.
    """
    place, lead, held = parts.place, parts.lead, parts.held
    held_ends = _held_ends(loads)
    given = _given(model, parts.numbers)
    size = len(given)
    push = given - gathered(place, np.einsum("bij,bj->bi", np.swapaxes(lead, 1, 2), held_ends), size)
    moves = parts.band.moves(parts.factor, push)
    end_moves = np.einsum("bij,bj->bi", lead, moves[place]) + _own(parts.releases, held_ends)
    end_forces = np.einsum("bij,bj->bi", parts.stiff, end_moves) + held_ends
    carried = gathered(place, np.einsum("bij,bi->bj", parts.spin, end_forces), size)
    left_over = carried + parts.springs * moves - given
    _refuse_imbalance(model, parts.numbers, np.where(held, 0.0, left_over), end_forces)
    reactions = np.where(held, left_over, -parts.springs * moves)
    return FrameSums(moves.reshape(-1, 6), reactions.reshape(-1, 6), end_moves, end_forces)


def _mechanism(model: FrameModel, place: int) -> SolverError:
    node, direction = model.nodes[place // 6].name, DIRECTIONS[place % 6]
    way = f"turn about {direction[1]}" if direction.startswith("r") else f"move along {direction}"
    return SolverError(f"the frame is loose: node {node} is free to {way}, nothing holds it")


def _refuse_imbalance(model: FrameModel, numbers: FrameNumbers, left_over: Array, end_forces: Array) -> None:
    """Forces that a free node does not pass on are an error of the solution, and said so."""
    forces = np.abs(end_forces.reshape(-1, 6))
    push = max(float(forces[:, :3].max()), 1e-6)
    bend = max(float(forces[:, 3:].max()), push * float(np.mean(numbers.lengths)))
    wrong = np.abs(left_over.reshape(-1, 6)) / np.array([push] * 3 + [bend] * 3)
    if not np.max(wrong) <= _OFF_BALANCE:
        node = model.nodes[int(np.argmax(wrong.max(axis=1)))].name
        why = "the frame is nearly loose, or has a bar far shorter than the rest"
        raise SolverError(f"the forces at node {node} do not balance: {why}")
