"""Changes of water: what one does to warmth and salt, how long it takes, nitrate by a series, chlorine."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from tidestead.catalog import table
from tidestead.core.answer import Assumption, Estimate, Figure
from tidestead.core.source import COMPUTED, YOURS
from tidestead.core.units import show
from tidestead.physics.water import changes as laws
from tidestead.physics.water.changes import StepLimits
from tidestead.physics.water.salts import Body
from tidestead.plan.model import Plan
from tidestead.studies.checks import ENOUGH, At, Limit, below, given, unproven
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged, step
from tidestead.studies.water.batches import no_time
from tidestead.studies.water.changing_steps import nitrate_working, round_working, salt_steps, warmth_steps
from tidestead.studies.water.changing_tables import round_table, series_table
from tidestead.studies.water.changing_told import told_of
from tidestead.studies.water.chlorine import chlorine_checks, doses_of
from tidestead.studies.water.nitrate_series import series_of
from tidestead.studies.water.rounds import at_once, replaced_by, round_of, stirring_assumed
from tidestead.studies.water.salt_facts import ChangingFacts, Effect
from tidestead.studies.water.salting import NO_SOURCE, impossible
from tidestead.studies.water.section import Section
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.waters import Supply, change_supply, factor_of, vat_of
from tidestead.studies.water.wording import percent

AT = At("change", "one change", "water", "changes")
NO_CHANGES = "the plan names no changes: write [changes] with share, every, holds and source"
_WARMS, _SALTS, _TIME = "step of temperature", "step of salinity", "time it takes"


def changing_of(inputs: Inputs, setting: Setting) -> ChangingFacts:
    """From the plan's changes, the source for them and the vat."""
    plan, changes = inputs.plan, inputs.plan.changes
    factor, _ = factor_of(plan)
    supply, vat = change_supply(plan), vat_of(plan)
    if setting.volume <= 0.0 or supply is None or changes is None:
        why = NO_CHANGES if changes is None else NO_SOURCE
        doses = () if setting.volume <= 0.0 else doses_of(plan, setting, supply, 0.0)
        return ChangingFacts(impossible(factor, setting) or why, supply, vat, doses=doses)
    if impossible(factor, setting):
        return ChangingFacts(impossible(factor, setting), supply, vat)
    usual = round_of(plan, setting, supply, vat, factor, float(changes.share))
    big = round_of(plan, setting, supply, vat, factor, table("water_limits")["change"].si("big"))
    replaced = replaced_by(changes, float(changes.share), 1 if usual is None else usual.loads)
    once = at_once(changes, replaced)
    return ChangingFacts(
        "",
        supply,
        vat,
        replaced,
        effect_of(plan, setting, supply, once),
        usual,
        big,
        series_of(plan, supply, replaced),
        doses_of(plan, setting, supply, _dosed(setting, float(changes.share), once, replaced)),
    )


def _dosed(setting: Setting, share: float, once: float, replaced: float) -> float:
    """New water that comes within a day, m3: all of a change, or a day's of what runs always."""
    return share * setting.volume * min(once / replaced, 1.0)


def effect_of(plan: Plan, setting: Setting, supply: Supply, share: float) -> Effect:
    """New water is mixed to the kept salinity as well as it can be read, and is as warm as the vat makes it; the tank
    may stand anywhere in the band it is kept in.
    """
    rows = table("water_limits")
    reads, change = rows["mixing"].si("reads"), rows["change"]
    heated = plan.changes is not None and plan.changes.heater is not None
    tank = Body(setting.volume, setting.sal_psu, setting.temp_c)
    new = Body(share * setting.volume, setting.sal_psu, setting.temp_c if heated else supply.temp_c)
    band = plan.water.keep or (setting.temp_c, setting.temp_c)
    steps = [_warmed(setting, new, share, float(one)) for one in (band[0], setting.temp_c, band[1])]
    salted = laws.changed_water(tank, setting.sal_psu + reads, new.temp_c, share).sal_psu - tank.sal_psu
    limits = StepLimits(ENOUGH * change.si("warms"), ENOUGH * change.si("salts"))
    return Effect(
        tank,
        new,
        laws.changed_water(tank, new.sal_psu, new.temp_c, share),
        Estimate(min(steps), steps[1], max(steps), "the tank anywhere in the band it is kept in"),
        Estimate(
            0.0, 0.0, abs(salted), f"new water {reads:g} psu off what is kept: an instrument tells no better"
        ),
        min(
            laws.largest_share(replace(tank, temp_c=float(one)), new.sal_psu + reads, new.temp_c, limits)
            for one in (*band, setting.temp_c)
        ),
    )


def _warmed(setting: Setting, new: Body, share: float, tank_c: float) -> float:
    tank = Body(setting.volume, setting.sal_psu, tank_c)
    return abs(laws.changed_water(tank, new.sal_psu, new.temp_c, share).temp_c - tank_c)


