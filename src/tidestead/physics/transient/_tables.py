"""The waters laid out as tables of plain numbers, which is what the compiled run is quick with. SI, seconds."""

from __future__ import annotations

from typing import NamedTuple

from tidestead.core.dims import Array

PUMP, OVERFLOW, LEAK, TOP_OFF, EVAPORATION, SPILL = range(6)
"""What moves water out of a body; a top-off moves less than nothing out."""

ONTO_FLOOR, INTO_AIR, FROM_STOCK = -1, -2, -3
"""Ends of a move that are no body."""

(KIND, FROM, TO, LEVEL, MOST, HOLE, COURSE, STOCK, M_TEMP, M_SAL, M_OXYGEN, SHOWN, LOW, HIGH, FLOW, MOVED) = (
    range(16)
)
"""Columns of a move. From `LOW` on filled: its bounds, its flow in the step and what it has moved, m3.

Below its level a move runs at `LOW`, above at `HIGH`; at its level anywhere between. `SHOWN` is its column of output.
"""

(
    FIRST, LAST, AREA, SURFACE, EXCHANGE, BUBBLES, SURFACE_COURSE, BUBBLE_COURSE, UPTAKE, REFERENCE, LOG_Q10, HALF,
    FIXED, FIXED_COURSE, EXCRETION, EXCRETION_COURSE, CLEARANCE, CEILING, BACTERIA_HALF, BACTERIA_COURSE, DECAY,
    DECAY_OXYGEN,
    VOLUME, BEFORE, BEFORE_C, BRANCH, CHANGE, TO_FLOOR, TO_AIR, GAIN, LOSS, SURFACE_NOW, BUBBLES_NOW, FIXED_NOW,
    EXCRETED_NOW, CLEARED_NOW, CEILING_NOW, SALT_IN, HEAT_IN, OXYGEN_IN,
    VOLUME_THEN, BRANCH_THEN,
) = range(42)  # fmt: skip
"""Columns of a body. From `VOLUME` on filled: state of its water, then what a step holds even, then volume
and branch when the parts of a step were found."""

(
    SALT, HEAT, OXYGEN, TAN, ORGANIC,
    SALT_LOST, HEAT_LOST, HEAT_AIR, HEAT_HEATERS, TAN_LOST, NITRIFIED, OXYGEN_AIR, OXYGEN_ANIMALS, OXYGEN_BACTERIA,
    OXYGEN_LOST,
) = range(15)  # fmt: skip
"""Columns of what is integrated: masses in a body, then what has come and gone. Heat is m3 times degC."""
MASSES, INTEGRATED = 5, 15

(GIVEN_SALT, GIVEN_HEAT, GIVEN_OXYGEN, GIVEN_WATER, EXCRETED) = range(5)
"""Columns of what came in evenly."""

(W_BODY, W_POWER, W_SETPOINT, W_BAND, W_MODE, W_COURSE, W_NOW) = range(7)
"""Columns of a heater; the power of a chiller is below nothing."""
AUTO, OFF, ON = range(3)

(I_BODY, I_FLOW, I_TEMP, I_SAL, I_OXYGEN, I_COURSE) = range(6)
"""Columns of an inflow."""

GAINS, LOSSES, EVEN, WARM = range(4)
"""Layers of the surroundings."""

(STEP, STORED, AIR_SHARE, WARM_FROM, PARTS) = range(5)
"""The run as a row: its step (s), heat stored (J/(m3 K)), share of oxygen in the air, temperature that evaporation
counts from; into how many parts a step is cut, 0 where that is to be found."""

SHOWN_OF_BODY = 7
"""Columns of output of a body: volume, temperature, salinity, oxygen, ammonia, organic nitrogen, what it spilled."""


class Tables(NamedTuple):
    """The tables of one run; they change as it goes.

    `flows` carries water between bodies, `solve` is room for their elimination; `masses`, `trial`, `slope` and
    `total` are the integrator's; `courses` and `surroundings` are by hour.
    """

    run: Array
    bodies: Array
    moves: Array
    inflows: Array
    heaters: Array
    flows: Array
    solve: Array
    masses: Array
    trial: Array
    slope: Array
    total: Array
    given: Array
    courses: Array
    surroundings: Array
