"""The cheapest packages that hold an amount, beside every choice there is."""

from __future__ import annotations

import time
from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tidestead.build.cost.covering import Package, packages_for
from tidestead.core.errors import ImpossibleInput

PACKAGES = st.lists(
    st.builds(
        Package,
        st.sampled_from([0.5, 1.0, 2.5, 4.0, 5.0, 18.0]),
        st.integers(0, 60).map(float),
        st.sampled_from([None, 0, 1, 2, 5]),
    ),
    min_size=1,
    max_size=3,
)


def cheapest(amount: float, packages: list[Package]) -> float | None:
    """By trying every count that could be wanted."""
    counts = [range(min(40 if one.at_most is None else one.at_most, 40) + 1) for one in packages]
    held = [
        sum(count * one.price for count, one in zip(choice, packages, strict=True))
        for choice in product(*counts)
        if sum(count * one.holds for count, one in zip(choice, packages, strict=True)) >= amount - 1e-9
    ]
    return min(held, default=None)


@given(amount=st.integers(1, 38).map(lambda half: half / 2.0), packages=PACKAGES)
def test_no_choice_is_cheaper(amount: float, packages: list[Package]) -> None:
    found = packages_for(amount, packages)
    wanted = cheapest(amount, packages)
    if found is None:
        assert wanted is None
        return
    held = sum(count * one.holds for count, one in zip(found, packages, strict=True))
    paid = sum(count * one.price for count, one in zip(found, packages, strict=True))
    assert held >= amount * (1.0 - 1e-9)
    assert all(
        one.at_most is None or count <= one.at_most for count, one in zip(found, packages, strict=True)
    )
    assert wanted is not None
    assert paid == pytest.approx(wanted)


def test_twelve_screws_are_one_box_of_twelve() -> None:
    assert packages_for(12.0, [Package(12.0, 3.0)]) == (1,)
    assert packages_for(12.0 + 1e-10, [Package(12.0, 3.0)]) == (1,)
    assert packages_for(13.0, [Package(12.0, 3.0)]) == (2,)


def test_prices_that_go_by_what_is_held_are_not_tried_in_every_mixture() -> None:
    """Boxes of 1000, 100, 10 and 1 at one price for a piece: half a minute, were places that were reached not kept."""
    begin = time.monotonic()
    boxes = [Package(1000.0, 100.0), Package(100.0, 10.0), Package(10.0, 1.0), Package(1.0, 0.1)]
    assert packages_for(4999.0, boxes) == (4, 9, 9, 9)
    assert packages_for(1e7, [Package(1.0, 0.1)]) == (10_000_000,)
    assert time.monotonic() - begin < 5.0


def test_of_equal_money_the_least_is_left_over() -> None:
    assert packages_for(4.0, [Package(5.0, 10.0), Package(4.0, 10.0)]) == (0, 1)


@pytest.mark.parametrize("package", [Package(0.0, 1.0), Package(1.0, -1.0)])
def test_a_package_of_nothing_is_refused(package: Package) -> None:
    with pytest.raises(ImpossibleInput, match="must hold something"):
        packages_for(1.0, [package])
