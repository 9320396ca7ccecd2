"""What the heat study takes where the plan is silent, each with the key that would say otherwise."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.catalog import table
from tidestead.core.answer import Assumption
from tidestead.core.source import COMPUTED, PRACTICE
from tidestead.core.units import show
from tidestead.core.weather import Spell, Weather
from tidestead.plan.model import Plan
from tidestead.studies.heat.assembly import MIXED_WITHIN, Basis
from tidestead.studies.heat.shell import NEIGHBOUR_C
from tidestead.studies.house import House


def assumptions_of(
    plan: Plan, house: House, basis: Basis, weather: Weather, spells: tuple[Spell, Spell]
) -> Iterator[Assumption]:
    """All of them."""
    yield from house.assumptions
    yield from _building(plan, house)
    yield from _water(plan, basis)
    yield from _weather(plan, weather, spells)


def _building(plan: Plan, house: House) -> Iterator[Assumption]:
    if house.open:
        return
    silent, system = table("heat_limits")["silent"], plan.show
    if plan.building.infiltration is None:
        rate = f"{silent.si('infiltration') * 3600.0:g} air changes an hour"
        why = "draughts with everything shut"
        yield Assumption("building.infiltration", rate, why, silent.figure("infiltration").source)
    if not plan.building.floor.layers:
        thick = show(silent.si("slab"), "m", system, "sheet")
        yield Assumption(
            "building.floor.layers", f"{thick} of concrete", "the floor", silent.figure("slab").source
        )
    if plan.building.floor.soil is None:
        yield Assumption("building.floor.soil", "sand or gravel", "the ground under it", PRACTICE)
    for face in house.faces:
        if face.behind == "building" and face.beyond_c is None:
            words = show(NEIGHBOUR_C, "degC", system)
            yield Assumption(f"building.sides.{face.name}.beyond", words, "the building behind it", PRACTICE)
    if plan.building.shade is not None and "hangs" not in plan.building.shade.model_fields_set:
        why = f"{100.0 * silent.si('shade_warms'):.0f} % of what the shade keeps out warms the house all the same"
        yield Assumption("building.shade.hangs", "inside", why, silent.figure("shade_warms").source)
    vents = plan.building.vents
    if vents is not None and vents.rate is None and vents.area is not None and vents.height is None:
        yield Assumption(
            "building.vents.height", "from a third of the eaves to the ridge", "rise of vents", PRACTICE
        )


def _water(plan: Plan, basis: Basis) -> Iterator[Assumption]:
    silent = table("heat_limits")["silent"]
    for name, pump in plan.pumps.items():
        if pump.power is not None and pump.heats_water is None:
            share = f"{100.0 * silent.si('pump_share'):.0f} %"
            source = silent.figure("pump_share").source
            yield Assumption(f"pumps.{name}.heats_water", share, "of its power ends in the water", source)
    for name, one in plan.apparatus.items():
        if one.kind == "uv" and one.uvc is not None:
            power = show(one.uvc / silent.si("lamp_yield"), "W", plan.show)
            why = "electric power of its lamp, nine tenths of it heat in the water"
            yield Assumption(f"apparatus.{name}.uvc", power, why, silent.figure("lamp_yield").source)
    if basis.apart is None:
        why = "the flow between vessels is not known: all of them count as one body of water"
        yield Assumption("circuits", "well mixed", why, PRACTICE)
    elif len(basis.groups) == 1 and len(basis.keys) > 1:
        apart = show(basis.apart, "K", plan.show)
        why = f"with all heaters on they differ by {apart}, less than {show(MIXED_WITHIN, 'K', plan.show)}"
        yield Assumption("circuits", "vessels that lines join are one body of water", why, COMPUTED)
    for name, heater in plan.heaters.items():
        if heater.band is None:
            yield Assumption(f"heaters.{name}.band", show(0.5, "K", plan.show), "from on to off", PRACTICE)
    if plan.covers:
        source = silent.figure("cover_resistance").source
        resistance = show(silent.si("cover_resistance"), "m2 K/W", plan.show)
        yield Assumption("covers", resistance, "what a cover and the air under it hold back", source)


def _weather(plan: Plan, weather: Weather, spells: tuple[Spell, Spell]) -> Iterator[Assumption]:
    cold, hot = spells
    for key, given, spell in (
        ("weather.cold_spell", plan.weather.cold_spell, cold),
        ("weather.heat_wave", plan.weather.heat_wave, hot),
    ):
        if given is None:
            words = f"{spell.days:g} days of {show(spell.mean_c, 'degC', plan.show)}"
            yield Assumption(key, words, spell.told or weather.words, PRACTICE)
