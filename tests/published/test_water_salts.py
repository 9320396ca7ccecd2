"""Salt water made, blended, topped up and drifting, and fresh water through a membrane, against print."""

from __future__ import annotations

import math

import pytest

from tests.published.case import Case
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.water import osmosis, salts
from tidestead.physics.water.salts import Body

TEOS = "TEOS-10, density and reference salinity"
HAND = "worked by hand from densities and specific heats of TEOS-10"
BALANCE = "balance of salt, by hand"
MEMBRANE = "membrane maker's projection form, printed table of divisors"
TANK = Body(20.0, 34.0, 26.0)
SEA, TAP = Body(18.0, 35.0, 26.0), Body(2.0, 0.0, 15.0)

CASES = [
    Case("35 on the practical scale is 35.16504 g/kg", salts.grams_of_salt, {"sal_psu": 35.0}, 35.16504, 5e-6,
         "IOC Manuals and Guides 56 (2010)", "reference salinity, after Millero et al. (2008)", "computed"),
    Case("salt in a cubic metre of 35 at 25 degC", salts.salt_per_volume, {"sal_psu": 35.0, "temp_c": 25.0}, 35.99,
         0.005, TEOS, "SR*rho", "computed"),
    Case("20 m3 of the tank", salts.water_mass, {"body": Body(20.0, 35.0, 26.0)}, 20460.7, 0.05, TEOS,
         "1023.0348 kg/m3", "computed"),
    Case("a cubic metre of 36 at 26 degC", salts.salt_mass, {"body": Body(1.0, 36.0, 26.0)}, 37.03, 0.005, TEOS,
         "SR*rho", "computed"),
    *[Case(f"dry salt for {sal:g} at 26 degC", salts.mix_needed, {"body": Body(1.0, sal, 26.0), "factor": 1.0}, printed,
           0.005, TEOS, "SR*rho", "computed") for sal, printed in ((33.0, 33.87), (34.0, 34.92))],
    Case("a mix a tenth of which is bound water", salts.mix_needed, {"body": Body(1.0, 33.0, 26.0), "factor": 1.1},
         37.26, 0.005, BALANCE, "1.1*33.87", "computed"),
    Case("fresh water for a cubic metre of 35 at 25 degC", salts.fresh_needed,
         {"body": Body(1.0, 35.0, 25.0), "factor": 1.0}, 987.4, 0.05, TEOS, "rho less salt", "computed"),
    Case("a mix with bound water asks for less fresh", salts.fresh_needed,
         {"body": Body(1.0, 35.0, 25.0), "factor": 1.1}, 983.8, 0.05, BALANCE, "1023.34 - 1.1*35.99", "computed"),
    Case("1 kg in 25 kg reads 35", salts.mix_factor, {"mix": 1.0, "fresh": 25.0, "measured_psu": 35.0}, 1.0937, 5e-5,
         BALANCE, "1/(26*0.03516504)", "computed"),
    Case("salinity of 18 m3 and 2 m3 of fresh", salts.blend, {"one": SEA, "other": TAP}, 31.574, 5e-4, HAND,
         "35*18414.6/20412.8", "computed", pick=lambda body: body.sal_psu),
    Case("temperature of 18 m3 and 2 m3 of fresh", salts.blend, {"one": SEA, "other": TAP}, 24.878, 5e-4, HAND,
         "26 and 15 degC, 3999.5 and 4188.5 J/kg/K", "computed", pick=lambda body: body.temp_c),
    Case("volume of 18 m3 and 2 m3 of fresh", salts.blend, {"one": SEA, "other": TAP}, 19.997, 5e-4, HAND,
         "20412.8 kg at 1020.8 kg/m3", "computed", pick=lambda body: body.volume),
    Case("brine of 40 that lifts 20 m3 from 34 to 35", salts.added_volume,
         {"body": TANK, "other": Body(0.0, 40.0, 26.0), "goal_psu": 35.0}, 3.982, 5e-4, HAND,
         "20445.6*1/5/1026.81", "computed"),
    Case("mix that lifts 20 m3 from 34 to 35", salts.mix_to_raise, {"body": TANK, "goal_psu": 35.0, "factor": 1.1},
         23.51, 0.005, HAND, "20445.6*1.00472/(909.09 - 35.165)", "computed"),
    Case("150 L a day for 3 days, no top-up", salts.evaporated_salinity,
         {"sal_psu": 35.0, "volume": 20.0, "evaporation": 0.15, "time": 3.0}, 35.81, 0.005, BALANCE, "35*20/19.55",
         "computed"),
    Case("20 L of salt water lost in a day", salts.lost_salt_drift, {"sal_psu": 35.0, "volume": 20.0, "lost": 0.02},
         -0.035, 1e-4, BALANCE, "-35*0.02/20", "computed"),
    Case("the same for a month", salts.lost_salt_salinity,
         {"sal_psu": 35.0, "volume": 20.0, "lost": 0.02, "time": 30.0}, 33.966, 5e-4, BALANCE, "35*exp(-0.03)",
         "computed"),
    *[Case(f"divisor at {temp:g} degC", lambda temp_c: 1.0 / osmosis.membrane_factor(temp_c), {"temp_c": temp}, printed,
           5e-4, MEMBRANE, f"{temp:g} degC", "quoted")
      for temp, printed in ((10.0, 1.711), (15.0, 1.422), (20.0, 1.189), (29.0, 0.889))],
    Case("flow at 10 degC", osmosis.membrane_factor, {"temp_c": 10.0}, 0.584, 5e-4, MEMBRANE, "1/1.711", "quoted"),
    Case("1 m3 by 0.4 m3 a day at 10 degC", osmosis.hours_to_make, {"volume": 1.0, "rated": 0.4, "temp_c": 10.0}, 102.7,
         0.05, MEMBRANE, "60 h*1.711", "quoted"),
    Case("waste at a recovery of a quarter", osmosis.reject_water, {"made": 1.0, "recovery": 0.25}, 3.0, 0.001,
         "balance of water, by hand", "1*0.75/0.25", "computed"),
]  # fmt: skip


