"""Networks solved side by side against EPANET, one at a time; laws put together against the library fluids."""

from __future__ import annotations

from pathlib import Path

import fluids
import pytest

from tests.agree.epanet_network import Circuit, circuit, opened
from tidestead.core.dims import G
from tidestead.physics.flow.fittings import FittingLaw, gathered
from tidestead.physics.flow.laws import Law
from tidestead.physics.flow.pipes import PipeLaw, pipe_velocity
from tidestead.physics.flow.side_by_side import NetworkCase, solve_networks

CLOSE = 0.01
"""Relative. EPANET takes Swamee and Jain's friction factor: up to 0.7 % off Colebrook's, flows half that."""

BORE, ROUGHNESS, VISCOSITY = 0.0525, 1.5e-6, 0.94e-6


def their_flows(given: Circuit, folder: Path) -> dict[str, float]:
    other = opened(given, folder)
    other.solve()
    flows = other.flows()
    other.close()
    return flows


def test_circuits_at_several_levels(tmp_path: Path) -> None:
    given = circuit()
    several = [Circuit(given.links, {**given.fixed, "sump": level}, {}) for level in (0.2, 0.4, 0.6)]
    states = solve_networks([NetworkCase(tuple(one.links), one.fixed) for one in several])
    pumped = []
    for number, (one, state) in enumerate(zip(several, states, strict=True)):
        folder = tmp_path / str(number)
        folder.mkdir()
        assert state is not None
        assert dict(state.flows) == pytest.approx(their_flows(one, folder), rel=CLOSE)
        pumped.append(state.flows["pump"])
    assert pumped[0] < pumped[1] < pumped[2]


@pytest.mark.parametrize("flow", [3e-4, 1e-3, 4e-3])
def test_pipes_and_fittings_of_one_bore(flow: float) -> None:
    parts: list[Law] = [
        PipeLaw(2.0, BORE, ROUGHNESS, VISCOSITY, 0.5),
        FittingLaw(0.9, BORE),
        PipeLaw(3.5, BORE, ROUGHNESS, VISCOSITY),
        FittingLaw(1.0, BORE),
    ]
    velocity = pipe_velocity(flow, BORE)
    factor = fluids.friction_factor(Re=velocity * BORE / VISCOSITY, eD=ROUGHNESS / BORE)
    k = fluids.core.K_from_f(factor, L=5.5, D=BORE) + 0.5 + 0.9 + 1.0
    assert gathered(parts).at(flow).head == pytest.approx(fluids.core.head_from_K(k, velocity, g=G), rel=1e-6)
