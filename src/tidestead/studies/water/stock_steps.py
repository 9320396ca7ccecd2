"""Lines of working of the stock: what breathes, what comes in, what the night comes to, what the filter takes."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.catalog import table
from tidestead.core.answer import Given, Step
from tidestead.core.source import PRACTICE, YOURS
from tidestead.physics.water import nutrients as films
from tidestead.physics.water import stock as laws
from tidestead.plan.model import Plan
from tidestead.studies.checks import given
from tidestead.studies.judged import step
from tidestead.studies.water.life_sources import BALANCE, EBELING, MERINO, NIJHOF, RUSTEN, STOICHIOMETRY
from tidestead.studies.water.nutrients import feed_row
from tidestead.studies.water.spans import DAY, GRAMS, HOUR
from tidestead.studies.water.stock_facts import Capacity, Load, StockFacts
from tidestead.studies.water.stocking import fish_now

A_DAY = 24.0


def night_steps(plan: Plan, facts: StockFacts, load: Load, grown: bool) -> tuple[Step, ...]:
    """From the fish to the oxygen of a dark night."""
    steps = [] if facts.measured and not grown else _breath(plan, facts, load, grown)
    steps.append(_all(facts, load, grown))
    clears = [given(f"K_{at}", one.clears.likely, "m3/h") for at, one in enumerate(facts.exchanges, 1)]
    if clears:
        words = "; ".join(f"K_{at} {one.where}, {one.how}" for at, one in enumerate(facts.exchanges, 1))
        formula = "K = " + " + ".join(one.symbol for one in clears)
        meaning = f"water brought back to saturation: {words}"
        steps.append(step("K", meaning, formula, clears, (facts.exchange.likely, "m3/h"), BALANCE))
    if load.oxygen is not None:
        numbers = (
            given("Cs", facts.saturation, "mg/L"),
            given("R", A_DAY * load.uptake.likely, "g/day"),
            given("K", facts.exchange.likely, "m3/h"),
        )
        meaning = "oxygen that a long dark night comes to; Cs: what the warmest water kept holds at rest"
        steps.append(
            step("C", meaning, "C = max(Cs - R/(24*K), 0)", numbers, (load.oxygen.likely, "mg/L"), BALANCE)
        )
    return tuple(steps)


def _breath(plan: Plan, facts: StockFacts, load: Load, grown: bool) -> list[Step]:
    """Fish by fish, corals, bacteria."""
    steps: list[Step] = []
    parts: list[Given] = []
    for key, fish in plan.fish.items():
        mass, each = fish_now(fish, grown)
        if fish.vessel not in load.by_vessel or mass <= 0.0:
            continue
        taken = float(laws.fed_oxygen(each)) * mass
        numbers = (given("W", each, "kg"), given("M", mass, "kg"))
        symbol = f"R_{len(parts) + 1}"
        meaning = f"oxygen that {key} take, fed, on the mean of a day; W each, M all of them"
        formula = f"{symbol} = 15.08*(1000*W)**-0.245*M"
        steps.append(step(symbol, meaning, formula, numbers, (taken, "g/day"), MERINO))
        parts.append(given(symbol, taken, "g/day"))
    if len(parts) > 1:
        formula = "R_f = " + " + ".join(one.symbol for one in parts)
        whole = (A_DAY * load.fish.likely, "g/day")
        steps.append(step("R_f", "all fish", formula, parts, whole, BALANCE))
    if facts.coral_uptake.likely > 0.0:
        steps.append(_corals(facts))
    if load.feed is not None:
        steps += _bacteria(facts, load)
    return steps


def _corals(facts: StockFacts) -> Step:
    figure = table("water_limits")["calcifiers"].figure("breath")
    breath = table("water_limits")["calcifiers"].si("breath")
    area = facts.coral_uptake.likely / (breath * GRAMS * HOUR)
    numbers = (given("b", breath, "kg/(m2 s)"), given("A", area, "m2"))
    meaning = "oxygen that corals take in the dark; A: the ground they cover"
    return step(
        "R_c",
        meaning,
        "R_c = 86.4e6*b*A",
        numbers,
        (A_DAY * facts.coral_uptake.likely, "g/day"),
        figure.source,
    )


def ammonia_step(feed: float, protein: float, made: float) -> Step:
    """From feed to ammonia, g/day."""
    row = feed_row()
    numbers = (
        given("F", feed, "kg/s"),
        given("PC", protein, "1", "share"),
        given("a", row.si("ammonia"), "1"),
    )
    meaning = (
        "ammonia nitrogen that the feed becomes; a: 0.16 of protein is nitrogen, and 0.8*0.8*0.9 of that"
    )
    return step("N", meaning, "N = 86.4e6*F*PC*a", numbers, (made, "g/day"), EBELING)


def _bacteria(facts: StockFacts, load: Load) -> list[Step]:
    """Turning ammonia, and eating what is left of the feed."""
    if load.feed is None or load.ammonia is None:
        return []
    made, fish = A_DAY * load.ammonia.likely, A_DAY * load.fish.likely
    steps = [ammonia_step(load.feed, facts.protein, made)]
    row, result = feed_row(), (A_DAY * load.bacteria.likely, "g/day")
    feed = given("F", load.feed, "kg/s")
    free = 4.57 * made + max(row.si("oxygen") * load.feed * DAY * GRAMS - fish, 0.0)
    if result[0] < 0.999 * free:
        meaning = "oxygen that bacteria take: all that the feed can burn, less what the fish take"
        numbers: tuple[Given, ...] = (
            feed,
            given("c", films.FEED_CARBON, "1"),
            given("PC", facts.protein, "1", "share"),
            given("R_f", fish, "g/day"),
        )
        formula = "R_b = max(86.4e6*F*(2.67*c + 4.57*0.16*PC) - R_f, 0)"
        return [*steps, step("R_b", meaning, formula, numbers, result, STOICHIOMETRY)]
    meaning = (
        "oxygen that bacteria take: 4.57 g for each of nitrogen, and q of the feed less what the fish breathe"
    )
    numbers = (
        given("N", made, "g/day"),
        given("q", row.si("oxygen"), "1"),
        feed,
        given("R_f", fish, "g/day"),
    )
    formula = "R_b = 4.57*N + max(86.4e6*q*F - R_f, 0)"
    return [*steps, step("R_b", meaning, formula, numbers, result, row.figure("oxygen").source)]


def _all(facts: StockFacts, load: Load, grown: bool) -> Step:
    """The sum, or your reading."""
    result = (A_DAY * load.uptake.likely, "g/day")
    if facts.measured and not grown:
        numbers: tuple[Given, ...] = (given("m", load.uptake.likely / HOUR / GRAMS, "kg/s"),)
        return step(
            "R", "oxygen that everything takes, by your reading", "R = 86.4e6*m", numbers, result, YOURS
        )
    if facts.measured:
        more = A_DAY * (load.fish.likely - facts.now.fish.likely)
        numbers = (given("R_0", A_DAY * facts.uptake.likely, "g/day"), given("d", more, "g/day"))
        meaning = "oxygen by your reading, and what the fish take more once they are grown"
        return step("R", meaning, "R = R_0 + max(d, 0)", numbers, result, BALANCE)
    numbers = (
        given("R_f", A_DAY * load.fish.likely, "g/day"),
        given("R_c", A_DAY * facts.coral_uptake.likely, "g/day"),
        given("R_b", A_DAY * load.bacteria.likely, "g/day"),
    )
    return step("R", "oxygen that everything takes: fish, corals, bacteria", "R = R_f + R_c + R_b", numbers, result,
                PRACTICE)  # fmt: skip


@dataclass(frozen=True)
class Spare:
    """Levels that fish are carried to: oxygen that warns, total ammonia that warns (None without a pH); warmth."""

    oxygen: float
    tan: float | None
    temp_c: float


def carried_steps(facts: StockFacts, capacity: Capacity, spare: Spare) -> tuple[Step, ...]:
    """How many fish oxygen, or the filter, carries; likely figures."""
    load = facts.grown
    if capacity.mass is None or load.mass <= 0.0 or load.feed is None:
        return ()
    result = (capacity.mass.likely, "kg")
    if capacity.by == "oxygen":
        each = A_DAY * (load.fish.likely + load.bacteria.likely) / load.mass
        numbers: tuple[Given, ...] = (
            given("K", facts.exchange.likely, "m3/h"), given("Cs", facts.saturation, "mg/L"),
            given("C_w", spare.oxygen, "mg/L"), given("R_c", A_DAY * facts.coral_uptake.likely, "g/day"),
            given("f", each, "g/(kg day)"),
        )  # fmt: skip
        meaning = "fish carried at the oxygen that warns; R_c: corals, f: fish and the bacteria that live on their feed"
        return (step("M", meaning, "M = max(24*K*(Cs - C_w) - R_c, 0)/f", numbers, result, BALANCE),)
    made = load.feed * DAY * GRAMS / load.mass * facts.protein * feed_row().si("ammonia")
    rate = made * capacity.mass.likely / facts.area
    numbers = (given("r", rate, "g/(m2 day)"), given("A", facts.area, "m2"), given("m", made, "g/(kg day)"))
    meaning = "fish carried by the filter; r: what a square metre takes, m: ammonia by the fish's weight"
    last = step("M", meaning, "M = r*A/m", numbers, result, BALANCE)
    if spare.tan is None:
        return (last,)
    quick = films.RATE_PER_KELVIN ** (spare.temp_c - 15.0)
    parts = (
        given("S_w", spare.tan, "mg/L"),
        given("w", quick, "1"),
        given("c", films.SEA_CEILING, "g/(m2 day)"),
    )
    words = "what a square metre takes at the total ammonia that warns, at most the ceiling c; w: quicker by warmth"
    return (step("r", words, "r = min(0.5*0.50*S_w**0.7*w, c)", parts, (rate, "g/(m2 day)"), RUSTEN), last)


def ceiling_step(facts: StockFacts) -> Step:
    """The most that the filter takes, g/day."""
    numbers = (given("r", films.SEA_CEILING, "g/(m2 day)"), given("A", facts.area, "m2"))
    meaning = "the most ammonia nitrogen that grown films of this area take"
    return step("N_max", meaning, "N_max = r*A", numbers, (A_DAY * facts.ceiling, "g/day"), NIJHOF)
