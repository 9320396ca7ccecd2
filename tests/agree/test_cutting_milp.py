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
