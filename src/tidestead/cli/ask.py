"""tidestead ask: answers in the terminal or as JSON."""

from __future__ import annotations

import shlex
import sys
from collections.abc import Iterable, Mapping
from datetime import date
from typing import TYPE_CHECKING, Literal, TypeAlias

import click

from tidestead.cli import ending, planfile, waiting

if TYPE_CHECKING:
    from tidestead.core.answer import Answer
    from tidestead.core.units import System

Detail: TypeAlias = Literal["all", "working"]

units_option = click.option(
    "--units", type=click.Choice(["metric", "us"]), help="Units to show, instead of the plan's own."
)


@click.command(short_help="Answer the questions about a plan.")
@click.argument("plan")
@click.argument("subjects", nargs=-1, metavar="[SUBJECT]...")
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object, SI units, instead of text.")
@units_option
@click.option("--all", "detail", flag_value="all", help="List every sound check too, not only the first few.")
@click.option(
    "--working", "detail", flag_value="working", help="The same, with formulas and the numbers put in."
)
@click.option(
    "--fail-on",
    type=click.Choice(["fails", "unproven", "near"]),
    help="Exit with code 1 if an answer is this bad or worse (near, unproven, fails).",
)
def ask(
    plan: str,
    subjects: tuple[str, ...],
    as_json: bool,
    units: System | None,
    detail: Detail | None,
    fail_on: str | None,
) -> int:
    """Answer the questions about PLAN, or only those on the subjects named."""
    chosen = planfile.subjects(subjects)
    loaded = planfile.read(plan)
    from tidestead import desk  # noqa: PLC0415 - help and faults come at once: only when it runs

    desk.keep_on_disk()
    waiting.announce(chosen)
    with waiting.bar() as shown:
        within = shown.show if shown is not None else None
        answers = desk.answer(loaded, chosen, units, within=within, as_of=date.today())
    code = exit_code((answer.verdict for answer in answers.values()), fail_on)
    try:
        if as_json:
            print_json(answers, plan)
        else:
            print_text(answers, units or loaded.plan.show, detail, plan)
        sys.stdout.flush()
    except BrokenPipeError:
        ending.close_quietly()
    return code


def exit_code(verdicts: Iterable[str], fail_on: str | None) -> int:
    """1 where a verdict is as bad as asked about, or worse."""
    from tidestead.core.answer import Verdict, worst  # noqa: PLC0415 - help and faults come at once: only when it runs

    if fail_on is None:
        return ending.DONE
    bound = Verdict(fail_on)
    bad = any(worst([Verdict(verdict), bound]) == verdict for verdict in verdicts)
    return ending.FAILS if bad else ending.DONE


def print_json(answers: Mapping[str, Answer], plan: str) -> None:
    """The answers as one JSON object on standard output."""
    from tidestead.report import as_json  # noqa: PLC0415 - help and faults come at once: only when it runs

    sys.stdout.write(as_json.dump(answers, click.format_filename(plan), ascii_only=True))


def print_text(answers: Mapping[str, Answer], system: System, detail: Detail | None, plan: str) -> None:
    """The answers for reading on standard output."""
    from tidestead.report import terminal  # noqa: PLC0415 - help and faults come at once: only when it runs

    target = terminal.console(sys.stdout)
    working, every = detail == "working", detail is not None
    terminal.print_answers(answers, system, working, target, every=every, plan=shlex.quote(plan))
