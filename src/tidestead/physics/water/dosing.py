"""What is dosed to keep alkalinity and calcium: units of the trade, stock solutions, daily doses, one bottle too much.

Alkalinity counts in moles of charge in a cubic metre, which is meq/L. Calcium and magnesium are g/m3, which is mg/L.
"""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.dims import (
    CubicMetre,
    CubicMetrePerDay,
    Day,
    GramPerM3,
    GramPerMole,
    Kilogram,
    MolePerM3,
    MolePerM3Day,
    Ratio,
)
from tidestead.core.errors import ImpossibleInput
from tidestead.physics import _refuse
from tidestead.physics.ammonia import NITROGEN_MASS

_CALCIUM: GramPerMole = 40.078
_MAGNESIUM: GramPerMole = 24.305
_LIME: GramPerMole = 56.077
_CHALK: GramPerMole = 100.087
_SLAKED_LIME: GramPerMole = 74.093
"""Calcium, magnesium, CaO, CaCO3, Ca(OH)2. Source: IUPAC standard atomic weights."""

_LIME_OF_DEGREE: GramPerM3 = 10.0
"""One German degree is 10 mg/L of CaO. Source: definition of the degree (DIN 19640), recalled."""

_CHARGES_OF_CALCIUM = 2.0
_GRAMS = 1000.0

LIMEWATER_HELD: GramPerM3 = 1500.0
"""Ca(OH)2 in limewater that can hold no more at 25 degC. Source: Seidell and Linke (1953), quoted."""


@dataclass(frozen=True)
class Reagent:
    """A dry salt for stock solutions: weight of a mole, and moles of charge, calcium and magnesium in it."""

    molar_mass: GramPerMole
    alkalinity: Ratio = 0.0
    calcium: Ratio = 0.0
    magnesium: Ratio = 0.0

    def __post_init__(self) -> None:
        _refuse.not_positive(molar_mass=self.molar_mass)
        _refuse.negative(alkalinity=self.alkalinity, calcium=self.calcium, magnesium=self.magnesium)


SODIUM_BICARBONATE = Reagent(84.007, alkalinity=1.0)
SODIUM_CARBONATE = Reagent(105.988, alkalinity=2.0)
CALCIUM_CHLORIDE = Reagent(110.98, calcium=1.0)
CALCIUM_CHLORIDE_DIHYDRATE = Reagent(147.01, calcium=1.0)
MAGNESIUM_CHLORIDE_HEXAHYDRATE = Reagent(203.30, magnesium=1.0)
MAGNESIUM_SULPHATE_HEPTAHYDRATE = Reagent(246.47, magnesium=1.0)
"""Pure, dry salts. Source: IUPAC standard atomic weights."""


@dataclass(frozen=True)
class Stock:
    """What a solution, or a bottle, brings in a volume."""

    alkalinity: MolePerM3
    calcium: GramPerM3
    magnesium: GramPerM3


@dataclass(frozen=True)
class WaterChange:
    """A change of a share of the water, again and again after so many days, and both alkalinities."""

    share: Ratio
    every: Day
    brought: MolePerM3
    held: MolePerM3

    def __post_init__(self) -> None:
        _refuse.not_a_share(share_changed=self.share)
        _refuse.not_positive(days_between=self.every)


def alkalinity_of_degrees(degrees: Ratio) -> MolePerM3:
    """Alkalinity from German degrees of carbonate hardness (dKH).

        A = 2*10/56.077 * dKH      1 dKH = 0.3566 meq/L

    Source: definition: 10 mg/L of CaO.
    Valid:  anywhere.
    """
    return degrees * _CHARGES_OF_CALCIUM * _LIME_OF_DEGREE / _LIME


def degrees_of_alkalinity(alkalinity: MolePerM3) -> Ratio:
    """German degrees of carbonate hardness (dKH) from alkalinity.

        dKH = 56.077/(2*10) * A      1 meq/L = 2.804 dKH

    Source: definition: 10 mg/L of CaO.
    Valid:  anywhere.
    """
    return alkalinity * _LIME / (_CHARGES_OF_CALCIUM * _LIME_OF_DEGREE)


def chalk_of_alkalinity(alkalinity: MolePerM3) -> GramPerM3:
    """Alkalinity told as calcium carbonate.

        CaCO3 = 100.087/2 * A      1 meq/L = 50.04 mg/L

    Source: stoichiometry.
    Valid:  anywhere.
    """
    return alkalinity * _CHALK / _CHARGES_OF_CALCIUM


