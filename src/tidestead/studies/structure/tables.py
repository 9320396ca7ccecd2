"""Tables of the answer: loads, first fill, thickness, lost ties, hand against frame."""

from __future__ import annotations

from collections.abc import Sequence
from math import isfinite

from tidestead.core.answer import Column, Table
from tidestead.core.errors import CatalogError
from tidestead.core.kept import kept
from tidestead.core.units import System, show
from tidestead.studies.inputs import Inputs
from tidestead.studies.structure.case_checks import seat_timber
from tidestead.studies.structure.facts import KEPT_VESSELS, VesselFacts, VesselJudged, read_of
from tidestead.studies.structure.frame_facts import AGREE
from tidestead.studies.structure.level_words import level_table
from tidestead.studies.structure.rims import rim_piece, rim_stiffness
from tidestead.studies.structure.thickness import least_sound
from tidestead.studies.structure.timber import Piece
from tidestead.studies.structure.window_facts import WindowFacts, WindowSetting


def tables_told(inputs: Inputs, judged: Sequence[VesselJudged]) -> tuple[Table, ...]:
    """Every table that has rows."""
    found: list[Table] = []
    for vessel in judged:
        if vessel.facts.cases:
            found += _of_vessel(vessel.facts, inputs.system)
    return tuple(table for table in found if table.rows)


@kept(at_most=KEPT_VESSELS, by=read_of)
def _of_vessel(facts: VesselFacts, system: System) -> tuple[Table, ...]:
    return (
        level_table(facts),
        _cases(facts),
        _fill(facts, system),
        _thickness(facts, system),
        _frame(facts),
        _lost(facts),
    )


def _cases(facts: VesselFacts) -> Table:
    key = facts.subject.key
    columns = (
        Column("load case"),
        Column("depth", "m", "level"),
        Column("water", "kg/m3"),
        Column("pressure at the floor", "Pa"),
        Column("lasts"),
    )
    rows = tuple(
        (
            case.case.words,
            case.case.level,
            case.case.density,
            case.case.weight * case.case.level,
            case.case.duration,
        )
        for case in facts.cases
    )
    return Table(f"structure.{key}.cases", f"{key}: how high the water stands, and how long", columns, rows)


def _fill(facts: VesselFacts, system: System) -> Table:
    """Bow to expect, and the two readings past which to stop: each with its direction, for a bow may go either way."""
    key = facts.subject.key
    columns = (
        Column("where to measure"),
        Column("depth", "m", "level"),
        Column("bow at once, inward below nothing", "m", "bow"),
        Column("in the end", "m", "bow"),
        Column("stop and drain if further out than"),
        Column("or further in than"),
        Column("wait at least", "h"),
    )
    steps = [(point.where, step) for point in facts.fill for step in point.steps]
    stops = [end for _, step in steps for end in (step.stop_above, step.stop_below)]
    rows = tuple(
        (
            where,
            step.depth,
            step.at_once,
            step.lasting,
            _way(step.stop_above, stops, system),
            _way(step.stop_below, stops, system),
            step.hold,
        )
        for where, step in steps
    )
    note = (
        "Set a straight edge or a string before any water is in and measure from it. Go on only when the bow has "
        "stopped moving at the end of the wait. A reading between the two stops is good; past either, or at any crack "
        "or drip, drain to the step before. The stops are the bow at once, and either way a quarter of what creep adds "
        "in years and how well a rule is read; never past the bow that is allowed for good. What should go outward "
        "may go inward no further than that from where it stood."
    )
    return Table(f"structure.{key}.fill", f"{key}: first fill, bow to expect", columns, rows, note)


def _way(reading: float, beside: Sequence[float], system: System) -> str:
    """A reading with its direction."""
    sizes = [abs(one) for one in beside]
    return f"{show(abs(reading), 'm', system, 'bow', sizes)} {'outward' if reading >= 0.0 else 'inward'}"


