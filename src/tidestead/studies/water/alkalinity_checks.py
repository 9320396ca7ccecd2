"""Judging alkalinity, calcium and magnesium: kept levels, what is given against what is used, saturation."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tidestead.catalog import table
from tidestead.core.answer import Assumption, Check, Column, Estimate, Figure, Table
from tidestead.core.source import YOURS
from tidestead.core.units import System, show
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, above, below, unproven
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged
from tidestead.studies.water import doser_checks
from tidestead.studies.water.alkalinity import AlkalinityFacts
from tidestead.studies.water.alkalinity_steps import aragonite_steps, balance_steps, calcium_steps
from tidestead.studies.water.doser_checks import doser_table, row
from tidestead.studies.water.life_sources import STOICHIOMETRY
from tidestead.studies.water.reactor_told import (
    reactor_assumptions,
    reactor_cautions,
    reactor_figures,
    reactor_table,
    reactor_words,
)
from tidestead.studies.water.section import Section
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import GRAMS, MILLI, moved

_MEASURE_CALCIUM = (
    "test calcium before and after some days without doses, and write the loss of one day as water.uses_calcium, such "
    'as "1 mg/L"'
)
_AT = {name: At(name, name, "water", f"water.{name}") for name in ("alkalinity", "calcium", "magnesium")}
_MEASURE = (
    "nobody has measured what is used up: stop dosing for two days, test before and after, and write the loss of one "
    'day as water.uses_alkalinity, such as "0.3 dKH"'
)


def alkalinity_section(inputs: Inputs, setting: Setting, facts: AlkalinityFacts) -> Section:
    """All of it."""
    plan, system = inputs.plan, inputs.system
    return Section(
        judged=tuple(_judged(plan, facts, system)),
        figures=tuple(_figures(facts)),
        tables=tuple(_tables(plan, facts, setting)),
        assumptions=tuple(_assumptions(plan, facts)),
        cautions=tuple(_cautions(plan, facts)),
        told=tuple(_told(facts, system)),
    )


def _judged(plan: Plan, facts: AlkalinityFacts, system: System) -> Iterator[Judged]:
    yield from _kept(plan)
    yield _daily(plan, facts)
    yield _calcium(facts)
    yield _aragonite(plan, facts)
    yield from doser_checks.judged(facts, system)


def _within(check: Check, advice: str, style: str = "") -> Check:
    """The same check, to lie between its limits."""
    return replace(check, must_be="within", advice=advice, style=style)


def _kept(plan: Plan) -> Iterator[Judged]:
    """The three levels in their bands."""
    for name, unit, factor in (
        ("alkalinity", "mol/m3", 1.0),
        ("calcium", "mg/L", GRAMS),
        ("magnesium", "mg/L", GRAMS),
    ):
        told = getattr(plan.water, name)
        source = row().figure(f"{name}_low").source
        if told is None:
            why = f"write what is kept, by a test: water.{name}"
            yield Judged(
                unproven(_AT[name], "kept", f"{name} that is kept", unit, why, source), by_level=False
            )
            continue
        band = (factor * row().si(f"{name}_low"), factor * row().si(f"{name}_high"))
        limit = Limit(band, source, "band of tanks with stony corals")
        value = Estimate.exact(factor * told, "your plan")
        advice = "a level towards the middle of the band, changed over days"
        check = below(_AT[name], "kept", f"{name} that is kept", value, unit, limit)
        yield Judged(_within(check, advice), by_level=False)


def _share_given(facts: AlkalinityFacts, part: int) -> Estimate:
    """What is given of what is used, with the ranges of both; nothing else decides the ends that are judged."""
    used = (facts.used.alkalinity, facts.used.calcium)[part]
    brought = facts.changes[part]

    def share(given: float, taken: float) -> float:
        return (given + brought) / taken

    basis = " and ".join(dict.fromkeys(one.basis for one in (facts.given[part], used) if one.low < one.high))
    return moved(share, (facts.given[part], used), basis or facts.given[part].basis)


def _daily(plan: Plan, facts: AlkalinityFacts) -> Judged:
    what, figure = "alkalinity given, of what is used", row().figure("daily_near")
    if not facts.used.measured or facts.used.alkalinity.likely <= 0.0:
        return Judged(
            unproven(_AT["alkalinity"], "daily", what, "1", _MEASURE, figure.source), by_level=False
        )
    near = row().si("daily_near")
    limit = Limit((1.0 - near, 1.0 + near), figure.source, "what a weekly test can follow")
    check = below(_AT["alkalinity"], "daily", what, _share_given(facts, 0), "1", limit)
    check = _within(check, hold_words(facts.hold, facts, 0), "share")
    return Judged(check, balance_steps(plan, facts), by_level=False)


def _calcium(facts: AlkalinityFacts) -> Judged:
    what, figure = "calcium given, of what is used", row().figure("calcium_near")
    why = _no_calcium(facts)
    if why:
        return Judged(unproven(_AT["calcium"], "daily", what, "1", why, figure.source), by_level=False)
    near = row().si("calcium_near")
    limit = Limit((1.0 - near, 1.0 + near), figure.source, "calcium drifts slowly")
    check = below(_AT["calcium"], "daily", what, _share_given(facts, 1), "1", limit)
    check = _within(check, hold_words(facts.hold_calcium, facts, 1), "share")
    return Judged(check, calcium_steps(facts), by_level=False)


def _no_calcium(facts: AlkalinityFacts) -> str:
    """What keeps calcium from being judged."""
    used = facts.used
    if not (used.measured or used.calcium_measured):
        return _MEASURE
    if used.calcium.likely <= 0.0:
        return "nothing of the alkalinity that is used goes to corals"
    if used.calcium.low <= 0.0:
        return (
            f"nitrification may take all the alkalinity that is used, and corals nothing: {_MEASURE_CALCIUM}"
        )
    return ""


def hold_words(hold: tuple[tuple[str, float], ...], facts: AlkalinityFacts, part: int) -> str:
    """What would hold the level; where calcium's use is too vague for any dose to be proved, that it be measured."""
    proved = part == 0 or facts.used.calcium_to_give(row().si("calcium_near"))[1]
    measure = "" if proved else f"; no dose can be near all that may be used: {_MEASURE_CALCIUM}"
    return _holding(hold, facts, part) + measure


