"""What no course of the waters may break: balances that close, levels that stay where they can, order, refusals."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from typing import Literal

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.waters import FULL, alone, around, circuit, gaps
from tests.many import many
from tidestead.core.compiled import PLAIN
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.transient.engine import Course, carried, hours_until, run
from tidestead.physics.transient.system import (
    FLOOR,
    Air,
    Body,
    Forcing,
    Heater,
    Leak,
    Life,
    Nitrifiers,
    Overflow,
    Pump,
    System,
    TopOff,
)

CLOSED = 1e-9
HEEL = 1e-3


@st.composite
def made(draw: st.DrawFn) -> System:
    """The circuit with anything broken: hoses, floats, drains, brims, holes, heaters."""
    share = st.floats(0.0, 1.0)
    plain = circuit(draw(st.sampled_from([0.0, 1e-4])), draw(st.sampled_from([0.0, 1e-4, 3e-3])))
    bodies = tuple(replace(one, volume=one.brim * (0.01 + 0.99 * draw(share))) for one in plain.bodies)
    hose = Pump(1, FLOOR, 2e-3 * draw(share), 0.2)
    course = np.array(draw(st.lists(st.sampled_from([0.0, 0.5, 1.0]), min_size=1, max_size=6)))
    pumps = (*(replace(one, course=course) for one in plain.pumps), *([hose] if draw(st.booleans()) else []))
    falls = tuple(replace(one, capacity=0.02 * draw(share)) for one in plain.overflows)
    modes: list[Literal["hold", "open", "shut"]] = ["hold", "open", "shut"]
    mode = draw(st.sampled_from(modes))
    tops = (
        replace(
            plain.top_offs[0], mode=mode, flow=1e-3 * draw(share), stock=draw(st.sampled_from([0.02, 2.0]))
        ),
    )
    return replace(plain, bodies=bodies, pumps=pumps, overflows=falls, top_offs=tops)


@settings(max_examples=many(60), deadline=None)
@given(system=made(), hours=st.sampled_from([1.0, 7.5, 30.0]), step=st.sampled_from([30.0, 120.0, 600.0]))
def test_every_balance_closes_and_levels_stay_within_the_walls(
    system: System, hours: float, step: float
) -> None:
    course = run(system, hours, step)
    found = gaps(system, course)
    assert max(found.values()) < CLOSED, found
    for at, body in enumerate(system.bodies):
        assert np.min(course.volume[at]) >= min(HEEL * body.brim, body.volume) * (1.0 - 1e-6)
        assert np.max(course.volume[at]) <= body.brim * (1.0 + 1e-9)
    assert np.min(course.stock) >= 0.0
    assert np.min(course.oxygen) >= -1e-9
    assert np.min(course.tan) >= 0.0


@settings(max_examples=many(25, 20), deadline=None)
@given(system=made())
def test_a_run_in_two_is_a_run(system: System) -> None:
    """Where nothing goes by the hour and nothing leads or lags by a step."""
    even = replace(circuit(), bodies=system.bodies, overflows=system.overflows, top_offs=system.top_offs)
    whole = run(even, 6.0, 120.0)
    first = run(even, 2.0, 120.0)
    second = run(carried(even, first), 4.0, 120.0)
    for kind in ("volume", "temp_c", "sal_psu", "oxygen", "tan", "organic", "stock"):
        assert np.allclose(
            getattr(second, kind)[..., -1], getattr(whole, kind)[..., -1], rtol=1e-9, atol=1e-9
        ), kind


def turns(series: np.ndarray) -> int:
    """How often a series that had risen falls, or the other way round."""
    steps = np.sign(np.where(np.abs(np.diff(series)) < 1e-9 * np.max(np.abs(series)), 0.0, np.diff(series)))
    steps = steps[steps != 0.0]
    return int(np.sum(steps[1:] != steps[:-1]))


def test_a_float_and_a_crest_hold_without_chatter() -> None:
    course = run(circuit(), 48.0)
    assert np.ptp(course.volume[0]) < 1e-9
    assert np.ptp(course.volume[1]) < 1e-9
    assert np.max(np.ptp(course.pump_flow, axis=1)) == 0.0


def test_a_starving_pump_falls_once_and_stays() -> None:
    """The float stuck shut, no stock: the sump goes down to the intake, then the pump runs dry."""
    system = replace(circuit(), top_offs=(), leaks=(), inflows=())
    course = run(system, 24.0 * 14.0)
    forcing = system.forcing
    assert forcing is not None
    lost = float(np.sum(forcing.even)) / 997.0
    starved = hours_until(course, 1, "volume", system.pumps[0].intake * (1.0 + 1e-9), rising=False)
    assert starved == pytest.approx((1.5 - 0.3) / lost / 3600.0, abs=120.0 / 3600.0)
    assert turns(course.pump_flow[0]) == 0
    assert course.pump_flow[0, -1] < 0.01 * course.pump_flow[0, 0]


def test_a_choked_drain_fills_the_tank_at_the_difference() -> None:
    """The tank rises to its brim and spills what the drain does not take, until the sump's intake."""
    drain, pump = 3e-3, 5e-3
    tank, sump = alone(volume=18.0, brim=19.0), alone(volume=3.0, area=3.0, brim=4.0)
    system = System((tank, sump), pumps=(Pump(1, 0, pump, 0.5),), overflows=(Overflow(0, 1, 18.0, drain),))
    course = run(system, 2.0, 20.0)
    brimful = hours_until(course, 0, "volume", 19.0 * (1.0 - 1e-12), rising=True)
    assert brimful == pytest.approx(1.0 / (pump - drain) / 3600.0, rel=1e-6)
    assert course.flood[-1] == pytest.approx(3.0 - 0.5 - 1.0, rel=1e-6)
    assert course.spilled[0, -1] == course.flood[-1]
    assert turns(course.volume[0]) == 0