def alkalinity_of_chalk(chalk: GramPerM3) -> MolePerM3:
    """Alkalinity from what is told as calcium carbonate.

        A = 2/100.087 * CaCO3

    Source: stoichiometry.
    Valid:  anywhere.
    """
    return chalk * _CHARGES_OF_CALCIUM / _CHALK


def calcium_with_alkalinity(alkalinity: MolePerM3) -> GramPerM3:
    """Calcium that leaves the water with so much alkalinity as corals build.

        Ca = 40.078/2 * A      1 dKH takes 7.147 mg/L

    Source: stoichiometry of CaCO3.
    Valid:  building of pure carbonate; 2 to 5 % of it is magnesium instead (recalled).
    """
    return alkalinity * _CALCIUM / _CHARGES_OF_CALCIUM


def alkalinity_eaten(nitrogen: GramPerM3) -> MolePerM3:
    """Alkalinity that goes as bacteria make nitrate of so much ammonia, as nitrogen.

        A = 2/14.007 * N      7.145 g of CaCO3 for each g of N

    Source: stoichiometry, two moles of charge for a mole of nitrogen.
    Valid:  without growth of bacteria; with it 1 % less. Where nitrate is breathed away, half of it comes back.
    """
    _refuse.negative(nitrogen=nitrogen)
    return 2.0 * nitrogen / NITROGEN_MASS


def stock(reagent: Reagent, dry: Kilogram, solution: CubicMetre) -> Stock:
    """Strength of a solution of so much dry reagent, filled up to a volume.

        c = n*m/(M*V)      n: moles of charge, calcium or magnesium in a mole of the reagent

    Source: stoichiometry.
    Valid:  all of it dissolved; damp salt is weaker.
    """
    _refuse.negative(dry_reagent=dry)
    _refuse.not_positive(solution=solution)
    moles = _GRAMS * dry / reagent.molar_mass / solution
    return Stock(
        alkalinity=moles * reagent.alkalinity,
        calcium=moles * reagent.calcium * _CALCIUM,
        magnesium=moles * reagent.magnesium * _MAGNESIUM,
    )


def alkaline_reagent(reagent: Reagent, rise: MolePerM3, water: CubicMetre) -> Kilogram:
    """Dry reagent that raises the alkalinity of a water.

        m = A*V*M/n

    Source: stoichiometry.
    Valid:  nothing falls out.
    """
    _refuse.negative(rise=rise, water=water)
    return rise * water * reagent.molar_mass / _brings(reagent.alkalinity, "alkalinity") / _GRAMS


def calcium_reagent(reagent: Reagent, rise: GramPerM3, water: CubicMetre) -> Kilogram:
    """Dry reagent that raises the calcium of a water.

        m = Ca/40.078 * V*M/n

    Source: stoichiometry.
    Valid:  nothing falls out.
    """
    _refuse.negative(rise=rise, water=water)
    return rise / _CALCIUM * water * reagent.molar_mass / _brings(reagent.calcium, "calcium") / _GRAMS


def magnesium_reagent(reagent: Reagent, rise: GramPerM3, water: CubicMetre) -> Kilogram:
    """Dry reagent that raises the magnesium of a water.

        m = Mg/24.305 * V*M/n

    Source: stoichiometry.
    Valid:  nothing falls out.
    """
    _refuse.negative(rise=rise, water=water)
    return rise / _MAGNESIUM * water * reagent.molar_mass / _brings(reagent.magnesium, "magnesium") / _GRAMS


def alkalinity_dose(rise: MolePerM3, water: CubicMetre, strength: MolePerM3) -> CubicMetre:
    """Volume of stock that raises the alkalinity of a water.

        v = A*V/c

    Source: balance; the dose takes the place of water that has gone up in the air.
    Valid:  stock far stronger than the water: short by rise/strength otherwise.
    """
    _refuse.negative(rise=rise, water=water)
    _refuse.not_positive(strength=strength)
    return rise * water / strength


def calcium_dose(rise: GramPerM3, water: CubicMetre, strength: GramPerM3) -> CubicMetre:
    """Volume of stock that raises the calcium, or magnesium, of a water.

        v = Ca*V/c

    Source: balance; the dose takes the place of water that has gone up in the air.
    Valid:  stock far stronger than the water: short by rise/strength otherwise.
    """
    _refuse.negative(rise=rise, water=water)
    _refuse.not_positive(strength=strength)
    return rise * water / strength


