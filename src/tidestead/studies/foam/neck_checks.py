"""Judging a neck: how much air its foam bears, and how dry what runs over can be."""

from __future__ import annotations

import math

from tidestead.catalog import table
from tidestead.core.answer import Estimate, Given, Step
from tidestead.core.dims import G
from tidestead.core.source import Known, Source
from tidestead.core.units import System, show
from tidestead.physics.foam import froth
from tidestead.physics.foam.froth import USUAL, NeckState
from tidestead.studies.checks import At, Limit, below, given, unproven
from tidestead.studies.foam.bubble_steps import CONTINUITY, size_words
from tidestead.studies.foam.facts import TowerFoam
from tidestead.studies.judged import Judged, step

FOAM_USUAL = 1.5e-3
"""Diameter of foam bubbles taken as likely in a neck: foam coarsens on its way. No source was found."""

_FROTH = Source(
    "P. Stevenson and X. Li, Foam Fractionation (2014)", "flooding of a stable foam", Known.RECALLED
)


def neck_check(at: At, tower: TowerFoam, system: System) -> Judged:
    """Air through the neck against what a stable foam bears; judged by the finest foam."""
    words = "air through the neck, against what its foam bears"
    if tower.neck_area is None or not tower.necks:
        why = f"say how wide its neck is: vessels.{tower.key}.cone"
        return Judged(unproven(at, "neck", words, "1", why, _FROTH))
    finest, likely = min(tower.necks, key=lambda one: one.bubble), likely_neck(tower)
    uses = [one.use for one in tower.necks]
    coarsest = max(tower.necks, key=lambda one: one.bubble)
    sizes = f"foam of {size_words(finest.bubble, system)} to {size_words(coarsest.bubble, system)}"
    value = Estimate(min(uses), likely.use, max(uses), sizes)
    now = show(_width(tower.neck_area), "m", system, "sheet")
    advice = f"a wider neck ring than {now}, or less air"
    if finest.use > 1.0:
        wide = show(least_width(finest), "m", system, "sheet")
        advice = f"a wider neck ring, {wide} or more where it is {now} now, or less air"
    cautions = (_stable(tower, system),)
    check = below(at, "neck", words, value, "1", Limit(1.0, _FROTH), advice=advice, cautions=cautions)
    return Judged(check, _steps(tower, likely, finest, system))


def likely_neck(tower: TowerFoam) -> NeckState:
    """The neck with foam of the usual size."""
    return min(tower.necks, key=lambda one: abs(one.bubble - FOAM_USUAL))


def least_width(neck: NeckState) -> float:
    """Width of a neck that just bears the air."""
    return _width(neck.least_area)


def dry_width(tower: TowerFoam, neck: NeckState) -> float:
    """Width of a neck that leaves this foam dry."""
    return _width(tower.air_flow / neck.dry_speed)


def _width(area: float) -> float:
    return 2.0 * math.sqrt(area / math.pi)


def _stable(tower: TowerFoam, system: System) -> str:
    """What the law cannot tell, and how wet the foam would be by it."""
    likely = likely_neck(tower)
    words = (
        "The law is of stable foam. Foam that bursts lets its air go before the neck, and coarse foam bears more: make "
        "the neck a ring that can be changed."
    )
    if likely.dry_use > 1.0:
        wide = show(dry_width(tower, likely), "m", system, "sheet")
        words += (
            f" Foam of {size_words(likely.bubble, system)} would run over wet through this ring, more than a "
            f"twentieth of it water; one of {wide} would leave it dry. No source says how dry is dry enough: watch the "
            "cup."
        )
    return words


def _steps(tower: TowerFoam, likely: NeckState, finest: NeckState, system: System) -> tuple[Step, ...]:
    """The law put in for the likely foam; the width for the finest, by which it is judged."""
    area, air = tower.neck_area or 0.0, given("Q_air", tower.air_flow, "m3/s", "air")
    foam, dry = f"foam of {size_words(likely.bubble, system)}", table("foam_limits")["neck"].si("liquid_dry")
    return (
        *_bearing(tower, likely, foam),
        step(
            "jg",
            "speed of the air in the neck",
            "jg = Q_air/A_neck",
            (air, given("A_neck", area, "m2")),
            (likely.gas_speed, "m/s"),
            CONTINUITY,
        ),
        step(
            "use",
            f"share in use, {foam}",
            "use = jg/jg_f",
            (given("jg", likely.gas_speed, "m/s"), given("jg_f", likely.largest_speed, "m/s")),
            (likely.use, "1"),
            _FROTH,
        ),
        step(
            "d_least",
            f"narrowest neck for foam of {size_words(finest.bubble, system)}, by which it is judged",
            "d_least = sqrt(4*Q_air/(pi*jg_f))",
            (air, given("jg_f", finest.largest_speed, "m/s")),
            (least_width(finest), "m", "sheet"),
            _FROTH,
        ),
        step(
            "jg_dry",
            f"speed of air that leaves {foam} with a share e of water",
            "jg_dry = K*m*n*e**(n - 1)*(1 - e)**2",
            (*_law(tower, likely), given("e", dry, "1")),
            (likely.dry_speed, "m/s"),
            _FROTH,
        ),
    )


def _bearing(tower: TowerFoam, neck: NeckState, foam: str) -> tuple[Step, ...]:
    """The most air that a stable foam bears."""
    properties, wettest = tower.properties, float(froth.flooding_liquid())
    scale, m, n = _law(tower, neck)
    numbers = (
        given("rho", properties.density, "kg/m3"),
        given("g", G, "m/s2"),
        given("r", neck.bubble / 2.0, "m", "bubble"),
        given("mu", properties.viscosity, "Pa s"),
    )
    return (
        step(
            "K",
            f"scale of drainage, {foam}: r half of that",
            "K = rho*g*r**2/mu",
            numbers,
            (scale.value, "m/s"),
            _FROTH,
        ),
        step(
            "e_f",
            "share of water at which foam floods",
            "e_f = (n - 1)/(n + 1)",
            (n,),
            (wettest, "1"),
            _FROTH,
        ),
        step(
            "jg_f",
            f"largest speed of air that stable {foam} bears",
            "jg_f = K*m*n*e_f**(n - 1)*(1 - e_f)**2",
            (scale, m, n, given("e_f", wettest, "1")),
            (neck.largest_speed, "m/s"),
            _FROTH,
        ),
    )


def _law(tower: TowerFoam, neck: NeckState) -> tuple[Given, ...]:
    scale = float(froth.drainage_scale(neck.bubble / 2.0, tower.properties))
    return given("K", scale, "m/s"), given("m", USUAL.factor, "1"), given("n", USUAL.exponent, "1")
