"""Pumps: head against flow from a table of points or from a formula, speed, power."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import pairwise

from tidestead.core.dims import (
    CubicMetrePerSecond,
    G,
    KgPerM3,
    Metre,
    Ratio,
    Watt,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.flow.laws import HeadAt, Law, Link, ShutLaw

_HEAD_OF_DESIGN: Ratio = 4.0 / 3.0
_FLOW_OF_DESIGN: Ratio = 2.0
"""Head without flow and flow without head of a pump of which one point is known. Source: L. Rossman et al.,
EPANET 2.2 User Manual (2020), pumps, single-point curve (133 % and twice)."""


@dataclass(frozen=True)
class PumpPoint:
    """One point of a pump's curve."""

    flow: CubicMetrePerSecond
    head: Metre


@dataclass(frozen=True)
class PumpDuty:
    """What a pump does: its flow, the head it gives, the power it takes at the shaft or from the mains."""

    flow: CubicMetrePerSecond
    head: Metre
    power: Watt


@dataclass(frozen=True)
class PumpLaw:
    """A pump known by points of flow and head, and its speed as a share of the speed they hold at.

    Between points a cubic that falls as the points fall. Beyond the last it goes on down in a straight line,
    as steep as the last stretch or steeper; before the first it goes on up. See `beyond_curve`.
    """

    points: tuple[PumpPoint, ...]
    speed: Ratio = 1.0

    def __post_init__(self) -> None:
        _refuse.not_positive(speed=self.speed)
        if len(self.points) < 2:
            raise ImpossibleInput(
                "a pump's curve needs at least two points; one is a pump by its design point"
            )
        for point in self.points:
            _refuse.negative(pump_flow=point.flow, pump_head=point.head)
            _refuse.endless(pump_flow=point.flow, pump_head=point.head)
        for one, other in pairwise(self.points):
            if other.flow <= one.flow:
                raise ImpossibleInput(
                    f"a pump's points must grow in flow: {one.flow:g} m3/s is followed by {other.flow:g}"
                )
            if other.head >= one.head:
                raise ImpossibleInput(
                    f"a pump's curve must fall: it gives {one.head:g} m at {one.flow:g} m3/s "
                    f"and {other.head:g} m at {other.flow:g} m3/s"
                )

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """Head (negative: given, not lost) and slope."""
        place = flow / self.speed
        flows, heads, slopes = self._curve
        if place <= flows[0]:
            head, slope = heads[0] + slopes[0] * (place - flows[0]), slopes[0]
        elif place >= flows[-1]:
            slope = min(slopes[-1], (heads[-1] - heads[-2]) / (flows[-1] - flows[-2]))
            head = heads[-1] + slope * (place - flows[-1])
        else:
            at = next(at for at, following in enumerate(flows[1:]) if place <= following)
            head, slope = _cubic(place, flows[at : at + 2], heads[at : at + 2], slopes[at : at + 2])
        return HeadAt(-head * self.speed**2, -slope * self.speed)

    @cached_property
    def _curve(self) -> tuple[list[float], list[float], list[float]]:
        flows, heads = [point.flow for point in self.points], [point.head for point in self.points]
        return flows, heads, _falling_slopes(flows, heads)


def _falling_slopes(flows: list[float], heads: list[float]) -> list[float]:
    """Slopes at the points for which cubics between them never rise.

    Inside the weighted harmonic mean of the stretches on either side; at the ends the parabola through three
    points, held to three times the outer stretch. Source: F. Fritsch and J. Butland, SIAM J. Sci. Stat. Comput.
    5 (1984) 300-304; C. Moler, Numerical Computing with MATLAB (2004), chapter 3, for the ends.
    """
    widths = [after - before for before, after in pairwise(flows)]
    secants = [
        (after - before) / width for (before, after), width in zip(pairwise(heads), widths, strict=True)
    ]
    if len(secants) == 1:
        return [secants[0], secants[0]]
    inner = []
    for at in range(len(secants) - 1):
        near, far = 2.0 * widths[at + 1] + widths[at], widths[at + 1] + 2.0 * widths[at]
        inner.append((near + far) / (near / secants[at] + far / secants[at + 1]))
    return [
        _end_slope(widths[0], widths[1], secants[0], secants[1]),
        *inner,
        _end_slope(widths[-1], widths[-2], secants[-1], secants[-2]),
    ]


