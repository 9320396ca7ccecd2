"""Lines of working of salt and new water."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.core.answer import Step, Working
from tidestead.core.source import COMPUTED, YOURS
from tidestead.physics import seawater
from tidestead.physics.water import osmosis, salts
from tidestead.studies.checks import given
from tidestead.studies.judged import step
from tidestead.studies.water.batches import BALANCE, MEMBRANE, TEOS
from tidestead.studies.water.salt_facts import Batch, SaltingFacts
from tidestead.studies.water.waters import Recipe, Supply


def mix_working(facts: SaltingFacts, whole: Batch) -> Working:
    """Dry mix and water for all of it."""
    supply = facts.supply
    if supply is not None and supply.sal_psu > whole.recipe.goal.sal_psu:
        return Working("new seawater: thinning what is too salty", tuple(_thinned(whole.recipe, supply)))
    start = 0.0 if supply is None else supply.sal_psu
    return Working("new seawater: salt mix for all the water", tuple(_salted(whole.recipe, facts, start)))


def _weight(recipe: Recipe) -> Step:
    goal = recipe.goal
    rho = float(seawater.density(goal.sal_psu, goal.temp_c))
    return step(
        "M", "weight of all the water, finished", "M = V*rho",
        (given("V", goal.volume, "m3"), given("rho", rho, "kg/m3", "fine")), (goal.volume * rho, "kg"), TEOS,
    )  # fmt: skip


def _salted(recipe: Recipe, facts: SaltingFacts, start_psu: float) -> Iterator[Step]:
    """By weight: M*(SR - SR1) = m*(1000/f - SR1)."""
    weight = _weight(recipe)
    yield weight
    goal, begin = (float(salts.grams_of_salt(one)) for one in (recipe.goal.sal_psu, start_psu))
    yield step(
        "SR", "salt in a kilogram of it", "SR = 35.16504/35*S", (given("S", recipe.goal.sal_psu, "psu"),),
        (goal, "g/kg"), TEOS,
    )  # fmt: skip
    put = [given("M", weight.result, "kg"), given("SR", goal, "g/kg"), given("f", facts.factor.likely, "1")]
    formula = "m = M*SR*f/1000"
    if begin > 0.0:
        formula = "m = M*(SR - SR1)/(1000/f - SR1)"
        put.append(given("SR1", begin, "g/kg"))
    yield step(
        "m",
        "dry mix, f being its weight over that of its salt",
        formula,
        put,
        (recipe.mix.likely, "kg"),
        BALANCE,
    )
    numbers = (given("M", weight.result, "kg"), given("m", recipe.mix.likely, "kg"))
    yield step(
        "w", "water of the source, by weight", "w = M - m", numbers, (recipe.source_mass, "kg"), BALANCE
    )


def _thinned(recipe: Recipe, supply: Supply) -> Iterator[Step]:
    """By weight: M*S = M1*S1."""
    weight = _weight(recipe)
    yield weight
    numbers = (
        given("M", weight.result, "kg"), given("S", recipe.goal.sal_psu, "psu"), given("S1", supply.sal_psu, "psu"),
    )  # fmt: skip
    yield step(
        "M1", "water of the source, by weight", "M1 = M*S/S1", numbers, (recipe.source_mass, "kg"), BALANCE
    )
    parts = (given("M", weight.result, "kg"), given("M1", recipe.source_mass, "kg"))
    fresh = weight.result - recipe.source_mass
    yield step("w", "fresh water that thins it", "w = M - M1", parts, (fresh, "kg"), BALANCE)


def making_working(facts: SaltingFacts) -> Iterator[Working]:
    """What a membrane takes for a load."""
    supply, load = facts.supply, facts.load
    if supply is None or load is None or load.making is None or supply.kind != "osmosis":
        return
    yield Working("new seawater: the membrane", tuple(membrane_steps(supply, load)))


def membrane_steps(supply: Supply, load: Batch) -> Iterator[Step]:
    """Slowed by the cold, with its waste."""
    if supply.rated is None or load.making is None:
        return
    yield flow_step(supply)
    numbers = (given("V", load.recipe.source, "m3"), given("q", supply.flow or 0.0, "m3/s"))
    yield step("t", "time for the fresh water of a load", "t = V/q", numbers, (load.making, "s"), COMPUTED)
    numbers = (given("V", load.recipe.source, "m3"), given("r", supply.share, "1"))
    yield step(
        "W",
        "water to waste, r the share that comes out good",
        "W = V*(1 - r)/r",
        numbers,
        (load.reject, "m3"),
        BALANCE,
    )


def flow_step(supply: Supply) -> Step:
    """What a source gives; a membrane by the temperature of its water."""
    if supply.kind != "osmosis" or supply.rated is None:
        flow = supply.flow or 0.0
        return step(
            "q", f"what {supply.key} gives", "q = q0", (given("q0", flow, "m3/s"),), (flow, "m3/s"), YOURS
        )
    factor = float(osmosis.membrane_factor(supply.temp_c))
    slope = 3020.0 if supply.temp_c < 25.0 else 2640.0  # where the makers' law turns
    numbers = (
        given("q25", supply.rated, "m3/s"), given("B", slope, "1"), given("t", supply.temp_c, "degC"),
    )  # fmt: skip
    return step(
        "q", f"flow of {supply.key}, a membrane; t of the water it is fed, in degrees Celsius",
        "q = q25*exp(B*(1/298 - 1/(t + 273)))", numbers, (supply.rated * factor, "m3/s"), MEMBRANE,
    )  # fmt: skip
