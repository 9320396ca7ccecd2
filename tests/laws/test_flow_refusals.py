"""Networks that have no answer, and what is no network: each refusal says where. Nothing is silently wrong."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import pytest

from tests.laws.flow_networks import CIRCUIT, PUMP, RISER, SPILL, SUMP, faults, pipe, weir
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.physics.flow import _network_settled
from tidestead.physics.flow._network_layout import Flags, Layout
from tidestead.physics.flow._network_rounds import Running
from tidestead.physics.flow.fittings import FittingLaw
from tidestead.physics.flow.laws import HeadAt, Link, ShutLaw
from tidestead.physics.flow.network import solve_network
from tidestead.physics.flow.valves import CheckLaw


@pytest.mark.parametrize(
    ("more", "fixed", "injections", "words"),
    [
        ([Link("x", "lost1", "lost2", pipe(1.0, 0.02))], SUMP, {}, "no fixed level can be reached from lost1, lost2"),
        ([Link("x", "tank", "high", over=weir(0.5), crest=1.0)], SUMP, {}, "no fixed level can be reached from high"),
        ([Link("x", "tank", "y", ShutLaw()), Link("z", "y", "w", pipe(1.0, 0.02))], SUMP, {"y": 1e-4}, "no way out"),
        ([Link("x", "sump", "y", CheckLaw(1.0, 0.02), one_way=True)], SUMP, {"y": 1e-4}, r"y: .*no way out"),
    ],
)  # fmt: skip
def test_networks_without_an_answer_say_where(
    more: list[Link], fixed: dict[str, float], injections: dict[str, float], words: str
) -> None:
    with pytest.raises(SolverError, match=words):
        solve_network([*CIRCUIT, *more], fixed, injections)


def test_a_weir_cannot_be_drawn_from() -> None:
    with pytest.raises(SolverError, match=r"tank: .*no way out"):
        solve_network((SPILL,), SUMP, {"tank": -1e-3})


@pytest.mark.parametrize(
    ("links", "fixed", "injections", "words"),
    [
        ([], SUMP, {}, "a network needs elements"),
        (CIRCUIT, {}, {}, "a level that is fixed"),
        ([*CIRCUIT, PUMP], SUMP, {}, "two elements are named pump"),
        ([*CIRCUIT, Link("x", "p", "p", pipe(1.0, 0.02))], SUMP, {}, "x starts and ends at p"),
        ([*CIRCUIT, Link("x", "p", "q")], SUMP, {}, "x has neither"),
        (CIRCUIT, {**SUMP, "attic": 3.0}, {}, "level given at attic, which no element touches"),
        (CIRCUIT, SUMP, {"attic": 1e-3}, "inflow given at attic"),
        (CIRCUIT, SUMP, {"sump": 1e-3}, "sump has a fixed level"),
        (CIRCUIT, {"sump": math.nan}, {}, "level at sump must be a finite number"),
        (CIRCUIT, SUMP, {"tank": math.inf}, "inflow at tank must be a finite number"),
        ([PUMP, RISER, replace(SPILL, crest=math.nan)], SUMP, {}, "weir: its crest"),
    ],
)
def test_what_is_no_network_is_refused(
    links: list[Link], fixed: dict[str, float], injections: dict[str, float], words: str
) -> None:
    with pytest.raises(ImpossibleInput, match=words):
        solve_network(links, fixed, injections)


@dataclass(frozen=True)
class Broken:
    """A law that gives no number."""

    def at(self, flow: float) -> HeadAt:
        return HeadAt(math.nan, 1.0)


@dataclass(frozen=True)
class Falling:
    """A law that falls with flow, steeper than the pipes about it rise."""

    def at(self, flow: float) -> HeadAt:
        return HeadAt(-1e6 * flow * abs(flow) - 1e4 * flow, -2e6 * abs(flow) - 1e4)


@dataclass(frozen=True)
class Lying:
    """A law whose slope is not that of its head."""

    def at(self, flow: float) -> HeadAt:
        return HeadAt(math.copysign(abs(flow) ** 0.5, flow) * 100.0, 1.0)


def test_a_law_that_gives_no_number_is_named() -> None:
    with pytest.raises(SolverError, match="odd: its law gives no head"):
        solve_network((*CIRCUIT, Link("odd", "p", "sump", Broken())), SUMP)


def test_a_law_with_a_wrong_slope_is_never_answered_wrongly() -> None:
    links = (*CIRCUIT, Link("odd", "p", "sump", Lying()))
    with pytest.raises(SolverError, match=r"no balance found|misses"):
        solve_network(links, SUMP)


def test_a_law_that_falls_is_answered_rightly_or_not_at_all() -> None:
    links = (Link("odd", "t", "m", Falling()), Link("pipe", "m", "s", pipe(0.1, 0.05)))
    try:
        state = solve_network(links, {"t": 1.0, "s": 0.0})
    except SolverError:
        return
    assert faults(links, {"t": 1.0, "s": 0.0}, {}, state) == []


def test_misfits_are_found_at_the_end(monkeypatch: pytest.MonkeyPatch) -> None:
    """The last check itself: an answer spoiled behind the solver's back does not come out."""
    settle = _network_settled.settle

    def spoiled(layout: Layout, running: Running) -> Flags:
        cut_off = settle(layout, running)
        running.flows = running.flows * 1.001
        return cut_off

    monkeypatch.setattr(_network_settled, "settle", spoiled)
    with pytest.raises(SolverError, match="misses"):
        solve_network(CIRCUIT, SUMP)


@dataclass(frozen=True)
class _Lost:
    """A law that finds no head but for next to no flow."""

    def at(self, flow: float) -> HeadAt:
        if flow < 1e-9:
            return HeadAt(1e3 * flow, 1e3)
        raise SolverError(f"no head was found for a flow of {flow} m3/s")


def test_the_element_that_finds_no_head_is_named() -> None:
    links = [Link("pipe", "high", "low", FittingLaw(5.0, 0.05)), Link("odd one", "high", "low", _Lost())]
    with pytest.raises(SolverError, match=r"^odd one: no head was found"):
        solve_network(links, {"high": 1.0, "low": 0.0})
