"""Moves for power: loads parted and moved between circuits, devices, breakers with a wire that bears them."""

from __future__ import annotations

from collections.abc import Iterable

from tidestead.catalog import table
from tidestead.core.units import parse
from tidestead.plan.edits import Edit
from tidestead.studies.power.rules import is_us, personal_row
from tidestead.trials.moves.climate import every
from tidestead.trials.moves.rows import Row, one_key, one_move
from tidestead.trials.moves.sizes import UP, shares
from tidestead.trials.remedy import Ladder, Move
from tidestead.trials.said import Asked

MOST = 12
"""Things on one circuit at most that are spread over two."""


def apart(asked: Asked, key: str) -> list[Ladder]:
    """What hangs on a circuit spread over two, the second with a breaker, cable and residual-current device like it."""
    circuit = asked.said.raw(key)
    feeds = list(circuit.get("feeds", ())) if isinstance(circuit, dict) else []
    if not 2 <= len(feeds) <= MOST:
        return []
    second = f"{key}-2"
    found: list[Ladder] = []
    for item in feeds:
        rest = [one for one in feeds if one != item]
        values = {name: value for name, value in circuit.items() if name != "shares"} | {"feeds": [item]}
        words = f"{item} on a circuit of its own, like {key.split('.')[1]}"
        found += one_move(f"{key}: {item} apart", words, [Edit(f"{key}.feeds", rest), Edit(second, values)])
    return found


def to_another(asked: Asked, key: str) -> list[Ladder]:
    """One thing of a circuit moved to another that is there, under a device of its own."""
    said, mine = asked.said, key.split(".")[1]
    feeds = said.raw(f"{key}.feeds") or []
    found: list[Ladder] = []
    for other in said.names("electrics"):
        theirs = said.raw(f"electrics.{other}.feeds") or []
        joined = mine in (said.raw(f"electrics.{other}.shares"), other) or other == said.raw(f"{key}.shares")
        if joined or not 2 <= len(feeds) <= MOST:
            continue
        for item in feeds:
            edits = [
                Edit(f"{key}.feeds", [one for one in feeds if one != item]),
                Edit(f"electrics.{other}.feeds", [*theirs, item]),
            ]
            words = f"{item} on circuit {other} instead of {mine}"
            found += one_move(f"{key}: {item} to {other}", words, edits)
    return found


FINER = {"30 mA": ("10 mA", "6 mA"), "100 mA": ("30 mA", "10 mA"), "300 mA": ("100 mA", "30 mA")}
COARSER = {"6 mA": ("10 mA", "30 mA"), "10 mA": ("30 mA",)}
"""Levels that residual-current devices are sold for."""


def finer_residual(asked: Asked, key: str) -> list[Ladder]:
    """A residual-current device that opens at less."""
    return one_key(asked, key, FINER.get(asked.said.text(key), ()))


def coarser_residual(asked: Asked, key: str) -> list[Ladder]:
    """A residual-current device that bears more leakage, none that by the plan's code would not protect people."""
    most = personal_row(is_us(asked.said.plan)).si("trip")
    levels = COARSER.get(asked.said.text(key), ())
    return one_key(asked, key, [one for one in levels if parse(one, "current") <= most * (1.0 + 1e-9)])


AREAS = {"us": ("AWG 14", "AWG 12", "AWG 10", "AWG 8", "AWG 6", "AWG 4", "AWG 2", "AWG 1"),
         "mm": ("1.5 mm2", "2.5 mm2", "4 mm2", "6 mm2", "10 mm2", "16 mm2", "25 mm2")}  # fmt: skip
BREAKERS = {"us": (15, 20, 25, 30, 35, 40, 45, 50, 60, 70, 80, 90, 100, 110, 125),
            "mm": (6, 10, 13, 16, 20, 25, 32, 40, 50, 63, 80, 100)}  # fmt: skip
"""As boards are fitted. Common practice, no source."""
LARGER = 3
"""Breakers that are tried above the one that is there. Own choice."""
LEFT = {"us": 1.0, "mm": 0.8}
"""Share of what a cable bears that its breaker may take and be sound."""


def thicker_cable(asked: Asked, key: str) -> list[Ladder]:
    """The next cables."""
    now = asked.said.text(key)
    sizes = next((one for one in AREAS.values() if now in one), ())
    return one_key(asked, key, list(sizes[sizes.index(now) + 1 :])) if sizes else []


