"""The water that goes round, at the middle of the temperatures kept."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.physics import seawater, water_viscosity
from tidestead.plan.model import Plan
from tidestead.studies.salt_scales import salinity_psu
from tidestead.studies.vessels import FALLBACK_C, FALLBACK_PSU


@dataclass(frozen=True)
class WaterKind:
    """The water that goes round. SI; salinity in psu and g/kg."""

    density: float
    dynamic_viscosity: float
    kinematic_viscosity: float
    vapour_pressure: float
    temp_c: float
    sal_psu: float
    sal_gkg: float


_PER_PSU = 35.16504 / 35.0
"""Grams of salt in a kilogram by practical salinity. Source: TEOS-10 reference composition."""


def water_kind(plan: Plan) -> WaterKind:
    """Density, viscosity and vapour pressure of the plan's water."""
    temp_c = sum(plan.water.keep) / 2.0 if plan.water.keep else FALLBACK_C
    psu = salinity_psu(plan.water.salinity) if plan.water.salinity is not None else FALLBACK_PSU
    gkg = psu * _PER_PSU
    density = float(seawater.density(psu, temp_c))
    dynamic = float(water_viscosity.dynamic_viscosity(psu, temp_c))
    return WaterKind(
        density,
        dynamic,
        dynamic / density,
        float(water_viscosity.vapour_pressure(psu, temp_c)),
        temp_c,
        psu,
        gkg,
    )
