"""Plywood as what it is: veneers with the grain turned in turn. Stiffness and strength of a strip either way.

A strip one metre wide bends so that every veneer strains in proportion to its distance from the neutral
axis. Veneers whose grain crosses the strip carry next to nothing in bending and shear like rollers.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from tidestead.core.dims import (
    Array,
    CubicMetrePerMetre,
    Metre,
    NewtonMetre2PerMetre,
    NewtonMetrePerMetre,
    NewtonPerMetre,
    Pascal,
    Ratio,
    SquareMetrePerMetre,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse


@dataclass(frozen=True)
class Makeup:
    """Veneers from face to back, grain turned a right angle from each to the next, and their two moduli."""

    veneers: tuple[Metre, ...]
    modulus_along: Pascal
    modulus_across: Pascal = 0.0


@dataclass(frozen=True)
class StripSection:
    """What a one-metre strip is worth in one direction.

    `stiffness` is EI; `modulus` that of a plain strip of the same thickness and stiffness. `edge` is EI over
    the modulus and distance of the outermost veneer along the strip: bending capacity per veneer strength.
    `plain_edge` is t**2/6. `roller` is the force across per rolling strength, `axial` the area of veneers
    along the strip.
    """

    thickness: Metre
    stiffness: NewtonMetre2PerMetre
    modulus: Pascal
    edge: CubicMetrePerMetre
    plain_edge: CubicMetrePerMetre
    roller: SquareMetrePerMetre
    axial: SquareMetrePerMetre


def strip_section(makeup: Makeup, along_face: bool) -> StripSection:
    """Stiffness and section values of a strip that spans along or across the grain of the face.

        EI = sum of E_i*(t_i**3/12 + t_i*y_i**2);  E = 12*EI/t**3;  W = EI/(E_L*y_out)
        roller = EI / (largest of the sums of E_i*t_i*y_i beyond a point within a crossing veneer)

    Single make-ups only.
    Source: elementary beam theory of layers; the method of EN 14272 and of the Finnish plywood handbook.
    Valid:  pure bending of thin strips; bow by rolling shear is left out, which matters below a span of
            about twenty thicknesses.
    """
    veneers = np.asarray(makeup.veneers, dtype=float)
    if veneers.size < 3:
        raise ImpossibleInput(f"plywood has three veneers or more, got {veneers.size}")
    _refuse.not_positive(thinnest_veneer=veneers.min(), modulus_along=makeup.modulus_along)
    _refuse.negative(modulus_across=makeup.modulus_across)
    along = (np.arange(veneers.size) % 2 == 0) == along_face
    moduli = np.where(along, makeup.modulus_along, makeup.modulus_across)
    edges = np.concatenate(([0.0], np.cumsum(veneers)))
    middles = (edges[:-1] + edges[1:]) / 2.0
    neutral = float(np.sum(moduli * veneers * middles) / np.sum(moduli * veneers))
    low, high = edges[:-1] - neutral, edges[1:] - neutral
    stiffness = float(np.sum(moduli * (high**3 - low**3)) / 3.0)
    outermost = float(np.max(np.maximum(np.abs(low), np.abs(high))[along]))
    thickness = float(edges[-1])
    return StripSection(
        thickness=thickness,
        stiffness=stiffness,
        modulus=12.0 * stiffness / thickness**3,
        edge=stiffness / (makeup.modulus_along * outermost),
        plain_edge=thickness**2 / 6.0,
        roller=stiffness / _rolling_moment(moduli, low, high, ~along),
        axial=float(np.sum(veneers[along])),
    )


def _rolling_moment(moduli: Array, low: Array, high: Array, crossing: Array) -> float:
    """Largest stiffness moment beyond any point within the crossing veneers."""
    moments = moduli * (high**2 - low**2) / 2.0
    beyond = np.concatenate((np.cumsum(moments[::-1])[::-1], [0.0]))
    at_edges = np.maximum(np.abs(beyond[:-1]), np.abs(beyond[1:]))
    holds_axis = (low < 0.0) & (high > 0.0)
    at_axis = np.where(holds_axis, np.abs(beyond[1:] + moduli * high**2 / 2.0), 0.0)
    return float(np.max(np.maximum(at_edges, at_axis)[crossing]))


def bending_capacity(section: StripSection, veneer_strength: Pascal) -> NewtonMetrePerMetre:
    """Bending capacity of a strip from the strength of its veneers along the grain.

        m = f_L * W

    Arrays broadcast.
    Source: elementary beam theory of layers; the Finnish plywood handbook prints f = m/(t**2/6).
    Valid:  the outermost veneer along the strip governs.
    """
    _refuse.not_positive(veneer_strength=veneer_strength)
    return veneer_strength * section.edge


def plain_bending_capacity(section: StripSection, strength: Pascal) -> NewtonMetrePerMetre:
    """Bending capacity of a strip from a strength printed for the whole thickness.

        m = f_m * t**2 / 6

    Arrays broadcast.
    Source: EN 789 and EN 1058, which give plywood strength on the whole thickness; from memory.
    Valid:  strength declared for this thickness and direction.
    """
    _refuse.not_positive(strength=strength)
    return strength * section.plain_edge


def rolling_capacity(section: StripSection, rolling_strength: Pascal) -> NewtonPerMetre:
    """Force across a strip at which a crossing veneer starts to roll.

        v = f_r * EI/ES

    Arrays broadcast.
    Source: elementary beam theory of layers.
    Valid:  static load; glue at least as strong as the veneer.
    """
    _refuse.not_positive(rolling_strength=rolling_strength)
    return rolling_strength * section.roller


def plain_planar_strength(section: StripSection, rolling_strength: Pascal) -> Pascal:
    """Planar shear strength as handbooks print it, on the whole thickness.

        f_v = 1.5 * f_r * (EI/ES) / t

    Arrays broadcast. Turned round, a printed strength gives the force: v = f_v * t / 1.5.
    Source: elementary beam theory; the convention of the Finnish plywood handbook.
    Valid:  as `rolling_capacity`.
    """
    return 1.5 * rolling_capacity(section, rolling_strength) / section.thickness


def plain_planar_capacity(planar_strength: Pascal, thickness: Metre) -> NewtonPerMetre:
    """Force across a strip from a planar shear strength printed on the whole thickness.

        v = f_v * t / 1.5

    Arrays broadcast.
    Source: elementary beam theory, parabola of shear over a plain strip.
    Valid:  strength declared for this thickness and direction.
    """
    _refuse.not_positive(planar_strength=planar_strength, thickness=thickness)
    return planar_strength * thickness / 1.5


def axial_share(section: StripSection) -> Ratio:
    """Share of the thickness whose grain runs along the strip.

        r = A_along / t          strength on the whole thickness = veneer strength * r

    Arrays broadcast.
    Source: geometry; the Finnish plywood handbook's tension and compression strengths follow it.
    Valid:  crossing veneers taken as carrying nothing.
    """
    return section.axial / section.thickness
