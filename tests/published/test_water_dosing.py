"""Units of alkalinity, stock solutions, doses, limewater and calcium reactors against print and by hand."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from tests.published.case import Case
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.water import dosing
from tidestead.physics.water.dosing import Reagent, WaterChange

UNITS = "stoichiometry, worked by hand"
LIMEWATER = "Seidell and Linke (1953), quoted in encyclopaedia pages"
EXAMPLE = "20 m3 of reef worked by hand"
ATOMS = {
    "H": 1.008,
    "C": 12.011,
    "O": 15.999,
    "Na": 22.990,
    "Mg": 24.305,
    "S": 32.06,
    "Cl": 35.45,
    "Ca": 40.078,
}
SALTS = [
    (dosing.SODIUM_BICARBONATE, {"Na": 1, "H": 1, "C": 1, "O": 3}),
    (dosing.SODIUM_CARBONATE, {"Na": 2, "C": 1, "O": 3}),
    (dosing.CALCIUM_CHLORIDE, {"Ca": 1, "Cl": 2}),
    (dosing.CALCIUM_CHLORIDE_DIHYDRATE, {"Ca": 1, "Cl": 2, "H": 4, "O": 2}),
    (dosing.MAGNESIUM_CHLORIDE_HEXAHYDRATE, {"Mg": 1, "Cl": 2, "H": 12, "O": 6}),
    (dosing.MAGNESIUM_SULPHATE_HEPTAHYDRATE, {"Mg": 1, "S": 1, "H": 14, "O": 11}),
]
TENTH_A_WEEK = WaterChange(share=0.1, every=7.0, brought=3.2, held=2.5)


def _of(name: str) -> Callable[[Any], float]:
    return lambda found: float(getattr(found, name))


def _stock(name: str, reagent: Reagent, what: str, printed: float, to: float, how: str) -> Case:
    return Case(
        f"1 kg of {name} in 10 L", dosing.stock, {"reagent": reagent, "dry": 1.0, "solution": 0.010}, printed, to,
        UNITS, how, "computed", pick=_of(what),
    )  # fmt: skip


CASES = [
    Case("1 meq/L is 50.04 mg/L of CaCO3", dosing.chalk_of_alkalinity, {"alkalinity": 1.0}, 50.04, 0.005, UNITS,
         "100.087/2", "computed"),
    Case("50.04 mg/L of CaCO3 are 1 meq/L", dosing.alkalinity_of_chalk, {"chalk": 50.04}, 1.000, 1e-4, UNITS,
         "backwards", "computed"),
    Case("1 meq/L is 2.804 dKH", dosing.degrees_of_alkalinity, {"alkalinity": 1.0}, 2.804, 5e-4, UNITS,
         "56.077/20", "computed"),
    Case("1 dKH is 356.6 ueq/L", dosing.alkalinity_of_degrees, {"degrees": 1.0}, 356.6, 0.06, UNITS, "20/56.077",
         "computed", unit=1e-3, why="356.65 is printed cut off"),
    Case("1 dKH takes 7.147 mg/L of calcium", dosing.calcium_with_alkalinity, {"alkalinity": 20.0 / 56.077}, 7.147,
         5e-4, UNITS, "40.078*10/56.077", "computed"),
    Case("1 meq/L takes 20.04 mg/L of calcium", dosing.calcium_with_alkalinity, {"alkalinity": 1.0}, 20.04, 0.005,
         UNITS, "40.078/2", "computed"),
    Case("1 g of nitrogen eaten takes 7.145 g of CaCO3", dosing.alkalinity_eaten, {"nitrogen": 1.0}, 7.145, 0.002,
         "stoichiometry of nitrification", "2*50.04/14.007", "computed",
         pick=lambda found: found * 50.04, why="50.04 is rounded"),
    _stock("bicarbonate", dosing.SODIUM_BICARBONATE, "alkalinity", 1190.4, 0.05, "100/84.007 mol/L"),
    _stock("carbonate", dosing.SODIUM_CARBONATE, "alkalinity", 1887.0, 0.5, "2*100/105.988 mol/L"),
    _stock("calcium chloride", dosing.CALCIUM_CHLORIDE, "calcium", 36113.0, 0.5, "100/110.98*40.078 g/L"),
    _stock("calcium chloride dihydrate", dosing.CALCIUM_CHLORIDE_DIHYDRATE, "calcium", 27262.0, 0.5,
           "100/147.01*40.078 g/L"),
    _stock("magnesium chloride hexahydrate", dosing.MAGNESIUM_CHLORIDE_HEXAHYDRATE, "magnesium", 11955.0, 0.5,
           "100/203.30*24.305 g/L"),
    _stock("magnesium sulphate heptahydrate", dosing.MAGNESIUM_SULPHATE_HEPTAHYDRATE, "magnesium", 9861.0, 0.5,
           "100/246.47*24.305 g/L"),
    Case("0.5 meq/L in 20 m3: 840 g of bicarbonate", dosing.alkaline_reagent,
         {"reagent": dosing.SODIUM_BICARBONATE, "rise": 0.5, "water": 20.0}, 0.84007, 5e-6, EXAMPLE, "10 mol",
         "computed"),
    Case("20 mg/L of calcium in 20 m3: 1.467 kg of dihydrate", dosing.calcium_reagent,
         {"reagent": dosing.CALCIUM_CHLORIDE_DIHYDRATE, "rise": 20.0, "water": 20.0}, 1.467, 5e-4, EXAMPLE,
         "400 g of calcium", "computed"),
    Case("50 mg/L of magnesium in 20 m3: 8.365 kg of chloride", dosing.magnesium_reagent,
         {"reagent": dosing.MAGNESIUM_CHLORIDE_HEXAHYDRATE, "rise": 50.0, "water": 20.0}, 8.365, 5e-4, EXAMPLE,
         "1000 g of magnesium", "computed"),
    Case("0.1 meq/L in 20 m3 from 1000 meq/L: 2 L", dosing.alkalinity_dose,
         {"rise": 0.1, "water": 20.0, "strength": 1000.0}, 2.0, 1e-9, EXAMPLE, "L", "computed", unit=1e-3,
         why="exact"),
    Case("10 mg/L of calcium in 20 m3 from 40 g/L: 5 L", dosing.calcium_dose,
         {"rise": 10.0, "water": 20.0, "strength": 40000.0}, 5.0, 1e-9, EXAMPLE, "L", "computed", unit=1e-3,
         why="exact"),
    Case("a tenth a week, 0.7 meq/L richer: 0.01 meq/L a day", dosing.change_brings, {"change": TENTH_A_WEEK}, 0.01,
         1e-9, EXAMPLE, "0.1*0.7/7", "computed", why="exact"),
    Case("0.06 meq/L a day used: 0.05 to dose", dosing.daily_need, {"used": 0.06, "change": TENTH_A_WEEK}, 0.05, 1e-9,
         EXAMPLE, "0.06 - 0.01", "computed", why="exact"),
    Case("0.05 meq/L a day in 20 m3 from 1000 meq/L: 1 L a day", dosing.daily_dose,
         {"need": 0.05, "water": 20.0, "strength": 1000.0}, 1.0, 1e-9, EXAMPLE, "L/day", "computed", unit=1e-3,
         why="exact"),
    Case("limewater holds 20.2 mmol/L", dosing.limewater_strength, {}, 20.2, 0.05, LIMEWATER, "25 degC", "quoted",
         pick=lambda found: found.calcium / 40.078),
    Case("limewater holds 40.5 meq/L", dosing.limewater_strength, {}, 40.5, 0.05, LIMEWATER, "25 degC", "quoted",
         pick=_of("alkalinity")),
    Case("150 L a day of limewater into 20 m3: 0.30 meq/L", dosing.limewater_ceiling,
         {"evaporation": 0.150, "water": 20.0, "strength": 40.0}, 0.30, 5e-3, EXAMPLE, "150*40/20000", "computed"),
    Case("150 L a day of limewater into 20 m3: 0.84 dKH", dosing.limewater_ceiling,
         {"evaporation": 0.150, "water": 20.0, "strength": 40.0}, 0.84, 5e-3, EXAMPLE, "150*40/20000", "computed",
         pick=lambda found: float(dosing.degrees_of_alkalinity(found))),
    Case("100 L a day leave a reactor with 14.5 meq/L", dosing.reactor_brings,
         {"flow": 0.100, "leaving": 14.5, "entering": 2.5, "water": 20.0}, 0.06, 1e-9, EXAMPLE, "0.1*12/20",
         "computed", why="exact"),
    Case("0.06 meq/L a day ask for 100 L a day", dosing.reactor_flow,
         {"need": 0.06, "leaving": 14.5, "entering": 2.5, "water": 20.0}, 100.0, 1e-9, EXAMPLE, "backwards",
         "computed", unit=1e-3, why="exact"),
    Case("5 L of 1 eq/L at once: 250 ueq/L", dosing.bottle_rise,
         {"bottle": 5e-3, "strength": 1000.0, "water": 20.0}, 250.0, 0.5, EXAMPLE, "5*1000/20000", "computed",
         unit=1e-3),
    Case("5 L of 1 eq/L at once: 0.70 dKH", dosing.bottle_rise,
         {"bottle": 5e-3, "strength": 1000.0, "water": 20.0}, 0.70, 0.005, EXAMPLE, "5*1000/20000", "computed",
         pick=lambda found: float(dosing.degrees_of_alkalinity(found))),
    Case("no more than 250 ueq/L: 5 L", dosing.largest_bottle, {"rise": 0.25, "water": 20.0, "strength": 1000.0}, 5.0,
         1e-9, EXAMPLE, "backwards", "computed", unit=1e-3, why="exact"),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_dosing_holds_to_print(case: Case) -> None:
    assert case.holds()


@pytest.mark.parametrize(("reagent", "formula"), SALTS)
def test_a_mole_weighs_what_its_atoms_weigh(reagent: Reagent, formula: dict[str, int]) -> None:
    assert reagent.molar_mass == pytest.approx(
        sum(ATOMS[atom] * count for atom, count in formula.items()), abs=0.005
    )


def test_limewater_keeps_corals_balance() -> None:
    """Calcium and alkalinity in the very shares that corals take."""
    brought = dosing.limewater_strength()
    assert dosing.calcium_with_alkalinity(brought.alkalinity) == pytest.approx(brought.calcium)


def test_degrees_and_chalk_go_there_and_back() -> None:
    for alkalinity in (0.1, 2.5, 40.0):
        degrees = dosing.degrees_of_alkalinity(alkalinity)
        assert dosing.alkalinity_of_degrees(degrees) == pytest.approx(alkalinity)
        assert dosing.alkalinity_of_chalk(dosing.chalk_of_alkalinity(alkalinity)) == pytest.approx(alkalinity)


def test_reagent_and_stock_tell_the_same() -> None:
    """What a weighed rise asks for, dissolved and dosed whole, raises by just that."""
    for reagent in (dosing.SODIUM_BICARBONATE, dosing.SODIUM_CARBONATE):
        dry = dosing.alkaline_reagent(reagent, 0.4, 20.0)
        strength = dosing.stock(reagent, dry, 0.025).alkalinity
        assert dosing.bottle_rise(0.025, strength, 20.0) == pytest.approx(0.4)


def test_a_rich_change_leaves_nothing_to_dose() -> None:
    rich = WaterChange(share=0.5, every=1.0, brought=4.0, held=2.5)
    need = dosing.daily_need(0.06, rich)
    assert need < 0.0
    assert dosing.daily_dose(need, 20.0, 1000.0) == 0.0


def test_what_cannot_be_is_refused() -> None:
    with pytest.raises(ImpossibleInput, match="brings no alkalinity"):
        dosing.alkaline_reagent(dosing.CALCIUM_CHLORIDE, 0.1, 20.0)
    with pytest.raises(ImpossibleInput, match="brings no calcium"):
        dosing.calcium_reagent(dosing.SODIUM_CARBONATE, 10.0, 20.0)
    with pytest.raises(ImpossibleInput, match="brings no magnesium"):
        dosing.magnesium_reagent(dosing.SODIUM_CARBONATE, 10.0, 20.0)
    with pytest.raises(ImpossibleInput, match="brings nothing"):
        dosing.reactor_flow(0.06, 2.5, 2.5, 20.0)
    with pytest.raises(ImpossibleInput):
        WaterChange(share=1.2, every=7.0, brought=3.0, held=2.5)
    with pytest.raises(ImpossibleInput):
        dosing.stock(dosing.SODIUM_CARBONATE, 1.0, 0.0)