def larger_breaker(asked: Asked, key: str) -> list[Ladder]:
    """A larger breaker, each with the thinnest cable that bears it and is no thinner than what is there."""
    said = asked.said
    leaf = f"{key}.amps" if key == "supply" else f"{key}.breaker"
    amps, cable = said.size(leaf, "current"), said.text(f"{key}.cable")
    system = next((name for name, sizes in AREAS.items() if cable in sizes), "")
    if amps is None or not system:
        return []
    named = "Supply" if key == "supply" else f"Electric circuit {key.split('.')[1]}"
    rungs: list[Move] = []
    for size in [one for one in BREAKERS[system] if one > amps + 1e-6][:LARGER]:
        bears = _bearing(cable, size, system)
        if bears:
            edits = [Edit(leaf, f"{size} A"), *([Edit(f"{key}.cable", bears)] if bears != cable else [])]
            words = f"{named}: {size} A instead of {amps:g} A, on {bears}" + (
                f" instead of {cable}" if bears != cable else ""
            )
            rungs.append(Move(words, tuple(edits)))
    return [Ladder(f"{leaf} with its cable", tuple(rungs))] if rungs else []


def _bearing(cable: str, amps: float, system: str) -> str:
    """The thinnest cable, from the present one on, that a breaker of so many amperes suits; empty where none does."""
    rows, sizes = table("electric_limits").rows, AREAS[system]
    for size in sizes[sizes.index(cable) :]:
        row = rows.get("copper-" + (size.lower().replace(" ", "-") if system == "us" else _metric(size)))
        if row is not None and row.has("ampacity") and LEFT[system] * row.si("ampacity") >= amps - 1e-6:
            return size
    return ""


def _metric(size: str) -> str:
    return size.replace(" ", "").replace(".", "p")


def smaller_heaters(asked: Asked, key: str) -> Iterable[Ladder]:
    """Heaters of less power that hang on a circuit, or any where the supply is meant."""
    feeds = asked.said.raw(f"{key}.feeds") or []
    on_it = [item.split()[1] for item in feeds if item.startswith("heater ")] if key != "supply" else None
    names = asked.said.names("heaters") if on_it is None else on_it
    return [
        one for name in names for one in shares((0.95, 0.9, 0.8, 0.7, 0.5))(asked, f"heaters.{name}.power")
    ]


NAME = r"(?P<name>[^.]+)"
LEAKS = rf"power\.{NAME}\.(?:trip|standing)"

POWER_ROWS = (
    Row(rf"power\.(?!supply){NAME}\.(?:trip|standing|load|branch|start)", "electrics.{name}", apart, 3.0),
    Row(rf"power\.(?!supply){NAME}\.(?:trip|standing|load|start)", "electrics.{name}", to_another, 2.0),
    Row(rf"power\.(?!supply){NAME}\.(?:load|start)", "electrics.{name}", larger_breaker, 3.0),
    Row(rf"power\.{NAME}\.level", "electrics.{name}.residual", finer_residual, 2.0),
    Row(LEAKS, "electrics.{name}.residual", coarser_residual, 2.0),
    Row(rf"power\.{NAME}\.(?:drop|cable|branch)", "electrics.{name}.cable", thicker_cable, 3.0),
    Row(r"power\.supply\.main\.(?:load|start)", "supply", larger_breaker, 6.0),
    Row(r"power\.supply\.main\.(?:cable|drop)", "supply.cable", thicker_cable, 6.0),
    Row(r"power\.supply\.main\.load", "supply", smaller_heaters, 2.0),
    Row(rf"power\.(?!supply){NAME}\.load", "electrics.{name}", smaller_heaters, 2.0),
    Row(rf"power\.backups\.{NAME}\.hours", "backups.{name}.energy", shares(UP), 3.0),
    Row(rf"power\.backups\.{NAME}\.(?:power|start)", "backups.{name}.power", shares((1.1, 1.25, 1.5, 2.0, 3.0)), 3.0),
    Row(rf"power\.backups\.{NAME}\.(?:power|start)", "pumps", every("pumps", "power", shares((0.9, 0.8, 0.65))), 4.0),
)  # fmt: skip
