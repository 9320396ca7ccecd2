"""Standpipes and siphons against print: lips, drowned lips, full pipes, stacks, crests, covers, break holes."""

from __future__ import annotations

import math

import pytest

from tests.published.case import FOOT, INCH, Case, marked
from tidestead.physics import seawater
from tidestead.physics.flow import siphons, standpipes
from tidestead.physics.flow.siphons import Crest, SiphonPipe
from tidestead.physics.flow.standpipes import Standpipe

SWMM = "EPA, SWMM reference manual, volume II, section 6.2, bottom orifices"
WYLY = "Wyly and Eaton, National Bureau of Standards, by Schedule 40 bores"
EN = "EN 12056-3, clause 6; a Brazilian standard's Table 8 repeats it"
HYDRAULIC = "ANSI/HI 9.8, pump intake design"
ENERGY = "energy equation, by hand"
PER_HOUR = 1.0 / 3600.0
GPM = 231.0 * INCH**3 / 60.0
LITRE = 1e-3
MM = 1e-3
BORES = {"1 1/2 in": 40.89, "2 in": 52.50, "3 in": 77.93, "4 in": 102.26}
TALL = {bore: Standpipe(bore * MM, 3.0, 2.0) for bore in BORES.values()}

AT_HEADS = {
    "1 1/2 in": (0.85, 1.78, 2.18, 2.81, 3.97),
    "2 in": (1.09, 2.93, 3.59, 4.63, 6.55),
    "3 in": (1.62, 4.57, 7.90, 10.2, 14.4),
    "4 in": (2.12, 6.00, 11.0, 17.6, 24.9),
}
DROWNS = {"1 1/2 in": 14.8, "2 in": 19.0, "3 in": 28.2, "4 in": 37.1}
STACKS = {
    "1 1/2 in": (2.23, 2.88, 3.60),
    "2 in": (4.34, 5.62, 7.01),
    "3 in": (12.5, 16.1, 20.1),
    "4 in": (25.7, 33.2, 41.5),
}
FILLED = {"1/4": 1.0 / 4.0, "7/24": 7.0 / 24.0, "1/3": 1.0 / 3.0}


DIFFER = {
    24.9: "the formula gives 24.84 for a bore of 102.26 mm: the worked figure was rounded up",
    5.62: "the formula gives 5.615 for a bore of 52.50 mm: the worked figure was rounded up",
}


def _last(printed: float) -> float:
    return 0.05 if printed >= 9.95 else 0.005


