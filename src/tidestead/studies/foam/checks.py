"""Judging a fractionator: does the column flood, does the neck, is there time, air, water and salt enough."""

from __future__ import annotations

import math

from tidestead.catalog import table
from tidestead.core.answer import Estimate, Step
from tidestead.core.source import PRACTICE, YOURS, Known, Source
from tidestead.core.units import System
from tidestead.physics.foam.columns import ColumnState
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, above, below, given, unproven
from tidestead.studies.foam.bubble_steps import (
    DRIFT,
    RISE,
    drift_speed,
    flooding_steps,
    size_words,
)
from tidestead.studies.foam.facts import EFFICIENCIES, USUAL, FoamFacts, TowerFoam
from tidestead.studies.foam.level_checks import cautions_of, lift_checks, way_checks
from tidestead.studies.foam.neck_checks import neck_check
from tidestead.studies.judged import Judged, step

MANY = 100.0
"""Use told where water carries every bubble down: endless, so far as the check goes."""

_DEFINED = Source("definition", known=Known.COMPUTED)
_REMOVAL = Source("Gage and Bidwell (1926)", known=Known.QUOTED)


def tower_checks(plan: Plan, facts: FoamFacts, tower: TowerFoam, system: System) -> list[Judged]:
    """Every check of one fractionator."""
    at = At(tower.key, tower.key, "foam", f"vessels.{tower.key}")
    return [
        *way_checks(at, tower),
        *lift_checks(at, plan, tower),
        _flooding(at, tower, system),
        _carry_under(at, tower, system),
        neck_check(at, tower, system),
        _contact(at, tower, system),
        _air(at, tower),
        *_size(at, tower),
        _throughput(at, plan, tower),
        *_clean_up(at, plan, tower),
        _salt(at, facts),
    ]


def likely_state(tower: TowerFoam) -> ColumnState:
    """The column with the bubble that the plan says, else with the usual one."""
    return min(tower.columns, key=lambda one: abs(one.bubble - (tower.bubble or USUAL)))


def _spread(values: tuple[float, float, float], basis: str) -> Estimate:
    held = [value if math.isfinite(value) else MANY for value in values]
    return Estimate(min(held), held[1], max(held), basis)


def _basis(tower: TowerFoam, system: System) -> str:
    """What the range of a figure of the column rests on."""
    small, large = (size_words(state.bubble, system) for state in (tower.worst, tower.best))
    words = "the plan's bubble" if tower.bubble is not None else f"bubbles of {small} to {large}"
    return f"{words}; {tower.flow.basis}" if tower.flow.basis else words


def _flooding(at: At, tower: TowerFoam, system: System) -> Judged:
    likely = likely_state(tower)
    uses = (tower.best.flooding_use, likely.flooding_use, tower.worst.flooding_use)
    steps = (
        *flooding_steps(tower, likely),
        step(
            "use",
            "share of it in use",
            "use = jg/jg_f",
            (given("jg", likely.gas_speed, "m/s"), given("jg_f", likely.flooding_speed, "m/s")),
            (min(uses[1], MANY), "1"),
            DRIFT,
        ),
    )
    value = _spread(uses, _basis(tower, system))
    advice = "less air, less water, or a wider column"
    limit = Limit(1.0, DRIFT)
    return Judged(
        below(at, "flooding", "air of the column against flooding", value, "1", limit, advice=advice), steps
    )


