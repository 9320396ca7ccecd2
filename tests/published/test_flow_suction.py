"""Pressure in pipes and net positive suction head against print."""

from __future__ import annotations

import pytest

from tests.published.case import FOOT, PCF, PSI, Case
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.flow import suction
from tidestead.physics.flow.suction import STANDARD_AIR, PipePlace, Suction

CRANE = "Crane TP-410 (2009), as an open library's notebooks of its examples quote it"
CREST = "computed: the highest crest of a siphon of sea water of 26 degC at sea level"

TABLE = "U.S. Standard Atmosphere, table of altitude and pressure in feet and psi, as an engineering site prints it"
METRES = "U.S. Standard Atmosphere (1976), main table, from memory"

TANK = Suction(STANDARD_AIR + 5.0 * PSI, 0.256 * PSI, 62.364 * PCF, 25.0 * FOOT, 6.0 * FOOT)

CASES = [
    *[Case(f"standard air at {feet} ft", suction.air_pressure, {"elevation": feet * FOOT}, printed, 0.0025, TABLE,
           "Table 1", "read", unit=PSI, why="the table is turned from inches of mercury with two decimals")
      for feet, printed in ((0, 14.696), (-1000, 15.236), (1000, 14.175), (2000, 13.664), (3000, 13.173),
                            (5000, 12.230), (10000, 10.108))],
    *[Case(f"standard air at {metres} m", suction.air_pressure, {"elevation": metres}, printed, 0.5, METRES,
           "pressure against geometric altitude", "recalled")
      for metres, printed in ((1000.0, 89876.0), (2000.0, 79501.0), (3000.0, 70121.0))],
    Case("Crane 7-32, 13.89 ft available", suction.npsh_available, {"suction": TANK}, 13.89, 0.005, CRANE,
         "example 7-32", "quoted", unit=FOOT),
    Case("Crane 7-32, 26 ft wanted", suction.npsh_wanted, {"required": 20.0 * FOOT, "margin": 1.3}, 26.0, 0.05,
         CRANE, "example 7-32", "quoted", unit=FOOT),
    Case("sea water boils 9.76 m above the surface", suction.boiling_height,
         {"place": PipePlace(0.0, 0.0, 0.0), "air_pressure": STANDARD_AIR, "vapour_pressure": 3363.0,
          "density": 1023.0}, 9.76, 0.005, CREST, "standing water", "computed"),
    Case("pressure at a crest 1 m above the surface at 2 m/s", suction.pipe_pressure,
         {"place": PipePlace(1.0, 0.0, 0.2039), "air_pressure": STANDARD_AIR, "density": 1023.0}, 89.25, 0.01,
         "the formula, worked by hand", "101.325 - 1023*9.80665*1.2039/1000", "computed", unit=1000.0,
         why="worked to four digits"),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds(), f"{case.ours()} against printed {case.printed}"


def test_impossible_suctions_are_refused() -> None:
    with pytest.raises(ImpossibleInput, match="above the sea"):
        suction.air_pressure(12000.0)
    with pytest.raises(ImpossibleInput, match="loss"):
        suction.npsh_available(Suction(1e5, 2e3, 1000.0, 1.0, -1.0))
    with pytest.raises(ImpossibleInput, match="density"):
        suction.npsh_available(Suction(1e5, 2e3, 0.0, 1.0, 1.0))
