"""Small plans with water that goes round, to be changed one thing at a time."""

from __future__ import annotations

from pathlib import Path

from tidestead.core.answer import Answer, Check
from tidestead.core.units import System
from tidestead.plan import LoadedPlan, loads
from tidestead.studies import flow
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.inputs import Inputs

EXAMPLES = Path(__file__).parents[2] / "examples"

SMALL = """
tidestead = 1
name = "small"

[water]
salinity = "35 psu"
keep = "25 to 26 degC"

[vessels.tank]
role = "display"
made = "bought"
shape = "box"
length = "4.0 m"
width = "1.5 m"
height = "0.90 m"
water = "0.82 m"
brim = "0.88 m"
place = { floor = "1.0 m" }
ports.edge = { kind = "weir", level = "0.80 m", length = "1.5 m" }
ports.jet = { kind = "outlet", level = "0.775 m" }

[vessels.sump]
role = "sump"
made = "bought"
shape = "box"
length = "1.6 m"
width = "0.8 m"
height = "0.80 m"
water = "0.40 m"
place = { floor = "0 m" }
ports.suction = { kind = "inlet", level = "0.10 m" }
ports.fall = { kind = "spill", level = "0.60 m" }

[pumps.lift]
curve = ["0 m3/h at 5 m", "8 m3/h at 4 m", "14 m3/h at 2 m", "18 m3/h at 0 m"]
power = "160 W"
needs_head = "2 m"

[valves.set]
kind = "gate"
open = "100 %"

[circuits.up]
start = "sump.suction"
route = ["pipe pvc-90-pn10 0.5 m", "pump lift", "pipe pvc-75-pn10 2.5 m", "elbow-90 x3", "valve set"]
end = "tank.jet"

[circuits.down]
start = "tank.edge"
route = ["pipe dwv-4in 1.5 m", "elbow-90 x2"]
end = "sump.fall"

[targets]
turnover = "1.0"
"""


def example(name: str) -> str:
    """The text of an example."""
    return (EXAMPLES / f"{name}.toml").read_text(encoding="utf-8")


def changed(text: str, *changes: tuple[str, str]) -> str:
    """The text with pieces replaced; each must be there."""
    for old, new in changes:
        assert old in text, old
        text = text.replace(old, new)
    return text


def loaded(text: str) -> LoadedPlan:
    """The plan of a text."""
    return loads(text)


def facts_of(text: str) -> FlowFacts:
    """What the flow study finds."""
    return flow.find(Inputs(loads(text).plan, "metric"))


def answer_of(text: str, system: System = "metric") -> Answer:
    """What the flow study says."""
    inputs = Inputs(loads(text).plan, system)
    return flow.judge(inputs, flow.find(inputs))


def check_of(answer: Answer, ident: str) -> Check:
    """One check by its id."""
    found = {check.id: check for check in answer.checks}
    assert ident in found, f"{ident} not among {sorted(found)}"
    return found[ident]
