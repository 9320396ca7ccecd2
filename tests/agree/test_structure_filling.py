"""The steps of a fill against a second way to the bow, and the readings a builder would take."""

from __future__ import annotations

import numpy as np
import pytest

from tidestead.core.errors import ImpossibleInput
from tidestead.physics.structure.filling import CREEP_IN_HOLD, READING_ERROR, fill_steps, judge_reading
from tidestead.physics.structure.walls import stud_deflection

LENGTH, STIFFNESS, WEIGHT, SPACING = 1.2, 30e3, 10.05e3, 0.4


def _bow(depth: float) -> float:
    """Bow of a stud by its exact formula."""
    return float(stud_deflection(LENGTH, depth, WEIGHT * depth * SPACING, STIFFNESS).deflection)


def _strip_bow(depth: float) -> float:
    """The same by summing point loads on a simply supported beam, largest over the span."""
    at = np.linspace(0.0, LENGTH, 801)
    from_foot = (np.arange(2000) + 0.5) / 2000 * depth
    loads = WEIGHT * (depth - from_foot) * SPACING * depth / 2000
    bow = np.zeros_like(at)
    for place, load in zip(from_foot, loads, strict=True):
        far = LENGTH - place
        left = at <= place
        bow += np.where(
            left,
            load * far * at * (LENGTH**2 - far**2 - at**2),
            load * place * (LENGTH - at) * (LENGTH**2 - place**2 - (LENGTH - at) ** 2),
        ) / (6.0 * STIFFNESS * LENGTH)
    return float(bow.max())


def test_steps_agree_with_summed_point_loads() -> None:
    for step in fill_steps(_bow, 1.1, 2.0):
        assert step.at_once == pytest.approx(_strip_bow(step.depth), rel=1e-4)
        assert step.lasting == pytest.approx(2.0 * step.at_once)


def test_what_a_reading_says() -> None:
    step = fill_steps(_bow, 1.1, 2.0)[-1]
    assert judge_reading(step, step.at_once, None) == "wait"
    seen = step.at_once + CREEP_IN_HOLD * (step.lasting - step.at_once)
    assert judge_reading(step, step.at_once + 1.1 * READING_ERROR, step.at_once - READING_ERROR) == "wait"
    assert judge_reading(step, seen, seen) == "go on"
    assert judge_reading(step, seen + 1.1 * READING_ERROR, seen) == "stop and drain"
    assert judge_reading(step, step.lasting, step.lasting) == "stop and drain"


def test_nobody_goes_on_above_what_is_allowed_for_good() -> None:
    allowed = 0.9 * _bow(1.1)
    step = fill_steps(_bow, 1.1, 2.0, allowed)[-1]
    assert step.stop_above == allowed
    assert judge_reading(step, step.at_once, step.at_once) == "stop and drain"
    assert fill_steps(_bow, 1.1, 2.0, allowed)[0].stop_above < allowed


def test_point_that_moves_inward_stops_outward_of_where_it_should_be() -> None:
    for step in fill_steps(lambda depth: -_bow(depth), 1.1, 2.0):
        assert step.stop_below < step.at_once < step.stop_above
        # further in than creep and the reading can explain is as wrong as further out
        deep = step.at_once - 1.01 * (step.at_once - step.stop_below)
        assert judge_reading(step, deep, deep) == "stop and drain"
        assert judge_reading(step, step.at_once, step.at_once) == "go on"


def test_nothing_recovers_under_load() -> None:
    with pytest.raises(ImpossibleInput, match="less with time"):
        fill_steps(_bow, 1.0, 0.9)
