"""What salt, water and energy cost at the plan's prices."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.answer import Estimate
from tidestead.core.units import Price
from tidestead.plan.model import Plan
from tidestead.studies.water.waters import Recipe, Supply

JOULE_KWH = 3.6e6
_PRICES = "prices of your plan"


@dataclass(frozen=True)
class Cost:
    """Money for an amount of finished water by part; None where the plan has no price. `unpriced` are the keys to
    write.
    """

    currency: str
    salt: Estimate | None
    water: float | None
    energy: float | None
    unpriced: tuple[str, ...]

    @property
    def total(self) -> Estimate | None:
        """Of what has a price; None where nothing has, or where prices are in different money."""
        parts = (self.salt, self.water, self.energy)
        if not self.currency or all(part is None for part in parts):
            return None
        rest = (self.water or 0.0) + (self.energy or 0.0)
        salt = self.salt or Estimate.exact(0.0, _PRICES)
        return Estimate(salt.low + rest, salt.likely + rest, salt.high + rest, salt.basis)


def cost_of(plan: Plan, supply: Supply, recipe: Recipe, heat: float, waste: float = 0.0) -> Cost:
    """Cost of finished water: its salt, the water taken for it and `waste` m3 more, and heat by the electric tariff."""
    salt, water, tariff = plan.salt.price, supply.price, plan.supplies.tariff
    used = [price for price in (salt, water, tariff) if price is not None]
    money = {price.currency for price in used}
    unpriced = []
    if salt is None and recipe.mix.likely > 0.0:
        unpriced.append("salt.price")
    if water is None:
        unpriced.append(f"sources.{supply.key}.price")
    if tariff is None and heat > 0.0:
        unpriced.append("supplies.tariff")
    mix = recipe.mix
    basis = mix.basis if mix.low < mix.high else _PRICES
    return Cost(
        money.pop() if len(money) == 1 else "",
        None
        if salt is None
        else Estimate(_paid(mix.low, salt), _paid(mix.likely, salt), _paid(mix.high, salt), basis),
        None if water is None else _paid(supply.taken(recipe.source) + waste, water),
        None if tariff is None else _paid(heat / JOULE_KWH, tariff),
        tuple(unpriced),
    )


def _paid(amount: float, price: Price) -> float:
    return amount * float(price.amount)