def test_a_burst_hose_empties_to_the_intake_and_no_further() -> None:
    sump = alone(volume=3.0, area=3.0, brim=4.0)
    course = run(System((sump,), pumps=(Pump(0, FLOOR, 2e-3, 0.5),)), 1.0, 30.0)
    assert course.volume[0, -1] == pytest.approx(0.5, rel=1e-9)
    assert course.flood[-1] == pytest.approx(2.5, rel=1e-9)
    assert course.sal_psu[0, -1] == pytest.approx(35.0, rel=1e-9)


def test_two_holed_waters_in_a_ring_have_an_answer() -> None:
    """Both pumps at their intakes, each fed by the other alone: nothing runs."""
    low = alone(volume=1.0, area=1.0, brim=4.0)
    system = System(
        (low, low), pumps=(Pump(0, 1, 5e-3, 1.0), Pump(1, 0, 4e-3, 1.0)), forcing=around(2, 0.0, 0.0, 1e-4)
    )
    course = run(system, 24.0, 600.0)
    assert np.max(course.pump_flow[:, 1:]) < 1e-9
    assert np.sum(course.volume[:, -1]) == pytest.approx(2.0 - 2 * 1e-4 * 86400.0 / 997.0, rel=1e-9)


@settings(max_examples=many(25, 20), deadline=None)
@given(
    uptake=st.floats(2.0, 20.0),
    loss=st.floats(50.0, 500.0),
    cover=st.floats(0.05, 0.95),
    half=st.sampled_from([0.0, 0.05]),
)
def test_a_cover_keeps_warmth_and_never_gives_oxygen(
    uptake: float, loss: float, cover: float, half: float
) -> None:
    def course(share: float) -> Course:
        body = alone(air=Air(20.0, share * 0.026 / 3600.0), life=Life(fixed=uptake, half=half))
        return run(System((body,), forcing=around(1, 5.0, loss * (0.4 + 0.6 * share))), 100.0, 600.0)

    open_, covered = course(1.0), course(cover)
    warm = [hours_until(one, 0, "temp_c", 22.0, rising=False) for one in (open_, covered)]
    air = [hours_until(one, 0, "oxygen", 3.0, rising=False) for one in (open_, covered)]
    assert warm[0] is not None
    assert warm[1] is None or warm[1] > warm[0]
    if air[0] is not None:
        assert air[1] is not None
        assert air[1] <= air[0] * (1.0 + 1e-9)


@settings(max_examples=20, deadline=None)
@given(excretion=st.floats(0.1, 2.0), after=st.integers(0, 24), clearance=st.floats(0.0, 0.05))
def test_stopping_feed_gives_hours_to_ammonia(excretion: float, after: int, clearance: float) -> None:
    def hours(course: np.ndarray | None) -> float:
        body = alone(
            life=Life(excretion=excretion, excretion_course=course), nitrifiers=Nitrifiers(clearance)
        )
        found = hours_until(run(System((body,)), 400.0, 1200.0), 0, "nh3", 0.035, rising=True)
        return 1e9 if found is None else found

    stopped = np.array([1.0] * after + [0.3])
    assert hours(stopped) >= hours(None) * (1.0 - 1e-12)
    assert hours(np.zeros(1)) == 1e9


def test_animals_stop_using_oxygen_that_is_gone() -> None:
    body = alone(life=Life(40.0, half=0.05))
    course = run(System((body,)), 24.0, 600.0)
    assert 0.0 <= course.oxygen[0, -1] < 1e-3
    assert course.ledgers.oxygen_animals[0] == pytest.approx(20.0 * FULL, rel=1e-3)


def test_even_uptake_goes_on_below_nothing() -> None:
    course = run(System((alone(life=Life(fixed=20.0)),)), 10.0, 600.0)
    assert course.oxygen[0, -1] == pytest.approx(FULL - 10.0, rel=1e-12)


def test_bacteria_stop_at_their_ceiling_and_without_oxygen() -> None:
    def nitrified(level: float, ceiling: float) -> float:
        body = alone(tan=1.0, oxygen=level, nitrifiers=Nitrifiers(5.0, ceiling, 1e-6))
        return float(run(System((body,)), 1.0).ledgers.nitrified[0])

    assert nitrified(FULL, 0.5) == pytest.approx(0.5, rel=1e-6)
    assert nitrified(FULL, 50.0) == pytest.approx(20.0 * (1.0 - np.exp(-0.25)), rel=1e-6)
    assert nitrified(0.0, 50.0) < 1e-6


