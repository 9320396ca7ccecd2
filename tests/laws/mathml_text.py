"""Reads set mathematics back as one line of text, by what its elements mean; knows nothing of how it was set."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Iterable, Iterator
from xml.etree import ElementTree
from xml.etree.ElementTree import Element

CORE = {"math", "mrow", "mi", "mn", "mo", "mfrac", "msup", "msub", "msubsup", "msqrt", "mtext", "mspace"}
"""The elements of MathML Core that are used. Source: the element list of MathML Core, from memory."""

OUTSIDE = {"span", "wbr"}

_SIGNS = {
    "\u2212": "-",
    "\u2062": "*",
    "\u22c5": "*",
    "\u2061": "",
    "\u2264": "<=",
    "\u2265": ">=",
    "\u2032": "'",
    ",": ", ",
}


def tree_of(markup: str) -> Element:
    """The markup as a tree; it is read as XML, which forgives nothing."""
    return ElementTree.fromstring(f"<p>{markup.replace('<wbr>', '<wbr/>')}</p>")


def written(markup: str) -> str:
    """How the line was written, by the texts that stand for its runs of mathematics and the words between."""
    found = []
    for element in tree_of(markup).iter():
        if element.tag == "p":
            found.append(element.text or "")
        elif element.get("alttext") or element.get("aria-label"):
            found += [element.get("alttext") or element.get("aria-label") or "", element.tail or ""]
    return re.sub(r"[\n\t]", " ", "".join(found).replace("\u2060", ""))


def words_of(markup: str) -> str:
    """What stands outside of all mathematics."""
    tree = tree_of(markup)
    return " ".join([tree.text or "", *(child.tail or "" for child in tree)]).replace("\u2060", "")


def linear(markup: str, bars: tuple[str, str] = ("|", "|")) -> str:
    """The line as text again; `bars` are what the two bars of a size without sign become."""
    return _line(tree_of(markup), bars)


def greek_named(text: str) -> str:
    """The text with Greek letters by their names, as Unicode has them."""
    return "".join(_name_of(one) for one in text)


def _name_of(letter: str) -> str:
    if letter == "\u221e":
        return "inf"
    match = re.fullmatch(r"GREEK (SMALL|CAPITAL) LETTER ([A-Z]+)", unicodedata.name(letter, ""))
    if match is None:
        return letter
    name = match[2].lower().replace("lamda", "lambda")
    return name if match[1] == "SMALL" else name.capitalize()


def _line(element: Element, bars: tuple[str, str]) -> str:
    """Children in order, with what stands between them."""
    parts = [element.text or ""]
    for child, text in _told(list(element), bars):
        parts += [text, child.tail or ""]
    return "".join(parts).replace("\u2060", "")


def _told(children: Iterable[Element], bars: tuple[str, str]) -> Iterator[tuple[Element, str]]:
    """Each child as text. Figures, a cross and a power of ten are one number."""
    crossed = False
    for child in children:
        if child.tag == "mo" and child.text == "\u00d7":
            crossed = True
            yield child, "e"
        elif crossed:
            crossed = False
            yield child, _line(child[1], bars)
        else:
            yield child, _text(child, bars)


def _text(element: Element, bars: tuple[str, str]) -> str:
    tag, parts = element.tag, list(element)
    if tag == "mo" and element.text == "|":
        return bars[0] if element.get("form") == "prefix" else bars[1]
    if tag in ("mo", "mi", "mspace"):
        plain = "".join((_SIGNS if tag == "mo" else {}).get(one, one) for one in element.text or "")
        return {"mo": plain, "mi": greek_named(plain), "mspace": " "}[tag]
    if tag in ("mfrac", "msup", "msub", "msubsup"):
        return _placed(tag, parts, bars)
    if tag == "mrow" and len(parts) == 1 and parts[0].tag == "msup":
        return f"1e{_text(parts[0][1], bars)}"
    return f"sqrt({_line(element, bars)})" if tag == "msqrt" else _line(element, bars)


def _placed(tag: str, parts: list[Element], bars: tuple[str, str]) -> str:
    """What stands above or below something else."""
    if tag == "msub":
        return _below(parts[0], parts[1], bars)
    if tag == "msubsup":
        return f"(({_below(parts[0], parts[1], bars)})**({_text(parts[2], bars)}))"
    first, second = (_text(part, bars) for part in parts)
    return f"(({first}){'/' if tag == 'mfrac' else '**'}({second}))"


def _below(base: Element, below: Element, bars: tuple[str, str]) -> str:
    """A subscripted name: an underscore before letters, none before figures; primes at the end."""
    name = _text(base, bars)
    plain = name.rstrip("'")
    joined = "" if below.tag == "mn" else "_"
    return f"{plain}{joined}{_text(below, bars)}{name[len(plain) :]}"
