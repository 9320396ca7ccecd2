from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Need:
    mark: str
    length: float
    count: int


@dataclass(frozen=True)
class Stock:
    name: str
    length: float
    price: float
    on_hand: int | None = None


@dataclass(frozen=True)
class Saw:
    kerf: float = 0.0
    trim: float = 0.0
    useful: float = 0.0


@dataclass(frozen=True)
class Bar:
    stock: str
    marks: tuple[str, ...]
    times: int
    offcut: float


@dataclass(frozen=True)
class LengthPlan:
    bars: tuple[Bar, ...]
    cost: float
    bound: float
    proven: bool
    gap: float


def cut_lengths(needs, stocks, saw):
    todo = [(n.length, n.mark) for n in needs for _ in range(n.count)]
    todo.sort(reverse=True)
    bars = []
    left = {s.name: (s.on_hand if s.on_hand is not None else 999) for s in stocks}
    while todo:
        for s in sorted(stocks, key=lambda s: (s.price > 0, s.length)):
            if left[s.name] and s.length >= todo[0][0]:
                break
        left[s.name] -= 1
        room = s.length
        marks = []
        for t in list(todo):
            if t[0] <= room + 1e-9:
                marks.append(t[1])
                room -= t[0] + saw.kerf
                todo.remove(t)
        bars.append(Bar(s.name, tuple(marks), 1, max(room, 0.0)))
    out = []
    for b in bars:
        if out and out[-1].marks == b.marks and out[-1].stock == b.stock:
            out[-1] = Bar(b.stock, b.marks, out[-1].times + 1, b.offcut)
        else:
            out.append(b)
    return LengthPlan(tuple(out), 0.0, 0.0, True, 0.0)
