"""What was mended or is odd, counted while it is done and told once, in whole sentences."""

from __future__ import annotations

_OF_ONE = {"hours": "hour", "were": "was", "stand": "stands", "their": "its"}
"""How a sentence of many speaks of one."""


class Notes:
    """Sentences in the order in which they first came up; a counted one says how often, and where first."""

    def __init__(self) -> None:
        self._said: dict[str, str] = {}
        self._counts: dict[str, int] = {}
        self._places: dict[str, str] = {}

    def say(self, sentence: str) -> None:
        """One sentence, once."""
        self._said.setdefault(sentence, "")

    def count(self, words: str, times: int, where: str = "") -> None:
        """Words that follow a number, such as "hours had ...", and the place of the first."""
        if times > 0:
            self._said.setdefault(words, "counted")
            self._counts[words] = self._counts.get(words, 0) + int(times)
            self._places.setdefault(words, where)

    def sentences(self) -> tuple[str, ...]:
        return tuple(self._counted(words) if kind else words for words, kind in self._said.items())

    def _counted(self, words: str) -> str:
        place = f" (first: {self._places[words]})" if self._places[words] else ""
        number = self._counts[words]
        if number == 1:
            words = " ".join(_OF_ONE.get(word, word) for word in words.split(" "))
        return f"{number:,} {words}{place}."
