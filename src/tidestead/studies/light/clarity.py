"""How fast light dies away in the water: by readings of a meter, by the plan's word, else by what is usual."""

from __future__ import annotations

from tidestead.core.answer import Estimate
from tidestead.core.errors import ImpossibleInput
from tidestead.core.source import PRACTICE, YOURS
from tidestead.physics.light import attenuation
from tidestead.plan.model import Plan
from tidestead.studies.light.facts import Clarity

USUAL = Estimate(0.15, 0.2, 0.3, "clean water of tanks with pumps; pure water has 0.15")
"""Common practice for tanks of 1.5 m; pure water: R. Pope and E. Fry (1997), mean of 400 to 700 nm 0.152, quoted."""

_P90 = 1.2816
"""Standard errors from the middle to P90 of what is spread evenly about it."""


def clarity_of(plan: Plan) -> Clarity:
    """The attenuation of the plan's water."""
    readings = plan.measured.light
    if len(readings) > 1:
        return _measured(tuple((one.depth, one.light) for one in readings))
    if plan.water.clarity is not None:
        return Clarity(Estimate.exact(plan.water.clarity, "the plan's"), YOURS)
    return Clarity(USUAL, PRACTICE)


def _measured(readings: tuple[tuple[float, float], ...]) -> Clarity:
    depths, lights = zip(*readings, strict=True)
    try:
        fit = attenuation.fitted_rate(depths, lights)
    except ImpossibleInput as error:
        return Clarity(USUAL, YOURS, readings, str(error))
    if fit.rate <= 0.0:
        return Clarity(
            USUAL, YOURS, readings, "by the readings light grows with depth; read again, a minute apart"
        )
    off = _P90 * fit.error
    words = f"{len(readings)} readings, each good to 5 % or as they scatter"
    return Clarity(Estimate(max(0.0, fit.rate - off), fit.rate, fit.rate + off, words), YOURS, readings)
