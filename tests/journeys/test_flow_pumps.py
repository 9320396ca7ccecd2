"""Pumps and lines at the worst: thin air, warm water, a pump that stands high, shut valves, no pump, what settles."""

from __future__ import annotations

import math

import pytest

from tests.journeys.flow_plans import SMALL, answer_of, changed, check_of, example, facts_of, loaded
from tidestead.core.answer import Estimate, Verdict
from tidestead.physics.flow.standpipes import stack_capacity, stack_speed
from tidestead.studies.flow.shut_ways import shut_beyond, shut_towards

SITE = '[water]\nsalinity = "35 psu"'


def at_height(metres: int, *more: tuple[str, str]) -> str:
    return changed(SMALL, (SITE, f'[site]\nelevation = "{metres} m"\n\n{SITE}'), *more)


def npsh_of(text: str) -> Estimate:
    found = check_of(answer_of(text), "flow.pumps.lift.npsh").estimate
    assert found is not None
    return found


def test_suction_head_by_hand_at_two_thousand_metres() -> None:
    """Air 79 501 Pa (U.S. Standard Atmosphere), vapour at 26 degC 3 363 Pa (steam table) less 1.9 % for the salt.

    Water stands 0.30 m over the pump; entry 0.5 v2/2g and 0.5 m of 81.4 mm pipe are lost. Density 1023.0 (TEOS-10).
    """
    text = at_height(2000)
    flow = facts_of(text).flows["up"]
    speed = flow / (math.pi * 0.0814**2 / 4.0)
    loss = (0.5 + 0.5 / 0.0814 * 0.0185) * speed**2 / (2.0 * 9.80665)
    by_hand = (79501.0 - 3363.0 * 0.981) / (1023.0 * 9.80665) + 0.30 - loss
    assert npsh_of(text).likely == pytest.approx(by_hand, abs=0.01)
    low = by_hand - 4000.0 / (1023.0 * 9.80665) - 0.3 * loss
    assert npsh_of(text).low == pytest.approx(low, abs=0.02)


def test_a_mountain_takes_suction_head_and_a_needy_pump_fails_there() -> None:
    """By the standard table 25.5 kPa less at 2500 m: 2.66 m of sea water. 1.3 times 6 m is wanted."""
    needy = ('needs_head = "2 m"', 'needs_head = "6 m"')
    shore, hill = at_height(0, needy), at_height(2500, needy)
    assert npsh_of(shore).likely - npsh_of(hill).likely == pytest.approx(2.66, abs=0.01)
    assert check_of(answer_of(shore), "flow.pumps.lift.npsh").verdict is not Verdict.FAILS
    assert check_of(answer_of(hill), "flow.pumps.lift.npsh").verdict is Verdict.FAILS


def test_warmer_water_boils_sooner() -> None:
    """Steam table: 3.36 kPa at 26 degC, 5.63 kPa at 35 degC: 0.22 m, less 0.03 m for the lighter water."""
    warm = changed(SMALL, ('keep = "25 to 26 degC"', 'keep = "17 to 35 degC"'))
    assert npsh_of(SMALL).likely - npsh_of(warm).likely == pytest.approx(0.22 - 0.03, abs=0.01)


def test_a_pump_that_stands_higher_draws_less_well() -> None:
    raised = changed(SMALL, ('needs_head = "2 m"', 'needs_head = "2 m"\nlevel = "0.85 m"'))
    assert npsh_of(SMALL).likely - npsh_of(raised).likely == pytest.approx(0.75, abs=1e-9)
    taken = [one.key for one in answer_of(SMALL).assumptions]
    said = [one.key for one in answer_of(raised).assumptions]
    assert "pumps.lift.level" in taken
    assert "pumps.lift.level" not in said
    assert "site.elevation" in taken
    assert "site.elevation" not in [one.key for one in answer_of(at_height(5)).assumptions]


def test_a_pump_behind_a_junction_is_judged_once_its_level_is_said() -> None:
    """Through a junction the water loses more on its way than from the sump at once."""
    parted = changed(
        SMALL,
        ('route = ["pipe pvc-90-pn10 0.5 m", "pump lift"', 'route = ["pump lift"'),
        (
            '[circuits.up]\nstart = "sump.suction"',
            '[circuits.draw]\nstart = "sump.suction"\nroute = ["pipe pvc-90-pn10 0.5 m"]\nend = "before"\n\n'
            '[circuits.up]\nstart = "before"',
        ),
    )
    check = check_of(answer_of(parted), "flow.pumps.lift.npsh")
    assert check.verdict is Verdict.UNPROVEN
    assert "pumps.lift.level" in check.missing
    said = changed(parted, ('needs_head = "2 m"', 'needs_head = "2 m"\nlevel = "0.10 m"'))
    assert npsh_of(said).likely == pytest.approx(npsh_of(SMALL).likely, abs=0.01)


