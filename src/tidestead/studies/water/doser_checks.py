"""Judging bottles: all of it at once, whether the stock dissolves, and what must not meet in one vessel."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.catalog import Row, table
from tidestead.core.answer import Column, Step, Table
from tidestead.core.source import PRACTICE
from tidestead.core.units import System, advised
from tidestead.studies.checks import At, Limit, above, below, given, unproven
from tidestead.studies.judged import Judged, step
from tidestead.studies.water.alkalinity import AlkalinityFacts
from tidestead.studies.water.dosing import DoserFacts
from tidestead.studies.water.life_sources import BALANCE, DICKSON, STOICHIOMETRY
from tidestead.studies.water.spans import GRAMS, MILLI

BURNS = "Limewater stands at pH 12.4 and burns eyes and skin; never give more of it than evaporates."


def row() -> Row:
    """What alkalinity, calcium and magnesium are held against."""
    return table("water_limits")["carbonate"]


def doser_at(key: str) -> At:
    """A bottle as a part of the plan."""
    return At(f"dosers.{key}", f"doser {key}", "water", f"dosers.{key}")


def judged(facts: AlkalinityFacts, system: System) -> Iterator[Judged]:
    """Every bottle, and the vessel that two of them share."""
    for one in facts.dosers:
        if one.alkaline:
            yield _bottle(facts, one, system)
            yield _falls_out(facts, one)
        yield _dissolves(one)
    if any(one.alkaline for one in facts.dosers) and any(one.has_calcium for one in facts.dosers):
        yield _same_vessel(facts)


def strength_step(one: DoserFacts) -> Step:
    """Alkalinity in a volume of the stock."""
    numbers = (
        given("n", one.row.si("equivalents"), "1"),
        given("s", one.strength, "g/L"),
        given("M", GRAMS * one.row.si("molar_mass"), "g/mol"),
    )
    meaning = (
        f"alkalinity of the stock: s of {one.row.title.lower()} in a litre, n charges and M grams in a mole"
    )
    return step("c", meaning, "c = 1000*n*s/M", numbers, (one.stock.alkalinity, "meq/L"), STOICHIOMETRY)


def _bottle(facts: AlkalinityFacts, one: DoserFacts, system: System) -> Judged:
    figure = row().figure("rise")
    limit = Limit(row().si("rise"), figure.source, "a step that corals are said to bear")
    safe = "" if one.safe is None else advised(one.safe, "m3", system, "down")
    check = below(
        doser_at(one.key),
        "bottle",
        "alkalinity rises if the whole bottle runs out",
        one.rise,
        "mol/m3",
        limit,
        advice=f"a bottle of at most {safe}, or a weaker stock that fills it",
        cautions=_cautions(one),
    )
    numbers = (
        given("B", one.bottle, "m3"),
        given("c", one.stock.alkalinity, "meq/L"),
        given("V", facts.volume, "m3"),
    )
    meaning = "rise of alkalinity with all of the bottle B in the water"
    last = step("A", meaning, "A = B*c/V", numbers, (one.rise, "mol/m3"), BALANCE)
    return Judged(check, (strength_step(one), last), by_level=False)


def _falls_out(facts: AlkalinityFacts, one: DoserFacts) -> Judged:
    """Saturation with aragonite after the bottle, against what falls out by itself."""
    at, what = doser_at(one.key), "saturation with aragonite after the whole bottle"
    figure = row().figure("precipitates")
    if one.after is None:
        why = facts.system.why or "the water after it cannot be worked out"
        return Judged(unproven(at, "saturation", what, "1", why, figure.source), by_level=False)
    level = row().si("precipitates")
    limit = Limit(level, figure.source, "above it carbonate falls out by itself, by practice")
    cautions = (f"pH {one.after.ph:.2f} (total scale) at once; the air brings it back within a day or so.",)
    advice = "a smaller bottle or a weaker stock"
    check = below(at, "saturation", what, one.after.aragonite, "1", limit, advice=advice, cautions=cautions)
    return Judged(check, _after_steps(facts, one), by_level=False)


def _after_steps(facts: AlkalinityFacts, one: DoserFacts) -> tuple[Step, ...]:
    """Alkalinity and carbon after the bottle; the rest by the equations of the guide."""
    before, after = facts.system.middle, one.after
    if before is None or after is None:
        return ()
    added = after.alkalinity - before.alkalinity
    unit = "umol/kg"
    alkaline = (given("A_0", before.alkalinity, unit), given("a", added, unit))
    carbon = (given("C_0", before.dic, unit), given("r", one.carbon, "1"), given("a", added, unit))
    meaning = "dissolved carbon: r moles of it come with each equivalent"
    return (
        step(
            "A_T",
            "alkalinity with all of the bottle",
            "A_T = A_0 + a",
            alkaline,
            (after.alkalinity, unit),
            BALANCE,
        ),
        step("C_T", meaning, "C_T = C_0 + r*a", carbon, (after.dic, unit), STOICHIOMETRY),
        step(
            "x",
            "saturation with aragonite: carbonate that these two leave, times calcium, over their product at rest",
            "x = x_0*k/k_0",
            (
                given("x_0", before.aragonite, "1"),
                given("k", after.carbonate, unit),
                given("k_0", before.carbonate, unit),
            ),
            (after.aragonite, "1"),
            DICKSON,
        ),
    )


def _cautions(one: DoserFacts) -> tuple[str, ...]:
    found = one.row.tag("cautions", ())
    return tuple(map(str, found)) if isinstance(found, tuple) else ()


def _dissolves(one: DoserFacts) -> Judged:
    """Whether so much goes into solution."""
    figure = one.row.figure("solubility")
    limit = Limit(one.solubility, figure.source, "in cold water", near=0.1)
    check = below(
        doser_at(one.key),
        "dissolves",
        "strength of the stock against what water dissolves",
        one.strength,
        "g/L",
        limit,
        advice="a weaker stock, and more of it a day",
    )
    return Judged(check, (), by_level=False)


def _same_vessel(facts: AlkalinityFacts) -> Judged:
    """Carbonate and calcium stock in one vessel make chalk at the outlets."""
    vessels = {one.vessel for one in facts.dosers if one.alkaline or one.has_calcium}
    count = 1 if facts.sharing else max(len(vessels), 2)
    minutes = row().si("settles_apart") / 60.0
    limit = Limit(2.0, PRACTICE, "one for each stock", near=0.0)
    cautions: tuple[str, ...] = ()
    if facts.sharing:
        cautions = (
            f"Alkaline and calcium stock both go into the {' and the '.join(facts.sharing)}: where they meet before "
            "they are thinned, chalk falls out, clogs pumps and is lost to the corals.",
        )
    check = above(
        At("dosers", "dosers", "water", "dosers"),
        "same_vessel",
        "vessels that alkaline and calcium stock are given to",
        float(count),
        "count",
        limit,
        advice=(
            "give one of them into another vessel; or strong flow between their outlets, and one at least "
            f"{minutes:.0f} minutes after the other"
        ),
        cautions=cautions,
    )
    return Judged(check, (), by_level=False)


def doser_table(facts: AlkalinityFacts) -> Table:
    """Every bottle with what it brings, what would hold, and what all of it does."""
    columns = (
        Column("doser"), Column("into"), Column("reagent"), Column("stock", "g/L"), Column("given", "mL/day"),
        Column("alkalinity a day", "mol/m3"), Column("calcium a day", "mg/L"), Column("would hold", "mL/day"),
        Column("bottle", "m3"), Column("raises alkalinity", "mol/m3"), Column("raises calcium", "mg/L"),
        Column("largest safe bottle", "m3"), Column("pH after it (total)"), Column("aragonite after it"),
    )  # fmt: skip
    hold = {**dict(facts.hold_calcium), **dict(facts.hold)}
    rows: list[tuple[float | str | None, ...]] = []
    for one in facts.dosers:
        rows.append(
            (
                one.key,
                one.vessel,
                one.row.title,
                one.strength,
                None if one.daily is None else MILLI * one.daily,
                one.brings.alkalinity / facts.volume,
                one.brings.calcium / facts.volume,
                MILLI * hold[one.key] if one.key in hold else None,
                one.bottle,
                one.rise if one.alkaline else None,
                one.calcium_rise if one.has_calcium else None,
                one.safe,
                None if one.after is None else f"{one.after.ph:.2f}",
                None if one.after is None else f"{one.after.aragonite:.1f}",
            )
        )
    note = (
        "A bottle that runs out at once, well mixed, before the air takes or gives CO2; worse at its outlet."
    )
    return Table("water.dosers", "what bottles bring, and what all of one does", columns, tuple(rows), note)
