"""Circuits as lines of the network: what is full of water, and where it falls over a crest."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace

from tidestead.physics.flow.fittings import FittingLaw
from tidestead.physics.flow.laws import Law, Link, OutfallLaw, SeriesLaw
from tidestead.physics.flow.standpipes import StandpipeLaw
from tidestead.physics.flow.weirs import Comb, Weir, WeirLaw
from tidestead.plan.flow_fields import RouteItem
from tidestead.plan.model import Circuit, Plan, Port, Vessel
from tidestead.studies.flow.elements import STRAINER, Stock, Unknown, runs_of
from tidestead.studies.flow.facts import Line, Run
from tidestead.studies.flow.heights import floor_of, port_of

ENTRY = 0.5
"""Velocity heads lost at a square entry from a vessel into a pipe. Source: J. Weisbach, in any text."""

EXIT = 1.0
"""Velocity heads lost where a pipe ends in still water. Source: J. Borda, in any text."""

EDGE = 0.012
"""Thickness of an overflow's edge, where the plan is silent: a clear sheet. Common practice, no source."""

SLOT = 0.012
"""Width of the slots of a comb, where only their height is known. Common practice, no source."""


_ENTRIES, _EXITS = ("entry", "bulkhead", STRAINER), ("exit", "bulkhead")
"""Kinds of fittings that stand for the way into a line, and out of it."""


@dataclass(frozen=True)
class _Lip:
    """A crest: its level and the law over it."""

    level: float
    over: Law


def line_of(plan: Plan, key: str, circuit: Circuit, stock: Stock) -> Line:
    """The line of one circuit. Raises Unknown where something on its way cannot be reckoned."""
    runs = runs_of(plan, circuit.route, stock)
    start, end = port_of(plan, circuit.start), port_of(plan, circuit.end)
    links: list[Link] = []
    node = start[0] if start is not None else circuit.start
    lip: _Lip | None = None
    part: list[Run] = []
    if start is not None:
        node, lip = _leave(key, node, start, _bore(start[2], runs, stock), links)
        if start[2].kind != "weir" and runs and runs[0].kind not in _ENTRIES:
            runs = (_ending(runs[0], ENTRY, "entry"), *runs)
    if end is not None and runs and runs[-1].kind not in _EXITS:
        runs = (*runs, _ending(runs[-1], EXIT, "outlet"))
    for run in runs:
        if run.item.kind != "riser":
            part.append(run)
            continue
        node = _through(key, node, f"{key}~{len(links)}", part, lip, links)
        lip, part = _Lip(run.item.level, StandpipeLaw(run.bore)), []
    _arrive(plan, key, circuit, (node, lip, part), links)
    runs = tuple(run for run in runs if run.item.kind != "riser")
    one_way = any(run.checks for run in runs) or any(
        plan.pumps[run.item.name].check_valve for run in runs if run.item.kind == "pump"
    )
    named = tuple(
        replace(link, name=key if at == 0 else f"{key}/{at}", one_way=one_way)
        for at, link in enumerate(links)
    )
    lips = tuple(link.crest for link in named if link.over is not None)
    level = _level_of(start)
    return Line(key, circuit, named, runs, level, _level_of(end), lips)


def _level_of(found: tuple[str, Vessel, Port] | None) -> float | None:
    return None if found is None else floor_of(found[1]) + found[2].level


def _leave(
    key: str, node: str, start: tuple[str, Vessel, Port], bore: float, links: list[Link]
) -> tuple[str, _Lip | None]:
    """From the vessel into the line: freely over a weir, or over a standpipe's lip into its pipe."""
    vessel, port = start[1], start[2]
    level = floor_of(vessel) + port.level
    if port.kind == "weir":
        trough = f"{key}~trough"
        links.append(Link(key, node, trough, over=WeirLaw(weir_of(vessel, port)), crest=level))
        return trough, None
    if port.kind == "standpipe":
        if bore <= 0.0:
            raise Unknown(f"the bore of the standpipe is not known: put its pipe into circuits.{key}.route")
        return node, _Lip(level, StandpipeLaw(bore))
    return node, None


