"""Ammonia that harms: its share at the kept pH, the total that warns, what the filter lets stand."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

from tidestead.core.answer import Assumption, Column, Estimate, Figure, Step, Table
from tidestead.core.units import System, show
from tidestead.physics import ammonia as laws
from tidestead.physics.ph import PHScale
from tidestead.physics.water import nutrients as films
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, below, given, unproven
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged, step
from tidestead.studies.water.alkalinity import SILENT_PH, scales_of
from tidestead.studies.water.ammonia_share import AmmoniaStep, share_of, steps_of, warmest
from tidestead.studies.water.life_sources import EPA, MILLER, RUSTEN, STOICHIOMETRY
from tidestead.studies.water.nutrients import NO_FEED
from tidestead.studies.water.section import Section
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import moved
from tidestead.studies.water.stock_facts import Load, StockFacts
from tidestead.studies.water.stock_steps import A_DAY, ammonia_step
from tidestead.studies.water.stocking import NO_FILTER

AT = At("ammonia", "ammonia", "water", "filters")
_WHAT = "un-ionised ammonia that the filter lets stand"
_PER_N = laws.AMMONIA_PER_NITROGEN
_NBS_BAND = (7.6, 7.8, 8.0, 8.2, 8.4, 8.6)
_BELOW = (
    "Below pH 8 less NH3 does as much harm: a fixed limit is then not on the safe side (Miller et al. 1990)."
)
_COARSE = (
    "Levels as low as a reef's lie outside what was measured on films: read your own total ammonia, and write "
    "filters.NAME.grown so that this comes to it."
)


@dataclass(frozen=True)
class AmmoniaFacts:
    """`share` that is un-ionised (None without a pH), its other model's beside it, `steps` of harm with the total that
    makes each, `standing` un-ionised ammonia by the filter now and with the grown stock's feed, g/m3 of NH3.
    """

    share: Estimate | None
    other: float | None
    scales: tuple[tuple[str, float], ...]
    steps: tuple[AmmoniaStep, ...]
    standing: Estimate | None
    standing_grown: Estimate | None
    table: tuple[tuple[float, float, float, float], ...]


def ammonia_of(inputs: Inputs, setting: Setting, stock: StockFacts) -> AmmoniaFacts:
    """By the kept pH, temperature and salinity, and what the filter settles at."""
    plan = inputs.plan
    share = share_of(plan, setting)
    steps = steps_of(plan, share)
    told = plan.water.ph
    other = None
    if told is not None:
        scale = PHScale(told.scale)
        other = float(laws.unionised_share_total(told.value, scale, setting.sal_psu, setting.temp_c))
    return AmmoniaFacts(
        share,
        other,
        scales_of(plan, setting),
        steps,
        _standing(stock.now, share),
        _standing(stock.grown, share),
        tuple(_row(ph, setting, warmest(plan, setting), steps) for ph in _NBS_BAND),
    )


def _standing(load: Load, share: Estimate | None) -> Estimate | None:
    """NH3 of the total that the filter settles at; None where one of both is not known."""
    if share is None or load.tan is None:
        return None
    if not math.isfinite(load.tan.high):
        likely = load.tan.likely * share.likely * _PER_N
        return Estimate(load.tan.low * share.low * _PER_N, likely, math.inf, load.tan.basis)

    def made(total: float, part: float) -> float:
        return float(laws.unionised_ammonia(total, part))

    return moved(made, (load.tan, share), "feed, films and warmth, each at its ends, as squares", 0.0)


def _row(
    ph: float, setting: Setting, warm: float, steps: tuple[AmmoniaStep, ...]
) -> tuple[float, float, float, float]:
    """At a pH of the NBS scale, water as warm as is kept: share by the limits' form, total to warn and to act at."""
    share = float(laws.unionised_share(ph, PHScale.NBS, setting.sal_psu, warm))
    warn, act, _ = (float(laws.total_that_holds(one.level, share)) for one in steps)
    return ph, share, warn, act