def _carry_under(at: At, tower: TowerFoam, system: System) -> Judged:
    words = "bubbles that leave with the water"
    if tower.way.rises:
        why = "the water rises with the bubbles and leaves among them: what it takes along is not reckoned"
        return Judged(unproven(at, "carry_under", words, "m", why, RISE))
    likely = likely_state(tower)
    cuts = [one.carry_under for one in (tower.best, likely, tower.worst)]
    if any(cut is None or not math.isfinite(cut) for cut in cuts):
        why = "the column floods with the smallest bubbles, so that water and air no longer part"
        return Judged(unproven(at, "carry_under", words, "m", why, DRIFT))
    known = [cut for cut in cuts if cut is not None]
    value = Estimate(min(known), known[1], max(known), _basis(tower, system))
    jl, e = drift_speed(tower, likely), likely.holdup or 0.0
    sinking = likely.water_speed / (1.0 - e)
    steps = (
        step(
            "v",
            "speed at which the water between the bubbles sinks",
            "v = jl/(1 - e)",
            (jl, given("e", e, "1")),
            (sinking, "m/s"),
            DRIFT,
        ),
        step(
            "d",
            "bubble that rises as fast as that by the law of rise, and so just hangs in it",
            "U(d) = v",
            (given("v", sinking, "m/s"), given("mu", tower.properties.viscosity, "Pa s")),
            (known[1], "m", "bubble"),
            RISE,
        ),
    )
    limit = Limit(tower.worst.bubble, PRACTICE, "the smallest bubble reckoned with")
    advice = "less water through it, or a wider column"
    check = below(at, "carry_under", words, value, "m", limit, style="bubble", advice=advice)
    return Judged(check, steps)


def _contact(at: At, tower: TowerFoam, system: System) -> Judged:
    row, words = table("foam_limits")["contact"], "time of the water among the bubbles"
    source = row.figure("least").source
    likely = likely_state(tower)
    dwells = [one.water_dwell for one in (tower.worst, likely, tower.best) if one.water_dwell is not None]
    if len(dwells) < 3:
        why = "the column floods, so that no dwell can be told"
        return Judged(unproven(at, "contact", words, "s", why, source))
    volume, met = tower.area * tower.way.met, given("L", tower.way.met, "m", "level")
    numbers = (
        given("V", volume, "m3"),
        given("e", likely.holdup or 0.0, "1"),
        given("Q", tower.water_flow, "m3/s"),
    )
    steps = (
        step(
            "V",
            "column where water and bubbles meet",
            "V = A*L",
            (given("A", tower.area, "m2"), met),
            (volume, "m3"),
            _DEFINED,
        ),
        step("t", "water in it over its flow", "t = V*(1 - e)/Q", numbers, (dwells[1], "s"), _DEFINED),
    )
    value = _spread((dwells[0], dwells[1], dwells[2]), _basis(tower, system))
    if not math.isfinite(dwells[2]):
        value = Estimate(dwells[0], dwells[1], dwells[1], _basis(tower, system))
    limit = Limit(row.si("least"), source)
    advice = "less water through it, a taller column, or inlet and outlet further apart"
    cautions = cautions_of(row)
    return Judged(above(at, "contact", words, value, "s", limit, advice=advice, cautions=cautions), steps)


def _air(at: At, tower: TowerFoam) -> Judged:
    row, flow = table("foam_limits")["air"], tower.flow
    numbers = (given("Q_air", tower.air_flow, "m3/s", "air"), given("Q", flow.likely, "m3/s"))
    source = row.figure("air_to_water_min").source
    likely = tower.air_flow / flow.likely
    high = tower.air_flow / flow.low if flow.low > 0.0 else MANY
    value = Estimate(tower.air_flow / flow.high, likely, max(high, likely), flow.basis)
    steps = (step("r", "air over water", "r = Q_air/Q", numbers, (likely, "1"), source),)
    limit = Limit(row.si("air_to_water_min"), source, near=0.05)
    advice = "more air, or less water through it"
    return Judged(above(at, "air", "air over water", value, "1", limit, advice=advice), steps)


def _throughput(at: At, plan: Plan, tower: TowerFoam) -> Judged:
    row, wanted = table("foam_limits")["throughput"], plan.targets.foam_turnover
    source = YOURS if wanted is not None else row.figure("turns_min").source
    limit = Limit(wanted if wanted is not None else row.si("turns_min") * 3600.0, source, near=0.1)
    numbers = (given("Q", tower.water_flow, "m3/s"), given("V", tower.system, "m3"))
    meaning = "how often the water of the system goes through it"
    steps = (step("n", meaning, "n = Q/V", numbers, (tower.turns.likely, "1/h"), _DEFINED),)
    words = "system through it, times an hour"
    advice = "more water through it, so far as column and neck bear it"
    cautions = cautions_of(row) if wanted is None else ()
    check = above(at, "throughput", words, tower.turns, "1/h", limit, advice=advice, cautions=cautions)
    return Judged(check, steps)


