"""Reading the small plain notation of the working: which runs of a line are mathematics, which are words.

The notation: + - * / ** (or ^), brackets, |x|, names with subscripts after an underscore (`f_c90,d`) and primes
(`F_b'`), calls without a gap before the bracket, numbers such as 6.245e-3, = < > <= >= between sides. Signs between
two words want gaps, since "end-grain" is a word. What cannot be read so is words: nothing raises, nothing is lost.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass

from tidestead.report.mathml_tree import (
    Absolute,
    Binary,
    BinarySign,
    Call,
    Maths,
    Name,
    Negative,
    Node,
    Number,
    Relation,
    Worded,
    Words,
)

GREEK = {
    "alpha": "α",
    "beta": "β",
    "gamma": "γ",
    "delta": "δ",
    "epsilon": "ε",
    "zeta": "ζ",
    "eta": "η",
    "theta": "θ",
    "kappa": "κ",
    "lambda": "λ",
    "mu": "μ",
    "nu": "ν",
    "xi": "ξ",
    "pi": "π",
    "rho": "ρ",
    "sigma": "σ",
    "tau": "τ",
    "phi": "φ",
    "chi": "χ",
    "psi": "ψ",
    "omega": "ω",
    "Gamma": "Γ",
    "Delta": "Δ",
    "Theta": "Θ",
    "Lambda": "Λ",
    "Sigma": "Σ",
    "Phi": "Φ",
    "Psi": "Ψ",
    "Omega": "Ω",
}
"""Letters that are written by their names."""

_ARTICLES = frozenset({"a", "A", "I"})
"""One letter, and a word of the language all the same, unless the line computes with it or explains it."""

_JOINERS = frozenset(
    ["and", "or", "of", "the", "to", "at", "by", "for", "from", "in", "on", "is", "as", "with"]
)
"""Words that no sign of arithmetic joins to anything."""

_DEEPEST, _MOST_SIGNS, _LONGEST = 25, 200, 2000
"""Parts within parts, signs and characters of a line: beyond these it stays as it is written."""

_LETTER, _INNER = r"[^\W\d_]", r"[^\W_]"
_TOKEN = re.compile(
    r"(?P<number>\d+(?:\.\d+)?(?:e[+-]?\d+)?(?!\w|\.\d))"
    rf"|(?P<word>(?:{_LETTER}{{2,}}['-]{_LETTER}+|{_LETTER}['-]{_LETTER}{{2,}})(?:['-]{_LETTER}+)*(?!\w))"
    rf"|(?P<name>{_LETTER}{_INNER}*(?:_\w+(?:,[a-z0-9]+(?!\w))?)?'*)"
    r"|(?P<sign>\*\*|<=|>=|[-+*/^()|,=<>])"
    r"|(?P<gap>\s+)"
    r"|(?P<other>\w+|.)",
    re.DOTALL,
)
_SIDES = ("=", "<", ">", "<=", ">=")
_SIGNS: dict[str, BinarySign] = {"+": "+", "-": "-", "*": "*", "/": "/", "**": "**", "^": "**"}


@dataclass(frozen=True)
class _Token:
    kind: str
    text: str
    begin: int
    end: int


class _NotMaths(Exception):
    """What stands here is not in the notation."""


def runs_of(text: str) -> tuple[Maths | Words, ...]:
    """The line as runs of mathematics and of words, in order; their texts put together are the line."""
    found = _candidates(text)
    computed = {
        token.text for _, run in found if not _bare(run.relation) for token in _tokens(run.text)
    }  # what is computed with is a symbol wherever else the line names it
    runs: list[Maths | Words] = []
    place = 0
    for begin, run in found:
        after = text[begin + len(run.text) :]
        explained = isinstance(run.relation.first, Name) and after.startswith(":")
        if _bare(run.relation) and not (explained or run.text in computed or _symbolic(run.text, after)):
            continue
        if begin > place:
            runs.append(Words(text[place:begin]))
        runs.append(run)
        place = begin + len(run.text)
    return (*runs, Words(text[place:])) if place < len(text) else tuple(runs)


def symbol_of(text: str) -> Maths | None:
    """The text as one piece of mathematics, a single name whatever it is; None where it is words."""
    tokens = _tokens(text)
    try:
        relation, after = _Reader(tokens).relation(0)
    except _NotMaths:
        return None
    return Maths(text, relation) if after == len(tokens) else None


def _tokens(text: str) -> list[_Token]:
    """The pieces of the line; none at all of a line that is too long to be a formula."""
    if len(text) > _LONGEST:
        return []
    found = [(match.lastgroup or "", match) for match in _TOKEN.finditer(text)]
    if sum(kind == "sign" for kind, _ in found) > _MOST_SIGNS:
        return []
    return [_Token(kind, match[0], match.start(), match.end()) for kind, match in found if kind != "gap"]


def _candidates(text: str) -> list[tuple[int, Maths]]:
    """Every longest run that can be read, with its place."""
    tokens = _tokens(text)
    found, index = [], 0
    while index < len(tokens):
        try:
            relation, after = _Reader(tokens).relation(index)
        except _NotMaths:
            index += 1
            continue
        if _one_bracket(tokens[index:after]):
            index += 1
            continue
        begin, end = tokens[index].begin, tokens[after - 1].end
        found.append((begin, Maths(text[begin:end], relation)))
        index = after
    return found


def _one_bracket(tokens: list[_Token]) -> bool:
    """Whether a run is no more than a bracket among words: its inside is then read on its own."""
    deep, first_closes = 0, -1
    for place, token in enumerate(tokens):
        deep += (token.text == "(") - (token.text == ")")
        if deep == 0 and first_closes < 0:
            first_closes = place
    return tokens[0].text == "(" and first_closes == len(tokens) - 1


def _bare(relation: Relation) -> bool:
    """Whether nothing is computed or called: one name or number alone."""
    return not relation.others and isinstance(relation.first, Name | Number)


def _symbolic(text: str, after: str) -> bool:
    """Whether a single name is no word of the language by its looks and by what comes after it in the line."""
    if text in _ARTICLES:
        following = re.match(r"\s+([^\W\d_]+)", after)
        return following is None or following[1] in _JOINERS
    if len(text) == 1 or not text[0].isalpha():
        return text.isalpha()
    looks = text in GREEK or text.isupper() or (len(text) == 2 and text[0].isupper())
    return looks or not text.isalpha()


_Part = Callable[[int], tuple[Node, int]]
"""Reads one sort of part from a token on."""


class _Reader:
    """Reads from a token on as far as the notation goes. Methods give what was read and the token after it."""

    def __init__(self, tokens: list[_Token]) -> None:
        self._tokens = tokens
        self._within = 0
        self._deep = 0

    def relation(self, at: int) -> tuple[Relation, int]:
        first, at = self._sum(at)
        others = []
        while (side := self._sign(at)) in _SIDES:
            try:
                other, after = self._sum(at + 1)
            except _NotMaths:
                break
            others.append((side, other))
            at = after
        return Relation(first, tuple(others)), at

    def _sum(self, at: int) -> tuple[Node, int]:
        return self._chain(at, ("+", "-"), self._term)

    def _term(self, at: int) -> tuple[Node, int]:
        """A product; within brackets also words with a product at their end."""
        token = self._token(at)
        if self._within and token.kind in ("name", "word") and self._goes_on(at + 1):
            try:
                rest, after = self._nested(at + 1, self._term)
            except _NotMaths:
                return self._product(at)
            return Worded(token.text, rest), after
        return self._product(at)

    def _product(self, at: int) -> tuple[Node, int]:
        return self._chain(at, ("*", "/"), self._factor)

    def _chain(self, at: int, signs: tuple[str, ...], part: _Part) -> tuple[Node, int]:
        """Parts with signs of one rank between them, worked from the left; a sign that nothing follows is left."""
        found, at = part(at)
        while (sign := self._sign(at)) in signs:
            try:
                right, after = part(at + 1)
            except _NotMaths:
                break
            found, at = Binary(_SIGNS[sign], found, right), after
        return found, at

    def _factor(self, at: int) -> tuple[Node, int]:
        """A power, perhaps with a minus before it; a power of a power is worked from the right."""
        if self._sign(at) == "-":
            inner, at = self._nested(at + 1, self._factor)
            return Negative(inner), at
        found, at = self._single(at)
        if self._sign(at) in ("**", "^"):
            power, at = self._nested(at + 1, self._factor)
            return Binary("**", found, power), at
        return found, at

    def _single(self, at: int) -> tuple[Node, int]:
        token = self._token(at)
        if token.kind == "number":
            return Number(token.text), at + 1
        if token.kind == "name" and token.text not in _JOINERS:
            if self._sign(at + 1) == "(" and not self._gap_before(at + 1):
                return self._call(Name(token.text), at + 2)
            return Name(token.text), at + 1
        if self._sign(at) in ("(", "|"):
            inner, after = self._bracketed(at + 1)
            after = self._closed(after, ")" if token.text == "(" else "|")
            return (inner if token.text == "(" else Absolute(inner)), after
        raise _NotMaths

    def _call(self, name: Name, at: int) -> tuple[Node, int]:
        given = []
        while True:
            one, at = self._bracketed(at)
            given.append(one)
            if self._sign(at) != ",":
                return Call(name, tuple(given)), self._closed(at, ")")
            at += 1

    def _bracketed(self, at: int) -> tuple[Node, int]:
        self._within += 1
        try:
            return self._nested(at, self._sum)
        finally:
            self._within -= 1

    def _nested(self, at: int, part: _Part) -> tuple[Node, int]:
        """A part within a part, as deep as is allowed."""
        self._deep += 1
        try:
            if self._deep > _DEEPEST:
                raise _NotMaths
            return part(at)
        finally:
            self._deep -= 1

    def _token(self, at: int) -> _Token:
        if at >= len(self._tokens):
            raise _NotMaths
        return self._tokens[at]

    def _sign(self, at: int) -> str:
        """The sign that stands there; empty where none does."""
        token = self._tokens[at] if at < len(self._tokens) else None
        return token.text if token is not None and token.kind == "sign" else ""

    def _closed(self, at: int, bracket: str) -> int:
        if self._sign(at) != bracket:
            raise _NotMaths
        return at + 1

    def _gap_before(self, at: int) -> bool:
        return self._tokens[at].begin > self._tokens[at - 1].end

    def _goes_on(self, at: int) -> bool:
        """Whether a name, number or bracket follows after a gap."""
        if at >= len(self._tokens) or not self._gap_before(at):
            return False
        return self._tokens[at].kind in ("name", "word", "number") or self._sign(at) == "("
