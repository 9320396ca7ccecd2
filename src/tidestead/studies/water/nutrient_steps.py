"""Lines of working of nutrients: what feed becomes, what leaves, where the level comes to."""

from __future__ import annotations

import math

from tidestead.core.answer import Step
from tidestead.physics.water import nutrients as laws
from tidestead.studies.checks import given
from tidestead.studies.judged import step
from tidestead.studies.water.life_sources import BALANCE, STOICHIOMETRY
from tidestead.studies.water.nutrients import FAR, NutrientFacts, NutrientLevel, feed_row
from tidestead.studies.water.spans import DAY, GRAMS
from tidestead.studies.water.stock_steps import ammonia_step


def level_steps(facts: NutrientFacts, level: NutrientLevel) -> tuple[Step, ...]:
    """From the feed to the level that is judged."""
    made = _nitrate(facts, level) if level.name == "nitrate" else _phosphate(facts, level)
    return (*made, *_taken(facts, level), *_leaving(facts, level), _comes_to(level))


def _nitrate(facts: NutrientFacts, level: NutrientLevel) -> tuple[Step, ...]:
    if facts.feed is None or facts.ammonia is None:
        return ()
    ion = float(laws.nitrate_ion(1.0))
    numbers = (given("n", ion, "1"), given("N", facts.ammonia.likely, "g/day"))
    meaning = "nitrate made of it, all ammonia being turned; n: weight of the ion for each of its nitrogen"
    return (
        ammonia_step(facts.feed, facts.protein, facts.ammonia.likely),
        step("P", meaning, "P = n*N", numbers, (level.made.likely, "g/day"), STOICHIOMETRY),
    )


def _phosphate(facts: NutrientFacts, level: NutrientLevel) -> tuple[Step, ...]:
    row, feed = feed_row(), facts.feed or 0.0
    ion, kept = float(laws.phosphate_ion(1.0)), row.si("kept")
    content = level.made.likely / (feed * DAY * GRAMS * kept * ion) if feed > 0.0 else row.si("phosphorus")
    numbers = (given("F", feed, "kg/s"), given("c", content, "1", "share"), given("s", kept, "1", "share"),
               given("n", ion, "1"))  # fmt: skip
    meaning = (
        "phosphate made: c phosphorus in the feed, s stays in the water, n weight of the ion for each of it"
    )
    source = row.figure("phosphorus").source
    return (step("P", meaning, "P = 86.4e6*F*c*s*n", numbers, (level.made.likely, "g/day"), source),)


def _taken(facts: NutrientFacts, level: NutrientLevel) -> tuple[Step, ...]:
    """What each load and harvest takes in a day, and all of it as the ion."""
    nitrate = level.name == "nitrate"
    steps: list[Step] = []
    for one in facts.exports.takings:
        dry, *contents = one.shares
        goes, content = (one.nitrogen, contents[1]) if nitrate else (one.phosphorus, contents[0])
        if goes.likely > 0.0:
            symbol = f"U_{len(steps) + 1}"
            numbers = (
                given("m", one.mass, "kg"),
                given("d", dry.likely, "1", "share"),
                given("c", content.likely, "1"),
                given("D", one.every * DAY, "s"),
            )
            what = "nitrogen" if nitrate else "phosphorus"
            meaning = f"{what} that {one.path} takes: d of its weight m is dry, c of that is {what}, each D"
            result = (goes.likely, "g/day")
            steps.append(step(symbol, meaning, f"{symbol} = 86.4e6*m*d*c/D", numbers, result, one.source))
    if not steps:
        return ()
    ion = float((laws.nitrate_ion if nitrate else laws.phosphate_ion)(1.0))
    parts = tuple(given(one.symbol, one.result, "g/day") for one in steps)
    formula = f"U = n*({' + '.join(one.symbol for one in steps)})"
    meaning = "taken, as the ion; n: weight of the ion for each of it"
    whole = step(
        "U", meaning, formula, (given("n", ion, "1"), *parts), (level.taken.likely, "g/day"), STOICHIOMETRY
    )
    return (*steps, whole)


def _leaving(facts: NutrientFacts, level: NutrientLevel) -> tuple[Step, ...]:
    """Water that leaves in a second, for good."""
    out, volume = facts.exports, level.balances[1].volume
    lost = given("q", out.lost / DAY, "m3/s", "day")
    if out.every <= 0.0:
        meaning = "water that leaves: skimmate, splash and leaks; the plan has no changes"
        return (step("Q", meaning, "Q = q", (lost,), (out.renewed / DAY, "m3/s", "day"), BALANCE),)
    numbers = (
        given("f", out.share, "1", "share"),
        given("V", volume, "m3"),
        given("D", out.every * DAY, "s"),
        lost,
    )
    meaning = "water that leaves: changes (f of the old water each D) spread over the days, and skimmate, splash, leaks"
    return (step("Q", meaning, "Q = f*V/D + q", numbers, (out.renewed / DAY, "m3/s", "day"), BALANCE),)


def _comes_to(level: NutrientLevel) -> Step:
    """Where it settles; where nothing leaves, what it is in ten years."""
    one, result = level.balances[1], (level.judged.likely, "mg/L")
    made = [given("P", one.made, "g/day")]
    comes = "P"
    if one.uptake > 0.0:
        made.append(given("U", one.uptake, "g/day"))
        comes = "max(P - U, 0)"
    if math.isfinite(level.settled.likely):
        numbers = [*made, given("Q", one.renewed / DAY, "m3/s", "day")]
        formula, meaning = f"C = {comes}/(86400*Q)", "level that it settles at, just before a change"
        if one.pace > 0.0:
            numbers += [given("k", one.pace, "1/day"), given("V", one.volume, "m3")]
            formula = f"C = {comes}/(86400*Q + k*V)"
            meaning += "; k: share of all nitrate that filters without air take in a day"
        return step("C", meaning, formula, numbers, result, BALANCE)
    numbers = [
        given("C0", level.start, "mg/L"),
        *made,
        given("t", FAR * DAY, "s"),
        given("V", one.volume, "m3"),
    ]
    meaning = "nothing leaves, so that it never settles; level in ten years"
    return step("C", meaning, f"C = C0 + {comes}*t/86400/V", numbers, result, BALANCE)
