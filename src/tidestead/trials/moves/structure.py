"""Moves for what must hold: walls, windows, joints, ties, bases, towers, floors."""

from __future__ import annotations

from tidestead.plan.edits import Edit
from tidestead.plan.forms import words_of_key
from tidestead.trials.moves.rows import Row, one_key, one_move
from tidestead.trials.moves.sizes import (
    INCH,
    choices,
    clear_thickness,
    closer,
    counts,
    joint,
    lengths,
    section,
    shares,
    stronger_at,
    thicker_sheet,
    timber,
    turned,
    typed_length,
)
from tidestead.trials.remedy import Ladder
from tidestead.trials.said import Asked

WALL = r"structure\.(?P<vessel>[^.]+)\.(?P<wall>north|south|east|west|\d+)"
VESSEL = r"structure\.(?P<vessel>[^.]+)"
_WALL = "vessels.{vessel}.walls.{wall}"
_WINDOW = f"{_WALL}.windows.{{window}}"
_SILL = f"{_WINDOW}.opening.{{piece}}"
_SIDES = {"north": "south", "south": "north", "east": "west", "west": "east"}


def more_ties(asked: Asked, key: str) -> list[Ladder]:
    """Further ties, all of them evenly along the wall: `key` is a vessel, its first ties across are taken."""
    vessel = asked.said.plan.vessels.get(key.split(".")[1])
    if vessel is None:
        return []
    across = {"north": "width", "south": "width", "east": "length", "west": "length"}.get(
        asked.names.get("wall", "")
    )
    found: list[Ladder] = []
    for name, tie in vessel.ties.items():
        along = vessel.length if tie.across == "width" else vessel.width
        if along is None or (across and tie.across != across) or asked.names.get("tie", name) != name:
            continue
        lists = []
        for count in range(len(tie.at) + 1, len(tie.at) + 6):
            places = [along * at / (count + 1) for at in range(1, count + 1)]
            lists.append([typed_length(_rounded(one, asked), asked.said.system) for one in places])
        found += one_key(asked, f"{key}.ties.{name}.at", lists)
    return found


def _rounded(size: float, asked: Asked) -> float:
    return round(size / INCH) * INCH if asked.said.system == "us" else round(size, 2)


def anchors_as_beside(asked: Asked, key: str) -> list[Ladder]:
    """The joint at the floor as another wall of the vessel has it, where that is anchored."""
    vessel, wall = asked.names["vessel"], asked.names["wall"]
    walls = ("all", *_SIDES)
    found: list[Ladder] = []
    said = asked.said
    for other in walls:
        base = said.raw(f"vessels.{vessel}.walls.{other}.base")
        if other == wall or not isinstance(base, dict) or base.get("carried_by") != "anchors":
            continue
        mine = said.raw(key) or {}
        if mine.get("carried_by") == "anchors":
            return []
        edits = [Edit(f"{key}.{name}", value) for name, value in base.items() if mine.get(name) != value]
        edits += [Edit(f"{key}.{name}", None) for name in mine if name not in base and name != "as_built"]
        whose = "the other walls" if other == "all" else f"the {other} wall"
        words = f"Vessel {vessel}, wall {wall}: anchors at its foot as {whose} has them"
        words = words.replace("walls has", "walls have")
        return found + one_move(f"{key}: anchors", words, edits)
    return found


def anchors_beside_closer(asked: Asked, key: str) -> list[Ladder]:
    """The same, as close as the wall's own fasteners stand now and closer."""
    first = anchors_as_beside(asked, key)
    if not first:
        return []
    move = first[0].rungs[0]
    own = [edit for edit in move.edits if edit.key != f"{key}.spacing"]
    now = asked.said.text(f"{key}.spacing")
    ladder = one_move(f"{key}: anchors closer", f"{move.words}, {now} apart", own) if now else []
    for rung in closer(asked, f"{key}.spacing"):
        for step in rung.rungs:
            words = f"{move.words}, {step.edits[0].value} apart"
            ladder += one_move(f"{key}: anchors closer", words, [*own, *step.edits])
    rungs = tuple(rung for one in ladder for rung in one.rungs)
    return [Ladder(f"{key}: anchors closer", rungs)] if rungs else []


def steel_angle(asked: Asked, key: str) -> list[Ladder]:
    """A steel angle along the plate, where it is known what one fastener carries."""
    if asked.said.raw(f"{key}.capacity") is None or asked.said.raw(f"{key}.bears_on") == "steel":
        return []
    return one_key(asked, f"{key}.bears_on", ["steel"])


