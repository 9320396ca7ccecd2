"""Ultraviolet dose against print and hand."""

from __future__ import annotations

import pytest

from tests.published.case import Case
from tidestead.catalog import table
from tidestead.physics import uv

HAND = "dose is light times time, by hand"
BOLTON = "Bolton and Linden (2003), water factor"
MJ_PER_CM2 = 10.0
MW_PER_CM2 = 10.0
PER_HOUR = 1.0 / 3600.0
GPM = 231.0 * 0.0254**3 / 60.0
GALLON = 231.0 * 0.0254**3

CASES = [
    Case("20 mW/cm2 in 10 L at 5 m3/h: 144 mJ/cm2", uv.dose,
         {"intensity": 20 * MW_PER_CM2, "volume": 0.010, "flow": 5 * PER_HOUR}, 144.0, 0.5, HAND, "I*V/Q", "computed",
         unit=MJ_PER_CM2),
    Case("20 mW/cm2 in 2.5 US gal at 22 US gal/min: 136 mJ/cm2", uv.dose,
         {"intensity": 20 * MW_PER_CM2, "volume": 2.5 * GALLON, "flow": 22 * GPM}, 136.36, 0.005, HAND,
         "20*60*2.5/22", "computed", unit=MJ_PER_CM2),
    Case("and the flow that gets 144", uv.dose_flow,
         {"intensity": 20 * MW_PER_CM2, "volume": 0.010, "target": 144 * MJ_PER_CM2}, 5.0, 0.05, HAND, "I*V/dose",
         "computed", unit=PER_HOUR),
    Case("10 L at 5 m3/h are lit for 7.2 s", uv.contact_time, {"volume": 0.010, "flow": 5 * PER_HOUR}, 7.2, 0.05, HAND,
         "V/Q", "computed"),
    Case("90 % through 1 cm", uv.absorbance, {"transmittance": 0.90, "path": 0.01}, 4.576, 5e-4,
         "Beer and Lambert, by hand", "-log10(0.9) = 0.04576 per cm", "computed"),
    Case("90 % a cm over 2 cm: 0.9017", uv.water_share, {"absorbs": 4.576, "depth": 0.02}, 0.9017, 5e-5, BOLTON,
         "(1 - 0.81)/(2*0.10536)", "computed"),
    Case("80 % left at 9000 h, half way", uv.lamp_share, {"burned": 4500.0, "life": 9000.0, "left_at_life": 0.8},
         0.8944, 5e-5, HAND, "sqrt(0.8)", "computed"),
    Case("water 0.9, sleeve 0.8, lamp 0.8", uv.reduced_intensity,
         {"intensity": 200.0, "water": 0.9, "sleeve": 0.8, "lamp": 0.8}, 115.2, 0.05, HAND, "200*0.576", "computed"),
    Case("half of a dose for 99.99 % leaves 1 %", uv.share_left,
         {"target": 22.0, "given": 11.0, "target_logs": 4.0}, 1.0, 0.005, HAND, "10^(-4/2)", "computed", unit=0.01),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_uv_holds_to_print(case: Case) -> None:
    assert case.holds()


@pytest.mark.parametrize(
    ("row", "printed"),
    [("norway-intake", 25.0), ("fish-bacteria", 2.2), ("gram-negatives", 29.4), ("isav", 3.3), ("vhsv", 0.79),
     ("ipnv", 118.8), ("hardy-viruses", 150.0), ("fungus", 250.0), ("kudoa", 15.0), ("cryptocaryon-harmless", 184.0),
     ("cryptocaryon-killed", 288.0)],
)  # fmt: skip
def test_targets_stand_as_printed(row: str, printed: float) -> None:
    """Abstracts print mJ/cm2."""
    assert table("uv_targets")[row].si("dose") == pytest.approx(printed * MJ_PER_CM2)


def test_from_intake_water_to_parasites_the_same_lamp_passes_a_seventh() -> None:
    flows = [
        uv.dose_flow(200.0, 0.01, table("uv_targets")[row].si("dose"))
        for row in ("cryptocaryon-harmless", "norway-intake")
    ]
    assert flows[1] / flows[0] == pytest.approx(7.36, abs=0.005)
