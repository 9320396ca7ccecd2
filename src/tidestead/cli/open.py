"""tidestead open: the page of a plan, in the browser."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import click

from tidestead.cli import ending, planfile
from tidestead.cli.ask import units_option
from tidestead.core.errors import TidesteadError

if TYPE_CHECKING:
    from tidestead.core.units import System

OPEN_TO_ALL = (
    "Everyone who can reach this machine under that address can read and change the plan. "
    "Use it in a network you trust, never on the open internet."
)


@click.command("open", short_help="Show a plan as a page in the browser.")
@click.argument("plan")
@click.option(
    "--port", type=click.IntRange(1, 65535), help="Where to serve the page; the first free from 8340 on."
)
@click.option("--no-browser", is_flag=True, help="Print the address only.")
@click.option(
    "--listen",
    default="127.0.0.1",
    show_default=True,
    metavar="ADDRESS",
    help="Which address of this machine to serve.",
)
@units_option
def open_page(plan: str, port: int | None, no_browser: bool, listen: str, units: System | None) -> int:
    """Show PLAN as a page in the browser, on this machine only unless told otherwise. Ctrl-C ends it."""
    path = planfile.found(plan)
    return show(path, port=port, browser=not no_browser, listen=listen, units=units)


def show(
    path: Path,
    *,
    port: int | None = None,
    browser: bool = True,
    listen: str = "127.0.0.1",
    units: System | None = None,
) -> int:
    """Serve the page of a plan until Ctrl-C."""
    from tidestead.web.serving import PortError, serve  # noqa: PLC0415 - help and faults come at once: only when it runs

    if listen not in ("127.0.0.1", "localhost", "::1"):
        click.echo(OPEN_TO_ALL, err=True)
    try:
        serve(path, say=_told, port=port, listen=listen, browser=browser, system=units)
    except PortError as error:
        raise ending.WrongInputError("The page cannot be served at", str(error)) from error
    except TidesteadError as error:
        raise ending.WrongInputError(str(error)) from error
    return ending.DONE


def _told(address: str) -> None:
    click.echo(f"The page is at {address}  (Ctrl-C ends it)")
