"""Judging rims, ties, corners and buttresses of a box."""

from __future__ import annotations

from collections.abc import Mapping

from tidestead.core.answer import Estimate
from tidestead.core.source import STATICS, YOURS
from tidestead.physics.structure import eurocode, nds, timber_stress
from tidestead.physics.structure.members import net_area
from tidestead.plan.model import Corner, Tie
from tidestead.studies.checks import At, Limit, below, given
from tidestead.studies.judged import Judged, step
from tidestead.studies.structure.ask import Ask
from tidestead.studies.structure.beam_checks import Bent, beam_checks, times
from tidestead.studies.structure.found import timber_left
from tidestead.studies.structure.joint_checks import fixing_check
from tidestead.studies.structure.rims import RimFacts
from tidestead.studies.structure.timber import column_strength
from tidestead.studies.structure.wall_checks import nothing

_HOLE_FROM = 0.006
"""Fasteners thicker than this are taken off a tie's section. Source: common practice, no source."""


def rim_checks(at: At, rim: RimFacts, ask: Ask) -> list[Judged]:
    """A rim bends between its props and is pulled by the walls round its corners."""
    piece = rim.piece
    bow = Estimate.exact(rim.bow)
    state = Bent(
        rim.moment, float(rim.hand.shear.max()), bow, rim.longest, "beam over corners, ties and buttresses"
    )
    found = beam_checks(at, piece, state, ask)
    stress = piece.load_factor * float(timber_stress.axial_stress(rim.pull, piece.shape.area))
    pulled = stress / piece.tension
    per_moment = piece.load_factor / (piece.shape.strong_modulus * piece.bending)
    bent = times(rim.moment, per_moment)
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
        step(
            "u",
            "pull and bending together",
            "f_t/F_t + f_b/F_b",
            (given("f_t/F_t", pulled, "1"), given("f_b/F_b", bent.likely, "1")),
            (use.likely, "1"),
            piece.source,
        ),
    )
    limit = Limit(1.0, piece.source, piece.includes)
    found.append(Judged(below(at, "pull_and_bending", "pull and bending together", use, "1", limit), steps))
    return found


def tie_checks(at: At, tie: Tie, forces: Mapping[float, Estimate], ask: Ask) -> list[Judged]:
    """The busiest piece of a set of ties: net section and end joint."""
    if tie.section is None or tie.grade is None:
        return nothing(at, "tension", "pull in the tie", f"say {at.key}.section and .grade")
    force = max(forces.values(), key=lambda one: one.high, default=Estimate.exact(0.0))
    section = timber_left(tie.section, tie.as_built)
    piece = ask.piece(tie.grade, section)
    area = piece.shape.area
    if tie.end_joint.fastener is not None:
        fastener = ask.tables["fasteners"][tie.end_joint.fastener]
        if fastener.si("diameter") > _HOLE_FROM:
            area = net_area(area, 1, fastener.si("diameter"), section.breadth * section.pieces)
    stress = times(force, piece.load_factor / area)
    steps = (
        step("T", "pull in the busiest tie", "reaction of the rims on it", (), (force.likely, "N"), STATICS),
        step(
            "f_t",
            "pull over the net section",
            "f_t = g*T/A_net",
            (given("g", piece.load_factor, "1"), given("T", force.likely, "N"), given("A_net", area, "m2")),
            (stress.likely, "Pa"),
            STATICS,
        ),
    )
    limit = Limit(piece.tension, piece.source, piece.includes)
    joint = (tie.grade, section.breadth, section.depth)
    return [
        Judged(below(at, "tension", "pull in the tie", stress, "Pa", limit), steps),
        fixing_check(
            at.below("end_joint", "end joint"), "pull on the end joint", force.high, tie.end_joint, joint, ask
        ),
    ]


def corner_checks(at: At, corner: Corner | None, rims: Mapping[str, RimFacts], ask: Ask) -> list[Judged]:
    """Where two rims meet, each hangs on the other's end."""
    key = At(f"{at.key}.corners", f"{at.words}, corners")
    if corner is None or corner.kind is None:
        return nothing(key, "force", "pull at the corner", f"say how the rims are joined: {key.key}")
    if not rims:
        return nothing(key, "force", "pull at the corner", "the rims are not described")
    busiest = max(rims.values(), key=lambda rim: rim.pull)
    grade = busiest.place.wall.rim.grade if busiest.place.wall.rim is not None else None
    section = busiest.piece.section
    joint = (grade or "", section.breadth, section.breadth * section.pieces)
    return [fixing_check(key, "pull at the corner", busiest.pull, corner.joint, joint, ask)]


def buttress_checks(at: At, rim: RimFacts, ask: Ask) -> list[Judged]:
    """A raking strut takes the rim's push down to a heel; the wall beside it wants to lift."""
    prop = rim.place.wall.buttresses
    if prop is None:
        return []
    if prop.spacing is None or prop.reach is None or prop.section is None or prop.grade is None:
        return nothing(at, "strut", "push in the strut", f"say {at.key}: spacing, reach, section and grade")
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
    strut = Judged(below(at, "strut", "push in the strut", crushed, "Pa", limit), (pushed, leaning))
    words = "uplift beside the wall"
    if prop.anchor_capacity is None:
        why = f"say what its anchor may carry for good: {at.key}.anchor_capacity"
        return [strut, *nothing(at, "uplift", words, why)]
    check = below(at, "uplift", words, uplift, "N", Limit(prop.anchor_capacity, YOURS))
    return [strut, Judged(check, (pushed, lifting))]
