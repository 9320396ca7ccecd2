"""Words made safe for the place they go: no hidden control characters, and ASCII where nothing else shows."""

from __future__ import annotations

import codecs
import unicodedata

HANDLER = "tidestead-plain"
"""Name of the codec error handler that writes the nearest ASCII for what an encoding lacks."""

_NEAREST = {
    "°": " deg ",
    "²": "2",
    "³": "3",
    "⁴": "4",
    "×": "x",
    "·": "*",
    "µ": "u",
    "μ": "u",
    "½": " 1/2",
    "¼": " 1/4",
    "¾": " 3/4",
    "‰": " per mille",
    "≤": "<=",
    "≥": ">=",
    "≈": "~",
    "√": "sqrt",
    "π": "pi",
    "σ": "sigma",
    "τ": "tau",
    "ρ": "rho",
    "ν": "nu",
    "θ": "theta",
    "φ": "phi",
    "α": "alpha",
    "β": "beta",
    "γ": "gamma",
    "δ": "delta",
    "Δ": "delta ",
    "λ": "lambda",
    "−": "-",
    "–": "-",
    "—": "-",
    "‘": "'",
    "’": "'",
    "“": '"',
    "”": '"',
    "′": "'",
    "″": '"',
    "…": "...",
    "→": "->",
    "€": "EUR",
    "£": "GBP",
    "\u00a0": " ",
    "\u202f": " ",
    "\u2009": " ",
}


def clean(text: str) -> str:
    """The text without characters that steer a terminal or turn the reading direction."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(character if _harmless(character) else "\ufffd" for character in text)


def _harmless(character: str) -> bool:
    if character in "\n\t":
        return True
    kind = unicodedata.category(character)
    if kind == "Cf":
        return unicodedata.bidirectional(character) == "BN" and character not in "\ufeff\u00ad"
    return kind not in {"Cc", "Cs", "Co", "Cn", "Zl", "Zp"}


def ascii_text(text: str) -> str:
    """The nearest text that needs only ASCII."""
    if text.isascii():
        return text
    return "".join(_nearest(character) for character in text)


def _nearest(character: str) -> str:
    if character.isascii():
        return character
    if character in _NEAREST:
        return _NEAREST[character]
    bare = unicodedata.normalize("NFKD", character).encode("ascii", "ignore").decode("ascii")
    return bare or "?"


def _replace(error: UnicodeError) -> tuple[str | bytes, int]:
    if not isinstance(error, UnicodeEncodeError):
        raise error
    return "".join(_nearest(character) for character in error.object[error.start : error.end]), error.end


codecs.register_error(HANDLER, _replace)