def _holding(hold: tuple[tuple[str, float], ...], facts: AlkalinityFacts, part: int) -> str:
    """Doses, or another way where there is none."""
    name = ("alkalinity", "calcium")[part]
    lime = facts.lime
    if lime is not None:
        brings = (lime.alkalinity, lime.calcium)[part].likely
        goal = facts.used.calcium_to_give(row().si("calcium_near"))[0]
        needed = (facts.used.alkalinity.likely, goal)[part] - facts.changes[part]
        if 0.0 < needed < brings:
            share = lime.share * needed / brings
            words = f"limewater in {100.0 * share:.0f} % of the top-off (kalkwasser.share)"
            return f"{words} brings all the {name} by itself"
    flows = (facts.hold_flow, facts.hold_flow_calcium)[part]
    if flows and not any(dose for _, dose in hold):
        return reactor_words(flows)
    if not hold:
        return f"a doser that brings {name}: [dosers.NAME]"
    doses = ", ".join(f"{key} {MILLI * volume:.0f} mL a day" for key, volume in hold)
    return f"{doses}, by the likely use; then test, and set the dose by what the test says"


def _aragonite(plan: Plan, facts: AlkalinityFacts) -> Judged:
    what, figure = "saturation with aragonite", row().figure("aragonite")
    at = _AT["alkalinity"]
    if facts.system.aragonite is None:
        why = facts.system.why or "the water cannot be worked out"
        return Judged(unproven(at, "aragonite", what, "1", why, figure.source), by_level=False)
    limit = Limit(row().si("aragonite"), figure.source, "the least that reefs live at, mean of a year")
    advice = "more alkalinity within its band, or more pH: fresh air to the surface and to the fractionator"
    check = above(at, "aragonite", what, facts.system.aragonite, "1", limit, advice=advice)
    return Judged(check, aragonite_steps(plan, facts), by_level=False)


def _figures(facts: AlkalinityFacts) -> Iterator[Figure]:
    used, volume = facts.used, facts.volume
    if volume <= 0.0:
        return
    breed = table("water_limits")["calcifiers"]
    source = YOURS if used.measured else breed.figure("growth").source
    per = 1.0 / volume
    yield Figure(
        "water.alkalinity.used", "alkalinity used in a day", used.alkalinity.times(per), "mol/m3", source
    )
    words = "of that by ammonia turned to nitrate"
    yield Figure(
        "water.alkalinity.nitrification", words, used.nitrification.times(per), "mol/m3", STOICHIOMETRY
    )
    yield Figure(
        "water.alkalinity.given",
        "alkalinity given in a day",
        facts.given[0].times(per),
        "mol/m3",
        STOICHIOMETRY,
    )
    yield Figure(
        "water.calcium.used",
        "calcium used in a day",
        used.calcium.times(per),
        "mg/L",
        YOURS if used.calcium_measured else STOICHIOMETRY,
    )
    yield Figure(
        "water.calcium.given", "calcium given in a day", facts.given[1].times(per), "mg/L", STOICHIOMETRY
    )
    words = "magnesium that corals take in a day"
    yield Figure(
        "water.magnesium.used", words, used.magnesium.times(per), "mg/L", breed.figure("magnesium").source
    )
    if facts.ceiling is not None:
        words = "most alkalinity a day by limewater, all of the top-off being that"
        yield Figure(
            "water.alkalinity.limewater", words, facts.ceiling, "mol/m3", row().figure("limewater").source
        )
    for name, hold in (("alkalinity", facts.hold), ("calcium", facts.hold_calcium)):
        for key, dose in hold:
            value, words = Estimate.exact(MILLI * dose), f"{key}: dose a day that would hold {name}"
            yield Figure(f"water.dosers.{key}.holds", words, value, "mL/day", STOICHIOMETRY)
    yield from reactor_figures(facts)


