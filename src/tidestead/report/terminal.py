"""Answers in a terminal: question, verdict, sentence, checks worst first, and what they rest on."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from rich.console import Console
from rich.padding import Padding

from tidestead.core.answer import Answer, Assumption, Check, Figure, Series, Table, Verdict, Working
from tidestead.core.charts import Chart
from tidestead.core.scene import Scene
from tidestead.core.source import Source
from tidestead.core.units import System
from tidestead.report import alike, terminal_charts, terminal_tables, wording
from tidestead.report.steps import worded_step
from tidestead.report.terminal_sheet import Sheet, console

__all__ = ["console", "print_answers"]

SOUND_SHOWN = 5
"""How many sound checks are listed unless every one is asked for; the rest are counted."""

LONG = 40
ROWS_SHOWN = 20
"""Rows from which on a table is long, and how many of it are then shown. Own choices."""


def print_answers(
    answers: Mapping[str, Answer],
    system: System,
    working: bool,
    target: Console,
    *,
    every: bool = False,
    plan: str = "PLAN",
) -> None:
    """Print every answer.

    `working` adds formulas and numbers, `every` lists sound checks one by one too, `plan` is the file as the
    user called it, for commands that the text proposes.
    """
    told = [answer for answer in answers.values() if not _bare(answer)]
    for number, answer in enumerate(told):
        if number:
            target.print()
        _print_answer(Sheet(target, system, plan), answer, working, every or working)
    _open_questions(Sheet(target, system, plan), [answer for answer in answers.values() if _bare(answer)])


def _bare(answer: Answer) -> bool:
    """Whether an answer says nothing but its sentence."""
    shown = (answer.figures, answer.tables, answer.scenes, answer.series, answer.charts)
    return not (answer.checks or any(shown))


def _open_questions(sheet: Sheet, answers: Sequence[Answer]) -> None:
    """Questions that have no more than a sentence, in one list; what several share is said once."""
    if not answers:
        return
    sheet.section("Questions still open")
    for sentence in dict.fromkeys(answer.sentence for answer in answers):
        sheet.paragraph(sentence)
        for answer in answers:
            if answer.sentence == sentence:
                line = sheet.sign(answer.verdict, None)
                line.append(f"  {sheet.say(answer.question)}", "not bold default")
                sheet.target.print(Padding(line, (0, 0, 0, 2), expand=False))


def _print_answer(sheet: Sheet, answer: Answer, working: bool, every: bool) -> None:
    """One answer in the order a builder reads it."""
    _heading(sheet, answer)
    _checks(sheet, answer.checks, every)
    _figures(sheet, answer.figures)
    for table in answer.tables:
        _table(sheet, table, every)
    for series in answer.series if every else ():
        _series(sheet, series)
    terminal_charts.print_charts(sheet, answer.charts)
    _drawings(sheet, (*answer.scenes, *answer.charts), working)
    _assumptions(sheet, answer.assumptions)
    if working:
        _working(sheet, answer.working)
    sheet.bullets("Take care", answer.cautions)
    _sources(sheet, answer.extra_sources)


def _table(sheet: Sheet, table: Table, every: bool) -> None:
    """A table of a study; of a long one its first rows, unless every one is asked for."""
    rows = table.rows if every or len(table.rows) <= LONG else table.rows[:ROWS_SHOWN]
    sheet.section(table.title)
    terminal_tables.print_data(sheet, replace(table, rows=rows))
    left = len(table.rows) - len(rows)
    if left:
        sheet.paragraph(f"{left} more rows (--all lists them)")
    sheet.paragraph(table.note)


def _heading(sheet: Sheet, answer: Answer) -> None:
    governing = wording.governing(answer)
    sheet.heading(answer.question)
    line = sheet.sign(answer.verdict, governing.use if governing else None)
    line.append(f"   {wording.tally(answer.checks)}", "not bold default")
    sheet.target.print(line)
    sheet.target.print()
    sheet.paragraph(answer.sentence, indent=0)


def _checks(sheet: Sheet, checks: Sequence[Check], every: bool) -> None:
    if not checks:
        return
    checks = wording.ordered(checks)
    rows = alike.rows_of(checks) if every else alike.collapsed(checks, sheet.system)
    sound = sum(row.check.verdict is Verdict.SOUND for row in rows)
    shown = rows if every else rows[: len(rows) - max(0, sound - SOUND_SHOWN)]
    sheet.section("Checks, worst first")
    terminal_tables.print_checks(sheet, shown)
    left = len(checks) - sum(row.count for row in shown)
    if left:
        sheet.paragraph(f"{left} more, all sound (--all lists them)")
    kept = [row.check for row in shown]
    unsound = [check for check in checks if check.verdict is not Verdict.SOUND]
    sheet.bullets("What to do about them", _advice(unsound))
    sheet.bullets("What the limits already hold", _gathered((check.limit_includes, check) for check in kept))
    talked_of = checks if every else unsound
    sheet.bullets(
        "Said of the checks", _gathered((caution, check) for check in talked_of for caution in check.cautions)
    )


def _advice(checks: Iterable[Check]) -> list[str]:
    """One line for checks of one sort that want the same done: where, why they are unproven, what to do."""
    places: dict[tuple[str, str], list[str]] = {}
    for check in checks:
        told = wording.mending(check)
        if told:
            places.setdefault((check.what, told), []).append(check.where)
    lines = []
    for (what, told), where in places.items():
        named = "; ".join(part for part in dict.fromkeys(where) if part)
        lines.append(f"{what}{f' ({named})' if named else ''}: {told}.")
    return lines


def _gathered(notes: Iterable[tuple[str, Check]]) -> list[str]:
    """Each remark once, with the checks it is made of."""
    found: dict[str, list[str]] = {}
    for remark, check in notes:
        names = found.setdefault(remark, [])
        if check.what not in names:
            names.append(check.what)
    return [f"{remark} ({', '.join(names)})" for remark, names in found.items() if remark]


def _figures(sheet: Sheet, figures: Sequence[Figure]) -> None:
    if figures:
        sheet.section("Figures")
        sheet.target.print(terminal_tables.figure_table(sheet, figures))


def _series(sheet: Sheet, series: Series) -> None:
    if not series.likely:
        return
    sheet.section(series.title)
    ends = [
        wording.shown(value, series.unit, sheet.system) for value in (min(series.likely), max(series.likely))
    ]
    axis = [wording.shown(value, series.axis_unit, sheet.system) for value in (series.at[0], series.at[-1])]
    if sheet.blocks:
        sheet.paragraph(terminal_charts.spark(series.likely))
    sheet.paragraph(f"{ends[0]} to {ends[1]}, over {series.axis} {axis[0]} to {axis[1]}")


def _drawings(sheet: Sheet, scenes: Sequence[Scene | Chart], working: bool) -> None:
    if not scenes:
        return
    sheet.section("Drawings and plots" if any(not isinstance(one, Scene) for one in scenes) else "Drawings")
    sheet.paragraph(
        f"A terminal cannot show {'them' if len(scenes) > 1 else 'it'}: "
        f'"tidestead export {sheet.plan} --to svg" writes each as a file that any browser opens.'
    )
    for scene in scenes:
        sheet.item("- ", f"{scene.title}. {scene.told}" if working and scene.told else scene.title)


def _assumptions(sheet: Sheet, assumptions: Sequence[Assumption]) -> None:
    lines = []
    for item in assumptions:
        why = f": {item.why}" if item.why else ""
        lines.append(f"{item.key} = {item.value} {sheet.citations.mark(item.source)}{why}")
    sheet.bullets("Assumed where the plan is silent; write the key in the plan to change it", lines)


def _working(sheet: Sheet, workings: Sequence[Working]) -> None:
    for working in workings:
        sheet.section(f"Working: {working.title}")
        for step in working.steps:
            told = worded_step(step, sheet.system)
            meaning = f"{told.symbol}, {told.meaning}" if told.meaning else told.symbol
            sheet.paragraph(f"{meaning} {sheet.citations.mark(told.source)}")
            sheet.paragraph(told.formula, indent=6)
            numbers = ", ".join(f"{symbol} = {value}" for symbol, value in told.numbers)
            sheet.paragraph(f"with {numbers}" if numbers else "", indent=6)
            sheet.paragraph(f"{told.symbol} = {told.result}", indent=6)


def _sources(sheet: Sheet, extra: Sequence[Source]) -> None:
    for source in extra:
        sheet.citations.mark(source)
    lines = list(sheet.citations)
    if not lines:
        return
    sheet.section("Sources")
    for mark, source in lines:
        sheet.item(f"{mark:<5}", f"{source}. {source.note}" if source.note else str(source))
