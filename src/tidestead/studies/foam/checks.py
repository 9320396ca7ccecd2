"""Judging a fractionator: does the column flood, does the neck, is there time, air, water and salt enough."""

from __future__ import annotations

import math

from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.core.source import PRACTICE, YOURS, Known, Source
from tidestead.core.units import System, show
from tidestead.physics.foam.columns import ColumnState
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, above, below, given, unproven
from tidestead.studies.foam.facts import FoamFacts, TowerFoam
from tidestead.studies.judged import Judged, step

MANY = 100.0
"""Use told where water carries every bubble down: endless, so far as the check goes."""

USUAL = 0.8e-3
"""Diameter of the bubbles taken as likely. Common practice, no source."""

FOAM_USUAL = 1.5e-3
"""Diameter of foam bubbles taken as likely in a neck: foam coarsens on its way. No source was found."""

_DRIFT = Source(
    "Wallis, drift flux with Richardson and Zaki (1954)", "made for solids, bubbles by analogy", Known.QUOTED
)
_FROTH = Source(
    "P. Stevenson and X. Li, Foam Fractionation (2014)", "flooding of a stable foam", Known.RECALLED
)


def tower_checks(plan: Plan, facts: FoamFacts, tower: TowerFoam, system: System) -> list[Judged]:
    """Every check of one fractionator."""
    at = At(tower.key, tower.key, "foam", f"vessels.{tower.key}")
    return [
        _flooding(at, tower),
        _carry_under(at, tower),
        _neck(at, tower, system),
        _contact(at, tower),
        _air(at, tower),
        _throughput(at, plan, tower),
        *_clean_up(at, plan, tower),
        _salt(at, facts),
    ]


def _states(tower: TowerFoam) -> tuple[ColumnState, ColumnState, ColumnState]:
    """The columns of the smallest, the likely and the largest bubble; one of them where the plan says the size."""
    if tower.bubble is not None:
        known = next(one for one in tower.columns if one.bubble == tower.bubble)
        return known, known, known
    likely = min(tower.columns, key=lambda one: abs(one.bubble - USUAL))
    return tower.columns[0], likely, tower.columns[-1]


def _spread(values: tuple[float, float, float], basis: str) -> Estimate:
    held = [value if math.isfinite(value) else MANY for value in values]
    return Estimate(min(held), held[1], max(held), basis)


def _sizes(tower: TowerFoam) -> str:
    return "the bubble of the plan" if tower.bubble is not None else "bubbles of 0.5 to 1 mm"


def _flooding(at: At, tower: TowerFoam) -> Judged:
    small, likely, large = _states(tower)
    uses = (small.flooding_use, likely.flooding_use, large.flooding_use)
    numbers = (
        given("jg", likely.gas_speed, "m/s"),
        given("jl", likely.water_speed, "m/s"),
        given("U", float(likely.swarm.rise), "m/s"),
        given("n", float(likely.swarm.exponent), "1"),
    )
    steps = (
        step(
            "jg*",
            f"largest speed of air the column bears, bubbles of {1000.0 * likely.bubble:g} mm",
            "jg/e + jl/(1 - e) = U*(1 - e)**(n - 1), largest jg with a root",
            numbers,
            (likely.flooding_speed, "m/s"),
            _DRIFT,
        ),
        step(
            "use",
            "share of it in use",
            "use = jg/jg*",
            (given("jg", likely.gas_speed, "m/s"), given("jg*", likely.flooding_speed, "m/s")),
            (min(uses[1], MANY), "1"),
            _DRIFT,
        ),
    )
    value = _spread(uses, _sizes(tower))
    advice = "less air, less water, or a wider column"
    limit = Limit(1.0, _DRIFT)
    return Judged(
        below(at, "flooding", "air of the column against flooding", value, "1", limit, advice=advice), steps
    )


def _carry_under(at: At, tower: TowerFoam) -> Judged:
    words = "bubbles that leave with the water"
    states = _states(tower)
    cuts = [one.carry_under for one in states]
    if any(cut is None or not math.isfinite(cut) for cut in cuts):
        why = "the column floods with the smallest bubbles, so that water and air no longer part"
        return Judged(unproven(at, "carry_under", words, "m", why, _DRIFT))
    known = [cut for cut in cuts if cut is not None]
    value = Estimate(min(known), known[1], max(known), _sizes(tower))
    smallest = states[0].bubble
    steps = (
        step(
            "d",
            "bubble that just hangs in the sinking water",
            "U(d) = jl/(1 - e)",
            (given("jl", states[1].water_speed, "m/s"), given("e", states[1].holdup or 0.0, "1")),
            (known[1], "m"),
            Source("R. Clift, J. Grace and M. Weber (1978)", "contaminated water", Known.QUOTED),
        ),
    )
    limit = Limit(smallest, PRACTICE, "the smallest bubble shown")
    advice = "less water through it, or a wider column"
    check = below(at, "carry_under", words, value, "m", limit, style="film", advice=advice)
    return Judged(check, steps)


