"""The command line as a user meets it: a whole plan in, answers, files and exit codes out."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.laws.report_samples import CHECKS
from tests.many import many
from tidestead import desk
from tidestead.cli import main
from tidestead.core.answer import Answer, Verdict
from tidestead.core.errors import SolverError
from tidestead.plan import load

EXAMPLES = Path(__file__).parents[2] / "examples"
PACKHOUSE = EXAMPLES / "packhouse.toml"

Fake = Callable[[Answer], None]
SKERRY = EXAMPLES / "skerry.toml"


# ---- asking ------------------------------------------------------------------------------------


def test_ask_says_question_verdict_reasons_and_limits(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["ask", str(PACKHOUSE), "structure"]) == 0
    out = capsys.readouterr().out
    assert "Will it hold?" in out
    assert re.search(r"~█~ fails   \d+ checks: \d+ fails?", out)
    assert "Checks, worst first" in out
    assert "licensed engineer" in out
    assert re.search(r"codes\s+govern", out)
    assert re.search(r"\[(source seen|quoted by another|from memory|common practice|computed|yours)\]", out)


def test_units_follow_the_plan_or_the_switch(capsys: pytest.CaptureFixture[str]) -> None:
    metric, us = re.compile(r"\d (mm|kPa|MPa|kN|m)\b"), re.compile(r"\d (in|psi|psf|lbf|ft)\b")
    main(["ask", str(PACKHOUSE), "structure"])
    own = capsys.readouterr().out
    main(["ask", str(PACKHOUSE), "structure", "--units", "metric"])
    switched = capsys.readouterr().out

    def in_table(text: str, unit: re.Pattern[str]) -> int:
        table = text.split("Checks, worst first")[1].split("\n\n", maxsplit=1)[0]
        return len(unit.findall(table))

    assert in_table(own, us) > 3
    assert in_table(own, metric) == 0
    assert in_table(switched, metric) > 3
    assert in_table(switched, us) == 0


def test_working_shows_formulas_numbers_and_sources(capsys: pytest.CaptureFixture[str]) -> None:
    main(["ask", str(PACKHOUSE), "structure"])
    without = capsys.readouterr().out
    main(["ask", str(PACKHOUSE), "structure", "--working"])
    worked = capsys.readouterr().out
    assert "Working: " not in without
    assert worked.count("Working: ") > 5
    assert len(re.findall(r"^ +\S.* = .*\d", worked, re.MULTILINE)) > 20


def test_all_lists_every_check(capsys: pytest.CaptureFixture[str]) -> None:
    answer = desk.answer(load(PACKHOUSE), ["structure"])["structure"]
    main(["ask", str(PACKHOUSE), "structure", "--all"])
    out = capsys.readouterr().out
    words = ("sound", "near", "fails", "unproven")
    rows = re.findall(rf"^\S+ +(?:{'|'.join(words)})(?= )", out.split("Checks, worst first")[1], re.MULTILINE)
    assert len(rows) == len(answer.checks)


def test_questions_without_a_study_are_named_not_hidden(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    plan = tmp_path / "nothing.toml"
    plan.write_text('tidestead = 1\nname = "nothing"\n', "utf-8")
    assert main(["ask", str(plan)]) == 0
    out = capsys.readouterr().out
    for entry in desk.SUBJECTS:
        assert entry.question in out


@pytest.mark.parametrize(
    ("shown", "bound", "code"),
    [
        (Verdict.FAILS, None, 0),
        (Verdict.FAILS, "fails", 1),
        (Verdict.FAILS, "unproven", 1),
        (Verdict.FAILS, "near", 1),
        (Verdict.UNPROVEN, "fails", 0),
        (Verdict.UNPROVEN, "unproven", 1),
        (Verdict.UNPROVEN, "near", 1),
        (Verdict.NEAR, "fails", 0),
        (Verdict.NEAR, "unproven", 0),
        (Verdict.NEAR, "near", 1),
        (Verdict.SOUND, "near", 0),
    ],
)
@pytest.mark.parametrize("form", [(), ("--json",)])
def test_exit_code_follows_the_worst_verdict_asked_about(
    shown: Verdict, bound: str | None, code: int, form: tuple[str, ...], answered: Fake
) -> None:
    checks = tuple(check for check in CHECKS if check.verdict is shown)
    answered(Answer("structure", "Will it hold?", "As it is.", checks))
    switch = ("--fail-on", bound) if bound else ()
    assert main(["ask", str(PACKHOUSE), "structure", *switch, *form]) == code


def test_example_with_failing_checks_fails_when_asked_to(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["ask", str(PACKHOUSE), "structure", "--fail-on", "fails"]) == 1
    assert main(["ask", str(PACKHOUSE), "structure"]) == 0
    capsys.readouterr()


# ---- wrong input --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("args", "said"),
    [
        (["aks"], 'Did you mean "ask"?'),
        (["ask"], "Missing argument 'PLAN'"),
        (["ask", "{plan}", "structur"], 'Did you mean "structure"?'),
        (["ask", "{plan}", "zzz"], "Subjects: structure"),
        (["ask", "{plan}", "--units", "imperial"], "'imperial' is not one of 'metric', 'us'"),
        (["ask", "{folder}/reff.toml"], "reef.toml?"),
        (["ask", "{folder}/nothing/at/all"], "tidestead new"),
        (["ask", "{folder}"], "reef.toml"),
        (["ask", "/dev/null"], "not an ordinary file"),
        (["ask", "a\0b/c"], "There is no file"),
        (["ask", "x" * 5000], "cannot be read"),
        (["export", "{plan}"], "Missing option '--to'"),
        (["export", "--to", "svg"], "Which plan?"),
        (["export", "{plan}", "--to", "svg", "-o", "{plan}"], "a folder is needed there"),
        (["export", "{plan}", "--to", "json", "-o", "{folder}"], "a file name is needed"),
        (["export", "{plan}", "--to", "json", "-o", "{folder}/no/such/x.json"], "cannot be written"),
        (["new", "{plan}"], "left as it is"),
        (["new", "{folder}/no/such/p.toml"], "cannot be written"),
    ],
)
def test_wrong_input_is_told_on_stderr_with_advice(
    args: list[str], said: str, plan: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    before = plan.read_bytes()
    assert main([arg.format(plan=plan, folder=plan.parent) for arg in args]) == 2
    shown = capsys.readouterr()
    assert said in shown.err
    assert "Traceback" not in shown.err
    assert shown.out == ""
    assert plan.read_bytes() == before


def test_every_fault_of_a_plan_is_told_with_its_line(plan: Path, capsys: pytest.CaptureFixture[str]) -> None:
    text = plan.read_text("utf-8")
    thickness = re.search(r'thickness = ".*?"', text.split(".windows.long]")[1])
    assert thickness is not None
    for right, wrong in (
        ('width = "5 ft" ', 'widht = "5 ft" '),
        (thickness[0], "thickness = 2"),
        ('height = "4 ft 6 in"', 'height = "4 ft 6 lb"'),
        ('material = "acrylic-cast"', 'material = "acrilic-cast"'),
    ):
        assert right in text
        text = text.replace(right, wrong, 1)
    plan.write_text(text, "utf-8")
    lines = {
        number
        for number, line in enumerate(text.splitlines(), 1)
        if any(wrong in line for wrong in ("widht", "thickness = 2", "6 lb", "acrilic"))
    }
    assert len(lines) == 4
    assert main(["ask", str(plan), "structure"]) == 2
    shown = capsys.readouterr()
    assert lines <= {int(number) for number in re.findall(r"\(line (\d+)\)", shown.err)}
    assert shown.out == ""


# silenced: each example overwrites the one file, and what was printed is read each time
@settings(max_examples=many(60), deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    st.one_of(
        st.binary(max_size=400), st.text(max_size=200).map(lambda text: text.encode("utf-8", "replace"))
    )
)
def test_any_bytes_as_a_plan_give_a_clear_error(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], data: bytes
) -> None:
    path = tmp_path / "any.toml"
    path.write_bytes(data)
    assert main(["ask", str(path), "structure"]) == 2
    shown = capsys.readouterr()
    assert shown.out == ""
    assert shown.err.startswith(str(path))
    assert "Traceback" not in shown.err
    assert not re.search(r"[\x00-\x08\x0b-\x1f\x7f\x9b]", shown.err)


@pytest.mark.parametrize("data", [b"[" * 30000, b"a = " + b"[" * 30000, b"{" * 9000, b"a." * 9000 + b"b = 1"])
def test_brackets_without_end_are_told_like_any_fault(
    tmp_path: Path, data: bytes, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "deep.toml"
    path.write_bytes(data)
    assert main(["ask", str(path)]) == 2
    assert "Traceback" not in capsys.readouterr().err


@pytest.mark.skipif(os.geteuid() == 0, reason="a superuser may read every file")
def test_unreadable_file_is_told(plan: Path, capsys: pytest.CaptureFixture[str]) -> None:
    plan.chmod(0)
    assert main(["ask", str(plan)]) == 2
    assert "ermission" in capsys.readouterr().err


# ---- faults of ours -----------------------------------------------------------------------------


@pytest.mark.parametrize(
    "error", [RuntimeError("a wheel\ncame off"), SolverError("rim: did not settle"), RecursionError()]
)
def test_fault_of_ours_is_short_and_asks_for_a_report(
    error: Exception, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def broken(*asked: object, **more: object) -> None:
        raise error

    monkeypatch.setattr(desk, "answer", broken)
    monkeypatch.delenv("TIDESTEAD_DEBUG", raising=False)
    assert main(["ask", str(PACKHOUSE), "structure"]) == 3
    told = capsys.readouterr().err
    assert type(error).__name__ in told
    assert "report" in told
    assert "Traceback" not in told
    assert len(told.splitlines()) == 2
    assert main(["ask", str(PACKHOUSE), "--debug"]) == 3
    assert "Traceback" in capsys.readouterr().err
    monkeypatch.setenv("TIDESTEAD_DEBUG", "1")
    assert main(["ask", str(PACKHOUSE)]) == 3
    assert "Traceback" in capsys.readouterr().err
