"""Light at clear sheets and at the water's surface: what is thrown back, what goes through, what stays inside.

Angles are those between the ray and the upright on the surface (the normal), in radians. Both ways in which light
can swing are followed through apart, for they part company at slant angles; the mean is taken at the end.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import cache

import numpy as np

from tidestead.core.dims import Array, Count, Radian, Ratio
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

SEAWATER_INDEX: Ratio = 1.34
"""Refractive index of seawater in daylight. Source: R. Austin and G. Halikas (1976), 1.339 to 1.344 at 400 to 700 nm;
from memory."""

_RIGHT: Radian = np.pi / 2.0
_NEARLY_ALL: Ratio = 1.0 - 1e-12
"""A ray along the surface is thrown back, but for so little that what goes through stays a number."""

_ROUNDS = 60
"""Halvings of a search: more than a float can tell apart."""


@dataclass(frozen=True)
class PlatePile:
    """Alike plates one behind the other with air between: `walls` of them, of refractive index `index`.

    `absorbed` is the share that one plate takes out of light that passes straight through its stuff once.
    """

    walls: Count
    index: Ratio
    absorbed: Ratio = 0.0

    def __post_init__(self) -> None:
        """Refuse what no sheet is."""
        _refuse.not_a_share(absorbed=self.absorbed)
        _refuse_index(self.index)
        if self.walls < 1:
            raise ImpossibleInput(f"a sheet has one wall at least, got {self.walls}")


def refraction_angle(angle: Radian, index: Ratio) -> Radian:
    """Angle to the upright behind the surface.

        sin(theta2) = sin(theta1)/n

    Source: Snell's law.
    Valid:  from air into something denser; a smooth surface.
    """
    _refuse_angle(angle)
    _refuse_index(index)
    found: Radian = np.arcsin(np.sin(angle) / index)
    return found


def fresnel_reflectance(angle: Radian, index: Ratio) -> Ratio:
    """Share of daylight that one smooth surface throws back.

        r = (rs + rp)/2
        rs = (sin(t1 - t2)/sin(t1 + t2))^2,  rp = (tan(t1 - t2)/tan(t1 + t2))^2,  sin(t2) = sin(t1)/n

    Straight on r = ((n - 1)/(n + 1))^2.

    Source: Fresnel's equations, as J. Duffie and W. Beckman, Solar Engineering of Thermal Processes, eqs 5.1.1-5.1.4.
    Valid:  light that is not polarised, air before the surface, no ripples.
    """
    _refuse_angle(angle)
    _refuse_index(index)
    across, along = _both_ways(angle, index)
    found: Ratio = (across + along) / 2.0
    return found


def pile_transmittance(angle: Radian, pile: PlatePile) -> Ratio:
    """Share of light that goes through all plates, thrown to and fro between them as often as it may be.

        one plate:   T = a*(1 - r)^2/(1 - (r*a)^2),   R = r*(1 + a*T),   a = (1 - absorbed)^(1/cos(theta2))
        one more:    T = T1*T2/(1 - R1*R2),           R = R1 + T1^2*R2/(1 - R1*R2)

    each way of swinging by itself, and then the mean.

    Source: G. Stokes (1862), Proceedings of the Royal Society 11:545, as adding of layers is taught; one plate as
            J. Duffie and W. Beckman, eqs 5.3.1-5.3.3.
    Valid:  clear flat plates, much thicker than a wave of light; no webs, drops or dirt.
    """
    _refuse_angle(angle)
    through: Ratio = _pile(angle, pile)[0]
    return through


def pile_reflectance(angle: Radian, pile: PlatePile) -> Ratio:
    """Share of light that the plates together throw back: R of `pile_transmittance`.

    Source: as `pile_transmittance`.
    Valid:  as `pile_transmittance`.
    """
    _refuse_angle(angle)
    back: Ratio = _pile(angle, pile)[1]
    return back


def pile_absorptance(angle: Radian, pile: PlatePile) -> Ratio:
    """Share of light that stays in the plates and warms them: 1 - T - R of `pile_transmittance`.

    Source: balance of energy.
    Valid:  as `pile_transmittance`.
    """
    _refuse_angle(angle)
    through, back = _pile(angle, pile)
    kept: Ratio = 1.0 - through - back
    return kept


@cache
def fitted_pile(walls: Count, index: Ratio, printed: Ratio) -> PlatePile:
    """The pile whose share of light let through straight on is the printed one, its absorption fitted to that.

        T(0; absorbed) = printed

    Where even plates that absorb nothing let less through than the maker prints, they absorb nothing.

    Source: fitted to the maker's figure; the absorption stands for webs and colour too.
    Valid:  sheet of alike walls.
    """
    _refuse.not_a_share(printed=printed)
    low, high = 0.0, 1.0
    pile = PlatePile(walls, index)
    for _ in range(_ROUNDS):
        middle = (low + high) / 2.0
        if float(_pile(0.0, replace(pile, absorbed=middle))[0]) > printed:
            low = middle
        else:
            high = middle
    clearest = float(_pile(0.0, pile)[0]) <= printed
    return pile if clearest else replace(pile, absorbed=(low + high) / 2.0)


def sheet_transmittance(angle: Radian, walls: Count, index: Ratio, printed: Ratio) -> Ratio:
    """Share of light that a clear sheet lets through by angle, its maker's figure being that of straight on.

        T(theta) = printed*T_pile(theta)/T_pile(0)          T_pile: `fitted_pile`

    Source: the maker for straight on, `pile_transmittance` for the shape over the angle.
    Valid:  as `pile_transmittance`. Webs throw more shade at slant angles than this knows.
    """
    pile = fitted_pile(walls, index, printed)
    straight = float(_pile(0.0, pile)[0])
    share: Ratio = pile_transmittance(angle, pile) * (printed / straight)
    return share


def hemispherical_mean(share: Callable[[Radian], Ratio]) -> Ratio:
    """Mean of a share over light that comes evenly from all of a half sphere.

        mean = integral of share(theta)*2*sin(theta)*cos(theta) from 0 to 90 degrees

    Source: M. Brandemuehl and W. Beckman (1980), Solar Energy 24:511, for evenly bright sky.
    Valid:  `share` takes an array of angles. Sum by Gauss in sin^2(theta), 96 points.
    """
    nodes, weights = _half_sphere()
    mean: Ratio = np.sum(weights * share(nodes))  # type: ignore[arg-type]  # numbers or arrays
    return mean


@cache
def _half_sphere() -> tuple[Array, Array]:
    nodes, weights = np.polynomial.legendre.leggauss(96)
    return np.arcsin(np.sqrt((nodes + 1.0) / 2.0)), weights / 2.0


def _both_ways(angle: Radian, index: Ratio) -> tuple[Ratio, Ratio]:
    """What one surface throws back of light that swings across the plane of the ray, and along it."""
    before = np.cos(np.minimum(angle, _RIGHT))
    behind = np.sqrt(1.0 - (np.sin(angle) / index) ** 2)
    across = ((before - index * behind) / (before + index * behind)) ** 2
    along = ((index * before - behind) / (index * before + behind)) ** 2
    return np.minimum(across, _NEARLY_ALL), np.minimum(along, _NEARLY_ALL)


def _pile(angle: Radian, pile: PlatePile) -> tuple[Ratio, Ratio]:
    """Shares let through and thrown back, mean of both ways of swinging."""
    behind = np.sqrt(1.0 - (np.sin(angle) / pile.index) ** 2)
    left = (1.0 - pile.absorbed) ** (1.0 / behind)
    ends = [_stack(once, left, pile.walls) for once in _both_ways(angle, pile.index)]
    return (ends[0][0] + ends[1][0]) / 2.0, (ends[0][1] + ends[1][1]) / 2.0


def _stack(once: Ratio, left: Ratio, walls: Count) -> tuple[Ratio, Ratio]:
    one_through = left * (1.0 - once) ** 2 / (1.0 - (once * left) ** 2)
    one_back = once * (1.0 + left * one_through)
    through, back = one_through, one_back
    for _ in range(walls - 1):
        between = 1.0 - back * one_back
        through, back = through * one_through / between, back + through**2 * one_back / between
    return through, back


def _refuse_angle(angle: Radian) -> None:
    if not (np.all(np.greater_equal(angle, 0.0)) and np.all(np.less_equal(angle, _RIGHT + 1e-9))):
        raise ImpossibleInput(f"an angle to the upright is from 0 to 90 degrees, got {angle} rad")


def _refuse_index(index: Ratio) -> None:
    if not index > 1.0:
        raise ImpossibleInput(f"a refractive index must be more than 1, got {index}")
