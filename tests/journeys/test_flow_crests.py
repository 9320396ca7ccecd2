"""Highest points of lines and float valves of whole plans, against numbers worked by hand; planted mistakes."""

from __future__ import annotations

import math

import pytest

from tests.journeys.flow_plans import SMALL, answer_of, changed, check_of, example, facts_of
from tidestead.core.answer import Check, Verdict

G = 9.80665


def over(high: str, more: str = "") -> str:
    """The small plan with its pumped line over a highest point."""
    text = changed(SMALL, ('end = "tank.jet"', f'end = "tank.jet"\nhigh_point = "{high}"'))
    return changed(text, ("[water]", f"{more}\n[water]")) if more else text


def checks_of(text: str) -> dict[str, Check]:
    """Checks of the pumped line by their last word."""
    found = {check.id: check for check in answer_of(text).checks}
    return {key.rpartition(".")[2]: one for key, one in found.items() if key.startswith("flow.circuits.up.")}


def test_no_pump_of_five_metres_fills_a_line_over_nine() -> None:
    """A planted mistake: 9.9 m over the datum, 9.5 over the sump, by a pump that gives 5 m against a shut valve."""
    checks = checks_of(over("9.9 m"))
    assert checks["lift"].verdict is Verdict.FAILS
    assert checks["lift"].estimate is not None
    assert checks["lift"].estimate.likely == pytest.approx(9.5)
    assert checks["lift"].limit == pytest.approx(5.0)
    assert checks["primes"].verdict is Verdict.FAILS
    assert checks["crest"].verdict is Verdict.NEAR


def test_a_slower_pump_lifts_by_the_square_of_its_speed() -> None:
    text = changed(over("3.0 m"), ('needs_head = "2 m"', 'needs_head = "2 m"\nspeed = "80 %"'))
    assert checks_of(text)["lift"].limit == pytest.approx(5.0 * 0.64)


def test_water_boils_sooner_in_the_mountains() -> None:
    """By hand: standard air of 2000 m, 79495 Pa, less 4000 for a low, less vapour of 26 degC, about 3290 Pa."""
    text = over("9.0 m", '[site]\nelevation = "2000 m"\n')
    crest, low = checks_of(text)["crest"], checks_of(over("9.0 m"))["crest"]
    density = facts_of(SMALL).water.density
    assert crest.limit == pytest.approx((79495.0 - 4000.0 - 3290.0) / (density * G), abs=0.02)
    assert low.limit == pytest.approx((101325.0 - 4000.0 - 3290.0) / (density * G), abs=0.02)
    assert crest.verdict is Verdict.FAILS or crest.use == pytest.approx(
        (9.0 - 1.8126) / float(str(crest.limit)), rel=1e-3
    )
    assert (crest.use or 0.0) > (low.use or 0.0)


def test_a_leg_that_never_runs_full_fails() -> None:
    """By hand: with 4.5 m of lift the pump moves about 4 m3/h; to take air down 81.4 mm it needs 0.345*sqrt(g*D)."""
    checks = checks_of(over("4.9 m"))
    carries = math.pi / 4.0 * 0.0814**2 * 0.345 * math.sqrt(G * 0.0814)
    assert checks["primes"].limit == pytest.approx(carries, rel=1e-3)
    assert checks["primes"].verdict is Verdict.FAILS
    assert checks["primes"].estimate is not None
    filling = checks["primes"].estimate.likely
    pump = facts_of(SMALL).pumps[0]
    lost = (pump.head - (facts_of(SMALL).levels["tank"] - 0.40)) * (filling / pump.flow) ** 2
    assert -pump.law.at(filling).head == pytest.approx(4.5 + lost, rel=1e-4)
    assert checks["lift"].verdict is Verdict.NEAR


def test_a_highest_point_within_reach_is_sound() -> None:
    checks = checks_of(over("3.0 m"))
    assert {name: checks[name].verdict for name in ("lift", "primes", "crest")} == dict.fromkeys(
        ("lift", "primes", "crest"), Verdict.SOUND
    )