def ammonia_section(inputs: Inputs, setting: Setting, facts: AmmoniaFacts, stock: StockFacts) -> Section:
    """Whether what stands harms; what a test may show before somebody acts."""
    plan = inputs.plan
    judged = list(_judged(plan, facts, stock, setting))
    return Section(
        judged=tuple(judged),
        figures=_figures(facts, stock),
        tables=_tables(facts, setting),
        assumptions=_assumptions(plan),
        cautions=_cautions(facts),
        told=_told(facts, inputs.system),
    )


def _judged(plan: Plan, facts: AmmoniaFacts, stock: StockFacts, setting: Setting) -> list[Judged]:
    """Against the levels that warn and that must be acted on; of the grown stock where it is fed more."""
    found = [_one(facts, stock.now, stock, setting, name) for name in ("warn", "act")]
    if stock.grown.feed != stock.now.feed:
        found.append(
            _one(replace(facts, standing=facts.standing_grown), stock.grown, stock, setting, "act", "_grown")
        )
    return found if plan.water.ph is not None else found[:1]


def _one(
    facts: AmmoniaFacts, load: Load, stock: StockFacts, setting: Setting, name: str, ending: str = ""
) -> Judged:
    level = next(one for one in facts.steps if one.name == name)
    words = {"warn": "told", "act": "acted on"}[name]
    what = f"{_WHAT}, against what must be {words}"
    why = _why(facts, load, stock)
    if why or facts.standing is None:
        return Judged(unproven(AT, name + ending, what, "mg/L", why, level.source), by_level=False)
    near = 0.0 if name == "warn" else 0.20
    limit = Limit(
        level.level, level.source, "un-ionised, as NH3, by the form the limits were made with", near
    )
    cautions = (_COARSE, *((_BELOW,) if dict(facts.scales).get("nbs", 8.1) < 8.0 else ()))
    advice = "more grown surface for bacteria (filters), or less feed; at once: stop feeding"
    check = below(AT, name + ending, what, facts.standing, "mg/L", limit, advice=advice, cautions=cautions)
    return Judged(check, _steps(facts, load, stock, setting), by_level=False)


def _why(facts: AmmoniaFacts, load: Load, stock: StockFacts) -> str:
    """What is not told."""
    if facts.share is None:
        return SILENT_PH
    if load.ammonia is None:
        return NO_FEED
    if stock.area <= 0.0:
        return NO_FILTER
    if load.tan is None or not math.isfinite(load.tan.high):
        return "the most that the feed may become is beyond the filter, so that no level settles: see stock, ammonia"
    return ""


def _steps(facts: AmmoniaFacts, load: Load, stock: StockFacts, setting: Setting) -> tuple[Step, ...]:
    """From the feed to the total that settles, and the part of it that harms."""
    if (
        load.feed is None
        or load.ammonia is None
        or load.tan is None
        or facts.share is None
        or facts.standing is None
    ):
        return ()
    made, quick = A_DAY * load.ammonia.likely, films.RATE_PER_KELVIN ** (setting.temp_c - 15.0)
    numbers = (
        given("N", made, "g/day"),
        given("A", stock.area, "m2"),
        given("w", quick, "1"),
        given("s", 0.5, "1"),
    )
    meaning = "total ammonia that grown films settle at; w: quicker by warmth than at 15 degC, s: sea over fresh water"
    salt, warm, ph = setting.sal_psu, setting.temp_c, dict(facts.scales)["nbs"]
    strength = 19.9273 * salt / (1000.0 - 1.005109 * salt)
    pka = float(laws.pka_epa(salt, warm))
    kelvin = warm + 273.15
    of_salt = (given("S", salt, "psu"),)
    of_warmth = (given("I", strength, "1"), given("T", kelvin, "kelvin"))
    parts = (
        given("S_N", load.tan.likely, "mg/L"),
        given("f", facts.share.likely, "1", "share"),
        given("m", _PER_N, "1"),
    )
    likely = load.tan.likely * facts.share.likely * _PER_N
    return (
        ammonia_step(load.feed, stock.protein, made),
        step("S_N", meaning, "S_N = (N/(A*0.50*w*s))**(1/0.7)", numbers, (load.tan.likely, "mg/L"), RUSTEN),
        step("I", "salt as ionic strength", "I = 19.9273*S/(1000 - 1.005109*S)", of_salt, (strength, "1"), EPA),
        step("pKa", "constant of ammonium, in air of one atmosphere",
             "pKa = 9.245 + 0.116*I + 0.0324*(298 - T) + 0.0415/T", of_warmth, (pka, "1"), EPA),
        step("f", "share of it that is un-ionised; pH on the NBS scale", "f = 1/(1 + 10**(pKa - pH))",
             (given("pKa", pka, "1"), given("pH", ph, "1")), (facts.share.likely, "1", "share"), EPA),
        step("NH3", "un-ionised ammonia; m: weight of NH3 for each of its nitrogen", "NH3 = m*f*S_N", parts,
             (likely, "mg/L"), STOICHIOMETRY),
    )  # fmt: skip


