"""Is there light enough to grow? Daylight at every group of corals over years of weather, and lamps."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.catalog import Row, table
from tidestead.core.answer import Answer, Estimate
from tidestead.core.errors import ImpossibleInput
from tidestead.core.source import YOURS
from tidestead.core.weather import Weather
from tidestead.physics.light import attenuation
from tidestead.plan.model import Plan
from tidestead.plan.model.warmth import Coral
from tidestead.studies.house import House, drawn_for_light, house_of, water_light
from tidestead.studies.inputs import Inputs
from tidestead.studies.light.assumptions import assumptions_of
from tidestead.studies.light.clarity import clarity_of
from tidestead.studies.light.facts import Band, Clarity, CoralLight, LightFacts
from tidestead.studies.light.falling import Sky, day_lengths, on_water, sky_of
from tidestead.studies.light.group import Place, group_of
from tidestead.studies.light.lighting import heat_of, lamp_facts, lighting_of
from tidestead.studies.light.told import tell
from tidestead.studies.years import USUAL, Ensemble, ensemble_of

_DARK = (0.0,) * 12
_MOST_YEARS = 100
"""Years that light is followed through: months of light settle with few, and all are held at once."""


def find(inputs: Inputs) -> LightFacts:
    """Light at every group of corals that can be told, and why it cannot for the others."""
    plan = inputs.plan
    house, clarity = house_of(plan), clarity_of(plan)
    lamps = lamp_facts(plan)
    water, air = heat_of(plan, lamps)
    weather, ensemble, why = _years(inputs)
    groups: list[CoralLight] = []
    missing: list[tuple[str, str]] = []
    notes: dict[str, None] = {}
    if weather is not None and ensemble is not None and not clarity.missing:
        scene = _Scene(plan, house, weather, ensemble, sky_of(ensemble.years), clarity)
        for key, coral in plan.corals.items():
            found, said = _group(scene, key, coral)
            notes.update(dict.fromkeys(said))
            if isinstance(found, str):
                missing.append((key, found))
            else:
                groups.append(found)
    else:
        missing += [(key, why or clarity.missing) for key in plan.corals]
    return LightFacts(
        tuple(groups),
        tuple(missing),
        clarity,
        lamps,
        water,
        air,
        _floor_heat(plan),
        _DARK if weather is None else day_lengths(weather.sun),
        "" if ensemble is None else ensemble.words,
        "" if weather is None else weather.words,
        None if weather is None else weather.source,
        (*notes, *(() if weather is None else (*weather.notes, *weather.tried))),
        tuple(assumptions_of(plan, house, clarity)),
    )


def judge(inputs: Inputs, facts: LightFacts) -> Answer:
    """Checks, sentence, working, tables, charts."""
    return tell(inputs, facts)


@dataclass(frozen=True, eq=False)
class _Scene:
    """What all groups have in common."""

    plan: Plan
    house: House
    weather: Weather
    ensemble: Ensemble
    sky: Sky
    clarity: Clarity


def _years(inputs: Inputs) -> tuple[Weather | None, Ensemble | None, str]:
    """Weather and the years to try, or why there are none."""
    weather = inputs.weather
    if weather is None:
        return None, None, inputs.no_weather or "there is no weather: add some under [weather]"
    try:
        ensemble = ensemble_of(weather, min(inputs.plan.weather.years or USUAL, _MOST_YEARS))
    except ImpossibleInput as error:
        return weather, None, f"no years can be made from the monthly means: {error}"
    why = "" if ensemble is not None else "the weather has neither years enough nor monthly means"
    return weather, ensemble, why


def _group(scene: _Scene, key: str, coral: Coral) -> tuple[CoralLight | str, tuple[str, ...]]:
    """One group, or why nothing can be said of it; and what was taken for granted."""
    plan, vessel = scene.plan, scene.plan.vessels.get(coral.vessel)
    if vessel is None:
        return f"there is no vessel {coral.vessel}", ()
    if vessel.water is None:
        return f"say how deep the water is: vessels.{coral.vessel}.water", ()
    if coral.depth[1] > vessel.water:
        return "it is said to sit deeper than the water of its vessel", ()
    light = water_light(scene.house, vessel, scene.weather.sun)
    if light.missing:
        return light.missing, ()
    covers = [cover for cover in plan.covers.values() if cover.over == coral.vessel]
    shaded = drawn_for_light(plan.building.shade)
    surface = on_water(light, shaded, covers, scene.weather.sun)
    lighting = lighting_of(plan, coral.vessel, vessel, coral.area)
    place = Place(key, coral, band_of(plan, coral), surface, lighting, scene.clarity.rate)
    typical = scene.weather.years if scene.weather.typical and scene.ensemble.made else ()
    said = tuple(f"{coral.vessel}: {note}" for note in light.notes)
    return group_of(place, scene.weather.sun, scene.sky, scene.ensemble.words, typical), said


def band_of(plan: Plan, coral: Coral) -> Band:
    """The catalogue's band, or the plan's own."""
    rows = table("corals")
    if "corals" in plan.yours:
        rows = rows.with_yours(plan.yours["corals"], plan.gallons)
    row = rows[coral.kind]
    least, most = (row.si("least"), row.si("most")) if coral.wants is None else coral.wants
    source = row.figure("least").source if coral.wants is None else YOURS
    return Band(
        coral.kind,
        row.title,
        least,
        most,
        row.si("harm"),
        row.si("peak"),
        source,
        row.figure("harm").source,
        row.figure("peak").source,
        () if coral.wants is not None else _cautions(row),
    )


def _cautions(row: Row) -> tuple[str, ...]:
    found = row.tag("cautions", ())
    return found if isinstance(found, tuple) else ()


def _floor_heat(plan: Plan) -> dict[str, Estimate]:
    """Share of the sun's heat that reaches the floor of each vessel with corals, for clear and for coastal water."""
    found = {}
    for coral in plan.corals.values():
        vessel = plan.vessels.get(coral.vessel)
        if vessel is not None and vessel.water is not None:
            ends = [
                float(attenuation.heat_left(vessel.water, one))
                for one in (attenuation.CLEAR_OCEAN, attenuation.COASTAL)
            ]
            middle = sum(ends) / 2.0
            found[coral.vessel] = Estimate(min(ends), middle, max(ends), "clear ocean to coastal water")
    return found