def _end_slope(width: float, next_width: float, secant: float, next_secant: float) -> float:
    slope = ((2.0 * width + next_width) * secant - width * next_secant) / (width + next_width)
    return min(max(slope, 3.0 * secant), 0.0)


def _cubic(place: float, flows: list[float], heads: list[float], slopes: list[float]) -> tuple[float, float]:
    """Value and slope of the cubic that has these heads and slopes at two places."""
    width = flows[1] - flows[0]
    along = (place - flows[0]) / width
    secant = (heads[1] - heads[0]) / width
    second = 3.0 * secant - 2.0 * slopes[0] - slopes[1]
    third = slopes[0] + slopes[1] - 2.0 * secant
    rise = along * (slopes[0] + along * (second + along * third))
    return heads[0] + width * rise, slopes[0] + along * (2.0 * second + 3.0 * along * third)


@dataclass(frozen=True)
class PowerPumpLaw:
    """A pump whose head falls with a power of its flow: h = n**2*h0 - a*n**(2 - b)*Q**b, n the speed."""

    shut_off_head: Metre
    coefficient: Ratio
    exponent: Ratio
    speed: Ratio = 1.0

    def __post_init__(self) -> None:
        _refuse.not_positive(
            shut_off_head=self.shut_off_head,
            coefficient=self.coefficient,
            exponent=self.exponent,
            speed=self.speed,
        )

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """Head (negative: given, not lost) and slope."""
        size = abs(flow) / self.speed
        fall = self.coefficient * size**self.exponent
        slope = self.exponent * fall / size if size else 0.0
        return HeadAt(
            (math.copysign(fall, flow) - self.shut_off_head) * self.speed**2,
            slope * self.speed,
        )


def parabola_pump(max_head: Metre, max_flow: CubicMetrePerSecond) -> PowerPumpLaw:
    """A pump of which only its greatest head and its greatest flow are known.

        h = h_max * (1 - (Q/Q_max)**2)

    Source: L. Rossman et al., EPANET 2.2 User Manual (2020), pumps: the shape it gives a single-point curve.
    Valid:  a guess. Real curves lie up to 20 % of the greatest head away from it: get the maker's points.
    """
    _refuse.not_positive(max_head=max_head, max_flow=max_flow)
    return PowerPumpLaw(max_head, max_head / max_flow**2, 2.0)


def design_point_pump(flow: CubicMetrePerSecond, head: Metre) -> PowerPumpLaw:
    """A pump of which one point is known, near its best.

        h = 4/3*h1 - 1/3*h1*(Q/Q1)**2

    Source: L. Rossman et al., EPANET 2.2 User Manual (2020), pumps, single-point curve.
    Valid:  a guess, as `parabola_pump`.
    """
    _refuse.not_positive(flow=flow, head=head)
    return parabola_pump(_HEAD_OF_DESIGN * head, _FLOW_OF_DESIGN * flow)


def power_pump(shut_off: PumpPoint, middle: PumpPoint, last: PumpPoint) -> PowerPumpLaw:
    """A pump whose curve goes through three points, the first of them without flow.

        h = h0 - a*Q**b     b = ln((h0 - h2)/(h0 - h1)) / ln(Q2/Q1),   a = (h0 - h1)/Q1**b

    Source: L. Rossman et al., EPANET 2.2 User Manual (2020), pumps, three-point curve.
    Valid:  between the points; beyond the last it goes on down.
    """
    if shut_off.flow != 0.0:
        raise ImpossibleInput(
            f"the first of three points is the one without flow, not at {shut_off.flow:g} m3/s"
        )
    PumpLaw((shut_off, middle, last))
    first, second = shut_off.head - middle.head, shut_off.head - last.head
    exponent = math.log(second / first) / math.log(last.flow / middle.flow)
    return PowerPumpLaw(shut_off.head, first / middle.flow**exponent, exponent)


