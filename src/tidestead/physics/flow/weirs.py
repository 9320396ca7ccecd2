"""Water over a level crest: how much at a head, how high for a flow, and how far that is to be believed.

The head is the height of still water above the crest, measured well before it. Overflows of large vessels run
at 5 to 30 mm, which is below the range of every formula printed; `weir_head` gives a span for that reason.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cached_property
from typing import Literal, TypeAlias

import numpy as np

from tidestead.core.dims import Count, CubicMetrePerSecond, G, Metre, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.flow._crests import CONTRACTED_BY, US, Combed, Plain
from tidestead.physics.flow._drowning import LEFT, POWER, head_before
from tidestead.physics.flow._inverse import Rising
from tidestead.physics.flow._one_or_many import greater
from tidestead.physics.flow.laws import HeadAt, HeadBefore

_FRANCIS = 3.33 * US
"""Coefficient. Source: Francis (1883)."""

_REHBOCK = (0.602, 0.083, 0.0012)
"""Source: Rehbock (1929), in the rounded form of the textbooks."""

_BROAD = 2.63 * US
_SHARP_FROM: Ratio = 2.0
"""Coefficient of a crest long in the direction of flow, and the head over crest thickness from which it is sharp.
Source: Brater and King (1976), as EPA's SWMM reference manual, volume II, section 6.3.2, sums it up."""

_HEAD_LEAST: Metre = 0.03
_LENGTH_LEAST: Metre = 0.15
_HEIGHT_LEAST: Metre = 0.1
_STEEPEST: Ratio = 2.0
"""Range of Kindsvater and Carter. Source: Blevins, Applied Fluid Dynamics Handbook (1984), as quoted."""

_BELOW: Ratio = 0.15
_WITHIN: Ratio = 0.03
"""Least error of the head below the range, and inside it for a crest made at home. Common practice, no source."""

_DROWNED: Ratio = 0.05
_SURE_TO: Ratio = 0.9
"""Error of the flow by Villemonte's formula, and the share of the head before that may stand behind. The error is
from memory; from nine tenths on an open solver of floods gives up the formula by degrees."""

_HELD_UP: Metre = 0.004
"""Below this head the skin of the water may hold all of it back: a film 2*l*sin(45 deg) = 3.8 mm high stands
at an edge, l = sqrt(sigma/(rho*g)) = 2.7 mm."""

_NOTHING: Metre = 0.001
"""Below this head a law runs on to nothing as a parabola, so that its slope stays finite."""


Within: TypeAlias = Literal["range", "stretched", "outside"]

LEAST_ERROR: Mapping[str, Ratio] = {"range": _WITHIN, "stretched": _BELOW, "outside": _BELOW}
"""Least error of a head over a weir, as a share."""


@dataclass(frozen=True)
class Comb:
    """Teeth that stand on a crest: so many slots of one width between teeth of one height."""

    slots: Count
    slot_width: Metre
    tooth_height: Metre


@dataclass(frozen=True)
class Weir:
    """A level crest in an upright wall.

    `height` is that of the crest above the floor before it, `wall_width` the width of the water before it (the
    crest's own length where it spans the whole wall), `thickness` that of the edge in the direction of flow.
    """

    length: Metre
    height: Metre
    wall_width: Metre
    thickness: Metre = 0.0
    comb: Comb | None = None

    def __post_init__(self) -> None:
        _refuse.not_positive(crest_length=self.length, crest_height=self.height)
        _refuse.negative(crest_thickness=self.thickness)
        if self.wall_width < self.length * (1.0 - 1e-9):
            raise ImpossibleInput(
                f"a crest {self.length} m long does not fit a wall {self.wall_width} m wide"
            )
        if self.comb is not None:
            _refuse.not_positive(slots=self.comb.slots, slot_width=self.comb.slot_width)
            _refuse.not_positive(tooth_height=self.comb.tooth_height)
            if self.comb.slots * self.comb.slot_width > self.length * (1.0 + 1e-9):
                raise ImpossibleInput(
                    f"{self.comb.slots} slots of {self.comb.slot_width} m are more than a crest of {self.length} m"
                )

    @property
    def open_length(self) -> Metre:
        """Crest that water can pass: the slots, or all of it."""
        return self.length if self.comb is None else self.comb.slots * self.comb.slot_width


@dataclass(frozen=True)
class WeirHead:
    """Head over a weir. `within` says whether formulas are made for it, stretched to it, or say nothing of it."""

    low: Metre
    likely: Metre
    high: Metre
    within: Within


