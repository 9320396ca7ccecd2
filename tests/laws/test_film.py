"""What no film may break: limits, order, and a calibration that finds what was planted."""

from __future__ import annotations

from dataclasses import replace
from math import inf

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.film_logs import logged
from tests.many import many
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.film import (
    Cleaning,
    Eye,
    Growing,
    Habit,
    Setting,
    calibrated,
    effective_age,
    film_amount,
    growth_rate,
    last_safe_day,
    safe_between,
    set_after,
    set_share,
)

HABIT = Habit(0.5, 60.0, 0.05, 0.003)
GROWING = Growing(80.0, 0.2, 0.01, 26.0)


@pytest.mark.parametrize("planted", [Setting(1.5, 4.0), Setting(2.5, 6.0), Setting(0.8, 3.0)])
def test_calibration_recovers_what_was_planted(planted: Setting) -> None:
    found = calibrated(logged(planted, 300, seed=11))
    assert found.setting.wait == pytest.approx(planted.wait, rel=0.2)
    assert found.setting.time == pytest.approx(planted.time, rel=0.1)
    assert last_safe_day(0.15, found.setting) == pytest.approx(last_safe_day(0.15, planted), rel=0.05)


def test_the_interval_holds_the_truth_about_as_often_as_it_says() -> None:
    truth = Setting(2.0, 5.0)
    day = last_safe_day(0.15, truth)
    held = 0
    for seed in range(30):
        low, high = safe_between(calibrated(logged(truth, 40, seed)), 0.15)
        held += low <= day <= high
    assert held >= 23


def test_without_a_log_the_first_guess_stands() -> None:
    found = calibrated([], spread=0.3)
    assert found.setting.wait == pytest.approx(1.5, rel=1e-5)
    assert found.setting.time == pytest.approx(4.0, rel=1e-5)
    assert found.time_between[1] / found.setting.time == pytest.approx(np.exp(1.6448536 * 0.3), rel=1e-4)


def test_a_longer_log_knows_better() -> None:
    wide = [np.ptp(calibrated(logged(Setting(2.0, 5.0), count, 1)).time_between) for count in (0, 10, 100)]
    assert wide == sorted(wide, reverse=True)


@given(
    limit=st.floats(0.01, 0.9),
    already=st.floats(0.0, 0.8),
    pace=st.floats(0.2, 3.0),
    wait=st.floats(0.0, 3.0),
)
@settings(deadline=None, max_examples=many(100))
def test_the_last_safe_day_meets_the_limit(limit: float, already: float, pace: float, wait: float) -> None:
    setting = Setting(wait, 4.0)
    day = last_safe_day(limit, setting, already, pace)
    if already >= limit:
        assert day == 0.0
    else:
        assert set_after((day * pace,), setting, already) == pytest.approx(limit, rel=1e-9)


@given(age=st.floats(0.0, 30.0), more=st.floats(0.0, 5.0))
@settings(deadline=None, max_examples=many(100))
def test_patches_only_grow_and_never_beyond_all(age: float, more: float) -> None:
    less, later = float(set_share(age, Setting())), float(set_share(age + more, Setting()))
    assert 0.0 <= less <= later <= 1.0
    assert set_after((age, more), Setting()) >= less - 1e-15


def test_film_starts_doubling_and_ends_at_its_most() -> None:
    assert film_amount(1e-9, 1.0, np.log(2.0), 3.0) == pytest.approx(8e-9, rel=1e-6)
    assert film_amount(1.0, 100.0, 0.5, 1000.0) == pytest.approx(100.0)


@pytest.mark.parametrize(
    ("want", "more"), [("light", 160.0), ("nitrogen", 0.4), ("phosphorus", 0.02), ("temp_c", 28.0)]
)
def test_more_of_anything_grows_faster_and_less_than_in_proportion(want: str, more: float) -> None:
    plain, fed = growth_rate(GROWING, HABIT), growth_rate(replace(GROWING, **{want: more}), HABIT)
    assert plain < fed < plain * more / getattr(GROWING, want) * 1.1


def test_a_thin_film_is_sated_with_phosphorus_first() -> None:
    """Half the phosphorus slows it little while it is plentiful."""
    rich = replace(GROWING, phosphorus=0.1)
    assert growth_rate(replace(rich, phosphorus=0.05), HABIT) > 0.96 * growth_rate(rich, HABIT)


def test_in_the_dark_nothing_sets() -> None:
    assert last_safe_day(0.15, Setting(), pace=0.0) == inf
    assert effective_age(np.zeros(5), 0.4) == 0.0
    assert safe_between(calibrated([]), 1.0) == (inf, inf)


@pytest.mark.parametrize(
    "faulty",
    [
        lambda: Cleaning(-1.0, "clean"),
        lambda: Cleaning(1.0, "spotless"),  # type: ignore[arg-type]  # the fault is meant
        lambda: Cleaning(1.0, "clean", (-1.0,)),
        lambda: Setting(time=0.0),
        lambda: Eye((0.3, 0.1)),
        lambda: Habit(0.5, 0.0, 0.05, 0.003),
        lambda: Growing(-1.0, 0.1, 0.1, 26.0),
        lambda: film_amount(0.0, 1.0, 0.5, 1.0),
        lambda: last_safe_day(1.5, Setting()),
        lambda: calibrated([], Setting(wait=0.0)),
    ],
)
def test_impossible_films_are_refused(faulty: object) -> None:
    with pytest.raises(ImpossibleInput):
        faulty()  # type: ignore[operator]  # each is a call that fails
