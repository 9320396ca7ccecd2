"""Judging overflows and levels: heads over crests, siphons that stay full, freeboard, the level of the plan."""

from __future__ import annotations

from tidestead.core.answer import Estimate, Given
from tidestead.core.source import STATICS, YOURS, Known, Source
from tidestead.physics.flow.weirs import LEAST_ERROR, WeirLaw
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, below, given, unproven
from tidestead.studies.flow.doubts import doubts_of
from tidestead.studies.flow.facts import FlowFacts, Overflow
from tidestead.studies.flow.heights import brim_of, port_of
from tidestead.studies.flow.levels_told import freeboard_check, level_check
from tidestead.studies.flow.lip_steps import LIP, lip_steps
from tidestead.studies.flow.siphon_checks import DRY, siphon_checks
from tidestead.studies.judged import Judged, step

GULPS = 0.25
"""Share of its bore over a lip from which a standpipe draws air in gulps. Derived, see `standpipes`."""

DROWNS = (
    "The water behind this weir stands above its crest: it takes less than a free one, and the level before it goes up "
    "and down with the one behind."
)

_TERMS = "; L is the open length, C what Kindsvater and Carter's formula comes to for this crest and head"

_WEIR = Source(
    "USBR, Water Measurement Manual (2001)", "chapter 7, section 6; range by other formulas", Known.QUOTED
)
_DROWNED = Source(
    "Villemonte (1947)", "as EPA, SWMM reference manual, volume II, equation 6-26", Known.QUOTED
)
_NETWORK = Source("balance of the network", known=Known.COMPUTED)
_ENERGY = Source("energy equation of a full pipe", known=Known.COMPUTED)


def overflow_checks(plan: Plan, facts: FlowFacts) -> list[Judged]:
    """Every overflow, every siphon, every level. What hangs on a level that is in doubt is not proved."""
    doubts = doubts_of(plan, facts.lines, facts.running) if facts.running is not None else {}
    found: list[Judged] = []
    for overflow in facts.overflows:
        at = At(
            f"{overflow.vessel}.{overflow.port}",
            f"{overflow.vessel}, {overflow.port}",
            "flow",
            f"vessels.{overflow.vessel}.ports.{overflow.port}",
        )
        if overflow.vessel in doubts:
            words = "head over its lip" if overflow.bore else "head over the weir"
            found.append(Judged(unproven(at, "head", words, "m", doubts[overflow.vessel], _NETWORK)))
        elif overflow.regime != "dry":
            found += _weir(at, plan, facts, overflow) if not overflow.bore else _standpipe(at, plan, overflow)
    for line in facts.lines:
        start = port_of(plan, line.circuit.start)
        if start is not None and start[2].kind == "siphon":
            found += siphon_checks(plan, facts, line, doubts.get(start[0], ""))
    for key in facts.levels:
        if key not in facts.fixed:
            found += _levels(At(key, key, "flow", f"vessels.{key}"), plan, facts, doubts.get(key, ""))
    return found


def _levels(at: At, plan: Plan, facts: FlowFacts, doubt: str) -> list[Judged]:
    if facts.inflow.get(at.key, 0.0) <= 0.0:
        # what stands at rest is told by no balance: it is as full as it was left
        return [Judged(unproven(at, "level", "level against the plan's depth", "m", DRY, _NETWORK))]
    if not doubt:
        return [level_check(at, plan, facts, at.key), freeboard_check(at, plan, facts, at.key)]
    return [
        Judged(unproven(at, name, words, "m", doubt, _NETWORK))
        for name, words in (
            ("level", "level against the plan's depth"),
            ("freeboard", "freeboard in service"),
        )
    ]


def _room(plan: Plan, overflow: Overflow) -> float:
    return brim_of(plan.vessels[overflow.vessel]) - overflow.crest


def _weir(at: At, plan: Plan, facts: FlowFacts, overflow: Overflow) -> list[Judged]:
    words = "head over the weir"
    if overflow.within == "outside":
        why = "the water is so thin over it that its skin rules: no formula tells the head; lengthen nothing further"
        found = [Judged(unproven(at, "head", words, "m", why, _WEIR))]
    else:
        found = [_weir_head(at, plan, facts, overflow), *_teeth(at, facts, overflow)]
    if overflow.trough is not None:
        found += _trough(at, plan, facts, overflow)
    return found


def _coefficient(facts: FlowFacts, overflow: Overflow) -> list[Given]:
    """Open length of a crest, and the coefficient that its formula comes to at the head found."""
    law = facts.line(overflow.line).links[0].over
    if not isinstance(law, WeirLaw) or overflow.likely <= 0.0:
        return []
    length = law.weir.open_length
    coefficient = overflow.flow / (length * overflow.likely**1.5)
    return [given("L", length, "m", "fine"), given("C", coefficient, "m^0.5/s")]


