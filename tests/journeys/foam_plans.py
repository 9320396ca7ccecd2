"""What the foam study says of a plan's text."""

from __future__ import annotations

from tidestead.core.answer import Answer
from tidestead.plan import loads
from tidestead.studies import flow, foam
from tidestead.studies.foam.facts import FoamFacts
from tidestead.studies.inputs import Inputs


def found(text: str) -> tuple[FoamFacts, Answer]:
    """Facts and answer of a plan."""
    inputs = Inputs(loads(text).plan, "metric")
    facts = foam.find(inputs, flow.find(inputs))
    return facts, foam.judge(inputs, facts)
