"""What to write in place of a value that is refused: only what would be taken there."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Iterator

Takes = Callable[[str], bool]

MOST_OFFERED = 3
_SENTENCE = re.compile(r"(?<=[.?]) (?=[A-Z])")
_TO_WRITE = re.compile(r'Write (?!one of)[^"]{0,40}"')
QUOTED = re.compile(r'"([^"]*)"')
_LIST = re.compile(r'(Write (?:it like |such as )?)"[^"]*"(?:(?:, | or )"[^"]*")*\.')


def listed(texts: Iterable[str]) -> str:
    """Texts to copy, each in quotes: "1.2 m" or "4 ft 6 in"."""
    return " or ".join(f'"{text}"' for text in texts)


def like(examples: tuple[str, ...]) -> str:
    """The advice to write it like one of these."""
    return f"Write it like {listed(examples[:MOST_OFFERED])}."


def taken_only(advice: str, takes: Takes, examples: tuple[str, ...]) -> str:
    """An advice without what would be refused in its turn; the examples stand in its place."""
    told = (_checked(sentence, takes, examples) for sentence in _SENTENCE.split(advice) if sentence)
    return " ".join(dict.fromkeys(told))


def _checked(sentence: str, takes: Takes, examples: tuple[str, ...]) -> str:
    if not _TO_WRITE.match(sentence):
        return sentence
    quoted = QUOTED.findall(sentence)
    good = [text for text in quoted if takes(text)]
    if len(good) == len(quoted):
        return sentence
    whole = _LIST.fullmatch(sentence)
    return f"{whole[1]}{listed(good)}." if good and whole else like(examples)


def with_units(words: str, bare: str, symbols: Iterable[str]) -> Iterator[str]:
    """Words with a unit put behind a number in them that has none."""
    for symbol in symbols:
        for found in re.finditer(rf"(?<![\w.]){re.escape(bare)}(?![\w.])", words):
            yield f"{words[: found.end()]} {symbol}{words[found.end() :]}"
