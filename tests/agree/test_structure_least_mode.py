"""A dowel carries what its weakest mode carries; the rope effect helps only modes with a hinge or a tilt.

The modes themselves are held to print and to limit analysis elsewhere; here the choice among them is made a
second time, mode by mode, from the words of EN 1995-1-1, 8.2.2.
"""

from __future__ import annotations

import dataclasses

import pytest

from tidestead.physics.structure.eurocode_fasteners import (
    EcJoint,
    double_modes,
    double_shear_capacity,
    johansen_modes,
    shear_capacity,
)

JOINTS = {
    "nail in thick wood": EcJoint(0.004, 0.05, 0.06, 20e6, 20e6, 6.5),
    "stocky dowel": EcJoint(0.012, 0.02, 0.03, 25e6, 18e6, 77.0),
    "thin head side": EcJoint(0.006, 0.012, 0.07, 25e6, 25e6, 19.0),
}
AXIAL, MOST = 900.0, 0.5


def helped(force: float, axial: float) -> float:
    """A mode with the rope effect: a quarter of the axial hold, at most half of the mode itself."""
    return force + min(0.25 * axial, MOST * force)


@pytest.mark.parametrize("axial", [0.0, AXIAL])
@pytest.mark.parametrize("name", JOINTS)
def test_single_shear_is_the_weakest_mode(name: str, axial: float) -> None:
    modes = dataclasses.asdict(johansen_modes(JOINTS[name]))
    least = min(modes[mode] if mode in "ab" else helped(modes[mode], axial) for mode in "abcdef")
    assert shear_capacity(JOINTS[name], axial, MOST).value == pytest.approx(least, rel=1e-12)


@pytest.mark.parametrize("axial", [0.0, AXIAL])
@pytest.mark.parametrize("name", JOINTS)
def test_double_shear_is_the_weakest_mode(name: str, axial: float) -> None:
    modes = dataclasses.asdict(double_modes(JOINTS[name]))
    least = min(modes[mode] if mode in "gh" else helped(modes[mode], axial) for mode in "ghjk")
    assert double_shear_capacity(JOINTS[name], axial, MOST).value == pytest.approx(least, rel=1e-12)
