"""Short names of parts, each once in the whole plan: "reef N1" is the first piece of the reef's north wall."""

from __future__ import annotations

from collections import Counter


class Marks:
    """Marks of one vessel, counted up by what they begin with. Vessels have names of their own, so marks have too."""

    def __init__(self, vessel: str) -> None:
        self._vessel = vessel
        self._given: Counter[str] = Counter()

    def following(self, letters: str) -> str:
        """The following mark that begins with these letters."""
        self._given[letters] += 1
        return f"{self._vessel} {letters}{self._given[letters]}"
