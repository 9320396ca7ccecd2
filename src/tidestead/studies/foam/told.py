"""The answer put together: sentence, checks, figures, tables, drawing, assumptions, cautions."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from tidestead.catalog import table
from tidestead.core.answer import Answer, Assumption, Check, Estimate, Figure, Verdict, Working
from tidestead.core.dims import G
from tidestead.core.source import COMPUTED, PRACTICE, YOURS, Known, Source
from tidestead.core.units import System, show
from tidestead.physics.foam.diffusers import HEATS
from tidestead.studies.checks import At, Limit, above, given, unproven
from tidestead.studies.foam.bubble_steps import crowd_steps, size_words
from tidestead.studies.foam.checks import clean_up_ends, likely_state, tower_checks
from tidestead.studies.foam.drawings import scenes_of
from tidestead.studies.foam.facts import BLOWER, FoamFacts, TowerFoam
from tidestead.studies.foam.gas import exchange_sources, gas_working, held_steps
from tidestead.studies.foam.level_checks import course_words
from tidestead.studies.foam.neck_checks import likely_neck
from tidestead.studies.foam.tables import tables_told
from tidestead.studies.inputs import Inputs
from tidestead.studies.judged import Judged, step
from tidestead.studies.sentences import percent, told_of

QUESTION = "Will the fractionator earn its place?"

ALWAYS = (
    "Foam theory is of stable foam of equal bubbles. How much runs over a day cannot be told, and is not.",
    "Air lines: a check valve, and the air pump above the water, or it siphons when it stops. Air pumps and mains near "
    "seawater: a residual-current device, drip loops, a licensed electrician; local codes govern.",
    "Ozone is not reckoned here. It harms lungs and animals: never dose it by sums alone.",
    "Bubbles and foam are reckoned by laws made for laboratories: measure the level with the air on, the flow with a "
    "bucket and a watch, and look at what leaves the outlet.",
)

_AIMS = (".throughput", ".clean_up", ".salt", ".air")
"""Ends of checks that are wishes of the plan, habits of the trade or of the water, not parts of the tower."""

_TIGHT = 0.8
"""Use of a check from which on advice that would raise it is left out."""

_PRESSURE = Source("elementary hydrostatics", known=Known.COMPUTED)
_GAS = Source("thermodynamics of a perfect gas pressed without loss of heat", known=Known.COMPUTED)


def tell(inputs: Inputs, facts: FoamFacts) -> Answer:
    """The whole answer."""
    judged = _judged(inputs, facts)
    checks = tuple(one.check for one in judged)
    return Answer(
        "foam",
        QUESTION,
        sentence(inputs, facts, checks),
        checks,
        _figures(facts),
        _assumptions(inputs, facts),
        tuple(_workings(judged, facts, inputs.system)),
        tables_told(facts, inputs.system),
        (),
        scenes_of(inputs.plan, facts, inputs.system),
        ALWAYS,
        exchange_sources() if facts.gas.gains else (),
    )


def _workings(judged: Sequence[Judged], facts: FoamFacts, system: System) -> Iterator[Working]:
    """Bubbles first, for what follows stands on them; then every check, then the air pump."""
    for tower in facts.towers:
        state = likely_state(tower)
        title = (
            f"{tower.key}: bubbles of {size_words(state.bubble, system)}, and the air that is held of them"
        )
        yield Working(title, crowd_steps(tower, state, system), part=tower.key)
    yield from (one.working for one in judged if one.steps)
    yield from (_air_working(tower, facts.gas.air_pressure) for tower in facts.towers)
    if facts.gas.gains:
        yield gas_working(facts)


def _judged(inputs: Inputs, facts: FoamFacts) -> list[Judged]:
    found: list[Judged] = []
    for tower in facts.towers:
        found += tower_checks(inputs.plan, facts, tower, inputs.system)
    for key, why in facts.missing:
        at = At(key, key, "foam", f"vessels.{key}")
        found.append(Judged(unproven(at, "works", "whether it works", "1", why, YOURS)))
    if facts.gas.danger > 0.0 and facts.towers:
        found.append(_oxygen(facts))
    if not found:
        at = At("fractionator", "fractionator", "foam", "vessels")
        why = 'the plan describes none: give a vessel role = "fractionator"'
        found.append(Judged(unproven(at, "works", "whether it works", "1", why, YOURS)))
    return found


def _oxygen(facts: FoamFacts) -> Judged:
    """What the water can hold at its warmest, against the level at which animals suffer."""
    source = table("oxygen")["danger"].figure("level").source
    at = At("oxygen", "water", "foam", "water.keep")
    limit = Limit(facts.gas.danger, source, "where animals suffer")
    words = "oxygen it can hold at its warmest"
    advice = "cooler water: what it can hold falls with warmth and with height above the sea"
    return Judged(above(at, "held", words, facts.gas.warm, "g/m3", limit, advice=advice), held_steps(facts))


def sentence(inputs: Inputs, facts: FoamFacts, checks: Sequence[Check]) -> str:
    """What limits it, by how much, what to change, and how long it takes."""
    words = told_of(checks, inputs.system)
    for tower in facts.towers:
        words += [_limiting(tower, checks), _cleaned(inputs, tower)]
    return " ".join(word for word in words if word)


def _limiting(tower: TowerFoam, checks: Sequence[Check]) -> str:
    """The part of the tower that is worked hardest, where it still holds, and what gives it room."""
    parts = [check for check in checks if check.part == tower.key and not check.id.endswith(_AIMS)]
    known = [check for check in parts if check.use is not None]
    if not known or any(check.verdict is Verdict.FAILS for check in parts):
        return ""
    first = max(known, key=lambda check: check.use or 0.0)
    words = f"The part of {tower.key} that limits it is {first.what}: {percent(first)} of what it can bear"
    advice = _open_ways(first.advice, checks)
    return f"{words}. To gain room there: {advice}." if advice else f"{words}."


def _open_ways(advice: str, checks: Sequence[Check]) -> str:
    """Advice without what would take the little room from another check."""
    tight = {check.id.rpartition(".")[2] for check in checks if (check.use or 0.0) > _TIGHT}
    against = {"less air": "air", "less water": "throughput", "more air": "flooding"}
    ways = [way.strip().removeprefix("or ") for way in advice.split(",")]
    left = [
        way for way in ways if not any(way.startswith(one) and end in tight for one, end in against.items())
    ]
    return ", or ".join([", ".join(left[:-1]), left[-1]] if len(left) > 1 else left)


def _cleaned(inputs: Inputs, tower: TowerFoam) -> str:
    """The ends of the check of the same name, told in its unit."""
    ends, wanted = clean_up_ends(tower), inputs.plan.targets.clean_up
    beside = (*ends, tower.times[0][2], *(() if wanted is None else (wanted,)))
    low, high = (show(end, "s", inputs.system, "", beside) for end in ends)
    between = (
        f"{low} to {high}" if math.isfinite(ends[1]) else f"{low} or any longer time, at the least flow,"
    )
    return f"{tower.key.capitalize()} takes {between} for nine tenths of what can be skimmed."


def _figures(facts: FoamFacts) -> tuple[Figure, ...]:
    found: list[Figure] = []
    for tower in facts.towers:
        found += _tower_figures(tower)
    held = Estimate(
        facts.gas.warm, (facts.gas.warm + facts.gas.cool) / 2.0, facts.gas.cool, "warmest to coolest"
    )
    found.append(Figure("foam.oxygen", "oxygen the water can hold", held, "g/m3", COMPUTED))
    return tuple(found)


def _tower_figures(tower: TowerFoam) -> list[Figure]:
    share = table("foam_limits")["column-share"].si("share_tried")
    rows: list[tuple[str, str, Estimate | float, str, str]] = [
        ("water", "water through it", tower.flow, "m3/s", ""),
        ("air", "air through it", tower.air_flow, "m3/s", "air"),
        ("course", f"water goes {course_words(tower)}, along", tower.way.met, "m", "level"),
        ("pressure", "pressure the air pump must give", tower.air_pressure, "Pa", "air"),
        ("power", "power for the air, by a pump of 30 %", tower.air_power, "W", ""),
        ("volume", "water in its column", tower.volume, "m3", ""),
        (
            "share",
            f"its column as a share of the system; one trial with fed fish had {100.0 * share:g} %, which is no limit",
            tower.share_of_system,
            "1",
            "share",
        ),
    ]
    if tower.lift.level is not None:
        rows.append(("level", "depth of its water with the air on", tower.lift.level, "m", "level"))
    if tower.of_pumps is not None:
        rows.append(("of_pumps", "its water as a share of what the pumps move", tower.of_pumps, "1", "share"))
    if tower.necks:
        likely = likely_neck(tower)
        rows.append(("neck", "air in its neck", likely.gas_speed, "m/s", ""))
    if tower.slope is not None:
        rows.append(
            ("slope", "slope of its cone; no source says how steep is enough", tower.slope, "rad", "")
        )
    return [
        Figure(
            f"foam.{tower.key}.{name}",
            f"{tower.key}: {words}",
            value if isinstance(value, Estimate) else Estimate.exact(value),
            unit,
            COMPUTED,
            style,
        )
        for name, words, value, unit, style in rows
    ]


def _air_working(tower: TowerFoam, air_pressure: float) -> Working:
    """What it takes to press the air through the diffuser."""
    density = tower.properties.density
    lost, pressure = given("loss", tower.air_loss, "Pa", "air"), given("p", tower.air_pressure, "Pa", "air")
    numbers = (
        given("rho", density, "kg/m3"),
        given("g", G, "m/s2"),
        given("h", tower.depth, "m", "level"),
        lost,
    )
    meaning = "pressure over that of the room: h clear water over the diffuser, loss in it"
    power = step(
        "P",
        "power to press it from the room's p0, by a pump that makes good a share eta of what it draws",
        "P = k/(k - 1)*p0*Q_air*((1 + p/p0)**((k - 1)/k) - 1)/eta",
        (
            given("k", HEATS, "1"),
            given("p0", air_pressure, "Pa", "air"),
            given("Q_air", tower.air_flow, "m3/s", "air"),
            pressure,
            given("eta", BLOWER, "1"),
        ),
        (tower.air_power, "W"),
        _GAS,
    )
    first = step("p", meaning, "p = rho*g*h + loss", numbers, (tower.air_pressure, "Pa", "air"), _PRESSURE)
    return Working(f"{tower.key}: pressure and power for its air", (first, power), part=tower.key)


def _assumptions(inputs: Inputs, facts: FoamFacts) -> tuple[Assumption, ...]:
    found = [
        Assumption("efficiency", _shares(facts), "nobody has measured yours", PRACTICE),
    ]
    if inputs.plan.site.elevation is None:
        sea = show(0.0, "m", inputs.system)
        found.append(Assumption("site.elevation", sea, "air as at the sea", PRACTICE))
    for tower in facts.towers:
        vessel = inputs.plan.vessels[tower.key]
        key = f"vessels.{tower.key}.air"
        if tower.bubble is None:
            found.append(
                Assumption(
                    f"{key}.bubble", _sizes(tower, inputs), "what diffusers are said to give", PRACTICE
                )
            )
        if vessel.air is not None and vessel.air.depth is None:
            depth = show(tower.depth, "m", inputs.system, "level")
            found.append(Assumption(f"{key}.depth", depth, "the diffuser lies on the floor", PRACTICE))
        if vessel.air is not None and vessel.air.loss is None:
            found.append(Assumption(f"{key}.loss", "none", "the diffuser costs no pressure", PRACTICE))
    return tuple(found)


def _shares(facts: FoamFacts) -> str:
    """Shares of a pass in words, by tower where they differ."""
    each = {
        tower.key: ", ".join(f"{100.0 * one:.3g} %" for one in tower.efficiencies) for tower in facts.towers
    }
    if len(set(each.values())) <= 1:
        return f"{next(iter(each.values()), '100 %, 50 %, 25 %')} of a pass"
    return "; ".join(f"{key}: {shares} of a pass" for key, shares in each.items())


def _sizes(tower: TowerFoam, inputs: Inputs) -> str:
    small, large = (size_words(state.bubble, inputs.system) for state in (tower.worst, tower.best))
    return f"{small} to {large}"
