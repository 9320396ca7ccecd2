"""The answer put together: is there enough, is it guarded, what stops together, what goes on, what a year costs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from tidestead.core.answer import Answer, Check, Estimate, Figure, Verdict
from tidestead.core.source import COMPUTED, YOURS
from tidestead.core.units import System, show
from tidestead.plan.model import Plan
from tidestead.studies.inputs import Inputs
from tidestead.studies.power.assumptions import assumptions_of
from tidestead.studies.power.backing import fuel_of_a_day
from tidestead.studies.power.charts import charts_of
from tidestead.studies.power.checks import judged
from tidestead.studies.power.facts import BackupFacts, PowerFacts
from tidestead.studies.power.loading import summed
from tidestead.studies.power.rules import limit_row
from tidestead.studies.power.tables import tables_of
from tidestead.studies.power.things import words_of
from tidestead.studies.power.together import LIFE, in_one_basket, own_battery
from tidestead.studies.power.wording import (
    capital,
    cautions_of,
    cost_of,
    energy_words,
    hours_words,
    items_words,
    listed,
)
from tidestead.studies.sentences import governing, told_of

QUESTION = "Is there power enough, and is it safe?"

ALWAYS = (
    "These are bounds, not a wiring plan: a licensed electrician designs, installs and tests every circuit; local "
    "codes govern. Do no work on the mains yourself.",
    "Never any home-made part at mains voltage in or over the water: bought and tested apparatus only.",
    "Before a hand goes into the water, everything in it is switched off at the plug and unplugged.",
    "Every lead leaves its apparatus with a loop that hangs lower than its plug, so that drops fall off before the "
    "socket.",
    "A residual-current device is a last guard, no licence to touch: press its test button once a month.",
)
_INSULATION_C = 60.0
"""The weakest insulation that US houses are wired with."""
_CAUSES = (".guard", ".level")
"""What must be mended first: nothing else matters beside a circuit without a guard."""


def tell(inputs: Inputs, facts: PowerFacts) -> Answer:
    """The whole answer."""
    plan, system = inputs.plan, inputs.system
    found = judged(plan, facts, system)
    checks = tuple(one.check for one in found)
    return Answer(
        "power",
        QUESTION,
        sentence(plan, facts, checks, system),
        checks,
        tuple(_figures(plan, facts)),
        tuple(assumptions_of(plan, facts, system)),
        tuple(one.working for one in found if one.steps),
        tables_of(plan, facts),
        cautions=tuple(
            dict.fromkeys(
                (*_noted(plan, facts, system), *_of_backups(facts), *ALWAYS, *_places(facts, system))
            )
        ),
        charts=tuple(charts_of(facts, system)),
        governs=governing(_tellable(checks), _CAUSES).id,
    )


def _tellable(checks: Sequence[Check]) -> Sequence[Check]:
    """Without those that hold or fail and do hold: of these none is the tightest."""
    return [check for check in checks if check.near > 0.0 or check.verdict is not Verdict.SOUND] or checks


def sentence(plan: Plan, facts: PowerFacts, checks: Sequence[Check], system: System) -> str:
    """What governs and what to do; how full the supply is; what stops together; what goes on; a year's energy."""
    words = told_of(_tellable(checks), system, causes=_CAUSES)
    words += [one for one in (_supply(facts, system), _together(facts), _goes_on(facts, system)) if one]
    return " ".join([*words, *_year(plan, facts, system)])


def _supply(facts: PowerFacts, system: System) -> str:
    supply = facts.supply
    if supply is None:
        return ""
    now, most = (
        show(value, "A", system, "", (supply.amps,)) for value in (supply.running.likely, supply.amps)
    )
    phase = "" if supply.phases == 1 else " on its busiest phase"
    return f"With everything on, the building draws about {now} of the supply's {most}{phase}."


def _together(facts: PowerFacts) -> str:
    """The device whose opening stops most of what keeps animals breathing."""
    deadly = [one for one in facts.dying if one.device == "residual" and _breathing(one.items)]
    if not deadly:
        return ""
    worst = max(deadly, key=lambda one: (len(_breathing(one.items)), len(one.items)))
    words = f"If {worst.words} opens, {items_words(worst.items)} stop together"
    if len(worst.items) == 1:
        words = f"If {worst.words} opens, {items_words(worst.items)} stops"
    return f"{words}{f'; a battery carries {items_words(worst.carried)} on' if worst.carried else ''}."


def _breathing(items: Sequence[object]) -> list[object]:
    return [item for item in items if getattr(item, "kind", "") in LIFE]


def _goes_on(facts: PowerFacts, system: System) -> str:
    """What the first backup does; where there is none, that there is none."""
    if not facts.backups:
        return "" if facts.missing else "Nothing in the plan carries pump or air on when the power fails."
    return " ".join(_backup(one, system) for one in facts.backups[:2])


