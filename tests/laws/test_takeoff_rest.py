"""Laws of the lists: areas and volumes go with the vessel, parts add up, any plan that can be read has a list."""

from __future__ import annotations

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.journeys.flow_plans import changed, example
from tests.journeys.takeoff_plans import NOTHING, likely, sums
from tests.laws.test_structure_spoilt import spoilt
from tests.many import many
from tidestead.build.takeoff.coats import CoatPlan, coat_plans, coats_told
from tidestead.build.takeoff.rest import rest_taken
from tidestead.core.errors import ImpossibleInput, PlanError
from tidestead.physics import lining as laws
from tidestead.plan import loads

SIZES = st.floats(0.05, 20.0)
SHARES = st.floats(0.06, 1.0)
FILMS = st.floats(2e-5, 5e-3)


@given(SIZES, SIZES, st.floats(0.0, 5.0), st.floats(0.0, 1.0))
def test_the_flat_sheet_is_the_welded_box_and_its_folds(
    long: float, wide: float, deep: float, over: float
) -> None:
    flat = laws.liner_side(long, deep, over) * laws.liner_side(wide, deep, over)
    welded = laws.welded_area(long * wide, 2.0 * (long + wide), deep, over)
    assert flat == pytest.approx(welded + laws.folded_area(deep, over))


@given(SIZES, FILMS, SHARES, SHARES)
def test_a_coat_builds_the_film_it_was_reckoned_for(
    area: float, film: float, solids: float, transfer: float
) -> None:
    volume = laws.coat_volume(area, film, solids, transfer)
    assert laws.film_built(volume, area, solids, transfer) == pytest.approx(film)
    assert volume * laws.spreading_rate(solids, film, transfer) == pytest.approx(area)
    assert laws.dry_film(laws.wet_for_dry(film, solids), solids, 1) == pytest.approx(film)
    assert laws.rate_film(laws.spreading_rate(solids, film, 1.0), solids) == pytest.approx(film)


@given(SIZES, st.floats(0.0, 1.0), st.floats(0.01, 1.0))
def test_heavier_cloth_takes_more_epoxy(area: float, cloth: float, more: float) -> None:
    assert laws.cloth_epoxy(area, cloth + more) > laws.cloth_epoxy(area, cloth) > 0.0


@pytest.mark.parametrize("share", [0.0, -0.1, 1.1, float("nan")])
def test_impossible_solids_are_refused(share: float) -> None:
    with pytest.raises(ImpossibleInput):
        laws.coat_volume(1.0, 1e-3, share, 0.9)
    with pytest.raises(ImpossibleInput):
        laws.spreading_rate(0.5, 1e-3, share)


@settings(max_examples=many(100, 20), deadline=None)
@given(st.lists(st.floats(0.1, 12.0), min_size=1, max_size=8))
def test_film_never_falls_as_coats_are_laid(litres: list[float]) -> None:
    laid = ", ".join(f'"{one:.3f} L"' for one in litres)
    key = '[vessels.basin.lining]\nkind = "coating"'
    found = coats_told(loads(changed(example("skerry"), (key, f"{key}\nlaid = [{laid}]"))).plan)[0]
    built = [one.built.likely for one in found.laid]
    assert built == sorted(built)
    assert built[-1] == pytest.approx(sum(one.left.likely for one in found.laid))
    assert found.built.likely + found.owed.likely >= found.plan.required * (1.0 - 1e-9)
    assert found.owed.low <= found.owed.likely <= found.owed.high


@pytest.mark.parametrize("tenths", [3, 40])
def test_a_longer_pipe_is_longer_by_what_was_added(tenths: int) -> None:
    before = sums(rest_taken(loads(example("skerry")).plan, NOTHING), "pipe")["pvc-63-pn10"]
    text = changed(
        example("skerry"), ("pipe pvc-63-pn10 2.4 m", f"pipe pvc-63-pn10 {2.4 + tenths / 10.0:.1f} m")
    )
    after = sums(rest_taken(loads(text).plan, NOTHING), "pipe")["pvc-63-pn10"]
    assert after - before == pytest.approx(tenths / 10.0)


def test_a_taller_wall_takes_more_coating_up_to_where_it_ends() -> None:
    """The coating ends 110 mm over the water: walls above that take nothing."""
    plans = [
        next(
            one
            for one in coat_plans(loads(changed(example("skerry"), *swap)).plan)
            if isinstance(one, CoatPlan)
        )
        for swap in ((), (('height = "1.30 m"', 'height = "1.60 m"'),))
    ]
    assert plans[0].area == pytest.approx(plans[1].area)


@settings(max_examples=many(400, 25), deadline=None, suppress_health_check=list(HealthCheck))
@given(spoilt())
def test_a_spoilt_plan_is_listed_all_the_same(text: str) -> None:
    try:
        plan = loads(text).plan
    except PlanError:
        return
    taken = rest_taken(plan, NOTHING)
    for line in taken.lines:
        assert line.amount is not None
        assert line.amount.finite
        assert likely(line) >= 0.0
    assert all(piece.length > 0.0 and piece.count > 0 for piece in taken.pieces)
    assert all(key and words.endswith(".") for key, words in taken.missing)
    for told in coats_told(plan):
        assert told.owed.finite
