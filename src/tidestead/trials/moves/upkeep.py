"""Moves for water, power and what stops: changes, doses, bottles, filters, circuits, backups, who looks and when."""

from __future__ import annotations

from typing import Any

from tidestead.plan.edits import Edit
from tidestead.trials.moves.climate import added, display, every
from tidestead.trials.moves.rows import Row, one_key, one_move
from tidestead.trials.moves.sizes import DOWN, UP, choices, shares
from tidestead.trials.remedy import Ladder
from tidestead.trials.said import Asked

DOSES = (0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1, 0.05, 0.02)
MOST = 12
"""Things on one circuit at most that are spread over two."""


def _vessel(asked: Asked) -> str:
    return next((name for name, one in asked.said.plan.vessels.items() if one.role == "sump"), display(asked))


def _algae(asked: Asked) -> dict[str, Any]:
    us = asked.said.system == "us"
    return {"vessel": _vessel(asked), "mass": "20 lb" if us else "10 kg", "every": "7 days"}


def harvests(asked: Asked, key: str) -> list[Ladder]:
    """Algae grown on purpose and taken out each week."""
    masses = ("5 lb", "10 lb", "20 lb", "40 lb", "80 lb", "120 lb") if asked.said.system == "us" else (
        "2 kg", "4 kg", "8 kg", "16 kg", "25 kg", "40 kg"
    )  # fmt: skip
    part = "added" if "added" not in asked.said.names(key) else "added2"
    rungs = [
        one_move(
            key, f"{mass} of algae harvested a week", [Edit(f"{key}.{part}", {**_algae(asked), "mass": mass})]
        )
        for mass in masses
    ]
    return [Ladder(f"{key}: added", tuple(rung for one in rungs for rung in one[0].rungs))]


def adsorbers(asked: Asked, key: str) -> list[Ladder]:
    """A load of granulate that binds phosphate, renewed every four weeks."""
    masses = ("1 lb", "2 lb", "5 lb", "10 lb", "20 lb", "40 lb") if asked.said.system == "us" else (
        "500 g", "1 kg", "2 kg", "4 kg", "8 kg", "16 kg"
    )  # fmt: skip
    part = "added" if "added" not in asked.said.names(key) else "added2"
    values = {"vessel": _vessel(asked), "kind": "ferric-hydroxide", "every": "28 days"}
    rungs = [
        one_move(
            key,
            f"{mass} of ferric hydroxide every 28 days",
            [Edit(f"{key}.{part}", {**values, "mass": mass})],
        )
        for mass in masses
    ]
    return [Ladder(f"{key}: added", tuple(rung for one in rungs for rung in one[0].rungs))]


def other_vessel(asked: Asked, key: str) -> list[Ladder]:
    """One of the dosers given into another vessel."""
    del key
    vessels = [name for name, one in asked.said.plan.vessels.items() if one.role in ("display", "sump")]
    found: list[Ladder] = []
    for doser in asked.said.names("dosers"):
        here = asked.said.text(f"dosers.{doser}.vessel")
        for vessel in vessels:
            if vessel != here:
                found += one_key(asked, f"dosers.{doser}.vessel", [vessel], f"dosers.{doser}: {vessel}")
    return found


def _airpump(asked: Asked) -> dict[str, Any]:
    us = asked.said.system == "us"
    return {"vessel": display(asked), "flow": "1 cfm" if us else "30 L/min", "depth": "24 in" if us else "0.6 m",
            "power": "15 W"}  # fmt: skip


def air_pumps(asked: Asked, key: str) -> list[Ladder]:
    """A further air pump in the display, larger and larger."""
    flows = (
        ("1 cfm", "2 cfm", "4 cfm") if asked.said.system == "us" else ("30 L/min", "60 L/min", "120 L/min")
    )
    part = "added" if "added" not in asked.said.names(key) else "added2"
    rungs = [
        one_move(
            key,
            f"An air pump of {flow} in the display",
            [Edit(f"{key}.{part}", {**_airpump(asked), "flow": flow})],
        )
        for flow in flows
    ]
    return (
        [Ladder(f"{key}: added", tuple(rung for one in rungs for rung in one[0].rungs))]
        if display(asked)
        else []
    )


