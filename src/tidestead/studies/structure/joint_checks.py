"""Judging a joint: the force on it against what its fasteners carry together."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.answer import Estimate
from tidestead.core.source import COMPUTED, PRACTICE
from tidestead.physics.structure import nds_fasteners
from tidestead.physics.structure.members import net_area
from tidestead.plan.model import Fixing
from tidestead.studies.checks import ENOUGH, At, Limit, below, given, unproven
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.fixing_rows import in_rows
from tidestead.studies.structure.fixings import Held, Sides, held, wood

GROUP = "Spacing and distance to ends and edges as the fastener's maker asks; in rows closer than that it carries less."


@dataclass(frozen=True)
class Member:
    """One timber of a joint: its grade, how thick it is along the fastener, and how wide square to it."""

    grade: str
    thickness: float
    width: float | None = None


HOLE_FROM = 0.006
"""Fasteners thicker than this are taken off a timber's section. Source: common practice, no source."""


def net_of(area: float, fixing: Fixing, thickness: float, ask: Ask) -> float:
    """A timber's section less the holes of one fastener of each row, where those are thick. The holes run through
    `thickness`. Raises ImpossibleInput where they leave nothing."""
    if fixing.fastener is None:
        return area
    diameter = ask.tables["fasteners"][fixing.fastener].si("diameter")
    if diameter <= HOLE_FROM:
        return area
    return float(net_area(area, fixing.rows or 1, diameter, thickness))


LONG = 0.5
"""A fastener that goes along a timber finds this much of it and more."""


def fixing_check(
    at: At, words: str, force: Estimate | float, fixing: Fixing, members: tuple[Member, Member], ask: Ask
) -> Judged:
    """A joint of two timbers that press across their grain: one under the fastener's head, one that holds its point.

    What the plan says of the joint itself (`through`, `behind`) wins over their thickness.
    """
    if fixing.fastener is None or fixing.count is None:
        why = f"say what fastens it and how many: {at.path}.fastener and .count"
        return Judged(unproven(at, "force", words, "N", why, PRACTICE), by_level=False)
    fastener, sides = ask.tables["fasteners"][fixing.fastener], _sides(fixing, members, ask)
    return joint_check(at, words, force, held(ask.setting, fastener, fixing, sides, ask.case.duration))


def pulled_check(
    at: At, words: str, force: Estimate | float, fixing: Fixing, members: tuple[Member, Member], ask: Ask
) -> Judged:
    """The same of a timber that pulls along its grain: its fasteners stand in rows and do not share alike."""
    if fixing.fastener is None or fixing.count is None:
        return fixing_check(at, words, force, fixing, members, ask)
    fastener, sides = ask.tables["fasteners"][fixing.fastener], _sides(fixing, members, ask)
    joint = held(ask.setting, fastener, fixing, sides, ask.case.duration)
    return joint_check(at, words, force, in_rows(ask.setting, fastener, fixing, sides, joint))


def _sides(fixing: Fixing, members: tuple[Member, Member], ask: Ask) -> Sides:
    head, point = members
    return Sides(
        wood(ask.lumber(head.grade), fixing.through or head.thickness, head.width),
        wood(ask.lumber(point.grade), fixing.behind or point.thickness, point.width),
    )


def end_or_side(fixing: Fixing, upright: Member, level: Member) -> tuple[Member, Member]:
    """Members of a joint of an upright and a timber across its end.

    Into side grain the fastener goes through the upright into the other; into end grain the other way round.
    """
    if fixing.into == "side":
        return upright, level
    return level, Member(upright.grade, LONG)


_MOST = 60
"""More fasteners than this in a joint is no advice."""


def joint_advice(force: float, joint: Held, path: str) -> str:
    """How many of the same fastener would do, or why none counts and what to write."""
    if joint.refused:
        return f"{joint.remedy.format(path=path)}, since {joint.refused}"
    if joint.count == 0:
        return "fasteners where none is left"
    needed = nds_fasteners.fasteners_needed(force / ENOUGH, joint.total / joint.count)
    if needed > _MOST:
        return "stronger fasteners or another kind of joint"
    if needed <= joint.count:
        return "more or stronger fasteners"
    return f"{needed} of the same fastener for the {joint.count} there, or stronger ones"


def joint_check(at: At, what: str, force: Estimate | float, joint: Held) -> Judged:
    """The force on a joint, with its load factor, against what its fasteners carry together."""
    value = force if isinstance(force, Estimate) else Estimate.exact(force)
    acting = value.times(joint.load_factor)
    check = below(
        at,
        "force",
        what,
        acting,
        "N",
        Limit(joint.total, joint.source, joint.includes),
        advice=joint_advice(acting.high, joint, at.path),
        cautions=(joint.refused,) if joint.refused else (GROUP, *joint.cautions),
    )
    count = given("n", joint.count, "count") if joint.effective is None else given("n_ef", joint.counted, "1")
    steps = (
        step(
            "P",
            "force on the joint",
            "P = g*F, g: load factor",
            (given("g", joint.load_factor, "1"), given("F", value.likely, "N")),
            (acting.likely, "N"),
            COMPUTED,
        ),
        *(joint.steps or (step("R", "one fastener", joint.refused, (), (joint.each, "N"), joint.source),)),
        step(
            "n*R",
            "all of them",
            f"{count.symbol}*R",
            (count, given("R", joint.each, "N")),
            (joint.total, "N"),
            COMPUTED,
        ),
    )
    return Judged(check, steps)
