"""Moves for the water's way and for a fractionator: pipes, drains, weirs, valves, pumps, levels, necks, air."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from typing import Any

from tidestead.catalog import table
from tidestead.plan.edits import Edit
from tidestead.plan.forms import words_of_key
from tidestead.trials.moves.rows import Row, one_key, one_move
from tidestead.trials.moves.sizes import DOWN, UP, lengths, shares
from tidestead.trials.remedy import Ladder, Move
from tidestead.trials.said import Asked

PIPE = re.compile(r"pipe (\S+) (.+)")
NAME = r"(?P<name>[^.]+)"
VESSEL = r"(?P<vessel>[^.]+)"


def _beside(pipe: str, *, wider: bool) -> list[str]:
    """The next pipes of the same make, the nearest bore first."""
    rows = table("pipes").rows
    if pipe not in rows:
        return []
    now = rows[pipe]
    make = pipe.split("-", 1)[0]
    same = [
        row
        for row in rows.values()
        if row.tag("kind") == now.tag("kind") and row.name.split("-", 1)[0] == make
    ]
    fits = [
        row for row in same if (row.si("bore") > now.si("bore") if wider else row.si("bore") < now.si("bore"))
    ]
    fits.sort(key=lambda row: row.si("bore"), reverse=not wider)
    return [row.name for row in fits[:3]]


def wider_pipes(asked: Asked, key: str) -> list[Ladder]:
    """Every pipe of a line wider; the key is that of the line."""
    return _resized(asked, key, wider=True)


def narrower_pipes(asked: Asked, key: str) -> list[Ladder]:
    """Every pipe of a line narrower, and the widest of them alone."""
    return _resized(asked, key, wider=False)


def _resized(asked: Asked, key: str, *, wider: bool) -> list[Ladder]:
    route = asked.said.raw(f"{key}.route")
    if not isinstance(route, list):
        return []
    pipes = list(dict.fromkeys(found[1] for item in route if (found := PIPE.fullmatch(item))))
    ladders: list[Ladder] = []
    for names in dict.fromkeys((*((pipe,) for pipe in pipes), tuple(pipes))):
        steps = [_beside(name, wider=wider) for name in names]
        rungs = []
        for at in range(min(map(len, steps), default=0)):
            new = dict(zip(names, (step[at] for step in steps), strict=True))
            swaps = ", ".join(f"{to} for {was}" for was, to in new.items())
            edit = Edit(f"{key}.route", _with_pipes(route, new))
            rungs.append(Move(f"{words_of_key(key)}: pipe {swaps}", (edit,)))
        ladders += [Ladder(f"{key}: {', '.join(names)}", tuple(rungs))] if rungs else []
    return ladders


def _with_pipes(route: list[str], new: Mapping[str, str]) -> list[str]:
    return [
        f"pipe {new[found[1]]} {found[2]}" if (found := PIPE.fullmatch(item)) and found[1] in new else item
        for item in route
    ]


def valves_further(asked: Asked, key: str) -> list[Ladder]:
    """The valves of a line further open; the key is that of the line."""
    return _valves(asked, key, (1.25, 1.5, 2.0, 3.0))


def valves_less(asked: Asked, key: str) -> list[Ladder]:
    """The valves of a line less open."""
    return _valves(asked, key, DOWN)


def _valves(asked: Asked, key: str, factors: tuple[float, ...]) -> list[Ladder]:
    route = asked.said.raw(f"{key}.route") or []
    found: list[Ladder] = []
    for item in route:
        if item.startswith("valve "):
            name = f"valves.{item.split()[1]}.open"
            found += shares(factors, most=100.0)(asked, name)
    return found


def lines_of_pump(asked: Asked, key: str) -> list[str]:
    """The lines that a pump stands in."""
    pump = f"pump {key.split('.')[1]}"
    circuits: Mapping[str, Any] = asked.said.raw("circuits") or {}
    return [f"circuits.{name}" for name, line in circuits.items() if pump in line.get("route", ())]


def lower_suction(asked: Asked, key: str) -> list[Ladder]:
    """The port that a pump draws from set lower, or its first pipe wider."""
    found: list[Ladder] = []
    for line in lines_of_pump(asked, key):
        vessel, _, port = asked.said.text(f"{line}.start").partition(".")
        if port:
            lower = lengths((-1.0, -1.5, -2.0, -3.0), (-25.0, -40.0, -60.0, -90.0), least=0.03)
            found += lower(asked, f"vessels.{vessel}.ports.{port}.level")
        found += wider_pipes(asked, line)
    return found


def pump_lines(asked: Asked, key: str) -> Iterable[Ladder]:
    """Valves further open and wider pipes in the lines of a pump."""
    return [
        one
        for line in lines_of_pump(asked, key)
        for one in (*valves_further(asked, line), *wider_pipes(asked, line))
    ]


def all_valves(asked: Asked, key: str) -> list[Ladder]:
    """Any valve further open; the key is the table of lines."""
    return [one for name in asked.said.names(key) for one in valves_further(asked, f"{key}.{name}")]


def second_drain(asked: Asked, key: str) -> list[Ladder]:
    """Each way out of a vessel by overflow once more beside the first, with a line and a port like its own."""
    ports = asked.said.raw(f"{key}.ports") or {}
    vessel = key.split(".")[1]
    found: list[Ladder] = []
    for name, port in ports.items():
        if port.get("kind") in ("standpipe", "siphon", "weir"):
            found += _drain_again(asked, vessel, name)
    return found


def _drain_again(asked: Asked, vessel: str, port: str) -> list[Ladder]:
    said, start = asked.said, f"{vessel}.{port}"
    lines = [name for name in said.names("circuits") if said.text(f"circuits.{name}.start") == start]
    if len(lines) != 1:
        return []
    line = lines[0]
    circuit = dict(said.raw(f"circuits.{line}"))
    if any(item.startswith(("valve ", "pump ", "apparatus ")) for item in circuit.get("route", ())):
        return []
    edits = [
        Edit(
            f"vessels.{start.replace('.', '.ports.')}_again", dict(said.raw(f"vessels.{vessel}.ports.{port}"))
        )
    ]
    circuit["start"] = f"{start}_again"
    into, _, end = circuit.get("end", "").partition(".")
    landing = said.raw(f"vessels.{into}.ports.{end}")
    if landing is None:
        return []
    circuit["end"] = f"{into}.{end}_again"
    edits += [
        Edit(f"vessels.{into}.ports.{end}_again", dict(landing)),
        Edit(f"circuits.{line}_again", circuit),
    ]
    return one_move(f"{start}: again", f"Vessel {vessel}: a second {port} with a line like {line}", edits)


def wider_drains(asked: Asked, key: str) -> list[Ladder]:
    """Wider pipes in the lines that leave a vessel by overflow, and wider lips."""
    said, vessel = asked.said, key.split(".")[1]
    found: list[Ladder] = []
    for name in said.names("circuits"):
        owner, _, port = said.text(f"circuits.{name}.start").partition(".")
        if owner == vessel and said.text(f"vessels.{vessel}.ports.{port}.kind") in (
            "standpipe",
            "siphon",
            "weir",
        ):
            found += wider_pipes(asked, f"circuits.{name}")
            size = f"vessels.{vessel}.ports.{port}.size"
            found += one_key(asked, size, _beside(said.text(size), wider=True))
    return found


def longer_weirs(asked: Asked, key: str) -> list[Ladder]:
    """The weirs of a vessel longer."""
    ports = asked.said.raw(f"{key}.ports") or {}
    weirs = [name for name, port in ports.items() if port.get("kind") == "weir"]
    return [
        one
        for name in weirs
        for one in lengths((3, 6, 12, 18, 24), (100, 200, 300, 500, 700))(asked, f"{key}.ports.{name}.length")
    ]


HIGHER = lengths((0.5, 1.0, 2.0, 3.0, 4.0), (10.0, 25.0, 50.0, 75.0, 100.0))
LOWER = lengths((-0.5, -1.0, -2.0, -3.0), (-10.0, -25.0, -50.0, -75.0), least=0.01)
NECK_WIDER = lengths((1.0, 2.0, 3.0, 4.0, 6.0), (20.0, 40.0, 60.0, 100.0, 150.0))
NECK_NARROWER = lengths((-1.0, -2.0, -3.0, -4.0), (-20.0, -40.0, -60.0, -100.0), least=0.05)
SPILLS = rf"flow\.{VESSEL}\.(?:freeboard|level|drains\.[^.]+|comb\.[a-z]+)"
FOAM = rf"foam\.{VESSEL}"

FLOW_ROWS = (
    Row(rf"flow\.circuits\.{NAME}\.clean", "circuits.{name}", narrower_pipes, 2.0),
    Row(rf"flow\.circuits\.{NAME}\.clean", "circuits", all_valves, 1.0),
    Row(rf"flow\.circuits\.{NAME}\.(?:velocity|suction|stack)", "circuits.{name}", wider_pipes, 2.0),
    Row(rf"flow\.circuits\.{NAME}\.velocity", "circuits.{name}", valves_less, 1.0),
    Row(rf"flow\.pumps\.{NAME}\.(?:cover|npsh)", "pumps.{name}", lower_suction, 2.0),
    Row(rf"flow\.pumps\.{NAME}\.(?:curve|delivers)", "pumps.{name}", pump_lines, 1.0),
    Row(rf"flow\.pumps\.{NAME}\.[a-z]+(?:\.half_blocked)?", "pumps.{name}.speed", shares(DOWN), 1.0),
    Row(rf"flow\.{VESSEL}\.turnover", "circuits", all_valves, 1.0),
    Row(SPILLS, "vessels.{vessel}", longer_weirs, 2.0),
    Row(SPILLS, "vessels.{vessel}", wider_drains, 3.0),
    Row(SPILLS, "vessels.{vessel}", second_drain, 5.0),
    Row(rf"flow\.{VESSEL}\.(?:runback|restart)(?:\.[a-z]+)?", "vessels.{vessel}.water", LOWER, 2.0),
    Row(rf"flow\.{VESSEL}\.(?:runback|freeboard)(?:\.[a-z]+)?", "vessels.{vessel}.height", HIGHER, 6.0),
    Row(
        rf"flow\.{VESSEL}\.{NAME}\.siphon_break",
        "vessels.{vessel}.ports.{name}.siphon_break.level",
        HIGHER,
        1.0,
    ),
    Row(
        rf"flow\.{VESSEL}\.{NAME}\.bulkhead\.[a-z]+",
        "vessels.{vessel}.ports.{name}.bulkhead.from_left",
        HIGHER,
        1.0,
    ),
    Row(rf"flow\.{VESSEL}\.{NAME}\.bulkhead\.[a-z]+", "vessels.{vessel}.ports.{name}.level", HIGHER, 1.0),
    Row(
        rf"flow\.{VESSEL}\.top_off\.(?:freshens|floods)", "vessels.{vessel}.top_off.stock", shares(DOWN), 1.0
    ),
    Row(rf"flow\.{VESSEL}\.top_off\.keeps_up", "vessels.{vessel}.top_off.flow", shares(UP), 1.0),
    Row(rf"flow\.apparatus\.{NAME}\.dose", "apparatus.{name}.uvc", shares(UP), 3.0),
)

FOAM_ROWS = (
    Row(FOAM + r"\.(?:air|contact|clean_up|way)", "vessels.{vessel}.air.flow", shares(UP), 2.0),
    Row(
        FOAM + r"\.(?:flooding|carry_under|outlet|neck|lifted)",
        "vessels.{vessel}.air.flow",
        shares(DOWN),
        1.0,
    ),
    Row(FOAM + r"\.neck", "vessels.{vessel}.cone.neck", NECK_WIDER, 3.0),
    Row(FOAM + r"\.neck", "vessels.{vessel}.cone.neck", NECK_NARROWER, 3.0),
    Row(FOAM + r"\.(?:throughput|contact|clean_up|flooding)", "circuits", all_valves, 1.0),
    Row(FOAM + r"\.(?:contact|way)", "vessels.{vessel}.water", HIGHER, 4.0),
)
