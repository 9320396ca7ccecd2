"""Whether pumps, ports and circuits fit each other: names that exist, lines that join, curves that fall.

Whether the water then goes round is for the flow study. These work on what could be read, as `shape` does.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import islice
from typing import Any

from tidestead.catalog.rows import nearest
from tidestead.core.errors import Fault, QuantityError
from tidestead.core.units import Gallon
from tidestead.plan.fields import MOST_ITEMS
from tidestead.plan.flow_fields import NAMED_KINDS, RouteItem, read_item
from tidestead.plan.lines import Lines
from tidestead.plan.ports import IN_KINDS, OUT_KINDS, port_misfits
from tidestead.plan.pump_curves import curve_misfits
from tidestead.plan.seen import Misfit, Seen
from tidestead.plan.statements import Path, dotted

_TABLES = {"valve": "valves", "pump": "pumps", "apparatus": "apparatus"}
"""Where a plan describes the named things a route passes."""

_JUNCTION = "a place where pipes meet"


@dataclass(frozen=True)
class _Passed:
    """One item of a route and where it is written."""

    path: Path
    item: RouteItem


def circuit_faults(values: Mapping[str, Any], lines: Lines, gallon: Gallon) -> list[Fault]:
    """Every pump, port and circuit that does not fit the rest."""
    whole = Seen((), values, gallon)
    found = [*port_misfits(whole), *curve_misfits(whole), *_circuits(whole)]
    return [
        Fault(dotted(one.path), lines.line(one.path), lines.typed(one.path), one.allowed, one.advice)
        for one in found
    ]


def _circuits(whole: Seen) -> Iterator[Misfit]:
    circuits = list(islice(whole.parts("circuits"), MOST_ITEMS))
    routes = {key: _route(circuit) for key, circuit in circuits}
    for key, circuit in circuits:
        yield from _ends(whole, circuit)
        yield from _names(whole, routes[key])
        yield from _bores(whole, circuit, routes[key])
        yield from _one_pump(routes[key])
        yield from _in_one_vessel(circuit)
    yield from _pumped_risers(circuits, routes)
    yield from _valves(whole)
    yield from _twice(routes)
    yield from _shared_ports(circuits)
    yield from _junctions(whole, circuits)


def _route(circuit: Seen) -> list[_Passed]:
    """The items that could be read; the models tell of the others."""
    found = []
    items = circuit.values.get("route")
    for place, text in enumerate(items[:MOST_ITEMS] if isinstance(items, list) else []):
        try:
            item = read_item(text, circuit.gallon) if isinstance(text, str) else None
        except QuantityError:
            item = None
        if item is not None:
            found.append(_Passed((*circuit.path, "route", place), item))
    return found


def _ends(whole: Seen, circuit: Seen) -> Iterator[Misfit]:
    """Start and end name a port of the right kind, or a junction."""
    vessels = dict(whole.parts("vessels"))
    for side, kinds, does in (("start", OUT_KINDS, "leaves"), ("end", IN_KINDS, "comes in")):
        name = circuit.word(side)
        key, dot, port_name = name.partition(".")
        path = (*circuit.path, side)
        if not dot:
            if name in vessels:
                ports = [port for port, _ in vessels[name].parts("ports")]
                advice = f'Write "{name}.{ports[0]}".' if ports else f"Add [vessels.{name}.ports.NAME]."
                yield Misfit(path, "is a vessel; name one of its ports.", advice)
            continue
        if key not in vessels:
            yield Misfit(
                path, f"names no vessel; there is no vessel called {key[:40]}.", _close(key, vessels)
            )
            continue
        ports_of = dict(vessels[key].parts("ports"))
        if port_name not in ports_of:
            advice = _close(port_name, ports_of) or f"Add [vessels.{key}.ports.{port_name[:40]}]."
            yield Misfit(path, f"is not a port of {key}.", advice)
            continue
        kind = ports_of[port_name].word("kind")
        if kind and kind in (*IN_KINDS, *OUT_KINDS) and kind not in kinds:
            words = " or ".join(f'"{one}"' for one in kinds)
            yield Misfit(
                path, f"is of the kind {kind}, through which no water {does}.", f"It must be {words}."
            )


def _names(whole: Seen, route: list[_Passed]) -> Iterator[Misfit]:
    """Named things on the way are described somewhere."""
    for passed in route:
        if passed.item.kind not in NAMED_KINDS:
            continue
        table = _TABLES[passed.item.kind]
        known = dict(whole.parts(table))
        if passed.item.name not in known:
            close = _close(passed.item.name, known)
            advice = (
                f"{close} Else add [{table}.{passed.item.name}]."
                if close
                else f"Add [{table}.{passed.item.name}]."
            )
            yield Misfit(passed.path, f"names no {passed.item.kind} of this plan.", advice)


def _bores(whole: Seen, circuit: Seen, route: list[_Passed]) -> Iterator[Misfit]:
    """A fitting, a valve or a lip takes its bore from a pipe of its line."""
    typed = circuit.values.get("route")
    if any(
        isinstance(text, str) and text.startswith("pipe ")
        for text in (typed if isinstance(typed, list) else [])
    ):
        return
    valves = dict(whole.parts("valves"))
    for passed in route:
        sized = passed.item.kind == "valve" and valves.get(passed.item.name, Seen(())).has("size")
        if passed.item.kind in ("fitting", "valve", "riser") and not sized:
            advice = 'Put its pipe into the route, such as "pipe pvc40-2in 0.3 m".'
            yield Misfit(
                passed.path, "has no pipe before or after it, so that its bore is not known.", advice
            )


def _in_one_vessel(circuit: Seen) -> Iterator[Misfit]:
    """A loop that leaves a vessel and comes back to it needs a place on its way."""
    start, end = (circuit.word(side).partition(".") for side in ("start", "end"))
    if start[1] and end[1] and start[0] == end[0]:
        yield Misfit(
            (*circuit.path, "end"),
            f"is in the same vessel as the start, {start[0]}.",
            'Part the loop behind its pump: end this circuit at a junction, such as "loop", and start a second one '
            "there that comes back.",
        )


def _one_pump(route: list[_Passed]) -> Iterator[Misfit]:
    """A line has one pump: each is judged on a line of its own."""
    pumps = [passed for passed in route if passed.item.kind == "pump"]
    for second in pumps[1:]:
        yield Misfit(
            second.path,
            f"is the second pump of this circuit, behind pump {pumps[0].item.name}.",
            "Give each a circuit of its own: end this one at a junction before it, and start the next there.",
        )


def _pumped_risers(circuits: list[tuple[str, Seen]], routes: Mapping[str, list[_Passed]]) -> Iterator[Misfit]:
    """A riser is open to the air: in a line under a pump's pressure the water would run out of it."""
    driven = {key for key, route in routes.items() if any(passed.item.kind == "pump" for passed in route)}
    places = {circuit.word("end") for key, circuit in circuits if key in driven}
    while more := {key for key, circuit in circuits if circuit.word("start") in places} - driven:
        driven |= more
        places |= {circuit.word("end") for key, circuit in circuits if key in more}
    for key in routes:
        for passed in routes[key] if key in driven else ():
            if passed.item.kind == "riser":
                yield Misfit(
                    passed.path,
                    "is an open lip in a line that a pump drives: the water would run out there.",
                    'Take it out, and say how high the line goes with high_point = "1.4 m".',
                )


