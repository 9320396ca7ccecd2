"""tidestead mend: what would mend what fails or is near, computed, priced and ranked; one of it written, or undone."""

from __future__ import annotations

import difflib
import math
import shlex
import sys
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from typing import TYPE_CHECKING, TypeAlias

import click

from tidestead.cli import ending, planfile, waiting
from tidestead.cli.ask import units_option
from tidestead.core.errors import PlanError

if TYPE_CHECKING:
    from rich.console import Console

    from tidestead.core.answer import Check
    from tidestead.core.units import System
    from tidestead.plan import LoadedPlan
    from tidestead.trials.mending import Search
    from tidestead.trials.remedy import Move
    from tidestead.trials.scratch import Scratch


@dataclass(frozen=True)
class _Asked:
    """What a command asks: the plan, which checks, and how it is told."""

    plan: str
    what: tuple[str, ...]
    whole: bool
    quick: bool
    as_json: bool
    units: System | None
    minutes: float | None = None

    @property
    def typed(self) -> str:
        """What was typed, to be typed again."""
        return shlex.join([self.plan, *self.what, *(["--quick"] if self.quick else [])])

    @property
    def key(self) -> tuple[str, ...]:
        """What numbers hang on, besides the plan."""
        return ("whole" if self.whole else "each", "quick" if self.quick else "full", *self.what)


def _finite(_context: click.Context, _option: click.Parameter, value: float | None) -> float | None:
    """Refuse what is no number of minutes; without end is what it is without the option."""
    if value is not None and not math.isfinite(value):
        raise click.BadParameter(f"{value} is no number of minutes. Write one such as 20, or leave it out.")
    return value


@click.command(short_help="Find what would mend a plan, and write it.")
@click.argument("plan")
@click.argument("what", nargs=-1, metavar="[SUBJECT or CHECK]...")
@click.option("--whole", is_flag=True, help="The cheapest changes found that make everything sound together.")
@click.option(
    "--write", "number", type=int, metavar="N", help="Write the remedy of this number into the plan."
)
@click.option("--undo", is_flag=True, help="Bring back the plan as it was before the last save.")
@click.option("--quick", is_flag=True, help="Look for side effects in the check's own subject only.")
@click.option(
    "--minutes",
    type=click.FloatRange(0.0, min_open=True),
    callback=_finite,
    metavar="M",
    help="Tell what is found after about so many minutes; asked again, the search goes on from there.",
)
@click.option("--json", "as_json", is_flag=True, help="Print one JSON object, SI units, instead of text.")
@units_option
def mend(
    plan: str,
    what: tuple[str, ...],
    whole: bool,
    number: int | None,
    undo: bool,
    quick: bool,
    minutes: float | None,
    as_json: bool,
    units: System | None,
) -> int:
    """For every failing or near check of PLAN: changes that make it sound, tried, priced and ranked.

    Name subjects or ids of checks, whole or up to a dot, to look at those only.
    """
    if undo:
        return _undo(plan)
    asked = _Asked(plan, what, whole, quick, as_json, units, minutes)
    loaded = planfile.read(plan)
    if number is not None:
        return _write(loaded, asked, number)
    _searched(loaded, asked)
    return ending.DONE


def _undo(plan: str) -> int:
    from tidestead.trials.applying import undone  # noqa: PLC0415 - help and faults come at once: only when it runs

    path = planfile.found(plan)
    try:
        kept = undone(path)
    except PlanError as error:
        raise ending.WrongInputError(str(error)) from error
    click.echo(f"{plan} is as it was before; what it was until now is kept in {kept.name}.")
    return ending.DONE


def _write(loaded: LoadedPlan, asked: _Asked, number: int) -> int:
    from tidestead.trials import applying, shown  # noqa: PLC0415 - help and faults come at once: only when it runs

    moves = shown.recalled(loaded.text, asked.key)
    if moves is None:
        again = f"tidestead mend {asked.typed}{' --whole' if asked.whole else ''}"
        raise ending.WrongInputError(
            "Nothing is written: no remedies were shown for this and the plan as it stands now.",
            f"Numbers may mean something else in a plan that has changed. Type first: {again}",
        )
    if not 1 <= number <= len(moves):
        known = f"There are 1 to {len(moves)}." if moves else "There is none for this plan."
        raise ending.WrongInputError(f"There is no remedy {number}.", known)
    try:
        kept = applying.written(loaded, moves[number - 1].edits)
    except PlanError as error:
        raise ending.WrongInputError(str(error)) from error
    click.echo(f"Written: {moves[number - 1].words}.")
    click.echo(
        f"The former plan is kept in {kept.name}; tidestead mend {shlex.quote(asked.plan)} --undo brings it back."
    )
    return ending.DONE


