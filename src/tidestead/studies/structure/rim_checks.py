"""Judging rims, ties, corners and buttresses of a box."""

from __future__ import annotations

import math
from collections.abc import Mapping

from tidestead.core.answer import Estimate
from tidestead.core.source import STATICS, YOURS
from tidestead.physics.structure import eurocode, nds, timber_stress
from tidestead.plan.model import Corner, Tie
from tidestead.studies.checks import At, Limit, below, given
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.beam_checks import Bent, beam_checks
from tidestead.studies.structure.found import ROUND, timber_left
from tidestead.studies.structure.joint_checks import Member, net_of, pulled_check
from tidestead.studies.structure.rims import RimFacts
from tidestead.studies.structure.timber import column_strength
from tidestead.studies.structure.wall_checks import nothing


def rim_checks(at: At, rim: RimFacts, ask: Ask) -> list[Judged]:
    """A rim bends between its props and is pulled by the walls round its corners."""
    piece = rim.piece
    state = Bent(rim.moment, rim.shear, rim.bow, rim.longest, "beam over corners, ties and buttresses")
    found = beam_checks(at, piece, state, ask)
    stress = piece.load_factor * float(timber_stress.axial_stress(rim.pull, piece.shape.area))
    pulled = stress / piece.tension
    per_moment = piece.load_factor / (piece.shape.strong_modulus * piece.bending)
    bent = rim.moment.times(per_moment)
    both = eurocode.tension_bending_use if ask.setting.rules == "EC5" else nds.tension_bending_use
    low, likely, high = (float(both(pulled, value)) for value in (bent.low, bent.likely, bent.high))
    use = Estimate(low, likely, high, rim.moment.basis)
    steps = (
        step(
            "N",
            "pull from round the corner",
            "end reaction of the next wall's rim",
            (),
            (rim.pull, "N"),
            STATICS,
        ),
        step(
            "f_t",
            "pull over the section",
            "f_t = g*N/A",
            (
                given("g", piece.load_factor, "1"),
                given("N", rim.pull, "N"),
                given("A", piece.shape.area, "m2"),
            ),
            (stress, "Pa"),
            STATICS,
        ),
        piece.limits["tension"],
        piece.limits["bending"],
        step(
            "u",
            "pull and bending together",
            "f_t/F_t + f_b/F_b, F the allowed ones",
            (given("f_t/F_t", pulled, "1"), given("f_b/F_b", bent.likely, "1")),
            (use.likely, "1"),
            piece.source,
        ),
    )
    limit = Limit(1.0, piece.source, piece.includes)
    advice = "a deeper or wider rim, or ties closer together"
    check = below(at, "pull_and_bending", "pull and bending together", use, "1", limit, advice=advice)
    found.append(Judged(check, steps))
    return found


_LARGER_TIE = "ties of a larger section or closer together"


def tie_checks(
    at: At, tie: Tie, forces: Mapping[float, Estimate], rim: RimFacts | None, ask: Ask
) -> list[Judged]:
    """The busiest piece of a set of ties: net section and end joint. `rim` is one it holds."""
    if tie.section is None or tie.grade is None:
        return nothing(at, "tension", "pull in the tie", f"say {at.path}.section and .grade")
    if not forces or rim is None:
        why = "no rim is described for it to hold, or every piece of it is cracked"
        return nothing(at, "tension", "pull in the tie", why)
    force = max(forces.values(), key=lambda one: one.high)
    section = timber_left(tie.section, tie.as_built)
    piece = ask.piece(tie.grade, section)
    area = net_of(piece.shape.area, tie.end_joint, section.breadth * section.pieces, ask)
    stress = force.times(piece.load_factor / area)
    pull = given("T", force.likely, "N")
    factor, net = given("g", piece.load_factor, "1"), given("A_net", area, "m2")
    steps = (
        step("T", "pull in the busiest tie", "reaction of the rims on it", (), (force.likely, "N"), STATICS),
        step(
            "f_t",
            "pull over the net section",
            "f_t = g*T/A_net",
            (factor, pull, net),
            (stress.likely, "Pa"),
            STATICS,
        ),
        piece.limits["tension"],
    )
    limit = Limit(piece.tension, piece.source, piece.includes)
    joint = (Member(tie.grade, section.breadth, section.depth), rim_behind(rim))
    here = at.below("end_joint", "end joint")
    return [
        Judged(below(at, "tension", "pull in the tie", stress, "Pa", limit, advice=_LARGER_TIE), steps),
        pulled_check(here, "pull on the end joint", force.high, tie.end_joint, joint, ask),
    ]


