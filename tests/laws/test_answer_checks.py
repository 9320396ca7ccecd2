"""A verdict follows from value and limit, whatever their signs."""

from __future__ import annotations

from typing import cast

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from tidestead.core.answer import Check, Estimate, MustBe, Verdict
from tidestead.core.source import COMPUTED

NUMBER = st.one_of(st.just(0.0), st.floats(-1e6, 1e6, allow_nan=False).filter(lambda one: abs(one) > 1e-3))


def check(value: float, limit: float, must_be: str) -> Check:
    word = cast(MustBe, must_be)
    return Check("a.b", "what", "where", "m", Estimate.exact(value, ""), limit, COMPUTED, must_be=word)


@given(value=NUMBER, limit=NUMBER)
@example(value=-1.05, limit=0.0)
@example(value=0.0, limit=0.0)
@example(value=-1.0, limit=-2.0)
@pytest.mark.parametrize("must_be", ["below", "above"])
def test_it_fails_where_the_value_is_past_its_limit_and_only_there(
    value: float, limit: float, must_be: str
) -> None:
    past = value > limit if must_be == "below" else value < limit
    near_alike = abs(value - limit) <= 1e-8 * abs(limit)
    verdict = check(value, limit, must_be).verdict
    assert near_alike or (verdict is Verdict.FAILS) == past
