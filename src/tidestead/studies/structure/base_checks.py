"""Judging what holds the foot of a wall. Nothing is left to hope: it must be named, and it must be enough."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from tidestead.core.answer import Step
from tidestead.core.source import STATICS, YOURS
from tidestead.plan.model import BaseJoint, Fixing
from tidestead.studies.checks import ENOUGH, At, Limit, below, given
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.fixings import Sides, held, wood
from tidestead.studies.structure.joint_checks import Member, pulled_check
from tidestead.studies.structure.patches import Patch
from tidestead.studies.structure.props import props_along
from tidestead.studies.structure.slab_edge import ANCHOR, edge_checks
from tidestead.studies.structure.wall_checks import nothing
from tidestead.studies.structure.wall_loads import WallLoads

PUSH = "push at the foot of the wall"

_MORE_TIES = "floor ties closer together or of a larger section"

_CARRIERS = {"ledger": "a ledger", "floor ties": "ties under the floor"}


def advice(base: BaseJoint, force: float, limit: float) -> str:
    """How much more the fasteners must bear together, and carriers that are not there yet."""
    other = [words for kind, words in _CARRIERS.items() if kind != base.carried_by]
    more = math.ceil(10.0 * force / (ENOUGH * limit)) / 10.0 if limit > 0.0 else math.inf
    closer = f"fasteners {more:g} times as close" if 1.0 < more < _CLOSER else "closer or stronger fasteners"
    return f"{closer}{' or as strong' if closer[0] == 'f' else ''}, or {' or '.join(other)}"


_CLOSER = 20.0
"""Fasteners closer by more than this are no advice."""

_APART = 1e-3
"""Fasteners no further apart than this are one."""
_DENSEST = 4
"""Loads that a fastener is taken to stand behind: both jambs of two windows, or what is densest else."""

_GRID = 40
"""Points to a bay at which the load on the base is taken."""


def shares(patches: Sequence[Patch], props: Sequence[float]) -> list[float]:
    """What each prop takes when every load is shared by the two beside it, as their distances say."""
    places = np.asarray(props)
    found = np.zeros(len(places))
    for patch in patches:
        edges = np.unique(np.concatenate((np.linspace(patch.start, patch.end, _GRID), places)))
        edges = edges[(edges >= patch.start) & (edges <= patch.end)]
        middles, widths = (edges[1:] + edges[:-1]) / 2.0, np.diff(edges)
        slope = (patch.at_end - patch.at_start) / (patch.end - patch.start)
        force = (patch.at_start + slope * (middles - patch.start)) * widths
        left = np.clip(np.searchsorted(places, middles, side="right") - 1, 0, len(places) - 2)
        right_share = (middles - places[left]) / (places[left + 1] - places[left])
        np.add.at(found, left, force * (1.0 - right_share))
        np.add.at(found, left + 1, force * right_share)
    return [float(value) for value in found]


def busiest(patches: Sequence[Patch], length: float, spacing: float, missing: int) -> float:
    """Push on the busiest fastener, wherever their row may begin. Missing ones are taken side by side, where they hurt
    most: at an end, or beside the busiest of all.

    A plan tells how far apart they stand and not from where they were set out: evenly from end to end, or so that one
    stands right behind a jamb, which then bears on it alone. So closer fasteners never seem to bear more than others.
    """
    return max(_busiest_of(patches, props, missing) for props in rows_along(patches, length, spacing))


def rows_along(patches: Sequence[Patch], length: float, spacing: float) -> list[list[float]]:
    """Rows of fasteners at one spacing: evenly from end to end, and one through the middle of each of the densest
    loads, which are the feet of jambs.
    """
    even = props_along(length, spacing)
    bay = even[1] - even[0]
    rows = [even]
    for patch in sorted(patches, key=lambda one: -one.force / (one.end - one.start))[:_DENSEST]:
        place = (patch.start + patch.end) / 2.0
        first = place - bay * math.floor((place - _APART) / bay)
        rows.append([0.0, *map(float, np.arange(first, length - _APART, bay)), length])
    return rows


def _busiest_of(patches: Sequence[Patch], props: list[float], missing: int) -> float:
    left = len(props) - missing
    if left < 2:
        return math.inf
    whole = shares(patches, props)
    if not missing:
        return max(whole)
    worst = max(range(len(props)), key=whole.__getitem__)
    gaps = {min(max(gap, 0), left) for gap in (0, left, worst + 1, worst - missing)}
    return max(max(shares(patches, props[:gap] + props[gap + missing :])) for gap in gaps)


def base_checks(at: At, loads: WallLoads, slab: float | None, ask: Ask) -> list[Judged]:
    """The push at the foot of a wall against what is named to carry it. `slab` is its thickness."""
    base = loads.place.wall.base
    if base is None or base.carried_by is None:
        why = f"say what carries it (it is twice what the rim carries): {at.path}.carried_by"
        return nothing(at, "push", PUSH, why)
    if base.spacing is None:
        return nothing(at, "push", PUSH, f"say {at.path}.spacing")
    force = busiest(loads.base, loads.place.length, base.spacing, base.as_built.missing)
    steps = _steps(loads, base.spacing, force)
    if not math.isfinite(force):
        whole = sum(patch.force for patch in loads.base)
        none = Limit(0.0, YOURS, "too few of its fasteners are left")
        gone = below(at, "push", PUSH, whole, "N", none, advice="new fasteners where they are missing")
        return [Judged(gone, steps[:1])]
    if base.carried_by == "floor ties":
        return _tie_checks(at, force, base, ask, steps)
    found = _capacity_check(at, force, base, ask, steps) + _wood_check(at, force, loads, base, ask, steps)
    if base.carried_by == "anchors":
        found += edge_checks(at, base, slab, force, ask)
    return found


def _steps(loads: WallLoads, spacing: float, force: float) -> tuple[Step, ...]:
    depth = given("h", loads.depth, "m", "level")
    whole = loads.weight * loads.depth**2 / 2.0
    line, bay = given("q", loads.base_even, "N/m"), given("s", spacing, "m", "lumber")
    sharing = (
        "loads of studs, jambs and sill, each shared by the two beside it; one may stand right behind a jamb"
    )
    return (
        step(
            "q",
            "push on each length of base",
            "q = gamma*h**2/2 - q_rim",
            (given("gamma", loads.weight, "N/m3"), depth, given("q_rim", whole - loads.base_even, "N/m")),
            (loads.base_even, "N/m"),
            STATICS,
        ),
        step(
            "F",
            "on the busiest fastener",
            sharing,
            (line, bay),
            (force, "N"),
            STATICS,
        ),
    )


def _capacity_check(at: At, force: float, base: BaseJoint, ask: Ask, steps: tuple[Step, ...]) -> list[Judged]:
    """The fastener in the floor: what its maker or an engineer says."""
    if base.capacity is None:
        if base.carried_by == "anchors":
            return nothing(at, "push", PUSH, f"say what one anchor may carry: {at.path}.capacity")
        return []
    factor = ask.setting.load_factor
    includes = (
        "as its maker gives it, for good" if factor == 1.0 else f"load times {factor:g}; design resistance"
    )
    limit = Limit(base.capacity, YOURS, includes)
    told = advice(base, factor * force, base.capacity)
    check = below(at, "push", PUSH, factor * force, "N", limit, advice=told, cautions=(ANCHOR,))
    return [Judged(check, (*steps, _loaded(factor, force)))]


def _loaded(factor: float, force: float) -> Step:
    """The push with its load factor."""
    numbers = (given("g", factor, "1"), given("F", force, "N"))
    return step(
        "P", "with its load factor", "P = g*F, g: load factor", numbers, (factor * force, "N"), STATICS
    )


def _wood_check(
    at: At, force: float, loads: WallLoads, base: BaseJoint, ask: Ask, steps: tuple[Step, ...]
) -> list[Judged]:
    """The fastener in the wood that presses on it; a steel angle along the plate spreads the push."""
    words = f"{PUSH}, on the wood"
    if base.bears_on == "steel":
        return [] if base.capacity is not None else nothing(at, "push", PUSH, f"say {at.path}.capacity")
    studs = loads.place.wall.studs
    if base.bears_on is None and base.capacity is not None:
        why = f"say whether it presses on the plate's wood or on a steel angle: {at.path}.bears_on"
        return nothing(at, "wood", words, why)
    if base.fastener is None or studs is None or studs.grade is None or studs.section is None:
        return nothing(at, "wood", words, f"say what goes through the plate: {at.path}.fastener")
    plate = base.plate or studs.section.breadth
    row = ask.lumber(studs.grade)
    fixing = Fixing(fastener=base.fastener, count=1, into="side")
    behind = base.embedment if base.carried_by == "anchors" and base.embedment else studs.section.depth
    joint = held(
        ask.setting,
        ask.tables["fasteners"][base.fastener],
        fixing,
        Sides(wood(row, plate), wood(row, behind)),
        ask.case.duration,
    )
    cautions = (joint.refused,) if joint.refused else (BEHIND,)
    limit = Limit(joint.each, joint.source, joint.includes)
    name = "wood" if base.capacity is not None else "push"
    acting = joint.load_factor * force
    told = advice(base, acting, joint.each)
    if joint.refused:
        told = f"a longer fastener, since {joint.refused}, or an angle of steel along the plate"
    check = below(at, name, words, acting, "N", limit, advice=told, cautions=cautions)
    return [Judged(check, (*steps, _loaded(joint.load_factor, force), *joint.steps))]


BEHIND = "Concrete behind the plate is taken as no better than wood, on the safe side."


def _tie_checks(at: At, force: float, base: BaseJoint, ask: Ask, steps: tuple[Step, ...]) -> list[Judged]:
    """Timbers under the floor from wall to wall: pull, and the joint at each end."""
    tie = base.tie
    here = at.below("tie", "floor ties")
    if tie is None or tie.section is None or tie.grade is None:
        return nothing(here, "tension", "pull in a floor tie", f"say its section and grade: {here.path}")
    used = ask.piece(tie.grade, tie.section)
    stress = used.load_factor * force / used.shape.area
    limit = Limit(used.tension, used.source, used.includes)
    numbers = (given("g", used.load_factor, "1"), given("F", force, "N"), given("A", used.shape.area, "m2"))
    over = step("f_t", "pull over the section", "f_t = g*F/A", numbers, (stress, "Pa"), STATICS)
    pulled = Judged(
        below(here, "tension", "pull in a floor tie", stress, "Pa", limit, advice=_MORE_TIES),
        (*steps, over, used.limits["tension"]),
    )
    plank = Member(tie.grade, tie.section.breadth, tie.section.depth)
    plate = Member(tie.grade, base.plate or tie.section.breadth)
    joint = at.below("tie_joint", "end of a floor tie")
    return [pulled, pulled_check(joint, PUSH, force, base.tie_joint, (plank, plate), ask)]
