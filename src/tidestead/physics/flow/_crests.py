"""Flow over plain crests and over combs, and how fast it grows, with the tables read once. Private to this subject."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import numpy as np

from tidestead.core.dims import CubicMetrePerSecond, Metre
from tidestead.physics.flow._one_or_many import greater, lesser

if TYPE_CHECKING:
    from tidestead.physics.flow.weirs import Weir

_FOOT = 0.3048
US = _FOOT**0.5
"""SI size of a weir coefficient printed in ft**0.5/s."""

CONTRACTED_BY = 0.1
"""Share of the head lost to the length at each end. Source: Francis (1883)."""

_SHARES = (0.2, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 1.0)
_STEEPER = (-0.0087, 0.0317, 0.0612, 0.0995, 0.1602, 0.2376, 0.3447, 0.4000)
_LEVEL = (3.152, 3.164, 3.173, 3.178, 3.182, 3.189, 3.205, 3.220)
"""C1 and C2 in ft**0.5/s by crest length over channel width.
Source: USBR, Water Measurement Manual (2001), chapter 7, section 6; the same in EPA's SWMM manual, Table 6-2."""

_WIDER_SHARES = (0.0, 0.2, 0.4, 0.6, 0.8, 1.0)
_WIDER = (0.0024, 0.0024, 0.0027, 0.0036, 0.0042, -0.0009)
"""k_b in metres, added to the crest length. Source: Kindsvater and Carter (1957), figure, from memory; the two
values seen in print (about 0.010 ft at 0.5, -0.003 ft at 1) agree."""

_HIGHER: Metre = 0.003 * _FOOT
"""k_h, added to the head. Source: USBR, Water Measurement Manual (2001), chapter 7, section 6."""


class Plain:
    """Kindsvater and Carter's formula with the table read once."""

    def __init__(self, weir: Weir) -> None:
        share = min(weir.length / weir.wall_width, 1.0)
        self.steeper = float(np.interp(share, _SHARES, _STEEPER)) * US / weir.height
        self.level = float(np.interp(share, _SHARES, _LEVEL)) * US
        self.length = weir.length + float(np.interp(share, _WIDER_SHARES, _WIDER))

    def flow(self, head: Metre) -> CubicMetrePerSecond:
        """Flow at a head."""
        flow: CubicMetrePerSecond = (self.steeper * head + self.level) * self.length * (head + _HIGHER) ** 1.5
        return flow

    def gain(self, head: Metre) -> float:
        """How much more flow for each metre of head. One head at a time."""
        wide = head + _HIGHER
        by_root = 1.5 * (self.steeper * head + self.level) + self.steeper * wide
        gain: float = by_root * self.length * math.sqrt(wide)
        return gain


class Combed:
    """Slots between teeth, and the whole crest above them."""

    def __init__(self, weir: Weir) -> None:
        assert weir.comb is not None
        self.comb, self.length = weir.comb, weir.length
        self.steeper, self.level = _STEEPER[-1] * US / weir.height, _LEVEL[-1] * US
        self.narrows_to = min(self.comb.tooth_height, self.comb.slot_width / 3.0)

    def flow(self, head: Metre) -> CubicMetrePerSecond:
        """Flow at a head."""
        narrowed = 2.0 * CONTRACTED_BY * lesser(head, self.narrows_to)
        slots = self.comb.slots * (self.comb.slot_width - narrowed)
        still = _HIGHER**1.5
        all_over = (head + _HIGHER) ** 1.5 - still
        above = (greater(head - self.comb.tooth_height, 0.0) + _HIGHER) ** 1.5 - still
        through = slots * (all_over - above + still) + self.length * above
        flow: CubicMetrePerSecond = (self.steeper * head + self.level) * through
        return flow

    def gain(self, head: Metre) -> float:
        """How much more flow for each metre of head, below a bend that of the way up to it. One head at a time."""
        narrows = 2.0 * CONTRACTED_BY if head <= self.narrows_to else 0.0
        over_teeth = max(head - self.comb.tooth_height, 0.0) + _HIGHER
        wide = head + _HIGHER
        slots = self.comb.slots * (self.comb.slot_width - 2.0 * CONTRACTED_BY * min(head, self.narrows_to))
        all_over, above = wide**1.5, over_teeth**1.5
        through = slots * (all_over - above + _HIGHER**1.5) + self.length * (above - _HIGHER**1.5)
        up = 1.5 * math.sqrt(over_teeth) if head > self.comb.tooth_height else 0.0
        gain = slots * (1.5 * math.sqrt(wide) - up) + self.length * up
        gain -= self.comb.slots * narrows * (all_over - above + _HIGHER**1.5)
        whole: float = self.steeper * through + (self.steeper * head + self.level) * gain
        return whole
