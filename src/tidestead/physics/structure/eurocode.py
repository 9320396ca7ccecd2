"""Solid timber and glulam by Eurocode 5: design values, combined stresses, creep.

Modification and creep factors (k_mod, k_def) and partial factors are given as numbers, since they depend on
service class, load duration and country. Loads are raised by their own factor, strengths lowered by theirs.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

import numpy as np

from tidestead.core.dims import KgPerM3, Metre, Newton, Pascal, Ratio
from tidestead.physics import _refuse
from tidestead.physics.structure._pick import pick

_SOLID_DEPTH: Final = 0.150
_SOLID_POWER: Final = 0.2
_SOLID_MOST: Final = 1.3
_SOLID_DENSEST: Final = 700.0
"""Depth factor of solid timber and its limits. Source: EN 1995-1-1, 3.2(3)."""

_GLULAM_DEPTH: Final = 0.600
_GLULAM_POWER: Final = 0.1
_GLULAM_MOST: Final = 1.1
"""Depth factor of glulam and its limit. Source: EN 1995-1-1, 3.3(3), from memory."""

_OTHER_AXIS: Final = 0.7
"""k_m of rectangles: share of the lesser bending that counts. Source: EN 1995-1-1, 6.1.6(2), from memory."""

_SPREAD: Final = 0.030
"""What the fibres beside a bearing add to its length at each side. Source: EN 1995-1-1, 6.1.5(1), amendment
A1 (2008), from memory."""

_STRAIGHT: Final = {"solid": 0.2, "glulam": 0.1}
_STOCKY: Final = 0.3
"""beta_c and the relative slenderness below which nothing buckles. Source: EN 1995-1-1, 6.3.2."""


@dataclass(frozen=True)
class LumberStrength:
    """A strength class: characteristic strengths and density, mean and fifth-percentile modulus."""

    bending: Pascal
    tension: Pascal
    shear: Pascal
    compression_across: Pascal
    compression: Pascal
    modulus: Pascal
    modulus_fifth: Pascal
    density: KgPerM3


@dataclass(frozen=True)
class EcConditions:
    """How a timber is used.

    `depth` is the side along which it bends, `widest` the larger side of the section. `system` is k_sys, 1.1
    where several equal members share load through a sheet. `glulam` chooses the depth factor.
    """

    kmod: Ratio
    gamma_m: Ratio
    kdef: Ratio
    depth: Metre
    widest: Metre
    system: Ratio = 1.0
    glulam: bool = False


@dataclass(frozen=True)
class DesignLumber:
    """Design strengths, the modulus at once and after creep, and the depth factors used."""

    bending: Pascal
    tension: Pascal
    shear: Pascal
    compression_across: Pascal
    compression: Pascal
    modulus: Pascal
    final_modulus: Pascal
    bending_depth_factor: Ratio
    tension_depth_factor: Ratio


def design_action(characteristic: Newton, load_factor: Ratio) -> Newton:
    """Design value of a load, or of anything in proportion to it.

        F_d = gamma_F * F_k

    Arrays broadcast. Water that stands for good is a permanent action: gamma 1.35 on its service level
    covers a level that is set by hand. Where the level is the brim and cannot be passed, handbooks go lower
    (1.15 to 1.2); that is the designer's choice, hence an argument.
    Source: EN 1990, Table A1.2(B), equation 6.10.
    Valid:  unfavourable actions, strength of members.
    """
    _refuse.not_positive(load_factor=load_factor)
    return load_factor * characteristic


def design_strength(characteristic: Pascal, kmod: Ratio, gamma_m: Ratio, factor: Ratio = 1.0) -> Pascal:
    """Design value of a strength, or of a capacity, of timber, sheet or connection.

        f_d = k_mod * f_k * factor / gamma_M

    Arrays broadcast. `factor` gathers depth, system and bearing factors.
    Source: EN 1995-1-1, 2.4.1, equation 2.14, and 2.4.3.
    Valid:  k_mod of the shortest load in the combination; water alone is permanent.
    """
    _refuse.not_positive(kmod=kmod, gamma_m=gamma_m, factor=factor)
    return kmod * characteristic * factor / gamma_m


def solid_depth_factor(depth: Metre, density: KgPerM3) -> Ratio:
    """k_h of solid timber.

        k_h = (150 mm / h)**0.2, at most 1.3      for h < 150 mm and rho_k <= 700 kg/m3, else 1

    Arrays broadcast. `depth`: the bent side for bending, the larger side for tension.
    Source: EN 1995-1-1, 3.2(3), equation 3.1.
    Valid:  rectangular solid timber.
    """
    _refuse.not_positive(depth=depth, density=density)
    gain = np.minimum((_SOLID_DEPTH / depth) ** _SOLID_POWER, _SOLID_MOST)
    due = np.less(depth, _SOLID_DEPTH) & np.less_equal(density, _SOLID_DENSEST)
    factor: Ratio = pick(due, gain, 1.0)
    return factor


def glulam_depth_factor(depth: Metre) -> Ratio:
    """k_h of glued laminated timber.

        k_h = (600 mm / h)**0.1, at most 1.1      for h < 600 mm, else 1

    Arrays broadcast.
    Source: EN 1995-1-1, 3.3(3), equation 3.2, from memory.
    Valid:  rectangular glulam.
    """
    _refuse.not_positive(depth=depth)
    gain = np.minimum((_GLULAM_DEPTH / depth) ** _GLULAM_POWER, _GLULAM_MOST)
    factor: Ratio = pick(np.less(depth, _GLULAM_DEPTH), gain, 1.0)
    return factor


def final_modulus(modulus: Pascal, kdef: Ratio) -> Pascal:
    """Mean modulus that gives the bow after creep under a permanent load.

        E_fin = E_mean / (1 + k_def)

    Arrays broadcast. Lumber and sheet have each their own k_def.
    Source: EN 1995-1-1, 2.3.2.2, equation 2.7.
    Valid:  permanent loads.
    """
    _refuse.negative(kdef=kdef)
    return modulus / (1.0 + kdef)


def final_deflection(permanent: Metre, passing: Metre, kdef: Ratio, quasi_permanent: Ratio = 0.0) -> Metre:
    """Bow after creep.

        w_fin = w_G*(1 + k_def) + w_Q*(1 + psi_2*k_def)

    Arrays broadcast. `permanent` and `passing` are the bows at once; `quasi_permanent` is psi_2.
    Source: EN 1995-1-1, 2.2.3(5), equations 2.3 and 2.4.
    Valid:  members and joints of one creep factor.
    """
    _refuse.negative(kdef=kdef, quasi_permanent=quasi_permanent)
    return permanent * (1.0 + kdef) + passing * (1.0 + quasi_permanent * kdef)


def design_lumber(strength: LumberStrength, conditions: EcConditions) -> DesignLumber:
    """Design values of a timber.

        f_d = k_mod * f_k * k_h * k_sys / gamma_M       k_h on bending and tension, k_sys on all but bearing

    Arrays broadcast.
    Source: EN 1995-1-1, 2.4.1, 3.2, 3.3 and 6.6.
    Valid:  shear of EN 338:2016 must meet k_cr = 0.67 in the stress; never mix editions.
    """
    use = conditions
    if use.glulam:
        bent, pulled = glulam_depth_factor(use.depth), glulam_depth_factor(use.widest)
    else:
        bent = solid_depth_factor(use.depth, strength.density)
        pulled = solid_depth_factor(use.widest, strength.density)
    return DesignLumber(
        bending=design_strength(strength.bending, use.kmod, use.gamma_m, bent * use.system),
        tension=design_strength(strength.tension, use.kmod, use.gamma_m, pulled * use.system),
        shear=design_strength(strength.shear, use.kmod, use.gamma_m, use.system),
        compression_across=design_strength(strength.compression_across, use.kmod, use.gamma_m),
        compression=design_strength(strength.compression, use.kmod, use.gamma_m, use.system),
        modulus=strength.modulus,
        final_modulus=final_modulus(strength.modulus, use.kdef),
        bending_depth_factor=bent,
        tension_depth_factor=pulled,
    )


def bearing_length(contact: Metre, end: Metre, gap: Metre) -> Metre:
    """Effective length of a bearing across the grain.

        l_ef = l + least(30 mm, end, l) + least(30 mm, gap/2, l)

    Arrays broadcast. `end` is the wood beyond the bearing to the timber's end, `gap` the clear distance to
    the next bearing on the other side.
    Source: EN 1995-1-1, 6.1.5(1), amendment A1 (2008), from memory.
    Valid:  bearings on a timber held on the opposite face.
    """
    _refuse.not_positive(contact=contact)
    _refuse.negative(end=end, gap=gap)
    at_end = np.minimum(np.minimum(_SPREAD, end), contact)
    inside = np.minimum(np.minimum(_SPREAD, gap / 2.0), contact)
    length: Metre = contact + at_end + inside
    return length


def tension_bending_use(tension: Ratio, strong: Ratio, weak: Ratio = 0.0) -> Ratio:
    """Share used by a pull with bending about both axes.

        s_t/f_t + the larger of (s_y/f_y + 0.7*s_z/f_z) and (0.7*s_y/f_y + s_z/f_z)

    Arrays broadcast. Arguments are shares.
    Source: EN 1995-1-1, 6.2.3, equations 6.17 and 6.18.
    Valid:  rectangular sections.
    """
    _refuse.negative(tension=tension, strong=strong, weak=weak)
    use: Ratio = tension + np.maximum(strong + _OTHER_AXIS * weak, _OTHER_AXIS * strong + weak)
    return use


def relative_slenderness(length: Metre, depth: Metre, compression: Pascal, modulus_fifth: Pascal) -> Ratio:
    """Slenderness of a rectangular column against that at which strength and buckling meet.

        lambda_rel = lambda/pi * sqrt(f_c0k / E_005),   lambda = l / (h/sqrt(12))

    Arrays broadcast. Characteristic values.
    Source: EN 1995-1-1, 6.3.2, equations 6.21 and 6.22.
    Valid:  rectangular sections, ends held in place.
    """
    _refuse.not_positive(length=length, depth=depth, compression=compression, modulus_fifth=modulus_fifth)
    ratio: Ratio = length * np.sqrt(12.0) / depth / np.pi * np.sqrt(compression / modulus_fifth)
    return ratio


def column_factor(slenderness: Ratio, glulam: bool = False) -> Ratio:
    """k_c, what slenderness leaves of the strength along the grain.

        k_c = 1 / (k + sqrt(k**2 - l**2)),   k = 0.5*(1 + beta_c*(l - 0.3) + l**2),   l = lambda_rel

    Arrays broadcast. beta_c 0.2 for solid timber, 0.1 for glulam; at most one.
    Source: EN 1995-1-1, 6.3.2, equations 6.25 to 6.29.
    Valid:  columns straight within the tolerances of section 10.
    """
    _refuse.negative(slenderness=slenderness)
    beta = _STRAIGHT["glulam" if glulam else "solid"]
    k = 0.5 * (1.0 + beta * (slenderness - _STOCKY) + slenderness**2)
    slender = np.maximum(k**2 - np.square(slenderness), 0.0)
    factor: Ratio = pick(np.less_equal(slenderness, _STOCKY), 1.0, 1.0 / (k + np.sqrt(slender)))
    return factor


def compression_bending_use(compression: Ratio, bending: Ratio, slenderness: Ratio) -> Ratio:
    """Share used by a push and bending about one axis.

        stocky (lambda_rel <= 0.3): (s_c/f_c)**2 + s_m/f_m;   slender: s_c/(k_c*f_c) + s_m/f_m

    Arrays broadcast. `compression` is s_c/f_c, or s_c/(k_c*f_c) where slender; `bending` is s_m/f_m.
    Source: EN 1995-1-1, 6.2.4 equation 6.19 and 6.3.2 equation 6.23.
    Valid:  bending about one axis, held against twisting.
    """
    _refuse.negative(compression=compression, bending=bending, slenderness=slenderness)
    use: Ratio = pick(np.less_equal(slenderness, _STOCKY), np.square(compression), compression) + bending
    return use
