"""Ultraviolet lamps in the line: the dose they give at the flow they get, and against what it is enough."""

from __future__ import annotations

import math
from dataclasses import dataclass

from tidestead.catalog import Row, table
from tidestead.core.answer import Estimate, Step
from tidestead.core.source import PRACTICE, Known, Source
from tidestead.physics import uv
from tidestead.plan.model import Apparatus, Plan
from tidestead.studies.checks import At, Limit, above, given, unproven
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.judged import Judged, step

SLEEVE = 0.014
"""Outer radius of a lamp's sleeve, metres. Common practice, no source."""

LENGTHS = (1.0, 40.0)
"""Lengths of a lamp's tube over its diameter between which all are taken to lie. Common practice, no source."""

CLEAR = (0.80, 0.90, 0.97)
"""Share of the light that a centimetre of aquarium water lets through: yellow, usual, after carbon. Common practice,
no source."""

_CENTIMETRE = 0.01

_TRICKLE = 0.01
"""Share of the likely flow that counts as the least one, so that a lamp in standing water shows no endless dose."""

UNMIXED = 0.5
"""Share of the mean dose that some of the water gets in a chamber that mixes badly. Common practice, no source."""

_DOSE = Source("definition of dose (fluence)", known=Known.COMPUTED)
_BEER = Source("Beer and Lambert; Bolton and Linden (2003)", "water factor", Known.QUOTED)
_RING = Source("energy: light thins out round the lamp", "integral over the ring", Known.COMPUTED)


@dataclass(frozen=True)
class Chamber:
    """The lit water round a lamp: UV-C of the new lamp, from sleeve to tube, volume, mean light in clear water."""

    light: float
    gap: float
    volume: float
    bare: float


@dataclass(frozen=True)
class LampDose:
    """A lamp with the dose it gives, J/m2, and what enters it. `missing` says what the plan must tell.

    `flow` is the likely one; `shares` are what water, sleeve and age leave of the light.
    """

    name: str
    flow: float
    dose: Estimate | None
    time: float | None
    shares: tuple[float, float, float]
    missing: str = ""
    chamber: Chamber | None = None


def lamp_doses(plan: Plan, facts: FlowFacts) -> list[LampDose]:
    """Every lamp that stands in a line."""
    found = []
    for line in facts.lines:
        for run in line.runs:
            if run.item.kind == "apparatus" and plan.apparatus[run.item.name].kind == "uv":
                found.append(_dose(run.item.name, plan.apparatus[run.item.name], facts.carried(line.key)))
    return found


def _dose(name: str, lamp: Apparatus, flow: Estimate) -> LampDose:
    row = table("uv_targets")["low-pressure-lamp"]
    left = lamp.lamp_left if lamp.lamp_left is not None else row.si("left_at_life")
    clean = row.si("sleeve")
    for key in ("uvc", "diameter", "volume"):
        if getattr(lamp, key) is None:
            return LampDose(name, flow.likely, None, None, (0.0, clean, left), f"say apparatus.{name}.{key}")
    gap = (lamp.diameter or 0.0) / 2.0 - SLEEVE
    if gap <= 0.0 or flow.likely <= 0.0:
        why = (
            "nothing flows through it"
            if flow.likely <= 0.0
            else f"its tube is no wider than a sleeve: apparatus.{name}.diameter"
        )
        return LampDose(name, flow.likely, None, None, (0.0, clean, left), why)
    volume = lamp.volume or 0.0
    if odd := _odd_length(name, lamp, gap):
        return LampDose(name, flow.likely, None, None, (0.0, clean, left), odd)
    chamber = Chamber(lamp.uvc or 0.0, gap, volume, float(uv.tube_intensity(lamp.uvc or 0.0, gap, volume)))
    water = tuple(float(uv.water_share(uv.absorbance(clear, _CENTIMETRE), gap)) for clear in CLEAR)
    dose = _range(chamber, water, (clean, left), flow)
    time = float(uv.contact_time(volume, flow.likely))
    return LampDose(name, flow.likely, dose, time, (water[1], clean, left), "", chamber)


def _odd_length(name: str, lamp: Apparatus, gap: float) -> str:
    """Why volume and diameter do not make a lamp's tube; empty where they do."""
    across, volume = lamp.diameter or 0.0, lamp.volume or 0.0
    length = volume / (math.pi * gap * (gap + 2.0 * SLEEVE))
    if LENGTHS[0] * across <= length <= LENGTHS[1] * across:
        return ""
    return (
        f"by its volume its lit tube would be {length / across:.2g} times as long as it is wide, which no lamp is: "
        f"apparatus.{name}.volume or apparatus.{name}.diameter is wrong"
    )


def _range(chamber: Chamber, water: tuple[float, ...], kept: tuple[float, float], flow: Estimate) -> Estimate:
    """Least in yellow water at the greatest flow and badly mixed, most in clear water at the least flow."""
    lights = [float(uv.reduced_intensity(chamber.bare, share, *kept)) for share in water]
    if not flow.finite:
        likely = float(uv.dose(lights[1], chamber.volume, flow.likely))
        return Estimate(-math.inf, likely, math.inf, flow.basis)
    flows = (flow.high, flow.likely, max(flow.low, _TRICKLE * flow.likely))
    low, likely, high = (
        float(uv.dose(light, chamber.volume, one)) for light, one in zip(lights, flows, strict=True)
    )
    basis = "at the low end half the mean dose, for how well the chamber mixes is not known; yellow to clear water"
    return Estimate(UNMIXED * low, likely, high, f"{basis}; {flow.basis}" if flow.basis else basis)


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
    limit = Limit(row.si("dose"), row.figure("dose").source)
    advice = "less flow through it, a new lamp, a clean sleeve, or a stronger lamp"
    steps = _steps(lamp, dose, lamp.chamber) if lamp.chamber is not None else ()
    return Judged(above(at, "dose", words, dose, "J/m2", limit, advice=advice), steps)


def _steps(lamp: LampDose, dose: Estimate, chamber: Chamber) -> tuple[Step, ...]:
    """From the lamp's light to the dose, likely."""
    water, sleeve, left = lamp.shares
    absorbs = float(uv.absorbance(CLEAR[1], _CENTIMETRE))
    light = float(uv.reduced_intensity(chamber.bare, water, sleeve, left))
    gap, volume = given("l", chamber.gap, "m"), given("V", chamber.volume, "m3")
    shares = (given("water", water, "1"), given("sleeve", sleeve, "1"), given("lamp", left, "1"))
    return (
        step(
            "I0",
            "mean light in the tube: new lamp, clean sleeve, water that takes none; l from sleeve to tube",
            "I0 = P*l/V",
            (given("P", chamber.light, "W"), gap, volume),
            (chamber.bare, "W/m2"),
            _RING,
        ),
        step(
            "water",
            "share that the water leaves of it, where a centimetre passes 90 %",
            "water = (1 - 10**(-a*l))/(a*l*ln(10))",
            (given("a", absorbs, "1/m"), gap),
            (water, "1"),
            _BEER,
        ),
        step(
            "I",
            "light as it is, film on the sleeve and age of the lamp taken off",
            "I = I0*water*sleeve*lamp",
            (given("I0", chamber.bare, "W/m2"), *shares),
            (light, "W/m2"),
            PRACTICE,
        ),
        step(
            "D",
            "mean dose of what passes: light times the time in it",
            "D = I*V/Q",
            (given("I", light, "W/m2"), volume, given("Q", lamp.flow, "m3/s")),
            (dose.likely, "J/m2"),
            _DOSE,
        ),
    )
