"""Moves for water and what stops: changes, doses, bottles, filters, air, backups, who looks and when."""

from __future__ import annotations

from typing import Any

from tidestead.plan.edits import Edit
from tidestead.trials.moves.climate import (
    COLDER,
    NIGHT_COVER,
    added,
    better_glazing,
    display,
    every,
    foam_on_displays,
)
from tidestead.trials.moves.rows import Row, one_key, one_move
from tidestead.trials.moves.sizes import DOWN, UP, choices, scaled, shares, typed_length
from tidestead.trials.remedy import Ladder, Move
from tidestead.trials.said import Asked

DOSES = (0.9, 0.8, 0.7, 0.6, 0.5, 0.4, 0.3, 0.2, 0.1, 0.05, 0.02)
STONES_OFF = 0.15
"""Metres that air stones hang over the floor. Own choice."""


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
    """An air pump with its stones a little over the floor of the display."""
    us, name = asked.said.system == "us", display(asked)
    water = asked.said.plan.vessels[name].water or 0.75
    depth = typed_length(round(max(water - STONES_OFF, 0.3), 2 if not us else 4), asked.said.system)
    return {"vessel": name, "flow": "1 cfm" if us else "30 L/min", "depth": depth, "power": "15 W"}


AIRS = {"us": [f"{one} cfm" for one in (1, 2, 4, 8, 12, 20, 30)],
        "metric": [f"{one} L/min" for one in (30, 60, 120, 240, 360, 600, 900)]}  # fmt: skip
WATTS = (15, 30, 60, 120, 180, 300, 450)
"""That pumps of such a flow draw at that depth, some 15 W for each cubic foot a minute. Common practice, no source."""


def air_pumps(asked: Asked, key: str) -> list[Ladder]:
    """A further air pump in the display, larger and larger."""
    if not display(asked):
        return []
    part = "added" if "added" not in asked.said.names(key) else "added2"
    rungs = []
    for flow, watts in zip(AIRS[asked.said.system], WATTS, strict=True):
        values = {**_airpump(asked), "flow": flow, "power": f"{watts} W"}
        words = f"An air pump of {flow} in the display, its stones {values['depth']} deep"
        rungs.append(Move(words, (Edit(f"{key}.{part}", values),)))
    return [Ladder(f"{key}: added", tuple(rungs))]


def larger_air(asked: Asked, key: str) -> list[Ladder]:
    """The air pumps that are there larger, and their stones deeper."""
    found: list[Ladder] = []
    for name in asked.said.names(key):
        found += shares((1.5, 2.0, 4.0, 8.0))(asked, f"{key}.{name}.flow")
    return found


def fewer_fish(asked: Asked, key: str) -> list[Ladder]:
    """All fish fewer, now and once grown."""
    names, said = asked.said.names(key), asked.said
    rungs: list[Move] = []
    for factor in DOWN:
        edits = [
            Edit(f"{key}.{name}.{leaf}", text)
            for name in names
            for leaf in ("mass", "grown")
            if (text := scaled(said.text(f"{key}.{name}.{leaf}"), factor))
        ]
        if edits:
            rungs.append(Move(f"Fewer fish: {100.0 * factor:.0f} % of what is planned", tuple(edits)))
    return [Ladder(f"{key}: fewer", tuple(rungs))] if rungs else []


def less_cover(asked: Asked, key: str) -> list[Ladder]:
    """Covers that leave more of the water open."""
    return [
        one
        for name in asked.said.names(key)
        for one in shares((0.75, 0.5, 0.25))(asked, f"{key}.{name}.share")
    ]


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
    Row(OXYGEN, "airpumps", larger_air, 2.0),
    Row(OXYGEN, "fish", fewer_fish, 4.0),
    Row(OXYGEN, "covers", less_cover, 1.0),
    Row(r"water\.(?:ramp|ammonia)\.[a-z]+", "filters", every("filters", "surface", shares(UP)), 3.0),
    Row(r"water\.topoff\.[a-z]+", "vessels", every("vessels", "top_off.stock", shares(UP)), 2.0),
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

COST_ROWS = (
    Row(r"cost\.yearly", "covers", NIGHT_COVER, 2.0),
    Row(r"cost\.yearly", "heaters", every("heaters", "setpoint", COLDER), 0.5),
    Row(r"cost\.yearly", "vessels", foam_on_displays, 3.0),
    Row(r"cost\.yearly", "building", better_glazing, 8.0),
    Row(r"cost\.yearly", "lamps", every("lamps", "hours", shares((0.9, 0.8, 0.65))), 0.5),
    Row(r"cost\.yearly", "changes.share", shares((0.9, 0.8, 0.65, 0.5)), 1.0),
)
