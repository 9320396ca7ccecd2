"""Climbing ladders over the cores of a machine, in processes of their own; in this one where there is little to do."""

from __future__ import annotations

import multiprocessing
import os
import signal
import threading
from collections.abc import Callable, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from dataclasses import dataclass
from typing import TypeAlias, TypeVar

from tidestead import desk
from tidestead.core.answer import Check
from tidestead.core.kept import keep_more
from tidestead.core.threads import one_for_matrices
from tidestead.plan import LoadedPlan
from tidestead.plan.edits import Edit
from tidestead.trials.answered import Key, States
from tidestead.trials.patience import ENDLESS, Patience
from tidestead.trials.remedy import Ladder, Move, Priced
from tidestead.trials.scratch import Scratch, touched
from tidestead.trials.searching import TOO_SLOW, Climbed, climbed, subject_of

Tick = Callable[[int, int], None]
"""Called with how many of how many parts of the work are done."""

T = TypeVar("T")
W = TypeVar("W")
Edits: TypeAlias = tuple[Edit, ...]

WORTH_IT = 24
"""Tasks from which on other processes are started, each of which must read the plan and answer it first."""
WORTH_ASKING = 4
"""Changes to be worked out in full from which on they are."""
_LOOK = 1.0
"""Seconds after which it is looked whether the time has run out."""


@dataclass(frozen=True)
class Task:
    """One ladder to climb for one check, with a change that leads it where there is one."""

    check: Check
    ladder: Ladder
    lead: Move | None = None


def climb_all(
    scratch: Scratch,
    tasks: Sequence[Task],
    tick: Tick | None = None,
    workers: int | None = None,
    patience: Patience = ENDLESS,
) -> list[Climbed]:
    """What each task came to, in their order, however many processes worked at them.

    Tasks of subjects that are quick to ask are begun first; what is not begun when the time has run out is cut.
    """
    workers = workers or (os.cpu_count() or 1)
    order = sorted(range(len(tasks)), key=lambda at: subject_of(tasks[at].check.id) in TOO_SLOW)
    items = [tasks[at] for at in order]
    if workers > 1 and len(tasks) >= WORTH_IT:
        found = _in_processes(scratch, _climb, items, tick, workers, patience)
    else:
        found = _here(lambda one: climbed(scratch, one.check, one.ladder, one.lead), items, tick, patience)
    by_task = dict(zip(order, found, strict=True))
    return [by_task[at] or Climbed(None, 0, cut=True) for at in range(len(tasks))]


def ask_ahead(
    scratch: Scratch,
    changes: Sequence[Edits],
    tick: Tick | None = None,
    workers: int | None = None,
    patience: Patience = ENDLESS,
) -> None:
    """Answer every subject that each of these changes touches, and price it, so that telling it asks nothing more."""
    todo = [edits for edits in {repr(one): one for one in changes}.values() if not is_told(scratch, edits)]
    workers = workers or (os.cpu_count() or 1)
    if workers > 1 and len(todo) >= WORTH_ASKING:
        _in_processes(scratch, _ask, todo, tick, workers, patience)
    else:
        _here(lambda edits: _ask_all(scratch, edits), todo, tick, patience)


def _here(
    work: Callable[[W], T], items: Sequence[W], tick: Tick | None, patience: Patience
) -> list[T | None]:
    """What each item came to, worked at in this process; None from where the time has run out."""
    found: list[T | None] = []
    for done, item in enumerate(items, start=1):
        found.append(None if patience.over else work(item))
        if tick is not None:
            tick(done, len(items))
    return found


def is_told(scratch: Scratch, edits: Edits) -> bool:
    """Whether every subject that these edits touch is answered, and their price known."""
    priced = scratch.plan_for("cost", edits)
    if priced is None:
        return True  # it makes no plan: there is nothing to ask
    plans = ((subject, scratch.plan_for(subject, edits) or priced) for subject in touched(edits))
    asked = all(scratch.key(plan, subject) in scratch.known for subject, plan in plans)
    return asked and scratch.key(priced, "cost")[0] in scratch.prices


def _ask_all(scratch: Scratch, edits: Edits) -> None:
    for subject in touched(edits):
        scratch.states(subject, edits)
    scratch.price(edits)


Found: TypeAlias = tuple[T, dict[Key, States | None], dict[str, Priced | None]]
"""What a process made, and all that it learned on the way."""

_MORE = 4
"""Times as much is kept of what studies work out: a search goes to and fro between plans that are much alike."""

_MINE: list[Scratch] = []
"""The scratch copy of a process that works for another."""


def _begin(loaded: LoadedPlan, known: dict[Key, States | None]) -> None:
    """A process of ours begins. Ctrl-C is for the one that started it, and with it this one ends."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()
    one_for_matrices()
    keep_more(_MORE)
    desk.keep_on_disk(keeps=False)
    _MINE[:] = [Scratch(loaded, known=known)]


def _end_with_parent() -> None:
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(0)  # nobody is left who waits


def _climb(task: Task) -> Found[Climbed]:
    """What a task came to."""
    return _learned(lambda scratch: climbed(scratch, task.check, task.ladder, task.lead))


def _ask(edits: Edits) -> Found[None]:
    """Nothing but what was learned."""
    return _learned(lambda scratch: _ask_all(scratch, edits))


def _learned(work: Callable[[Scratch], T]) -> Found[T]:
    scratch = _MINE[0]
    known, prices = set(scratch.known), set(scratch.prices)
    made = work(scratch)
    return (
        made,
        {key: states for key, states in scratch.known.items() if key not in known},
        {key: price for key, price in scratch.prices.items() if key not in prices},
    )


def _in_processes(
    scratch: Scratch,
    work: Callable[[W], Found[T]],
    items: Sequence[W],
    tick: Tick | None,
    workers: int,
    patience: Patience,
) -> list[T | None]:
    """What each item came to, None where the time ran out before; all that was learned is taken over as it comes."""
    context = multiprocessing.get_context("spawn")
    before = multiprocessing.active_children()
    begun = (scratch.loaded, dict(scratch.known))
    crew = ProcessPoolExecutor(workers, context, initializer=_begin, initargs=begun)
    try:
        futures = [crew.submit(work, item) for item in items]
        left: set[Future[Found[T]]] = set(futures)
        while left:
            ready, left = wait(left, timeout=_LOOK, return_when=FIRST_COMPLETED)
            for one in ready:
                if not one.cancelled():
                    scratch.learn(*one.result()[1:])
            if tick is not None:
                tick(len(items) - len(left), len(items))
            if patience.over:
                for one in left:
                    one.cancel()
        return [None if future.cancelled() else future.result()[0] for future in futures]
    except BaseException:  # Ctrl-C too: nobody waits for what is at work
        for child in multiprocessing.active_children():
            if child not in before:
                child.terminate()
        raise
    finally:
        crew.shutdown(wait=False, cancel_futures=True)
