"""The working of a window, line by line, and how its range is made."""

from __future__ import annotations

from tidestead.core.answer import Estimate, Step
from tidestead.core.source import COMPUTED, Known, Source
from tidestead.studies.checks import given
from tidestead.studies.judged import step
from tidestead.studies.structure.window_facts import WindowFacts

PLATE = Source(
    "Kirchhoff plate theory, solved by this program's own Ritz method",
    "refereed by Roark Table 11.4 and scikit-fem",
    Known.COMPUTED,
)

THIN_BASIS = "at worst as thin as its standard lets it be sold: measure it and write it under as_built"


def thin(facts: WindowFacts, nominal: float, power: int) -> Estimate:
    """A value at the nominal thickness and, at worst, at the least one; it goes as thickness to minus `power`.

    That holds exactly on stiff seats. On a rim or a soft bed a thinner sheet leans on them more, so it errs high.
    """
    worst = nominal * (facts.thickness / facts.least) ** power
    basis = "measured thickness" if facts.measured else THIN_BASIS
    return Estimate(nominal, nominal, worst, basis if worst > nominal else "")


def creep_words(facts: WindowFacts, ratios: list[float]) -> str:
    """What the range of the lasting bow rests on."""
    if facts.row.tag("kind") != "acrylic":
        return "" if facts.measured else THIN_BASIS
    words = f"lasting stiffness {' or '.join(f'{ratio:g}' for ratio in ratios)} of the short-term one"
    return words if facts.measured else f"{words}; {THIN_BASIS}"


def load_steps(facts: WindowFacts) -> tuple[Step, ...]:
    """Head and pressure at the sill."""
    weight = facts.state.load.weight
    return (
        step(
            "p0",
            "pressure at the lower edge",
            "p0 = gamma*h",
            (given("gamma", weight, "N/m3"), given("h", facts.head, "m", "level")),
            (weight * facts.head, "Pa"),
            COMPUTED,
        ),
    )


def moment_step(facts: WindowFacts, side: str, moment: float) -> Step:
    """The moment from the plate solution, and where it is."""
    peak = facts.state.peak_water if side == "water" else facts.state.peak_air
    return step(
        "M",
        f"largest moment that pulls on the {side} side, twist included",
        "plate solution at (x, y) from the lower left corner",
        (
            given("a", facts.width, "m", "sheet"),
            given("b", facts.height, "m", "sheet"),
            given("t", facts.thickness, "m", "sheet"),
            given("x", peak.x, "m", "level"),
            given("y", peak.y, "m", "level"),
        ),
        (moment, "N m/m"),
        PLATE,
    )


def stress_step(facts: WindowFacts, moment: float) -> Step:
    """Moment to stress."""
    return step(
        "sigma",
        "pull at the face",
        "sigma = 6*M/t**2",
        (given("M", moment, "N m/m"), given("t", facts.thickness, "m", "sheet")),
        (6.0 * moment / facts.thickness**2, "Pa"),
        COMPUTED,
    )


def bow_step(facts: WindowFacts, bow: float) -> Step:
    """The bow from the plate solution."""
    peak = facts.state.peak_bow
    return step(
        "w",
        "largest bow at once",
        "plate solution at (x, y) from the lower left corner",
        (
            given("E", facts.state.panel.modulus, "Pa"),
            given("t", facts.thickness, "m", "sheet"),
            given("x", peak.x, "m", "level"),
            given("y", peak.y, "m", "level"),
        ),
        (bow, "m"),
        PLATE,
    )


def creep_step(facts: WindowFacts, bow: float, ratios: list[float]) -> Step:
    """The bow after creep, at the likely ratio."""
    source = facts.row.figure("creep_ratio").source
    return step(
        "w_inf",
        "bow for good",
        "w_inf = w/r",
        (given("w", bow, "m", "bow"), given("r", ratios[0], "1")),
        (bow / ratios[0], "m"),
        source,
    )
