"""What a pure function gave is kept, so that an edit works out anew only what hangs on it.

    @kept(at_most=32)
    def pushed(wall: WallPlace, depth: Metre) -> Push: ...

What may be kept: the result of a function that reads nothing but its arguments, and that nobody changes afterwards
(frozen dataclasses, tuples, arrays set to be read only). Everything the function reads must be in its key. Each
function keeps at most so many results and drops the one that was asked for longest ago. A call that raises keeps
nothing.
"""

from __future__ import annotations

from collections import OrderedDict
from collections.abc import Callable, Hashable
from functools import update_wrapper
from threading import Lock
from typing import Generic, ParamSpec, TypeVar

Arguments = ParamSpec("Arguments")
Result = TypeVar("Result")
Key = Callable[..., Hashable]
"""Takes what the function takes."""

_FORGETTING: list[Callable[[], None]] = []
_GROWING: list[Callable[[int], None]] = []


def kept(
    at_most: int, by: Key | None = None
) -> Callable[[Callable[Arguments, Result]], Kept[Arguments, Result]]:
    """A function at the top of a module that keeps what it gave, `at_most` results of it.

    Without `by` the arguments are the key, so that each must be hashable; equal arguments count as the same (0.0 and
    -0.0, 1 and 1.0). `by` is called with the arguments and gives the key, where they are not hashable or where the
    function reads only a part of them.
    """
    return lambda function: Kept(function, at_most, by)


def forget() -> None:
    """Everything kept is dropped. No result hangs on whether this is called; memory and time do."""
    for forgetting in _FORGETTING:
        forgetting()


def keep_more(times: int) -> None:
    """Every function keeps so many times what it kept at most: for a process that goes through a grid of plans."""
    for growing in _GROWING:
        growing(times)


class Kept(Generic[Arguments, Result]):
    """A function with what it gave. Safe to call from several threads, of which two may work out the same at once."""

    def __init__(self, function: Callable[Arguments, Result], at_most: int, by: Key | None = None) -> None:
        self._function, self._at_most, self._by = function, at_most, by
        self._given: OrderedDict[Hashable, Result] = OrderedDict()
        self._lock = Lock()
        update_wrapper(self, function)
        _FORGETTING.append(self.forget)
        _GROWING.append(self.grow)

    def __call__(self, *args: Arguments.args, **kwargs: Arguments.kwargs) -> Result:
        key = self._by(*args, **kwargs) if self._by is not None else (args, tuple(sorted(kwargs.items())))
        with self._lock:
            if key in self._given:
                self._given.move_to_end(key)
                return self._given[key]
        result = self._function(*args, **kwargs)
        with self._lock:
            self._given[key] = result
            while len(self._given) > self._at_most:
                self._given.popitem(last=False)
        return result

    def __len__(self) -> int:
        """How many results are kept now."""
        return len(self._given)

    def forget(self) -> None:
        """What was kept is dropped."""
        with self._lock:
            self._given.clear()

    def grow(self, times: int) -> None:
        """So many times the results may be kept from now on."""
        with self._lock:
            self._at_most *= times
