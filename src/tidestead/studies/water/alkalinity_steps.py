"""Lines of working of alkalinity and calcium: used, given by all that brings it, and the two compared."""

from __future__ import annotations

from tidestead.catalog import table
from tidestead.core.answer import Given, Step
from tidestead.core.source import YOURS
from tidestead.plan.model import Plan
from tidestead.studies.checks import given
from tidestead.studies.judged import step
from tidestead.studies.water.alkalinity import CALCIUM, AlkalinityFacts
from tidestead.studies.water.doser_checks import strength_step
from tidestead.studies.water.life_sources import BALANCE, DICKSON, STOICHIOMETRY
from tidestead.studies.water.reactor_told import reactor_step
from tidestead.studies.water.spans import DAY, GRAMS, MILLI

_MEQ = "mol/m3"


def balance_steps(plan: Plan, facts: AlkalinityFacts) -> tuple[Step, ...]:
    """From what each brings in a day to the share of what is used."""
    volume = given("V", facts.volume, "m3")
    steps: list[Step] = []
    parts: list[Given] = []
    for at, one in enumerate((one for one in facts.dosers if one.alkaline), 1):
        symbol, result = f"G_{at}", one.brings.alkalinity / facts.volume
        steps.append(strength_step(one))
        numbers: tuple[Given, ...] = (
            given("v", MILLI * (one.daily or 0.0), "mL/day"),
            given("c", one.stock.alkalinity, "meq/L"),
            volume,
        )
        meaning = f"what {one.key} brings in a day, spread over all the water"
        steps.append(step(symbol, meaning, f"{symbol} = 1e-6*v*c/V", numbers, (result, _MEQ), BALANCE))
        parts.append(given(symbol, result, _MEQ))
    if facts.lime is not None:
        figure = table("water_limits")["carbonate"].figure("limewater")
        result = facts.lime.alkalinity.likely / facts.volume
        numbers = (
            given("E", facts.lime.topped_up.likely / DAY, "m3/s", "day"),
            given("x", facts.lime.share, "1", "share"),
            given("c", table("water_limits")["carbonate"].si("limewater"), "meq/L"),
            volume,
        )
        meaning = "what limewater brings in a day: E is topped up, x of it is limewater that can hold no more"
        steps.append(step("L", meaning, "L = 86400*E*x*c/V", numbers, (result, _MEQ), figure.source))
        parts.append(given("L", result, _MEQ))
    for at, reactor in enumerate(facts.reactors, 1):
        steps.append(reactor_step(f"R_{at}", reactor, facts.volume))
        parts.append(given(f"R_{at}", steps[-1].result, _MEQ))
    parts.append(given("W", facts.changes[0] / facts.volume, _MEQ))
    used = facts.used.alkalinity.likely / facts.volume
    steps.append(_used(plan, facts, used))
    formula = f"r = ({' + '.join(one.symbol for one in parts)})/U"
    whole = (facts.given[0].likely + facts.changes[0]) / facts.used.alkalinity.likely
    meaning = "given over used; W: what changes bring (with minus: take) and losses take in a day"
    steps.append(
        step("r", meaning, formula, (*parts, given("U", used, _MEQ)), (whole, "1", "share"), BALANCE)
    )
    return tuple(steps)


def _used(plan: Plan, facts: AlkalinityFacts, used: float) -> Step:
    if facts.used.measured:
        told = given("u", plan.water.uses_alkalinity or 0.0, _MEQ)
        return step("U", "alkalinity used in a day, by your reading", "U = u", (told,), (used, _MEQ), YOURS)
    numbers = (
        given("U_c", facts.used.corals.likely / facts.volume, _MEQ),
        given("U_n", facts.used.nitrification.likely / facts.volume, _MEQ),
    )
    meaning = "alkalinity used in a day: by corals that grow, and by ammonia that is turned"
    return step("U", meaning, "U = U_c + U_n", numbers, (used, _MEQ), BALANCE)


def calcium_steps(facts: AlkalinityFacts) -> tuple[Step, ...]:
    """Calcium that goes with the alkalinity, or that you have read, and what is given of it."""
    used = facts.used.calcium.likely / facts.volume
    numbers = (
        given("U", facts.used.alkalinity.likely / facts.volume, _MEQ),
        given("U_n", facts.used.nitrification.likely / facts.volume, _MEQ),
        given("m", CALCIUM, "g/mol"),
    )
    meaning = "calcium that corals take in a day: one for two of alkalinity, less what ammonia took (U_n)"
    formula = "Ca = m/2*max(U - U_n, 0)"
    amounts = (
        given("G", facts.given[1].likely / facts.volume, "mg/L"),
        given("W", facts.changes[1] / facts.volume, "mg/L"),
        given("Ca", used, "mg/L"),
    )
    last = (facts.given[1].likely + facts.changes[1]) / facts.used.calcium.likely
    words = (
        "given over used; G: bottles, limewater and reactors, W: what changes bring and losses take in a day"
    )
    first = step("Ca", meaning, formula, numbers, (used, "mg/L"), STOICHIOMETRY)
    if facts.used.calcium_measured:
        told = (given("c", used, "mg/L"),)
        first = step("Ca", "calcium used in a day, by your reading", "Ca = c", told, (used, "mg/L"), YOURS)
    return (
        first,
        step("r", words, "r = (G + W)/Ca", amounts, (last, "1", "share"), BALANCE),
    )


def aragonite_steps(plan: Plan, facts: AlkalinityFacts) -> tuple[Step, ...]:
    """From the pH told to the saturation."""
    system = facts.system
    if (
        system.middle is None
        or system.water is None
        or plan.water.ph is None
        or plan.water.alkalinity is None
    ):
        return ()
    one, calcium = system.middle, system.water.calcium
    scale, total = plan.water.ph.scale, dict(system.scales)["total"]
    density = GRAMS * GRAMS * plan.water.alkalinity / one.alkalinity
    held = calcium if calcium is not None else 0.0
    product = held * one.carbonate / one.aragonite if held else 0.0
    shift = (given("p", plan.water.ph.value, "1"), given("d", total - plan.water.ph.value, "1"))
    steps = [
        step("pH", f"pH on the total scale; d leads there from {scale}", "pH = p + d", shift, (total, "1"), DICKSON),
        step("A_T", "alkalinity in a kilogram", "A_T = 1e6*A/rho",
             (given("A", plan.water.alkalinity, _MEQ), given("rho", density, "kg/m3")),
             (one.alkalinity, "umol/kg"), BALANCE),
    ]  # fmt: skip
    if held:
        numbers = (
            given("Ca", held, "umol/kg"),
            given("k", one.carbonate, "umol/kg"),
            given("K", product, "(umol/kg)2"),
        )
        meaning = "saturation with aragonite; k: carbonate at that pH and alkalinity, K: the product at rest"
        steps.append(step("x", meaning, "x = Ca*k/K", numbers, (one.aragonite, "1"), DICKSON))
    return tuple(steps)
