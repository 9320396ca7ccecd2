"""Lines of working on open pipe ends: the head over a lip by the way it runs."""

from __future__ import annotations

from tidestead.core.answer import Given, Step
from tidestead.core.dims import G
from tidestead.core.source import Known, Source
from tidestead.physics.flow import standpipes
from tidestead.studies.checks import given
from tidestead.studies.flow.facts import Overflow
from tidestead.studies.judged import step

LIP = Source("EPA, SWMM reference manual, volume II", "section 6.2, bottom orifices", Known.QUOTED)
_ENERGY = Source("energy equation of a full pipe", known=Known.COMPUTED)

_REGIMES = {"weir": "a weir", "gulping": "a gulping pipe", "orifice": "an orifice", "full": "a full pipe"}


def lip_steps(overflow: Overflow) -> tuple[Step, ...]:
    """The head over a lip, likely: by weir or orifice, or from the water behind it where that sets it."""
    words = f"head over its lip; it runs as {_REGIMES.get(overflow.regime, overflow.regime)}"
    if overflow.tail > 0.0 or overflow.regime == "full":
        level = given("z", overflow.crest + overflow.likely, "m", "fine")
        numbers = (level, given("z_lip", overflow.crest, "m", "fine"))
        meaning = f"{words}: z by the balance of the network, the pipe below it full"
        return (step("h", meaning, "h = z - z_lip", numbers, (overflow.likely, "m"), _ENERGY),)
    turn = float(standpipes.drowning_head(overflow.bore))
    most = float(standpipes.drowned_flow(overflow.bore, turn))
    bore, gravity = given("D", overflow.bore, "m", "fine"), given("g", G, "m/s2")
    turning = given("h_c", turn, "m", "fine")
    power = "(2/3)" if overflow.flow < most else "2"
    return (
        step("h_c", "head at which it drowns", "h_c = 0.6*D/(4*0.414)", (bore,), (turn, "m", "fine"), LIP),
        step(
            "Q_c",
            "flow that it takes then",
            "Q_c = 0.6*pi*D**2/4*sqrt(2*g*h_c)",
            (bore, gravity, turning),
            (most, "m3/s"),
            LIP,
        ),
        step(
            "h",
            words,
            f"h = h_c*(Q/Q_c)**{power}",
            _flows(overflow, most, turning),
            (overflow.likely, "m"),
            LIP,
        ),
    )


def _flows(overflow: Overflow, most: float, turning: Given) -> tuple[Given, ...]:
    return (turning, given("Q", overflow.flow, "m3/s"), given("Q_c", most, "m3/s"))
