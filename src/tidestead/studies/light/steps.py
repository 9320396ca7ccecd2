"""Lines of working of light: from daylight outdoors to the corals, what lamps add, what shade must keep out."""

from __future__ import annotations

import numpy as np

from tidestead.core.answer import Given, Step, Working
from tidestead.core.months import MONTHS
from tidestead.core.source import COMPUTED, PRACTICE, Known, Source
from tidestead.physics.light import photons
from tidestead.physics.light.lamps import LED_PHOTONS
from tidestead.plan.model import Plan
from tidestead.studies.checks import given
from tidestead.studies.judged import step
from tidestead.studies.light.facts import Clarity, CoralLight, LightFacts
from tidestead.studies.light.lighting import EFFICACY, REACHES
from tidestead.studies.light.wording import DAY, FLOW

PHOTONS = Source("R. Thimijan and R. Heins (1983), HortScience 18:818", "2.04 umol/J as quoted", Known.QUOTED)
BEER = Source("Beer and Lambert", known=Known.COMPUTED)
SUMMED = Source(
    "summed over the hours of the month: sheet by angle, Snell, Fresnel, Beer", known=Known.COMPUTED
)
BALANCE = Source("balance of photons", known=Known.COMPUTED)


def least_steps(group: CoralLight) -> tuple[Step, ...]:
    """The darkest month of the median year, at the deepest."""
    month = int(np.argmin(group.deep.likely))
    steps = [*_down(group, month, group.natural.likely[month], group.deepest)]
    if group.lighting.planned and group.lighting.covers and group.lighting.low[month].max() > 0.0:
        steps += _lamp(group, month)
    return tuple(steps)


def most_steps(group: CoralLight) -> tuple[Step, ...]:
    """The brightest month of the median year, at the shallowest, and the shade that it wants."""
    month = int(np.argmax(group.top.likely))
    natural = group.natural_top.likely[month]
    added = group.top.likely[month] - natural
    steps = [*_down(group, month, natural, group.shallow)]
    steps.append(
        step("D", "with lamps", "D = D_z + D_l", (given("D_z", natural, DAY), given("D_l", added, DAY)),
             (group.top.likely[month], DAY), BALANCE)
    )  # fmt: skip
    return tuple(steps)


def peak_steps(group: CoralLight) -> tuple[Step, ...]:
    """The highest hour, and the share of what corals bear that it comes to."""
    high = group.peak.likely
    meaning = "highest hour of a year; F_1 the median of the highest hours of all years, summed hour by hour"
    found = step("F", meaning, "F = F_1", (given("F_1", high, FLOW),), (high, FLOW), SUMMED)
    numbers = (given("F", high, FLOW), given("F_most", group.band.peak, FLOW))
    over = step(
        "r", "over what corals bear", "r = F/F_most", numbers, (high / group.band.peak, "1"), COMPUTED
    )
    return found, over


def _down(group: CoralLight, month: int, natural: float, depth: float) -> tuple[Step, ...]:
    """From outdoors onto the water and down."""
    outside, surface = group.outside.likely[month], group.surface.likely[month]
    mean, name = outside / (0.0864 * photons.DAYLIGHT), MONTHS[month]
    first = step(
        "D_out",
        f"daylight outdoors in {name}, median of the years, E its mean of day and night",
        "D_out = 0.0864*k*E",
        (given("k", photons.DAYLIGHT, "umol/J"), given("E", mean, "W/m2")),
        (outside, DAY),
        PHOTONS,
    )
    if surface <= 0.0:  # polar night, or no clear sheet
        return (first,)
    shares = (surface / outside, natural / surface)
    return (
        first,
        step("s", "share of it that falls on the water, through building and covers", "s = D_w/D_out",
             (given("D_w", surface, DAY), given("D_out", outside, DAY)), (shares[0], "1", "share"), SUMMED),
        step("x", "share of that which arrives at depth z, loss at the surface and slant way counted", "x = D_z/D_w",
             (given("D_z", natural, DAY), given("D_w", surface, DAY), given("z", depth, "m", "level")),
             (shares[1], "1", "share"), SUMMED),
        step("D_z", "daylight at the corals", "D_z = D_out*s*x",
             (given("D_out", outside, DAY), given("s", shares[0], "1"), given("x", shares[1], "1")),
             (natural, DAY), SUMMED),
    )  # fmt: skip