def test_without_what_the_maker_asks_nothing_is_proved() -> None:
    check = check_of(answer_of(changed(SMALL, ('needs_head = "2 m"\n', ""))), "flow.pumps.lift.npsh")
    assert check.verdict is Verdict.UNPROVEN
    assert "pumps.lift.needs_head" in check.missing


def test_a_shut_valve_is_named_and_no_trickle_is_told() -> None:
    text = changed(SMALL, ('open = "100 %"', 'open = "0 %"'))
    facts, answer = facts_of(text), answer_of(text)
    assert set(facts.flows.values()) == {0.0}
    check = check_of(answer, "flow.pumps.lift.delivers")
    assert check.verdict is Verdict.FAILS
    assert check.advice == "opening valve set: shut in the plan"
    turnover = check_of(answer, "flow.tank.turnover")
    assert turnover.verdict is Verdict.UNPROVEN
    assert "valve set stands shut" in turnover.missing
    rows = [row for table in answer.tables for row in table.rows]
    assert not any(isinstance(cell, float) and 0.0 < abs(cell) < 1e-12 for row in rows for cell in row)


def test_shut_valves_beyond_a_junction_are_named_only_where_no_way_is_open() -> None:
    skerry = example("skerry")
    both = changed(
        skerry,
        ('basin = { kind = "ball" }', 'basin = { kind = "ball", open = "0 %" }'),
        ('tower = { kind = "gate", open = "22 %" }', 'tower = { kind = "gate", open = "0 %" }'),
    )
    one = changed(skerry, ('basin = { kind = "ball" }', 'basin = { kind = "ball", open = "0 %" }'))
    for text, valves in ((both, {"basin", "tower"}), (one, set())):
        facts, plan = facts_of(text), loaded(text).plan
        assert set(shut_beyond(plan, facts.lines, facts.line("main"))) == valves
        assert shut_towards(plan, facts.lines, "basin") == ("basin",)
    assert "valve basin stands shut" in check_of(answer_of(one), "flow.basin.turnover").missing


def test_no_pump_in_any_circuit_is_said() -> None:
    text = changed(SMALL, ('"pump lift", ', ""))
    check = check_of(answer_of(text), "flow.pumps.none")
    assert check.verdict is Verdict.UNPROVEN
    assert "nothing lifts the water" in check.missing
    assert "lift" in check.missing
    assert not any(one.id == "flow.pumps.none" for one in answer_of(SMALL).checks)


def test_what_settles_is_judged_by_the_speed_of_a_full_pipe_and_of_an_open_drains_film() -> None:
    """1 ft/s holds up what is organic, 2 ft/s sand. By continuity; the film by 4.4*(Q/D)^0.4 in gpm and inches."""
    facts, answer = facts_of(SMALL), answer_of(SMALL)
    flow = facts.flows["up"]
    full = check_of(answer, "flow.circuits.up.clean").estimate
    assert full is not None
    assert full.likely == pytest.approx(flow / (math.pi * 0.0814**2 / 4.0))
    film = check_of(answer, "flow.circuits.down.clean").estimate
    assert film is not None
    bore = facts.line("down").bore
    assert film.likely == pytest.approx(4.4 * (flow / 6.30902e-5 / (bore / 0.0254)) ** 0.4 * 0.3048, rel=1e-4)
    wide = changed(
        SMALL, ("pipe pvc-75-pn10 2.5 m", "pipe pvc-160-pn10 2.5 m"), ('open = "100 %"', 'open = "10 %"')
    )
    slow = check_of(answer_of(wide), "flow.circuits.up.clean")
    assert slow.verdict is Verdict.FAILS
    assert "narrower pipe" in slow.advice