def _backup(one: BackupFacts, system: System) -> str:
    named = f"The {one.kind}" if one.key == one.kind else f"The {one.kind} {one.key}"
    if one.hours is None:
        return f"{named} is there for {items_words(one.carries)}; how long it lasts is not known."
    ends = (one.hours.low, one.hours.likely, one.hours.high)
    low, likely, high = (hours_words(end, system) for end in ends)
    span = likely if low == high else f"about {likely} ({low} to {high})"
    tank = " on a tank" if one.kind == "generator" else ""
    starts = "" if one.starts_by_itself else ", once somebody has started it"
    return f"{named} carries {items_words(one.carries)} for {span}{tank}{starts}."


def _year(plan: Plan, facts: PowerFacts, system: System) -> Iterator[str]:
    if not facts.energy:
        return
    total = summed((one.year for one in facts.energy), "")
    words = f"A year takes about {energy_words(total.likely, system)}"
    tariff = plan.supplies.tariff
    if tariff is not None:
        words += f" ({cost_of(total, tariff).likely:.0f} {tariff.currency})"
    most = facts.energy[0]
    if facts.uncounted:
        words += f", without {listed(facts.uncounted)}"
    yield f"{words}; {most.words} takes most, {energy_words(most.year.likely, system)}."


def _figures(plan: Plan, facts: PowerFacts) -> Iterator[Figure]:
    tariff, supply = plan.supplies.tariff, facts.supply
    if supply is not None:
        watts = Estimate.exact(sum(one.power for one in facts.circuits), "everything on")
        yield Figure("power.load", "power with everything on", watts, "W", COMPUTED)
    for one in facts.backups:
        if one.kind == "generator":
            planned = plan.backups[one.key]
            fuel = Estimate.exact(
                fuel_of_a_day(one.load, one.power, planned.burns), "no less than at half load"
            )
            yield Figure(f"power.backups.{one.key}.fuel", f"{one.key}: fuel of a day", fuel, "m3", COMPUTED)
        if one.hours is not None:
            words = f"{one.key}: time that it carries {items_words(one.carries)}"
            yield Figure(f"power.backups.{one.key}.hours", words, one.hours, "s", COMPUTED)
    if not facts.energy:
        return
    total = summed((one.year for one in facts.energy), facts.energy[0].year.basis)
    yield Figure("power.energy", "energy of a year, all that is counted", total, "J", COMPUTED)
    if tariff is not None:
        yield Figure("power.cost", "cost of that", cost_of(total, tariff), tariff.currency, YOURS)


def _noted(plan: Plan, facts: PowerFacts, system: System) -> Iterator[str]:
    """What is worth a word and no check: one basket, own batteries, what draws now and then."""
    for one in facts.dying:
        if one.device == "residual" and in_one_basket(one):
            yield (
                f"{capital(items_words(one.items))} stop together when {one.words} opens: what keeps animals breathing "
                "is better off without what heats or lights on its device."
            )
    alone = [item for item in own_battery(plan) if item in facts.unfed]
    for item in alone:
        yield (
            f"{capital(words_of(item))} has a battery of its own and hangs on no circuit: write it into the feeds of "
            "the circuit where its charger is plugged in."
        )
    changes = plan.changes
    if changes is not None and changes.heater is not None:
        yield (
            f"The heater of new water ({show(changes.heater, 'W', system)}) is in no circuit's sum: describe it as a "
            "device, or plug it in only while other things are off."
        )
    if plan.building.air_heater is not None:
        yield "The air heater of the building is in no circuit's sum: describe it as a device if it is electric."
    if (
        facts.backups
        and not any(item.kind in LIFE for one in facts.backups for item in one.carries)
        and not alone
    ):
        yield "Neither a pump nor an air pump goes on when the power fails: oxygen runs short first."


def _of_backups(facts: PowerFacts) -> Iterator[str]:
    """Fumes of engines, hydrogen of batteries, by kind."""
    kinds = {one.kind for one in facts.backups}
    if "generator" in kinds:
        yield from (
            f"Generator: {words[0].lower()}{words[1:]}"
            for words in cautions_of(limit_row("generator-petrol"))
        )
        yield "A generator is run for fifteen minutes once a month, with its load on."
    if "battery" in kinds:
        for name in ("lead-acid-flooded", "lithium-iron"):
            row = limit_row(name)
            yield from (f"{row.title}: {words[0].lower()}{words[1:]}" for words in cautions_of(row))
        yield from cautions_of(limit_row("inverter"))
        yield "What an inverter draws by itself is not counted: it shortens the hours of a small load."


def _places(facts: PowerFacts, system: System) -> Iterator[str]:
    row = limit_row("water-edge")
    reach, height = (show(row.si(key), "m", system, "hose") for key in ("reach", "height"))
    yield (
        f"As at pools, keep sockets, joints and switches at mains voltage {reach} from the water and not within "
        f"{height} above it. That rule is for basins that people enter; for a tank it is an analogy: the electrician "
        "decides."
    )
    if facts.us and facts.circuits:
        insulation, air = (
            show(temp, "degC", system) for temp in (_INSULATION_C, limit_row("warm-house").si("air"))
        )
        yield (
            f"Cable with insulation for {insulation} only, as some old and underground sorts, bears about a fifth less "
            f"in air of {air}: the electrician reads its print."
        )
