"""Our network solver against EPANET, which takes Swamee and Jain's friction factor for Colebrook's."""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest

from tests.agree.epanet_network import Circuit, circuit, grid, opened
from tidestead.physics.flow.network import solve_network

CLOSE = 0.01
"""Relative. The two friction factors are up to 0.7 % apart, flows half that; 0.05 to 0.2 % is usual."""


def both(
    given: Circuit, folder: Path
) -> tuple[dict[str, float], dict[str, float], dict[str, float], dict[str, float]]:
    ours = solve_network(given.links, given.fixed, given.injections)
    theirs = opened(given, folder)
    theirs.solve()
    found = dict(ours.flows), theirs.flows(), dict(ours.heads), theirs.heads()
    theirs.close()
    return found


def test_a_circuit_of_23_links(tmp_path: Path) -> None:
    given = circuit()
    assert len(given.links) >= 20
    flows, their_flows, heads, their_heads = both(given, tmp_path)
    assert flows["pump"] == pytest.approx(their_flows["pump"], rel=0.002)
    assert flows == pytest.approx(their_flows, rel=CLOSE)
    assert heads == pytest.approx(their_heads, rel=CLOSE)


def test_a_net_of_500_links(tmp_path: Path) -> None:
    given = grid(16, 17)
    assert len(given.links) > 500
    flows, their_flows, heads, their_heads = both(given, tmp_path)
    largest = max(flows.values())
    assert flows == pytest.approx(their_flows, rel=CLOSE, abs=2e-3 * largest)
    assert heads == pytest.approx(their_heads, rel=CLOSE)


def test_a_check_valve_pressed_shut(tmp_path: Path) -> None:
    given = circuit()
    higher = Circuit(given.links, {**given.fixed, "riser": 9.0}, given.injections)
    flows, their_flows, _, _ = both(higher, tmp_path)
    assert flows["check"] == 0.0
    assert their_flows["check"] == pytest.approx(0.0, abs=1e-6)
    assert flows == pytest.approx(their_flows, rel=CLOSE, abs=2e-6)


def test_every_pair_of_levels(tmp_path: Path) -> None:
    given = circuit()
    for at, (sump, tower) in enumerate(itertools.product((0.2, 0.6), (0.4, 1.6))):
        folder = tmp_path / str(at)
        folder.mkdir()
        levels = Circuit(given.links, {"sump": sump, "tower": tower}, given.injections)
        flows, their_flows, _, _ = both(levels, folder)
        assert flows == pytest.approx(their_flows, rel=CLOSE, abs=2e-6)