def floor_ties(asked: Asked, key: str) -> list[Ladder]:
    """Timbers under the floor from wall to wall, of the studs' section and grade, bolted."""
    studs = asked.said.raw(f"vessels.{asked.names['vessel']}.walls.{asked.names['wall']}.studs") or {}
    said = asked.said
    if said.raw(f"{key}.carried_by") == "floor ties" or not {"section", "grade"} <= set(studs):
        return []
    bolt = "bolt-1/2" if said.system == "us" else "bolt-m12"
    tie = {"section": studs["section"], "grade": studs["grade"]}
    mine = said.raw(key) or {}
    names = ("fastener", "bears_on", "capacity", "diameter", "embedment", "edge_distance")
    away = [Edit(f"{key}.{name}", None) for name in names if name in mine]
    rungs: list[Ladder] = []
    for count in (2, 4, 6, 8):
        edits = [
            Edit(f"{key}.carried_by", "floor ties"),
            Edit(f"{key}.tie", dict(tie)),
            Edit(f"{key}.tie_joint", {"fastener": bolt, "count": count}),
            *away,
        ]
        words = (
            f"{words_of_key(key)}: ties of {tie['section']} under the floor, {count} of {bolt} at each end"
        )
        rungs += one_move(f"{key}: floor ties", words, edits)
    return [Ladder(f"{key}: floor ties", tuple(rung for one in rungs for rung in one.rungs))]


def to_rim(asked: Asked, key: str) -> list[Ladder]:
    """A free upper edge of a window that leans on the rim."""
    return one_key(asked, key, ["rim"] if asked.said.text(key) == "free" else [])


def coats(asked: Asked, key: str) -> list[Ladder]:
    """More coats of a coating, or a thicker film where the plan says its thickness."""
    if asked.said.raw(f"{key}.dry_film") is not None:
        return list(shares((1.25, 1.5, 2.0, 2.5, 3.0))(asked, f"{key}.dry_film"))
    return list(counts(6)(asked, f"{key}.coats"))


SHEET = r"\.sheathing\.(?:rolling|bending|bow|shear)"
BENT = r"\.(?:bending|shear|bow|pull_and_bending|tension|moves|strut|stress)"
PANE = WALL + r"\.(?P<window>[^.]+)"
BOWED = PANE + r"\.(?:bow\.[a-z]+|stress(?:\.[a-z]+)?)"
SEATED = PANE + r"\.(?:seat|seal\.[a-z]+)"
FRAME = PANE + r"\.opening\.(?P<piece>[a-z]+)"
TIE = VESSEL + r"\.ties\.(?P<tie>[^.]+)"
SLAB_EDGE = WALL + r"\.base\.(?:breakout|edge)"

THICKER = lengths((0.5, 1.0, 2.0, 3.0, 4.0), (10.0, 25.0, 50.0, 75.0, 100.0))
DEEPER = lengths((0.5, 1.0, 1.5, 2.0, 3.0), (10.0, 20.0, 30.0, 50.0))
FURTHER = lengths((2.0, 4.0, 6.0, 9.0, 12.0), (50.0, 100.0, 150.0, 200.0, 300.0))
NARROWER = lengths((-12.0, -24.0, -36.0), (-300.0, -600.0, -900.0), least=0.3)
WIDER_SEAT = lengths((0.25, 0.5, 1.0, 1.5, 2.0), (5.0, 10.0, 20.0, 30.0, 50.0))
WIDER_GAP = lengths((1 / 8, 1 / 4, 3 / 8, 1 / 2), (2.0, 4.0, 6.0, 10.0))
CARRIED_UP = lengths((0.5, 1.0, 1.5, 2.0, 3.0), (10.0, 20.0, 40.0, 60.0, 80.0))

