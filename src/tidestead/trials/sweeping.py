"""All points of a sweep, on all cores. What is done is handed on as it comes."""

from __future__ import annotations

import gc
import multiprocessing
import os
import signal
import time
from collections.abc import Iterator, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, ProcessPoolExecutor, wait
from concurrent.futures.process import BrokenProcessPool

from tidestead.core.errors import TidesteadError
from tidestead.core.kept import keep_more
from tidestead.core.threads import one_for_matrices
from tidestead.trials.known import Row
from tidestead.trials.points import Points

ALONE = 3.0
"""Seconds of work up to which other processes are not worth their start."""
_TRIED = 3
"""Points worked out here first, to see how long one takes."""
_AT_ONCE = 1.0
"""Seconds of work handed over at a time: as much is lost when a sweep is stopped."""
_MOST_AT_ONCE = 64
_WAITING = 2
"""Chunks that wait for each process, so that none has to."""
_MORE = 8
"""Times what a process keeps for one plan and its edits: a grid comes back to each value of a key many times."""


_SWEEPS = (50_000, 20, 50)
"""How seldom memory is looked through for what nobody holds: what is kept is held, and there is much of it."""


class SweepError(TidesteadError):
    """A process of a sweep ended before its work was done."""


def swept(points: Points, numbers: Sequence[int], cores: int | None = None) -> Iterator[list[Row]]:
    """The rows of the points of these numbers, a few at a time, in no set order.

    Who stops asking ends the processes; what was handed on is done. The rows do not hang on the number of `cores`.
    """
    begun, seconds = 0, 0.0
    for number in numbers[:_TRIED]:
        start = time.perf_counter()
        row = points.row(number)
        seconds = time.perf_counter() - start
        begun += 1
        yield [row]
    left = numbers[begun:]
    most = min(cores or _cores(), len(left))
    if most < 2 or seconds * len(left) < ALONE:
        for number in left:
            yield [points.row(number)]
        return
    size = max(1, min(_MOST_AT_ONCE, round(_AT_ONCE / max(seconds, 1e-6)), len(left) // (4 * most)))
    chunks = [left[start : start + size] for start in range(0, len(left), size)]
    yield from _side_by_side(points, chunks, most)


def _side_by_side(points: Points, chunks: Sequence[Sequence[int]], cores: int) -> Iterator[list[Row]]:
    before = set(multiprocessing.active_children())
    pool = ProcessPoolExecutor(cores, multiprocessing.get_context("spawn"), _begin, (points,))
    todo = iter(chunks)
    try:
        running: set[Future[list[Row]]] = set()
        while True:
            while len(running) < cores * _WAITING and (chunk := next(todo, None)) is not None:
                running.add(pool.submit(_rows, chunk))
            if not running:
                break
            done, running = wait(running, return_when=FIRST_COMPLETED)
            for future in done:
                yield future.result()
    except BrokenProcessPool as error:
        raise SweepError(
            "a process of the sweep ended before it was done, perhaps for want of memory. What was done is kept: "
            "the same command goes on from there."
        ) from error
    finally:
        pool.shutdown(wait=False, cancel_futures=True)
        for process in set(multiprocessing.active_children()) - before:
            process.terminate()


def _cores() -> int:
    """The cores that this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


_POINTS: list[Points] = []
"""What the points of this process are."""


def _begin(points: Points) -> None:
    """Get a process ready. Ctrl-C is for the one that started it."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    one_for_matrices()
    keep_more(_MORE)
    gc.set_threshold(*_SWEEPS)
    _POINTS[:] = [points]


def _rows(numbers: Sequence[int]) -> list[Row]:
    return [_POINTS[0].row(number) for number in numbers]