def rim_behind(rim: RimFacts) -> Member:
    """The rim as what holds a fastener's point: all its planks, through their thickness."""
    section = rim.piece.section
    plank = min(section.breadth, section.depth)
    grade = rim.place.wall.rim.grade if rim.place.wall.rim is not None else None
    return Member(grade or "", plank * section.pieces)


def corner_checks(at: At, corner: Corner | None, rims: Mapping[str, RimFacts], ask: Ask) -> list[Judged]:
    """Where two rims meet each hangs on the other's end: both ends pull on the joint, square to each other."""
    here = at.below("corners", "corners")
    words = "pull at the corner"
    if corner is None or corner.kind is None:
        return nothing(here, "force", words, f"say how the rims are joined: {here.path}")
    if len(rims) < len(ROUND):
        return nothing(here, "force", words, "not every rim is described")
    pulls = []
    for number, name in enumerate(ROUND):
        other = ROUND[(number + 1) % len(ROUND)]
        pulls.append(math.hypot(float(rims[name].hand.reactions[-1]), float(rims[other].hand.reactions[0])))
    busiest = rims[ROUND[max(range(len(pulls)), key=pulls.__getitem__)]]
    whole = rim_behind(busiest)
    section = busiest.piece.section
    plank = Member(whole.grade, whole.thickness / section.pieces, max(section.breadth, section.depth))
    return [pulled_check(here.below("joint", "joint"), words, max(pulls), corner.joint, (plank, whole), ask)]


def buttress_checks(at: At, rim: RimFacts, ask: Ask) -> list[Judged]:
    """A raking strut takes the rim's push down to a heel; the wall beside it wants to lift."""
    prop = rim.place.wall.buttresses
    if prop is None:
        return []
    if prop.spacing is None or prop.reach is None or prop.section is None or prop.grade is None:
        return nothing(at, "strut", "push in the strut", f"say {at.path}: spacing, reach, section and grade")
    inner = [float(value) for value in rim.hand.reactions[1:-1]]
    push = max(inner, default=float(max(rim.hand.reactions)))
    rise, reach = rim.place.height, prop.reach
    slant = (rise**2 + reach**2) ** 0.5
    along, uplift = push * slant / reach, push * rise / reach
    force = given("F", push, "N")
    sizes = (force, given("h", rise, "m", "level"), given("r", reach, "m", "level"))
    pushed = step("F", "push of the rim on one buttress", "reaction of the rim", (), (push, "N"), STATICS)
    leaning = step("C", "along the strut", "C = F*sqrt(h**2 + r**2)/r", sizes, (along, "N"), STATICS)
    lifting = step("U", "uplift beside the wall", "U = F*h/r", sizes, (uplift, "N"), STATICS)
    piece = ask.piece(prop.grade, timber_left(prop.section, prop.as_built))
    crushed = piece.load_factor * along / piece.shape.area
    limit = Limit(column_strength(ask.setting, piece, slant), piece.source, piece.includes)
    factor = given("g", ask.setting.load_factor, "1")
    over = (factor, given("C", along, "N"), given("A", piece.shape.area, "m2"))
    pressed = step("f_c", "push over the section", "f_c = g*C/A", over, (crushed, "Pa"), STATICS)
    stouter = "a stouter or shorter strut, or buttresses closer together"
    check = below(at, "strut", "push in the strut", crushed, "Pa", limit, advice=stouter)
    strut = Judged(check, (pushed, leaning, pressed))
    found = [strut]
    held = (
        ("uplift", "uplift beside the wall", uplift, prop.anchor_capacity, "anchor_capacity", lifting),
        ("heel", "sideways push on the heel", push, prop.heel_capacity, "heel_capacity", pushed),
    )
    for name, words, acting, capacity, key, line in held:
        if capacity is None:
            found += nothing(at, name, words, f"say what may carry it for good: {at.path}.{key}")
        else:
            value = ask.setting.load_factor * acting
            loaded = step(
                "P", words, "P = g*(the force)", (factor, given("F", acting, "N")), (value, "N"), STATICS
            )
            advice = "an anchor that bears more, or buttresses closer together or that reach further out"
            check = below(at, name, words, value, "N", Limit(capacity, YOURS), advice=advice)
            found.append(Judged(check, (pushed, line, loaded) if line is not pushed else (pushed, loaded)))
    joint = (Member(prop.grade, prop.section.breadth, prop.section.depth), rim_behind(rim))
    here = at.below("joint", "head of the strut")
    return [*found, pulled_check(here, "push of the strut", along, prop.joint, joint, ask)]
