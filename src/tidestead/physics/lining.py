"""How much of a lining is wanted: coatings by their film, cloth with its epoxy, sheets by the vessel they fold into."""

from __future__ import annotations

import numpy as np

from tidestead.core.dims import Count, CubicMetre, KgPerM2, Metre, Ratio, SquareMetre, SquareMetrePerM3
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse

_SQUARE_FOOT = 0.3048**2
_GALLON = 231.0 * 0.0254**3
_OUNCE_A_SQUARE_YARD = 0.028349523125 / 0.9144**2
"""Sizes of US units in SI. Source: NIST SP 811 (2008), appendix B."""

_EPOXY_BY_CLOTH, _EPOXY_BY_AREA = 0.00085, 0.0075
"""Gallons a square foot: for each ounce of a square yard of cloth, and whatever the cloth. Source: Niederer."""


def wet_film(volume: CubicMetre, area: SquareMetre) -> Metre:
    """Thickness of a coating as it goes on.

        w = V / A

    Source: geometry; a US gallon is 1,604 square feet at one mil.
    Valid:  nothing lost on rollers, nothing soaked in: buy more.
    """
    _refuse.negative(volume=volume)
    _refuse.not_positive(area=area)
    return volume / area


def dry_film(wet: Metre, solids: Ratio, coats: Count) -> Metre:
    """Thickness that stays when the coats have dried.

        d = n * w * s      s: solids by volume (by weight is another, larger number)

    Source: paint trade, theoretical spreading rate.
    Valid:  solids by volume from the maker's sheet; measure the film on test plates.
    """
    _refuse.negative(wet_film=wet, coats=coats)
    _check_share(solids=solids)
    return coats * wet * solids


def wet_for_dry(dry: Metre, solids: Ratio) -> Metre:
    """How thick a coat must go on so that a dry film stays.

        w = d / s      s: solids by volume

    Source: paint trade, wet film over volume solids.
    Valid:  solids by volume from the maker's sheet.
    """
    _refuse.negative(dry_film=dry)
    _check_share(solids=solids)
    return dry / solids


def spreading_rate(solids: Ratio, film: Metre, transfer: Ratio) -> SquareMetrePerM3:
    """Area that a volume of coating covers at a dry film, by what of it arrives on the wall.

        R = s * e / d      e: transfer, the share that is neither lost on rollers and in cans nor soaked in

    Source: paint column on calculating coverage; in US units 1604.17 * s * e / mils, a gallon being 231 cubic inches.
    Valid:  solids by volume; e near 1 for a brush or roller on sealed wood, far less for a spray gun.
    """
    _refuse.not_positive(dry_film=film)
    _check_share(solids=solids, transfer=transfer)
    return solids * transfer / film


def rate_film(rate: SquareMetrePerM3, solids: Ratio) -> Metre:
    """Dry film of one coat where it is spread as far as its label says.

        d = s / R

    Source: the spreading rate solved for the film, nothing lost.
    Valid:  the label's rate is of one coat; what is lost leaves less.
    """
    _refuse.not_positive(spreading_rate=rate)
    _check_share(solids=solids)
    return solids / rate


def coat_volume(area: SquareMetre, film: Metre, solids: Ratio, transfer: Ratio) -> CubicMetre:
    """Coating for one coat, by the dry film it is to leave.

        V = A * d / (s * e)

    Source: paint trade, theoretical spreading rate with what is lost; see `spreading_rate`.
    Valid:  as `spreading_rate`; rough or thirsty wood takes more for the first coat.
    """
    _refuse.negative(area=area, dry_film=film)
    _check_share(solids=solids, transfer=transfer)
    return area * film / (solids * transfer)


def film_built(volume: CubicMetre, area: SquareMetre, solids: Ratio, transfer: Ratio) -> Metre:
    """Dry film that a volume used on an area has left.

        d = V * s * e / A

    Source: `coat_volume` solved for the film.
    Valid:  evenly spread, which no hand does: measure the film on test plates.
    """
    _refuse.negative(volume=volume)
    _refuse.not_positive(area=area)
    _check_share(solids=solids, transfer=transfer)
    return volume * solids * transfer / area


def cloth_epoxy(area: SquareMetre, cloth: KgPerM2) -> CubicMetre:
    """Epoxy to lay glass cloth: wetting it out, three coats that fill its weave, some 15 % lost.

        gallons = A * (0.00085 * W + 0.0075)      A: ft2, W: oz/yd2

    Source: Niederer, Estimating Epoxy Amounts.
    Valid:  woven cloth, half cloth and half epoxy by weight; mat takes twice its weight.
    """
    _refuse.negative(area=area, cloth=cloth)
    each = _EPOXY_BY_CLOTH * cloth / _OUNCE_A_SQUARE_YARD + _EPOXY_BY_AREA
    return area / _SQUARE_FOOT * each * _GALLON


def liner_side(side: Metre, depth: Metre, overlap: Metre) -> Metre:
    """Side of the flat sheet that lines a box with upright walls: floor, both walls, over both edges.

        S = L + 2*D + 2*o      D: to the top of the wall, not to the water

    Source: pond-liner trade, worked examples 12 x 17 x 3 ft and 10 x 8 x 6 ft.
    Valid:  one sheet folded into the corners; it lies against floor and walls everywhere.
    """
    _refuse.not_positive(side=side)
    _refuse.negative(depth=depth, overlap=overlap)
    return side + 2.0 * depth + 2.0 * overlap


def folded_area(depth: Metre, overlap: Metre) -> SquareMetre:
    """Sheet that ends up in the four corner folds of a box.

        F = 4 * (D + o)**2

    Source: geometry; the flat sheet less the box welded of its faces.
    Valid:  as `liner_side`.
    """
    _refuse.negative(depth=depth, overlap=overlap)
    return 4.0 * (depth + overlap) ** 2


def welded_area(floor: SquareMetre, girth: Metre, depth: Metre, overlap: Metre) -> SquareMetre:
    """Sheet of a liner that is welded to the vessel's shape, seams left out.

        A = F + U*(D + o)      F: floor, U: its circumference; of a box L*W + 2*(L + W)*(D + o)

    Source: geometry.
    Valid:  upright walls; laps at the seams come on top.
    """
    _refuse.not_positive(floor=floor, girth=girth)
    _refuse.negative(depth=depth, overlap=overlap)
    return floor + girth * (depth + overlap)


def _check_share(**shares: float) -> None:
    for name, share in shares.items():
        if not (np.all(np.greater(share, 0.0)) and np.all(np.less_equal(share, 1.0))):
            raise ImpossibleInput(f"{name} must be a share above 0 and up to 1 (100 %), got {share}")