def change_brings(change: WaterChange) -> MolePerM3Day:
    """Alkalinity that water changes bring each day on the mean; below nothing where they take.

        f*(A_new - A)/D

    Source: balance.
    Valid:  the alkalinity held just before a change.
    """
    return change.share * (change.brought - change.held) / change.every


def daily_need(used: MolePerM3Day, change: WaterChange) -> MolePerM3Day:
    """Alkalinity to dose each day; below nothing where water changes bring more than is used.

        used - f*(A_new - A)/D

    Source: balance.
    Valid:  as `change_brings`.
    """
    _refuse.negative(alkalinity_used=used)
    return used - change_brings(change)


def daily_dose(need: MolePerM3Day, water: CubicMetre, strength: MolePerM3) -> CubicMetrePerDay:
    """Stock to dose each day; nothing where there is no need.

        v = need*V/c

    Source: balance.
    Valid:  as `alkalinity_dose`.
    """
    _refuse.negative(water=water)
    _refuse.not_positive(strength=strength)
    return max(need, 0.0) * water / strength


def limewater_strength(held: GramPerM3 = LIMEWATER_HELD) -> Stock:
    """What limewater brings.

        Ca(OH)2/74.093 moles, two of charge and one of calcium for each

    Source: stoichiometry; as much as it can hold at 25 degC by Seidell and Linke (1953), quoted.
    Valid:  clear, fresh limewater. Warmer water holds less of it; air makes it weaker within days (common practice).
    """
    _refuse.negative(slaked_lime=held)
    moles = held / _SLAKED_LIME
    return Stock(alkalinity=2.0 * moles, calcium=moles * _CALCIUM, magnesium=0.0)


def limewater_ceiling(evaporation: CubicMetrePerDay, water: CubicMetre, strength: MolePerM3) -> MolePerM3Day:
    """Most alkalinity that limewater can bring where all evaporation is made good with it.

        E*c/V

    Source: balance.
    Valid:  level held by top-off alone; strength by `limewater_strength`.
    """
    _refuse.negative(evaporation=evaporation, strength=strength)
    _refuse.not_positive(water=water)
    return evaporation * strength / water


def reactor_brings(
    flow: CubicMetrePerDay, leaving: MolePerM3, entering: MolePerM3, water: CubicMetre
) -> MolePerM3Day:
    """Alkalinity that a calcium reactor brings to a water each day.

        Q*(A_out - A_tank)/V

    Source: balance.
    Valid:  both alkalinities measured on the same day.
    """
    _refuse.negative(flow=flow, alkalinity_leaving=leaving)
    _refuse.not_positive(water=water)
    return flow * (leaving - entering) / water


def reactor_flow(
    need: MolePerM3Day, leaving: MolePerM3, entering: MolePerM3, water: CubicMetre
) -> CubicMetrePerDay:
    """Flow through a calcium reactor that meets a daily need.

        Q = need*V/(A_out - A_tank)

    Source: balance.
    Valid:  what leaves is held while the flow is changed: it falls as the flow grows, so measure again.
    """
    _refuse.negative(need=need, water=water)
    if leaving <= entering:
        raise ImpossibleInput(
            f"what leaves the reactor ({leaving:g} meq/L) brings nothing to {entering:g} meq/L"
        )
    return need * water / (leaving - entering)


def bottle_rise(bottle: CubicMetre, strength: MolePerM3, water: CubicMetre) -> MolePerM3:
    """Rise of alkalinity where a doser empties its whole bottle.

        v*c/V

    Source: balance.
    Valid:  well mixed; at the outlet it is far worse.
    """
    _refuse.negative(bottle=bottle, strength=strength)
    _refuse.not_positive(water=water)
    return bottle * strength / water


def largest_bottle(rise: MolePerM3, water: CubicMetre, strength: MolePerM3) -> CubicMetre:
    """Largest bottle that cannot raise the alkalinity by more than a safe step.

        v = A*V/c

    Source: balance.
    Valid:  as `bottle_rise`; what step is safe is told by `carbonate.with_carbon_dosed`.
    """
    return alkalinity_dose(rise, water, strength)


def _brings(moles: Ratio, what: str) -> float:
    if moles <= 0.0:
        raise ImpossibleInput(f"this reagent brings no {what}")
    return moles
