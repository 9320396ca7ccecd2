"""What a formula of the working is made of once it is read: a small tree, and the words beside it.

Immutable. The tree keeps the order of work of the written formula; brackets are put back where it is set.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

BinarySign = Literal["+", "-", "*", "/", "**"]


@dataclass(frozen=True)
class Number:
    """A number as it is written: 4.05010, 1e6, 6.24523e-3."""

    text: str


@dataclass(frozen=True)
class Name:
    """A symbol as it is written: rho, F_b', f_c90,d, lift."""

    text: str


@dataclass(frozen=True)
class Call:
    """A function of something: exp(x), max(a, b), U(d)."""

    name: Name
    given: tuple[Node, ...]


@dataclass(frozen=True)
class Absolute:
    """A size without its sign: |u0|."""

    inner: Node


@dataclass(frozen=True)
class Negative:
    """Something with a minus before it."""

    inner: Node


@dataclass(frozen=True)
class Binary:
    """Two things and the sign between them."""

    sign: BinarySign
    left: Node
    right: Node


@dataclass(frozen=True)
class Worded:
    """A word with what follows it, told rather than computed: the force, mean z, largest t**3."""

    word: str
    rest: Node


Node: TypeAlias = Number | Name | Call | Absolute | Negative | Binary | Worded


@dataclass(frozen=True)
class Relation:
    """One or more things with signs such as = or > between them."""

    first: Node
    others: tuple[tuple[str, Node], ...] = ()


@dataclass(frozen=True)
class Maths:
    """A run of a formula that is to be set; `text` is how it is written."""

    text: str
    relation: Relation


@dataclass(frozen=True)
class Words:
    """A run of a formula that is to stand as it is written."""

    text: str