def _bore(port: Port, runs: tuple[Run, ...], stock: Stock) -> float:
    """Of a standpipe's lip: its own pipe, else the first of the line."""
    if port.size is not None:
        return stock.tables["pipes"][port.size].si("bore")
    return next((run.bore for run in runs if run.bore > 0.0), 0.0)


def weir_of(vessel: Vessel, port: Port) -> Weir:
    """The overflow edge of a port. Its wall is as wide as the vessel is across, so far as the plan says."""
    if port.length is None:
        raise Unknown("say how long the weir is")
    across = max(
        [side for side in (vessel.length, vessel.width, vessel.across) if side is not None],
        default=port.length,
    )
    comb = None
    if port.open < 1.0 and port.open > 0.0:
        slots = max(1, round(port.length * port.open / SLOT))
        height = port.teeth if port.teeth is not None else 10.0 * port.length
        comb = Comb(slots, port.length * port.open / slots, height)
    elif port.open <= 0.0:
        raise Unknown("the weir is shut by its own teeth")
    return Weir(port.length, max(port.level, 0.01), max(across, port.length), EDGE, comb)


def _ending(run: Run, k: float, words: str) -> Run:
    """The loss at a line's end, in the bore of the run beside it."""
    return Run(RouteItem("fitting", words, count=0), words, FittingLaw(k, run.bore), run.bore, 0.0)


def _through(key: str, node: str, to: str, part: list[Run], lip: _Lip | None, links: list[Link]) -> str:
    """Link from a node to the next through what lies between; over the lip it begins with, if any."""
    law = SeriesLaw(tuple(run.law for run in part)) if part else None
    if law is None and lip is None:
        return node
    over, crest = (lip.over, lip.level) if lip is not None else (None, 0.0)
    links.append(Link(key, node, to, law, over, crest))
    return to


def _arrive(
    plan: Plan, key: str, circuit: Circuit, so_far: tuple[str, _Lip | None, list[Run]], links: list[Link]
) -> None:
    """Into the end: under water with all its speed lost, over a free fall, or on at a junction."""
    node, lip, part = so_far
    found = port_of(plan, circuit.end)
    if found is None:
        _through(key, node, circuit.end, part or _short(key, lip), lip, links)
        return
    vessel_key, vessel, port = found
    if not part:
        if lip is None and not links:
            raise Unknown(f"nothing lies between its ends: give circuits.{key} a route")
        if lip is not None:
            _through(key, node, vessel_key, part, lip, links)
        else:
            links[-1] = replace(links[-1], end=vessel_key)
        return
    if not falls_free(vessel, port):
        _through(key, node, vessel_key, part, lip, links)
        return
    last = part.pop()
    fall = _through(key, node, f"{key}~fall", part, lip, links)
    links.append(Link(key, fall, vessel_key, over=OutfallLaw(last.law), crest=floor_of(vessel) + port.level))


def falls_free(vessel: Vessel, port: Port) -> bool:
    """Whether water falls into the vessel from above its surface."""
    return port.kind == "spill" or port.level > (vessel.water or 0.0)


def _short(key: str, lip: _Lip | None) -> list[Run]:
    if lip is None:
        raise Unknown(f"nothing lies between its ends: give circuits.{key} a route")
    return []


def with_laws(line: Line, laws: Mapping[int, Law]) -> Line:
    """The line with some laws changed for others, told by their `id`, in its items and in its links alike."""

    def other(law: Law) -> Law:
        if id(law) in laws:
            return laws[id(law)]
        if isinstance(law, SeriesLaw) and any(id(part) in laws for part in law.parts):
            return SeriesLaw(tuple(map(other, law.parts)))
        if isinstance(law, OutfallLaw) and id(law.resistance) in laws:
            return OutfallLaw(other(law.resistance))
        return law

    def relinked(link: Link) -> Link:
        through, over = (law if law is None else other(law) for law in (link.through, link.over))
        same = through is link.through and over is link.over
        return link if same else replace(link, through=through, over=over)

    runs = tuple(replace(run, law=laws[id(run.law)]) if id(run.law) in laws else run for run in line.runs)
    return replace(line, runs=runs, links=tuple(map(relinked, line.links)))
