"""Where small-bow theory ends, and how a panel stiffens beyond."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from tests.published.case import Case, marked
from tidestead.physics.structure import large_bow
from tidestead.physics.structure.plates import Edges, Support

VON_KARMAN = "von Karman solutions of four to six terms, computed for this project"


def _stretch(share: float, printed: float, to: float, why: str = "") -> Case:
    """Square acrylic panel with sliding edges, nu 0.38."""
    return Case(
        f"bow with stretching at {share} thicknesses",
        of=large_bow.stiffened_bow,
        given={"linear_bow": share, "thickness": 1.0, "stiffening": 0.166},
        printed=printed,
        to=to,
        unit=share,
        source=VON_KARMAN,
        place="square, four simple sliding edges",
        known="computed",
        why=why,
    )


def _stiffened(share: float) -> Callable[[float], float]:
    """The share of a bow that is left when it stretches, of the stiffening found."""
    return lambda stiffening: large_bow.stiffened_bow(share, 1.0, stiffening) / share


GUARDED: list[tuple[float, Support, float, float]] = [
    (0.4, "free", 1.0, 1e-9),
    (0.8, "free", 1.02, 1e-9),
    (0.8, "simple", 1.0, 1e-9),
    (2.0, "simple", 0.735, 0.001),
]
"""Bow in thicknesses, the top edge, the factor left, its tolerance."""

ONE_TERM = "One term fitted to four bows of the longer solution."
CASES = [
    _stretch(0.2, 0.993, 0.0005),
    _stretch(0.5, 0.961, 0.0025, ONE_TERM),
    _stretch(1.0, 0.885, 0.0005),
    _stretch(2.0, 0.735, 0.001, ONE_TERM),
    Case(
        "sliding edges",
        of=large_bow.sliding_stiffening,
        given={"poisson": 0.38},
        printed=0.166,
        to=0.0005,
        source=VON_KARMAN,
        place="square, four simple sliding edges",
        known="computed",
    ),
    *(
        Case(
            f"edges that cannot move, {share} thicknesses",
            of=large_bow.immovable_stiffening,
            given={"poisson": 0.38},
            printed=printed,
            to=0.02 * printed,
            source=VON_KARMAN,
            place="square, four simple edges held in their plane",
            known="computed",
            pick=_stiffened(share),
            why="One term, stated good to 2 %.",
            differs=differs,
        )
        for share, printed, differs in (
            (0.2, 0.951, ""),
            (0.5, 0.809, ""),
            (1.0, 0.632, ""),
            (2.0, 0.452, "One term is 2.4 % over the longer solution at two thicknesses, not 2 %."),
        )
    ),
    *(
        Case(
            f"bow guard, {share} thicknesses, top {top}",
            of=large_bow.guard,
            given={
                "linear_bow": share * 0.05,
                "thickness": 0.05,
                "edges": Edges("simple", "simple", "simple", top),
                "aspect": 1.0,
                "poisson": 0.38,
            },
            printed=printed,
            to=to,
            source=VON_KARMAN,
            place="rule to ship",
            known="computed",
            pick=lambda held: held.factor,
            why="" if share < 1.0 else "the stiffening is given to two digits, about 0.19 (1 - nu^2)",
        )
        for share, top, printed, to in GUARDED
    ),
]


@pytest.mark.parametrize("case", [marked(case) for case in CASES])
def test_printed_value(case: Case) -> None:
    assert case.holds()


@pytest.mark.parametrize("share", [1.01, 3.0])
@pytest.mark.parametrize(
    "edges", [Edges("simple", "simple", "simple", "free"), Edges("clamped", "simple", "simple", "simple")]
)
def test_large_bow_is_refused(edges: Edges, share: float) -> None:
    held = large_bow.guard(share * 0.01, 0.01, edges, 1.0, 0.22)
    assert not held.usable
    assert "does not hold" in held.words
