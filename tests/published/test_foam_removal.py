"""Cleaning by a side stream against print: turnovers, times to 90, 99 and 99.99 %, where it settles."""

from __future__ import annotations

import pytest

from tests.published.case import Case
from tidestead.physics.foam import removal
from tidestead.physics.foam.removal import SideStream

TRACER = "Alansari et al. (2018), tracer tests of a mixed pool"
MIXED = "Gage and Bidwell (1926), law of purification by consecutive dilution, as quoted"
TRADE = "trade formula 9.2 V/F for 99.99 %, after P. Escobal, Aquatic Systems Engineering"
REEF = "Feldman et al. (2009, 2010), total organic carbon of reef tanks under skimming"
BALANCE = "balance of mass, worked by hand"

UNIT = SideStream(flow=1.0, volume=1.0)
"""One turnover a second, everything caught: times are turnovers."""
REEF_TANK = SideStream(flow=1.0, volume=1.0, fixed=0.75)
HALF = SideStream(flow=3.0 / 3600.0, volume=12.0, efficiency=0.5)
"""3 m3/h of 12 m3, half caught in a pass: the matter halves in ln 2 * 8 h."""
PACKHOUSE = SideStream(flow=2.0 / 3600.0, volume=10.0, efficiency=0.5)

CASES = [
    *[
        Case(
            f"{share} % exchanged in {turns} turnovers", removal.share_left, {"stream": UNIT, "time": float(turns)},
            round(1.0 - share / 100.0, 2), 5e-3, TRACER, f"{turns} turnovers", "read",
        )
        for turns, share in ((1, 63), (2, 86), (3, 95))
    ],
    *[
        Case(
            f"{share:%} take {factor:g} turnovers", removal.removal_time, {"stream": UNIT, "removed": share},
            factor, 5e-4, MIXED, "ln(1/(1 - p)), by hand", "computed",
        )
        for share, factor in ((0.9, 2.303), (0.99, 4.605), (0.9999, 9.210))
    ],
    Case(
        "the trade's 9.2 turnovers for 99.99 %", removal.removal_time, {"stream": UNIT, "removed": 0.9999},
        9.2, 0.05, TRADE, "as quoted; the book was not seen", "recalled",
    ),
    Case(
        "half of it in 5.545 h at an efficiency of a half, a quarter of the system an hour", removal.removal_time,
        {"stream": HALF, "removed": 0.5}, 5.545, 5e-4, MIXED, "ln 2 * 12/(0.5*3) h, by hand", "computed", unit=3600.0,
    ),
    Case(
        "a quarter of reef carbon goes, the rest stays", removal.share_left, {"stream": REEF_TANK, "time": 60.0},
        0.75, 5e-3, REEF, "20 to 30 % removed before it levels off; a quarter taken", "read",
    ),
    Case(
        "after one turnover a quarter of carbon is down to a third of itself", removal.share_left,
        {"stream": REEF_TANK, "time": 1.0}, 0.842, 5e-4, REEF, "0.75 + 0.25*exp(-1), by hand", "computed",
    ),
    Case(
        "bubbles of 2 mm have 40 % of the surface of 0.8 mm: half becomes a fifth", removal.efficiency_by_surface,
        {"efficiency": 0.5, "usual": 0.8e-3, "bubble": 2e-3}, 0.2, 5e-4, BALANCE, "6/d of a ball, by hand", "computed",
    ),
    Case(
        "12 m3 at 3 m3/h: six turnovers a day", removal.turnovers, {"stream": HALF, "time": 86400.0}, 6.0, 0.05,
        BALANCE, "definition", "computed",
    ),
    Case(
        "half of 3 m3/h of 12 m3: an eighth an hour", removal.removal_pace, {"stream": HALF}, 0.125, 5e-4,
        BALANCE, "E*Q/V", "computed", unit=1.0 / 3600.0,
    ),
    Case(
        "2 g/h into a side stream of 2 m3/h that catches half: 2 g/m3", removal.steady_concentration,
        {"source": 2.0, "stream": PACKHOUSE}, 2.0, 0.005, BALANCE, "G/(E*Q)", "computed", why="exact by hand",
    ),
    Case(
        "from clean water, after 10 h: 2*(1 - 1/e) g/m3", removal.concentration_after,
        {"start": 0.0, "source": 2.0, "stream": PACKHOUSE, "time": 36000.0}, 1.264, 5e-4, BALANCE,
        "V dC/dt = G - E*Q*C", "computed",
    ),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_printed_value(case: Case) -> None:
    assert case.holds()
