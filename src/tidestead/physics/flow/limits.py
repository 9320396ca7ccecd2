"""Bores and flows for a wanted velocity (noise, suction, scour), and how often a volume is turned over."""

from __future__ import annotations

import math

import numpy as np

from tidestead.core.dims import CubicMetre, CubicMetrePerSecond, Metre, MetrePerSecond, PerSecond
from tidestead.physics import _refuse
from tidestead.physics.flow.pipes import pipe_area


def bore_for_velocity(flow: CubicMetrePerSecond, velocity: MetrePerSecond) -> Metre:
    """Bore in which a flow has a velocity: the least for a velocity not to be passed (noise, suction).

        D = sqrt(4*Q/(pi*v))

    Source: continuity.
    Valid:  round pipe running full.
    """
    _refuse.not_positive(velocity=velocity)
    bore: Metre = np.sqrt(4.0 * np.abs(flow) / (math.pi * velocity))
    return bore


def flow_at_velocity(bore: Metre, velocity: MetrePerSecond) -> CubicMetrePerSecond:
    """Flow at which a pipe has a velocity: the least for a velocity to be reached (scour), or the most.

        Q = v*A

    Source: continuity.
    Valid:  round pipe running full.
    """
    _refuse.not_positive(bore=bore)
    return velocity * pipe_area(bore)


def turnover_rate(flow: CubicMetrePerSecond, volume: CubicMetre) -> PerSecond:
    """How often the water of a vessel is replaced by a flow through it.

        n = Q/V

    Source: definition.
    Valid:  a count of volumes. In a mixed vessel 37 % of the old water is left after one turnover.
    """
    _refuse.not_positive(volume=volume)
    return flow / volume