LIPS = [
    Case(f"{name} takes {printed:g} m3/h at {head} mm", standpipes.standpipe_flow,
         {"pipe": TALL[BORES[name]], "head": head * MM}, printed, _last(printed), SWMM,
         "worked for Schedule 40 bores", "computed", unit=PER_HOUR, pick=lambda found: found.flow,
         differs=DIFFER.get(printed, ""))
    for name, flows in AT_HEADS.items()
    for head, printed in zip((10, 20, 30, 50, 100), flows, strict=True)
]  # fmt: skip
CASES = [
    *LIPS,
    *[Case(f"{name} drowns at {printed} mm", standpipes.drowning_head, {"bore": BORES[name] * MM}, printed, 0.05,
           SWMM, "h = 0.6*A/(0.414*P)", "quoted", unit=MM) for name, printed in DROWNS.items()],
    Case("lip of 4 in at 10 mm", standpipes.lip_flow, {"bore": 102.26 * MM, "head": 10 * MM}, 2.12, 0.005, SWMM,
         "worked for Schedule 40 bores", "computed", unit=PER_HOUR),
    Case("drowned lip of 2 in at 100 mm", standpipes.drowned_flow, {"bore": 52.50 * MM, "head": 0.1}, 6.55, 0.005,
         SWMM, "worked for Schedule 40 bores", "computed", unit=PER_HOUR),
    Case("2 in full over 3 ft, R = 4: 72.66 US gal/min", standpipes.full_pipe_flow,
         {"pipe": Standpipe(2.067 * INCH, 3 * FOOT, 4.0), "head": 0.0}, 72.66, 0.005, ENERGY,
         "0.023303 ft2 * sqrt(2*32.174*3/4) ft/s", "computed", unit=GPM),
    Case("2 in takes 3.59 m3/h at 30 mm, read backwards", standpipes.standpipe_head,
         {"pipe": TALL[52.50], "flow": 3.587 * PER_HOUR}, 30.0, 0.05, SWMM, "read backwards", "computed", unit=MM,
         pick=lambda found: found.head),
    Case("2 in of R = 30 runs full: 1.112 m over the lip", standpipes.standpipe_head,
         {"pipe": Standpipe(0.0525, 0.5, 30.0), "flow": 8.0 * PER_HOUR}, 1.112, 5e-4, ENERGY,
         "30*1.0265**2/19.6133 - 0.5", "computed", pick=lambda found: found.head),
    *[Case(f"stack of {name}, {share} filled", standpipes.stack_capacity,
           {"bore": BORES[name] * MM, "filled": FILLED[share]}, printed, _last(printed), WYLY, "27.8 r^(5/3) D^(8/3)",
           "quoted", unit=PER_HOUR, differs=DIFFER.get(printed, ""))
      for name, flows in STACKS.items() for share, printed in zip(FILLED, flows, strict=True)],
    *[Case(f"stack of {bore} mm, {filled:.0%} filled, {printed} L/s", standpipes.stack_capacity,
           {"bore": bore * MM, "filled": filled}, printed, 0.05, EN, "2.5e-4 kb^-0.167 d^2.667 f^1.667", "quoted",
           unit=LITRE)
      for bore, filled, printed in ((100, 0.20, 4.6), (100, 0.33, 10.7), (50, 0.20, 0.7), (50, 0.33, 1.7))],
    Case("film of 100 US gal/min in 4 in", standpipes.stack_speed, {"flow": 100 * GPM, "bore": 4 * INCH}, 15.9,
         0.05, "Wyly and Eaton, NBS Monograph 31 (1961)", "4.4*(Q/D)^0.4, measured", "quoted", unit=FOOT),
    Case("siphon of 2 in over 1.5 m, R = 5", siphons.siphon_flow,
         {"pipe": SiphonPipe(0.0525, 5.0), "fall": 1.5}, 18.90, 0.005, ENERGY, "A*sqrt(2*g*1.5/5)", "computed",
         unit=PER_HOUR),
    Case("fall for it", siphons.siphon_fall, {"pipe": SiphonPipe(0.0525, 5.0), "flow": 18.9037 * PER_HOUR}, 1.5,
         5e-4, ENERGY, "read backwards", "computed"),
    Case("crest of still sea water at 26 degC", siphons.crest_limit,
         {"crest": Crest(float(seawater.density(35.0, 26.0)), 101325.0, 3363.0, 0.0), "speed": 0.0}, 9.76, 0.005,
         ENERGY, "(Pa - Pv)/(rho*g), vapour of fresh water", "computed"),
    Case("crest with the pipe running 2 m/s and K = 1.5 before it", siphons.crest_limit,
         {"crest": Crest(1023.0, 101325.0, 3363.0, 1.5), "speed": 2.0}, 9.255, 5e-4, ENERGY,
         "9.7648 - 2.5*0.20394", "computed"),
    Case("long bubble in 2 in: 0.345*sqrt(g*D)", siphons.priming_flow, {"bore": 0.0525}, 0.24755, 5e-6,
         "Davies and Taylor (1950)", "long bubble in a tube", "recalled", unit=math.pi * 0.0525**2 / 4.0),
    Case("cover of a 10 in inlet at 1000 US gal/min", siphons.covering_depth,
         {"bore": 10 * INCH, "flow": 1000 * GPM}, 28.15, 0.01, HYDRAULIC, "S = D + 0.574*Q/D^1.5, in and gpm",
         "recalled", unit=INCH, why="0.574 is rounded"),
    Case("spill of a 3 mm hole at 0.1 m", siphons.spill_of_hole, {"hole": 3 * MM, "head": 0.1}, 21.74, 0.005,
         ENERGY, "0.61*7.0686e-6*sqrt(2*9.80665*0.1) m3/s", "computed", unit=LITRE * PER_HOUR),
    Case("air through a 6 mm hole in that siphon, a share of 0.23", siphons.break_hole,
         {"pipe": SiphonPipe(0.0525, 5.0), "hole": 6 * MM, "fall": 1.5, "water_density": 1023.0, "air_density": 1.2},
         0.2326, 5e-5, ENERGY, "0.61*(6/52.5)^2*sqrt(1023/1.2)", "computed", pick=lambda found: found.share),
]  # fmt: skip


@pytest.mark.parametrize("case", [marked(case) for case in CASES])
def test_standpipes_hold_to_print(case: Case) -> None:
    assert case.holds()


def test_how_a_lip_runs() -> None:
    """2 in: weir below 13 mm, gulping to 31.5 mm, orifice above; a pipe of much loss runs full."""
    pipe = TALL[52.50]
    runs = [standpipes.standpipe_flow(pipe, head * MM).regime for head in (0, 5, 13, 14, 31, 32, 200)]
    assert runs == ["dry", "weir", "weir", "gulping", "gulping", "orifice", "orifice"]
    assert standpipes.standpipe_flow(Standpipe(0.0525, 0.5, 30.0), 0.5).regime == "full"
    assert standpipes.standpipe_head(Standpipe(0.0525, 0.5, 30.0), 8.0 * PER_HOUR).regime == "full"
