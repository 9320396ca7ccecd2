"""What an answer is written on in a terminal: a console, a unit system, numbered sources."""

from __future__ import annotations

import codecs
from collections.abc import Iterable
from typing import IO

from rich.console import Console
from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from tidestead.core.answer import Verdict
from tidestead.core.units import System
from tidestead.report import plain
from tidestead.report.glyph import glyph
from tidestead.report.wording import Citations

_NARROWEST = 20

_STYLE = {
    Verdict.SOUND: "#3f8f9b",
    Verdict.NEAR: "bold",
    Verdict.UNPROVEN: "dim",
    Verdict.FAILS: "bold #c8553d",
}


class _Console(Console):
    """A console that leaves it to the command what to do when nobody reads any more."""

    def on_broken_pipe(self) -> None:
        raise BrokenPipeError


def console(stream: IO[str]) -> Console:
    """A console on the stream: plain where it is no terminal, and never stopped by what it cannot encode."""
    reconfigure = getattr(stream, "reconfigure", None)
    if reconfigure is not None:
        reconfigure(errors=plain.HANDLER)
    made = _Console(file=stream, highlight=False, markup=False, emoji=False)
    made.width = max(made.width, _NARROWEST)
    return made


def draws_blocks(target: Console) -> bool:
    """Whether the console's encoding has the characters the signs and rules are drawn with."""
    try:
        "▕▇▏┆─█".encode(codecs.lookup(target.encoding).name)
    except (UnicodeEncodeError, LookupError):
        return False
    return True


class Sheet:
    """One answer on one console, with its sources numbered as they are met."""

    def __init__(self, target: Console, system: System, plan: str = "PLAN") -> None:
        self.target, self.system, self.plan = target, system, plan
        self.blocks = draws_blocks(target)
        self.citations = Citations()

    def say(self, text: str) -> str:
        """The text as this console can show it."""
        return plain.clean(text) if self.blocks else plain.ascii_text(plain.clean(text))

    def sign(self, verdict: Verdict, use: float | None) -> Text:
        """The sign of a verdict and its word."""
        return Text(f"{glyph(verdict, use, not self.blocks)} {verdict.value}", _STYLE[verdict])

    def heading(self, words: str) -> None:
        """A line across, with the words at its start."""
        line = "─" if self.blocks else "-"
        self.target.rule(Text(self.say(words), "bold"), align="left", characters=line, style="dim")

    def section(self, title: str) -> None:
        """The head of a part, after an empty line."""
        self.target.print()
        self.target.print(Text(self.say(title), "bold"))

    def paragraph(self, text: str, indent: int = 2) -> None:
        """Words, wrapped under themselves; nothing for no words."""
        if text:
            self.target.print(Padding(Text(self.say(text)), (0, 0, 0, indent), expand=False))

    def item(self, mark: str, line: str) -> None:
        """A mark, and beside it the words, wrapped under themselves."""
        grid = Table.grid(padding=0)
        grid.add_column(no_wrap=True)
        grid.add_column(overflow="fold")
        grid.add_row(Text(mark), Text(self.say(line)))
        self.target.print(Padding(grid, (0, 0, 0, 2), expand=False))

    def bullets(self, title: str, lines: Iterable[str]) -> None:
        """A part that is a list; nothing at all for an empty one."""
        lines = [line for line in lines if line]
        if not lines:
            return
        self.section(title)
        for line in lines:
            self.item("- ", line)
