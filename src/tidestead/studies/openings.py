"""The clear opening behind a window: its sheet lies on the wall's wet side, and what of it rests on a seat is covered.

The timbers round a window stand flush with this opening, behind the seat, so that the sheet leans on timber.
"""

from __future__ import annotations

from typing import TypeAlias

from tidestead.plan.model import Window

Rect: TypeAlias = tuple[float, float, float, float]
"""Left, lower edge, right, upper edge: metres from a face's left end seen from outside and from the floor."""

ON_SEAT = ("seat", "held", "clamped")
"""How an edge is supported that rests on a seat; one that leans on the rim, or on nothing, rests on none."""

LEAST = 0.03
"""An opening that is no wider or no higher is none, m. Own choice."""


def opening_of(window: Window, sheet: Rect) -> Rect | None:
    """The clear opening behind a sheet: the sheet less what of it rests on a seat; None where that is not said.

    An edge that leans on the rim, or on nothing, rests on no seat.
    """
    edges, seat = window.edges, window.seat.width
    if edges is None:
        return None
    on_seat = [getattr(edges, name) in ON_SEAT for name in ("left", "bottom", "right", "top")]
    if seat is None and any(on_seat):
        return None
    inset = [(seat or 0.0) if rests else 0.0 for rests in on_seat]
    left, low, right, high = sheet
    found = left + inset[0], low + inset[1], right - inset[2], high - inset[3]
    return found if found[2] - found[0] > LEAST and found[3] - found[1] > LEAST else None


def opening_or_sheet(window: Window, sheet: Rect) -> Rect:
    """The clear opening, or the sheet itself where the plan does not say what of it rests on a seat."""
    return opening_of(window, sheet) or sheet
