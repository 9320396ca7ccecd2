"""A formula of the working set as mathematics for a page: MathML Core for what is computed, plain text for words.

Every run of mathematics carries how it was written as `alttext`. A run too wide for a phone is set in pieces between
which a line may break; then the whole of them is one picture of role math, named by how it was written.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from html import escape

from tidestead.report.mathml_reading import GREEK, runs_of, symbol_of
from tidestead.report.mathml_tree import (
    Absolute,
    Binary,
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
from tidestead.report.plain import clean

__all__ = ["formula_markup", "symbol_markup"]

WIDEST = 34.0
"""Width of a run, in figures, from which on it is set in pieces."""

_TIMES = '<mo lspace="0.09em" rspace="0.09em">\u2062</mo>'
"""A product told by nearness; the sign cannot be seen, but can be read out."""

_DOT, _OF = "<mo>\u22c5</mo>", "<mo>\u2061</mo>"
"""A product that nearness would not tell; between a function and its bracket, not to be seen."""

_JOINER = "\u2060"
"""Keeps a comma on the line of what it follows; cannot be seen."""

_SUM, _WORDED, _PRODUCT, _MINUS, _POWER, _SINGLE = range(6)
"""Ranks of what is set, by how tightly its parts hold together."""

_SHOWN = {"-": "\u2212", "<=": "\u2264", ">=": "\u2265"}


@lru_cache(maxsize=4096)
def formula_markup(text: str) -> str:
    """The line as markup for running text, made safe. Never raises, and loses nothing."""
    parts: list[str] = []
    for run in runs_of(clean(text)):
        stops = isinstance(run, Words) and parts and run.text[0] in ",;:."
        parts.append(_JOINER + _run_markup(run) if stops else _run_markup(run))
    return "".join(parts)


@lru_cache(maxsize=4096)
def symbol_markup(text: str) -> str:
    """A symbol as markup, in the letters its formula has; words where it is several."""
    whole = symbol_of(clean(text))
    return formula_markup(text) if whole is None else _run_markup(whole)


@dataclass(frozen=True)
class _Ink:
    """Elements in a row, their width in figures, their rank, and what stands at their two ends."""

    row: tuple[str, ...]
    width: float
    rank: int = _SINGLE
    begins: str = ""
    ends: str = ""

    @property
    def one(self) -> str:
        """The row as a single element."""
        return self.row[0] if len(self.row) == 1 else f"<mrow>{''.join(self.row)}</mrow>"


def _run_markup(run: Maths | Words) -> str:
    if isinstance(run, Words):
        return escape(run.text, quote=False)
    pieces, told = _related(run.relation), escape(run.text)
    if len(pieces) == 1:
        return _math(pieces[0], f'alttext="{told}"')
    parts = [_math(piece, 'aria-hidden="true"') for piece in pieces]
    return f'<span role="math" aria-label="{told}">{"<wbr>".join(parts)}</span>'


def _math(ink: _Ink, attributes: str) -> str:
    return f'<math displaystyle="true" {attributes}>{"".join(ink.row)}</math>'


def _related(relation: Relation) -> list[_Ink]:
    """The run whole where it is narrow enough, else in pieces."""
    sides = [_set(relation.first), *(_set(node) for _, node in relation.others)]
    if sum(side.width + 2.0 for side in sides) <= WIDEST:
        signs = [_between(side) for side, _ in relation.others]
        return [_joined(sides[0], *(ink for pair in zip(signs, sides[1:], strict=True) for ink in pair))]
    pieces = _pieces(relation.first)
    for side, node in relation.others:
        pieces += _glued([_between(side)], _pieces(node))
    return pieces


def _pieces(node: Node) -> list[_Ink]:
    """Something set in pieces that are narrow enough, as far as it has places where a line may break."""
    whole = _set(node)
    if whole.width <= WIDEST:
        return [whole]
    match node:
        case Binary(sign="+" | "-"):
            right = _held(_pieces(node.right), _needs_brackets(_set(node.right), _WORDED))
            return _pieces(node.left) + _glued([_between(node.sign)], right)
        case Binary(sign="*"):
            first, second = _set(node.left), _set(node.right)
            left = _held(_pieces(node.left), _needs_brackets(first, _PRODUCT))
            right = _held(_pieces(node.right), _needs_brackets(second, _POWER))
            return _glued(left, [_times(left[-1], right[0])], right)
        case Call(given=(only,)) if node.name.text != "sqrt":
            name = _name(node.name.text)
            return _glued([_Ink((*name.row, _OF), name.width)], _held(_pieces(only), True))
        case _:
            return [whole]


def _glued(*runs: list[_Ink]) -> list[_Ink]:
    """Pieces of several things in one row: the last of each and the first of the next are not parted."""
    found = list(runs[0])
    for run in runs[1:]:
        found[-1:] = [_joined(found[-1], run[0]), *run[1:]]
    return found


def _held(pieces: list[_Ink], brackets: bool) -> list[_Ink]:
    if not brackets:
        return pieces
    return _glued(
        [_Ink(('<mo form="prefix">(</mo>',), 1.0)], pieces, [_Ink(('<mo form="postfix">)</mo>',), 1.0)]
    )


def _between(sign: str) -> _Ink:
    """A sign between two things, also where it begins a piece."""
    return _Ink((f'<mo form="infix">{escape(_SHOWN.get(sign, sign))}</mo>',), 2.0)


def _times(left: _Ink, right: _Ink) -> _Ink:
    """The sign of a product: a dot before figures and beside words, else no more than a little room."""
    dotted = right.begins == "number" or (left.ends != "number" and "word" in (left.ends, right.begins))
    return _Ink((_DOT,), 1.5) if dotted else _Ink((_TIMES,), 0.3)


def _joined(*parts: _Ink, rank: int = _SUM) -> _Ink:
    row = tuple(element for part in parts for element in part.row)
    return _Ink(row, sum(part.width for part in parts), rank, parts[0].begins, parts[-1].ends)


def _needs_brackets(ink: _Ink, least: int) -> bool:
    """Whether something of its rank would come apart where at least a rank is asked for.

    A minus may not follow a sign either.
    """
    return ink.rank < least or (least != _PRODUCT and ink.begins == "minus")


def _operand(node: Node, least: int) -> _Ink:
    ink = _set(node)
    return _fenced(ink, "(", ")") if _needs_brackets(ink, least) else ink


def _fenced(ink: _Ink, begin: str, end: str) -> _Ink:
    row = (f'<mo form="prefix">{begin}</mo>', *ink.row, f'<mo form="postfix">{end}</mo>')
    return _Ink((f"<mrow>{''.join(row)}</mrow>",), ink.width + 1.5)


def _set(node: Node) -> _Ink:
    """What is written, set; brackets only where its parts would hold together otherwise than they do."""
    match node:
        case Number():
            return _number(node.text)
        case Name():
            return _name(node.text)
        case Call():
            return _call(node)
        case Absolute():
            return _fenced(_set(node.inner), "|", "|")
        case Negative():
            minus = _Ink(('<mo form="prefix">\u2212</mo>',), 1.0, begins="minus")
            return _joined(minus, _operand(node.inner, _POWER), rank=_MINUS)
        case Worded():
            word = _Ink((f"<mtext>{escape(node.word)}</mtext>", _GAP), len(node.word) + 0.5)
            return _joined(word, _set(node.rest), rank=_WORDED)
        case Binary():
            return _binary(node)


_SLASH = '<mo lspace="0em" rspace="0em">/</mo>'
_GAP = '<mspace width="0.28em"></mspace>'


def _binary(node: Binary) -> _Ink:
    match node.sign:
        case "/":
            above, below = _on_line(node.left), _on_line(node.right)
            width = max(above.width, below.width) + 0.5
            return _Ink((f'<mfrac displaystyle="true">{above.one}{below.one}</mfrac>',), width, _POWER)
        case "**":
            return _power(node)
        case "*":
            left, right = _operand(node.left, _PRODUCT), _operand(node.right, _POWER)
            return _joined(left, _times(left, right), right, rank=_PRODUCT)
        case _:
            left, right = _set(node.left), _operand(node.right, _WORDED)
            return _joined(left, _between(node.sign), right, rank=_SUM)


def _power(node: Binary) -> _Ink:
    """A power; that of a plain subscripted name stands over its subscript."""
    base, power = _operand(node.left, _SINGLE), _on_line(node.right)
    width = base.width + 0.7 * power.width
    if isinstance(node.left, Name) and base.one.startswith("<msub>"):
        inside = base.one.removeprefix("<msub>").removesuffix("</msub>")
        return _Ink((f"<msubsup>{inside}{power.one}</msubsup>",), width, _POWER, base.begins)
    return _Ink((f"<msup>{base.one}{power.one}</msup>",), width, _POWER, base.begins)


def _on_line(node: Node) -> _Ink:
    """What stands raised, above or below: a quotient on one line, as long as nothing in it is a fraction."""
    if isinstance(node, Binary) and node.sign == "/":
        left, right = _operand(node.left, _PRODUCT), _operand(node.right, _POWER)
        if "<mfrac" not in left.one + right.one:
            return _joined(left, _Ink((_SLASH,), 1.0), right)
    return _set(node)


def _call(node: Call) -> _Ink:
    given = [_set(one) for one in node.given]
    if node.name.text == "sqrt" and len(given) == 1:
        return _Ink((f"<msqrt>{''.join(given[0].row)}</msqrt>",), given[0].width + 1.5)
    comma = _Ink(('<mo separator="true">,</mo>',), 1.0)
    inner = _joined(given[0], *(ink for one in given[1:] for ink in (comma, one)))
    name, fenced = _name(node.name.text), _fenced(inner, "(", ")")
    return _Ink((*name.row, _OF, *fenced.row), name.width + fenced.width, begins=name.begins)


def _number(text: str) -> _Ink:
    """Figures; with a power of ten written out where the number has one."""
    figures, _, power = text.partition("e")
    if not power:
        return _Ink((f"<mn>{figures}</mn>",), len(figures), begins="number", ends="number")
    sign = "".join(f"<mo>{_SHOWN.get(one, one)}</mo>" for one in power if one in "+-")
    digits = f"<mn>{power.lstrip('+-')}</mn>"
    raised = f"<msup><mn>10</mn><mrow>{sign}{digits}</mrow></msup>"
    if figures == "1":
        return _Ink((f"<mrow>{raised}</mrow>",), 3.0, _POWER, "number")
    row = (f"<mn>{figures}</mn>", "<mo>\u00d7</mo>", raised)
    return _Ink(row, len(figures) + 5.0, _PRODUCT, "number")


def _name(text: str) -> _Ink:
    """A symbol: Greek by its letter, what follows an underscore or is a figure at its end below the line."""
    plain = text.rstrip("'")
    base, _, below = plain.partition("_")
    numbered = _NUMBERED.fullmatch(plain)
    if base and below:
        first, second = _name(base), _below(below)
    elif numbered:
        first, second, below = _name(numbered[1]), f"<mn>{numbered[2]}</mn>", numbered[2]
    else:
        letters = GREEK.get(plain, plain)
        kind = "word" if len(letters) > 1 else ""
        first, second, below = (
            _Ink((f"<mi>{escape(letters)}</mi>",), len(letters), _SINGLE, kind, kind),
            "",
            "",
        )
    if text != plain:
        primes = chr(0x2032) * (len(text) - len(plain))
        row = (*first.row, f'<mo lspace="0em" rspace="0em">{primes}</mo>')
        first = _Ink((f"<mrow>{''.join(row)}</mrow>",), first.width + 0.5, _SINGLE, first.begins, first.ends)
    if not second:
        return first
    width = first.width + 0.7 * len(below)
    return _Ink((f"<msub>{first.one}{second}</msub>",), width, _SINGLE, first.begins, first.ends)


_NUMBERED = re.compile(r"([^\W\d_]+)(\d+)")


def _below(text: str) -> str:
    """A subscript, upright."""
    if "_" in text:
        return _name(text).one
    if text in GREEK or text == "inf":
        return f"<mi>{GREEK.get(text, chr(0x221E))}</mi>"
    return f'<mi mathvariant="normal">{escape(text)}</mi>'