def _thickness(facts: VesselFacts, system: System) -> Table:
    key = facts.subject.key
    columns = (
        Column("window"),
        Column("sheet", "m", "sheet"),
        Column("stress used", "1", "share"),
        Column("bow used", "1", "share"),
        Column("seat, seal, broken ply used", "1", "share"),
        Column("verdict"),
    )
    rows: list[tuple[float | str | None, ...]] = []
    for window in facts.cases[0].windows:
        try:
            choices = least_sound(window, _settings(facts, window), system)
        except CatalogError:
            continue  # the timber round it is of other rules, which a check says
        rows += [
            (
                window.at.words,
                choice.thickness,
                choice.stress,
                choice.bow,
                finite(choice.rest),
                choice.verdict.value,
            )
            for choice in choices
        ]
    note = (
        "Sheets as merchants list them, delivered as thin as their standard allows. The verdict is of stress, bow, "
        "seat and seal together, of glass with a ply broken too: a single pane is never sound. The last line of a "
        "window is the least that is sound, or the thickest listed if none is; where stress and bow are and the "
        "verdict is not, no sheet mends it by itself. Left out: how warm it stays, room to grow, freeboard, and the "
        "timbers round it."
    )
    return Table(f"structure.{key}.thickness", f"{key}: what thickness?", columns, tuple(rows), note)


def finite(use: float) -> float | None:
    """A use, or a dash where something cannot be proved."""
    return use if isfinite(use) else None


def _settings(facts: VesselFacts, window: WindowFacts) -> list[tuple[WindowSetting, Piece | None]]:
    """The window's surroundings in every load case."""
    found = []
    subject = facts.subject
    place = window.place
    for case in facts.cases:
        ask = subject.ask(case.case)
        piece = rim_piece(place, ask) if ask is not None else None
        give = rim_stiffness(place, piece) if piece is not None else None
        setting = WindowSetting(
            place,
            case.case.level,
            case.case.weight,
            give,
            subject.tables,
            case.case.duration == "permanent",
        )
        found.append((setting, seat_timber(window, ask) if ask is not None else None))
    return found


def _frame(facts: VesselFacts) -> Table:
    key, service = facts.subject.key, facts.cases[0]
    columns = (
        Column("rim"),
        Column("moment by hand", "N m"),
        Column("moment in the frame", "N m"),
        Column("they"),
        Column("bow by hand", "m", "bow"),
        Column("moves in the frame", "m", "bow"),
    )
    rows: list[tuple[float | str | None, ...]] = []
    for name, rim in service.rims.items():
        if rim.frame is None:
            continue
        hand = rim.hand.moment
        words = "agree" if rim.apart <= AGREE else f"differ by {100 * rim.apart:.0f} %"
        rows.append((name, hand, rim.frame.moment, words, rim.hand_bow, rim.frame.farthest[1]))
    note = (
        "The hand formula takes corners and ties as props that do not give; the frame lets them. The larger value "
        f"decides. More than {100 * AGREE:.0f} % apart is said. Moves: outward at once, beside the line between the "
        "corners, where it is most; less than nothing is inward."
    )
    return Table(
        f"structure.{key}.frame", f"{key}: hand formulas beside the whole frame", columns, tuple(rows), note
    )


def _lost(facts: VesselFacts) -> Table:
    key, frame = facts.subject.key, facts.cases[0].frame
    columns = (
        Column("tie lost at", "m", "level"),
        Column("rim that feels it most"),
        Column("its moment grows to", "1", "share"),
        Column("busiest rim then"),
        Column("use of that rim then", "1", "share"),
        Column("pull in the next tie grows to", "1", "share"),
    )
    rows = (
        tuple((tie.at, tie.rim, tie.growth, tie.busiest, tie.use, tie.pull) for tie in frame.lost)
        if frame is not None
        else ()
    )
    note = (
        "If a tie breaks: drain at once, keep off the long walls. Percent of the value with all ties. Use: bending "
        "over what the rim bears for some days, as the frame has it; more than 100 % breaks the next thing."
    )
    return Table(f"structure.{key}.lost_tie", f"{key}: if one tie were lost", columns, rows, note)
