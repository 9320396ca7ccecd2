"""Lamps in the line and holes in outlets: what is assumed of them is said, what cannot be is named."""

from __future__ import annotations

import math

import pytest

from tests.journeys.flow_plans import answer_of, changed, check_of, example, facts_of
from tidestead.core.answer import Verdict

LEFT = ('lamp_left = "80 %"\n', "")


def test_what_is_taken_of_a_lamp_is_listed() -> None:
    """Age where the plan is silent, and always its sleeve and the water's clearness."""
    said = [one for one in answer_of(example("skerry")).assumptions if one.key.startswith("apparatus.lamp")]
    assert [one.key for one in said] == ["apparatus.lamp", "apparatus.lamp"]
    silent = answer_of(changed(example("skerry"), LEFT))
    (age,) = [one for one in silent.assumptions if one.key == "apparatus.lamp.lamp_left"]
    assert "80 %" in age.value
    same = check_of(silent, "flow.apparatus.lamp.dose").estimate
    assert same == check_of(answer_of(example("skerry")), "flow.apparatus.lamp.dose").estimate


@pytest.mark.parametrize("volume", ["0.5 L", "120 L"])
def test_a_tube_that_no_lamp_has_proves_nothing(volume: str) -> None:
    """125 mm wide: half a litre would make it 43 mm long, 120 L more than ten metres."""
    text = changed(example("skerry"), ('volume = "14 L"', f'volume = "{volume}"'))
    check = check_of(answer_of(text), "flow.apparatus.lamp.dose")
    assert check.verdict is Verdict.UNPROVEN
    assert "apparatus.lamp.diameter is wrong" in check.missing


def test_a_hole_under_water_squirts_by_what_the_pipe_takes_from_it_to_its_mouth() -> None:
    """Skerry's jet by hand: 63 mm pipe (57.0 inside) at its flow, from 1.155 m down to the mouth's lower edge."""
    facts = facts_of(example("skerry"))
    assert facts.stop is not None
    (hole,) = (one for one in facts.stop.breaks if one.name == "basin.jet")
    speed, nu = facts.flows["jet"] / (math.pi * 0.057**2 / 4.0), facts.water.kinematic_viscosity
    root = 7.0
    for _ in range(50):
        root = -2.0 * math.log10(1.524e-6 / 0.057 / 3.7 + 2.51 * root / (speed * 0.057 / nu))
    length = 1.155 - (1.135 - 0.057 / 2.0)
    lost = length / 0.057 / root**2 * speed**2 / (2.0 * 9.80665)
    assert hole.pressed == pytest.approx(lost, rel=2e-3)
    assert hole.spills == pytest.approx(
        0.61 * math.pi * 0.010**2 / 4.0 * math.sqrt(2.0 * 9.80665 * lost), rel=2e-3
    )
    assert hole.spills < 0.01 * facts.flows["jet"]
