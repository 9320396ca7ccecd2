"""Carbonate in seawater against print: constants, contents, a round robin, an overdose."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from tests.published.case import Case, marked
from tidestead.physics.ph import PHScale
from tidestead.physics.water import carbonate, constants, contents
from tidestead.physics.water.carbonate import Carbonate, Seawater
from tidestead.physics.water.contents import BorateLaw

GUIDE = "Dickson, Sabine and Christian (2007), chapter 5, check values in two public test suites"
STANDARD = "a carbonate library after Dickson, Sabine and Christian (2007)"
ROBIN = "round robin in the documentation of a carbonate library"
OVERDOSE = "overdose of hydroxide worked with a carbonate library"
SEA = {"sal_psu": 35.0, "temp_c": 25.0}
ROBIN_WATER = Seawater(33.0, 22.0, phosphate=1.0, silicate=10.0, ammonia=2.0)
DEEP = "the round robin lies at 1000 dbar and holds 3 umol/kg of sulphide; ours is water at the pressure of the air"


def _ln(found: Any) -> float:
    return float(np.log(found))


def _log10(found: Any) -> float:
    return float(np.log10(found))


def _of(name: str) -> Callable[[Carbonate], float]:
    return lambda found: float(getattr(found, name))


def _overdose(added: float, ph: float, aragonite: float, to: float) -> list[Case]:
    water = Seawater(35.0, 26.0, borate_law=BorateLaw.UPPSTROM)
    before = carbonate.from_alkalinity_and_air(water, 2500.0, 420.0)
    given = {"water": water, "before": before, "added": added}
    return [
        Case(f"{added:g} ueq/kg too much: {what} {printed}", carbonate.with_alkalinity_added, given, printed, off,
             OVERDOSE, "TA 2500, 420 uatm, S 35, 26 degC", "computed", pick=_of(what))
        for what, printed, off in (("ph", ph, 5e-4), ("aragonite", aragonite, to))
    ]  # fmt: skip


CASES = [
    Case("log10 K1", constants.carbonic_first, SEA, -5.8472, 5e-5, GUIDE, "Lueker et al. (2000)", "quoted",
         pick=_log10),
    Case("log10 K2", constants.carbonic_second, SEA, -8.9660, 5e-5, GUIDE, "Lueker et al. (2000)", "quoted",
         pick=_log10),
    *[Case(name, of, SEA, printed, to, GUIDE, "S 35, 25 degC", "quoted", pick=_ln)
      for name, of, printed, to in (("ln KB", constants.boric, -19.7964, 5e-5),
                                    ("ln KW", constants.water_ions, -30.434, 5e-4),
                                    ("ln K0", constants.co2_solubility, -3.5617, 5e-5),
                                    ("ln KP1", constants.phosphoric_first, -3.71, 0.005),
                                    ("ln KP2", constants.phosphoric_second, -13.727, 5e-4),
                                    ("ln KP3", constants.phosphoric_third, -20.24, 0.005),
                                    ("ln KSi", constants.silicic, -21.61, 0.005))],
    Case("boron of standard seawater by Uppstrom", contents.borate, {"sal_psu": 35.0, "law": BorateLaw.UPPSTROM},
         415.7, 0.05, STANDARD, "umol/kg", "read"),
    Case("calcium of standard seawater", contents.calcium, {"sal_psu": 35.0}, 10.2846, 5e-5, STANDARD, "mmol/kg",
         "read", unit=1e3),
    Case("10.2846 mmol/kg of calcium are 412 mg/kg", contents.mass_of_content,
         {"content": 10284.6, "molar_mass": contents.CALCIUM_MASS, "density": 1000.0}, 412.0, 0.5, STANDARD, "mg/kg",
         "read"),
    Case("412.2 mg/L in water of 1000 kg/m3", contents.content_of_mass,
         {"mass": 412.2, "molar_mass": contents.CALCIUM_MASS, "density": 1000.0}, 10285.0, 0.5, STANDARD,
         "read backwards", "computed"),
    *[Case(f"round robin: {what}", carbonate.from_alkalinity_and_ph,
           {"water": ROBIN_WATER, "alkalinity": 2300.0, "ph": 8.1, "scale": PHScale.TOTAL}, printed, 0.05, ROBIN,
           "TA 2300, pH 8.1 total, S 33, 22 degC, 1000 dbar", "read", pick=_of(what), differs=DEEP)
      for what, printed in (("dic", 1982.2), ("pco2", 312.0), ("carbonate", 218.1), ("bicarbonate", 1754.5),
                            ("co2", 9.6))],
    Case("TA 2500 under 420 uatm: pH", carbonate.from_alkalinity_and_air,
         {"water": Seawater(35.0, 26.0, borate_law=BorateLaw.UPPSTROM), "alkalinity": 2500.0, "pco2": 420.0}, 8.056,
         5e-4, OVERDOSE, "S 35, 26 degC", "computed", pick=_of("ph")),
    Case("TA 2500 under 420 uatm: aragonite", carbonate.from_alkalinity_and_air,
         {"water": Seawater(35.0, 26.0, borate_law=BorateLaw.UPPSTROM), "alkalinity": 2500.0, "pco2": 420.0}, 3.88,
         0.005, OVERDOSE, "S 35, 26 degC", "computed", pick=_of("aragonite")),
    Case("TA 2500 and pH 8.056 lie under 420 uatm", carbonate.from_alkalinity_and_ph,
         {"water": Seawater(35.0, 26.0, borate_law=BorateLaw.UPPSTROM), "alkalinity": 2500.0, "ph": 8.056,
          "scale": PHScale.TOTAL}, 420.0, 0.5, OVERDOSE, "S 35, 26 degC, backwards", "computed", pick=_of("pco2")),
    *_overdose(100.0, 8.183, 5.0, 0.05),
    *_overdose(300.0, 8.385, 7.4, 0.05),
    *_overdose(500.0, 8.549, 9.8, 0.05),
    *_overdose(1000.0, 8.889, 16.0, 0.05),
]  # fmt: skip


@pytest.mark.parametrize("case", [marked(case) for case in CASES])
def test_carbonate_holds_to_print(case: Case) -> None:
    assert case.holds()
