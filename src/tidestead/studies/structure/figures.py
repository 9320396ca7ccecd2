"""Totals: water, weight, push, and the highest safe water."""

from __future__ import annotations

from tidestead.core.answer import Estimate, Figure
from tidestead.core.dims import G
from tidestead.core.source import COMPUTED, STATICS
from tidestead.studies.structure.facts import StructureFacts, VesselFacts
from tidestead.studies.structure.ground_checks import plan_area


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


def _figure(ident: str, what: str, value: float, unit: str, style: str = "", basis: str = "") -> Figure:
    return Figure(ident, what, Estimate.exact(value, basis), unit, COMPUTED if basis else STATICS, style)


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
    for words, level in (("as found", vessel.level), ("as drawn", vessel.level_as_drawn)):
        if level is None:
            continue
        mark = words.replace(" ", "_")
        for what, depth in (
            ("every check that depends on the level sound", level.sound),
            ("nothing that depends on it failing", level.holds),
        ):
            value = depth if depth is not None else 0.0
            stop = f"stopped by {level.governs_where}: {level.governs}" if level.governs else "the brim"
            ident = f"structure.{key}.level.{mark}.{'sound' if depth is level.sound and 'every' in what else 'holds'}"
            found.append(
                _figure(ident, f"{key}: highest water today ({words}) with {what}", value, "m", "level", stop)
            )
    return found