def _valves(whole: Seen) -> Iterator[Misfit]:
    """Keys that mean nothing for a kind of valve."""
    for _, valve in whole.parts("valves"):
        checks = valve.word("kind").startswith("check")
        key = "open" if checks else "cracking"
        if valve.word("kind") and valve.has(key) and not valve.word("kind").startswith("yours:"):
            words = "a check valve, which the water opens" if checks else "a valve that is not a check valve"
            yield Misfit((*valve.path, key), f"means nothing for {words}.", "Take it out.")


def _twice(routes: Mapping[str, list[_Passed]]) -> Iterator[Misfit]:
    """One pump, valve or apparatus stands in one place."""
    seen: dict[tuple[str, str], str] = {}
    for key, route in routes.items():
        for passed in route:
            if passed.item.kind not in NAMED_KINDS:
                continue
            before = seen.setdefault((passed.item.kind, passed.item.name), key)
            first = next(one for one in routes[before] if one.item == passed.item)
            if first is not passed:
                yield Misfit(
                    passed.path,
                    f"stands in circuit {before} already.",
                    f"One {passed.item.kind} is in one place: give the second a name of its own.",
                )


def _shared_ports(circuits: list[tuple[str, Seen]]) -> Iterator[Misfit]:
    """One hole carries one line."""
    for side in ("start", "end"):
        seen: dict[str, str] = {}
        for key, circuit in circuits:
            name = circuit.word(side)
            if "." in name and seen.setdefault(name, key) != key:
                advice = "Give each line a port of its own, or let them meet at a junction."
                yield Misfit((*circuit.path, side), f"is the {side} of circuit {seen[name]} too.", advice)


def _junctions(whole: Seen, circuits: list[tuple[str, Seen]]) -> Iterator[Misfit]:
    """Pipes that meet go on somewhere."""
    places: dict[str, dict[str, list[Path]]] = {}
    for _, circuit in circuits:
        for side in ("start", "end"):
            name = circuit.word(side)
            if name and "." not in name:
                places.setdefault(name, {"start": [], "end": []})[side].append((*circuit.path, side))
    outfalls = dict(whole.parts("outfalls"))
    for name, sides in places.items():
        if name in outfalls:
            for path in sides["start"]:
                yield Misfit(path, "is an outfall, from which no water comes.", "Start at a port.")
        elif not sides["start"] or not sides["end"]:
            yield _loose(name, places, outfalls)


def _loose(name: str, places: Mapping[str, dict[str, list[Path]]], outfalls: Mapping[str, Seen]) -> Misfit:
    """A place that pipes only lead to, or only leave. Meant may be one that lacks the other side, or an outfall."""
    ends = places[name]["end"]
    lacking = "start" if ends else "end"
    path = (ends or places[name]["start"])[0]
    own = {other for other in places for one in places[other][lacking] if one[:-1] == path[:-1]}
    meant = [other for other in places if other not in (name, *own) and places[other][lacking]]
    close = _close(name, [*meant, *(outfalls if ends else ())])
    if ends:
        advice = close or (
            f'Start another circuit at "{name}", end this one at a port, or add [outfalls.{name}] where it '
            "leaves the system."
        )
        return Misfit(path, f"is {_JUNCTION}, and no circuit goes on from it.", advice)
    advice = close or f'End another circuit at "{name}", or start this one at a port.'
    return Misfit(path, f"is {_JUNCTION}, and no circuit leads to it.", advice)


def _close(name: str, known: Any) -> str:
    found = nearest(name, list(known), 1)
    return f'Did you mean "{found[0]}"?' if found else ""