def test_a_point_below_the_water_is_none() -> None:
    assert "lift" not in checks_of(over("1.7 m"))


def test_a_siphon_whose_crest_the_water_never_reaches_fails() -> None:
    """A planted mistake: the crest of the weir box's siphon 0.60 m over its floor; the standby takes all below."""
    text = changed(example("skerry"), ('crest = "0.28 m"', 'crest = "0.60 m"'))
    facts = facts_of(text)
    check = check_of(answer_of(text), "flow.circuits.siphon.starts")
    assert check.verdict is Verdict.FAILS
    assert check.estimate is not None
    blocked = next(one for one in facts.drains if one.vessel == "weirbox").blocked["siphon"]
    assert blocked is not None
    assert check.estimate.likely == pytest.approx(blocked - (0.65 + 0.60), abs=1e-9)


def floating(valve: str) -> str:
    """The small plan with a float valve in its sump."""
    return changed(SMALL, ("[pumps.lift]", f"[vessels.sump.top_off]\n{valve}\n\n[pumps.lift]"))


SAFE = 'level = "0.40 m"\nflow = "60 L/h"\nstock = "100 L"\nevaporation = "18 L/day"'


def test_a_small_stock_is_harmless() -> None:
    """By hand: salt shared over 100 L more of fresh water; the stock lasts 5.6 days."""
    answer, facts = answer_of(floating(SAFE)), facts_of(floating(SAFE))
    for name in ("floods", "freshens", "keeps_up"):
        assert check_of(answer, f"flow.sump.top_off.{name}").verdict is Verdict.SOUND
    salt = facts.system_volume * facts.water.density
    fall = 35.0 - 35.0 * salt / (salt + 0.1 * 997.0)
    estimate = check_of(answer, "flow.sump.top_off.freshens").estimate
    assert estimate is not None
    assert estimate.likely == pytest.approx(fall, rel=1e-3)
    steps = next(one for one in answer.working if one.check == "flow.sump.top_off.keeps_up").steps
    assert steps[0].result == pytest.approx(100.0 / 18.0 * 86400.0)


def test_a_stock_larger_than_the_room_fails() -> None:
    """A planted mistake: 700 L of fresh water over 1.28 m2 times 0.40 m of room: 512 L."""
    check = check_of(answer_of(floating(SAFE.replace("100 L", "700 L"))), "flow.sump.top_off.floods")
    assert check.verdict is Verdict.FAILS
    assert check.limit == pytest.approx(0.512)


def test_a_float_valve_on_the_mains_is_not_proven() -> None:
    """By hand: 512 L at 60 L/h are 8.5 hours."""
    answer = answer_of(floating('level = "0.40 m"\nflow = "60 L/h"'))
    floods = check_of(answer, "flow.sump.top_off.floods")
    assert floods.verdict is Verdict.UNPROVEN
    assert "8.53 h" in floods.missing
    assert "vessels.sump.top_off.stock" in floods.missing
    keeps = check_of(answer, "flow.sump.top_off.keeps_up")
    assert keeps.verdict is Verdict.UNPROVEN
    assert "vessels.sump.top_off.evaporation" in keeps.missing


def test_a_valve_that_gives_less_than_evaporates_fails() -> None:
    check = check_of(answer_of(floating(SAFE.replace("60 L/h", "0.5 L/h"))), "flow.sump.top_off.keeps_up")
    assert check.verdict is Verdict.FAILS


def test_the_sump_is_taken_as_full_as_its_float_valve_makes_it() -> None:
    """A planted mistake: the valve shuts at 0.60 m, where 0.40 m is the depth: 256 L of room are left."""
    stop = facts_of(floating(SAFE.replace('level = "0.40 m"', 'level = "0.60 m"'))).stop
    assert stop is not None
    assert stop.free == pytest.approx(1.28 * 0.20)
