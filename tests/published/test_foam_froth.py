"""Rising foam against the worked example of Stevenson and Li and against worked values for seawater."""

from __future__ import annotations

import math

import pytest

from tests.published.case import Case
from tidestead.core.dims import G
from tidestead.physics.foam import froth
from tidestead.physics.foam.bubbles import WaterProperties

BOOK = "P. Stevenson and X. Li, Foam Fractionation: Principles and Process Design (2014)"
EXAMPLE = "section 5.5, page 86, recalling section 3.5"
FLOODING = "Wang, Evans and Stevenson, Flooding in a vertically rising gas-liquid foam, Ind. Eng. Chem. Res."
SEAWATER = WaterProperties(density=1023.3, viscosity=0.959e-3, surface_tension=0.0732)
WORKED = "worked table of largest speeds of air in stable foam of seawater at 25 degC"
MM_S = 1e-3

BOOK_SCALE = 1000.0 * 9.81 * 0.5e-3**2 / 1e-3
"""K of the worked example: 1000 kg/m3, 1.0 mPa s, bubbles of 0.5 mm radius, the book's g."""
WORKED_SCALE = {radius: 1023.3 * 9.81 * (radius * 1e-3) ** 2 / 0.959e-3 for radius in (0.5, 0.75, 1.0, 1.5)}
"""K of the worked table, with its g of 9.81."""


def _largest(radius: float, printed: float, to: float) -> Case:
    return Case(
        f"stable foam of {radius:g} mm radius bears {printed:g} mm/s", froth.largest_gas_speed,
        {"scale": WORKED_SCALE[radius]}, printed, to, WORKED, f"rb {radius:g} mm", "computed", unit=MM_S,
    )  # fmt: skip


def _dry(radius: float, printed: float, to: float) -> Case:
    return Case(
        f"foam of {radius:g} mm radius with a twentieth of water: {printed:g} mm/s", froth.rising_gas_speed,
        {"liquid": 0.05, "scale": WORKED_SCALE[radius]}, printed, to, WORKED, f"e 0.05, rb {radius:g} mm", "computed",
        unit=MM_S,
    )  # fmt: skip


def _neck(name: str, pick: str, printed: float, to: float, unit: float = 1.0) -> Case:
    given = {
        "area": 0.0314, "air_flow": 0.0314 * 5e-3, "bubble": 1e-3, "properties": SEAWATER, "dry": 0.05,
    }  # fmt: skip
    return Case(
        name, froth.neck_state, given, printed, to, WORKED, "rb 0.5 mm at 5 mm/s", "computed", unit=unit,
        pick=lambda state: float(getattr(state, pick)),
    )  # fmt: skip


CASES = [
    Case(
        "worked example: 0.137 of the foam is liquid", froth.rising_liquid,
        {"gas_speed": 8e-3, "scale": BOOK_SCALE}, 0.137, 5e-4, BOOK, EXAMPLE, "read",
    ),
    Case(
        "worked example: liquid carried 0.533 mm/s", froth.carried_speed,
        {"liquid": 0.13681, "scale": BOOK_SCALE}, 0.533, 5e-4, BOOK, EXAMPLE + "; liquid share 0.13681, computed",
        "read", unit=MM_S,
    ),
    Case(
        "worked example: 0.137 of liquid rises with 8 mm/s", froth.rising_gas_speed,
        {"liquid": 0.137, "scale": BOOK_SCALE}, 8.0, 0.02, BOOK, EXAMPLE + ", turned round", "read", unit=MM_S,
        why="half a digit of 0.137 is 0.02 mm/s",
    ),
    Case(
        "worked example: drainage 0.735 mm/s, what rises less what is carried", froth.drainage_speed,
        {"liquid": 0.137, "scale": BOOK_SCALE}, 8.0 * 0.137 / 0.863 - 0.533, 0.007, BOOK,
        EXAMPLE + "; jg*e/(1 - e) - jf of the printed values", "read", unit=MM_S,
        why="half a digit of 0.137 is 0.005 mm/s of what rises, and of 0.533 another 0.0005",
    ),
    Case(
        "scale of drainage of the worked example: 2.4525 m/s", froth.drainage_scale,
        {"radius": 0.5e-3, "properties": WaterProperties(1000.0 * 9.81 / G, 1e-3, 0.072)}, 2.4525, 5e-5, BOOK,
        "rho*g*r**2/mu by hand; the density carries the book's g of 9.81", "computed",
    ),
    Case(
        "wettest foam with the usual exponent: a third", froth.flooding_liquid, {}, 0.333, 5e-4, FLOODING,
        "abstract: (n - 1)/(n + 1)", "read",
    ),
    Case(
        "wettest foam with an exponent of 1.5: a fifth", froth.flooding_liquid,
        {"law": froth.DrainageLaw(exponent=1.5)}, 0.2, 0.05, FLOODING, "abstract: (n - 1)/(n + 1)", "read",
    ),
    _largest(0.5, 12.4, 0.05),
    _largest(0.75, 27.9, 0.05),
    _largest(1.0, 49.6, 0.05),
    _largest(1.5, 112.0, 0.5),
    _dry(0.5, 3.8, 0.05),
    _dry(0.75, 8.5, 0.05),
    _dry(1.0, 15.1, 0.05),
    _dry(1.5, 34.0, 0.5),
    _neck("neck at 5 mm/s of 12.4: use 0.403", "use", 0.403, 5e-4),
    _neck("neck at 5 mm/s: dry foam takes 3.8 mm/s", "dry_speed", 3.8, 0.05, MM_S),
    _neck("neck of 0.0314 m2 could be 0.01266 m2", "least_area", 0.01266, 5e-6),
    _neck("neck at 5 mm/s: gas speed", "gas_speed", 5.0, 0.05, MM_S),
    _neck("neck at 5 mm/s: liquid by the cubic e*(1 - e)**2 = 0.05973", "liquid", 0.0689, 5e-5),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds()


def test_cubic_of_the_neck_was_worked_rightly() -> None:
    """The share of liquid that the neck's case names solves e*(1 - e)**2 = jg/(2*m*K)."""
    wanted = 5e-3 / (0.032 * 1023.3 * G * 0.5e-3**2 / 0.959e-3)
    assert math.isclose(0.0689 * (1.0 - 0.0689) ** 2, wanted, rel_tol=5e-4)
