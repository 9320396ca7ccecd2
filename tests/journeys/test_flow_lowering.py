"""Hours to a level and to empty, against closed forms of the same integral."""

from __future__ import annotations

import math

import pytest

from tests.journeys.flow_plans import SMALL, answer_of, changed, facts_of
from tidestead.core.errors import PlanError
from tidestead.plan import loads
from tidestead.studies.flow.lowering import Lowered, lowered

G = 9.80665

DRAINED = (
    ('ports.jet = {', 'ports.drain = { kind = "inlet", level = "0.02 m" }\nports.jet = {'),
    ('ports.fall = {', 'ports.from_drain = { kind = "spill", level = "0.60 m" }\nports.fall = {'),
    ("[targets]", '[valves.drain]\nkind = "ball"\nopen = "0 %"\n\n[apparatus.gate]\nkind = "other"\n'
     'loss = "1 m at 6 m3/h"\n\n[circuits.drain]\nstart = "tank.drain"\n'
     'route = ["pipe pvc-50-pn10 1 mm", "apparatus gate", "valve drain"]\nend = "sump.from_drain"\n\n[targets]'),
)  # fmt: skip


def _found(text: str, vessel: str, by: str) -> list[Lowered]:
    return [
        one
        for one in lowered(loads(text).plan, facts_of(text))
        if one.vessel == vessel and one.way.words == by
    ]


def test_a_drain_empties_as_torricelli_says() -> None:
    """Losses that grow with the square: t = 2*A*(sqrt(h0) - sqrt(h1))/k, with Q = k*sqrt(h). The pipe of a
    millimetre loses nothing that counts; the ball valve is opened for it: 3 f_T (Crane).
    """
    text = changed(SMALL, *DRAINED)
    facts = facts_of(text)
    bore = facts.line("drain").bore
    friction = 0.25 / math.log10(4.572e-5 / bore / 3.7) ** 2
    ends = (1.5 + 3.0 * friction) / (2.0 * G * (math.pi * bore**2 / 4.0) ** 2)
    k = (1.0 / (1.0 / (6.0 / 3600.0) ** 2 + ends)) ** 0.5
    start, end, outlet = facts.levels["tank"], 1.02, 0.60
    by_hand = 2.0 * 6.0 * ((start - outlet) ** 0.5 - (end - outlet) ** 0.5) / k
    half, low = _found(text, "tank", "line drain")
    assert low.time == pytest.approx(by_hand, rel=3e-3)
    assert low.level == pytest.approx(1.02)
    assert low.left == pytest.approx(6.0 * 0.02)
    assert low.way.to == "sump"
    assert half.level == pytest.approx(1.0 + (start - 1.0) / 2.0)


PARABOLA = ('curve = ["0 m3/h at 5 m", "8 m3/h at 4 m", "14 m3/h at 2 m", "18 m3/h at 0 m"]',
            'curve = ["0 m3/h at 5 m", "18 m3/h at 0 m"]')  # fmt: skip


def test_a_pump_on_its_curve_against_falling_water_by_its_integral() -> None:
    """Of two ends a parabola is made: Q = Q0*sqrt(1 - H/H0). A wide, short line costs nothing that counts, so that
    t = 2*A*H0/Q0*(sqrt(1 - H_start/H0) - sqrt(1 - H_end/H0)).
    """
    route = '"pipe pvc-90-pn10 0.5 m", "pump lift", "pipe pvc-75-pn10 2.5 m", "elbow-90 x3", "valve set"'
    text = changed(SMALL, PARABOLA, (route, '"pipe dwv-8in 1 cm", "pump lift"'))
    facts = facts_of(text)
    lift_start, lift_end = facts.levels["tank"] - 0.40, facts.levels["tank"] - 0.10
    roots = (1.0 - lift_start / 5.0) ** 0.5 - (1.0 - lift_end / 5.0) ** 0.5
    by_hand = 2.0 * 1.28 * 5.0 / (18.0 / 3600.0) * roots
    low = _found(text, "sump", "pump lift")[-1]
    assert low.level == pytest.approx(0.10)
    assert low.time == pytest.approx(by_hand, rel=5e-3)
    assert low.moved == pytest.approx(1.28 * 0.30)
    assert low.left == pytest.approx(1.28 * 0.10)


def test_falling_water_slows_the_pump() -> None:
    for one in _found(SMALL, "sump", "pump lift"):
        assert one.time is not None
        assert one.time > one.moved / facts_of(SMALL).flows["up"]


def test_a_vessel_without_a_pump_is_emptied_by_a_hose_and_the_level_wanted_is_the_plans() -> None:
    half, empty = _found(SMALL, "tank", "pump lift, hose")
    assert (empty.level, empty.left) == pytest.approx((1.0, 0.0))
    assert half.moved == pytest.approx(empty.moved / 2.0)
    text = changed(SMALL, ('water = "0.82 m"', 'water = "0.82 m"\nlower_to = "0.30 m"'))
    wanted, _ = _found(text, "tank", "pump lift, hose")
    assert wanted.level == pytest.approx(1.30)


def test_a_pump_too_weak_for_the_brim_says_so() -> None:
    text = changed(SMALL, ('height = "0.90 m"', 'height = "3.0 m"'), ('brim = "0.88 m"', 'brim = "2.9 m"'),
                   ("0 m3/h at 5 m", "0 m3/h at 2.6 m"), ("8 m3/h at 4 m", "8 m3/h at 2.2 m"),
                   ("14 m3/h at 2 m", "14 m3/h at 1.2 m"))  # fmt: skip
    _, empty = _found(text, "tank", "pump lift, hose")
    assert empty.time is None
    rows = next(table for table in answer_of(text).tables if table.id == "flow.lowering").rows
    assert "too high for it" in [row[3] for row in rows]


def test_a_level_above_the_water_is_refused() -> None:
    with pytest.raises(PlanError) as caught:
        loads(changed(SMALL, ('water = "0.82 m"', 'water = "0.82 m"\nlower_to = "0.85 m"')))
    (fault,) = caught.value.faults
    assert fault.where == "vessels.tank.lower_to"
    assert "not lower" in fault.allowed
