"""Judging float valves: one stuck open neither floods nor freshens; an open one keeps up, and sees what is missing."""

from __future__ import annotations

import math

from tidestead.core.answer import Step
from tidestead.core.source import PRACTICE, YOURS, Known, Source
from tidestead.core.units import System, show
from tidestead.studies.checks import At, Limit, above, below, given, unproven
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.top_offs import FALL, SUNK, TopOffFacts
from tidestead.studies.judged import Judged, step

_BALANCE = Source("balance of water and salt", known=Known.COMPUTED)

_STUCK = (
    "A float valve sticks sooner or later: a stock no larger than the system bears, and never the mains, is what "
    "makes that harmless.",
)


def top_off_checks(facts: FlowFacts, system: System) -> list[Judged]:
    """Every float valve."""
    found: list[Judged] = []
    for one in facts.top_offs:
        at = At(
            f"{one.vessel}.top_off", f"{one.vessel}, float valve", "flow", f"vessels.{one.vessel}.top_off"
        )
        found += [_floods(at, one, system), _freshens(at, one, system), _keeps_up(at, one)]
        found += _placed(at, one)
    return found


LOWER = 0.005
"""How far under its level a float valve's water may stand, metres: its own play. Common practice, no source."""

FOLLOWS = 0.5
"""Metres that a float valve's vessel must sink for each that the sump does, for the valve to see what evaporates.
Common practice, no source."""


def _placed(at: At, one: TopOffFacts) -> list[Judged]:
    """A valve outside the sump."""
    return [] if one.vessel == one.ends_in else [_shuts(at, one), _follows(at, one)]


def _shuts(at: At, one: TopOffFacts) -> Judged:
    """A valve set over the water that its vessel has while all runs never shuts: its whole stock runs in."""
    words = "water under the level at which it shuts, while all runs"
    numbers = (
        given("z_shut", one.shuts_at, "m", "fine"),
        given("z", one.shuts_at - one.open_by, "m", "fine"),
    )
    steps = (step("h", words, "h = z_shut - z", numbers, (one.open_by, "m", "bow"), _BALANCE),)
    advice = f"a lower level for it, or the float valve in {one.ends_in}: as it is it stands open all along"
    limit = Limit(LOWER, PRACTICE, "its own play", near=0.0)
    return Judged(below(at, "shuts", words, one.open_by, "m", limit, style="bow", advice=advice), steps)


def _follows(at: At, one: TopOffFacts) -> Judged:
    """Whether its vessel sinks with the one in which what evaporates is missing."""
    words = f"how far it sinks for each metre that {one.ends_in} does"
    if one.follows is None:
        why = f"with {one.ends_in} lower the flow was not found"
        return Judged(unproven(at, "follows", words, "1", why, _BALANCE))
    steps = (
        step(
            "s",
            f"sinking of {one.vessel} over that of {one.ends_in}, the network solved with {one.ends_in} lower by d",
            "s = dz/d",
            (given("dz", one.follows * SUNK, "m", "bow"), given("d", SUNK, "m", "bow")),
            (one.follows, "1"),
            _BALANCE,
        ),
    )
    advice = f"the float valve in {one.ends_in}: what evaporates is missing there, the overflows keep the rest full"
    limit = Limit(FOLLOWS, PRACTICE)
    return Judged(above(at, "follows", words, one.follows, "1", limit, advice=advice), steps)


def _time(seconds: float, system: System) -> str:
    return show(seconds, "s", system) if math.isfinite(seconds) else "never"


def _floods(at: At, one: TopOffFacts, system: System) -> Judged:
    words = f"its stock against the room in {one.ends_in}, the valve stuck open"
    if one.stock is None:
        why = (
            f"say how much fresh water it can draw on: vessels.{one.vessel}.top_off.stock. On the mains it fills "
            f"{one.ends_in} to the brim in {_time(one.spills, system)}, and goes on"
        )
        return Judged(unproven(at, "floods", words, "m3", why, _BALANCE))
    steps = (
        step(
            "t",
            "time until the stock has run in",
            "t = V/Q",
            (given("V", one.stock, "m3"), given("Q", one.flow, "m3/s")),
            (one.stock / one.flow, "s"),
            _BALANCE,
        ),
    )
    limit = Limit(one.room, YOURS, "to the brim, nothing running back meanwhile")
    advice = "a smaller stock of fresh water, or less water in the sump"
    return Judged(below(at, "floods", words, one.stock, "m3", limit, advice=advice, cautions=_STUCK), steps)


def _freshens(at: At, one: TopOffFacts, system: System) -> Judged:
    words = "fall of salinity, the valve stuck open"
    if one.after is None:
        why = (
            f"say how much fresh water it can draw on: vessels.{one.vessel}.top_off.stock. On the mains salinity has "
            f"fallen by {show(FALL, 'psu', system)} in {_time(one.dilutes, system)}"
        )
        return Judged(unproven(at, "freshens", words, "psu", why, _BALANCE))
    fall = one.before - one.after
    fill = one.fill
    filled = min(fill.supply, fill.free)
    steps = (
        step(
            "S",
            "salinity once all of it has run in, stirred: by weights m0 of the system and mf of what it has room for, "
            "then by V_over that washes over the brim of V_full",
            "S = S0*m0/(m0 + mf)*exp(-V_over/V_full)",
            (
                given("S0", one.before, "psu"),
                given("m0", fill.volume * fill.density, "kg"),
                given("mf", filled * fill.fresh_density, "kg"),
                given("V_over", fill.supply - filled, "m3"),
                given("V_full", fill.volume + fill.free, "m3"),
            ),
            (one.after, "psu"),
            _BALANCE,
        ),
    )
    limit = Limit(FALL, PRACTICE)
    advice = "a smaller stock of fresh water"
    return Judged(below(at, "freshens", words, fall, "psu", limit, advice=advice), steps)


def _keeps_up(at: At, one: TopOffFacts) -> Judged:
    words = "flow of the open valve against what evaporates"
    if one.evaporation is None:
        why = f"say what goes off into the air: vessels.{one.vessel}.top_off.evaporation"
        return Judged(unproven(at, "keeps_up", words, "m3/s", why, _BALANCE))
    steps: tuple[Step, ...] = ()
    if one.stock is not None:
        steps = (
            step(
                "t",
                "time for which the stock lasts",
                "t = V/E",
                (given("V", one.stock, "m3"), given("E", one.evaporation, "m3/s")),
                (one.stock / one.evaporation, "s"),
                _BALANCE,
            ),
        )
    limit = Limit(one.evaporation, YOURS)
    advice = "a valve of more flow"
    return Judged(above(at, "keeps_up", words, one.flow, "m3/s", limit, advice=advice), steps)
