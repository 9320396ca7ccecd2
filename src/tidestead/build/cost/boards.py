"""Layers of walls out of boards: a thickness is made of whole boards on each other, of one thickness or several."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import TypeAlias

from tidestead.build.cost.offers import Buy, Money, Offer
from tidestead.build.cost.waste import with_waste
from tidestead.build.lists import Line

ALIKE = 5e-4
"""Thicknesses that differ by less, metres, are one: boards are named in round figures. Own choice."""

MOST = 12
"""Layers of one board at most. Own choice."""


Built: TypeAlias = tuple[Line, tuple[int, ...]]
"""A line, and how many layers of each board make it."""


@dataclass(frozen=True)
class Laid:
    """Layers that the same boards make: their lines, net volume, what is bought, the lines' parts of its money.

    `missing` says why they cannot be laid.
    """

    lines: tuple[Line, ...]
    buys: tuple[Buy, ...] = ()
    shares: tuple[float, ...] = ()
    missing: str = ""

    @property
    def amount(self) -> float:
        return sum(_volume(line) for line in self.lines)


def laid_of(lines: Sequence[Line], boards: Sequence[Offer], money: Money) -> tuple[Laid, ...]:
    """Each thickness in whole layers of the boards on offer; thicknesses that share a board are bought together."""
    thick = [face_of(one)[1] for one in boards]
    worth = [_each(one, money) for one in boards]
    stacks = {line.thick: stack_of(line.thick, thick, worth) for line in lines}
    built = [(line, stack) for line in lines if (stack := stacks[line.thick]) is not None]
    sold = ", ".join(f"{1e3 * one:g} mm" for one in sorted(set(thick)))
    bare = (
        Laid(
            tuple(line for line in lines if line.thick == at),
            missing=f"{1e3 * at:g} mm thick is not made of whole boards as they are sold, {sold}",
        )
        for at, stack in stacks.items()
        if stack is None
    )
    return (*(_joined(group, boards, worth) for group in _groups(built)), *bare)


def stack_of(thickness: float, thick: Sequence[float], worth: Sequence[float]) -> tuple[int, ...] | None:
    """How many layers of each board make a thickness for the least money; of equal money, in the fewest layers.

    None where no whole layers make it.
    """
    best: tuple[float, int, tuple[int, ...]] | None = None
    stack: list[tuple[float, float, tuple[int, ...]]] = [(thickness, 0.0, ())]
    while stack:
        left, money, counts = stack.pop()
        if len(counts) == len(thick):
            found = (money, sum(counts), counts)
            if abs(left) < ALIKE and any(counts) and (best is None or found[:2] < best[:2]):
                best = found
            continue
        at = len(counts)
        for count in range(min(MOST, math.floor((left + ALIKE) / thick[at])) + 1):
            stack.append((left - count * thick[at], money + count * worth[at], (*counts, count)))
    return None if best is None else best[2]


def face_of(board: Offer) -> tuple[float, float]:
    """The face of a board and its thickness, which is its least side."""
    thin, *sides = sorted(board.size)
    return math.prod(sides), thin


def _each(board: Offer, money: Money) -> float:
    """Money for a square metre; of what is there alone and has no price, nothing."""
    return (
        0.0 if board.price is None else board.price.likely * money.worth(board.currency) / face_of(board)[0]
    )


def _groups(built: Sequence[Built]) -> list[list[Built]]:
    """Lines by the boards that they share."""
    found: list[tuple[set[int], list[Built]]] = []
    for line, stack in built:
        used = {at for at, count in enumerate(stack) if count}
        beside = [one for one in found if one[0] & used]
        found = [one for one in found if not one[0] & used]
        together = [each for one in beside for each in one[1]]
        found.append((used.union(*(one[0] for one in beside)), [*together, (line, stack)]))
    return [lines for _, lines in found]


def _joined(group: Sequence[Built], boards: Sequence[Offer], worth: Sequence[float]) -> Laid:
    """What one group takes: whole boards, those that are there first."""
    areas = [
        sum(with_waste(line.item, _area(line)) * stack[at] for line, stack in group)
        for at in range(len(boards))
    ]
    found = [_bought(board, area) for board, area in zip(boards, areas, strict=True) if area > 0.0]
    lacks = [why for _, why in found if why]
    money = [_area(line) * _sum(stack, worth) for line, stack in group]
    if not sum(money):
        money = [_area(line) * sum(stack) for line, stack in group]
    whole = sum(money) or 1.0
    told = tuple(replace(line, basis=f"{line.basis}, {_words(stack, boards)}") for line, stack in group)
    buys = () if lacks else tuple(buy for buy, _ in found)
    return Laid(told, buys, tuple(one / whole for one in money), lacks[0] if lacks else "")


def _bought(board: Offer, area: float) -> tuple[Buy, str]:
    """So many of one board, and why they cannot be had."""
    count = float(math.ceil(area / face_of(board)[0] - 1e-9))
    here = min(float(math.floor(board.owned)), count)
    lack = ""
    if count > here and board.price is None:
        lack = "has no price for what is not there"
    elif board.at_most is not None and count - here > board.at_most:
        lack = "cannot all be had: what the price book offers is too little"
    return Buy(board, count - here, here), lack


def _sum(stack: Sequence[int], worth: Sequence[float]) -> float:
    return sum(count * one for count, one in zip(stack, worth, strict=True))


def _words(stack: Sequence[int], boards: Sequence[Offer]) -> str:
    """ "2 layers of book.boards-9"."""
    return " and ".join(_layers(stack, boards))


def _layers(stack: Sequence[int], boards: Sequence[Offer]) -> Iterator[str]:
    for count, board in zip(stack, boards, strict=True):
        if count:
            yield f"{count} layer{'s' if count > 1 else ''} of {board.row}"


def _area(line: Line) -> float:
    return _volume(line) / line.thick


def _volume(line: Line) -> float:
    return 0.0 if line.amount is None else line.amount.likely
