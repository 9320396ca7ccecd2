"""The answer put together: sentence, checks, figures, tables, drawing, assumptions, cautions."""

from __future__ import annotations

from collections.abc import Sequence

from tidestead.catalog import table
from tidestead.core.answer import Answer, Assumption, Check, Estimate, Figure
from tidestead.core.source import COMPUTED, PRACTICE, YOURS
from tidestead.core.units import show
from tidestead.studies.checks import At, unproven
from tidestead.studies.foam.checks import tower_checks
from tidestead.studies.foam.drawings import scenes_of
from tidestead.studies.foam.facts import FoamFacts, TowerFoam
from tidestead.studies.foam.tables import tables_told
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged
from tidestead.studies.sentences import told_of
from tidestead.studies.unseen import FOAM, unseen

QUESTION = "Will the fractionator earn its place?"

ALWAYS = (
    "Foam theory is of stable foam of equal bubbles. How many litres run over a day cannot be told, and is not.",
    "One size of bubble is assumed in each figure, and it governs all of them: diffusers give a mixture and clog.",
    "Air lines: a check valve, and the air pump above the water, or it siphons when it stops.",
    "Ozone is not reckoned here. It harms lungs and animals: never dose it by sums alone.",
)


def tell(inputs: Inputs, facts: FoamFacts) -> Answer:
    """The whole answer."""
    judged = _judged(inputs, facts)
    checks = tuple(one.check for one in judged)
    told = [str(words) for row in table("foam_limits") for words in _cautions(row.tag("cautions", ()))]
    return Answer(
        "foam",
        QUESTION,
        sentence(inputs, facts, checks),
        checks,
        _figures(facts),
        _assumptions(inputs, facts),
        tuple(one.working for one in judged if one.steps),
        tables_told(facts),
        (),
        scenes_of(inputs.plan, facts, inputs.system),
        (*ALWAYS, *told),
    )


def _cautions(tag: object) -> tuple[str, ...]:
    return tag if isinstance(tag, tuple) else ()


def _judged(inputs: Inputs, facts: FoamFacts) -> list[Judged]:
    found: list[Judged] = []
    for tower in facts.towers:
        found += tower_checks(inputs.plan, facts, tower, inputs.system)
    if facts.towers:
        found += unseen("foam", FOAM)
    for key, why in facts.missing:
        at = At(key, key, "foam", f"vessels.{key}")
        found.append(Judged(unproven(at, "works", "whether it works", "1", why, YOURS)))
    if not found:
        at = At("fractionator", "fractionator", "foam", "vessels")
        why = 'the plan describes none: give a vessel role = "fractionator"'
        found.append(Judged(unproven(at, "works", "whether it works", "1", why, YOURS)))
    return found


def sentence(inputs: Inputs, facts: FoamFacts, checks: Sequence[Check]) -> str:
    """What limits it, by how much, what to change, and how long it takes."""
    words = told_of(checks, inputs.system)
    for tower in facts.towers:
        words.append(_cleaned(inputs, tower))
    return " ".join(words)


def _cleaned(inputs: Inputs, tower: TowerFoam) -> str:
    _, quick, _, slow = tower.times[0]
    low, high = show(quick, "s", inputs.system), show(slow, "s", inputs.system)
    return f"{tower.key.capitalize()} takes {low} to {high} for nine tenths of what can be skimmed."


def _figures(facts: FoamFacts) -> tuple[Figure, ...]:
    found: list[Figure] = []
    for tower in facts.towers:
        key = f"foam.{tower.key}"
        rows = (
            ("water", "water through it", tower.water_flow, "m3/s", ""),
            ("air", "air through it", tower.air_flow, "m3/s", "air"),
            ("pressure", "pressure the air pump must give", tower.air_pressure, "Pa", ""),
            ("power", "power for the air, by a pump of 30 %", tower.air_power, "W", ""),
            ("volume", "water in its column", tower.volume, "m3", ""),
            ("share", "its column as a share of the system", tower.share_of_system, "1", ""),
        )
        for name, words, value, unit, style in rows:
            estimate = Estimate.exact(value)
            found.append(Figure(f"{key}.{name}", f"{tower.key}: {words}", estimate, unit, COMPUTED, style))
        if tower.of_pumps is not None:
            share = Estimate.exact(tower.of_pumps)
            words = f"{tower.key}: its water as a share of what the pumps move"
            found.append(Figure(f"{key}.of_pumps", words, share, "1", COMPUTED))
        if tower.slope is not None:
            slope = Estimate.exact(tower.slope)
            words = f"{tower.key}: slope of its cone; no source says how steep is enough"
            found.append(Figure(f"{key}.slope", words, slope, "rad", COMPUTED))
    held = Estimate(
        facts.gas.warm, (facts.gas.warm + facts.gas.cool) / 2.0, facts.gas.cool, "warmest to coolest"
    )
    found.append(Figure("foam.oxygen", "oxygen the water can hold", held, "g/m3", COMPUTED))
    return tuple(found)


def _assumptions(inputs: Inputs, facts: FoamFacts) -> tuple[Assumption, ...]:
    found = [
        Assumption("efficiency", "100, 50 and 25 % of a pass", "nobody has measured yours", PRACTICE),
    ]
    for tower in facts.towers:
        vessel = inputs.plan.vessels[tower.key]
        key = f"vessels.{tower.key}.air"
        if tower.bubble is None:
            found.append(
                Assumption(f"{key}.bubble", "0.5 to 1 mm", "what diffusers are said to give", PRACTICE)
            )
        if vessel.air is not None and vessel.air.depth is None:
            depth = show(tower.depth, "m", inputs.system, "level")
            found.append(Assumption(f"{key}.depth", depth, "the diffuser lies on the floor", PRACTICE))
        if vessel.air is not None and vessel.air.loss is None:
            found.append(Assumption(f"{key}.loss", "none", "the diffuser costs no pressure", PRACTICE))
    return tuple(found)