@pytest.mark.parametrize(
    ("speed", "verdict", "sand"),
    [
        (0.29, Verdict.FAILS, True),
        (0.35, Verdict.NEAR, True),
        (0.45, Verdict.SOUND, True),
        (0.62, Verdict.SOUND, False),
    ],
)
def test_from_one_foot_a_second_on_it_holds_and_below_two_sand_is_told(
    speed: float, verdict: Verdict, sand: bool
) -> None:
    """A pump whose curve falls off a cliff sets the flow, and so the speed in the 67.8 mm pipe, whatever the head."""
    flow = speed * math.pi * 0.0678**2 / 4.0 * 3600.0
    text = changed(
        SMALL,
        (
            'curve = ["0 m3/h at 5 m", "8 m3/h at 4 m", "14 m3/h at 2 m", "18 m3/h at 0 m"]',
            f'curve = ["0 m3/h at 60 m", "{0.99 * flow:.5f} m3/h at 50 m", "{flow:.5f} m3/h at 0 m"]',
        ),
        ("pipe pvc-90-pn10 0.5 m", "pipe pvc-75-pn10 0.5 m"),
    )
    check = check_of(answer_of(text), "flow.circuits.up.clean")
    assert check.estimate is not None
    assert check.estimate.likely == pytest.approx(speed, rel=0.01)
    assert check.verdict is verdict
    assert any("sand" in caution for caution in check.cautions) == sand


@pytest.mark.parametrize("bore", [0.0266, 0.0409, 0.0452, 0.057, 0.0678, 0.0814, 0.1023, 0.1541])
def test_a_drain_can_be_quiet_and_clean_at_once(bore: float) -> None:
    """A quarter full its film runs faster than 2 ft/s, and with a tenth of that water still faster than 1 ft/s."""
    quiet = float(stack_capacity(bore, 0.25))
    assert stack_speed(quiet, bore) > 0.6096
    assert stack_speed(quiet / 10.0, bore) > 0.3048


def test_a_drain_open_to_the_air_is_judged_by_its_film_and_a_full_one_by_its_speed() -> None:
    ids = {check.id for check in answer_of(example("skerry")).checks}
    assert {
        "flow.circuits.standby.stack",
        "flow.circuits.outlet.stack",
        "flow.circuits.outlet.velocity",
    } <= ids
    assert "flow.circuits.siphon.velocity" in ids
    assert not ids & {"flow.circuits.standby.velocity", "flow.circuits.siphon.stack"}


def test_a_quiet_drain_fills_a_quarter_and_another_a_third() -> None:
    """27.8*r^(5/3)*D^(8/3) gal/min at 4.026 in: 113 at a quarter, 183 at a third."""
    loud = changed(SMALL, ('turnover = "1.0"', 'turnover = "1.0"\nquiet = false'))
    for text, gallons in ((SMALL, 113.0), (loud, 183.0)):
        limit = check_of(answer_of(text), "flow.circuits.down.stack").limit
        assert isinstance(limit, float)
        bore = facts_of(text).line("down").bore / 0.0254
        assert limit / 6.30902e-5 == pytest.approx(gallons * (bore / 4.026) ** (8.0 / 3.0), rel=0.01)


def test_an_undersized_drain_is_named_not_its_spare() -> None:
    narrow = (
        'route = ["pipe pvc-90-pn10 1.5 m", "elbow-90 x2"]',
        'route = ["pipe pvc-40-pn10 1.5 m", "elbow-90 x2"]',
    )
    check = check_of(answer_of(changed(example("skerry"), narrow)), "flow.weirbox.drains.siphon_blocked")
    assert check.what.startswith("freeboard")
    assert "standby alone, siphon blocked" in check.what
    assert check.advice.startswith("a wider standby")
    high = changed(example("skerry"), ('spare = { kind = "standpipe", level = "1.45 m" }',
                                       'spare = { kind = "standpipe", level = "1.485 m" }'))  # fmt: skip
    lip = check_of(answer_of(high), "flow.tower.drains.outlet_blocked")
    assert lip.verdict is Verdict.FAILS
    assert lip.advice == "a lower lip for spare: it stands at the brim or over it"


def test_where_no_water_comes_nothing_is_blamed_on_the_siphon() -> None:
    answer = answer_of(
        changed(example("skerry"), ('main = { kind = "gate" }', 'main = { kind = "gate", open = "0 %" }'))
    )
    for name in ("weirbox.siphon.stays_full", "weirbox.level", "basin.level"):
        check = check_of(answer, f"flow.{name}")
        assert check.verdict is Verdict.UNPROVEN
        assert "no water comes to it" in check.missing
    assert not any(check.id == "flow.weirbox.siphon.cover" for check in answer.checks)
    assert "opening valve main: shut in the plan" in answer.sentence
