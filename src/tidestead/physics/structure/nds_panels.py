"""Span-rated plywood and strand board by the American rules: capacities of a one-metre strip as used.

The reference values are capacities of the whole thickness for one direction, not stresses, because they
depend on how a sheet is made up.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final, Literal

from tidestead.core.dims import (
    Celsius,
    NewtonMetre2PerMetre,
    NewtonMetrePerMetre,
    NewtonPerMetre,
    Pascal,
    Ratio,
)
from tidestead.physics import _refuse
from tidestead.physics.structure.nds import stiffness_temperature_factor, temperature_factor

PanelKind = Literal["plywood", "strand board"]

_WET_STRENGTH: Final = 0.75
_WET_STIFFNESS: Final = 0.85
_WET_BEARING: Final[dict[PanelKind, float]] = {"plywood": 0.50, "strand board": 0.20}
"""Moisture factors of panels at or above 16 %. Source: APA, Panel Design Specification D510C, 4.5.2."""

_CREEP: Final[dict[PanelKind, tuple[float, float]]] = {
    "plywood": (1.0 / 2.0, 1.0 / 2.0),
    "strand board": (1.0 / 2.0, 1.0 / 6.0),
}
"""Share of the stiffness left under permanent load, dry and wet. Source: APA, D510C, 4.5."""

_CREEP_FROM: Final = 0.5
"""Share of its capacity, used for good, from which creep is reckoned. Source: APA, D510C, 4.5."""


@dataclass(frozen=True)
class PanelReference:
    """Reference capacities of a sheet spanning in one direction: normal duration, dry."""

    kind: PanelKind
    stiffness: NewtonMetre2PerMetre
    bending: NewtonMetrePerMetre
    planar_shear: NewtonPerMetre
    bearing: Pascal


@dataclass(frozen=True)
class AdjustedPanel:
    """Capacities as used. `permanent_stiffness` gives the bow after creep; `refused` is empty or a reason."""

    stiffness: NewtonMetre2PerMetre
    permanent_stiffness: NewtonMetre2PerMetre
    bending: NewtonMetrePerMetre
    planar_shear: NewtonPerMetre
    bearing: Pascal
    refused: str


def panel_creep_factor(kind: PanelKind, wet: bool, share_used: Ratio = 1.0) -> Ratio:
    """Share of a panel's stiffness that is left under a load that never goes away.

        plywood 1/2; strand board 1/2 dry, 1/6 at 16 % moisture and above; 1 while less than half is used

    Single numbers only. `share_used` is the permanent part of the stress over its capacity.
    Source: APA, Panel Design Specification D510C, 4.5.
    Valid:  permanent loads; multiply with the moisture factor of stiffness.
    """
    _refuse.negative(share_used=share_used)
    return _CREEP[kind][wet] if share_used >= _CREEP_FROM else 1.0


def adjusted_panel(
    reference: PanelReference,
    duration: Ratio,
    wet: bool,
    share_used: Ratio = 1.0,
    temp_c: Celsius = 20.0,
) -> AdjustedPanel:
    """Capacities of a sheet as it is used.

        bending and shear * C_D * C_t * 0.75 wet; stiffness * C_t * 0.85 wet, * creep for what stays;
        bearing * C_t * 0.50 (plywood) or 0.20 (strand board) wet
        C_t as for lumber: `nds.temperature_factor` for strength, `nds.stiffness_temperature_factor` for stiffness

    Single numbers only. Strand board that can get wet is refused: its numbers are given, and the reason. Hotter
    than 150 F gives no number.
    Source: APA, Panel Design Specification D510C, 4.5.1 and 4.5.2; C_t by NDS-2018, Tables 9.3.1 and 2.3.3, from
            memory that panels take the lumber's; the refusal is this program's own.
    Valid:  sheets of 24 in and wider; `temp_c` is what the wood itself keeps for long.
    """
    _refuse.not_positive(duration=duration)
    hot = temperature_factor(temp_c, wet)
    strength = duration * hot * (_WET_STRENGTH if wet else 1.0)
    stiffness = reference.stiffness * stiffness_temperature_factor(temp_c) * (_WET_STIFFNESS if wet else 1.0)
    refused = ""
    if reference.kind == "strand board" and wet:
        refused = "strand board swells and creeps to a sixth of its stiffness when wet: use plywood here"
    return AdjustedPanel(
        stiffness=stiffness,
        permanent_stiffness=stiffness * panel_creep_factor(reference.kind, wet, share_used),
        bending=reference.bending * strength,
        planar_shear=reference.planar_shear * strength,
        bearing=reference.bearing * hot * (_WET_BEARING[reference.kind] if wet else 1.0),
        refused=refused,
    )
