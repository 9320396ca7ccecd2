"""The working of a window, line by line, and how its range is made."""

from __future__ import annotations

from tidestead.core.answer import Estimate, Step
from tidestead.core.source import COMPUTED, Known, Source
from tidestead.physics.structure.large_bow import Guard
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
        (bow, "m", "bow"),
        PLATE,
    )


def stretched_step(facts: WindowFacts, held: Guard) -> tuple[Step, ...]:
    """The bow where small-bow theory is near its end or past it; nothing where it holds."""
    if held.factor == 1.0:
        return ()
    bow = facts.state.max_bow
    numbers = (given("k", held.factor, "1"), given("w", bow, "m", "bow"))
    result = (held.factor * bow, "m", "bow")
    return (step("w_k", f"bow at once; {held.words}", "w_k = k*w", numbers, result, PLATE),)


def creep_step(facts: WindowFacts, bow: float, ratio: float) -> Step:
    """The bow after creep, at the likely ratio."""
    source = facts.row.figure("creep_ratio").source
    numbers = (given("w", bow, "m", "bow"), given("r", ratio, "1"))
    return step("w_inf", "bow for good", "w_inf = w/r", numbers, (bow / ratio, "m", "bow"), source)


def worst_bow_step(facts: WindowFacts, at_once: Estimate, *, lasting: bool) -> tuple[Step, ...]:
    """The end of the bow's range that is judged: the thinnest sheet and the worse creep; nothing without a range."""
    worst_ratio = min(facts.creep) if lasting else 1.0
    thinner, creeps = facts.least != facts.thickness, worst_ratio != 1.0
    likely_ratio = max(facts.creep) if lasting else 1.0
    if not thinner and worst_ratio == likely_ratio:
        return ()
    numbers, formula, why = [given("w", at_once.likely, "m", "bow")], "w", []
    if thinner:
        numbers += [given("t", facts.thickness, "m", "sheet"), given("t_least", facts.least, "m", "bow")]
        formula += "*(t/t_least)**3"
        why.append("as thin as its standard lets it be sold")
    if creeps:
        numbers.append(given("r_least", worst_ratio, "1"))
        formula += "/r_least"
        if worst_ratio != likely_ratio:
            why.append("with the worse creep ratio of the two")
    result = (at_once.high / worst_ratio, "m", "bow")
    meaning = f"at worst, which is judged: {' and '.join(why)}"
    return (step("w_worst", meaning, f"w_worst = {formula}", numbers, result, COMPUTED),)


def worst_stress_step(facts: WindowFacts, stress: Estimate) -> tuple[Step, ...]:
    """The end of the stress's range that is judged: the thinnest sheet; nothing where it is measured."""
    if facts.least == facts.thickness:
        return ()
    numbers = (
        given("sigma", stress.likely, "Pa"),
        given("t", facts.thickness, "m", "sheet"),
        given("t_least", facts.least, "m", "bow"),
    )
    meaning = "at worst, which is judged: as thin as its standard lets it be sold"
    formula = "sigma_worst = sigma*(t/t_least)**2"
    return (step("sigma_worst", meaning, formula, numbers, (stress.high, "Pa"), COMPUTED),)