def _searched(loaded: LoadedPlan, asked: _Asked) -> None:
    """Every change in the order of its number; shown, and kept for the one that is written."""
    from tidestead import desk  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.trials import shown  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.trials.mending import checks_to_mend  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.trials.scratch import Scratch  # noqa: PLC0415 - help and faults come at once: only when it runs

    subjects = _subjects(asked.what)
    waiting.announce(subjects)
    desk.keep_on_disk()
    scratch = Scratch.resumed(loaded)
    _must_be_known(scratch, asked.what)
    checks = checks_to_mend(scratch, subjects, asked.what)
    search = _whole if asked.whole and checks else _each
    moves, tell = search(scratch, checks, asked)
    shown.keep(loaded.text, asked.key, moves)
    tell()
    sys.stdout.flush()


Found: TypeAlias = "tuple[list[Move], Callable[[], None]]"
"""The changes in the order of their numbers, and what tells them."""


def _each(scratch: Scratch, checks: Sequence[Check], asked: _Asked) -> Found:
    """Remedies check by check."""
    from tidestead.trials.mending import mended  # noqa: PLC0415 - help and faults come at once: only when it runs

    with waiting.bar("changes") as bar:
        found = mended(scratch, checks, _search(asked), _tick(bar))

    def tell() -> None:
        from tidestead.report import remedies_json, terminal_remedies  # noqa: PLC0415 - only where it is shown

        if asked.as_json:
            sys.stdout.write(remedies_json.dump_remedies(found, click.format_filename(asked.plan)))
        elif checks:
            terminal_remedies.print_remedies(found, *_sheet(scratch, asked))
        else:
            verdicts = Counter(check.verdict for check in _asked_for(scratch, asked.what))
            terminal_remedies.print_nothing(verdicts, *_sheet(scratch, asked))

    return [remedy.move for one in found for remedy in one.remedies], tell


def _whole(scratch: Scratch, checks: Sequence[Check], asked: _Asked) -> Found:
    """One change that mends all."""
    from tidestead.trials.together import together  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.trials.whole import whole_design  # noqa: PLC0415 - help and faults come at once: only when it runs

    with waiting.bar("changes") as bar:
        found = whole_design(scratch, checks, _search(asked), _tick(bar))

    def tell() -> None:
        from tidestead.report import remedies_json, terminal_remedies  # noqa: PLC0415 - only where it is shown

        if asked.as_json:
            sys.stdout.write(remedies_json.dump_whole(found, click.format_filename(asked.plan)))
        else:
            terminal_remedies.print_whole(found, *_sheet(scratch, asked))

    return [together(found.moves)] if found.moves else [], tell


def _search(asked: _Asked) -> Search:
    """How it is searched."""
    from tidestead.trials.mending import Search  # noqa: PLC0415 - help and faults come at once: only when it runs
    from tidestead.trials.patience import Patience  # noqa: PLC0415 - help and faults come at once: only when it runs

    return Search(fully=not asked.quick, patience=Patience.of(asked.minutes))


def _tick(bar: waiting.Bar | None) -> Callable[[int, int], None] | None:
    return None if bar is None else partial(bar.show, "mend")


def _sheet(scratch: Scratch, asked: _Asked) -> tuple[System, Console, str]:
    """The units, the console and what was typed, for commands that are proposed."""
    from tidestead.report.terminal import console  # noqa: PLC0415 - only where it is shown

    return asked.units or scratch.loaded.plan.show, console(sys.stdout), asked.typed


def _subjects(what: Sequence[str]) -> list[str]:
    """The subjects that the words are or begin with, in the order of the questions; all that can be answered."""
    from tidestead.trials.mending import built_subjects  # noqa: PLC0415 - help and faults come at once

    named = planfile.subjects([word.split(".", 1)[0] for word in what])
    return [subject for subject in built_subjects() if named is None or subject in named]


def _every_check(scratch: Scratch, what: Sequence[str]) -> list[Check]:
    """All checks of the subjects that the words begin with."""
    return [check for subject in _subjects(what) for check in (scratch.checks(subject) or {}).values()]


def _asked_for(scratch: Scratch, what: Sequence[str]) -> list[Check]:
    """The checks that the words are or begin with."""
    from tidestead.trials.mending import is_under  # noqa: PLC0415 - help and faults come at once

    every = _every_check(scratch, what)
    return [check for check in every if not what or any(is_under(check.id, word) for word in what)]


def _must_be_known(scratch: Scratch, what: Sequence[str]) -> None:
    """Refuse a word that no check's id is or begins with, and name the nearest."""
    from tidestead.trials.mending import is_under  # noqa: PLC0415 - help and faults come at once

    for word in (one for one in what if "." in one):
        ids = [check.id for check in _every_check(scratch, [word])]
        if not any(is_under(one, word) for one in ids):
            near = difflib.get_close_matches(word, ids, 1, 0.5)
            advice = (
                f'Did you mean "{near[0]}"?'
                if near
                else f"Its subject has {len(ids)} checks: see --json of ask."
            )
            raise ending.WrongInputError(f'"{word}" is no check of this plan.', advice)
