"""Totals: water, weight, push."""

from __future__ import annotations

from tidestead.core.answer import Estimate, Figure
from tidestead.core.dims import G
from tidestead.core.source import STATICS
from tidestead.studies.structure.facts import StructureFacts, VesselFacts
from tidestead.studies.vessels import plan_area


def figures_of(facts: StructureFacts) -> tuple[Figure, ...]:
    """Figures of every vessel, bought ones too."""
    found: list[Figure] = []
    for vessel in facts.built:
        found += _built(vessel)
    for key, (bought, water) in facts.bought.items():
        if bought.water is not None:
            volume = plan_area(bought) * bought.water
            found.append(_figure(f"structure.{key}.volume", f"{key}: water in service", volume, "m3"))
            found.append(
                _figure(f"structure.{key}.mass", f"{key}: mass of its water", volume * water.density, "kg")
            )
    return tuple(found)


def _figure(ident: str, what: str, value: float, unit: str) -> Figure:
    return Figure(ident, what, Estimate.exact(value), unit, STATICS)


def _built(vessel: VesselFacts) -> list[Figure]:
    if not vessel.cases:
        return []
    key, service = vessel.subject.key, vessel.cases[0]
    standing = service.standing
    found = [
        _figure(f"structure.{key}.density", f"{key}: density of its water", vessel.water.density, "kg/m3"),
        _figure(f"structure.{key}.volume", f"{key}: water in service", standing.volume, "m3"),
        _figure(f"structure.{key}.mass", f"{key}: mass, full", standing.water_mass + standing.own_mass, "kg"),
        _figure(
            f"structure.{key}.weight",
            f"{key}: weight, full",
            (standing.water_mass + standing.own_mass) * G,
            "N",
        ),
        _figure(
            f"structure.{key}.floor",
            f"{key}: pressure on its floor",
            service.case.weight * service.case.level,
            "Pa",
        ),
    ]
    for name, loads in service.walls.items():
        push = loads.weight * loads.depth**2 / 2.0 * loads.place.length
        found.append(_figure(f"structure.{key}.{name}.push", f"{key}: push on the {name} wall", push, "N"))
    return found