def _clean_up(at: At, plan: Plan, tower: TowerFoam) -> list[Judged]:
    """Time to nine tenths, where the plan says in which time it is wanted."""
    wanted = plan.targets.clean_up
    if wanted is None:
        return []
    share, _, likely, _ = tower.times[0]
    numbers = (
        given("p", share, "1"),
        given("V", tower.system, "m3"),
        given("E", tower.efficiencies[1], "1", "share"),
        given("Q", tower.water_flow, "m3/s"),
    )
    meaning = "time until nine tenths (p) of what can be skimmed is gone, where a pass takes a share E of it"
    formula = "t = ln(1/(1 - p))*V/(E*Q)"
    steps = (*_caught(tower), step("t", meaning, formula, numbers, (likely, "s"), _REMOVAL))
    ends, flow = clean_up_ends(tower), tower.flow
    most, _, least = (f"{100.0 * one:.3g} %" for one in tower.efficiencies)
    basis = f"a pass takes {most} to {least} of what can be skimmed"
    value = Estimate(ends[0], likely, ends[1], f"{basis}; {flow.basis}" if flow.basis else basis)
    words = "time to skim nine tenths of what can be"
    check = below(at, "clean_up", words, value, "s", Limit(wanted, YOURS), advice="more water through it")
    return [Judged(check, steps)]


def _caught(tower: TowerFoam) -> tuple[Step, ...]:
    """Less surface of the same air, where the plan's bubble is larger than the usual."""
    if tower.bubble is None or tower.bubble <= USUAL:
        return ()
    numbers = (
        given("E0", EFFICIENCIES[1], "1", "share"),
        given("d0", USUAL, "m", "bubble"),
        given("d", tower.bubble, "m", "bubble"),
    )
    meaning = (
        "share that a pass takes: half with the usual bubble, and as the surface of the air with this one"
    )
    return (step("E", meaning, "E = E0*d0/d", numbers, (tower.efficiencies[1], "1"), PRACTICE),)


def _size(at: At, tower: TowerFoam) -> list[Judged]:
    """Bubbles that the plan says, against the largest that are reckoned fit for it."""
    if tower.bubble is None:
        return []
    row = table("foam_limits")["bubbles"]
    most, source = row.si("diameter_most"), row.figure("diameter_most").source
    numbers = (given("d0", most, "m", "bubble"), given("d", tower.bubble, "m", "bubble"))
    meaning = "surface that its air makes, against that of bubbles as large as may be"
    steps = (step("s", meaning, "s = d0/d", numbers, (most / tower.bubble, "1"), _DEFINED),)
    advice = "a finer diffuser, a venturi, or a needle wheel"
    limit = Limit(most, source, near=0.0)
    words = "size of its bubbles"
    return [
        Judged(below(at, "bubble", words, tower.bubble, "m", limit, style="bubble", advice=advice), steps)
    ]


def clean_up_ends(tower: TowerFoam) -> tuple[float, float]:
    """Shortest and longest time to nine tenths: the best efficiency at the greatest flow, the poorest at the least."""
    _, quick, _, slow = tower.times[0]
    flow = tower.flow
    return quick * flow.likely / flow.high, slow * flow.likely / flow.low if flow.low > 0.0 else math.inf


def _salt(at: At, facts: FoamFacts) -> Judged:
    """The limit is printed by volume, salt is kept by weight."""
    row = table("foam_limits")["salt"]
    figure = row.figure("salt_min")
    printed = row.si("salt_min")
    least = 1000.0 * printed / facts.density
    numbers = (given("c", printed, "g/L"), given("rho", facts.density / 1000.0, "kg/L"))
    meaning = "least salt by weight: c by volume, as printed, over what a litre of the plan's water weighs"
    steps = (step("S", meaning, "S = c/rho", numbers, (least, "g/kg"), figure.source),)
    words = "salt, for foam to stand"
    advice = "water as salt as the sea: in fresher water foam falls"
    limit = Limit(least, figure.source)
    return Judged(above(at, "salt", words, facts.sal_gkg, "g/kg", limit, advice=advice), steps)
