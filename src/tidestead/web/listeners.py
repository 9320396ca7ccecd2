"""Who listens to the news of a bench: one queue for each page that is open."""

from __future__ import annotations

import asyncio
from typing import Any

from tidestead.core.errors import TidesteadError

_TOO_MANY = 64
"""Pages that listen at once, and news that wait for one of them."""


class TooManyPages(TidesteadError):
    """More pages listen than one person has open."""


class Listeners:
    """The queues of the pages that are open."""

    def __init__(self) -> None:
        self._queues: set[asyncio.Queue[dict[str, Any]]] = set()
        self.told = 0
        """News told so far: a page that was made before some of it was told is not up to date."""

    def add(self) -> asyncio.Queue[dict[str, Any]]:
        """A queue that hears of everything from now on. Raises TooManyPages where too many listen already."""
        if len(self._queues) >= _TOO_MANY:
            raise TooManyPages("Too many pages are open on this plan. Close some.")
        queue: asyncio.Queue[dict[str, Any]] = asyncio.Queue(_TOO_MANY * 8)
        self._queues.add(queue)
        return queue

    def leave(self, queue: asyncio.Queue[dict[str, Any]]) -> None:
        """Hear no more."""
        self._queues.discard(queue)

    def is_in(self, queue: asyncio.Queue[dict[str, Any]]) -> bool:
        """Whether a queue hears of what comes."""
        return queue in self._queues

    def tell(self, event: dict[str, Any]) -> None:
        """Tell every page. One that does not listen any more is dropped; it reads all anew when it comes back."""
        self.told += 1
        for queue in list(self._queues):
            try:
                queue.put_nowait(event)
            except asyncio.QueueFull:
                self._queues.discard(queue)
