"""What one fastener carries sideways, line by line: how it yields, and what use takes off."""

from __future__ import annotations

from collections.abc import Mapping

from tidestead.core.answer import Given, Step
from tidestead.core.source import Source
from tidestead.physics.structure import nds_fasteners
from tidestead.physics.structure.eurocode_fasteners import EcJoint, ShearCapacity
from tidestead.physics.structure.nds_fasteners import JointConditions, LateralValue, NdsJoint
from tidestead.studies.checks import given
from tidestead.studies.judged import step

_NDS: Mapping[str, str] = {
    "Im": "D*lm*Fem/Rd",
    "Is": "D*ls*Fes/Rd",
    "II": "k*D*ls*Fes/Rd, k = (sqrt(Re + 2*Re**2*(1 + Rt + Rt**2) + Rt**2*Re**3) - Re*(1 + Rt))/(1 + Re)",
    "IIIm": "k*D*lm*Fem/((1 + 2*Re)*Rd), k = -1 + sqrt(2*(1 + Re) + 2*Fyb*(1 + 2*Re)*D**2/(3*Fem*lm**2))",
    "IIIs": "k*D*ls*Fem/((2 + Re)*Rd), k = -1 + sqrt(2*(1 + Re)/Re + 2*Fyb*(2 + Re)*D**2/(3*Fem*ls**2))",
    "IV": "D**2*sqrt(2*Fem*Fyb/(3*(1 + Re)))/Rd",
}
"""Formulas of the yield modes. Source: NDS-2018, Table 12.3.1A."""

_EC: Mapping[str, str] = {
    "a": "f1*t1*d",
    "b": "f2*t2*d",
    "c": "f1*t1*d/(1 + B)*(sqrt(B + 2*B**2*(1 + r + r**2) + B**3*r**2) - B*(1 + r))",
    "d": "1.05*f1*t1*d/(2 + B)*(sqrt(2*B*(1 + B) + 4*B*(2 + B)*M/(f1*d*t1**2)) - B)",
    "e": "1.05*f1*t2*d/(1 + 2*B)*(sqrt(2*B**2*(1 + B) + 4*B*(1 + 2*B)*M/(f1*d*t2**2)) - B)",
    "f": "1.15*sqrt(2*B/(1 + B))*sqrt(2*M*f1*d)",
}
"""Formulas of the modes. Source: EN 1995-1-1, equation 8.6."""


def nds_value(joint: NdsJoint, value: LateralValue, angle_rad: float, source: Source) -> Step:
    """The reference value of one fastener, by the mode that governs."""
    bearing, one, hinge = nds_fasteners.reduction_terms(joint.diameter, angle_rad)
    term = {"Im": bearing, "Is": bearing, "II": one}.get(value.mode, hinge)
    numbers = (
        given("D", joint.diameter, "m", "fine"),
        given("lm", joint.main_length, "m", "fine"),
        given("ls", joint.side_length, "m", "fine"),
        given("Fem", joint.main_bearing, "Pa"),
        given("Fes", joint.side_bearing, "Pa"),
        given("Fyb", joint.bending_yield, "Pa"),
        given("Rd", term, "1"),
    )
    words = f"one fastener, yield mode {value.mode}, the least of six; m: member with the point, s: under the head"
    form = _NDS[value.mode]
    ratios = "".join(
        f", {name} = {what}" for name, what in (("Re", "Fem/Fes"), ("Rt", "lm/ls")) if name in form
    )
    return step("Z", words, f"Z = {form}{ratios}", numbers, (value.value, "N"), source)


def nds_each(
    value: LateralValue, diameter: float, use: JointConditions, depth: float, each: float, source: Source
) -> Step:
    """What use takes off the reference value. `depth`: the share that the penetration allows."""
    plain = JointConditions(use.duration, use.moisture, use.temp_c)
    inside = nds_fasteners.lateral_factor(diameter, plain)
    hot = nds_fasteners.connection_temperature_factor(use.temp_c, use.moisture)
    factors = {
        "C_D": use.duration,
        "C_M": inside / (use.duration * hot),
        "C_t": hot,
        "C_eg": nds_fasteners.lateral_factor(diameter, use) / inside,
        "C_d": depth,
    }
    numbers = (given("Z", value.value, "N"), *(given(name, one, "1") for name, one in factors.items()))
    return step("R", "one fastener, as used", f"R = Z*{'*'.join(factors)}", numbers, (each, "N"), source)


def ec_value(joint: EcJoint, capacity: ShearCapacity, source: Source) -> Step:
    """The characteristic value of one fastener, by the mode that governs."""
    numbers = (
        given("d", joint.diameter, "m", "fine"),
        given("t1", joint.head_length, "m", "fine"),
        given("t2", joint.point_length, "m", "fine"),
        given("f1", joint.head_embedment, "Pa"),
        given("f2", joint.point_embedment, "Pa"),
        given("M", joint.yield_moment, "N m"),
    )
    words = f"one fastener, mode {capacity.mode}, the least of six; 1: under the head, 2: with the point"
    form = _EC[capacity.mode]
    ratios = "".join(
        f", {name} = {what}" for name, what in (("B", "f2/f1"), ("r", "t2/t1")) if f"{name}*" in form
    )
    formula = f"R_k = {form}{ratios}"
    return step("R_k", words, formula, numbers, (capacity.value, "N"), source)


def ec_each(characteristic: float, kmod: float, gamma: float, each: float, source: Source) -> Step:
    """The design value of one fastener."""
    numbers: tuple[Given, ...] = (
        given("k_mod", kmod, "1"),
        given("R_k", characteristic, "N"),
        given("gamma_M", gamma, "1"),
    )
    return step("R", "one fastener, as used", "R = k_mod*R_k/gamma_M", numbers, (each, "N"), source)
