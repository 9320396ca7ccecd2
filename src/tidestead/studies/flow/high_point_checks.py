"""Judging highest points: the pump gets over, the line fills behind it, the water there does not boil."""

from __future__ import annotations

from tidestead.core.answer import Step
from tidestead.core.dims import G
from tidestead.core.source import Known, Source
from tidestead.studies.checks import At, Limit, above, below, given, unproven
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.high_points import HighPoint, Lifted
from tidestead.studies.judged import Judged, step

_ENERGY = Source("energy equation of a full pipe", known=Known.COMPUTED)
_CURVE = Source("the pump's curve", "as the plan gives it", Known.YOURS)
_SLUG = Source("Davies and Taylor (1950)", known=Known.RECALLED)

_AIR_COMES_OUT = 1.0 / 3.0
"""Share of the way to boiling in which air comes out of the water and gathers. Common practice, no source."""


def high_point_checks(facts: FlowFacts) -> list[Judged]:
    """Every highest point."""
    found: list[Judged] = []
    for one in facts.high_points:
        at = At(f"circuits.{one.line}", f"line {one.line}", "flow", f"circuits.{one.line}.high_point")
        found.append(_pressure(at, one))
        if one.lifted is not None:
            found += _pumped(at, one, one.lifted)
        else:
            found.append(_risen(at, one))
    return found


def _pressure(at: At, one: HighPoint) -> Judged:
    """How far it stands over the level behind it, against where the water in it boils."""
    steps = (
        step(
            "z_boil",
            "height over the water behind it at which water boils in it: deep low, warmest water",
            "z_boil = (p_air - p_v)/(rho*g)",
            (
                given("p_air", one.boiling.low_air, "Pa"),
                given("p_v", one.boiling.vapour, "Pa", "air"),
                given("rho", one.boiling.density, "kg/m3"),
                given("g", G, "m/s2"),
            ),
            (one.boils, "m"),
            _ENERGY,
        ),
    )
    limit = Limit(one.boils, _ENERGY, near=_AIR_COMES_OUT)
    words = "height of its highest point over the water behind it"
    advice = "a lower highest point: in the last third before boiling air comes out of the water and parts the column"
    check = below(at, "crest", words, max(one.over, 0.0), "m", limit, style="level", advice=advice)
    return Judged(check, steps)


def _pumped(at: At, one: HighPoint, lifted: Lifted) -> list[Judged]:
    steps = (
        step(
            "H_0",
            f"head of pump {lifted.pump} against a shut valve, at its speed",
            "H_0 = H_pump(Q)",
            (given("Q", 0.0, "m3/s"),),
            (lifted.shut_off, "m"),
            _CURVE,
        ),
    )
    limit = Limit(lifted.shut_off, _CURVE)
    words = "lift to its highest point at a start"
    advice = "a lower highest point, more water in the sump, or a pump of more head"
    found = [Judged(below(at, "lift", words, lifted.lift, "m", limit, style="level", advice=advice), steps)]
    return found + ([_fills(at, one, lifted)] if one.over > 0.0 else [])


def _fills(at: At, one: HighPoint, lifted: Lifted) -> Judged:
    """What comes over while the far leg is open must take its air down, or it never runs full."""
    words = "flow over its highest point, to fill the leg behind it"
    if one.bore <= 0.0:
        why = f"put its pipe into circuits.{one.line}.route"
        return Judged(unproven(at, "primes", words, "m3/s", why, _SLUG))
    steps = (
        step(
            "Q",
            "flow of this line while the far leg is still open to the air, found by trial with all that the pump moves",
            "H_pump(Q) = lift + losses(Q)",
            (
                given("H_pump", lifted.lift + lifted.losses, "m", "fine"),
                given("lift", lifted.lift, "m", "fine"),
                given("losses", lifted.losses, "m", "fine"),
            ),
            (lifted.filling, "m3/s"),
            _ENERGY,
        ),
        _carrying(one),
    )
    limit = Limit(one.carries, _SLUG)
    advice = "a narrower pipe behind it, a lower highest point, or a stronger pump: the flow found counts on a full leg"
    return Judged(above(at, "primes", words, lifted.filling, "m3/s", limit, advice=advice), steps)


def _risen(at: At, one: HighPoint) -> Judged:
    """Without a pump: water must stand a bore over the highest point for the pipe to fill."""
    words = "water over its highest point when it has to start"
    steps = (
        step(
            "z",
            "level to which the vessel rises before this line takes anything: z_others, where its other ways out "
            "carry all of it, none known counting as the brim",
            "z = min(z_others, z_brim)",
            (given("z_others", one.others, "m", "fine"), given("z_brim", one.brim, "m", "fine")),
            (one.reaches, "m", "fine"),
            _ENERGY,
        ),
    )
    limit = Limit(max(one.bore, 1e-3), _ENERGY, "one bore, so that the pipe fills")
    advice = "a lower highest point, or a standby drain whose lip stands higher"
    left = one.reaches - one.level
    return Judged(above(at, "starts", words, left, "m", limit, style="level", advice=advice), steps)


def _carrying(one: HighPoint) -> Step:
    return step(
        "Q_down",
        "flow that takes air down an upright pipe",
        "Q_down = pi*D**2/4*0.345*sqrt(g*D)",
        (given("D", one.bore, "m", "fine"), given("g", G, "m/s2")),
        (one.carries, "m3/s"),
        _SLUG,
    )
