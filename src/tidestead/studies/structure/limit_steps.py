"""How a limit was made, line by line: the printed value of a timber and every factor on it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tidestead.core.answer import Step
from tidestead.core.source import Source
from tidestead.physics.structure import eurocode, nds
from tidestead.studies.checks import given
from tidestead.studies.judged import step

LimitSteps = Mapping[str, Step]
"""By property of a timber: bending, tension, shear, across, compression."""


def nds_limits(
    reference: nds.LumberReference, use: nds.NdsConditions, design: nds.AdjustedLumber, source: Source
) -> LimitSteps:
    """Adjusted design values of the American rules, each as its printed value times its factors."""
    every = design.factors
    lasting, hot = use.duration, every.temperature
    pulled_hot = nds.stiffness_temperature_factor(use.temp_c)
    pressed = 1.0 if use.size_in_values else nds.compression_size_factor(use.width)
    rows = {
        "bending": ("F_b", reference.bending, _bending_factors(every, lasting), design.bending),
        "tension": (
            "F_t",
            reference.tension,
            {"C_D": lasting, "C_t": pulled_hot, "C_F": every.tension / (lasting * pulled_hot)},
            design.tension,
        ),
        "shear": (
            "F_v",
            reference.shear,
            {"C_D": lasting, "C_M": every.shear / (lasting * hot), "C_t": hot},
            design.shear,
        ),
        "across": (
            "F_cp",
            reference.compression_across,
            {"C_M": every.compression_across / hot, "C_t": hot},
            design.compression_across,
        ),
        "compression": (
            "F_c",
            reference.compression,
            {
                "C_D": lasting,
                "C_M": every.compression / (lasting * hot * pressed),
                "C_t": hot,
                "C_F": pressed,
            },
            design.compression,
        ),
    }
    return {name: factored(*row, source=source) for name, row in rows.items()}


def _bending_factors(every: nds.LumberFactors, lasting: float) -> Mapping[str, float]:
    parts = every.bending_size * every.bending_wet * every.bending_flat
    return {
        "C_D": lasting,
        "C_M": every.bending_wet,
        "C_t": every.temperature,
        "C_F": every.bending_size,
        "C_fu": every.bending_flat,
        "C_r": every.bending / (lasting * every.temperature * parts),
    }


def factored(
    symbol: str,
    printed: float,
    factors: Mapping[str, float],
    result: float,
    *,
    source: Source,
    unit: str = "Pa",
) -> Step:
    """A printed value times its factors."""
    numbers = (given(symbol, printed, unit), *(given(name, value, "1") for name, value in factors.items()))
    formula = f"{symbol}' = {'*'.join((symbol, *factors))}"
    return step(
        f"{symbol}'",
        "allowed, from the printed value and its factors",
        formula,
        numbers,
        (result, unit),
        source,
    )


def ec_limits(
    strength: eurocode.LumberStrength,
    use: eurocode.EcConditions,
    design: eurocode.DesignLumber,
    source: Source,
) -> LimitSteps:
    """Design strengths of Eurocode 5, each from its characteristic value."""
    rows = {
        "bending": ("m", strength.bending, design.bending_depth_factor, design.bending),
        "tension": ("t0", strength.tension, design.tension_depth_factor, design.tension),
        "shear": ("v", strength.shear, 1.0, design.shear),
        "across": ("c90", strength.compression_across, 1.0, design.compression_across),
        "compression": ("c0", strength.compression, 1.0, design.compression),
    }
    return {
        name: designed(f"f_{kind}", printed, Design(use.kmod, use.gamma_m, depth), result, source=source)
        for name, (kind, printed, depth, result) in rows.items()
    }


@dataclass(frozen=True)
class Design:
    """Factors that make a characteristic value a design value: k_mod, gamma_M, k_h."""

    kmod: float
    gamma: float
    depth: float = 1.0


def designed(
    symbol: str, printed: float, by: Design, result: float, *, source: Source, unit: str = "Pa"
) -> Step:
    """A characteristic value made a design value."""
    numbers = (
        given("k_mod", by.kmod, "1"),
        given("k_h", by.depth, "1"),
        given(f"{symbol},k", printed, unit),
        given("gamma_M", by.gamma, "1"),
    )
    formula = f"{symbol},d = k_mod*k_h*{symbol},k/gamma_M"
    words = "allowed, from the characteristic value"
    return step(f"{symbol},d", words, formula, numbers, (result, unit), source)


def in_layers(made: Step, one: float, share: float) -> Step:
    """The same of all the layers of a sheet, as thick as they were measured; `one` is what one layer bears."""
    if share == 1.0:
        return made
    number = given("layers and measured thickness", share, "1")
    formula = f"{made.formula}, times its layers and what is left of their thickness"
    return step(
        made.symbol, made.meaning, formula, (*made.numbers, number), (one * share, made.unit), made.source
    )
