"""What years of heat are run on: house, weather, years, waters and the bench of a plan."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, partial

from tidestead.catalog import table
from tidestead.core.errors import ImpossibleInput
from tidestead.core.weather import Spell, Weather
from tidestead.physics.climate import spells
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.heat import cases
from tidestead.studies.heat.assembly import Basis, assemble, basis_of
from tidestead.studies.heat.running import Runner, kept_of
from tidestead.studies.heat.shell import solid_layers
from tidestead.studies.house import House
from tidestead.studies.inputs import Inputs
from tidestead.studies.light.facts import LightFacts
from tidestead.studies.years import Ensemble, ensemble_of

YOURS_SAID = "yours"
"""Of a spell that the plan states."""

_TIMBER = ("softwood", "plywood", "wood-siding")
_RSI = 0.13
"""Film at a wall inside, m2 K/W. Source: ISO 6946, as quoted."""


@dataclass(frozen=True, eq=False)
class Grounds:
    """One plan with its weather, ready to be run."""

    inputs: Inputs
    house: House
    weather: Weather
    ensemble: Ensemble
    basis: Basis

    @cached_property
    def capacity(self) -> float:
        """Heat that a kelvin of all water stores, J/K."""
        return sum(body.stores for body in assemble(self.basis).bodies)

    @cached_property
    def bench(self) -> cases.Bench:
        """What single years are run on."""
        return cases.Bench(self.basis, self.wanted_c, cases.steps_for(self.basis, self.capacity))

    @property
    def wanted_c(self) -> float:
        """What the heaters keep, else the middle of what is wanted."""
        found = [one.setpoint for one in self.inputs.plan.heaters.values() if one.vessel in self.basis.keys]
        if found:
            return max(found)
        keep = self.inputs.plan.water.keep
        return sum(keep) / 2.0 if keep is not None else 25.0

    @property
    def factor(self) -> float:
        """Temperature factor of the weakest wall with timber in it, f = 1 - U*Rsi; that of timber in the room is 1."""
        worst = 1.0
        for face in self.house.faces:
            if face.behind == "outdoors" and any(layer.material in _TIMBER for layer in face.layers):
                through = 1.0 / (sum(layer.ohms for layer in solid_layers(face.layers)) + 0.17)
                worst = min(worst, 1.0 - through * _RSI)
        return worst

    def runner(self) -> Runner:
        """The plan as it stands, over years."""
        bench = self.bench
        prepared = bench.prepared()
        limit = table("heat_limits")["timber"].si("humidity")
        keep = partial(kept_of, factor=self.factor, limit=limit)
        return Runner(prepared, bench.temps(prepared), self.wanted_c - 4.0, keep)

    def spells(self) -> tuple[Spell, Spell]:
        """Cold spell and heat wave: the plan's, else by what the years or the normals say."""
        plan, years, normals = self.inputs.plan.weather, self.weather.years, self.weather.normals
        if plan.cold_spell is not None:
            cold = Spell(plan.cold_spell.lasts / 86400.0, plan.cold_spell.mean, YOURS_SAID)
        elif years:
            cold = spells.cold_spell_of_years(years)
        else:
            assert normals is not None, "an ensemble was found, so there are years or normals"
            cold = spells.cold_spell_of_normals(normals)
        if plan.heat_wave is not None:
            return cold, Spell(plan.heat_wave.lasts / 86400.0, plan.heat_wave.mean, YOURS_SAID)
        if years:
            return cold, spells.heat_wave_of_years(years)
        assert normals is not None, "an ensemble was found, so there are years or normals"
        return cold, spells.heat_wave_of_normals(normals)


def grounds_of(inputs: Inputs, house: House, flow: FlowFacts, light: LightFacts) -> Grounds | tuple[str, ...]:
    """All of it, or why there is none."""
    weather, missing = inputs.weather, _missing(inputs, house)
    if weather is None or missing:
        return tuple(missing)
    try:
        ensemble = ensemble_of(weather, inputs.plan.weather.years)
    except ImpossibleInput as error:
        return (f"no years can be made from the monthly means: {error}",)
    if ensemble is None:
        return ("the weather has neither years enough nor monthly means",)
    basis = basis_of(inputs.plan, house, flow, light, weather.sun)
    if not basis.waters:
        return ("no vessel holds seawater whose size is known",)
    return Grounds(inputs, house, weather, ensemble, basis)


def _missing(inputs: Inputs, house: House) -> list[str]:
    found = []
    if inputs.weather is None:
        found.append(inputs.no_weather or "there is no weather: add some under [weather]")
    found += [f"{one.key} is not in the plan: {one.why}" for one in (*house.missing, *house.bare)]
    return found
