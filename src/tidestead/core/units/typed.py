"""Text as it was typed: made plain, or refused before anything costly looks at it."""

from __future__ import annotations

import re
import unicodedata

from tidestead.core.errors import QuantityError

LONGEST = 60
"""Characters in one typed quantity."""
SHOWN = 40
"""Characters of it that an error repeats."""

FRACTIONS = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5", "⅗": "3/5",
    "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip
"""Half signs and their like, as typed fractions."""
POWERS = {"²": "2", "³": "3", "⁴": "4"}
PLAIN = {
    **dict.fromkeys("\t\u00a0\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000", " "),
    **dict.fromkeys("′’‘", "'"),
    **dict.fromkeys("″”“", '"'),
    **dict.fromkeys("−–‐‑", "-"),
    **dict.fromkeys("μ", "µ"),
    **dict.fromkeys("º˚", "°"),
    **dict.fromkeys("·⋅", " "),
    "⁄": "/",
    "×": "x",
    "Ω": "Ω",
    "℃": "°C",
    "℉": "°F",
}
"""Typographic forms of one sign: spaces, primes and quotes, dashes, both micro signs, degree signs."""

_ALLOWED = frozenset("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 .,/'\"-()°%‰µΩ")
_OPERATORS = frozenset("*+=<>^!&|~\\")


def excerpt(text: object) -> str:
    """What was typed, in quotes: printable characters only, and no more than forty of them."""
    whole = text if isinstance(text, str) else type(text).__name__
    shown = "".join(ch if ch.isprintable() and not unicodedata.combining(ch) else "?" for ch in whole[:SHOWN])
    return f'"{shown}…"' if len(whole) > SHOWN else f'"{shown}"'


def as_text(text: object) -> str:
    """What was typed as text; a plain number in the file counts as its digits."""
    if isinstance(text, str):
        return text
    if isinstance(text, float) or (
        isinstance(text, int) and not isinstance(text, bool) and abs(text) < 10**LONGEST
    ):
        return repr(text).replace("e+", "e")
    raise QuantityError(
        excerpt(text), "is not a quantity.", 'Write a number and its unit in quotes: "24 in".'
    )


def plain(text: str, longest: int = LONGEST) -> str:
    """Typed text in plain characters with single spaces. Raises `QuantityError` for what cannot be read."""
    if len(text) > longest:
        raise QuantityError(
            excerpt(text),
            f"is {len(text)} characters long; a quantity has at most {longest}.",
            "Write it shorter.",
        )
    signs: list[str] = []
    for ch in text:
        signs.append(_plain_sign(ch, signs, text))
    return " ".join("".join(signs).split())


def _plain_sign(ch: str, before: list[str], text: str) -> str:
    """One character made plain; a half sign becomes a fraction, a small 2 after a letter a power."""
    if ch in _ALLOWED:
        return ch
    if ch in PLAIN:
        return PLAIN[ch]
    last = before[-1][-1:] if before else ""
    if ch in FRACTIONS:
        return (" " if last.isdigit() else "") + FRACTIONS[ch]
    if ch in POWERS and last.isalpha():
        return POWERS[ch]
    if ch == "^" and last.isalpha():
        return ""
    raise QuantityError(excerpt(text), *_why_not(ch))


_CODE = re.compile(r"-[0-9a-f]{4,6}$")
"""What the names of characters by the thousand end in."""


def _why_not(ch: str) -> tuple[str, str]:
    """What is wrong with a character, and what to do."""
    name = _CODE.sub("", unicodedata.name(ch, f"character number {ord(ch)}").lower())
    if ch in _OPERATORS:
        return f'holds "{ch}"; no sums are worked out here.', "Write the result with its unit."
    if ch in "$€£¥":
        return f'holds "{ch}".', 'Money is written with its three-letter code, such as "18 EUR/sheet".'
    if unicodedata.category(ch) == "Nd" or ch.isdigit():
        return f"holds a digit that is not one of 0 to 9 ({name}).", "Type it with the digits 0 to 9."
    if not ch.isprintable():
        return f"holds a character that cannot be seen ({name}).", "Type it again without it."
    return (
        f'holds "{ch}" ({name}), which is part of no number or unit known here.',
        "Type it again without it.",
    )
