"""The sign of a verdict: a builder's section through a small vessel, filled to the share of the limit used.

Thick cut walls, water with its level line, and beside it the freeboard: the room between water and rim, which
is the margin. Sound stands well below the rim, near just under it with the limit drawn through, fails spills over,
unproven is an empty dashed outline with a question mark. It never stands without its word.
"""

from __future__ import annotations

import math

from tidestead.core.answer import Verdict
from tidestead.report import wording
from tidestead.report.svg_paint import SANS, paint, style
from tidestead.report.svg_words import Text, attribute, number

VIEW = 24
_LEFT, _RIGHT, _RIM, _FLOOR, _WALL = 3.2, 18.2, 5.0, 19.4, 2.6
"""Inner faces stand a wall's thickness inside left and right; the inner depth runs from rim to floor."""

_HIGHEST, _LOWEST = 0.97, 0.06
_SCOPE = "ts-sign"


def sign(verdict: Verdict, use: float | None, size: float = 20.0, *, themed: bool = True) -> str:
    """The sign as SVG, `size` units high. `themed` lets its colours follow the page, dark and print."""
    told = verdict.value if use is None else f"{verdict.value}, {wording.percent(use)} used"
    inner = _empty() if verdict is Verdict.UNPROVEN or use is None else _vessel(verdict, use)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {VIEW} {VIEW}" width="{number(size)}" '
        f'height="{number(size)}" class="{_SCOPE} {verdict.value}" role="img" aria-label={attribute(told)}>'
        f"{style(_SCOPE) if themed else ''}{inner}</svg>"
    )


def placed(verdict: Verdict, use: float | None, left: float, top: float, size: float) -> str:
    """The sign inside another drawing, whose colours it takes; empty where the level that it would show is unknown."""
    scale = size / VIEW
    if verdict is Verdict.UNPROVEN:
        half = (_LEFT + _RIGHT) / 2.0
        query = Text(("?",), left + scale * half, top + scale * 12.2, size=round(11.0 * scale, 1))
        inner, beside = _outline(), query.svg(halo=False)
    elif verdict is Verdict.FAILS or (use is not None and math.isfinite(use)):
        inner, beside = _vessel(verdict, use if use is not None else 1.0), ""
    else:
        return ""
    return f'<g transform="translate({number(left)} {number(top)}) scale({scale:.3f})">{inner}</g>{beside}'


def _vessel(verdict: Verdict, use: float) -> str:
    shell = f"M{_LEFT} {_RIM}h{_WALL}V{_FLOOR}H{_RIGHT - _WALL}V{_RIM}h{_WALL}V{_FLOOR + _WALL}H{_LEFT}Z"
    walls = f'<path d="{shell}" {paint("ink")}/>'
    if verdict is Verdict.FAILS:
        return _spilling() + walls
    return _standing(use) + walls + (_limit() if verdict is Verdict.NEAR else "")


def _standing(use: float) -> str:
    """Water below the rim, its level line carried through to the freeboard mark outside the wall."""
    share = min(_HIGHEST, max(_LOWEST, use))
    level = _FLOOR - share * (_FLOOR - _RIM)
    left, right = _LEFT + _WALL, _RIGHT - _WALL
    water = f'<rect x="{left}" y="{number(level)}" width="{right - left}" height="{number(_FLOOR - level)}"'
    mark = f"M{_RIGHT + 1} {number(level)}h4.5M{_RIGHT + 1} {_RIM}h4.5M{_RIGHT + 3.2} {_RIM}V{number(level)}"
    return f'{water} {paint("water")}/><path d="{mark}" {paint("none", "soft")} stroke-width="1.2"/>'


def _limit() -> str:
    """The rim drawn through as a line: the limit that the water is near to."""
    line = f"M{_LEFT - 2} {_RIM - 2}H{_RIGHT + 2}"
    return f'<path d="{line}" {paint("none", "rust")} stroke-width="2.4" stroke-linecap="round"/>'


def _spilling() -> str:
    """Water heaped over the rim and running down both sides."""
    left, right = _LEFT + _WALL, _RIGHT - _WALL
    top = f"H{_LEFT - 1}Q{(_LEFT + _RIGHT) / 2} {_RIM - 6} {_RIGHT + 1} {_RIM}H{right}"
    heap = f"M{left} {_FLOOR}V{_RIM}{top}V{_FLOOR}Z"
    fall_left = f"M{_LEFT - 1.8:.1f} {_RIM + 0.5}v8m0 3v2.5"
    fall_right = f"M{_RIGHT + 1.8} {_RIM + 0.5}v11m0 3v2"
    return (
        f'<path d="{heap}" {paint("rust")}/>'
        f'<path d="{fall_left}{fall_right}" {paint("none", "rust")} stroke-width="2" stroke-linecap="round"/>'
    )


def _empty() -> str:
    """Nothing is known of the level: a dashed outline round a question mark."""
    middle = (_LEFT + _RIGHT) / 2.0
    query = (
        f'<text x="{middle}" y="16" text-anchor="middle" font-family="{SANS}" font-size="11" '
        f'font-weight="700" '
        f"{paint('ink')}>?</text>"
    )
    return f"{_outline()}{query}"


def _outline() -> str:
    half = _WALL / 2.0
    outline = f"M{_LEFT + half} {_RIM}V{_FLOOR + half}H{_RIGHT - half}V{_RIM}"
    return f'<path d="{outline}" {paint("none", "ink")} stroke-width="1.8" stroke-dasharray="2.8 2"/>'
