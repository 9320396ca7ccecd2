"""Nutrients that are taken out for good: phosphorus bound by a granulate, nitrogen and phosphorus in harvested algae.

Phosphorus counts as P, nitrogen as N. A load is spread evenly over the days until it is renewed.
"""

from __future__ import annotations

from tidestead.core.dims import Day, GramPerDay, Kilogram, Ratio
from tidestead.physics import _refuse

_GRAMS = 1000.0


def bound_phosphorus(load: Kilogram, share: Ratio, every: Day) -> GramPerDay:
    """Phosphorus that a granulate binds by the day, on the mean of its use.

        B = 1000*m*b/D

    Source: balance of matter.
    Valid:  `share` (b) of its own weight bound by the time it is renewed; more at first, less at last.
    """
    _refuse.negative(load=load)
    _refuse.not_a_share(share_bound=share)
    _refuse.not_positive(days_between=every)
    return _GRAMS * load * share / every


def binding_load(phosphorus: GramPerDay, share: Ratio, every: Day) -> Kilogram:
    """Load of a granulate that binds so much by the day until it is renewed.

        m = B*D/(1000*b)

    Source: `bound_phosphorus` read backwards.
    Valid:  as that.
    """
    _refuse.negative(phosphorus=phosphorus)
    _refuse.not_a_share(share_bound=share)
    _refuse.not_positive(share_bound=share, days_between=every)
    return phosphorus * every / (_GRAMS * share)


def harvested_nutrient(wet: Kilogram, dry: Ratio, content: Ratio, every: Day) -> GramPerDay:
    """Nitrogen or phosphorus that goes with algae by the day.

        H = 1000*w*d*c/D

    Source: balance of matter.
    Valid:  `dry` (d) of the drained weight, `content` (c) of the dry; what they grew on came out of the water.
    """
    _refuse.negative(wet=wet)
    _refuse.not_a_share(dry=dry, content=content)
    _refuse.not_positive(days_between=every)
    return _GRAMS * wet * dry * content / every


def harvest_wanted(nutrient: GramPerDay, dry: Ratio, content: Ratio, every: Day) -> Kilogram:
    """Wet algae to take out each time, so that so much goes by the day.

        w = H*D/(1000*d*c)

    Source: `harvested_nutrient` read backwards.
    Valid:  as that.
    """
    _refuse.negative(nutrient=nutrient)
    _refuse.not_a_share(dry=dry, content=content)
    _refuse.not_positive(dry=dry, content=content, days_between=every)
    return nutrient * every / (_GRAMS * dry * content)
