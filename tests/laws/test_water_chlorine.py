"""Chlorine of new water: sums by hand, what carbon and thiosulfate take, and that what is advised passes."""

from __future__ import annotations

import re

import pytest

from tests.laws.salt_systems import asked, checks, setting
from tidestead.core.answer import Check, Verdict
from tidestead.core.errors import PlanError

STRONG = 'chlorine = "1 mg/L"'
PLAIN = 'chlorine = "0.1 mg/L"'


def change_of(*lines: str) -> Check:
    """The check of a tenth of 20 m3 with so much in its source."""
    return checks(asked((PLAIN, "\n".join((STRONG, *lines)))), setting())["water.chlorine.change"]


def level(check: Check) -> float:
    assert check.estimate is not None
    return check.estimate.high


def test_carbon_takes_its_share() -> None:
    assert level(change_of()) == pytest.approx(100.0)
    assert level(change_of('carbon = "75 %"')) == pytest.approx(25.0)
    assert level(change_of('carbon = "100 %"')) == 0.0
    assert level(change_of('carbon = "0 %"')) == pytest.approx(100.0)


def test_thiosulfate_takes_one_for_seven_of_what_carbon_has_passed() -> None:
    """2 mol of 248.17 g for each of 70.90 g, whatever else may run: 3.5 mg/L take half of 1 mg/L."""
    each = 2.0 * 248.17 / 70.90
    assert level(change_of(f'thiosulfate = "{0.5 * each:.6f} mg/L"')) == pytest.approx(50.0, rel=1e-5)
    both = change_of('carbon = "75 %"', f'thiosulfate = "{0.1 * each:.6f} mg/L"')
    assert level(both) == pytest.approx(15.0, rel=1e-5)
    assert level(change_of('thiosulfate = "7.1 mg/L"')) == 0.0


def test_carbon_and_thiosulfate_that_are_advised_pass_and_a_tenth_less_does_not() -> None:
    advice = change_of().advice
    share, crystals = re.search(r"takes (\d+) %", advice), re.search(r"([\d.]+) mg/L of sodium", advice)
    assert share is not None
    assert crystals is not None
    assert change_of(f'carbon = "{share[1]} %"').verdict is not Verdict.FAILS
    assert change_of(f'carbon = "{int(share[1]) - 1} %"').verdict is Verdict.FAILS
    assert level(change_of(f'thiosulfate = "{crystals[1]} mg/L"')) == 0.0
    assert change_of(f'thiosulfate = "{0.9 * float(crystals[1]):.2f} mg/L"').verdict is Verdict.FAILS
    assert "15 g for one change" in advice, "7.0 g for a gram, 2 m3 with 1 g in each, rounded up"


def test_ammonia_that_chloramine_leaves_is_told() -> None:
    """14.007/70.90 of 1 g/m3 in 2 m3: 0.40 g."""
    assert any("0.4 g of ammonia nitrogen" in words for words in change_of().cautions)
    assert all("ammonia" not in words for words in checks(asked((PLAIN, 'chlorine = "0 mg/L"')), setting())[
        "water.chlorine.change"].cautions)  # fmt: skip


@pytest.mark.parametrize(
    ("line", "where"),
    [
        ('carbon = "120 %"', "sources.membrane.carbon"),
        ("carbon = true", "sources.membrane.carbon"),
        ('thiosulfate = "-1 mg/L"', "sources.membrane.thiosulfate"),
        ('thiosulfate = "7"', "sources.membrane.thiosulfate"),
        ('thiosulfate = "5 kg/m3"', "sources.membrane.thiosulfate"),
    ],
)
def test_what_cannot_be_is_refused_where_it_stands(line: str, where: str) -> None:
    with pytest.raises(PlanError) as refused:
        change_of(line)
    (fault,) = refused.value.faults
    assert fault.where == where
    assert fault.line is not None
    assert fault.allowed or fault.advice