@pytest.mark.parametrize("case", CASES, ids=lambda case: case.name)
def test_salts_hold_to_print(case: Case) -> None:
    assert case.holds()


def test_a_membrane_at_its_rating_is_at_its_rating() -> None:
    assert osmosis.membrane_factor(25.0) == 1.0
    assert math.isclose(osmosis.membrane_factor(24.999999), 1.0, rel_tol=1e-6)


@pytest.mark.parametrize(("recovery", "word"), [(0.0, "more than nothing"), (1.5, "0 to 1")])
def test_a_recovery_is_a_share(recovery: float, word: str) -> None:
    with pytest.raises(ImpossibleInput, match=word):
        osmosis.reject_water(1.0, recovery)


def test_no_amount_of_the_same_water_changes_salinity() -> None:
    with pytest.raises(ImpossibleInput, match="no amount"):
        salts.added_volume(TANK, Body(1.0, 34.5, 26.0), 35.0)
    with pytest.raises(ImpossibleInput, match="no amount"):
        salts.added_volume(TANK, Body(1.0, 35.0, 26.0), 35.0)
    assert salts.added_volume(TANK, Body(1.0, 35.0, 26.0), 34.0) == 0.0


def test_salt_that_cannot_be_is_refused() -> None:
    with pytest.raises(ImpossibleInput, match="down"):
        salts.mix_to_raise(TANK, 33.0, 1.1)
    with pytest.raises(ImpossibleInput, match="itself"):
        salts.mix_to_raise(TANK, 996.0, 1.1)
    with pytest.raises(ImpossibleInput, match="weigh again"):
        salts.mix_factor(1.0, 30.0, 35.0)
    with pytest.raises(ImpossibleInput, match="below 1"):
        salts.mix_needed(TANK, 0.9)
    with pytest.raises(ImpossibleInput, match="water left"):
        salts.evaporated_salinity(35.0, 1.0, 0.1, 10.0)
    with pytest.raises(ImpossibleInput, match="empty"):
        salts.blend(Body(0.0, 35.0, 26.0), Body(0.0, 0.0, 26.0))