def _tables(plan: Plan, facts: AlkalinityFacts, setting: Setting) -> Iterator[Table]:
    if facts.dosers:
        yield doser_table(facts)
    if facts.reactors:
        yield reactor_table(facts)
    if facts.system.scales:
        rows = tuple((scale, f"{value:.2f}") for scale, value in facts.system.scales)
        note = "One water, four scales. A meter set with bought buffers of 4, 7 and 10 tells NBS."
        yield Table("water.ph", "the kept pH on every scale", (Column("scale"), Column("pH")), rows, note)
    one = facts.system.middle
    if one is not None and plan.water.ph is not None:
        told = f"pH {plan.water.ph.value:g} {plan.water.ph.scale.upper()}"
        parts = (
            ("carbon dioxide in air at rest with it", one.pco2, "uatm"),
            ("dissolved carbon (DIC)", one.dic, "umol/kg"),
            ("alkalinity", one.alkalinity, "umol/kg"),
            ("carbonate", one.carbonate, "umol/kg"),
            ("bicarbonate", one.bicarbonate, "umol/kg"),
            ("saturation with aragonite", one.aragonite, ""),
            ("saturation with calcite", one.calcite, ""),
        )
        air = row().si("air")
        note = (
            f"At {told}, salinity {setting.sal_psu:.1f} and the middle of the temperatures kept. Air outdoors has "
            f"about {air:.0f} uatm: more in the water means that breath leaves too slowly or air indoors is stale."
        )
        shown = tuple((what, f"{value:.4g} {unit}".strip()) for what, value, unit in parts)
        yield Table(
            "water.carbonate",
            "carbonate of the water that is kept",
            (Column("of it"), Column("value")),
            shown,
            note,
        )


def _assumptions(plan: Plan, facts: AlkalinityFacts) -> Iterator[Assumption]:
    breed = table("water_limits")["calcifiers"]
    if not facts.used.measured and facts.used.corals.likely > 0.0:
        figure = breed.figure("growth")
        yield Assumption("water.uses_alkalinity", "4 kg of chalk on a square metre a year (1 to 10)",
                         "nobody has measured what corals use", figure.source)  # fmt: skip
    if plan.changes is not None:
        words = "2.35 meq/L and 421 mg/L of calcium at salinity 35"
        yield Assumption("salt", words, "of new water; test a bucket of yours", row().figure("sea").source)
    if facts.lime is not None:
        words = "40.5 meq/L"
        yield Assumption(
            "kalkwasser", words, "as strong as it can be, clear and fresh", row().figure("limewater").source
        )
    yield from reactor_assumptions(plan, facts)


def _cautions(plan: Plan, facts: AlkalinityFacts) -> Iterator[str]:
    if plan.kalkwasser is not None:
        yield doser_checks.BURNS
        if facts.lime is None:
            yield "What limewater brings is not counted: nothing is known of what evaporates."
    for key in facts.used.unsized:
        yield f"Corals {key} are not counted among what uses alkalinity: say what they cover, corals.{key}.area."
    if facts.sharing:
        yield (
            "Alkaline and calcium stock meet in one vessel "
            f"({', '.join(facts.sharing)}): chalk falls out there. Keep their outlets apart."
        )
    yield from reactor_cautions(plan, facts)


def _told(facts: AlkalinityFacts, system: System) -> Iterator[str]:
    if facts.volume <= 0.0 or facts.used.alkalinity.likely <= 0.0:
        return
    per = 1.0 / facts.volume
    whole = (facts.given[0].likely + facts.changes[0]) * per
    pair = (facts.used.alkalinity.likely * per, whole)
    used, given = (show(one, "mol/m3", system, "", pair) for one in pair)
    by = "by your reading" if facts.used.measured else "by a guess from the ground that corals cover"
    givers = (
        "bottles, limewater, reactors and changes" if facts.reactors else "bottles, limewater and changes"
    )
    yield f"Of alkalinity {used} is used in a day, {by}; {givers} give {given}."
    system_ = facts.system.aragonite
    if system_ is not None:
        yield f"The water is {system_.likely:.1f} times saturated with aragonite, coral's mineral."
