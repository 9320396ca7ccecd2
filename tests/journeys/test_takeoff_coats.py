"""While a vessel is coated: what was used, the film it has built, what is owed, and what the label says of it."""

from __future__ import annotations

import pytest

from tests.journeys.flow_plans import changed, example
from tests.published.case import INCH
from tidestead.build.takeoff.coats import CoatsTold, coats_table, coats_told, film_check, rate_words
from tidestead.build.takeoff.coats_planned import planned_table
from tidestead.core.answer import Verdict
from tidestead.plan import loads

MIL = INCH / 1000.0
AREA = 4.0 * 2.2 + 12.4 * 1.29 - 2.3 * 1.04 - 1.11 * 0.81
_LINING = '[vessels.basin.lining]\nkind = "coating"\nproduct = "liquid-rubber"\ncoats = 5'


def told(more: str, lining: str = _LINING) -> CoatsTold:
    """The basin of skerry with more said of its lining."""
    plan = loads(changed(example("skerry"), (_LINING, f"{lining}\n{more}"))).plan
    return next(one for one in coats_told(plan) if one.plan.inside.key == "basin")


def test_nothing_laid_owes_all_of_it() -> None:
    found = told("")
    assert found.laid == ()
    assert film_check(found) is None
    assert found.owed.likely == pytest.approx(30.0 * MIL)
    assert found.coats == 5
    assert found.volume.likely == pytest.approx(AREA * 30.0 * MIL / 0.60 / 0.90)
    assert found.rate is None


def test_two_coats_of_six_litres() -> None:
    """12 L, nine tenths of it on the wall, 60 % of that stays: 12 * 0.54 / 21.6 m2 = 0.300 mm."""
    found = told('laid = ["6.0 L", "6.0 L"]')
    first, second = found.laid
    each = 6.0e-3 * 0.60 * 0.90 / AREA
    assert first.left.likely == pytest.approx(each)
    assert second.built.likely == pytest.approx(2.0 * each)
    assert second.built.low == pytest.approx(2.0 * each * 0.85 / 0.90)
    assert found.owed.likely == pytest.approx(30.0 * MIL - 2.0 * each)
    assert found.final.likely == pytest.approx(2.0 * each + 18.0 * MIL)
    assert found.coats == 4, "by the least that arrives, three coats of 6 mil are not enough"
    table = coats_table(found, "metric")
    assert [row[0] for row in table.rows] == [1.0, 2.0]
    assert table.rows[1][4] == pytest.approx(2.0 * each)


def test_thin_coats_fail_before_they_are_all_laid() -> None:
    thin, full = (film_check(told(f'laid = ["{one} L", "{one} L"]')) for one in ("3.0", "7.5"))
    assert thin is not None
    assert full is not None
    assert thin.verdict is Verdict.FAILS
    assert full.verdict in (Verdict.NEAR, Verdict.SOUND)
    assert thin.id == "cost.basin.lining.built"
    assert "3 more" in thin.what
    done = film_check(told('laid = ["7.5 L", "7.5 L", "7.5 L", "7.5 L", "7.5 L"]'))
    assert done is not None
    assert done.what == "lining film built"
    assert done.verdict is Verdict.SOUND


def test_more_coats_than_planned_are_told() -> None:
    found = told('laid = ["6 L", "6 L", "6 L", "6 L", "6 L", "6 L"]')
    assert found.more == 1
    assert "more than planned" in str(coats_table(found, "us").rows[5][-1])
    assert not any("more" in str(row[-1]) for row in coats_table(found, "us").rows[:5])


def test_a_coat_that_went_on_too_wet_is_told() -> None:
    """10 mil wet over the area at most: 21.6 m2 * 0.254 mm = 5.5 L on the wall, 6.1 L of the can."""
    wet, right = (told(f'laid = ["{one} L"]').laid[0].too_wet for one in ("7", "6"))
    assert (wet, right) == (True, False)


