"""What is told of calcium reactors: a line of working, a table, figures, what is assumed, and what is to be feared."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.catalog import table
from tidestead.core.answer import Assumption, Column, Estimate, Figure, Step, Table
from tidestead.plan.model import Plan
from tidestead.studies.checks import given
from tidestead.studies.judged import step
from tidestead.studies.water.alkalinity import AlkalinityFacts
from tidestead.studies.water.doser_checks import row
from tidestead.studies.water.life_sources import BALANCE
from tidestead.studies.water.reactors import Flows, ReactorFacts
from tidestead.studies.water.spans import GRAMS

_SOUR = (
    "What leaves a calcium reactor is sour and full of carbon dioxide: it lowers the pH of the water, most by night "
    "and under covers. That is not counted here; measure the pH before dawn, give the outflow where air is driven "
    "through the water, and stop the gas by the pH of the water."
)


def reactor_step(symbol: str, one: ReactorFacts, volume: float) -> Step:
    """What one brings in a day, spread over all the water."""
    numbers = (
        given("Q", GRAMS * one.flow, "L/day"),
        given("A_out", one.leaving, "meq/L"),
        given("A_tank", one.entering, "meq/L"),
        given("V", volume, "m3"),
    )
    meaning = f"what reactor {one.key} brings in a day, spread over all the water"
    formula = f"{symbol} = 1e-3*Q*(A_out - A_tank)/V"
    return step(symbol, meaning, formula, numbers, (one.brings.alkalinity / volume, "mol/m3"), BALANCE)


def reactor_words(flows: Flows) -> str:
    """The flow through each that would hold the level with the bottles as they are set."""
    if not any(flow for _, flow in flows):
        return "no flow through the reactor: without it the rest brings enough or more"
    told = ", ".join(f"{GRAMS * flow:.3g} L a day through reactor {key}" for key, flow in flows)
    return f"{told}, if what comes out keeps its strength: it weakens as the flow grows, so test it again"


def reactor_figures(facts: AlkalinityFacts) -> Iterator[Figure]:
    """What each brings, and the flow that would hold the alkalinity."""
    flows = dict(facts.hold_flow)
    for one in facts.reactors:
        ident, brings = f"water.reactors.{one.key}", Estimate.exact(one.brings.alkalinity / facts.volume)
        yield Figure(f"{ident}.brings", f"{one.key}: alkalinity brought in a day", brings, "mol/m3", BALANCE)
        if one.key in flows:
            words, flow = (
                f"{one.key}: flow that would hold alkalinity",
                Estimate.exact(GRAMS * flows[one.key]),
            )
            yield Figure(f"{ident}.holds", words, flow, "L/day", BALANCE)


def reactor_table(facts: AlkalinityFacts) -> Table:
    """Every reactor with what it brings and the flow that would hold."""
    columns = (
        Column("reactor"), Column("into"), Column("flow", "L/day"), Column("alkalinity in", "mol/m3"),
        Column("alkalinity out", "mol/m3"), Column("alkalinity a day", "mol/m3"), Column("calcium a day", "mg/L"),
        Column("would hold", "L/day"),
    )  # fmt: skip
    flows = dict(facts.hold_flow)
    rows = tuple(
        (
            one.key,
            one.vessel,
            GRAMS * one.flow,
            one.entering,
            one.leaving,
            one.brings.alkalinity / facts.volume,
            one.brings.calcium / facts.volume,
            GRAMS * flows[one.key] if one.key in flows else None,
        )
        for one in facts.reactors
    )
    note = (
        "Calcium is one for two of alkalinity, as chalk dissolves. The flow that would hold alkalinity is worked out "
        "with the bottles as they are set, and with what comes out as strong as it is now."
    )
    return Table("water.reactors", "what calcium reactors bring", columns, rows, note)


def reactor_assumptions(plan: Plan, facts: AlkalinityFacts) -> Iterator[Assumption]:
    """The alkalinity that goes in, where the plan does not tell it."""
    if facts.reactors and plan.water.alkalinity is None:
        words = f"{facts.reactors[0].entering:.2f} meq/L goes into calcium reactors"
        yield Assumption("water.alkalinity", words, "the sea's, at your salinity", row().figure("sea").source)


def reactor_cautions(plan: Plan, facts: AlkalinityFacts) -> Iterator[str]:
    """The gas in the room, the pH of the water, and a reactor that brings nothing or is not counted."""
    if not plan.reactors:
        return
    yield _gas()
    yield _SOUR
    for one in facts.reactors:
        if one.gain <= 0.0:
            yield (
                f"Reactor {one.key} brings nothing: {one.leaving:.2f} meq/L leaves it and {one.entering:.2f} meq/L "
                "goes in. Its medium is used up, its gas is shut, or one of the two was misread."
            )
    counted = {one.key for one in facts.reactors}
    for key, reactor in plan.reactors.items():
        if key not in counted:
            yield f"Reactor {key} is not counted: {reactor.vessel} does not share the water of the display."


def _gas() -> str:
    """Carbon dioxide of the cylinder, against the limits of those who guard workers."""
    found = table("foul_air")["carbon-dioxide"]
    work, danger = found.figure("work"), found.figure("danger")
    return (
        f"The cylinder of a calcium reactor holds carbon dioxide, which smells of nothing: over {work.printed:g} ppm "
        f"is more than a working day allows, {danger.printed:g} ppm endangers life at once ({work.source.work}). "
        f"Keep {found.tag('do')}; an alarm for it low in the room."
    )
