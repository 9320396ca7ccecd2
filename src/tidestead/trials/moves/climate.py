"""Moves for warmth: covers, heaters, chillers, fans, vents, shade, glazing, foam."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from tidestead.catalog import table
from tidestead.core.errors import QuantityError
from tidestead.core.units import parse
from tidestead.plan.edits import Edit
from tidestead.trials.moves.rows import Build, Row, one_key, one_move
from tidestead.trials.moves.sizes import DOWN, UP, counts, scaled, shares
from tidestead.trials.remedy import Ladder
from tidestead.trials.said import Asked, changed


def every(name: str, leaf: str, build: Build) -> Build:
    """The same move at each part of a table: heaters, covers, lamps."""

    def made(asked: Asked, key: str) -> list[Ladder]:
        del key
        parts = asked.said.names(name)
        return [one for part in parts for one in build(asked, f"{name}.{part}.{leaf}")]

    return made


def degrees(steps: Sequence[float]) -> Build:
    """The temperature at a key moved by kelvins, in the degrees that it is typed in."""

    def build(asked: Asked, key: str) -> list[Ladder]:
        text = asked.said.text(key)
        number, _, unit = text.partition(" ")
        try:
            parse(text, "temperature")
            size = 1.8 if unit.strip().lower().endswith("f") else 1.0
            moved = [f"{round(float(number) + size * step, 1):g} {unit}" for step in steps]
        except (QuantityError, ValueError):
            return []
        return one_key(asked, key, moved)

    return build


def display(asked: Asked) -> str:
    """The first display of a plan."""
    return next((name for name, one in asked.said.plan.vessels.items() if one.role == "display"), "")


def added(name: str, words: str, values: Callable[[Asked], dict[str, Any]]) -> Build:
    """A further part of a table, under a name that is free."""

    def build(asked: Asked, key: str) -> list[Ladder]:
        del key
        if not display(asked):
            return []
        part = next(
            one for one in ("added", "added2", "added3", "added4") if one not in asked.said.names(name)
        )
        return one_move(f"{name}: added", words, [Edit(f"{name}.{part}", values(asked))])

    return build


def _cover(asked: Asked) -> dict[str, Any]:
    return {"over": display(asked), "share": "90 %", "when": "night"}


def _fan(asked: Asked) -> dict[str, Any]:
    us, keep = asked.said.system == "us", asked.said.plan.water.keep
    warm = keep[1] - 1.0 if keep is not None else 26.0
    above = f"{1.8 * warm + 32.0:.1f} degF" if us else f"{warm:.1f} degC"
    return {"over": display(asked), "speed": "3.3 ft/s" if us else "1 m/s", "power": "40 W", "above": above}


def _chiller(asked: Asked) -> dict[str, Any]:
    keep = asked.said.plan.water.keep
    warm = keep[1] - 1.0 if keep is not None else 26.0
    point = f"{1.8 * warm + 32.0:.1f} degF" if asked.said.system == "us" else f"{warm:.1f} degC"
    return {"vessel": display(asked), "cooling": "2 kW", "draws": "700 W", "setpoint": point}


def better_glazing(asked: Asked, key: str) -> list[Ladder]:
    """Glazing that lets less heat through, of the same kind; what the plan says of the old one's own goes with it."""
    rows, name = table("glazings").rows, asked.said.text(f"{key}.glazing")
    if name not in rows:
        return []
    now = rows[name]
    fits = [
        row
        for row in rows.values()
        if row.tag("kind") == now.tag("kind") and row.si("transmittance") < now.si("transmittance")
    ]
    fits.sort(key=lambda row: -row.si("transmittance"))
    own = [
        Edit(f"{key}.{leaf}", None) for leaf in ("transmittance", "passes") if asked.said.raw(f"{key}.{leaf}")
    ]
    found: list[Ladder] = []
    for row in fits:
        words = changed(f"{key}.glazing", row.name, name)
        found += one_move(f"{key}.glazing: {row.name}", words, [Edit(f"{key}.glazing", row.name), *own])
    return found


def more_foam(asked: Asked, key: str) -> list[Ladder]:
    """Foam round a vessel that has none; the key is that of the vessel."""
    if asked.said.raw(f"{key}.insulation"):
        return []
    thick = (
        ("1 in xps", "2 in xps", "3 in xps")
        if asked.said.system == "us"
        else ("25 mm xps", "50 mm xps", "80 mm xps")
    )
    return one_key(asked, f"{key}.insulation", [[one] for one in thick])


def foam_on_displays(asked: Asked, key: str) -> list[Ladder]:
    """Foam round the display."""
    del key
    return more_foam(asked, f"vessels.{display(asked)}") if display(asked) else []


def wider_band(asked: Asked, key: str) -> list[Ladder]:
    """The upper end of the damp that timber is reckoned with, higher."""
    low, _, high = asked.said.text(key).partition(" to ")
    ends = [scaled(high, factor, 100.0) for factor in (1.03, 1.06, 1.1)]
    return one_key(asked, key, [f"{low} to {end}" for end in dict.fromkeys(ends) if end])


COLD = r"heat\.water\.(?:coldest|spell)"
HOT = r"heat\.water\.(?:warmest|wave)"
COLDER, WARMER = degrees((-0.5, -1.0, -1.5, -2.0)), degrees((0.3, 0.6, 1.0, 1.5))
EVAPORATES = r"heat\.(?P<vessel>[^.]+)\.top_off\.evaporation"
NIGHT_COVER = added("covers", "A cover on the display at night", _cover)
HEAT_ROWS = (
    Row(r"heat\.heaters\.size", "heaters", every("heaters", "power", shares((1.05, 1.1, 1.25, 1.5, 2.0))), 2.0),
    Row(r"heat\.heaters\.size", "heaters", every("heaters", "count", counts(3)), 2.0),
    Row(r"heat\.heaters\.stuck", "heaters", every("heaters", "power", shares(DOWN)), 2.0),
    Row(COLD, "heaters", every("heaters", "setpoint", WARMER), 0.5),
    Row(COLD + r"|heat\.heaters\.size", "covers", NIGHT_COVER, 2.0),
    Row(COLD + r"|heat\.heaters\.size", "building", better_glazing, 8.0),
    Row(COLD + r"|heat\.heaters\.size", "vessels", foam_on_displays, 3.0),
    Row(HOT, "chillers", every("chillers", "setpoint", COLDER), 0.5),
    Row(HOT, "heaters", every("heaters", "setpoint", COLDER), 0.5),
    Row(HOT, "chillers", every("chillers", "cooling", shares((1.25, 1.5, 2.0, 3.0))), 4.0),
    Row(HOT, "chillers", added("chillers", "A chiller of 2 kW at the display", _chiller), 6.0),
    Row(HOT, "fans", added("fans", "A fan over the display", _fan), 2.0),
    Row(HOT + r"|heat\.building\.[a-z_]+", "building.vents.rate", shares((1.25, 1.5, 2.0, 3.0)), 2.0),
    Row(HOT + r"|heat\.building\.warm_air", "building.vents.opens_at", COLDER, 0.5),
    Row(HOT, "building.shade.share", shares((1.2, 1.4, 1.6), most=95.0), 2.0),
    Row(HOT, "building.shade.above", COLDER, 0.5),
    Row(r"heat\.building\.humidity", "covers", NIGHT_COVER, 2.0),
    Row(r"heat\.building\.humidity", "building.humidity", wider_band, 1.0),
    Row(EVAPORATES, "vessels.{vessel}.top_off.evaporation", shares(UP), 0.5),
    Row(EVAPORATES, "covers", NIGHT_COVER, 2.0),
)  # fmt: skip
