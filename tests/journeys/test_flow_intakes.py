"""What pumps draw from: a pump over the water, no vessel that is the sump, a vessel that would run empty."""

from __future__ import annotations

import pytest

from tests.journeys.flow_plans import SMALL, answer_of, changed, check_of, facts_of
from tidestead.core.answer import Verdict

LEVEL = 'needs_head = "2 m"'
NO_SUMP = ('[vessels.sump]\nrole = "sump"', '[vessels.sump]\nrole = "vat"')


@pytest.mark.parametrize(
    ("level", "over", "verdict"),
    [("0.10 m", 0.30, Verdict.SOUND), ("0.39 m", 0.01, Verdict.SOUND), ("0.85 m", -0.45, Verdict.FAILS)],
)
def test_a_plain_pump_stands_under_the_water_it_draws_from(level: str, over: float, verdict: Verdict) -> None:
    """The sump stands 0.40 m deep on the datum. That a pump over it stands dry: common practice, no source."""
    check = check_of(
        answer_of(changed(SMALL, (LEVEL, f'{LEVEL}\nlevel = "{level}"'))), "flow.pumps.lift.primed"
    )
    assert check.estimate is not None
    assert check.estimate.likely == pytest.approx(over, abs=1e-9)
    assert check.verdict is verdict
    assert "does not prime itself" in check.advice


def test_without_a_sump_the_vessel_that_the_pump_draws_from_keeps_its_level() -> None:
    plain, other = facts_of(SMALL), facts_of(changed(SMALL, NO_SUMP))
    assert other.fixed == plain.fixed == {"sump": pytest.approx(0.40)}
    assert other.flows == plain.flows


def test_two_vessels_that_pumps_draw_from_ask_for_the_sump() -> None:
    second = (
        '[pumps.back]\ncurve = ["0 m3/h at 3 m", "4 m3/h at 0 m"]\n\n[circuits.second]\nstart = "tank.low"\n'
        'route = ["pipe pvc-50-pn10 2 m", "pump back"]\nend = "sump.more"\n\n[targets]'
    )
    text = changed(
        SMALL,
        NO_SUMP,
        ("ports.jet =", 'ports.low = { kind = "inlet", level = "0.10 m" }\nports.jet ='),
        ("ports.fall =", 'ports.more = { kind = "spill", level = "0.60 m" }\nports.fall ='),
        ("[targets]", second),
    )
    (why,) = facts_of(text).missing
    assert why == (
        "pumps draw from sump and tank and no vessel is the sump: say which one the water comes back to by itself, "
        'vessels.sump.role = "sump"'
    )
    assert answer_of(text).checks[0].verdict is Verdict.UNPROVEN


def test_a_vessel_that_pumps_would_empty_has_no_level() -> None:
    """A pump out of the tank that moves more than comes in: no level below the floor is ever told."""
    strong = (
        '[pumps.back]\ncurve = ["0 m3/h at 6 m", "30 m3/h at 0 m"]\n\n[circuits.second]\nstart = "tank.low"\n'
        'route = ["pipe pvc-90-pn10 1 m", "pump back"]\nend = "sump.more"\n\n[targets]'
    )
    text = changed(
        SMALL,
        ("ports.jet =", 'ports.low = { kind = "inlet", level = "0.10 m" }\nports.jet ='),
        ("ports.fall =", 'ports.more = { kind = "spill", level = "0.60 m" }\nports.fall ='),
        ("[targets]", strong),
    )
    (why,) = facts_of(text).missing
    assert why.startswith("tank runs empty: more is drawn from it than comes in")
