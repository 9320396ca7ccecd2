"""The exported file read and solved by EPANET itself: flows of the closed pipes within 1 %."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from epanet import toolkit

from tests.journeys.flow_plans import SMALL, example, facts_of
from tidestead.core.pipework import ClosedNetwork, ClosedPipe, FixedHead
from tidestead.report.inp import inp_text
from tidestead.studies.flow.facts import FlowFacts

PLANS = {"small": SMALL, "skerry": example("skerry"), "packhouse": example("packhouse")}


def solved(text: str, folder: Path) -> dict[str, float]:
    """Flow by link in m3/s, as EPANET finds it."""
    path = folder / "net.inp"
    path.write_text(text, encoding="utf-8")
    project = toolkit.createproject()
    toolkit.open(project, str(path), str(folder / "net.rpt"), str(folder / "net.out"))
    toolkit.openH(project)
    toolkit.initH(project, toolkit.NOSAVE)
    toolkit.runH(project)
    count = toolkit.getcount(project, toolkit.LINKCOUNT)
    flows = {
        toolkit.getlinkid(project, at): toolkit.getlinkvalue(project, at, toolkit.FLOW) / 3600.0
        for at in range(1, count + 1)
    }
    toolkit.closeH(project)
    toolkit.close(project)
    toolkit.deleteproject(project)
    return flows


def closed_of(facts: FlowFacts) -> ClosedNetwork:
    assert facts.closed is not None
    return facts.closed


@pytest.mark.parametrize("name", list(PLANS))
def test_epanet_finds_the_same_flows(name: str, tmp_path: Path) -> None:
    """EPANET takes its friction factor from Swamee and Jain and knows no head that opens a check valve: 1 %."""
    facts = facts_of(PLANS[name])
    found = solved(inp_text(closed_of(facts)), tmp_path)
    compared = 0
    for line in facts.lines:
        mine = [flow for link, flow in found.items() if link.startswith(f"{line.key}.0.")]
        if mine:
            compared += 1
            assert mine == pytest.approx([facts.flows[line.key]] * len(mine), rel=0.01, abs=1e-7)
    assert compared >= 1
    assert any(line.pump and f"{line.key}.0.0p" in found for line in facts.lines)


def test_what_is_no_closed_pipe_is_named_as_left_out() -> None:
    text = inp_text(closed_of(facts_of(PLANS["skerry"])))
    assert "left out: " in text
    assert "comb" in text.split("[JUNCTIONS]", maxsplit=1)[0]


def test_names_are_kept_apart_and_titles_harmless() -> None:
    pipes = tuple(ClosedPipe("a" * 40 + end, "x", "y", 1.0, 0.05, 1e-6) for end in "bc")
    network = ClosedNetwork("[END]\n; x", 1e-6, (FixedHead("x", 1.0), FixedHead("y", 0.0)), (), pipes, (), ())
    lines = inp_text(network).splitlines()
    assert lines.count("[END]") == 1
    starts = [line.split()[0] for line in lines if line.startswith("aaa")]
    assert len(set(starts)) == 2


def test_command_writes_the_file(tmp_path: Path) -> None:
    plan, out = tmp_path / "plan.toml", tmp_path / "net.inp"
    plan.write_text(SMALL, encoding="utf-8")
    command = [sys.executable, "-m", "tidestead", "export", str(plan), "--to", "inp", "-o", str(out)]
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=120)
    assert done.returncode == 0, done.stderr
    assert out.read_text(encoding="utf-8").startswith("[TITLE]")
