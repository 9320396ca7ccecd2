"""How long a search may go on: to its end, or for so many minutes, after which what is found so far is told."""

from __future__ import annotations

import math
import time
from dataclasses import dataclass


@dataclass(frozen=True)
class Patience:
    """The moments, on the clock that never goes back (s), from which and until which a search goes on."""

    begun: float = -math.inf
    ends: float = math.inf

    @classmethod
    def of(cls, minutes: float | None) -> Patience:
        """So many minutes from now on; without end where there are none."""
        now = time.monotonic()
        return cls() if minutes is None else cls(now, now + 60.0 * minutes)

    @property
    def over(self) -> bool:
        """Whether the time has run out."""
        return time.monotonic() >= self.ends

    @property
    def minutes(self) -> float:
        """How long it is in all."""
        return (self.ends - self.begun) / 60.0

    def first(self, share: float) -> Patience:
        """The first share of it, from 0 to 1."""
        return (
            self
            if math.isinf(self.ends)
            else Patience(self.begun, self.begun + share * (self.ends - self.begun))
        )


ENDLESS = Patience()
