"""The work of the process that searches for remedies: what it finds first is told at once, prices and effects later."""

from __future__ import annotations

import os
import signal
import threading
from collections.abc import Mapping, Sequence
from dataclasses import replace
from multiprocessing.connection import Connection
from typing import TYPE_CHECKING

from tidestead.core.errors import TidesteadError
from tidestead.core.threads import one_for_matrices
from tidestead.web.seeker import Quest, Stage, Word

if TYPE_CHECKING:
    from tidestead.core.answer import Answer, Check
    from tidestead.plan import LoadedPlan
    from tidestead.trials.mending import Search
    from tidestead.trials.remedy import Mended, Priced, Whole
    from tidestead.trials.scratch import Scratch

_MINUTES = 20.0
"""After so long what is found for the whole is told; asked again, the search goes on from there. Own choice."""
_PATIENCE = 15
"""Steps down in priority, of the nineteen there are."""


class _Superseded(Exception):
    """Something else is sought by now."""


class _Nothing(TidesteadError):
    """There is nothing to mend."""


def seek(pipe: Connection) -> None:
    """Search until the other end is closed. Ctrl-C is for the process that started this one."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    if hasattr(os, "nice"):
        os.nice(_PATIENCE)
    one_for_matrices()
    try:
        _Search(pipe).serve()
    except (EOFError, OSError):
        return  # the page has ended


class _Search:
    """The quest that waits, and what is known of its plan. A thread of its own always reads the pipe."""

    def __init__(self, pipe: Connection) -> None:
        self._pipe = pipe
        self._waiting: list[Quest] = []
        self._news = threading.Condition()
        self._scratch: Scratch | None = None
        self._prices: dict[str, Priced | None] = {}
        self._priced = 0
        self._number = 0

    def serve(self) -> None:
        """Quest after quest, the newest only."""
        threading.Thread(target=self._read, daemon=True).start()
        while True:
            with self._news:
                while not self._waiting:
                    self._news.wait()
                quest = self._waiting[-1]
                self._waiting.clear()
            try:
                self._seek(quest)
            except _Superseded:
                continue
            except Exception as error:  # a search that breaks is told; the next may go well
                kind = "" if isinstance(error, TidesteadError) else f"{type(error).__name__}: "
                self._tell("fault", words=f"{kind}{error}"[:300])

    def _read(self) -> None:
        while True:
            try:
                quest: Quest = self._pipe.recv()
            except (EOFError, OSError):
                os._exit(0)  # nobody is left who waits
            with self._news:
                self._waiting.append(quest)
                self._news.notify()

    def _seek(self, quest: Quest) -> None:
        from tidestead.trials import mending  # noqa: PLC0415 - the page's own process never needs it
        from tidestead.trials.scratch import Scratch  # noqa: PLC0415 - the page's own process never needs it

        self._number, self._priced = quest.number, 0
        self._tell("begun")
        if self._scratch is None or self._scratch.loaded.text != quest.loaded.text:
            self._scratch, self._prices = Scratch.resumed(quest.loaded, self._ask), {}
        priced = mending.Search(price=self._price, workers=1)
        if quest.check:
            self._mend(self._scratch, quest.check, priced)
        else:
            self._whole(self._scratch, priced)

    def _mend(self, scratch: Scratch, wanted: str, priced: Search) -> None:
        """What mends one check: first by itself, then with its price and with what else it moves."""
        from tidestead.trials.mending import mended  # noqa: PLC0415 - the page's own process never needs it

        check = self._check(scratch, wanted)
        bare = replace(priced, price=lambda _: None, fully=False)
        found = mended(scratch, [check], bare, self._tick)[0]
        if found.remedies:
            self._tell("pricing", found=found)
            found = mended(scratch, [check], priced)[0]
        self._tell("done", found=found)

    def _whole(self, scratch: Scratch, priced: Search) -> None:
        """What makes everything sound together."""
        from tidestead.trials import mending  # noqa: PLC0415 - the page's own process never needs it
        from tidestead.trials.patience import Patience  # noqa: PLC0415 - the page's own process never needs it
        from tidestead.trials.whole import whole_design  # noqa: PLC0415 - the page's own process never needs it

        checks = mending.checks_to_mend(scratch, mending.built_subjects())
        if not checks:
            raise _Nothing("Nothing fails or is near by now.")
        bounded = replace(priced, patience=Patience.of(_MINUTES))
        self._tell("done", found=whole_design(scratch, checks, bounded, self._tick))

    def _check(self, scratch: Scratch, wanted: str) -> Check:
        from tidestead.core.answer import Verdict  # noqa: PLC0415 - beside the types above
        from tidestead.trials.searching import subject_of  # noqa: PLC0415 - the page's own process never needs it

        check = (scratch.checks(subject_of(wanted)) or {}).get(wanted)
        if check is None or check.verdict not in (Verdict.FAILS, Verdict.NEAR):
            raise _Nothing("This check neither fails nor is near by now.")
        return check

    def _ask(self, loaded: LoadedPlan, subjects: Sequence[str]) -> Mapping[str, Answer]:
        """The desk, left where something else is sought."""
        from tidestead import desk  # noqa: PLC0415 - the page's own process never needs it

        self._give_way()
        return desk.answer(loaded, subjects, within=lambda *_: self._give_way())

    def _price(self, loaded: LoadedPlan) -> Priced | None:
        """What a plan costs, worked out once."""
        from tidestead.trials.pricing import price_of  # noqa: PLC0415 - the page's own process never needs it

        self._give_way()
        if loaded.text not in self._prices:
            self._prices[loaded.text] = price_of(loaded)
            self._priced += 1
            self._tell("pricing", done=self._priced)
        return self._prices[loaded.text]

    def _give_way(self) -> None:
        if self._waiting:
            raise _Superseded

    def _tick(self, done: int, of: int) -> None:
        self._give_way()
        self._tell("trying", done=done, of=of)

    def _tell(
        self,
        stage: Stage,
        *,
        done: int = 0,
        of: int = 0,
        found: Mended | Whole | None = None,
        words: str = "",
    ) -> None:
        self._pipe.send(Word(self._number, stage, done, of, found, words))
