"""tidestead new: a plan to start from."""

from __future__ import annotations

import shlex
from pathlib import Path
from typing import TYPE_CHECKING

import click

from tidestead.cli import ending, outfile

if TYPE_CHECKING:
    from tidestead.core.units import System


@click.command(short_help="Write a commented plan to start from.")
@click.argument("plan")
@click.option(
    "--units", type=click.Choice(["metric", "us"]), default="metric", show_default=True, help="Units it uses."
)
def new(plan: str, units: System) -> int:
    """Write a commented starter plan to the file PLAN. A file that is there already is left alone."""
    from tidestead.plan import starter_text  # noqa: PLC0415 - help and faults come at once: only when it runs

    path = Path(plan)
    if not outfile.create(path, starter_text(units)):
        raise ending.WrongInputError(f"{plan} is there already; it was left as it is.", "Give another name.")
    name = shlex.quote(plan)
    click.echo(f"{plan} is written. Next: tidestead open {name}")
    click.echo(f"Or fill in what you know in an editor, then: tidestead ask {name}")
    return ending.DONE
