"""What every row of a table must have, so that studies may count on it.

By table, then by the row's `kind` or `basis`; "*" stands for every row.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import TypeAlias

Keys: TypeAlias = tuple[str, ...]

_STRENGTHS: Keys = ("bending", "tension", "shear", "compression", "compression_across", "modulus")
_SCREW: Keys = ("bending_yield", "length", "root", "thread")
_GLASS: Keys = (
    "strength_characteristic",
    "strength_annealed",
    "factor_material",
    "factor_prestress",
    "factor_load",
    "factor_duration_permanent",
    "factor_surface",
    "factor_edge",
    "factor_toughening",
    "thickness_tolerances",
)

_FEED: Keys = (
    *("protein", "ammonia", "ammonia_high", "nitrogen"),
    *("phosphorus", "phosphorus_low", "phosphorus_high", "kept_low", "kept", "kept_high"),
    *("oxygen_low", "oxygen", "oxygen_high", "pulse", "ration"),
)

_SET = ("ball", "butterfly", "gate", "globe", "diaphragm")
"""Kinds of valve that are set to a position."""

DEMANDS: Mapping[str, Mapping[str, Keys]] = MappingProxyType(
    {
        "lumber": {
            "*": ("basis", *_STRENGTHS, "density_mean", "movement"),
            "NDS": ("modulus_min", "specific_gravity"),
            "EC5": ("modulus_fifth", "density_characteristic"),
        },
        "sheathing": {
            "*": ("kind", "basis", "thickness", "density_mean", "wet_places"),
            "NDS": (
                "stiffness_along",
                "stiffness_across",
                "bending_along",
                "bending_across",
                "planar_along",
                "bearing",
            ),
            "EC5": ("makeup", "veneer_modulus", "veneer_bending", "veneer_rolling", "density_characteristic"),
        },
        "fasteners": {
            "*": ("kind", "bases", "diameter", "stainless", "withdrawal"),
            "nail": ("length", "head"),
            "wood screw": _SCREW,
            "lag screw": (*_SCREW, "tip"),
            "timber screw": ("length", "root", "shank", "head", "tension"),
            "bolt": ("bending_yield", "stress_area", "tensile_strength"),
        },
        "timber_factors": {"*": ("basis",)},
        "clear": {
            "*": (
                "kind",
                "window",
                "modulus",
                "poisson",
                "density",
                "expansion",
                "creep_ratio",
                "thicknesses",
            ),
            "acrylic": ("creep_ratio_pessimistic", "creep_test_temperature", "service_temperature_max"),
            "glass": _GLASS,
        },
        "linings": {
            "*": ("kind",),
            "sheet": ("thickness", "elongation", "ends_above_water_min"),
            "coating": ("free_width", "safety_on_elongation", "ends_above_water_min"),
            "class": ("bridges",),
        },
        "seals": {"*": ("kind", "bears", "travel_share", "bed_thickness_min")},
        "soils": {"*": ("allowed", "bearing")},
        "floors": {"*": ("kind",), "floor": ("live_load",), "slab": ("concrete_strength",)},
        "foam_limits": {
            "*": ("kind",),
            "bubbles": ("diameters",),
            "contact": ("least", "ample"),
            "air": ("air_to_water_min",),
            "throughput": ("turns_min", "turns_max"),
            "column": ("share_tried",),
            "skimmable": ("share_low", "share_high"),
            "salt": ("salt_min",),
            "foam": ("foam_diameters", "liquid_dry"),
            "way": ("widths_min", "bores_min"),
        },
        "pipes": {"*": ("kind", "pressure", "bore", "roughness")},
        "fittings": {"*": ("kind", "basis"), "multiple": ("multiple",), "k": ("k",)},
        "valves": {
            "*": ("kind", "basis", "one_way"),
            "multiple": ("multiple",),
            "k": ("k",),
            "check": ("cracking_head",),
            **{kind: ("positions", "ks") for kind in _SET},
        },
        "flow_limits": {
            "*": ("kind",),
            "at most": ("most",),
            "at least": ("least",),
            "between": ("least", "most"),
        },
        "weirs": {
            "*": ("kind",),
            "crest": ("thickness",),
            "comb": ("thickness", "slot", "tooth", "tooth_height"),
            "break": ("hole_min", "hole_max", "below_min", "below_max"),
        },
        "bulkheads": {"*": ("kind", "pipe", "hole", "flange", "clamps_from", "clamps_to")},
        "oxygen": {
            "*": ("kind",),
            "limit": ("level",),
            "exchange": ("speed_low", "speed", "speed_high"),
            "activity": ("factor_low", "factor_high"),
            "diffuser": ("share_low", "share", "share_high"),
            "fall": ("share_low", "share", "share_high"),
        },
        "glazings": {"*": ("kind", "transmittance", "light", "walls", "mass")},
        "layers": {"*": ("conductivity", "density", "heat")},
        "heat_limits": {
            "*": ("kind",),
            "temperature": ("act", "harm"),
            "heaters": ("margin",),
            "timber": ("humidity",),
            "silent": (
                "infiltration",
                "pump_share",
                "lamp_yield",
                "lamp_share",
                "slab",
                "shade_warms",
                "cover_resistance",
                "floor_keeps",
            ),
        },
        "cost_limits": {
            "*": ("kind",),
            "saws": ("kerf", "trim", "useful", "sheet_kerf", "sheet_trim", "spoils"),
            "age": ("after",),
            "together": ("within", "across"),
            "spread": ("below", "above"),
            "life": ("life",),
            "class": ("scope_least", "scope_most", "low", "high"),
        },
        "corals": {"*": ("least", "most", "harm", "peak")},
        "reagents": {
            "*": ("kind", "molar_mass", "equivalents", "calcium", "magnesium", "solubility"),
        },
        "water_limits": {
            "*": ("kind",),
            "change": ("warms", "salts", "big", "nitrate_tap", "nitrate_passes"),
            "mixing": ("factor", "factor_low", "factor_high", "stirred", "recovery", "cold", "reads"),
            "feed": _FEED,
            "calcifiers": (
                *("growth_low", "growth", "growth_high"),
                *("magnesium_low", "magnesium", "magnesium_high"),
                *("breath_low", "breath", "breath_high"),
            ),
            "nutrients": ("nitrate", "phosphate", "nitrate_reef", "phosphate_reef"),
            "carbonate": (
                *("alkalinity_low", "alkalinity_high", "calcium_low", "calcium_high"),
                *("magnesium_low", "magnesium_high", "rise", "aragonite", "precipitates", "limewater", "air"),
                *("sea", "sea_calcium", "daily_near", "calcium_near", "settles_apart", "meter"),
            ),
            "chlorine": ("acute", "chronic", "carbon"),
            "adsorber": ("binds_low", "binds", "binds_high", "renewed"),
            "algae": (
                *("dry_low", "dry", "dry_high", "nitrogen_low", "nitrogen", "nitrogen_high"),
                *("phosphorus_low", "phosphorus", "phosphorus_high"),
            ),
            "nitrifiers": (
                *("growth_ammonia", "growth_nitrite", "decay", "yield_ammonia", "yield_nitrite"),
                *("half_ammonia", "half_nitrite", "dose", "done", "seed", "weekly", "longest"),
            ),
        },
        "fault_limits": {
            "*": ("kind",),
            "steps": ("warn", "act", "harm"),
            "people": tuple(
                f"{name}{end}" for name in ("message", "answers", "does") for end in ("_low", "", "_high")
            ),
            "film": (
                *("starts_low", "starts", "starts_high", "scale_low", "scale", "scale_high"),
                *("shape", "allowed", "warmer", "half_light"),
            ),
            "stock": ("decays", "fish_nitrogen", "dead"),
        },
        "fault_acts": {
            "*": ("kind",),
            "acts": ("acts", "never"),
            "sizes": (
                *("slow_low", "slow", "slow_high", "weep_low", "weep", "weep_high"),
                *(
                    "foam_low",
                    "foam",
                    "foam_high",
                    "tried_air",
                    "tried_depth",
                    "tried_power",
                    "tried_switch",
                    "seen_share",
                ),
            ),
        },
        "foul_air": {"*": ("kind", "comes", "do")},
        "electric_limits": {
            "*": ("kind",),
            "residual": ("trip_low", "trip", "standing_share"),
            "drop": ("share",),
            "loading": ("share",),
            "leakage": ("low", "likely", "high"),
            "ceiling": ("per_power", "least", "most"),
            "starting": ("low", "likely", "high"),
            "factor": ("low", "likely", "high"),
            "magnet": ("times",),
            "cable": ("area", "ampacity"),
            "warm": ("air", "share", "conductor"),
            "zone": ("reach", "height"),
            "battery": ("depth", "aged", "cold"),
            "inverter": ("low", "likely", "high", "peak"),
            "generator": (
                *("loaded", "fuel_low", "fuel", "fuel_high", "height_share"),
                *("peak_low", "peak", "peak_high"),
            ),
        },
        "uv_targets": {
            "*": ("kind",),
            "target": ("of", "dose"),
            "lamp": ("life", "left_at_life", "sleeve"),
        },
    }
)


def demanded(table: str, kinds: tuple[str, ...]) -> Keys:
    """The keys that a row of these kinds must have."""
    by_kind = DEMANDS[table]
    return tuple(key for kind in ("*", *kinds) for key in by_kind.get(kind, ()))
