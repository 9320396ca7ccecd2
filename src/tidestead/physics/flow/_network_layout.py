"""A network laid out in arrays: nodes and links in order of name, laws of one kind evaluated together.

Order of name makes the answer the same, to the last bit, however the elements are shuffled.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, fields
from typing import Any

import numpy as np
from numpy.typing import NDArray

from tidestead.core.dims import Array
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics.flow.fittings import FittingLaw
from tidestead.physics.flow.laws import DrowningLaw, Law, Link, SeriesLaw
from tidestead.physics.flow.pipes import HazenWilliamsLaw, PipeLaw

Indices = NDArray[np.intp]
Flags = NDArray[np.bool_]

TRICKLE = 1e-18
"""m3/s. Laws over a crest are never asked at less: their head may grow without bound from nothing."""

_STACKED = (PipeLaw, HazenWilliamsLaw, FittingLaw)
"""Laws whose fields are plain numbers: those of many links make one law with arrays for fields."""


def summed(places: Indices, amounts: Array | float, count: int) -> Array:
    """Amounts added up by place."""
    return np.asarray(np.bincount(places, amounts, count), dtype=float)


@dataclass(frozen=True)
class LawBook:
    """The laws of one side (through or over) of every link. Links without one have no head and no slope."""

    names: tuple[str, ...]
    stacked: tuple[tuple[Indices, Law], ...]
    single: tuple[tuple[int, Law], ...]

    def at(self, flows: Array) -> tuple[Array, Array]:
        """Heads and slopes of all links; SolverError where a law gives no number."""
        heads, slopes = np.zeros(len(flows)), np.zeros(len(flows))
        for places, law in self.stacked:
            found = law.at(flows[places])  # type: ignore[arg-type]  # laws broadcast; see core.dims
            heads += summed(places, found.head, len(flows))
            slopes += summed(places, found.slope, len(flows))
        for place, law in self.single:
            try:
                one = law.at(float(flows[place]))
            except SolverError as error:
                raise SolverError(f"{self.names[place]}: {error}") from error
            heads[place] += one.head
            slopes[place] += one.slope
        bad = np.flatnonzero(~(np.isfinite(heads) & np.isfinite(slopes)))
        if bad.size:
            at = int(bad[0])
            raise SolverError(f"{self.names[at]}: its law gives no head at {flows[at]:.6g} m3/s")
        return heads, slopes


def _book(names: tuple[str, ...], laws: Sequence[Law | None]) -> LawBook:
    gathered: dict[type, list[tuple[int, Law]]] = {}
    single: list[tuple[int, Law]] = []
    for place, law in enumerate(laws):
        for part in _parts(law):
            if isinstance(part, _STACKED):
                gathered.setdefault(type(part), []).append((place, part))
            else:
                single.append((place, part))
    stacked = tuple((np.array([place for place, _ in many]), _together(many)) for many in gathered.values())
    return LawBook(names, stacked, tuple(single))


def _parts(law: Law | None) -> Iterator[Law]:
    """The laws that stand in a row, those made of others opened up."""
    if isinstance(law, SeriesLaw):
        for part in law.parts:
            yield from _parts(part)
    elif law is not None:
        inner = getattr(law, "resistance", None)
        yield from (law,) if inner is None else _parts(inner)


def _together(many: Sequence[tuple[int, Law]]) -> Law:
    kind: Any = type(many[0][1])
    return kind(**{one.name: np.array([getattr(law, one.name) for _, law in many]) for one in fields(kind)})  # type: ignore[no-any-return]  # one of _STACKED


@dataclass(frozen=True)
class Layout:
    """A network in arrays. Nodes are counted from the free ones on, then the fixed ones.

    `closed` links let nothing pass. `heads` holds fixed heads, `supply` what enters at free nodes.
    `rows` and `columns` are the places of the links in the matrix of the balances of free nodes: by each link start
    by start, start by end, end by end, end by start, of which those in `inner` concern free nodes only.
    `opens_at` is the head through each link without flow, from which on it lets water pass. `drowning` are the laws
    over a crest, of links without a way through, that hold with water above the crest behind it; `drowns` marks them.
    """

    links: tuple[Link, ...]
    nodes: tuple[str, ...]
    free: int
    start: Indices
    end: Indices
    rows: Indices
    columns: Indices
    inner: Flags
    heads: Array
    supply: Array
    crest: Array
    has_through: Flags
    has_over: Flags
    one_way: Flags
    closed: Flags
    through: LawBook
    over: LawBook
    opens_at: Array
    drowning: tuple[tuple[int, DrowningLaw], ...]
    drowns: Flags


def lay_out(links: Sequence[Link], fixed: Mapping[str, float], injections: Mapping[str, float]) -> Layout:
    """Arrays for a network; ImpossibleInput where it is not one."""
    ordered = tuple(sorted(links, key=lambda link: link.name))
    touched = {node for link in ordered for node in (link.start, link.end)}
    _check_links(ordered)
    _check_levels(touched, fixed, injections)
    free = sorted(touched - fixed.keys())
    nodes = (*free, *sorted(fixed))
    number = {node: at for at, node in enumerate(nodes)}
    closed = np.array([_is_closed(link) for link in ordered])
    names = tuple(link.name for link in ordered)
    through = _book(
        names, [None if shut else link.through for link, shut in zip(ordered, closed, strict=True)]
    )
    over = _book(names, [None if shut else link.over for link, shut in zip(ordered, closed, strict=True)])
    start = np.array([number[link.start] for link in ordered])
    end = np.array([number[link.end] for link in ordered])
    rows, columns = np.concatenate([start, start, end, end]), np.concatenate([start, end, end, start])
    inner = (rows < len(free)) & (columns < len(free))
    drowning = tuple(
        (at, link.over)
        for at, link in enumerate(ordered)
        if link.through is None and isinstance(link.over, DrowningLaw) and not closed[at]
    )
    return Layout(
        links=ordered,
        nodes=nodes,
        free=len(free),
        start=start,
        end=end,
        rows=rows[inner],
        columns=columns[inner],
        inner=inner,
        heads=np.array([fixed[node] for node in nodes[len(free) :]], dtype=float),
        supply=np.array([injections.get(node, 0.0) for node in free], dtype=float),
        crest=np.array([link.crest for link in ordered], dtype=float),
        has_through=np.array([link.through is not None for link in ordered]) & ~closed,
        has_over=np.array([link.over is not None for link in ordered]) & ~closed,
        one_way=np.array([link.one_way for link in ordered]),
        closed=closed,
        through=through,
        over=over,
        opens_at=through.at(np.zeros(len(ordered)))[0],
        drowning=drowning,
        drowns=np.isin(np.arange(len(ordered)), [at for at, _ in drowning]),
    )


def _is_closed(link: Link) -> bool:
    """Whether an element lets nothing pass: of a way through and one over a crest the narrower counts."""
    parts = [part for law in (link.through, link.over) for part in _parts(law)]
    return any(math.isinf(part.at(TRICKLE).slope) for part in parts if not isinstance(part, _STACKED))


def _check_links(links: Sequence[Link]) -> None:
    names = [link.name for link in links]
    twice = sorted({name for name in names if names.count(name) > 1}) if len(set(names)) < len(names) else []
    if twice:
        raise ImpossibleInput(f"two elements are named {twice[0]}")
    for link in links:
        if link.through is None and link.over is None:
            raise ImpossibleInput(f"{link.name} has neither a law through it nor one over its crest")
        if link.start == link.end:
            raise ImpossibleInput(f"{link.name} starts and ends at {link.start}")
        if not math.isfinite(link.crest):
            raise ImpossibleInput(f"{link.name}: its crest must be a finite level, got {link.crest}")


def _check_levels(touched: set[str], fixed: Mapping[str, float], injections: Mapping[str, float]) -> None:
    for what, given in (("level", fixed), ("inflow", injections)):
        for node, value in given.items():
            if node not in touched:
                raise ImpossibleInput(f"{what} given at {node}, which no element touches")
            if not math.isfinite(value):
                raise ImpossibleInput(f"{what} at {node} must be a finite number, got {value}")
    both = sorted(fixed.keys() & {node for node, value in injections.items() if value})
    if both:
        raise ImpossibleInput(f"{both[0]} has a fixed level, which takes any inflow: give one of the two")
