"""Lines of working on bubbles: how one rises, how a crowd of them fills the column."""

from __future__ import annotations

import math

from tidestead.core.answer import Given, Step
from tidestead.core.dims import G
from tidestead.core.source import Known, Source
from tidestead.core.units import System, show
from tidestead.physics.foam import bubbles, swarms
from tidestead.physics.foam.bubbles import WaterProperties
from tidestead.physics.foam.columns import ColumnState
from tidestead.studies.checks import given
from tidestead.studies.foam.facts import TowerFoam
from tidestead.studies.judged import step

RISE = Source("R. Clift, J. Grace and M. Weber (1978)", "contaminated water", Known.QUOTED)
CROWD = Source("J. Richardson and W. Zaki (1954)", "made for solids, bubbles by analogy", Known.QUOTED)
DRIFT = Source("G. Wallis, One-dimensional Two-phase Flow (1969)", "drift flux", Known.RECALLED)
CONTINUITY = Source("continuity", known=Known.COMPUTED)

_TINY, _SMALL, _WOBBLES = 73.0, 580.0, 59.3
"""Best numbers at which the law of small balls changes, and the shape at which that of flattened bubbles does, as
`sphere_rise` and `ellipsoid_rise` have them."""


def size_words(diameter: float, system: System) -> str:
    """A bubble's diameter as the reader says it."""
    return show(diameter, "m", system, "bubble")


def rise_steps(diameter: float, properties: WaterProperties, system: System) -> tuple[Step, ...]:
    """How fast one bubble rises alone: as a ball, flattened, or as a cap."""
    speed = float(bubbles.rise_speed(diameter, properties))
    words = f"rise of one bubble of {size_words(diameter, system)} alone"
    if math.isclose(speed, float(bubbles.cap_rise(diameter, properties)), rel_tol=1e-12):
        rho, air = given("rho", properties.density, "kg/m3"), _air(properties)
        formula = "U = 0.711*sqrt(g*d*(rho - rho_air)/rho)"
        numbers = (_gravity(), given("d", diameter, "m", "bubble"), rho, air)
        return (step("U", words, formula, numbers, (speed, "m/s"), RISE),)
    reynolds = float(bubbles.reynolds(speed, diameter, properties))
    ball = float(bubbles.sphere_rise(diameter, properties))
    shape = _ball if math.isclose(ball, speed, rel_tol=1e-9) else _flattened
    numbers = (
        given("mu", properties.viscosity, "Pa s"),
        given("Re", reynolds, "1"),
        given("rho", properties.density, "kg/m3"),
        given("d", diameter, "m", "bubble"),
    )
    end = step("U", words, "U = mu*Re/(rho*d)", numbers, (speed, "m/s"), RISE)
    return (*shape(diameter, properties, reynolds), end)


def _air(properties: WaterProperties) -> Given:
    return given("rho_air", properties.air_density, "kg/m3")


def _gravity() -> Given:
    return given("g", G, "m/s2")


def _ball(diameter: float, properties: WaterProperties, reynolds: float) -> tuple[Step, ...]:
    """By the law of hard balls, as far as this one's Best number goes."""
    best = float(bubbles.best_number(diameter, properties))
    numbers = (
        given("rho", properties.density, "kg/m3"),
        _air(properties),
        _gravity(),
        given("d", diameter, "m", "bubble"),
        given("mu", properties.viscosity, "Pa s"),
    )
    if best <= _TINY:
        law = "Re = Nd/24 - 1.7569e-4*Nd**2 + 6.9252e-7*Nd**3 - 2.3027e-10*Nd**4"
    elif best <= _SMALL:
        law = "log Re = -1.7095 + 1.33438*W - 0.11591*W**2, W = log10 Nd"
    else:
        law = "log Re = -1.81391 + 1.34671*W - 0.12427*W**2 + 0.006344*W**3, W = log10 Nd"
    return (
        step(
            "Nd",
            "Best number, which holds no speed",
            "Nd = 4*rho*(rho - rho_air)*g*d**3/(3*mu**2)",
            numbers,
            (best, "1"),
            RISE,
        ),
        step(
            "Re", "Reynolds number, as of a hard ball", law, (given("Nd", best, "1"),), (reynolds, "1"), RISE
        ),
    )


def _flattened(diameter: float, properties: WaterProperties, reynolds: float) -> tuple[Step, ...]:
    """By the law of flattened bubbles."""
    morton, shape = float(bubbles.morton(properties)), float(bubbles.shape_number(diameter, properties))
    firm = shape <= _WOBBLES
    law = "J = 0.94*H**0.757" if firm else "J = 3.42*H**0.441"
    speed = 0.94 * shape**0.757 if firm else 3.42 * shape**0.441
    return (
        *_shape_steps(diameter, properties, morton, shape),
        step("J", "its speed without dimension", law, (given("H", shape, "1"),), (speed, "1"), RISE),
        step(
            "Re",
            "Reynolds number of a flattened bubble",
            "Re = M**-0.149*(J - 0.857)",
            (given("M", morton, "1"), given("J", speed, "1")),
            (reynolds, "1"),
            RISE,
        ),
    )