def test_dying_bacteria_are_no_limit_to_others() -> None:
    dying = Nitrifiers(5.0, course=np.array([1.0, 0.0]))
    course = run(System((alone(tan=1.0, nitrifiers=dying),)), 3.0, 600.0)
    assert course.tan[0, 6] < course.tan[0, 0]
    assert course.tan[0, 6] == course.tan[0, -1]


def test_a_chiller_and_a_heater_meet_at_their_bands() -> None:
    heated = run(
        System((alone(),), heaters=(Heater(0, 4000.0, 27.0),), forcing=around(1, 5.0, 100.0)), 300.0, 3600.0
    )
    cooled = run(
        System((alone(),), heaters=(Heater(0, 4000.0, 25.0, cools=True),), forcing=around(1, 40.0, 100.0)),
        300.0,
        3600.0,
    )
    assert heated.temp_c[0, -1] == pytest.approx(27.0, abs=0.25)
    assert heated.temp_c[0, -1] * 100.0 == pytest.approx(
        500.0 + 4000.0 * (27.0 - heated.temp_c[0, -1] + 0.25) / 0.5
    )
    assert cooled.temp_c[0, -1] == pytest.approx(25.0, abs=0.25)
    assert cooled.ledgers.heat_heaters[0] < 0.0


PLAIN_RUN = """
import numpy as np
from tests.laws.waters import circuit
from tidestead.core import compiled
from tidestead.physics.transient.engine import run
assert compiled.numba() is None
course = run(circuit(1e-4, 1e-4), 3.0, 120.0)
np.save(TO, np.vstack([course.volume, course.temp_c, course.sal_psu, course.oxygen, course.tan, course.pump_flow]))
"""


def test_plain_python_gives_the_same(tmp_path: Path) -> None:
    """Without the compiler, in a process of its own."""
    to = tmp_path / "plain.npy"
    done = subprocess.run(
        [sys.executable, "-c", PLAIN_RUN.replace("TO", repr(str(to)))],
        env={**os.environ, PLAIN: "1"},
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr
    course = run(circuit(1e-4, 1e-4), 3.0, 120.0)
    ours = np.vstack(
        [course.volume, course.temp_c, course.sal_psu, course.oxygen, course.tan, course.pump_flow]
    )
    np.testing.assert_allclose(np.load(to), ours, rtol=1e-12, atol=1e-14)


TABLE = np.zeros((1, 4))


@pytest.mark.parametrize(
    "faulty",
    [
        lambda: System(()),
        lambda: alone(volume=30.0),
        lambda: alone(volume=0.0),
        lambda: alone(sal_psu=-1.0),
        lambda: Life(q10=0.0),
        lambda: Life(excretion_course=np.array([-1.0])),
        lambda: Air(bubble_course=np.array([])),
        lambda: Nitrifiers(half=0.0),
        lambda: System((alone(),), pumps=(Pump(0, 1, 1e-3),)),
        lambda: System((alone(),), pumps=(Pump(0, 0, 1e-3),)),
        lambda: System((alone(),), overflows=(Overflow(0, FLOOR, 1.0),)),
        lambda: System((alone(), alone()), overflows=(Overflow(0, 1, 26.0),)),
        lambda: System((alone(),), top_offs=(TopOff(0, 26.0, 1e-4),)),
        lambda: System((alone(),), heaters=(Heater(1, 1.0, 26.0),)),
        lambda: System((alone(),), forcing=around(2, 5.0, 1.0)),
        lambda: TopOff(0, 20.0, 1e-4, mode="half"),  # type: ignore[arg-type]  # the fault is meant
        lambda: Heater(0, 1.0, 26.0, band=0.0),
        lambda: Leak(0, 0.0, 1e-4, 1e-4),
        lambda: Forcing(TABLE, TABLE, TABLE, TABLE[:, :3]),
        lambda: Forcing(TABLE, TABLE - 1.0, TABLE, TABLE),
        lambda: Forcing(TABLE * np.nan, TABLE, TABLE, TABLE),
        lambda: run(System((alone(),)), 1.0, 7000.0),
        lambda: run(System((alone(),)), 1.0, 130.0),
        lambda: run(System((alone(),)), -1.0),
    ],
)
def test_impossible_waters_are_refused(faulty: object) -> None:
    with pytest.raises(ImpossibleInput):
        faulty()  # type: ignore[operator]  # each is a call that fails


def test_bodies_keep_apart_what_is_not_joined() -> None:
    both = System((alone(), Body(2.0, 3.0, 2.5, 20.0, 30.0, 7.0, life=Life(1.0))))
    course = run(both, 10.0, 600.0)
    single = run(System((both.bodies[1],)), 10.0, 600.0)
    assert np.array_equal(course.oxygen[1], single.oxygen[0])
    assert np.all(course.oxygen[0] == course.oxygen[0, 0])
