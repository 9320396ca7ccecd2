"""Moves for light at corals: where they sit, shade by season, what glazing passes, lamps and their hours."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from tidestead.plan.edits import Edit
from tidestead.trials.moves.climate import display, every
from tidestead.trials.moves.rows import Row, one_key
from tidestead.trials.moves.sizes import DOWN, INCH, shares
from tidestead.trials.remedy import Ladder, Move
from tidestead.trials.said import Asked

SHARES = (30, 40, 50, 60, 70, 80, 90)
"""Per cent of the light that shade cloth is sold to keep out."""
SEASONS = {
    "north": ("May to Aug", "Apr to Sep", "Mar to Oct", "Feb to Nov", "all year"),
    "south": ("Nov to Feb", "Oct to Mar", "Sep to Apr", "Aug to May", "all year"),
}
"""Bright months, more and more of them."""
LIT = {
    "north": ("Oct to Mar", "Sep to Apr", "Aug to May", "all year"),
    "south": ("Apr to Sep", "Mar to Oct", "Feb to Nov", "all year"),
}
"""Dull months, more and more of them."""
WATTS = (200, 400, 600, 900, 1200, 1800, 2400)
STEPS = {"us": (INCH, (4.0, 8.0, 12.0, 18.0), "in"), "metric": (1e-3, (100.0, 200.0, 300.0, 450.0), "mm")}
NARROWER = (0.25, 0.5, 0.75, 0.9)
"""Shares of the way from one end of a band of depths to the other."""


def _half(asked: Asked) -> str:
    site = asked.said.plan.site
    latitude = getattr(site, "latitude", None)
    return "south" if latitude is not None and latitude < 0.0 else "north"


def deeper(asked: Asked, key: str) -> list[Ladder]:
    """Corals set deeper: both ends of their band alike, or the shallowest alone."""
    return _placed(asked, key, down=True)


def higher(asked: Asked, key: str) -> list[Ladder]:
    """Corals set higher: both ends of their band alike, or the deepest alone."""
    return _placed(asked, key, down=False)


def _placed(asked: Asked, key: str, *, down: bool) -> list[Ladder]:
    coral = asked.said.plan.corals.get(key.split(".")[1])
    if coral is None:
        return []
    size, steps, unit = STEPS[asked.said.system]
    shallow, deep = (one / size for one in coral.depth)
    sign = 1.0 if down else -1.0
    bands = [(shallow + sign * step, deep + sign * step) for step in steps]
    width = deep - shallow
    ends = [(shallow + part * width, deep) if down else (shallow, deep - part * width) for part in NARROWER]
    moved = one_key(asked, key, _typed(bands, unit), f"{key}: moved")
    return moved + one_key(asked, key, _typed(ends, unit), f"{key}: narrower")


def _typed(bands: Sequence[tuple[float, float]], unit: str) -> list[str]:
    tidy = [(round(low, 1), round(high, 1)) for low, high in bands]
    return [f"{low:g} to {high:g} {unit}" for low, high in tidy if 0.0 <= low < high]


def shade_by_season(asked: Asked, key: str) -> list[Ladder]:
    """Shade that is drawn all day through bright months, denser and denser; for each spell of months."""
    there = asked.said.raw(key)
    us = asked.said.system == "us"
    found: list[Ladder] = []
    for months in SEASONS[_half(asked)]:
        rungs: list[Move] = []
        for share in SHARES:
            values = {"share": f"{share} %", "months": months}
            edits: tuple[Edit, ...]
            if isinstance(there, dict):
                edits = tuple(Edit(f"{key}.{leaf}", value) for leaf, value in values.items())
            else:
                edits = (Edit(key, {**values, "above": "84 degF" if us else "29 degC"}),)
            spell = "all year" if months == "all year" else f"from {months}"
            rungs.append(Move(f"Shade that keeps out {share} % of the sun, drawn {spell}", edits))
        found.append(Ladder(f"{key}: {months}", tuple(rungs)))
    return found


def dimmer_glazing(asked: Asked, key: str) -> list[Ladder]:
    """Whitewash or cloth for good on the glazing: it passes less, all year."""
    text = asked.said.text(key) or "80 %"
    try:
        now = float(text.removesuffix("%"))
    except ValueError:
        return []
    return one_key(asked, key, [f"{share} %" for share in (70, 60, 50, 40, 30, 20) if share < now])


def lamp_months(asked: Asked, key: str) -> list[Ladder]:
    """Lamps used in more months."""
    return [
        one
        for months in LIT[_half(asked)]
        if months != asked.said.text(key)
        for one in one_key(asked, key, [months], f"{key}: {months}")
    ]


def more_lamps(asked: Asked, key: str) -> list[Ladder]:
    """Further lamps over the display, stronger and stronger; for dull months, and for all the year."""
    over = asked.said.plan.corals[asked.names["coral"]].vessel if asked.names.get("coral") else display(asked)
    part = "added" if "added" not in asked.said.names(key) else "added2"
    found: list[Ladder] = []
    for months in (LIT[_half(asked)][0], LIT[_half(asked)][-1]):
        rungs: list[Move] = []
        for watts in WATTS:
            values: dict[str, Any] = {"over": over, "power": f"{watts} W", "hours": "10 h", "months": months}
            spell = "all year" if months == "all year" else months
            words = f"Further lamps of {watts} W over {over}, 10 h a day, {spell}"
            rungs.append(Move(words, (Edit(f"{key}.{part}", values),)))
        found.append(Ladder(f"{key}: added, {months}", tuple(rungs)))
    return found


def fewer_lamp_hours(asked: Asked, key: str) -> list[Ladder]:
    """Lamps fewer hours a day, or weaker."""
    names = asked.said.names(key)
    return [
        one
        for name in names
        for leaf in ("hours", "power")
        for one in shares(DOWN)(asked, f"{key}.{name}.{leaf}")
    ]


CORAL = r"light\.(?P<coral>[^.]+)"
BRIGHT = CORAL + r"\.(?:most|peak)"
DULL = CORAL + r"\.(?:least|harm)"

LIGHT_ROWS = (
    Row(BRIGHT, "corals.{coral}.depth", deeper, 1.0),
    Row(BRIGHT, "building.shade", shade_by_season, 2.0),
    Row(BRIGHT, "building.passes", dimmer_glazing, 2.0),
    Row(BRIGHT, "lamps", fewer_lamp_hours, 0.5),
    Row(DULL, "corals.{coral}.depth", higher, 1.0),
    Row(DULL, "lamps", every("lamps", "power", shares((1.1, 1.25, 1.5, 2.0, 3.0))), 3.0),
    Row(DULL, "lamps", every("lamps", "hours", shares((1.1, 1.2, 1.4))), 0.5),
    Row(DULL, "lamps", every("lamps", "months", lamp_months), 0.5),
    Row(DULL, "lamps", more_lamps, 3.0),
)