def changing_section(inputs: Inputs, setting: Setting, facts: ChangingFacts) -> Section:
    """Two checks of one change, chlorine, the steps of a change and of a big one, nitrate by a series."""
    chlorine = tuple(chlorine_checks(setting, facts.doses, inputs.system))
    effect = facts.effect
    if effect is None:
        silent = (("warms", _WARMS, "K"), ("salts", _SALTS, "psu"), ("time", _TIME, "s"))
        found = tuple(Judged(unproven(AT, *one, facts.missing, YOURS), by_level=False) for one in silent)
        return Section((*found, *chlorine))
    rounds = [(name, one) for name, one in (("usual", facts.usual), ("big", facts.big)) if one is not None]
    return Section(
        (_warms(inputs, effect), _salts(effect), _fits(inputs.plan, facts), *chlorine),
        tuple(_figures(facts)),
        (
            *(round_table(name, one, facts, inputs.system, _way(inputs.plan)) for name, one in rounds),
            *(
                ()
                if facts.series is None
                else (series_table(inputs.plan, setting, facts.series, inputs.system),)
            ),
        ),
        (),
        tuple(_assumptions(inputs)),
        (
            *(round_working(name, one, setting, facts) for name, one in rounds),
            *(() if facts.series is None else (nitrate_working(facts.series),)),
        ),
        tuple(_cautions(facts)),
        tuple(told_of(inputs, facts)),
    )


def _way(plan: Plan) -> str:
    return "" if plan.changes is None else plan.changes.way


def _warms(inputs: Inputs, effect: Effect) -> Judged:
    row = table("water_limits")["change"]
    limit = Limit(row.si("warms"), row.figure("warms").source, "what one change may do to animals")
    smaller = _smaller(effect)
    heated = inputs.plan.changes is not None and inputs.plan.changes.heater is not None
    ways = ("" if heated else "a heater in the vat (changes.heater)", smaller)
    advice = ", or ".join(one for one in ways if one)
    check = below(AT, "warms", _WARMS, effect.warmth, "K", limit, advice=advice)
    return Judged(check, warmth_steps(effect), by_level=False)


def _salts(effect: Effect) -> Judged:
    row = table("water_limits")["change"]
    limit = Limit(row.si("salts"), row.figure("salts").source, "what one change may do to animals")
    advice = ", or ".join(one for one in (_smaller(effect), "an instrument that is checked each time") if one)
    check = below(AT, "salts", _SALTS, effect.salinity, "psu", limit, advice=advice)
    return Judged(check, salt_steps(effect), by_level=False)


def _smaller(effect: Effect) -> str:
    """The largest change that leaves room, where that is not all of it."""
    return f"no more than {percent(effect.largest, 'down')} at once" if effect.largest < 1.0 else ""


def _fits(plan: Plan, facts: ChangingFacts) -> Judged:
    """Whether a change is done before the next is due."""
    if facts.usual is None or facts.usual.whole is None or plan.changes is None:
        return Judged(unproven(AT, "time", _TIME, "s", _no_time(facts), YOURS), by_level=False)
    one = facts.usual
    limit = Limit(float(plan.changes.every), YOURS, "when the next is due")
    advice = "a larger vat, or a stronger source: with one vat a load follows the other"
    check = below(AT, "time", _TIME, Estimate.exact(one.whole or 0.0), "s", limit, advice=advice)
    numbers = (given("n", float(one.loads), "count"), given("t", one.one or 0.0, "s"))
    meaning = "all loads, one after the other"
    return Judged(
        check, (step("t_all", meaning, "t_all = n*t", numbers, (one.whole or 0.0, "s"), COMPUTED),), False
    )


def _no_time(facts: ChangingFacts) -> str:
    """What to write so that the time of a change can be told."""
    if facts.vat.missing:
        return facts.vat.missing
    if facts.usual is not None and facts.usual.making is None and facts.supply is not None:
        return no_time(facts.supply)
    return "write changes.pump: what moves a load over"


def _figures(facts: ChangingFacts) -> Iterator[Figure]:
    for name, words, one in (("usual", "one change", facts.usual), ("big", "half the water", facts.big)):
        if one is None:
            continue
        yield Figure(
            f"water.change.{name}.loads", f"{words}: loads of the vat", _exact(one.loads), "count", COMPUTED
        )
        yield Figure(
            f"water.change.{name}.gone",
            f"{words}: old water gone after it",
            _exact(one.replaced),
            "1",
            COMPUTED,
            "share",
        )
        if one.whole is not None:
            yield Figure(
                f"water.change.{name}.time", f"{words}: from start to end", _exact(one.whole), "s", COMPUTED
            )
        if one.heat > 0.0:
            heat = _exact(one.heat * one.loads)
            yield Figure(f"water.change.{name}.heat", f"{words}: heat for new water", heat, "J", COMPUTED)
        if one.cost.total is not None:
            yield Figure(
                f"water.change.{name}.cost", f"{words}: cost", one.cost.total, one.cost.currency, YOURS
            )


def _exact(value: float) -> Estimate:
    return Estimate.exact(float(value))


def _assumptions(inputs: Inputs) -> Iterator[Assumption]:
    plan = inputs.plan
    yield from stirring_assumed(plan, inputs.system)
    if plan.targets.nitrate is None:
        row = table("water_limits")["nutrients"]
        words = show(1000.0 * row.si("nitrate"), "mg/L", inputs.system)
        yield Assumption(
            "targets.nitrate", words, "the most nitrate that is wanted", row.figure("nitrate").source
        )


def _cautions(facts: ChangingFacts) -> Iterator[str]:
    if facts.vat.missing:
        yield f"How long a change takes cannot be told: {facts.vat.missing}."
    yield (
        "New water is stirred, warmed and measured before any of it goes in: salinity, temperature, and a strip for "
        "chlorine. Heat that the vat loses is not counted."
    )
