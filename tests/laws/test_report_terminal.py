"""Answers in a terminal: nothing is cut, no colour where nobody looks, no words that steer the terminal."""

from __future__ import annotations

import dataclasses
import io
import re

import pytest
from rich.console import Console

from tests.laws.report_samples import ANSWER
from tidestead.core.answer import Answer, Check, Column, Estimate, Table
from tidestead.core.source import STATICS
from tidestead.core.units import System
from tidestead.report import terminal, wording


def printed(
    answer: Answer = ANSWER,
    width: int = 80,
    system: System = "metric",
    working: bool = True,
    encoding: str = "utf-8",
    every: bool = False,
) -> str:
    raw = io.BytesIO()
    target = terminal.console(io.TextIOWrapper(raw, encoding=encoding))
    target.width = width
    terminal.print_answers({"structure": answer}, system, working, target, every=every)
    target.file.flush()
    return raw.getvalue().decode(encoding)


def letters(text: str) -> str:
    return re.sub(r"[\s\u00a0]+", "", text)


@pytest.mark.parametrize("width", [20, 40, 60, 80, 100, 160])
@pytest.mark.parametrize("system", ["metric", "us"])
def test_no_word_is_cut_at_any_width(width: int, system: System) -> None:
    text = printed(width=width, system=system)
    assert "…" not in text
    assert max(len(line) for line in text.splitlines()) <= width
    for check in ANSWER.checks:
        for word in re.findall(r"[A-Za-z]{3,}", f"{check.what} {check.where} {check.verdict}"):
            assert re.search(rf"\b{word}\b", text), word


@pytest.mark.parametrize("width", [76, 80, 120])
def test_table_holds_every_figure_of_every_check(width: int) -> None:
    table = printed(width=width).split("Checks, worst first")[1].split("\n\n")[0]
    rows = [line for line in table.splitlines() if re.match(r"(▕.▏|~█~|┆\?┆) ", line)]
    assert [row.split()[1] for row in rows] == ["fails", "unproven", "near", "sound", "sound", "sound"]
    for row, check in zip(rows, wording.ordered(ANSWER.checks), strict=True):
        figures = [wording.now(check, "metric"), wording.used(check), wording.margin(check)]
        assert all(figure in row for figure in figures)


@pytest.mark.parametrize("width", [40, 80, 120])
def test_everything_an_answer_says_is_printed(width: int) -> None:
    text = letters(printed(width=width))
    said = [ANSWER.question, ANSWER.sentence, *ANSWER.cautions]
    said += [assumption.key for assumption in ANSWER.assumptions]
    said += [step.formula for working in ANSWER.working for step in working.steps]
    said += ["rho = 1025 kg/m³, h = 0.98 m"]
    said += [source.work for source in ANSWER.sources]
    said += [source.known.value for source in ANSWER.sources]
    said += [scene.title for scene in ANSWER.scenes]
    said += [table.title for table in ANSWER.tables] + ["anything creaks"]
    said += [caution for check in ANSWER.checks for caution in check.cautions]
    said += [check.missing for check in ANSWER.checks] + [check.advice for check in ANSWER.checks]
    said += [check.limit_includes for check in ANSWER.checks]
    if width >= 80:
        said += [figure.what for figure in ANSWER.figures]
    for words in said:
        assert letters(words) in text, words


def test_formulas_are_shown_only_when_asked_for() -> None:
    assert "rho g h" not in printed(working=False)
    assert "rho g h" in printed(working=True)


def test_sound_checks_are_counted_beyond_the_first_few() -> None:
    sound = tuple(
        Check(
            f"s.{number}",
            f"check number {number}",
            "here",
            "m",
            Estimate.exact(0.1 + number / 100.0),
            1.0,
            STATICS,
        )
        for number in range(9)
    )
    answer = dataclasses.replace(ANSWER, checks=sound + ANSWER.checks[:2])
    short, full = printed(answer, working=False), printed(answer, working=False, every=True)
    assert "5 more, all sound" in short
    assert "check number 0" not in short
    assert all(check.what in full for check in sound)
    assert "more, all sound" not in full


def test_ascii_where_the_encoding_has_no_more() -> None:
    text = printed(encoding="ascii", system="us")
    assert text.isascii()
    assert "~#~ fails" in text
    assert ":?: unproven" in text
    assert "[=] near" in text


def test_plain_text_where_there_is_no_terminal() -> None:
    assert "\x1b" not in printed()


