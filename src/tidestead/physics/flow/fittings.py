"""Resistance of fittings by their number of velocity heads, or of turbulent friction factors."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.dims import CubicMetrePerSecond, Metre, Ratio
from tidestead.physics.flow import _refuse
from tidestead.physics.flow.laws import HeadAt
from tidestead.physics.flow.pipes import square_loss


@dataclass(frozen=True)
class FittingLaw:
    """A resistance of so many heads of the velocity in a bore. Negative for a tee that helps."""

    k: Ratio
    bore: Metre

    def __post_init__(self) -> None:
        _refuse.not_positive(bore=self.bore)
        _refuse.endless(k=self.k, bore=self.bore)

    def at(self, flow: CubicMetrePerSecond) -> HeadAt:
        """Head and slope."""
        return square_loss(flow, self.bore, self.k)
