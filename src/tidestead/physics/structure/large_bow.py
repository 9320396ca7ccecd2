"""How far small-bow plate theory may be trusted when a panel bows much of its own thickness.

A panel that bows stretches in its own plane, which stiffens it. A window's edges can slide in, so it stiffens
little; thin-plate theory is then safe for stress, and slightly unsafe for the bow of a free edge.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

import numpy as np

from tidestead.core.dims import Metre, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.structure.plate_panel import EDGE_NAMES, Edges

GuardState: TypeAlias = Literal["linear", "caution", "stiffened", "refused"]

LINEAR_BOW: Ratio = 0.5
CAUTION_BOW: Ratio = 1.0
STIFFENED_BOW: Ratio = 2.0
"""Bow by small-bow theory in thicknesses: up to the first it stands as it is, to the second with a caution.

The third is how far the stiffening of a square panel was compared. Computed for this project by von Karman
solutions of four to six terms: error at the first bound 4 % on the safe side, 0.5 % on the unsafe side.
"""
SQUARE_BAND: Ratio = 0.05
"""How far width/height may be from one for the square panel's coefficient to be used. Own choice."""
FREE_EDGE_FACTOR: Ratio = 1.02
"""Added to the bow of a free edge between the bounds: von Karman gives 1.016 at one thickness (computed)."""
SLIDING_SHARE: Ratio = 0.166 / (1.0 - 0.38**2)
"""Stiffening coefficient of a square panel with sliding edges over (1 - nu**2): 0.166 fitted at nu 0.38."""


@dataclass(frozen=True)
class Guard:
    """Whether a linear bow may be used: `factor` multiplies it, `share` is the bow in thicknesses."""

    state: GuardState
    factor: Ratio
    share: Ratio
    words: str

    @property
    def usable(self) -> bool:
        """Whether a bow may be stated at all."""
        return self.state != "refused"


def immovable_stiffening(poisson: Ratio) -> Ratio:
    """Stiffening coefficient of a square simple panel whose edges cannot move in its plane.

        c = 0.75 * (1 + nu) + 0.375 * (1 - nu**2)     in  w_linear/t = (w/t) * (1 + c * (w/t)**2)

    Arrays broadcast.
    Source: one-term Galerkin solution of von Karman's equations (derived for this project, computed).
    Valid:  square, four simple edges, bow up to two thicknesses; 2 % on the bow. No window seat is so rigid.
    """
    return 0.75 * (1.0 + poisson) + 0.375 * (1.0 - poisson**2)


def sliding_stiffening(poisson: Ratio) -> Ratio:
    """Stiffening coefficient of a square simple panel whose edges may slide in, as a window's on its seat.

        c = 0.194 * (1 - nu**2)     in  w_linear/t = (w/t) * (1 + c * (w/t)**2)

    Arrays broadcast.
    Source: fitted to von Karman solutions of four to six terms at nu 0.38 (computed); change with nu assumed.
    Valid:  square, four simple edges, bow up to two thicknesses.
    """
    return SLIDING_SHARE * (1.0 - poisson**2)


def stiffened_bow(linear_bow: Metre, thickness: Metre, stiffening: Ratio) -> Metre:
    """Bow with stretching of the panel, from the bow by small-bow theory.

        w_linear/t = (w/t) * (1 + c * (w/t)**2)     solved for w

    Arrays broadcast.
    Source: one-term von Karman solution; closed root of the cubic.
    Valid:  as the coefficient c that is given; c above zero.
    """
    # one real root, since the left side only rises: the hyperbolic form stays exact where c is small
    reduced = 1.5 * np.sqrt(3.0 * stiffening) * linear_bow / thickness
    root = 2.0 / np.sqrt(3.0 * stiffening) * np.sinh(np.arcsinh(reduced) / 3.0)
    return float(thickness * root) if np.ndim(root) == 0 else thickness * root


def guard(linear_bow: Metre, thickness: Metre, edges: Edges, aspect: Ratio, poisson: Ratio) -> Guard:
    """Judge a bow found by small-bow theory against the panel's thickness.

        w/t <= 0.5       linear: as it is
        0.5 < w/t <= 1   caution: the bow of a panel with a free edge times 1.02
        1 < w/t <= 2     stiffened, only for a nearly square panel on four simple edges; else refused
        beyond           refused

    `aspect` is width over height. Stresses stay those of small-bow theory, which are higher.
    Source: computed for this project by von Karman solutions with sliding edges.
    Valid:  panels whose edges may slide in on their seats.
    """
    given = (linear_bow, thickness, aspect, poisson)
    if not (np.isfinite(given).all() and thickness > 0.0 and aspect > 0.0):
        raise ImpossibleInput(f"bow, thickness, aspect, Poisson's ratio {given}: finite, sizes above zero.")
    share = abs(linear_bow) / thickness
    if share <= LINEAR_BOW:
        return Guard("linear", 1.0, share, "the bow is under half the thickness: small-bow theory holds")
    supports = {edges.of(name) for name in EDGE_NAMES}
    if share <= CAUTION_BOW:
        factor = FREE_EDGE_FACTOR if "free" in supports else 1.0
        words = "the bow is over half the thickness: small-bow theory is near its end"
        return Guard("caution", factor, share, words + (", so 2 % is added" if factor > 1.0 else ""))
    if share <= STIFFENED_BOW and supports == {"simple"} and abs(aspect - 1.0) <= SQUARE_BAND:
        factor = stiffened_bow(share, 1.0, sliding_stiffening(poisson)) / share
        words = (
            "the bow is over the thickness: stretching of the square sheet counts in its bow, not in stress"
        )
        return Guard("stiffened", factor, share, words)
    words = (
        "the bow is over the thickness: small-bow theory does not hold; thicker sheet or one more held edge"
    )
    return Guard("refused", 1.0, share, words)
