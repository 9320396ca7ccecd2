"""A network laid out in arrays: nodes and links in order of name, laws of one kind evaluated together.

Order of name makes the answer the same, to the last bit, however the elements are shuffled.
"""

from __future__ import annotations

import math
from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, fields
from functools import cached_property
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

_FIRST = 1e-3
"""m3/s at which every law is first asked."""

OPENING_HEAD = 0.1
"""m. Head for which the flow of a link is first guessed."""

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
        if not math.isfinite(float(heads.sum() + slopes.sum())):
            self._refuse(flows, heads, slopes)
        return heads, slopes

    def _refuse(self, flows: Array, heads: Array, slopes: Array) -> None:
        bad = np.flatnonzero(~(np.isfinite(heads) & np.isfinite(slopes)))
        if bad.size:
            at = int(bad[0])
            raise SolverError(f"{self.names[at]}: its law gives no head at {flows[at]:.6g} m3/s")


Parts = Sequence[tuple[Law, ...]]
"""By link the laws that stand in a row in it."""


def _book(names: tuple[str, ...], laws: Parts, links: Collection[int]) -> LawBook:
    """The laws of some of the links."""
    gathered: dict[type, list[tuple[int, Law]]] = {}
    single: list[tuple[int, Law]] = []
    for place, parts in enumerate(laws):
        for part in parts if place in links else ():
            if isinstance(part, _STACKED):
                gathered.setdefault(type(part), []).append((place, part))
            else:
                single.append((place, part))
    stacked = tuple((np.array([place for place, _ in many]), _together(many)) for many in gathered.values())
    return LawBook(names, stacked, tuple(single))


def _parts(law: Law | None) -> Iterator[Law]:
    """The laws that stand in a row, those made of others opened up."""
    if isinstance(law, _STACKED):
        yield law
    elif isinstance(law, SeriesLaw):
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
    `both` marks links with either way, whose laws alone are in `both_through` and `both_over`.
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
    both: Flags
    both_through: LawBook
    both_over: LawBook

    @cached_property
    def likely(self) -> Array:
        """Flows that lose about a tenth of a metre."""
        flows = np.full(len(self.links), _FIRST)
        for _ in range(2):
            head = np.abs(self.through.at(flows)[0] + self.over.at(flows)[0])
            flows = flows * np.clip(np.sqrt(OPENING_HEAD / np.maximum(head, 1e-12)), 0.02, 10.0)
        likely: Array = np.abs(flows)
        return likely


def lay_out(links: Sequence[Link], fixed: Mapping[str, float], injections: Mapping[str, float]) -> Layout:
    """Arrays for a network; ImpossibleInput where it is not one."""
    ordered = tuple(sorted(links, key=lambda link: link.name))
    touched = {node for link in ordered for node in (link.start, link.end)}
    _check_links(ordered)
    _check_levels(touched, fixed, injections)
    free = sorted(touched - fixed.keys())
    nodes = (*free, *sorted(fixed))
    number = {node: at for at, node in enumerate(nodes)}
    ways = [link.through for link in ordered], [link.over for link in ordered]
    parts = [[tuple(_parts(law)) for law in laws] for laws in ways]
    shut = [_is_closed((*one, *other)) for one, other in zip(*parts, strict=True)]
    closed = np.array(shut)
    names = tuple(link.name for link in ordered)
    open_links = {at for at, one in enumerate(shut) if not one}
    through, over = (_book(names, laws, open_links) for laws in parts)
    has_through, has_over = (np.array([law is not None for law in laws]) & ~closed for laws in ways)
    both = has_through & has_over
    both_through, both_over = (_book(names, laws, set(np.flatnonzero(both).tolist())) for laws in parts)
    start = np.array([number[link.start] for link in ordered])
    end = np.array([number[link.end] for link in ordered])
    rows, columns = np.concatenate([start, start, end, end]), np.concatenate([start, end, end, start])
    inner = (rows < len(free)) & (columns < len(free))
    drowning = tuple(_drowning(ordered, open_links))
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
        has_through=has_through,
        has_over=has_over,
        one_way=np.array([link.one_way for link in ordered]),
        closed=closed,
        through=through,
        over=over,
        opens_at=through.at(np.zeros(len(ordered)))[0],
        drowning=drowning,
        drowns=np.isin(np.arange(len(ordered)), [at for at, _ in drowning]),
        both=both,
        both_through=both_through,
        both_over=both_over,
    )


def _drowning(links: Sequence[Link], places: Collection[int]) -> Iterator[tuple[int, DrowningLaw]]:
    """Links without a way through whose law holds with water above the crest behind it, those that are not closed."""
    for at, link in enumerate(links):
        if link.through is None and isinstance(link.over, DrowningLaw) and at in places:
            yield at, link.over


def _is_closed(parts: Iterable[Law]) -> bool:
    """Whether an element lets nothing pass: of a way through and one over a crest the narrower counts."""
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
