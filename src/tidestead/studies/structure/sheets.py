"""Sheathing under either set of rules: what a strip a metre wide may bear as it spans from stud to stud."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from tidestead.catalog import Row
from tidestead.core.errors import CatalogError
from tidestead.core.kept import kept
from tidestead.core.source import Source
from tidestead.physics.structure import eurocode, nds, nds_panels, plywood
from tidestead.plan.model import Sheathing
from tidestead.studies.structure.limit_steps import Design, LimitSteps, designed, factored, in_layers
from tidestead.studies.structure.timber import Setting, check_heat, factor, kmod, nds_duration
from tidestead.studies.structure.water import Duration


@dataclass(frozen=True)
class Strip:
    """A strip of sheathing as used, all its layers. Capacities per metre of width; `creep` final over first bow."""

    thickness: float
    bending: float
    shear: float
    stiffness: float
    creep: float
    load_factor: float
    includes: str
    bending_source: Source
    shear_source: Source
    refused: str
    limits: LimitSteps


@kept(at_most=128)
def strip(
    setting: Setting, row: Row, sheathing: Sheathing, duration: Duration, spans: Spans = "level"
) -> Strip:
    """The strip that spans level, from stud to stud, or upright, from ring to ring.

    Raises CatalogError where the sheet is of the other rules or too hot.
    """
    check_heat(setting)
    if row.tag("basis") != setting.rules:
        raise CatalogError(
            f'sheet "{row.name}" is of the {row.tag("basis")} rules, but the vessel is judged by {setting.rules}.'
        )
    way = _direction(sheathing, spans)
    found = (
        _nds_strip(setting, row, way, duration)
        if setting.rules == "NDS"
        else _ec_strip(setting, row, way, duration)
    )
    left = (sheathing.as_built.thickness or row.si("thickness")) / row.si("thickness")
    layers = float(sheathing.layers)
    limits = {
        "bending": (found.limits["bending"], found.bending, left**2 * layers),
        "shear": (found.limits["shear"], found.shear, left * layers),
    }
    return Strip(
        found.thickness * left,
        found.bending * left**2 * layers,
        found.shear * left * layers,
        found.stiffness * left**3 * layers,
        found.creep,
        found.load_factor,
        found.includes,
        found.bending_source,
        found.shear_source,
        found.refused,
        {name: in_layers(*row) for name, row in limits.items()},
    )


Spans = Literal["level", "upright"]
_GRAIN: dict[str, Spans] = {
    "across studs": "level",
    "along rings": "level",
    "along studs": "upright",
    "across rings": "upright",
}


def _direction(sheathing: Sheathing, spans: Spans) -> Literal["along", "across"]:
    return "along" if _GRAIN[sheathing.face_grain] == spans else "across"


def _refusal(row: Row) -> str:
    """Why a sheet has no place behind a lining, however dry the wood round it is said to be; else nothing.

    The first leak wets it where nobody sees.
    """
    if row.tag("wet_places", True):
        return ""
    return f"{row.tag('kind')}: {row.tag('refuse', 'not where it can get wet')}. Use plywood"


def _nds_strip(setting: Setting, row: Row, way: str, duration: Duration) -> Strip:
    planar = f"planar_{way}" if row.has(f"planar_{way}") else "planar_along"
    silent = _refusal(row)
    if not silent and not row.has(f"planar_{way}"):
        silent = "no figure is known for rolling shear across the face grain: turn the sheet"
    reference = nds_panels.PanelReference(
        "strand board" if row.tag("kind") == "strand board" else "plywood",
        row.si(f"stiffness_{way}"),
        row.si(f"bending_{way}"),
        row.si(planar),
        row.si("bearing"),
    )
    load_duration = nds_duration(duration)
    panel = nds_panels.adjusted_panel(reference, load_duration, setting.wet_sheet, temp_c=setting.warmest_c)
    hot = nds.temperature_factor(setting.warmest_c, setting.wet_sheet)
    wet = panel.bending / (reference.bending * load_duration * hot)
    factors = {"C_D": load_duration, "C_M": wet, "C_t": hot}
    return Strip(
        row.si("thickness"),
        panel.bending,
        panel.planar_shear,
        panel.stiffness,
        panel.stiffness / panel.permanent_stiffness,
        1.0,
        f"allowable capacity: load duration {load_duration:g}, {'damp' if setting.wet_sheet else 'dry'} sheet, "
        "the wood at its warmest",
        row.figure(f"bending_{way}").source,
        row.figure(planar).source,
        silent or panel.refused,
        {
            "bending": factored(
                "F_bS",
                reference.bending,
                factors,
                panel.bending,
                source=row.figure(f"bending_{way}").source,
                unit="N m/m",
            ),
            "shear": factored(
                "F_sIbQ",
                reference.planar_shear,
                factors,
                panel.planar_shear,
                source=row.figure(planar).source,
                unit="N/m",
            ),
        },
    )


def _ec_strip(setting: Setting, row: Row, way: str, duration: Duration) -> Strip:
    makeup = plywood.Makeup(row.several("makeup"), row.si("veneer_modulus"))
    section = plywood.strip_section(makeup, way == "along")
    lasting = kmod(setting, duration, "plywood")
    gamma = factor("ec-gamma-material", "plywood")
    bent = float(plywood.bending_capacity(section, row.si("veneer_bending")))
    rolled = float(plywood.rolling_capacity(section, row.si("veneer_rolling")))
    design = [float(eurocode.design_strength(value, lasting, gamma)) for value in (bent, rolled)]
    return Strip(
        row.si("thickness"),
        design[0],
        design[1],
        section.stiffness,
        1.0 + factor("ec-kdef-plywood", f"class_{setting.service_class}"),
        setting.load_factor,
        f"load times {setting.load_factor:g}, strength times {lasting:g} over {gamma:g}",
        row.figure("veneer_bending").source,
        row.figure("veneer_rolling").source,
        _refusal(row),
        {
            "bending": designed(
                "M_R",
                bent,
                Design(lasting, gamma),
                design[0],
                source=row.figure("veneer_bending").source,
                unit="N m/m",
            ),
            "shear": designed(
                "V_R",
                rolled,
                Design(lasting, gamma),
                design[1],
                source=row.figure("veneer_rolling").source,
                unit="N/m",
            ),
        },
    )