def without_doser(asked: Asked, key: str) -> list[Ladder]:
    """A doser taken away."""
    return [
        one
        for name in asked.said.names(key)
        for one in one_move(f"{key}.{name}: out", f"Doser {name} taken away", [Edit(f"{key}.{name}", None)])
    ]


def _battery_air(asked: Asked) -> dict[str, Any]:
    return {**_airpump(asked), "starts": "battery", "lasts": "48 h"}


def carbon(asked: Asked, key: str) -> list[Ladder]:
    """A better carbon filter, or crystals that bind the chlorine; the key is that of the changes."""
    source = asked.said.text(f"{key}.source") or next(iter(asked.said.names("sources")), "")
    if not source:
        return []
    here = f"sources.{source}"
    return [
        *one_key(asked, f"{here}.carbon", ["75 %", "90 %", "95 %", "98 %"]),
        *one_key(asked, f"{here}.thiosulfate", ["2 mg/L", "4 mg/L", "6 mg/L", "10 mg/L"]),
    ]


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


def finer_residual(asked: Asked, key: str) -> list[Ladder]:
    """A residual-current device that opens at less."""
    now = asked.said.text(key)
    trips = {"30 mA": ["10 mA", "6 mA"], "100 mA": ["30 mA", "10 mA"], "300 mA": ["100 mA", "30 mA"]}
    return one_key(asked, key, trips.get(now, []))


AREAS = {"us": ("AWG 14", "AWG 12", "AWG 10", "AWG 8", "AWG 6", "AWG 4", "AWG 2", "AWG 1"),
         "mm": ("1.5 mm2", "2.5 mm2", "4 mm2", "6 mm2", "10 mm2", "16 mm2", "25 mm2")}  # fmt: skip


def thicker_cable(asked: Asked, key: str) -> list[Ladder]:
    """The next cables."""
    now = asked.said.text(key)
    sizes = next((one for one in AREAS.values() if now in one), ())
    return one_key(asked, key, list(sizes[sizes.index(now) + 1 :])) if sizes else []


def more_looks(asked: Asked, key: str) -> list[Ladder]:
    """More looks a day."""
    looks = ("07:30", "13:00", "19:00", "22:00")
    return one_key(asked, key, [[looks[0], looks[2]], list(looks[:3]), list(looks)])


def better_alarm(asked: Asked, key: str) -> list[Ladder]:
    """An alarm that watches for more, and lives without the mains."""
    alarm = asked.said.raw(key)
    if not isinstance(alarm, dict):
        return []
    return one_key(asked, f"{key}.power", ["battery"] if alarm.get("power") == "mains" else [])


NAME = r"(?P<name>[^.]+)"
OXYGEN = r"water\.stock\.oxygen(?:_grown)?"
BREATH = r"faults\.(?:power-summer|power-winter|pump\.[^.]+|device\.[^.]+|death|chiller|heater-on|overfed)\.in_time"

NO_AIR = every("filters", "denitrifies", choices("0.02 1/day", "0.05 1/day", "0.1 1/day", "0.2 1/day"))
SMALLER_HEATERS = every("heaters", "power", shares((0.95, 0.9, 0.8, 0.7, 0.5)))
BATTERY_AIR = added("airpumps", "A battery air pump in the display that starts by itself", _battery_air)

