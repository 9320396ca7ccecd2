"""What a hostile reader found in loads, sheets, lumber and ground, each with the plan that would have shown it."""

from __future__ import annotations

import pytest

from tests.journeys.structure_plans import PLAIN, asked, changed, checks, missing, only_vessel, use, value
from tidestead.core.answer import Verdict
from tidestead.studies.structure.timber import FALLBACK_WOOD_C

ROLLING = "vat.south.sheathing.rolling"
STUDS = 'section = "2x4"\ngrade = "dfl-no2"\nspacing = "12 in"'


def warm(text: str, degrees: str) -> str:
    return changed(text, ('warmest_wood = "85 degF"', f'warmest_wood = "{degrees} degF"'))


# ---- heat ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("degrees", "factor"), [("100", 1.0), ("120", 0.7), ("149", 0.5)])
def test_warm_plywood_bears_less(degrees: str, factor: float) -> None:
    """Damp sheet: C_t of NDS Table 2.3.3, wet row."""
    assert use(warm(PLAIN, degrees), ROLLING) == pytest.approx(use(PLAIN, ROLLING) / factor)


def test_wood_of_unsaid_warmth_is_taken_at_the_last_degree_that_costs_nothing() -> None:
    """100 F by NDS Table 2.3.3; half a degree more costs a fifth of the strength."""
    silent = changed(PLAIN, ('warmest_wood = "85 degF"\n', ""))
    assert pytest.approx((100.0 - 32.0) / 1.8, abs=1e-9) == FALLBACK_WOOD_C
    for ident in ("vat.south.studs.bending", "vat.south.studs.foot.force", ROLLING):
        assert use(silent, ident) == pytest.approx(use(PLAIN, ident)), ident
        assert use(warm(PLAIN, "100.4"), ident) > 1.2 * use(PLAIN, ident), ident


# ---- sheets and grades -----------------------------------------------------------------------------


@pytest.mark.parametrize("wood", ["dry", "humid", "wet"])
def test_strand_board_has_no_place_behind_a_lining_however_dry(wood: str) -> None:
    board = changed(PLAIN, ('"plywood-23/32"', '"osb-23/32"'), ('wood = "humid"', f'wood = "{wood}"'))
    assert "behind a lining" in missing(board, "vat.south.sheathing.bending")


def test_grade_printed_for_narrow_planks_proves_no_wide_one() -> None:
    def studded(section: str, grade: str) -> str:
        return changed(PLAIN, (STUDS, f'section = "{section}"\ngrade = "{grade}"\nspacing = "12 in"'))

    assert "2x4" in missing(studded("2x6", "sp-no2-2x4"), "vat.timber.rules")
    for fits in (studded("2x4", "sp-no2-2x4"), studded("2x6", "sp-no2-2x6"), studded("2x4", "sp-no2-2x6")):
        assert checks(fits)["vat.south.studs.bending"].verdict is Verdict.SOUND


def test_timbers_have_values_of_their_own() -> None:
    heavy = changed(PLAIN, (STUDS, 'section = "6x6"\ngrade = "dfl-no2"\nspacing = "12 in"'))
    assert "timbers" in missing(heavy, "vat.timber.rules")
    four = changed(PLAIN, (STUDS, 'section = "4x4"\ngrade = "dfl-no2"\nspacing = "12 in"'))
    assert checks(four)["vat.south.studs.bending"].verdict is Verdict.SOUND


# ---- how long the test fill stands -----------------------------------------------------------------


@pytest.mark.parametrize(
    ("lasts", "duration"),
    [
        ("1 days", "days"),
        ("7 days", "days"),
        ("8 days", "weeks"),
        ("60 days", "weeks"),
        ("61 days", "permanent"),
    ],
)
def test_test_fill_is_a_load_of_the_class_it_lasts_for(lasts: str, duration: str) -> None:
    text = changed(PLAIN, ('lasts = "7 days"', f'lasts = "{lasts}"'))
    (case,) = [one.case for one in only_vessel(text).cases if one.case.name == "test"]
    assert case.duration == duration


def test_long_test_fill_uses_more_of_the_wood() -> None:
    """C_D 1.25 for seven days, 0.9 for good. Fuller than the brim case, so that the test governs."""
    short = changed(PLAIN, ('brim = "2 ft 3 in"\n', ""), ('level = "2 ft 3 in"', 'level = "2 ft 6 in"'))
    long = changed(short, ('lasts = "7 days"', 'lasts = "90 days"'))
    assert use(long, "vat.south.studs.bending") > 1.2 * use(short, "vat.south.studs.bending")


def test_unsaid_length_of_a_test_fill_is_an_assumption() -> None:
    silent = changed(PLAIN, (', lasts = "7 days"', ""))
    assert "vessels.vat.test.lasts" in {one.key for one in asked(silent).assumptions}
    assert "vessels.vat.test.lasts" not in {one.key for one in asked(PLAIN).assumptions}


# ---- shaking ---------------------------------------------------------------------------------------


def shaken(share: str, text: str = PLAIN) -> str:
    quake = f'[site.earthquake]\nhorizontal = "{share} g"\nsource = "local code"\n\n[building]'
    return changed(text, ("[building]", quake))


def test_small_slosh_stays_under_the_brim_and_a_large_one_does_not() -> None:
    """Rise L/2 a/g of ACI 350.3: 6 ft and 0.02 g give 0.72 in where 3 in are free; at 0.1 g 3.6 in."""
    ident, small, large = "vat.slosh.length.rise", shaken("0.02"), shaken("0.1")
    rise = checks(small)[ident]
    assert rise.verdict is Verdict.SOUND
    assert value(small, ident).likely == pytest.approx(0.72 * 0.0254)
    assert rise.limit == pytest.approx(3.0 * 0.0254)
    assert checks(large)[ident].verdict is Verdict.FAILS


# ---- what the walls' edge presses on ---------------------------------------------------------------


def test_edge_of_a_slab_of_unsaid_thickness_is_not_passed_over() -> None:
    silent = changed(PLAIN, ('slab_thickness = "6 in", ', ""))
    assert "slab_thickness" in missing(silent, "vat.stands_on.edge")
    bare = changed(PLAIN, ('kind = "slab", slab_thickness = "6 in"', 'kind = "ground"'))
    assert use(bare, "vat.stands_on.edge") > use(PLAIN, "vat.stands_on.edge")


def test_edge_goes_by_the_thinnest_wall_wherever_the_studs_are_said() -> None:
    wide = changed(PLAIN, (STUDS, STUDS.replace("2x4", "2x6")))
    own = wide + '\n[vessels.vat.walls.west.studs]\nsection = "2x4"\n'
    apart = changed(PLAIN, ("[vessels.vat.walls.all.studs]", "[vessels.vat.walls.north.studs]"))
    assert use(wide, "vat.stands_on.edge") < use(PLAIN, "vat.stands_on.edge")
    assert use(own, "vat.stands_on.edge") == pytest.approx(use(PLAIN, "vat.stands_on.edge"))
    assert use(apart, "vat.stands_on.edge") == pytest.approx(use(PLAIN, "vat.stands_on.edge"))
