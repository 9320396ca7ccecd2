"""The commands, and how each end of one becomes an exit code."""

from __future__ import annotations

import difflib
import sys

import click

from tidestead import __version__
from tidestead.cli import ending
from tidestead.cli.ask import ask
from tidestead.cli.demo import demo
from tidestead.cli.export import export
from tidestead.cli.mend import mend
from tidestead.cli.new import new
from tidestead.cli.open import open_page
from tidestead.cli.vary import vary


class Commands(click.Group):
    """The commands in the order a new user meets them."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        del ctx
        return list(self.commands)

    def resolve_command(
        self, ctx: click.Context, args: list[str]
    ) -> tuple[str | None, click.Command | None, list[str]]:
        if args and args[0] not in self.commands and not args[0].startswith("-"):
            near = difflib.get_close_matches(args[0], self.commands, 1, 0.5)
            advice = f'Did you mean "{near[0]}"?' if near else f"Commands: {', '.join(self.commands)}."
            raise ending.WrongInputError(f'"{args[0]}" is not a command.', advice)
        return super().resolve_command(ctx, args)


@click.group(cls=Commands, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, message="tidestead %(version)s")
@click.option("--debug", is_flag=True, help="Show where in the program a fault of ours happened.")
def tidestead(debug: bool) -> None:
    """Decide, prove and look after a large seawater aquarium that you build yourself.

    One plan file describes the system; every answer is computed from it, with working and sources.
    Start with: tidestead demo
    """
    del debug


for command in (demo, new, open_page, ask, mend, vary, export):
    tidestead.add_command(command)


def run(args: list[str]) -> int:
    """Run the command and return its exit code."""
    debug = "--debug" in args or ending.wants_debug()
    args = [arg for arg in args if arg != "--debug"]
    try:
        code = _invoke(args or ["--help"])
        sys.stdout.flush()
    except BrokenPipeError:
        code = ending.DONE
    except click.UsageError as error:
        code = ending.say_wrong(_usage(error))
    except click.ClickException as error:
        code = ending.say_wrong(error.format_message())
    except ending.WrongInputError as error:
        code = ending.say_wrong(str(error))
    except Exception as error:  # every other exception is a fault of ours, and is told as one
        code = ending.say_our_fault(error, debug)
    ending.close_quietly()
    return code


def _invoke(args: list[str]) -> int:
    try:
        with tidestead.make_context("tidestead", args) as context:
            code = tidestead.invoke(context)
    except click.exceptions.Exit as end:
        return end.exit_code
    except click.Abort as end:
        raise KeyboardInterrupt from end
    return code if isinstance(code, int) else ending.DONE


def _usage(error: click.UsageError) -> str:
    """What is wrong with the command, and how it is written."""
    usage = f"\n{error.ctx.get_usage()}" if error.ctx else ""
    return f"{error.format_message()}{usage}"