ROWS = (
    # sheathing and studs of a wall
    Row(WALL + SHEET, f"{_WALL}.studs.spacing", closer, 3.0),
    Row(WALL + SHEET, f"{_WALL}.sheathing", thicker_sheet, 2.0),
    Row(WALL + SHEET, f"{_WALL}.sheathing.face_grain", turned, 2.0),
    Row(WALL + r"\.studs(?:\.top|\.foot)?\.[a-z]+", f"{_WALL}.studs.spacing", closer, 3.0),
    Row(WALL + r"\.studs\.(?:bending|shear|bow|stress)", f"{_WALL}.studs", timber, 2.0),
    Row(WALL + r"\.studs\.(?P<end>top|foot)\.force", f"{_WALL}.studs.{{end}}", joint, 1.0),
    # rim, ties, corners
    Row(WALL + r"\.rim\.[a-z_]+", f"{_WALL}.rim", timber, 2.0),
    Row(WALL + r"\.rim\.[a-z_]+", "vessels.{vessel}", more_ties, 4.0),
    Row(TIE + r"\.end_joint\..+", "vessels.{vessel}.ties.{tie}.end_joint", joint, 1.0),
    Row(TIE + r"\..+", "vessels.{vessel}", more_ties, 3.0),
    Row(TIE + r"\.(?:tension|strut|bow)", "vessels.{vessel}.ties.{tie}", timber, 2.0),
    Row(VESSEL + r"\.corners\..+", "vessels.{vessel}.corners.joint", joint, 1.0),
    Row(VESSEL + r"\.corners\..+", "vessels.{vessel}", more_ties, 3.0),
    # the joint at the floor
    Row(WALL + r"\.base\..+", f"{_WALL}.base", anchors_as_beside, 3.0),
    Row(WALL + r"\.base\..+", f"{_WALL}.base", anchors_beside_closer, 3.5),
    Row(WALL + r"\.base\..+", f"{_WALL}.base", steel_angle, 2.0),
    Row(WALL + r"\.base\..+", f"{_WALL}.base.spacing", closer, 2.0),
    Row(WALL + r"\.base\.(?:push|wood)", f"{_WALL}.base.fastener", stronger_at, 2.0),
    Row(WALL + r"\.base\..+", f"{_WALL}.base", floor_ties, 6.0),
    Row(WALL + r"\.base\.tie\.tension", f"{_WALL}.base.tie", timber, 3.0),
    Row(WALL + r"\.base\.tie_joint\.force", f"{_WALL}.base.tie_joint", joint, 2.0),
    Row(SLAB_EDGE, "vessels.{vessel}.stands_on.slab_thickness", THICKER, 8.0),
    Row(SLAB_EDGE, f"{_WALL}.base.embedment", DEEPER, 2.0),
    Row(SLAB_EDGE, f"{_WALL}.base.edge_distance", FURTHER, 5.0),
    # windows
    Row(BOWED, f"{_WINDOW}.thickness", clear_thickness, 3.0),
    Row(SEATED, f"{_WINDOW}.thickness", clear_thickness, 3.0),
    Row(BOWED, f"{_WINDOW}.edges.top", to_rim, 2.5),
    Row(PANE + r"\.freeboard", f"{_WINDOW}.edges.top", to_rim, 2.5),
    Row(BOWED, f"{_WINDOW}.width", NARROWER, 7.0),
    Row(SEATED, f"{_WINDOW}.seat.width", WIDER_SEAT, 3.0),
    Row(SEATED, f"{_WINDOW}.seat.bed_thickness", WIDER_GAP, 1.5),
    Row(PANE + r"\.gap", f"{_WINDOW}.seat.gap", WIDER_GAP, 1.5),
    Row(FRAME + BENT, _SILL, timber, 2.0),
    Row(FRAME + r"\.(?P<end>joint|top|foot)\.force", f"{_SILL}.{{end}}", joint, 1.0),
    # towers
    Row(VESSEL + SHEET, "vessels.{vessel}.walls.all.sheathing", thicker_sheet, 3.0),
    Row(VESSEL + SHEET, "vessels.{vessel}.ribs.per_face", counts(4), 3.0),
    Row(VESSEL + SHEET, "vessels.{vessel}.rings.spacing", closer, 3.0),
    Row(VESSEL + r"\.ribs\.[a-z_]+", "vessels.{vessel}.ribs", timber, 2.0),
    Row(VESSEL + r"\.ribs\.[a-z_]+", "vessels.{vessel}.ribs.per_face", counts(4), 3.0),
    Row(VESSEL + r"\.(?:ribs|rings)\..+", "vessels.{vessel}.rings.spacing", closer, 3.0),
    Row(VESSEL + r"\.rings" + BENT, "vessels.{vessel}.rings", timber, 2.5),
    Row(VESSEL + r"\.rings\.lap", "vessels.{vessel}.rings.section", section, 2.5),
    Row(VESSEL + r"\.rings\.joint\..+", "vessels.{vessel}.rings.joint", joint, 1.0),
    Row(VESSEL + r"\.buttresses" + BENT, "vessels.{vessel}.buttresses", timber, 2.0),
    Row(
        VESSEL + r"\.(?:overturning|shaken|footing)(?:\.[a-z]+)?",
        "vessels.{vessel}.buttresses.reach",
        shares(),
        4.0,
    ),
    # floor and lining
    Row(VESSEL + r"\.stands_on\..+", "vessels.{vessel}.stands_on.slab_thickness", THICKER, 8.0),
    Row(VESSEL + r"\.lining\.end(?:_service)?", "vessels.{vessel}.lining.ends_above_water", CARRIED_UP, 1.0),
    Row(VESSEL + r"\.lining\.(?:follows|film)", "vessels.{vessel}.lining", coats, 2.0),
    Row(VESSEL + r"\.lining\.follows", "vessels.{vessel}.lining.seams", choices("reinforced"), 2.0),
)
"""Which ladders belong to which checks."""