def test_no_colour_is_honoured_in_a_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    def shown() -> str:
        stream = io.StringIO()
        target = Console(file=stream, force_terminal=True, width=80, highlight=False, markup=False)
        terminal.print_answers({"structure": ANSWER}, "metric", False, target)
        return stream.getvalue()

    monkeypatch.setenv("TERM", "xterm-256color")
    monkeypatch.delenv("NO_COLOR", raising=False)
    coloured = re.compile(r"\x1b\[[0-9;]*(3[0-8]|9[0-7])[;m]")
    assert coloured.search(shown())
    monkeypatch.setenv("NO_COLOR", "1")
    assert not coloured.search(shown())


def test_words_of_a_plan_cannot_steer_the_terminal() -> None:
    hostile = dataclasses.replace(
        ANSWER.checks[0], where="\x1b[2Jwall [red]north[/red] \u202eevil", what="\x07bell"
    )
    text = printed(
        dataclasses.replace(ANSWER, checks=(hostile,), sentence="[bold]not markup[/bold]\x1b]0;x\x07")
    )
    assert "\x1b" not in text
    assert "\x07" not in text
    assert "\u202e" not in text
    assert "[red]north[/red]" in text
    assert "[bold]not markup[/bold]" in text


def test_a_table_too_wide_for_the_terminal_loses_nothing() -> None:
    columns = tuple(Column(f"a rather wordy head {number}") for number in range(9))
    rows = (
        tuple(f"unbreakable-word-{number}" for number in range(9)),
        tuple(f"second{number}" for number in range(9)),
    )
    answer = dataclasses.replace(ANSWER, tables=(Table("t", "Wide", columns, rows),))
    text = printed(answer)
    for number in range(9):
        assert f"unbreakable-word-{number}" in text
        assert f"a rather wordy head {number}" in text


def test_a_wide_table_says_the_unit_of_a_column_once_in_its_head() -> None:
    """Seven columns of light in 80 signs; with units in every cell they would not fit side by side."""
    columns = (Column("month"), *(Column(f"place {number}", "mol/(m2 day)") for number in range(6)))
    rows: tuple[tuple[float | str | None, ...], ...] = tuple(
        (name, *(1.25 * number + at for number in range(6))) for at, name in enumerate(("Jan", "Feb"))
    )
    text = printed(dataclasses.replace(ANSWER, tables=(Table("t", "Light", columns, rows),)))
    table = text.split("Light\n")[1].split("\n\n")[0]
    assert table.count("mol/(m²") == 6
    line = next(line for line in table.splitlines() if line.startswith("Feb"))
    assert line.split() == ["Feb", "1", "2.25", "3.5", "4.75", "6", "7.25"]


def test_a_column_without_head_and_words_takes_no_room_and_breaks_nothing() -> None:
    columns = (Column("fault"), Column(""), Column("what it takes"))
    rows = (("pump stops", "", "a battery"), ("hose bursts", "", "a bund"))
    text = printed(dataclasses.replace(ANSWER, tables=(Table("t", "Helps", columns, rows),)))
    after = text.split("Helps")[1]
    assert all(word in after for row in rows for word in (row[0], row[2]))


def test_questions_without_a_study_are_listed_once() -> None:
    open_ones = {
        name: Answer(name, f"Will the {name} do?", "This cannot be worked out yet.")
        for name in ("flow", "foam")
    }
    raw = io.StringIO()
    terminal.print_answers({"structure": ANSWER, **open_ones}, "metric", False, terminal.console(raw))
    assert raw.getvalue().count("This cannot be worked out yet.") == 1
    assert "unproven  Will the flow do?" in raw.getvalue()
    assert "unproven  Will the foam do?" in raw.getvalue()


def test_a_ratio_in_a_table_is_a_percentage() -> None:
    columns, rows = (
        (Column("sheet", "m", "sheet"), Column("bow used", "1", "share")),
        ((0.0762, 1.79), (0.1, 0.9)),
    )
    text = printed(dataclasses.replace(ANSWER, tables=(Table("t", "Thick", columns, rows),)))
    assert re.search(r"76\.2 mm\s+179 %", text)
    assert re.search(r"100 mm\s+90 %", text)


def test_remarks_on_sound_checks_wait_until_every_check_is_asked_for() -> None:
    sound = dataclasses.replace(ANSWER.checks[0], cautions=("Look at it each spring.",))
    answer = dataclasses.replace(ANSWER, checks=(sound, *ANSWER.checks[1:]))
    assert "each spring" not in printed(answer, working=False)
    assert "each spring" in printed(answer, working=False, every=True)
    assert "Keep people clear" in printed(answer, working=False)