WATER_ROWS = (
    Row(r"water\.nutrients\.[a-z]+", "harvests", harvests, 3.0),
    Row(r"water\.nutrients\.phosphate", "adsorbers", adsorbers, 2.0),
    Row(r"water\.nutrients\.[a-z]+", "changes.share", shares(UP, most=90.0), 2.0),
    Row(r"water\.nutrients\.[a-z]+", "feed.daily", shares(DOWN), 1.0),
    Row(r"water\.nutrients\.nitrate", "filters", NO_AIR, 4.0),
    Row(r"water\.(?:alkalinity|calcium)\.daily", "dosers", every("dosers", "daily", shares((*DOSES, *UP))), 0.5),
    Row(r"water\.(?:alkalinity|calcium)\.daily", "dosers", without_doser, 0.5),
    Row(r"water\.(?:alkalinity|calcium)\.daily", "kalkwasser.share", shares(DOSES, most=100.0), 0.5),
    Row(rf"water\.dosers\.{NAME}\.(?:bottle|saturation)", "dosers.{name}.bottle", shares(DOSES), 1.0),
    Row(rf"water\.dosers\.{NAME}\.(?:bottle|saturation|dissolves)", "dosers.{name}.strength", shares(DOSES), 1.0),
    Row(r"water\.dosers\.same_vessel", "dosers", other_vessel, 1.0),
    Row(r"water\.chlorine\.[a-z]+", "changes", carbon, 1.0),
    Row(OXYGEN, "airpumps", air_pumps, 2.0),
    Row(OXYGEN, "fish", every("fish", "grown", shares(DOWN)), 4.0),
    Row(r"water\.(?:ramp|ammonia)\.[a-z]+", "filters", every("filters", "surface", shares(UP)), 3.0),
    Row(r"water\.topoff\.[a-z]+", "vessels", every("vessels", "top_off.stock", shares(UP)), 2.0),
)  # fmt: skip

POWER_ROWS = (
    Row(rf"power\.{NAME}\.(?:trip|standing|load|branch|start)", "electrics.{name}", apart, 3.0),
    Row(rf"power\.{NAME}\.level", "electrics.{name}.residual", finer_residual, 2.0),
    Row(rf"power\.{NAME}\.(?:drop|cable|branch)", "electrics.{name}.cable", thicker_cable, 3.0),
    Row(r"power\.supply\.main\.(?:load|start)", "supply.amps", shares((1.25, 1.5, 2.0)), 6.0),
    Row(r"power\.supply\.main\.(?:cable|drop)", "supply.cable", thicker_cable, 6.0),
    Row(r"power\.supply\.main\.load|power\.[^.]+\.load", "heaters", SMALLER_HEATERS, 2.0),
    Row(rf"power\.backups\.{NAME}\.hours", "backups.{name}.energy", shares(UP), 3.0),
    Row(rf"power\.backups\.{NAME}\.(?:power|start)", "backups.{name}.power", shares((1.1, 1.25, 1.5, 2.0, 3.0)), 3.0),
)  # fmt: skip

FAULT_ROWS = (
    Row(BREATH, "airpumps", BATTERY_AIR, 2.0),
    Row(r"faults\.[^.]+(?:\.[^.]+)?\.in_time", "response.looks", more_looks, 4.0),
    Row(r"faults\.[^.]+(?:\.[^.]+)?\.in_time", "response.alarm", better_alarm, 2.0),
    Row(rf"faults\.doser\.{NAME}\.in_time", "dosers.{name}.bottle", shares(DOSES), 1.0),
    Row(rf"faults\.doser\.{NAME}\.in_time", "dosers.{name}.strength", shares(DOSES), 1.0),
    Row(r"faults\.top-off[a-z-]*\.in_time", "vessels", every("vessels", "top_off.stock", shares(DOWN)), 1.0),
    Row(r"faults\.glass\.(?:every|patches|in_time)", "cleaning.every", shares((0.75, 0.5, 0.34, 0.25)), 2.0),
    Row(r"faults\.power-[a-z]+\.in_time", "backups", every("backups", "starts", choices("by itself")), 4.0),
)  # fmt: skip