def pump_head(pump: PumpLaw | PowerPumpLaw, flow: CubicMetrePerSecond) -> Metre:
    """Head a pump gives at a flow.

        h(Q) = n**2 * h1(Q/n)     h1: its curve at full speed, n: share of full speed

    Source: L. Euler (1754) for the speed, in any text on pumps; the curve is the maker's.
    Valid:  speeds from half to full; at lower ones friction in the pump counts for more.
    """
    return -pump.at(flow).head


def beyond_curve(pump: PumpLaw | PowerPumpLaw, flow: CubicMetrePerSecond) -> bool:
    """Whether a flow lies outside what a pump's curve shows, where its head is guessed.

    Source: definition; a pump by formula ends where it has no head left.
    Valid:  any flow.
    """
    if isinstance(pump, PowerPumpLaw):
        return flow < 0.0 or pump_head(pump, flow) < 0.0
    return not pump.points[0].flow <= flow / pump.speed <= pump.points[-1].flow


def affinity(duty: PumpDuty, speed: Ratio) -> PumpDuty:
    """What a pump does at another speed, at the same place on its curve.

        Q2 = Q1*n,   H2 = H1*n**2,   P2 = P1*n**3     n: new speed over old

    Source: L. Euler (1754), in any text on pumps; Crane TP-410, example 7-33.
    Valid:  speeds from half to full. The system's curve decides where on its curve a pump then runs.
    """
    _refuse.not_positive(speed=speed)
    return PumpDuty(duty.flow * speed, duty.head * speed**2, duty.power * speed**3)


def hydraulic_power(flow: CubicMetrePerSecond, head: Metre, density: KgPerM3) -> Watt:
    """Power that water takes up.

        P = rho*g*Q*H

    Source: elementary mechanics.
    Valid:  any pump; the rest of what it draws becomes heat, most of it in the water.
    """
    _refuse.negative(density=density)
    return density * G * flow * head


def electric_power(flow: CubicMetrePerSecond, head: Metre, density: KgPerM3, efficiency: Ratio) -> Watt:
    """Power a pump draws for a flow and a head.

        P = rho*g*Q*H / eta

    Source: elementary mechanics.
    Valid:  `efficiency` of pump alone gives power at the shaft, of pump and motor power from the mains.
    """
    _refuse.not_positive(efficiency=efficiency)
    _refuse.not_a_share(efficiency=efficiency)
    return hydraulic_power(flow, head, density) / efficiency


def pump_efficiency(duty: PumpDuty, density: KgPerM3) -> Ratio:
    """Share of the power drawn that the water takes up.

        eta = rho*g*Q*H / P

    Raises ImpossibleInput where the water would take up more than is drawn: flow, head or watts are wrong.
    Source: elementary mechanics.
    Valid:  one duty. Small pumps with their motor reach some 0.1 to 0.6 (common practice, no source).
    """
    _refuse.not_positive(power=duty.power)
    share = hydraulic_power(duty.flow, duty.head, density) / duty.power
    if share > 1.0:
        raise ImpossibleInput(
            f"a pump of {duty.power:g} W cannot give {duty.flow:g} m3/s at {duty.head:g} m: that is "
            f"{share * duty.power:.4g} W in the water alone"
        )
    return share


def standing_pump(pump: Link, run_back: Law | None = None) -> Link:
    """A pump that stands: shut behind its check valve, or a way back through it with the resistance `run_back`.

    Source: definition.
    Valid:  centrifugal pumps, whose wheel lets water through either way when it stands.
    """
    return replace(pump, through=run_back or ShutLaw(), over=None, one_way=False)
