"""Sun and clearness, one number at a time. Private: `clearness` beside it checks and offers them, the year's maker
compiles them. Each law stands alone (no law calls another)."""

from __future__ import annotations

import math

DULLEST = 0.05
"""Clearness of the dullest day. Source: Bendt and others (1981), as Duffie and Beckman quote it."""


def highest_clearness(mean: float) -> float:
    """Clearness of a month's clearest day; Hollands and Huget (1983)."""
    away = mean - 0.75
    fourth = away * away * away * away
    return 0.6313 + 0.267 * mean - 11.9 * fourth * fourth


def steepness(mean: float, highest: float) -> float:
    """How crowded a month's days are towards the clear end, gamma; Herzog (1985)."""
    span = highest - DULLEST
    xi = span / (highest - mean)
    return -1.498 + (1.184 * xi - 27.182 * math.exp(-1.5 * xi)) / span


def share_below(clearness: float, highest: float, steep: float) -> float:
    """Share of a month's days that are duller; Bendt and others (1981)."""
    k = min(max(clearness, DULLEST), highest)
    return math.expm1(steep * (k - DULLEST)) / math.expm1(steep * (highest - DULLEST))


def clearness_at(share: float, highest: float, steep: float) -> float:
    """Clearness of the day that a share of a month's days is duller than; `share_below` turned round."""
    return DULLEST + math.log1p(share * math.expm1(steep * (highest - DULLEST))) / steep


def mean_of_days(highest: float, steep: float) -> float:
    """Mean clearness of days spread so."""
    span = highest - DULLEST
    return DULLEST + span / -math.expm1(-steep * span) - 1.0 / steep


def hour_shape(hour_angle: float, sunset: float) -> float:
    """Clearness of an hour over that of its day, before it is made to sum up; Collares-Pereira and Rabl (1979)."""
    a = 0.409 + 0.5016 * math.sin(sunset - math.pi / 3.0)
    b = 0.6609 - 0.4767 * math.sin(sunset - math.pi / 3.0)
    return a + b * math.cos(hour_angle)


def diffuse_share(clearness: float) -> float:
    """Share of an hour's sun that comes from the sky; Erbs, Klein and Duffie (1982)."""
    k = clearness
    if k <= 0.22:
        return 1.0 - 0.09 * k
    if k > 0.80:
        return 0.165
    return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)))
