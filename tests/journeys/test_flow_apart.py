"""Two waters that no line joins: each is judged as if the other were not there."""

from __future__ import annotations

import pytest

from tests.journeys.flow_plans import SMALL, answer_of, changed, example, facts_of
from tidestead.core.answer import Check, Verdict
from tidestead.core.units import System
from tidestead.report import svg

RENAMED = (
    ("vessels.tank", "vessels.rear"),
    ("vessels.sump", "vessels.pit"),
    ("pumps.lift", "pumps.raise"),
    ("valves.set", "valves.choke"),
    ("circuits.up", "circuits.rise"),
    ("circuits.down", "circuits.sink"),
    ('"sump.', '"pit.'),
    ('"tank.', '"rear.'),
    ("pump lift", "pump raise"),
    ("valve set", "valve choke"),
)
TOP_OFF = (
    "[pumps.lift]",
    '[vessels.sump.top_off]\nlevel = "0.40 m"\nflow = "60 L/h"\nstock = "100 L"\nevaporation = "18 L/day"\n\n'
    "[pumps.lift]",
)
ONE = changed(SMALL, TOP_OFF)


def twins(text: str) -> str:
    """The plan with its vessels, pump and lines a second time, under other names."""
    second = text[text.index("[vessels.tank]") : text.index("[targets]")]
    return text.replace("[targets]", changed(second, *RENAMED) + "\n[targets]")


def by_id(text: str) -> dict[str, Check]:
    return {check.id: check for check in answer_of(text).checks}


def test_a_second_water_changes_nothing_in_the_first_and_is_its_twin() -> None:
    alone, both = by_id(ONE), by_id(twins(ONE))
    assert set(alone) <= set(both)
    for ident, check in alone.items():
        other = ident.replace("sump", "pit").replace("tank", "rear").replace("lift", "raise")
        other = other.replace("circuits.up", "circuits.rise").replace("circuits.down", "circuits.sink")
        assert both[ident].estimate == check.estimate, ident
        assert both[ident].verdict is check.verdict, ident
        assert both[other].estimate == check.estimate, other
    assert len(both) == 2 * len(alone)


def test_each_sump_has_its_own_power_stop() -> None:
    facts, answer = facts_of(twins(SMALL)), answer_of(twins(SMALL))
    assert [stop.sump for stop in facts.stops] == ["sump", "pit"]
    assert facts.stops[0].free == pytest.approx(facts.stops[1].free)
    assert facts.volume_with("tank") == pytest.approx(0.5 * facts.system_volume)
    assert {"flow.stop.sump", "flow.stop.pit"} <= {table.id for table in answer.tables}
    assert {"flow.stop.sump", "flow.stop.pit"} <= {scene.id for scene in answer.scenes}
    assert answer.sentence.count("run back into") == 2


def test_two_sumps_of_one_water_are_not_guessed_at() -> None:
    """A line from one sump to the other: which of them gets what runs back hangs on more than is reckoned."""
    joined = (
        '[circuits.between]\nstart = "sump.cross"\nroute = ["pipe pvc-90-pn10 0.5 m"]\nend = "pit.cross"\n\n'
        "[targets]"
    )
    text = changed(
        twins(SMALL),
        ("[vessels.sump]", '[vessels.sump]\nports.cross = { kind = "inlet", level = "0.20 m" }'),
        ("[vessels.pit]", '[vessels.pit]\nports.cross = { kind = "outlet", level = "0.20 m" }'),
        ("[targets]", joined),
    )
    (check,) = (one for one in answer_of(text).checks if "runback" in one.id)
    assert check.verdict is Verdict.UNPROVEN
    assert "sump and pit would be the sump of one water" in check.missing


@pytest.mark.parametrize("text", [example("skerry"), example("packhouse"), SMALL, twins(SMALL)])
@pytest.mark.parametrize("system", ["metric", "us"])
def test_the_list_under_the_schematic_stands_in_its_rows(text: str, system: System) -> None:
    """Only names and numbers in the drawing above are led to their places; a row pushed aside would be led too."""
    facts = facts_of(text)
    scene = next(scene for scene in answer_of(text, system).scenes if scene.id == "flow.schematic")
    joints = {
        name for line in facts.lines for name in (line.circuit.start, line.circuit.end) if "." not in name
    }
    led = svg.draw(scene, system).count("<circle")
    assert led <= len(facts.lines) + len(facts.levels) + len(joints)