def _figures(facts: AmmoniaFacts, stock: StockFacts) -> tuple[Figure, ...]:
    found = []
    if facts.share is not None:
        words = "share of total ammonia that is un-ionised"
        found.append(Figure("water.ammonia.share", words, facts.share, "1", EPA, "share"))
    for one in facts.steps:
        if one.total is not None:
            words = f"total ammonia, as nitrogen, that is the level to {one.name}"
            found.append(
                Figure(f"water.ammonia.{one.name}", words, Estimate.exact(one.total), "mg/L", one.source)
            )
    tan = stock.now.tan
    if tan is not None and math.isfinite(tan.high):
        found.append(
            Figure(
                "water.ammonia.total",
                "total ammonia, as nitrogen, that the filter settles at",
                tan,
                "mg/L",
                RUSTEN,
            )
        )
    return tuple(found)


def _tables(facts: AmmoniaFacts, setting: Setting) -> tuple[Table, ...]:
    columns = (
        Column("pH, NBS"), Column("un-ionised"), Column("total N that warns", "mg/L"),
        Column("total N to act at", "mg/L"),
    )  # fmt: skip
    rows = tuple((f"{ph:.1f}", f"{100.0 * share:.1f} %", warn, act) for ph, share, warn, act in facts.table)
    note = (
        f"Salinity {setting.sal_psu:.1f}, the warmest water kept, as the levels are. In seawater NBS reads about 0.14 "
        "above total: a pH taken for one of the other scale errs by a third."
    )
    found = [Table("water.ammonia.by_ph", "what a test of total ammonia may show", columns, rows, note)]
    if facts.share is not None and facts.other is not None:
        scales = dict(facts.scales)
        heads = (Column("by"), Column("pH"), Column("un-ionised"))
        both = (
            (
                "the form the limits were made with, NBS scale",
                f"{scales['nbs']:.2f}",
                f"{100.0 * facts.share.likely:.2f} %",
            ),
            (
                "Clegg and Whitfield (1995), total scale",
                f"{scales['total']:.2f}",
                f"{100.0 * facts.other:.2f} %",
            ),
        )
        note = "The same water. Limits are judged with the first, the form they were made with; it tells more of it."
        found.append(Table("water.ammonia.scales", "un-ionised share by two models", heads, both, note))
    return tuple(found)


def _assumptions(plan: Plan) -> tuple[Assumption, ...]:
    if plan.water.ph is None:
        return ()
    words = "0.50*S**0.7 g N/(m2 day) at 15 degC, half of it in seawater (0.41 to 0.6)"
    return (Assumption("pace of grown films", words, "how quick they are at little ammonia", RUSTEN),)


def _cautions(facts: AmmoniaFacts) -> tuple[str, ...]:
    nbs = dict(facts.scales).get("nbs")
    if nbs is None:
        return (
            "Without a pH and its scale no ammonia can be judged: 8.2 NBS and 8.2 total differ by a third.",
        )
    return (
        f"A fixed limit of NH3 is not on the safe side below pH 8 ({MILLER.work}); yours stands at {nbs:.2f} NBS.",
    )


def _told(facts: AmmoniaFacts, system: System) -> tuple[str, ...]:
    if facts.share is None:
        return ()
    act = next(one for one in facts.steps if one.name == "act")
    if act.total is None:
        return ()
    words = (
        f"At the kept pH, in the warmest water kept, {100.0 * facts.share.high:.1f} % of the ammonia is un-ionised: "
        "act when a test shows "
    )
    return (f"{words}{show(act.total, 'mg/L', system)} of total ammonia (as N).",)
