"""Shutting off: for every pump, valve, apparatus, bulkhead and vessel, what to shut, what to stop, what is lost."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field

from tidestead.physics.flow.isolation import Feed, Isolation, fed_by, isolation, vessel_isolation
from tidestead.plan.model import Plan
from tidestead.studies.flow.drain_checks import LEAST
from tidestead.studies.flow.facts import Line, Running
from tidestead.studies.flow.gravity import gravity_lines
from tidestead.studies.flow.heights import brim_of, place_of
from tidestead.studies.flow.levels_told import SPARE
from tidestead.studies.flow.overflows import overflow_facts, span_over
from tidestead.studies.flow.pipework import Part, Pipework, pipework
from tidestead.studies.flow.solving import Trial, all_tried

CROWDED = 1.2
"""A vessel that would get so many times its flow of today has drains nobody tried: its pumps stop too. Common practice,
no source."""

MORE = 1.01
"""A vessel that gets no more than so many times its flow of today passes it as today. Common practice, no source."""

_SEEN = 1e-3
"""Rise of a level that counts, metres."""


@dataclass(frozen=True)
class ShutFacts:
    """What taking out one part takes.

    `shut` are valves and `off` pumps: those that would draw from or push against what is shut, or feed the part.
    `first` are vessels that still give what stands above their lips, with the level it ends at: wait for that.
    `falls` are vessels that no valve holds, and the levels to which they run out. `lost` is what comes out of pipes
    and vessels; `remains` the share of the displays' inflow that still runs, None where it cannot be told.
    """

    kind: str
    name: str
    shut: tuple[str, ...]
    off: tuple[str, ...]
    first: tuple[tuple[str, float], ...]
    falls: tuple[tuple[str, float], ...]
    lost: float
    remains: float | None

    @property
    def words(self) -> str:
        return f"{self.kind} {self.name}"

    @property
    def dry(self) -> bool:
        """Whether no vessel has to be drained for it."""
        return not self.falls


def shut_facts(
    plan: Plan,
    laid: tuple[tuple[Line, ...], tuple[Line, ...]],
    fixed: Mapping[str, float],
    running: Running,
) -> tuple[ShutFacts, ...]:
    """Every part worth taking out. `laid` are the lines that run, and those that are shut and lead out."""
    lines, outs = laid
    work = pipework(plan, (*lines, *outs), running)
    left = _Left(plan, lines, fixed, running)
    cuts = [
        ((part.kind, part.name), isolation(work.pieces, work.waters, name))
        for name, part in work.parts.items()
    ]
    cuts += [(("vessel", key), vessel_isolation(work.pieces, work.waters, key)) for key in work.waters]
    sections = [_section(work, left, named, cut) for named, cut in cuts]
    left.try_without([section.gone for section in sections])
    found = [
        _fact(work, left, (named, section), cut) for (named, cut), section in zip(cuts, sections, strict=True)
    ]
    order = {kind: at for at, kind in enumerate(("pump", "valve", "check valve", "apparatus", "bulkhead"))}
    return tuple(sorted(found, key=lambda one: order.get(one.kind, len(order))))


@dataclass(frozen=True)
class _Section:
    """What would bring water to a part, the valves that hold it, and the lines that stand still without it."""

    feed: Feed
    valves: tuple[str, ...]
    gone: frozenset[str]


def _section(work: Pipework, left: _Left, named: tuple[str, str], cut: Isolation) -> _Section:
    kind, name = named
    feed = fed_by(work.pieces, work.lips, work.waters, _met(work, kind, name, cut))
    valves = tuple(dict.fromkeys((*cut.valves, *feed.valves)))
    gone = {work.owner[piece] for piece in (*cut.section, *valves, *feed.pumps) if piece in work.owner}
    gone |= left.touching(name) if kind == "vessel" else set()
    return _Section(feed, valves, frozenset(gone))


def _fact(work: Pipework, left: _Left, part: tuple[tuple[str, str], _Section], cut: Isolation) -> ShutFacts:
    """One part: the valves of its section, and whatever else would bring water to it."""
    (kind, name), section = part
    feed, valves = section.feed, section.valves
    lines, remains = left.without(section.gone)
    driven = {line.pump for line in lines}
    off = tuple(line.pump for line in left.lines if line.pump is not None and line.pump not in driven)
    falls = tuple(zip(cut.drains, cut.down_to, strict=True))
    needed = [valve for valve in valves if valve in cut.valves or _lets_in(work, valve, set(off))]
    shut = tuple(work.parts[valve].name for valve in needed if work.parts[valve] != Part(kind, name))
    return ShutFacts(kind, name, shut, off, _first(feed, name, cut), falls, cut.lost, remains)


def _lets_in(work: Pipework, valve: str, off: set[str]) -> bool:
    """Whether water could still come to a valve: from an open water, or from a pump that is not switched off."""
    queue = [piece.start for piece in work.pieces if piece.name == valve]
    seen = set(queue)
    while queue:
        place = queue.pop()
        if place in work.waters:
            return True
        back = [lip.source for lip in work.lips if lip.place == place]
        for piece in work.pieces:
            if piece.end == place and not (piece.kind == "pump" and work.parts[piece.name].name in off):
                back.append(piece.start)
        queue += [one for one in back if one not in seen]
        seen.update(back)
    return False


def _met(work: Pipework, kind: str, name: str, cut: Isolation) -> list[str]:
    """Places that water must no longer come to: lips into the section, vessels that would run out, the vessel."""
    inside = set(cut.section)
    ends = {place for piece in work.pieces if piece.name in inside for place in (piece.start, piece.end)}
    lipped = [lip.place for lip in work.lips if lip.place in ends and lip.place not in work.waters]
    return [*([name] if kind == "vessel" else []), *cut.drains, *lipped]


def _first(feed: Feed, name: str, cut: Isolation) -> tuple[tuple[str, float], ...]:
    """Vessels that run down to their lips first; those that drain anyway are told there."""
    return tuple((key, level) for key, level in feed.vessels if key != name and key not in cut.drains)


@dataclass
class _Left:
    """What still runs without some lines; each set of lines is solved once."""

    plan: Plan
    lines: tuple[Line, ...]
    fixed: Mapping[str, float]
    running: Running
    known: dict[frozenset[str], tuple[tuple[Line, ...], float | None]] = field(default_factory=dict)
    solved: dict[frozenset[str], Running | None] = field(default_factory=dict)

    def touching(self, vessel: str) -> set[str]:
        """Lines that begin or end at a vessel."""
        ends = ((line.key, (line.circuit.start, line.circuit.end)) for line in self.lines)
        return {key for key, names in ends if vessel in [place_of(self.plan, name) for name in names]}

    def without(self, gone: frozenset[str]) -> tuple[tuple[Line, ...], float | None]:
        """The lines that may go on, and the share of the displays' inflow they carry.

        Lines that would push against something shut, draw from nothing, or fill a vessel with no way out go too;
        so do pumps that would fill a vessel close to its brim, now or with one drain blocked, or send it much more
        than today.
        """
        lines = _pruned(self.plan, [line for line in self.lines if line.key not in gone], self.fixed)
        key = _keys(lines)
        if key not in self.known:
            self.known[key] = self._settled(lines)
        return self.known[key]

    def _settled(self, lines: list[Line]) -> tuple[tuple[Line, ...], float | None]:
        while _driven(lines):
            running = self.running if len(lines) == len(self.lines) else self._tried(lines)
            if running is None:
                return (), 0.0
            over = [key for key in running.levels if self._crowds(key, running)]
            over = over or [key for key in running.levels if self._floods(key, lines, running)]
            stopped = {line.key for key in over for line in _pumps_to(self.plan, lines, key)}
            if not stopped:
                return tuple(lines), self._share(running)
            lines = _pruned(self.plan, [line for line in lines if line.key not in stopped], self.fixed)
        return (), 0.0

    def _tried(self, lines: Sequence[Line]) -> Running | None:
        """What some of the lines do alone."""
        self._try_all([lines])
        return self.solved[_keys(lines)]

    def try_without(self, some: Iterable[frozenset[str]]) -> None:
        """What runs on without each of some sets of lines, all solved at once."""
        left = [
            _pruned(self.plan, [line for line in self.lines if line.key not in gone], self.fixed)
            for gone in some
        ]
        self._try_all([lines for lines in left if len(lines) < len(self.lines) and _driven(lines)])

    def _try_all(self, some: Iterable[Sequence[Line]]) -> None:
        new = {key: lines for lines in some if (key := _keys(lines)) not in self.solved}
        trials = [Trial(lines, self.fixed, self.running.state) for lines in new.values()]
        self.solved |= dict(zip(new, all_tried(self.plan, trials), strict=True))

    def _crowds(self, key: str, running: Running) -> bool:
        """Whether a vessel would come closer to its brim than in service, or get much more water than today."""
        if key in self.fixed:
            return False
        full = brim_of(self.plan.vessels[key]) - SPARE
        rises = running.levels[key] > full and running.levels[key] > self.running.levels[key] + _SEEN
        return rises or running.inflow.get(key, 0.0) > CROWDED * self.running.inflow.get(key, 0.0)

    def _floods(self, key: str, lines: Sequence[Line], running: Running) -> bool:
        """Whether a vessel that gets more than today could not pass it with one of its drains blocked.

        One with a single drain is not asked: what blocks that has nothing to do with how much comes.
        """
        more = running.inflow.get(key, 0.0) > MORE * self.running.inflow.get(key, 0.0)
        ways = gravity_lines(self.plan, tuple(lines), key) if more and key not in self.fixed else ()
        left = [tuple(line for line in lines if line is not way) for way in ways]
        if len(ways) < 2:
            return False
        self._try_all(left)
        return any(self._spills(some) for some in left)

    def _spills(self, left: tuple[Line, ...]) -> bool:
        """Whether a vessel comes to its brim with some lines left, by the range of the head over its crest."""
        running = self._tried(left)
        if running is None:
            return True
        over = overflow_facts(self.plan, left, running)
        return any(
            level > self.running.levels[key] + _SEEN
            and level + span_over(left, running, over, key)[1] > brim_of(self.plan.vessels[key]) - LEAST
            for key, level in running.levels.items()
            if key not in self.fixed
        )

    def _share(self, running: Running) -> float | None:
        targets = _targets(self.plan, self.running)
        whole = sum(self.running.inflow.get(key, 0.0) for key in targets)
        if whole <= 0.0:
            return None
        return sum(running.inflow.get(key, 0.0) for key in targets) / whole


def _keys(lines: Iterable[Line]) -> frozenset[str]:
    return frozenset(line.key for line in lines)


def _driven(lines: Iterable[Line]) -> bool:
    """Whether a pump stands in one of them."""
    return any(line.pump is not None for line in lines)


def _targets(plan: Plan, running: Running) -> list[str]:
    """Displays; without one, all vessels but the sumps."""
    shown = [key for key in running.inflow if plan.vessels[key].role == "display"]
    return shown or [key for key in running.inflow if plan.vessels[key].role != "sump"]


def _pumps_to(plan: Plan, lines: Sequence[Line], key: str) -> list[Line]:
    """Pumped lines whose water comes to a vessel, directly or through others."""
    found: list[Line] = []
    queue, seen = [key], {key}
    while queue:
        place = queue.pop()
        for line in lines:
            if place_of(plan, line.circuit.end) != place:
                continue
            start = place_of(plan, line.circuit.start)
            if line.pump is not None:
                found.append(line)
            elif start not in seen:
                seen.add(start)
                queue.append(start)
    return found


def _pruned(plan: Plan, lines: list[Line], fixed: Mapping[str, float]) -> list[Line]:
    """Lines without those that have become dead ends or would fill a vessel with no way out."""
    while True:
        starts = {place_of(plan, line.circuit.start) for line in lines} | set(fixed)
        ends = {place_of(plan, line.circuit.end) for line in lines} | set(fixed)
        kept = [
            line
            for line in lines
            if place_of(plan, line.circuit.end) in starts and place_of(plan, line.circuit.start) in ends
        ]
        if len(kept) == len(lines):
            return kept
        lines = kept
