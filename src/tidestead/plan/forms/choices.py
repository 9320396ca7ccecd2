"""Rows of the catalogue and of the user's own, each with the numbers that matter when one is picked."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import lru_cache
from typing import Any

from tidestead.catalog.rows import YOURS_MARK, Datum, Row, table
from tidestead.catalog.yours import own_rows
from tidestead.core.units import Gallon, System, show
from tidestead.plan.forms.shapes import Choice

_NUMBERS: Mapping[str, tuple[tuple[str, str], ...]] = {
    "lumber": (
        ("bending", "bending {}"),
        ("modulus", "stiffness {}"),
        ("compression_across", "pressed across {}"),
    ),
    "sheathing": (
        ("thickness", "{} thick"),
        ("bending_along", "bending {} along"),
        ("bending_across", "{} across"),
    ),
    "fasteners": (("diameter", "{}"), ("length", "x {}"), ("bending_yield", "yields at {}")),
    "clear": (
        ("stress_water_side", "{} for good under water"),
        ("strength_characteristic", "strength {}"),
        ("modulus", "stiffness {}"),
        ("service_temperature_max", "up to {}"),
    ),
    "linings": (
        ("thickness", "{} thick"),
        ("elongation", "stretches {}"),
        ("dry_film_per_coat", "{} a coat"),
        ("ends_above_water_min", "{} above the water"),
    ),
    "seals": (("travel_share", "moves {} of its thickness"), ("bed_thickness_min", "bed {} or more")),
    "soils": (("bearing", "bears {}"),),
    "floors": (("live_load", "carries {}"), ("concrete_strength", "strength {}")),
    "pipes": (("bore", "bore {}"), ("outer", "outside {}")),
    "bulkheads": (("hole", "hole {}"), ("flange", "flange {}"), ("clamps_to", "clamps up to {}")),
    "valves": (
        ("multiple", "{} bores of pipe when open"),
        ("k", "loss factor {}"),
        ("cracking_head", "opens at {}"),
    ),
    "glazings": (("transmittance", "U {}"), ("light", "passes {}"), ("mass", "{}")),
    "corals": (("least", "{}"), ("most", "to {} a day"), ("peak", "at most {} at noon")),
    "uv_targets": (("dose", "dose {}"),),
}
"""For each table the figures that tell its rows apart, with the words round them."""
_MOST_SHOWN = 3


def choices_of(name: str, yours: Mapping[str, Any], gallon: Gallon, system: System) -> tuple[Choice, ...]:
    """Every row that may be named in a table of the catalogue; the user's own first."""
    ours = _catalogue(name, system)
    if not yours:
        return ours
    good, _ = own_rows(table(name), {key: row for key, row in yours.items() if isinstance(row, dict)}, gallon)
    sound = {row.name: _choice(row, system) for row in good}
    own = (sound.get(YOURS_MARK + key, Choice(YOURS_MARK + key, key, "has a fault")) for key in yours)
    return (*own, *ours)


@lru_cache(maxsize=64)
def _catalogue(name: str, system: System) -> tuple[Choice, ...]:
    return tuple(_choice(row, system) for row in table(name))


def _choice(row: Row, system: System) -> Choice:
    told = ", ".join(list(_numbers(row, system))[:_MOST_SHOWN])
    return Choice(row.name, row.title, told.replace(", x ", " x ").replace(", to ", " to "))


def _numbers(row: Row, system: System) -> Iterator[str]:
    """The figures of a row in words; of a table that is not named above, those that stand first."""
    named = _NUMBERS.get(row.table, tuple((key, f"{key.replace('_', ' ')} {{}}") for key in row.figures))
    for key, words in named:
        if key in row.figures and not isinstance(row.figures[key].value, tuple):
            yield words.format(_figure(row.figures[key], system))


def _figure(datum: Datum, system: System) -> str:
    value = datum.value
    if isinstance(value, tuple):
        return ""
    if datum.dimension == "ratio" and datum.printed_unit == "%":
        return f"{100.0 * value:.4g} %"
    return show(value, datum.unit_si, system)
