"""Laws of tees in a network."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.laws.flow_networks import pipe
from tests.many import many
from tidestead.core.errors import SolverError
from tidestead.physics.flow.laws import Link
from tidestead.physics.flow.network import solve_network
from tidestead.physics.flow.tee_network import TeePlace, solve_with_tees
from tidestead.physics.flow.tees import Tee

TEE = TeePlace("t", "main", "run", "branch", Tee(0.0409, 0.0409))
LEGS = (
    Link("main", "a", "t", pipe(3.0, 0.0409)),
    Link("run", "t", "x", pipe(3.0, 0.0409, 1.0)),
    Link("branch", "y", "t", pipe(2.0, 0.0409, 1.0)),
)


@given(a=st.floats(0.0, 5.0), x=st.floats(0.0, 5.0), y=st.floats(0.0, 5.0))
@settings(deadline=None, max_examples=many(60))
def test_tees_come_to_rest_whichever_way_the_water_goes(a: float, x: float, y: float) -> None:
    levels = {"a": a, "x": x, "y": y}
    try:
        state = solve_with_tees(LEGS, levels, {}, [TEE])
    except SolverError as told:
        pytest.fail(str(told))
    assert state.flows["main"] + state.flows["branch"] == pytest.approx(state.flows["run"], abs=1e-9)


def test_a_tee_laid_the_other_way_round_is_the_same_tee() -> None:
    levels = {"a": 3.0, "x": 1.0, "y": 0.5}
    turned = [replace(link, start=link.end, end=link.start) for link in LEGS]
    plain, back = solve_with_tees(LEGS, levels, {}, [TEE]), solve_with_tees(turned, levels, {}, [TEE])
    assert back.flows == pytest.approx({name: -flow for name, flow in plain.flows.items()}, rel=1e-6)


def test_a_pipe_between_two_tees_is_a_leg_of_both() -> None:
    """The second branch opposite the first: both take what symmetry gives them when the run is closed."""
    links = (
        Link("feed", "a", "t1", pipe(2.0, 0.0409)),
        Link("b1", "t1", "low", pipe(2.0, 0.0266, 1.0)),
        Link("between", "t1", "t2", pipe(1.0, 0.0409)),
        Link("b2", "t2", "low", pipe(2.0, 0.0266, 1.0)),
        Link("rest", "t2", "low", pipe(2.0, 0.0266, 1.0)),
    )
    branch = Tee(0.0409, 0.0266)
    tees = [TeePlace("t1", "feed", "between", "b1", branch), TeePlace("t2", "between", "rest", "b2", branch)]
    state = solve_with_tees(links, {"a": 2.0, "low": 0.0}, {}, tees)
    plain = solve_network(links, {"a": 2.0, "low": 0.0})
    assert state.flows["feed"] == pytest.approx(state.flows["b1"] + state.flows["between"], rel=1e-9)
    assert state.flows["feed"] < plain.flows["feed"]
    assert state.flows["rest"] > state.flows["b2"]