def francis_flow(length: Metre, head: Metre, contractions: Count) -> CubicMetrePerSecond:
    """Flow over a sharp crest, without the width of the channel.

        Q = 3.33*(L - 0.1*n*H)*H**1.5      feet and seconds; n: ends that stand clear of a side wall

    Source: Francis (1883), as in USBR, Water Measurement Manual (2001), chapter 7.
    Valid:  L > 3*H, water behind deep; read at heads of 60 to 500 mm. Low by a tenth at a head of 10 mm.
    """
    _refuse.not_positive(crest_length=length)
    _refuse.negative(head=head, contractions=contractions)
    flow: CubicMetrePerSecond = (
        _FRANCIS * np.maximum(length - CONTRACTED_BY * contractions * head, 0.0) * head**1.5
    )
    return flow


def kindsvater_carter_flow(weir: Weir, head: Metre) -> CubicMetrePerSecond:
    """Flow over a plain sharp crest in a wall as wide or wider.

        Q = (C1*h/p + C2)*(L + kb)*(h + kh)**1.5      feet and seconds; p: crest above floor
        C1, C2, kb by L/B, read off between the rows of the table;  kh = 0.003 ft

    Source: USBR, Water Measurement Manual (2001), chapter 7, section 6; kb from memory of the figure.
    Valid:  0.03 m < h < 2*p, L > 0.15 m, p > 0.1 m, nappe free of the wall. Teeth are left out.
    """
    _refuse.negative(head=head)
    return Plain(weir).flow(head)


def rehbock_flow(length: Metre, height: Metre, head: Metre) -> CubicMetrePerSecond:
    """Flow over a sharp crest across the whole width.

        Q = 2/3*sqrt(2*g)*(0.602 + 0.083*h/p)*b*(h + 0.0012)**1.5

    Source: Rehbock (1929); printed elsewhere with 0.0832 and 0.00125, which gives 0.05 % more at h = 0.3 m.
    Valid:  0.03 < h < 0.75 m, b > 0.3 m, p > 0.3 m, h/p < 1.
    """
    _refuse.not_positive(crest_length=length, crest_height=height)
    _refuse.negative(head=head)
    level, steeper, higher = _REHBOCK
    flow: CubicMetrePerSecond = (
        2.0 / 3.0 * (2.0 * G) ** 0.5 * (level + steeper * head / height) * length * (head + higher) ** 1.5
    )
    return flow


def broad_crest_flow(length: Metre, head: Metre) -> CubicMetrePerSecond:
    """Flow over a crest thick against the head, such as the edge of a board.

        Q = 2.63*L*H**1.5      feet and seconds

    Source: Brater and King (1976), quoted in EPA's SWMM reference manual, volume II, section 6.3.2.
    Valid:  head below half the thickness of the crest; between half and twice it lies between broad and sharp.
    """
    _refuse.not_positive(crest_length=length)
    _refuse.negative(head=head)
    flow: CubicMetrePerSecond = _BROAD * length * head**1.5
    return flow


def comb_flow(weir: Weir, head: Metre) -> CubicMetrePerSecond:
    """Flow over a crest with teeth.

        Q = C*(Ls*(v(h) - v(h - t)) + L*v(h - t)) + C*Ls*kh**1.5      v(x) = (x + kh)**1.5 - kh**1.5, none below 0
        Ls = N*(s - 0.2*min(h, t, s/3))      C as kindsvater_carter_flow across the whole width

    Through the slots up to the tops of the teeth (t), over the whole length above them. Each slot loses 0.1*h at
    either side as Francis has it, no more than at his limit s = 3*h.
    Source: put together from Francis (1883) and USBR, Water Measurement Manual (2001); no test of combs is known.
    Valid:  clean slots wider than about 6 mm; narrower ones hold water back by its skin.
    """
    _refuse.negative(head=head)
    if weir.comb is None:
        raise ImpossibleInput("this weir has no teeth")
    return Combed(weir).flow(head)


def drowned_share(head_up: Metre, head_down: Metre) -> Ratio:
    """Share of the free flow left where the water behind the weir stands above the crest.

        Q/Q0 = (1 - (h2/h1)**1.5)**0.385      heads above the crest

    Source: Villemonte (1947), as in EPA's SWMM reference manual, volume II, equation 6-26.
    Valid:  sharp rectangular crests, h2 < h1. Water below the crest: all of it.
    """
    _refuse.not_positive(head_before=head_up)
    down = greater(head_down, 0.0)
    higher = down > head_up
    if higher if isinstance(higher, bool) else np.any(higher):
        raise ImpossibleInput(f"water stands {head_down} m above the crest behind it, {head_up} m before it")
    share: Ratio = (1.0 - (down / head_up) ** POWER) ** LEFT
    return share


def drowned_head(weir: Weir, flow: CubicMetrePerSecond, head_down: Metre) -> Metre:
    """Head before a weir that a flow needs where the water behind it stands above the crest. One at a time.

        h1 with Q = Q0(h1)*(1 - (h2/h1)**1.5)**0.385      Q0: `weir_flow`

    At least h2, at most h2 and the head that the flow would need alone.
    Source: `drowned_share` read backwards.
    Valid:  as there, to about h2 = 0.9*h1; nearer to level water the fall is less than any formula is sure of.
    """
    _refuse.negative(flow=flow)
    return WeirLaw(weir).before(flow, head_down).head