def _lamp(group: CoralLight, month: int) -> list[Step]:
    """What the plan's lamps add in a month."""
    flow = float(group.lighting.low[month].max())
    hours = float(group.lighting.low[month].sum()) / flow
    natural, whole = group.natural.likely[month], group.deep.likely[month]
    added = whole - natural
    left = added / (flow * hours * 3600.0 / 1e6)
    return [
        step("D_l", "light of a day that the lamps add, F just under the surface for t hours, x of it left there",
             "D_l = F*x*t*3600/1e6", (given("F", flow, FLOW), given("x", left, "1"), given("t", hours, "h")),
             (added, DAY), BALANCE),
        step("D", "with lamps", "D = D_z + D_l", (given("D_z", natural, DAY), given("D_l", added, DAY)),
             (whole, DAY), BALANCE),
    ]  # fmt: skip


def make_up_working(group: CoralLight, clarity: Clarity) -> Working | None:
    """Power of the lamps that the darkest month wants beside the sun alone; None where it wants none."""
    month = int(np.argmax(group.make_up.missing))
    missing = group.make_up.missing[month]
    if missing <= 0.0:
        return None
    lighting, rate = group.lighting, clarity.rate.likely
    left = float(np.exp(-rate * group.deepest))
    numbers = (
        given("D", missing, DAY), given("A", group.area, "m2"), given("e", lighting.efficacy, "umol/J"),
        given("u", lighting.reaches, "1"), given("x", left, "1"), given("t", lighting.hours, "h"),
    )  # fmt: skip
    depth = (given("Kd", rate, "1/m"), given("z", group.deepest, "m", "level"))
    meaning = f"power while they burn, for what {MONTHS[month]} lacks beside the sun alone"
    steps = (
        step("x", "share of lamp light left at the deepest", "x = exp(-Kd*z)", depth, (left, "1"), BEER),
        step("P", meaning, "P = D*A*1e6/(e*u*x*t*3600)", numbers, (group.make_up.power[month], "W"), BALANCE),
    )
    return Working(f"{group.key}: lamps that make up the darkest month", steps, part=group.key)


def shade_working(group: CoralLight) -> Working | None:
    """Shade that the brightest month wants; None where it wants none."""
    month = int(np.argmax(group.shade))
    share = group.shade[month]
    if share <= 0.0:
        return None
    day = (group.band.most, group.natural_top.high[month], DAY)
    peak = (group.band.peak, group.sun_peaks[month], FLOW)
    most, high, unit = max((day, peak), key=lambda one: one[1] / one[0])
    what = "highest hour" if unit == FLOW else "light of a day"
    meaning = (
        f"share of the sun to keep out in {MONTHS[month]}: H {what} in a bright year (P90), L what is borne"
    )
    numbers = (given("L", most, unit), given("H", high, unit))
    steps = (step("s", meaning, "s = 1 - L/H", numbers, (share, "1", "share"), BALANCE),)
    return Working(f"{group.key}: shade in the brightest month", steps, part=group.key)


def clarity_working(clarity: Clarity) -> Working | None:
    """Attenuation from the readings; None where there are none."""
    if len(clarity.readings) < 2 or clarity.missing:
        return None
    meaning = "attenuation of the water by your readings"
    numbers: tuple[Given, ...]
    if len(clarity.readings) == 2:
        (z1, p1), (z2, p2) = sorted(clarity.readings)
        numbers = (
            given("P1", p1, FLOW),
            given("P2", p2, FLOW),
            given("z1", z1, "m", "fine"),
            given("z2", z2, "m", "fine"),
        )
        formula = "Kd = ln(P1/P2)/(z2 - z1)"
    else:
        depths = np.array([depth for depth, _ in clarity.readings])
        logs = np.log([light for _, light in clarity.readings])
        off = depths - depths.mean()
        numbers = (
            given("S_zz", float(np.sum(off**2)), "m2"),
            given("S_zy", float(np.sum(off * logs)), "m", "head"),
        )
        formula = "Kd = -S_zy/S_zz"
        meaning += ": S_zz sum of (z - mean z)^2, S_zy sum of (z - mean z)*ln(P)"
    return Working(
        "clearness of the water", (step("Kd", meaning, formula, numbers, (clarity.rate.likely, "1/m"), BEER),)
    )


def lamp_workings(plan: Plan, facts: LightFacts) -> list[Working]:
    """Light and heat of each lamp of the plan."""
    found = []
    for one in facts.lamps:
        lamp = plan.lamps[one.key]
        reaches = REACHES if lamp.reaches is None else lamp.reaches
        numbers = (
            given("P", lamp.power, "W"), given("u", reaches, "1"), given("e", lamp.efficacy or EFFICACY, "umol/J"),
            given("e_l", LED_PHOTONS, "umol/J"),
        )  # fmt: skip
        meaning = "part of its power that enters the water as light and warms it; the rest warms the air"
        result = (lamp.power * one.water_share, "W")
        made = step("P_w", meaning, "P_w = P*u*min(e/e_l, 1)", numbers, result, PRACTICE)
        found.append(Working(f"lamps {one.key}: where their heat goes", (made,), part=one.vessel))
    return found
