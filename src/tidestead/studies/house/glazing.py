"""Clear sheet of a building: the catalogue's row with what the plan says otherwise, and what it does to the sun."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.catalog import table
from tidestead.core.dims import Array
from tidestead.core.source import YOURS, Source
from tidestead.physics import optics
from tidestead.plan.model import Plan

_INDEX = {"multiwall": 1.585, "glass": 1.526, "film": 1.51}
"""Refractive index of polycarbonate, float glass and polyethylene. Source: handbooks, from memory."""

_OTHER_INDEX = 1.5
"""Of a sheet of another kind: acrylic and most clear plastics. Source: handbooks, from memory."""


@dataclass(frozen=True)
class Glazing:
    """A clear sheet. `transmittance` is its U-value, W/(m2 K), `light` the share of light let through straight on,
    `walls` how many plates it has, `mass` in kg/m2.
    """

    name: str
    title: str
    transmittance: float
    light: float
    walls: int
    index: float
    mass: float
    heat_source: Source
    light_source: Source
    cautions: tuple[str, ...] = ()


def glazing_of(plan: Plan, name: str, own: bool) -> Glazing:
    """The catalogue's sheet of a name; with the building's own figures where `own` (it is the building's sheet)."""
    sheets = table("glazings")
    if "glazings" in plan.yours:
        sheets = sheets.with_yours(plan.yours["glazings"], plan.gallons)
    row, building = sheets[name], plan.building
    transmittance = building.transmittance if own else None
    light = building.passes if own else None
    cautions = row.tag("cautions", ())
    return Glazing(
        name,
        row.title,
        row.si("transmittance") if transmittance is None else transmittance,
        row.si("light") if light is None else light,
        round(row.si("walls")),
        _INDEX.get(str(row.tag("kind")), _OTHER_INDEX),
        row.si("mass"),
        row.figure("transmittance").source if transmittance is None else YOURS,
        row.figure("light").source if light is None else YOURS,
        cautions if isinstance(cautions, tuple) else (),
    )


def sun_through(glazing: Glazing, angle_rad: Array) -> Array:
    """Share of sun or light that clean sheet lets through, by angle to its normal."""
    share = optics.sheet_transmittance(angle_rad, glazing.walls, glazing.index, glazing.light)  # type: ignore[arg-type]  # numbers or arrays
    return np.asarray(share, dtype=float)


def sun_absorbed(glazing: Glazing, angle_rad: Array) -> Array:
    """Share of sun that stays in clean sheet and warms it, by angle to its normal; its absorption is fitted to what
    its maker prints for light let through."""
    pile = optics.fitted_pile(glazing.walls, glazing.index, glazing.light)
    return np.asarray(optics.pile_absorptance(angle_rad, pile), dtype=float)  # type: ignore[arg-type]  # numbers or arrays
