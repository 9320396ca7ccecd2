"""Small cutting lists beside a whole-number program of another kind: the same least cost, or both without a plan."""

from __future__ import annotations

import random

import pytest

from tests.agree.arc_flow import least_cost
from tidestead.build.cutting.lengths import Need, Saw, Stock, cut_lengths
from tidestead.core.errors import ImpossibleInput

CENTIMETRE = 0.01


def drawn(seed: int) -> tuple[list[tuple[int, int]], list[tuple[int, float, int | None]], int]:
    """A few pieces in centimetres, one to three lengths to buy, sometimes some on hand, a kerf of 0 to 2."""
    chance = random.Random(seed)
    widths = chance.sample(range(15, 120), chance.randint(2, 6))
    items = [(width, chance.randint(1, 5)) for width in widths]
    lengths: list[tuple[int, float, int | None]] = [
        (room, round(room * chance.uniform(0.02, 0.03), 2), None)
        for room in chance.sample(range(120, 300), chance.randint(1, 3))
    ]
    if chance.random() < 0.5:
        lengths.append((chance.randint(40, 200), 0.0, chance.randint(1, 4)))
    return items, lengths, chance.choice([0, 0, 1, 2])


def ours(items: list[tuple[int, int]], lengths: list[tuple[int, float, int | None]], kerf: int) -> float:
    needs = [Need(f"m{at}", width * CENTIMETRE, many) for at, (width, many) in enumerate(items)]
    stocks = [
        Stock(f"s{at}", room * CENTIMETRE, price, limit) for at, (room, price, limit) in enumerate(lengths)
    ]
    plan = cut_lengths(needs, stocks, Saw(kerf * CENTIMETRE, 0.0, 0.3))
    assert plan.proven
    return plan.cost


@pytest.mark.parametrize("seed", range(12))
def test_the_same_least_cost(seed: int) -> None:
    items, lengths, kerf = drawn(seed)
    assert ours(items, lengths, kerf) == pytest.approx(least_cost(items, lengths, kerf), abs=1e-6)


@pytest.mark.long
@pytest.mark.parametrize("seed", range(12, 150))
def test_the_same_least_cost_in_many_cases(seed: int) -> None:
    items, lengths, kerf = drawn(seed)
    assert ours(items, lengths, kerf) == pytest.approx(least_cost(items, lengths, kerf), abs=1e-6)


def at_the_edge(seed: int) -> tuple[list[tuple[int, int]], list[tuple[int, float, int | None]], int]:
    """Pieces as long as a stock, halves and thirds of one with and without room for the kerf, few lengths on hand."""
    chance = random.Random(seed)
    kerf = chance.randint(0, 3)
    lengths: list[tuple[int, float, int | None]] = [
        (chance.randint(60, 250), round(chance.uniform(1.0, 9.0), 2), None)
        for _ in range(chance.randint(1, 3))
    ]
    lengths += [
        (chance.randint(30, 250), chance.choice([0.0, 2.5]), chance.randint(1, 5))
        for _ in range(chance.randint(0, 3))
    ]
    pool = [chance.randint(5, 60) for _ in range(4)]
    for room, _, limit in lengths:
        parts = ((room - kerf) // 2, (room - kerf) // 2 + 1, (room - 2 * kerf) // 3)
        pool += [*parts, *([room] if limit is None else [])]
    longest = max(room for room, _, limit in lengths if limit is None)
    widths = sorted({width for width in chance.sample(pool, min(len(pool), 6)) if width <= longest})
    return [(width, chance.randint(1, 6)) for width in widths], list(dict.fromkeys(lengths)), kerf


@pytest.mark.parametrize(
    "seed", [*range(12), *(pytest.param(seed, marks=pytest.mark.long) for seed in range(12, 150))]
)
def test_the_same_least_cost_where_pieces_just_fit(seed: int) -> None:
    items, lengths, kerf = at_the_edge(seed)
    assert ours(items, lengths, kerf) == pytest.approx(least_cost(items, lengths, kerf), abs=1e-6)


@pytest.mark.parametrize("seed", range(20, 26))
def test_stock_on_hand_alone_gives_all_or_neither_finds_a_plan(seed: int) -> None:
    items, _, kerf = drawn(seed)
    many = sum(width * many for width, many in items) // 120 + seed % 2
    lengths: list[tuple[int, float, int | None]] = [(130, 0.0, many), (60, 0.0, 1)]
    wanted = least_cost(items, lengths, kerf)
    if wanted is None:
        with pytest.raises(ImpossibleInput, match="uncut"):
            ours(items, lengths, kerf)
    else:
        assert ours(items, lengths, kerf) == wanted == 0.0
