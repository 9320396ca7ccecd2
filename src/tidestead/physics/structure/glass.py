"""What glass may bear for good, and how the plies of a laminate share the load.

EN 16612 covers infill panes of buildings and does not determine fitness; a tank wall is outside it. Its
strength serves here as a bound, not as proof. Interlayers creep under permanent load, so that plies are taken
to slide freely on each other.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import Array, Hour, Metre, Pascal, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

FIFTY_YEARS: Hour = 50.0 * 365.25 * 24.0
"""A permanent load, as EN 16612 takes it."""

FACTOR_ANNEALED: Ratio = 1.8
"""Material partial factor of annealed glass. Source: EN 16612:2019, quoted twice; one house uses 1.6."""

FACTOR_PRESTRESS: Ratio = 1.2
"""Material partial factor of the prestress. Source: EN 16612:2019, quoted twice."""

_DURATION_AT_AN_HOUR = 0.663
_DURATION_POWER = 1.0 / 16.0
_DURATION_MOST = 1.0
_DURATION_LEAST = 0.25
"""Constants of the load duration factor and its bounds. Source: EN 16612:2019; the bounds from memory."""


@dataclass(frozen=True)
class GlassKind:
    """One sort of glass as EN 16612 sees it.

    `annealed` is the characteristic bending strength of the glass before any heat treatment, `characteristic`
    that of the product. `surface`, `edge` and `toughening` are the factors ksp, ke and kv.
    """

    annealed: Pascal
    characteristic: Pascal
    surface: Ratio = 1.0
    edge: Ratio = 1.0
    toughening: Ratio = 1.0


@dataclass(frozen=True)
class PlyShare:
    """What one ply of a laminate takes of the moment.

    `thickness_for_stress` is the thickness of a single sheet that the whole moment would stress as much.
    """

    share: Ratio
    thickness_for_stress: Metre


def load_duration_factor(duration: Hour) -> Ratio:
    """How much of its short-term strength annealed glass keeps under a load of this length.

        kmod = 0.663 * t**(-1/16)      t in hours, not above 1 nor below 0.25

    Source: EN 16612:2019, quoted; the bounds from memory.
    Valid:  from seconds to fifty years; glass under water is on the weak side of what it was fitted to.
    """
    _refuse.not_positive(duration=duration)
    factor = _DURATION_AT_AN_HOUR * np.power(duration, -_DURATION_POWER)
    bounded: Ratio = np.clip(factor, _DURATION_LEAST, _DURATION_MOST)
    return bounded


def design_strength(kind: GlassKind, duration_factor: Ratio) -> Pascal:
    """Bending strength to design with, before the load factor.

        fgd = ke*kmod*ksp*fgk/gMA + kv*(fbk - fgk)/gMv      the second part is nothing for annealed glass

    Source: EN 16612:2019, quoted; gMA = 1.8, gMv = 1.2.
    Valid:  infill panes of buildings; a tank is outside the standard, so that this is a bound and no proof.
    """
    _refuse.not_positive(annealed_strength=kind.annealed, duration_factor=duration_factor)
    if np.any(np.less(kind.characteristic, kind.annealed)):
        raise ImpossibleInput("heat-treated glass is not weaker than annealed glass")
    basic = kind.edge * duration_factor * kind.surface * kind.annealed / FACTOR_ANNEALED
    return basic + kind.toughening * (kind.characteristic - kind.annealed) / FACTOR_PRESTRESS


def laminate_thickness(plies: Sequence[Metre]) -> Metre:
    """Thickness of a single sheet as stiff as the plies sliding freely on each other.

        t_eff = (sum of t_i**3)**(1/3)

    Source: EN 16612:2019, equivalent thickness for deflection with shear transfer 0, quoted; plate theory.
    Valid:  permanent load, where the interlayer has crept. Plies of one material.
    """
    thick = _plies(plies)
    stiff: Metre = float(np.cbrt(np.sum(thick**3)))
    return stiff


def ply_shares(plies: Sequence[Metre]) -> tuple[PlyShare, ...]:
    """How the plies of a laminate share the moment when they slide freely.

        share_i = t_i**3 / sum of t_j**3          t_i,stress = sqrt(sum of t_j**3 / t_i)

    Source: EN 16612:2019, equivalent thickness for stress with shear transfer 0, quoted; plate theory.
    Valid:  permanent load, plies of one material bent alike.
    """
    thick = _plies(plies)
    whole = float(np.sum(thick**3))
    return tuple(PlyShare(float(t**3) / whole, float(np.sqrt(whole / t))) for t in thick)


def broken_ply_rise(plies: Sequence[Metre]) -> Ratio:
    """How many times the stress of the others grows when the most useful ply breaks and carries nothing.

        rise = sum of t_i**3 / (sum of t_i**3 - t_max**3)

    Source: plate theory, plies sliding freely; glass makers ask that one ply may break.
    Valid:  two plies or more; the broken ply stays in place and the seat holds all of the rest.
    """
    thick = _plies(plies)
    if thick.size < 2:
        raise ImpossibleInput("a single sheet leaves nothing when it breaks")
    cubes = thick**3
    return float(np.sum(cubes) / (np.sum(cubes) - np.max(cubes)))


def _plies(plies: Sequence[Metre]) -> Array:
    thick = np.asarray(plies, dtype=float)
    if thick.ndim != 1 or thick.size == 0:
        raise ImpossibleInput("a laminate is a list of plies")
    _refuse.not_positive(ply_thickness=thick)  # type: ignore[arg-type] # numbers or arrays
    return thick