@pytest.mark.parametrize(
    ("label", "agrees", "too_thin", "words"),
    [
        ("100 ft2/US gal", False, False, "the label's rate lays more than that"),
        ("160 ft2/US gal", True, False, "they agree"),
        ("250 ft2/US gal", False, True, "Spread each coat no further than 160 ft²/US gal of what arrives"),
    ],
)
def test_film_governs_over_the_label(label: str, agrees: bool, too_thin: bool, words: str) -> None:
    """6 mil dry at 60 % are 10 mil wet: 1604.17/10 = 160 ft2 to the gallon."""
    found = told(f'label_rate = "{label}"')
    assert found.rate is not None
    assert (found.rate.agrees, found.rate.too_thin) == (agrees, too_thin)
    assert words in rate_words(found, "us")
    assert "136 ft²/US gal of what is used" in rate_words(
        found, "us"
    )  # 0.85 of 160.4: the rest stays in tools
    foot2_gal = 0.3048**2 / (231.0 * INCH**3)
    assert found.rate.wanted / foot2_gal == pytest.approx(160.417, abs=5e-4)


def test_three_coats_as_the_rubbers_maker_prints_them() -> None:
    """Liquid rubber maker's instructions for underwater use, read: three coats of 10 mil wet at 60 % are 18 mil dry.
    Nine tenths of what the cans held arrive, so that 10 mil wet on all of the basin take that much more.
    """
    litres = 1e3 * AREA * 10.0 * MIL / 0.90
    found = told(f'laid = ["{litres:.6f} L", "{litres:.6f} L", "{litres:.6f} L"]')
    assert found.built.likely / MIL == pytest.approx(18.0, rel=1e-6)
    assert [one.left.likely / MIL for one in found.laid] == pytest.approx([6.0] * 3, rel=1e-6)
    assert not any(one.too_wet for one in found.laid)
    assert found.owed.likely / MIL == pytest.approx(30.0 - 18.0, rel=1e-5)


def test_the_rate_of_a_paint_column_in_a_plan() -> None:
    """Coating maker's general information, read: 1000 x 65 % over 125 um are 5.2 m2 for each litre."""
    epoxy = _LINING.replace("liquid-rubber", "epoxy").replace("coats = 5", "coats = 1")
    found = told('solids = "65 %"\ndry_film = "125 um"\nlabel_rate = "5.2 m2/L"', epoxy)
    assert found.rate is not None
    assert found.rate.wanted / 1e3 == pytest.approx(5.2, rel=1e-9)
    assert found.rate.agrees
    thin = told('solids = "65 %"\ndry_film = "125 um"\nlabel_rate = "7 m2/L"', epoxy)
    assert thin.rate is not None
    assert thin.rate.too_thin
    assert thin.rate.by_label == pytest.approx(125e-6 * 5.2 / 7.0)


def test_each_coat_is_told_with_its_cans() -> None:
    """A coat of 10 mil wet on the basin takes 6.07 L: 0.30 of a can of 20 L, 1.21 of one of 5 L."""
    table = planned_table(told("").plan, (0.005, 0.020), "metric")
    net = AREA * 10.0 * MIL
    assert [row[0] for row in table.rows] == [1.0, 2.0, 3.0, 4.0, 5.0]
    for row in table.rows:
        assert row[1:7] == pytest.approx((AREA, 10.0 * MIL, 6.0 * MIL, net, net / 0.90, net / 0.85))
        assert row[7] == "0.30 of 20 L or 1.21 of 5 L"


def test_the_least_of_the_products_sheet_is_required_all_the_same() -> None:
    """Three coats of 6 mil are 18, and its sheet asks for 20."""
    found = told("", _LINING.replace("coats = 5", "coats = 3"))
    assert found.plan.film == pytest.approx(18.0 * MIL)
    assert found.plan.required == pytest.approx(20.0 * MIL)


def test_own_solids_win() -> None:
    assert told('solids = "50 %"').plan.net == pytest.approx(AREA * 6.0 * MIL / 0.50)