def _neck(at: At, tower: TowerFoam, system: System) -> Judged:
    words = "air of the neck against flooding"
    if tower.neck_area is None or not tower.necks:
        why = f"say how wide its neck is: vessels.{tower.key}.cone"
        return Judged(unproven(at, "neck", words, "1", why, _FROTH))
    likely = min(tower.necks, key=lambda one: abs(one.bubble - FOAM_USUAL))
    uses = [one.use for one in tower.necks]
    steps = (
        step(
            "jg*",
            f"largest speed of air a stable foam bears, foam of {1000.0 * likely.bubble:g} mm",
            "jg* = K*m*n*e***(n - 1)*(1 - e*)**2, e* = 1/3, K = rho*g*r**2/mu",
            (given("r", likely.bubble / 2.0, "m", "film"),),
            (likely.largest_speed, "m/s"),
            _FROTH,
        ),
        step(
            "use",
            "share of it in use in the neck",
            "use = (Q_air/A_neck)/jg*",
            (given("Q_air", tower.air_flow, "m3/s", "air"), given("A_neck", tower.neck_area, "m2")),
            (likely.use, "1"),
            _FROTH,
        ),
    )
    least = max(one.least_area for one in tower.necks)
    wide = 2.0 * math.sqrt(least / math.pi)
    value = Estimate(min(uses), likely.use, max(uses), "foam of 1 to 3 mm")
    advice = f"a neck ring of {show(wide, 'm', system, 'sheet')}, or less air"
    return Judged(below(at, "neck", words, value, "1", Limit(1.0, _FROTH), advice=advice), steps)


def _contact(at: At, tower: TowerFoam) -> Judged:
    row, words = table("foam_limits")["contact"], "time of the water among the bubbles"
    source = row.figure("least").source
    states = _states(tower)
    dwells = [one.water_dwell for one in states if one.water_dwell is not None]
    if not dwells:
        why = "the column floods, so that no dwell can be told"
        return Judged(unproven(at, "contact", words, "s", why, source))
    likely = states[1].water_dwell if states[1].water_dwell is not None else dwells[0]
    numbers = (given("V", tower.area * tower.depth, "m3"), given("Q", tower.water_flow, "m3/s"))
    steps = (
        step(
            "t",
            "water among the bubbles over its flow",
            "t = V*(1 - e)/Q",
            numbers,
            (likely, "s"),
            Source("definition", known=Known.COMPUTED),
        ),
    )
    value = Estimate(min(dwells), likely, max(dwells), _sizes(tower))
    limit = Limit(row.si("least"), source)
    advice = "less water through it, or a taller column"
    return Judged(above(at, "contact", words, value, "s", limit, advice=advice), steps)


def _air(at: At, tower: TowerFoam) -> Judged:
    row = table("foam_limits")["air"]
    ratio = tower.air_flow / tower.water_flow
    numbers = (given("Q_air", tower.air_flow, "m3/s", "air"), given("Q", tower.water_flow, "m3/s"))
    source = row.figure("air_to_water_min").source
    steps = (step("r", "air over water", "r = Q_air/Q", numbers, (ratio, "1"), source),)
    limit = Limit(row.si("air_to_water_min"), source, near=0.05)
    advice = "more air, or less water through it"
    return Judged(above(at, "air", "air over water", ratio, "1", limit, advice=advice), steps)


def _throughput(at: At, plan: Plan, tower: TowerFoam) -> Judged:
    row, wanted = table("foam_limits")["throughput"], plan.targets.foam_turnover
    source = YOURS if wanted is not None else row.figure("turns_min").source
    limit = Limit(wanted if wanted is not None else row.si("turns_min") * 3600.0, source, near=0.1)
    volume = tower.water_flow * 3600.0 / tower.turns_per_hour
    numbers = (given("Q", tower.water_flow, "m3/s"), given("V", volume, "m3"))
    steps = (
        step(
            "n",
            "all the water through it",
            "n = Q/V",
            numbers,
            (tower.turns_per_hour, "1/h"),
            Source("definition", known=Known.COMPUTED),
        ),
    )
    words = "system through it, times an hour"
    advice = "more water through it, so far as column and neck bear it"
    check = above(at, "throughput", words, tower.turns_per_hour, "1/h", limit, advice=advice)
    return Judged(check, steps)


def _clean_up(at: At, plan: Plan, tower: TowerFoam) -> list[Judged]:
    """Time to nine tenths, where the plan says in which time it is wanted."""
    wanted = plan.targets.clean_up
    if wanted is None:
        return []
    _, quick, likely, slow = tower.times[0]
    source = Source("Gage and Bidwell (1926)", known=Known.QUOTED)
    numbers = (
        given("V", tower.water_flow * 3600.0 / tower.turns_per_hour, "m3"),
        given("Q", tower.water_flow, "m3/s"),
        given("E", 0.5, "1"),
    )
    steps = (
        step(
            "t",
            "time until nine tenths of what can be skimmed is gone",
            "t = ln(1/(1 - p))*V/(E*Q)",
            numbers,
            (likely, "s"),
            source,
        ),
    )
    value = Estimate(quick, likely, slow, "a pass takes all, half or a quarter of what can be skimmed")
    words = "time to skim nine tenths of what can be"
    advice = "more water through it"
    return [Judged(below(at, "clean_up", words, value, "s", Limit(wanted, YOURS), advice=advice), steps)]


def _salt(at: At, facts: FoamFacts) -> Judged:
    row = table("foam_limits")["salt"]
    salt = facts.sal_gkg * facts.density / 1000.0
    source = row.figure("salt_min").source
    numbers = (given("S", facts.sal_gkg, "g/kg"), given("rho", facts.density, "kg/m3"))
    steps = (step("c", "salt in a litre", "c = S*rho", numbers, (salt, "kg/m3"), source),)
    limit = Limit(row.si("salt_min"), source)
    return Judged(above(at, "salt", "salt, for foam to stand", salt, "kg/m3", limit), steps)
