"""What the cost study finds and hands on: frozen, for sweeps, remedies and the telling of the answer."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.answer import Estimate


@dataclass(frozen=True)
class Totals:
    """Three totals that are never one, each from the P10 to the P90 of its ensemble, in the plan's money.

    `base` is the sum of the likely prices of what is still to be bought, before any range.
    """

    cash: Estimate
    replacement: Estimate
    yearly: Estimate
    base: float
    contingency: float


@dataclass(frozen=True)
class CostFacts:
    """Everything found. `totals` is None where nothing has a price; `unpriced` are items without one."""

    currency: str
    totals: Totals | None
    unpriced: tuple[str, ...]