def weir_flow(weir: Weir, head: Metre) -> CubicMetrePerSecond:
    """Likely flow over a weir, with teeth or plain.

    Source: `comb_flow`, or `kindsvater_carter_flow` where there are no teeth.
    Valid:  as there.
    """
    return kindsvater_carter_flow(weir, head) if weir.comb is None else comb_flow(weir, head)


def weir_head(weir: Weir, flow: CubicMetrePerSecond, tail: Metre = 0.0) -> WeirHead:
    """Head that a flow needs, with its span. One weir and one flow at a time.

    The likely head is that of `weir_flow`. The span is that of the other formulas (Francis, Rehbock across the
    whole width, a broad crest where the edge is thicker than half the head), and at least 15 % either way below
    the range of the formulas, 3 % inside it. With the water behind `tail` above the crest it is that of
    `drowned_head`, for 5 % more and less flow; where that is nearly level, from that water to the free head over it.
    Source: the formulas named; the least errors are common practice, no source; 5 % from memory of Villemonte.
    Valid:  "range" inside the range of Kindsvater and Carter; "stretched" below it, or nearly drowned; "outside"
            where the skin of the water rules (head under 4 mm) or the crest is lower than half the head.
    """
    _refuse.negative(flow=flow)
    law = WeirLaw(weir)
    likely = law.at(flow).head
    stretched = _is_stretched(weir, likely)
    error = LEAST_ERROR["stretched" if stretched else "range"]
    others = [Rising(other, _NOTHING).head(flow) for other in _others(weir, likely)]
    low, high = min([likely * (1.0 - error), *others]), max([likely * (1.0 + error), *others])
    outside = 0.0 < likely < _HELD_UP or likely > _STEEPEST * weir.height
    within: Within = "outside" if outside else "stretched" if stretched else "range"
    free = WeirHead(low, likely, high, within)
    return _drowned(law, free, flow, tail) if tail > 0.0 else free


def _drowned(law: WeirLaw, free: WeirHead, flow: CubicMetrePerSecond, tail: Metre) -> WeirHead:
    """The span with water above the crest behind it: a free head is pushed up as its own flow's would be."""
    likely = law.before(flow, tail).head
    if tail > _SURE_TO * likely:
        return WeirHead(tail, likely, max(tail + free.high, likely), "stretched")
    low, high = (
        law.before(law.flow(head) * (1.0 + off), tail).head
        for head, off in ((free.low, -_DROWNED), (free.high, _DROWNED))
    )
    skin_no_more = free.likely < _HELD_UP <= likely
    return WeirHead(low, likely, high, "stretched" if skin_no_more else free.within)


@dataclass(frozen=True)
class WeirLaw:
    """The weir as an element that spills at its crest (`Link.over`)."""

    weir: Weir

    @cached_property
    def _rising(self) -> Rising:
        made = Plain(self.weir) if self.weir.comb is None else Combed(self.weir)
        return Rising(made.flow, _NOTHING, made.gain)

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """Head and slope at a flow; a flow against the weir meets a steep straight line."""
        return self._rising.at(flow)

    def before(self, flow: CubicMetrePerSecond, tail: Metre) -> HeadBefore:
        """Head where the water behind stands `tail` above the crest: Villemonte's share of the free flow."""
        return head_before(self._rising, flow, tail)

    def flow(self, head: Metre) -> CubicMetrePerSecond:
        """Flow at a head, free."""
        return self._rising.passed(head)


def _is_stretched(weir: Weir, head: Metre) -> bool:
    inside = (
        head >= _HEAD_LEAST
        and head >= _SHARP_FROM * weir.thickness
        and weir.length >= _LENGTH_LEAST
        and weir.height >= _HEIGHT_LEAST
        and head < _STEEPEST * weir.height
        and weir.comb is None
    )
    return not inside


def _others(weir: Weir, head: Metre) -> list[Callable[[Metre], CubicMetrePerSecond]]:
    """Formulas that would do as well for this weir."""
    comb = weir.comb
    whole = weir.wall_width <= weir.length * (1.0 + 1e-9)
    flows: list[Callable[[Metre], CubicMetrePerSecond]] = []
    if comb is None or head <= comb.tooth_height:
        ends = 2 * comb.slots if comb is not None else 0 if whole else 2
        limit = (weir.length if comb is None else comb.slot_width) / 3.0

        def narrowed(over: Metre) -> Metre:
            return weir.open_length - CONTRACTED_BY * ends * min(over, limit)

        flows.append(lambda over: francis_flow(narrowed(over), over, 0))
        if head < _SHARP_FROM * weir.thickness:
            flows.append(lambda over: broad_crest_flow(narrowed(over), over))
    if whole and comb is None:
        flows.append(lambda over: rehbock_flow(weir.length, weir.height, over))
    return flows
