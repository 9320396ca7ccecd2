"""Climbing ladders over the cores of a machine, in processes of their own; in this one where there is little to do."""

from __future__ import annotations

import multiprocessing
import os
import signal
from collections.abc import Callable, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from dataclasses import dataclass
from typing import TypeAlias

from tidestead.core.answer import Check
from tidestead.core.threads import one_for_matrices
from tidestead.plan import LoadedPlan
from tidestead.trials.remedy import Ladder, Move
from tidestead.trials.scratch import Checks, Scratch
from tidestead.trials.searching import Climbed, climbed, subject_of

Tick = Callable[[int, int], None]
"""Called with how many of how many parts of the work are done."""

WORTH_IT = 24
"""Tasks from which on other processes are started, each of which must read the plan and answer it first."""


@dataclass(frozen=True)
class Task:
    """One ladder to climb for one check, with a change that leads it where there is one."""

    check: Check
    ladder: Ladder
    lead: Move | None = None


def climb_all(
    scratch: Scratch, tasks: Sequence[Task], tick: Tick | None = None, workers: int | None = None
) -> list[Climbed]:
    """What each task came to, in their order, however many processes worked at them."""
    workers = workers or (os.cpu_count() or 1)
    if workers > 1 and len(tasks) >= WORTH_IT:
        back = _in_processes(scratch.loaded, tasks, tick, workers)
        for _, answered in back:
            scratch.known |= answered
        return [got for got, _ in back]
    found = []
    for done, task in enumerate(tasks, start=1):
        found.append(climbed(scratch, task.check, task.ladder, task.lead))
        if tick is not None:
            tick(done, len(tasks))
    return found


Back: TypeAlias = tuple[Climbed, dict[tuple[str, str], Checks]]

_MINE: list[Scratch] = []
"""The scratch copy of a process that climbs for another."""


def _begin(loaded: LoadedPlan) -> None:
    """A process of ours begins. Ctrl-C is for the one that started it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    one_for_matrices()
    _MINE[:] = [Scratch(loaded)]


def _climb(task: Task) -> Back:
    """What a task came to, with the answer to its best rung, so that it need not be asked again."""
    scratch = _MINE[0]
    got = climbed(scratch, task.check, task.ladder, task.lead)
    subject = subject_of(task.check.id)
    plan = None if got.best is None else scratch.with_edits(got.best.move.edits)
    return got, {} if plan is None else scratch.answered(plan, subject)


def _in_processes(loaded: LoadedPlan, tasks: Sequence[Task], tick: Tick | None, workers: int) -> list[Back]:
    context = multiprocessing.get_context("spawn")
    before = multiprocessing.active_children()
    crew = ProcessPoolExecutor(workers, context, initializer=_begin, initargs=(loaded,))
    try:
        futures = [crew.submit(_climb, task) for task in tasks]
        left: set[Future[Back]] = set(futures)
        while left:
            _, left = wait(left, return_when=FIRST_COMPLETED)
            if tick is not None:
                tick(len(tasks) - len(left), len(tasks))
        return [future.result() for future in futures]
    except BaseException:  # Ctrl-C too: nobody waits for what is at work
        for child in multiprocessing.active_children():
            if child not in before:
                child.terminate()
        raise
    finally:
        crew.shutdown(wait=False, cancel_futures=True)
