"""What can be turned to see what matters: factors and steps on the plan's own house and water."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Dials:
    """Ones and noughts leave the plan as it is. Factors, but for `warmer` and `setpoint`, K, and what is named here.

    `cover` is the least share of the largest surface that is covered, always, and `night_cover` by night; `insulated`
    resistance added to the vessels' walls, m2 K/W. `vents`, `shade` and `chiller` say whether those of the plan are
    used; `fan` is the speed of air over the water, m/s, `chills` a further chiller's power, W. `stuck` is the number of
    a heater that never switches off, `heater_most` the power of the first heater where it stands for all, W.
    """

    glazing: float = 1.0
    sun: float = 1.0
    draughts: float = 1.0
    evaporation: float = 1.0
    machines: float = 1.0
    sides: float = 1.0
    ground: float = 1.0
    volume: float = 1.0
    wind: float = 1.0
    warmer: float = 0.0
    setpoint: float = 0.0
    cover: float = 0.0
    night_cover: float = 0.0
    insulated: float = 0.0
    vents: bool = True
    shade: bool = True
    chiller: bool = True
    fan: float = 0.0
    chills: float = 0.0
    heaters: float = 1.0
    stuck: int | None = None
    heater_most: float | None = None


AS_PLANNED = Dials()
