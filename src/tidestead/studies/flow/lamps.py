"""Ultraviolet lamps in the line: the dose they give at the flow they get, and against what it is enough."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.catalog import Row, table
from tidestead.core.answer import Estimate
from tidestead.core.source import PRACTICE
from tidestead.physics import uv
from tidestead.plan.model import Apparatus, Plan
from tidestead.studies.checks import At, Limit, above, given, unproven
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.judged import Judged, step

SLEEVE = 0.014
"""Outer radius of a lamp's sleeve, metres. Common practice, no source."""

CLEAR = (0.80, 0.90, 0.97)
"""Share of the light that a centimetre of aquarium water lets through: yellow, usual, after carbon. Common practice,
no source."""


@dataclass(frozen=True)
class LampDose:
    """A lamp with the dose it gives, J/m2, and what enters it. `missing` says what the plan must tell."""

    name: str
    flow: float
    dose: Estimate | None
    time: float | None
    shares: tuple[float, float, float]
    missing: str = ""


def lamp_doses(plan: Plan, facts: FlowFacts) -> list[LampDose]:
    """Every lamp that stands in a line."""
    found = []
    for line in facts.lines:
        for run in line.runs:
            if run.item.kind == "apparatus" and plan.apparatus[run.item.name].kind == "uv":
                flow = max(facts.flows.get(line.key, 0.0), 0.0)
                found.append(_dose(run.item.name, plan.apparatus[run.item.name], flow))
    return found


def _dose(name: str, lamp: Apparatus, flow: float) -> LampDose:
    row = table("uv_targets")["low-pressure-lamp"]
    left = lamp.lamp_left if lamp.lamp_left is not None else row.si("left_at_life")
    clean = row.si("sleeve")
    for key in ("uvc", "diameter", "volume"):
        if getattr(lamp, key) is None:
            return LampDose(name, flow, None, None, (0.0, clean, left), f"say apparatus.{name}.{key}")
    gap = (lamp.diameter or 0.0) / 2.0 - SLEEVE
    if gap <= 0.0 or flow <= 0.0:
        why = (
            "nothing flows through it"
            if flow <= 0.0
            else f"its tube is no wider than a sleeve: apparatus.{name}.diameter"
        )
        return LampDose(name, flow, None, None, (0.0, clean, left), why)
    volume = lamp.volume or 0.0
    bare = float(uv.tube_intensity(lamp.uvc or 0.0, gap, volume))
    doses = []
    for clear in CLEAR:
        water = float(uv.water_share(uv.absorbance(clear, 0.01), gap))
        doses.append(float(uv.dose(uv.reduced_intensity(bare, water, clean, left), volume, flow)))
    shares = (float(uv.water_share(uv.absorbance(CLEAR[1], 0.01), gap)), clean, left)
    dose = Estimate(doses[0], doses[1], doses[2], "clear to yellow water")
    return LampDose(name, flow, dose, float(uv.contact_time(volume, flow)), shares)


def lamp_checks(plan: Plan, facts: FlowFacts) -> list[Judged]:
    """The dose against what it is wanted for, where the plan says that."""
    found = []
    for lamp in lamp_doses(plan, facts):
        wanted = plan.apparatus[lamp.name].against
        at = At(f"apparatus.{lamp.name}", f"lamp {lamp.name}", "flow", f"apparatus.{lamp.name}")
        if wanted is None:
            continue
        row = table("uv_targets")[wanted]
        words = f"dose against {row.title[0].lower()}{row.title[1:]}"
        if lamp.dose is None:
            found.append(Judged(unproven(at, "dose", words, "J/m2", lamp.missing, PRACTICE)))
        else:
            found.append(_judged(at, lamp, lamp.dose, row, words))
    return found


def _judged(at: At, lamp: LampDose, dose: Estimate, row: Row, words: str) -> Judged:
    water, sleeve, left = lamp.shares
    numbers = (
        given("Q", lamp.flow, "m3/s"),
        given("t", lamp.time or 0.0, "s"),
        given("water", water, "1"),
        given("sleeve", sleeve, "1"),
        given("lamp", left, "1"),
    )
    steps = (
        step(
            "D",
            "mean dose of what passes: light as it thins out round the lamp, times the time in it",
            "D = I0*water*sleeve*lamp*V/Q",
            numbers,
            (dose.likely, "J/m2"),
            PRACTICE,
        ),
    )
    limit = Limit(row.si("dose"), row.figure("dose").source)
    advice = "less flow through it, a new lamp, a clean sleeve, or a stronger lamp"
    return Judged(above(at, "dose", words, dose, "J/m2", limit, advice=advice), steps)