def _shape_steps(
    diameter: float, properties: WaterProperties, morton: float, shape: float
) -> tuple[Step, ...]:
    """How far a bubble is from a ball."""
    eotvos = float(bubbles.eotvos(diameter, properties))
    surface = given("sigma", properties.surface_tension, "N/m")
    rho, air = given("rho", properties.density, "kg/m3"), _air(properties)
    mu, own = given("mu", properties.viscosity, "Pa s"), given("mu_0", bubbles.REFERENCE_VISCOSITY, "Pa s")
    return (
        step(
            "Eo",
            "Eotvos number: lift against the pull of the surface",
            "Eo = g*(rho - rho_air)*d**2/sigma",
            (_gravity(), rho, air, given("d", diameter, "m", "bubble"), surface),
            (eotvos, "1"),
            RISE,
        ),
        step(
            "M",
            "Morton number of the water",
            "M = g*mu**4*(rho - rho_air)/(rho**2*sigma**3)",
            (_gravity(), mu, rho, air, surface),
            (morton, "1"),
            RISE,
        ),
        step(
            "H",
            "shape, mu_0 being the law's own water: above 2 a bubble is no ball",
            "H = 4/3*Eo*M**-0.149*(mu/mu_0)**-0.14",
            (given("Eo", eotvos, "1"), given("M", morton, "1"), mu, own),
            (shape, "1"),
            RISE,
        ),
    )


def crowd_steps(tower: TowerFoam, state: ColumnState, system: System) -> tuple[Step, ...]:
    """From the flows and one bubble to the crowd in the column and the share of air it makes."""
    reynolds = float(bubbles.reynolds(state.swarm.rise, state.bubble, tower.properties))
    return (
        *rise_steps(state.bubble, tower.properties, system),
        step(
            "n",
            "how fast crowding slows the bubbles",
            _exponent_law(reynolds),
            (given("Re", reynolds, "1"),),
            (float(state.swarm.exponent), "1"),
            CROWD,
        ),
        *_speed_steps(tower, state),
        *((_holdup_step(tower, state),) if state.holdup is not None else ()),
    )


def _exponent_law(reynolds: float) -> str:
    if reynolds < 0.2:
        return "n = 4.65 for Re < 0.2"
    if reynolds < 1.0:
        return "n = 4.35*Re**-0.03"
    return "n = 4.45*Re**-0.1" if reynolds <= 500.0 else "n = 2.39 for Re > 500"


def _speed_steps(tower: TowerFoam, state: ColumnState) -> tuple[Step, ...]:
    """Flows over the area of the column."""
    area = given("A", tower.area, "m2")
    return (
        step(
            "jg",
            "air over the area of the column",
            "jg = Q_air/A",
            (given("Q_air", tower.air_flow, "m3/s", "air"), area),
            (state.gas_speed, "m/s"),
            CONTINUITY,
        ),
        step(
            "jl",
            "water over the area of the column",
            "jl = Q/A",
            (given("Q", state.water_speed * tower.area, "m3/s"), area),
            (state.water_speed, "m/s"),
            CONTINUITY,
        ),
    )


def drift_speed(tower: TowerFoam, state: ColumnState) -> Given:
    """The water's speed against the bubbles: none where it rises with them, which is judged as still water."""
    return given("jl", 0.0 if tower.way.rises else state.water_speed, "m/s")


def _holdup_step(tower: TowerFoam, state: ColumnState) -> Step:
    """Share of the column that is air."""
    numbers = (
        given("jg", state.gas_speed, "m/s"),
        drift_speed(tower, state),
        given("U", float(state.swarm.rise), "m/s"),
        given("n", float(state.swarm.exponent), "1"),
    )
    return step(
        "e",
        "share of the column that is air, solved for",
        "jg/e + jl/(1 - e) = U*(1 - e)**(n - 1)",
        numbers,
        (state.holdup or 0.0, "1"),
        DRIFT,
    )


def flooding_steps(tower: TowerFoam, state: ColumnState) -> tuple[Step, ...]:
    """The most air the column bears, and the share of it in use."""
    against = drift_speed(tower, state)
    full = float(swarms.flooding_holdup(against.value, state.swarm))
    rise, exponent = given("U", float(state.swarm.rise), "m/s"), given("n", float(state.swarm.exponent), "1")
    return (
        step(
            "e_f",
            "share of air at which it floods, solved for",
            "U*(1 - e_f)**n*(1 - n*e_f) = jl",
            (rise, exponent, against),
            (full, "1"),
            DRIFT,
        ),
        step(
            "jg_f",
            "speed of air at which it floods",
            "jg_f = n*U*e_f**2*(1 - e_f)**(n - 1)",
            (exponent, rise, given("e_f", full, "1")),
            (state.flooding_speed, "m/s"),
            DRIFT,
        ),
    )
