"""tidestead demo: the example plan, copied here, answered and shown as a page."""

from __future__ import annotations

import os
import re
import shlex
import sys
from datetime import date
from importlib import resources
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tidestead.cli import ending, outfile, planfile, waiting
from tidestead.cli.ask import print_text, units_option
from tidestead.cli.open import show

if TYPE_CHECKING:
    from tidestead.core.units import System

EXAMPLE = "packhouse.toml"
CALLED_AS = "TIDESTEAD_CALLED_AS"
"""Set by start.py, where the program is not on the path under its own name."""


@click.command(short_help="Copy the example plan here and show its answers.")
@click.argument("folder", metavar="[DIR]", default=".")
@click.option("--no-page", is_flag=True, help="Answer in the terminal only.")
@click.option("--no-browser", is_flag=True, help="Serve the page and print its address only.")
@click.option(
    "--port", type=click.IntRange(1, 65535), help="Where to serve the page; the first free from 8340 on."
)
@units_option
def demo(folder: str, no_page: bool, no_browser: bool, port: int | None, units: System | None) -> int:
    """Copy the example plan into DIR (here unless told otherwise) and show its answers as a page.

    A file of that name that is there already is used as it stands.
    """
    path = outfile.folder(Path(folder)) / EXAMPLE
    text = example_text(EXAMPLE)
    if outfile.create(path, text):
        click.echo(f"{path} is written: an invented system to look at and to change.\n")
    else:
        click.echo(f"{path} is there already and is used as it stands.\n")
    if not no_page:
        sys.stdout.flush()
        return show(path, port=port, browser=not no_browser, units=units)
    _answer(path, units)
    click.echo(next_steps(path, path.read_text("utf-8")))
    return ending.DONE


def _answer(path: Path, units: System | None) -> None:
    """Every answer in the terminal."""
    from tidestead import desk  # noqa: PLC0415 - help and faults come at once: only when it runs

    desk.keep_on_disk()
    loaded = planfile.read(str(path))
    system = units or loaded.plan.show
    waiting.announce(None)
    with waiting.bar() as shown:
        within = shown.show if shown is not None else None
        answers = desk.answer(loaded, None, system, within=within, as_of=date.today())
    print_text(answers, system, None, str(path))


def example_text(name: str) -> str:
    """An example plan: from the installed package, or from a source checkout."""
    packed = resources.files("tidestead").joinpath("examples", name)
    if packed.is_file():
        return packed.read_text("utf-8")
    checkout = Path(__file__).parents[3] / "examples" / name
    return checkout.read_text("utf-8")


def next_steps(path: Path, text: str) -> str:
    """What to try next: the line of a window's thickness, and the commands."""
    name = shlex.quote(str(path))
    called = os.environ.get(CALLED_AS)
    steps = [
        f"\nTry next, with {called} for tidestead:" if called else "\nTry next:",
        f"  tidestead open {name}                        the page, in your browser",
        f"  tidestead ask {name} structure --working     the formulas, numbers and sources behind it",
        f"  tidestead export {name} --to svg             the drawings",
    ]
    found = _window_thickness(text)
    if found:
        line, written = found
        steps.insert(
            1, f"  Open {name}, line {line} ({written}): give the window another thickness, save, then"
        )
        steps.insert(2, f"  tidestead ask {name} structure               and see what changes")
    return "\n".join(steps)


def _window_thickness(text: str) -> tuple[int, str] | None:
    """The first line that says how thick a window is, with its number."""
    in_window = False
    for number, line in enumerate(text.splitlines(), 1):
        if line.lstrip().startswith("["):
            in_window = ".windows." in line
        elif in_window and re.match(r"\s*thickness\s*=", line):
            return number, line.split("#")[0].strip()
    return None