def _weir_head(at: At, plan: Plan, facts: FlowFacts, overflow: Overflow) -> Judged:
    words = "head over the weir"
    drowned = overflow.tail > 0.0
    basis = "formulas for weirs, 15 % and their differences below 30 mm"
    head = Estimate(overflow.low, overflow.likely, overflow.high, basis)
    numbers = [given("Q", overflow.flow, "m3/s"), *_coefficient(facts, overflow)]
    formula = "h = (Q/(C*L))**(2/3)"
    if drowned:
        numbers = [numbers[0], given("h2", overflow.tail, "m", "bow")]
        formula = "Q = Q0(h)*(1 - (h2/h)**1.5)**0.385, solved for h"
    steps = (
        step(
            "h",
            "head over the crest, likely"
            + (", the water behind it standing above the crest" if drowned else _TERMS),
            formula,
            numbers,
            (overflow.likely, "m"),
            _DROWNED if drowned else _WEIR,
        ),
        step(
            "h_high",
            "highest: by its own error e, or h_other of Francis, Rehbock and a broad crest where they are made for it "
            "and give more",
            *_highest(overflow),
            (overflow.high, "m"),
            _WEIR,
        ),
    )
    limit = Limit(_room(plan, overflow), YOURS, "from the crest to the brim")
    advice = "a longer weir, wider slots, or a lower crest"
    cautions: tuple[str, ...] = ()
    if drowned:
        advice = "lower water behind it: a wider drain there, or its valve further open; else a longer weir"
        cautions = (DROWNS,)
    return Judged(
        below(at, "head", words, head, "m", limit, style="bow", advice=advice, cautions=cautions), steps
    )


def _teeth(at: At, facts: FlowFacts, overflow: Overflow) -> list[Judged]:
    """Water stays between the teeth of a comb: above them fish and snails go over."""
    law = facts.line(overflow.line).links[0].over
    if not isinstance(law, WeirLaw) or law.weir.comb is None:
        return []
    tooth = law.weir.comb.tooth_height
    numbers = (given("h", overflow.likely, "m", "bow"), given("t", tooth, "m", "bow"))
    steps = (
        step(
            "r",
            "head over the height t of the teeth, likely",
            "r = h/t",
            numbers,
            (overflow.likely / tooth, "1"),
            STATICS,
        ),
    )
    head = Estimate(overflow.low, overflow.likely, overflow.high, "range of the head over its crest")
    advice = "a longer comb, more or wider slots, or higher teeth"
    limit = Limit(tooth, YOURS, "the tops of its teeth", near=0.1)
    return [
        Judged(
            below(
                at,
                "teeth",
                "head over its crest against its teeth",
                head,
                "m",
                limit,
                style="bow",
                advice=advice,
            ),
            steps,
        )
    ]


def _highest(overflow: Overflow) -> tuple[str, tuple[Given, ...]]:
    """Formula and numbers of the highest head: the error's, or another formula's where that gives more."""
    error = LEAST_ERROR[overflow.within]
    own = overflow.likely * (1.0 + error)
    head, e = given("h", overflow.likely, "m", "bow"), given("e", error, "1")
    if overflow.tail > 0.0 and overflow.high < own * (1.0 - 1e-9):
        # nearly level with the water behind: its free head over that water is the most there can be
        behind = given("h2", overflow.tail, "m", "bow")
        return "h_high = h2 + h_free", (behind, given("h_free", overflow.high - overflow.tail, "m", "bow"))
    if overflow.high <= own * (1.0 + 1e-9):
        return "h_high = h*(1 + e)", (head, e)
    return "h_high = max(h*(1 + e), h_other)", (head, e, given("h_other", overflow.high, "m", "bow"))


def _trough(at: At, plan: Plan, facts: FlowFacts, overflow: Overflow) -> list[Judged]:
    """The drain behind the weir carries the flow before the water backs up to the crest."""
    line = facts.line(overflow.line)
    end = port_of(plan, line.circuit.end)
    low = facts.levels.get(end[0], line.end_level) if end is not None else line.end_level
    if low is None or overflow.trough is None:
        return []
    low = max(low, line.end_level) if line.end_level is not None and len(line.lips) > 1 else low
    needs, there = max(overflow.trough - low, 0.0), overflow.crest - low
    steps = (
        step(
            "H",
            "fall that its pipe needs, running full, what it loses at its mouth among the fittings",
            "H = h_pipes + h_fittings",
            _losses(facts, overflow.line),
            (needs, "m"),
            _ENERGY,
        ),
    )
    limit = Limit(there, YOURS, "from the crest to the water below")
    advice = "a wider drain, fewer elbows, or a second drain"
    check = below(at, "drain", "fall its drain needs", needs, "m", limit, style="level", advice=advice)
    return [Judged(check, steps)]


def _losses(facts: FlowFacts, line: str) -> tuple[Given, ...]:
    """What a line loses in its pipes, and in all else that stands in it."""
    passed = facts.passed[line]
    pipes = sum(one.head for one in passed if one.run.item.kind == "pipe")
    others = sum(one.head for one in passed if one.run.item.kind != "pipe")
    return given("h_pipes", pipes, "m", "fine"), given("h_fittings", others, "m", "fine")


def _standpipe(at: At, plan: Plan, overflow: Overflow) -> list[Judged]:
    basis = "15 % as of any low weir; where it gulps or is drowned a swirl may take a third"
    head = Estimate(overflow.low, overflow.likely, overflow.high, basis)
    steps = lip_steps(overflow)
    found = [
        Judged(
            below(
                at,
                "head",
                "head over its lip",
                head,
                "m",
                Limit(_room(plan, overflow), YOURS, "from the lip to the brim"),
                style="bow",
                advice="a wider standpipe, or a lower lip",
            ),
            steps,
        )
    ]
    if plan.targets.quiet:
        limit = Limit(GULPS * overflow.bore, LIP, "a quarter of the bore", near=0.1)
        advice = "a wider standpipe, or open the siphon so that less comes over"
        words = "head over its lip, before it gulps air"
        found.append(Judged(below(at, "gulps", words, head, "m", limit, style="bow", advice=advice), steps))
    return found
