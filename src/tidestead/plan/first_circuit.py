"""How the water of a first plan goes round: sump, pump, an overflow and a spare drain, out of the answers."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import chain

from tidestead.core.units import System
from tidestead.plan.editing import Value
from tidestead.plan.first_lines import Line, answer, assumed, assumed_value, derived, typed
from tidestead.plan.first_said import Said
from tidestead.plan.first_sizes import rounded
from tidestead.plan.first_vessel import VESSEL, brim_of

_NOTHING: dict[System, tuple[str, str]] = {"metric": ("0 m3/h", "0 m"), "us": ("0 US gal/h", "0 ft")}
"""Flow and head of the two ends of a pump's curve."""
_UNDER_WATER, _DEEPER, _BREAK = 0.015, 0.040, 0.010
"""Metres: crest of the weir under the water, mouth of the inlet under it, its siphon break. Own choice."""
_BREAK_HOLE: dict[System, str] = {"metric": "8 mm", "us": "5/16 in"}
_WEIR_SHARE = 1.0 / 3.0
_SUCTION, _HIGHEST_SUCTION = 0.25, 0.06
"""Middle of the suction over the sump's floor: share of its water, and metres at most. Own choice."""
_FALLS = 0.6
"""Share of the room over the sump's water at which drains end. Own choice."""
_SPARE = 0.25
"""Share of the way from the water to the brim at which the spare drain begins to take water. Own choice."""
_SUMP = "vessels.sump"


def circuit_lines(said: Said) -> Iterator[Line]:
    """Everything of the circulation; nothing where there is no sump."""
    if said.text("sump") != "yes":
        return iter(())
    parts = (_sump, _falls, _edge, _pump, _runs, _wanted) if _fit(said) else (_sump, _pump, _wanted)
    return chain.from_iterable(part(said) for part in parts)


def _fit(said: Said) -> bool:
    """Whether the depths that levels follow from are known and rise."""
    depths = {name: said.size(name) or 0.0 for name in ("sump_water", "sump_height", "water", "height")}
    depths["brim"] = brim_of(said) or 0.0
    rising = (("sump_water", "sump_height"), ("water", "brim"), ("brim", "height"))
    known = all(0.0 < depths[low] <= depths[high] for low, high in rising)
    return known and said.size("width") is not None


def _sump(said: Said) -> Iterator[Line]:
    yield Line(f"{_SUMP}.role", "sump", ("sump",))
    yield Line(f"{_SUMP}.made", "bought", ("sump",))
    yield Line(f"{_SUMP}.shape", "box", ("sump",))
    for key in ("length", "width", "height", "water"):
        yield from typed(said, f"{_SUMP}.{key}", f"sump_{key}")
    same = (("kind", "stands_on"), ("slab_thickness", "slab"), ("soil", "soil"), ("floor", "floor"))
    for key, blank in same:
        yield from derived(f"{_SUMP}.stands_on.{key}", answer(said, blank) or None, "sump_stands", blank)


def _falls(said: Said) -> Iterator[Line]:
    """Where the drains end, and where the pump draws."""
    height, water = said.size("sump_height") or 0.0, said.size("sump_water") or 0.0
    yield Line(f"{_SUMP}.ports.suction.kind", "inlet", ("sump",))
    suction = rounded(said, min(water * _SUCTION, _HIGHEST_SUCTION))
    yield from derived(f"{_SUMP}.ports.suction.level", suction, "suction_level", "sump_water")
    level = rounded(said, water + _FALLS * (height - water))
    for port in ("from_edge", "from_spare"):
        yield Line(f"{_SUMP}.ports.{port}.kind", "spill", ("sump",))
        yield from derived(f"{_SUMP}.ports.{port}.level", level, "fall_level", "sump_height", "sump_water")


def _edge(said: Said) -> Iterator[Line]:
    """Where water leaves the vessel and where it comes in."""
    water, brim, width = said.size("water") or 0.0, brim_of(said) or 0.0, said.size("width") or 0.0
    ports = f"{VESSEL}.ports"
    yield Line(f"{ports}.edge.kind", "weir", ("sump",))
    yield from derived(f"{ports}.edge.level", rounded(said, water - _UNDER_WATER), "weir_level", "water")
    yield from derived(f"{ports}.edge.length", rounded(said, width * _WEIR_SHARE), "weir_length", "width")
    yield Line(f"{ports}.spare.kind", "standpipe", ("sump",))
    spare = rounded(said, water + _SPARE * (brim - water))
    yield from derived(f"{ports}.spare.level", spare, "spare_level", "water", "brim")
    yield Line(f"{ports}.jet.kind", "outlet", ("sump",))
    yield from derived(f"{ports}.jet.level", rounded(said, water - _DEEPER), "jet_level", "water")
    broken: Value = {"level": rounded(said, water - _UNDER_WATER - _BREAK), "hole": _BREAK_HOLE[said.system]}
    yield from derived(f"{ports}.jet.siphon_break", broken, "siphon_break", "water")


def _pump(said: Said) -> Iterator[Line]:
    flow, lift = said.text("pump_flow"), said.text("pump_lift")
    still, level = _NOTHING[said.system]
    curve = [f"{still} at {lift}", f"{flow} at {level}"] if flow and lift else None
    yield from derived("pumps.return.curve", curve, "pump_curve", "pump_flow", "pump_lift")
    yield from typed(said, "pumps.return.needs_head", "needs_head")


def _runs(said: Said) -> Iterator[Line]:
    """The lines: up through the pump, and down twice."""
    pipe, drain = said.text("pipe"), said.text("drain")
    if not all(map(said.text, ("pipe", "drain", "pump_flow", "pump_lift"))):
        return
    for valve in ("suction", "check", "main"):
        yield from assumed(said, f"valves.{valve}.kind", f"valve_{valve}")
    up = [
        f"pipe {drain} {assumed_value(said, 'suction_run')}", "valve suction", "pump return", "valve check",
        "valve main", f"pipe {pipe} {assumed_value(said, 'rising_run')}", "elbow-90 x4",
    ]  # fmt: skip
    yield Line("circuits.up.start", "sump.suction", ("sump",))
    yield from derived("circuits.up.route", up, "rising_run", "pipe", "drain")
    yield Line("circuits.up.end", "basin.jet", ("sump",))
    down = [f"pipe {drain} {assumed_value(said, 'falling_run')}", "elbow-90 x2"]
    for port, end in (("edge", "from_edge"), ("spare", "from_spare")):
        yield Line(f"circuits.{port}.start", f"basin.{port}", ("sump",))
        yield from derived(f"circuits.{port}.route", down, "falling_run", "drain")
        yield Line(f"circuits.{port}.end", f"sump.{end}", ("sump",))


def _wanted(said: Said) -> Iterator[Line]:
    yield from typed(said, "targets.turnover", "turnover")
