"""Judging a joint: the force on it against what its fasteners carry together."""

from __future__ import annotations

from tidestead.core.source import COMPUTED, PRACTICE
from tidestead.plan.model import Fixing
from tidestead.studies.checks import At, Limit, below, given, unproven
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.fixings import Held, held, sides_of

GROUP = "Spacing and distance to ends and edges as the fastener's maker asks; in rows closer than that it carries less."


def fixing_check(
    at: At, words: str, force: float, fixing: Fixing, timber: tuple[str, float, float], ask: Ask
) -> Judged:
    """A joint of two timbers of one grade. `timber` is grade, thickness under the head, thickness behind it."""
    if fixing.fastener is None or fixing.count is None:
        why = f"say what fastens it and how many: {at.key}.fastener and .count"
        return Judged(unproven(at, "force", words, "N", why, PRACTICE), by_level=False)
    grade, plank, behind = timber
    sides = sides_of(fixing, plank, behind, ask.lumber(grade))
    joint = held(ask.setting, ask.tables["fasteners"][fixing.fastener], fixing, sides, ask.case.duration)
    return joint_check(at, words, force, joint)


def joint_check(at: At, what: str, force: float, joint: Held) -> Judged:
    """The force on a joint, with its load factor, against what its fasteners carry together."""
    acting = joint.load_factor * force
    check = below(
        at,
        "force",
        what,
        acting,
        "N",
        Limit(joint.total, joint.source, joint.includes),
        advice="another joint" if joint.refused else "more or stronger fasteners",
        cautions=(joint.refused,) if joint.refused else (GROUP,),
    )
    count = given("n", joint.count, "count")
    steps = (
        step(
            "P",
            "force on the joint",
            "P = g*F",
            (given("g", joint.load_factor, "1"), given("F", force, "N")),
            (acting, "N"),
            COMPUTED,
        ),
        step(
            "R",
            f"one fastener, {joint.mode}",
            "the least of the yield modes, with its factors",
            (),
            (joint.each, "N"),
            joint.source,
        ),
        step("n*R", "all of them", "n*R", (count, given("R", joint.each, "N")), (joint.total, "N"), COMPUTED),
    )
    return Judged(check, steps)
