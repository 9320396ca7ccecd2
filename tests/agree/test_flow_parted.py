"""What a plan's tees lose, as the study finds it, beside the same tees by `fluids` (Crane TP-410, chapter 2)."""

from __future__ import annotations

import math
from dataclasses import replace
from pathlib import Path

import pytest
from fluids.fittings import (
    K_branch_converging_Crane,
    K_branch_diverging_Crane,
    K_run_converging_Crane,
    K_run_diverging_Crane,
)

from tidestead.core.dims import G
from tidestead.physics.flow.fittings import FittingLaw
from tidestead.physics.flow.laws import Link, SeriesLaw
from tidestead.physics.flow.network import NetworkState, solve_network
from tidestead.physics.flow.pipes import PipeLaw
from tidestead.physics.flow.tee_network import TeePlace, tee_heads
from tidestead.physics.flow.tees import Tee
from tidestead.plan import load
from tidestead.plan.flow_fields import RouteItem
from tidestead.plan.model import Circuit
from tidestead.studies.flow.facts import Line, Run
from tidestead.studies.flow.study import find
from tidestead.studies.flow.tees import parted
from tidestead.studies.inputs import Inputs

SKERRY = Path(__file__).parents[2] / "examples" / "skerry.toml"
RUN, BRANCH = 0.0678, 0.0362
"""Bores of the example's manifold: the run of the tee and its branch, metres."""
NEAR = 1e-4
BRIDGED = 0.05
"""Legs with less of the flow are bridged between a little in and a little out; the formulas step there."""


def velocity_head(flow: float, bore: float) -> float:
    return (flow / (math.pi * bore**2 / 4.0)) ** 2 / (2.0 * G)


def test_the_example_parts_its_water_as_the_formulas_say() -> None:
    inputs = Inputs(load(SKERRY).plan, "metric")
    facts = find(inputs)
    assert facts.parted_at == ("manifold",)
    main, jet, feed = (facts.flows[key] for key in ("main", "jet", "feed"))
    lost = {
        key: next(one.head for one in facts.passed[key] if one.run.kind == "tee") for key in ("jet", "feed")
    }
    whole = velocity_head(main, RUN)
    run_k = K_run_diverging_Crane(RUN, BRANCH, jet, feed, angle=90.0)
    branch_k = K_branch_diverging_Crane(RUN, BRANCH, jet, feed, angle=90.0)
    assert lost["jet"] == pytest.approx(run_k * whole, rel=NEAR)
    assert lost["feed"] == pytest.approx(branch_k * whole, rel=NEAR)


def leg(key: str, ends: tuple[str, str], fitting: str, at_start: bool, bore: float) -> Line:
    """A pipe of ten metres with a tee fitting at one end."""
    pipe = Run(RouteItem("pipe", "p", 10.0, 1), "pipe", PipeLaw(10.0, bore, 1e-5, 1e-6), bore, 0.0)
    runs: tuple[Run, ...] = (pipe,)
    if fitting:
        tee = Run(
            RouteItem("fitting", fitting, count=1), fitting, FittingLaw(1.0, bore), bore, 0.0, kind="tee"
        )
        runs = (tee, pipe) if at_start else (pipe, tee)
    law = SeriesLaw(tuple(run.law for run in runs))
    circuit = Circuit(start=ends[0], end=ends[1], route=())
    nodes = [name.partition(".")[0] for name in ends]
    return Line(key, circuit, (Link(key, nodes[0], nodes[1], law),), runs, None, None)


def joining(branch_bore: float) -> tuple[Line, ...]:
    """Two tanks that meet in a tee and run to a third."""
    return (
        leg("one", ("a.out", "tee"), "tee-through", False, 0.05),
        leg("two", ("b.out", "tee"), "tee-branch", False, branch_bore),
        leg("both", ("tee", "c.in"), "", True, 0.05),
    )


@pytest.mark.parametrize("branch_bore", [0.05, 0.026])
@pytest.mark.parametrize("height", [1.5, 2.0, 3.0])
def test_streams_that_join(branch_bore: float, height: float) -> None:
    lines, places, why = parted(joining(branch_bore), {"a": 2.0, "b": height, "c": 0.0})
    assert places == ("tee",)
    assert not why
    state = solve_network([line.links[0] for line in lines], {"a": 2.0, "b": height, "c": 0.0})
    one, two, both = (state.flows[key] for key in ("one", "two", "both"))
    assert min(one, two) > BRIDGED * both
    lost = {line.key: line.runs[-1].law.at(state.flows[line.key]).head for line in lines[:2]}
    whole = velocity_head(both, 0.05)
    assert lost["one"] == pytest.approx(
        K_run_converging_Crane(0.05, branch_bore, one, two, angle=90.0) * whole, rel=NEAR, abs=1e-6
    )
    assert lost["two"] == pytest.approx(
        K_branch_converging_Crane(0.05, branch_bore, one, two, angle=90.0) * whole, rel=NEAR, abs=1e-6
    )


def test_a_place_where_four_lines_meet_keeps_what_is_printed() -> None:
    lines = (*joining(0.05), leg("more", ("tee", "d.in"), "tee-branch", True, 0.05))
    kept, places, why = parted(lines, {"a": 2.0, "b": 2.0, "c": 0.0, "d": 0.0})
    assert kept == lines
    assert not places
    assert not why
    assert parted(tuple(replace(line) for line in lines[:1]), {"a": 1.0})[0] == lines[:1]


@pytest.mark.parametrize(("one", "two"), [(2e-3, 1e-3), (1e-3, 2e-3), (3e-3, 4e-4)])
def test_heads_of_one_tee(one: float, two: float) -> None:
    """Where the water parts: nothing is lost in the leg with all of it, or in the one they are counted against."""
    tee = TeePlace("t", "whole", "run", "branch", Tee(0.05, 0.026))
    links = [
        Link("whole", "a", "t", FittingLaw(1.0, 0.05)),
        Link("run", "t", "b", FittingLaw(1.0, 0.05)),
        Link("branch", "t", "c", FittingLaw(1.0, 0.026)),
    ]
    flows = {"whole": one + two, "run": one, "branch": two}
    state = NetworkState(flows, {}, {}, (), (), 1, 0.0, 0.0)
    heads = tee_heads(tee, links, state)
    dynamic = velocity_head(one + two, 0.05)
    assert heads["whole"] == 0.0
    assert heads["run"] == pytest.approx(
        K_run_diverging_Crane(0.05, 0.026, one, two, angle=90.0) * dynamic, rel=NEAR
    )
    assert heads["branch"] == pytest.approx(
        K_branch_diverging_Crane(0.05, 0.026, one, two, angle=90.0) * dynamic, rel=NEAR
    )
    other = tee_heads(tee, links, state, against="run")
    assert other["run"] == 0.0
    assert other["branch"] == pytest.approx(heads["branch"] - heads["run"], rel=1e-12)
    assert other["whole"] == pytest.approx(heads["run"], rel=1e-12)
