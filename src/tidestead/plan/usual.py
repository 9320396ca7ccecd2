"""Of values that say no more than their dimension: by their key, what is usual there and what is surely a slip.

The bounds are generous on purpose: no honest builder is to be refused, only a slip of the unit or of a digit. Where
one key means several things, the largest of them counts.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple


class Usual(NamedTuple):
    """Examples to copy, metric first, and bounds in SI. `thin`: a bare number there is never metres or feet."""

    examples: tuple[str, ...] = ()
    least: float | None = None
    most: float | None = None
    thin: bool = False


NOTHING_USUAL = Usual()
_SMALL = ("40 mm", "1 1/2 in")
_HAND = ("100 mm", "4 in")
_BESIDE = ("300 mm", "12 in")

USUAL: Mapping[tuple[str, str], Usual] = {
    # sheets, beds and timbers
    ("length", "thickness"): Usual(_SMALL, most=0.5, thin=True),
    ("length", "plies"): Usual(("12 mm", "1/2 in"), most=0.1, thin=True),
    ("length", "plate"): Usual(_SMALL, most=0.5, thin=True),
    ("length", "bed_thickness"): Usual(("5 mm", "3/16 in"), most=0.1, thin=True),
    ("length", "gap"): Usual(("5 mm", "3/16 in"), most=0.1, thin=True),
    ("length", "dry_film"): Usual(("1.2 mm", "3/64 in"), most=0.05, thin=True),
    ("length", "over_rim"): Usual(_BESIDE, most=5.0, thin=True),
    ("length", "breadth"): Usual(_SMALL, most=1.0, thin=True),
    ("length", "depth"): Usual(("145 mm", "5 1/2 in"), thin=True),
    ("length", "through"): Usual(_SMALL, most=1.0, thin=True),
    ("length", "behind"): Usual(_SMALL, most=1.0, thin=True),
    # centre to centre, and into the slab
    ("length", "spacing"): Usual(_BESIDE),
    ("length", "row_spacing"): Usual(("80 mm", "3 in"), most=1.0, thin=True),
    ("length", "diameter"): Usual(_SMALL, most=2.0, thin=True),
    ("length", "embedment"): Usual(_HAND, most=2.0, thin=True),
    ("length", "edge_distance"): Usual(_HAND, most=10.0, thin=True),
    ("length", "slab_thickness"): Usual(("150 mm", "6 in"), most=3.0, thin=True),
    # small movements and laps
    ("length", "bow_limit"): Usual(("6 mm", "1/4 in"), most=0.5, thin=True),
    ("length", "drop"): Usual(("10 mm", "3/8 in"), most=2.0, thin=True),
    ("length", "settles"): Usual(("10 mm", "3/8 in"), most=2.0, thin=True),
    ("length", "ends_above_water"): Usual(_HAND, least=-10.0, most=10.0, thin=True),
    # heights
    ("length", "elevation"): Usual(("40 m", "130 ft"), least=-500.0, most=9000.0),
    # time and shares
    ("ratio", "turnover"): Usual(("8",)),
    ("ratio", "foam_turnover"): Usual(("1.5",)),
    ("ratio", "yields"): Usual(("1", "3")),
    ("ratio", "speed"): Usual(("100 %",)),
    ("ratio", "open"): Usual(("100 %",)),
    ("time", "hours"): Usual(("11 h",)),
}
"""What is usual by dimension and key. Common practice, no source."""
