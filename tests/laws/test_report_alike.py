"""Checks told once for several places: only where a reader could not tell them apart."""

from __future__ import annotations

import dataclasses
from typing import TypedDict, Unpack

import pytest

from tidestead.core.answer import Check, Estimate, Verdict
from tidestead.core.source import PRACTICE, STATICS, Source
from tidestead.report import wording
from tidestead.report.alike import collapsed


class Otherwise(TypedDict, total=False):
    """What one check may say otherwise than another."""

    what: str
    case: str
    limit: float
    source: Source
    advice: str
    missing: str
    estimate: Estimate
    near: float


def check(where: str, value: float = 1000.0, **more: Unpack[Otherwise]) -> Check:
    made = Check("s.x", "bending", where, "Pa", Estimate.exact(value), 2000.0, STATICS, case="in service")
    return dataclasses.replace(made, **more)


EAST, WEST, NORTH = (f"reef, {wall} wall, studs" for wall in ("east", "west", "north"))


def test_the_same_on_other_walls_is_told_once() -> None:
    rows = collapsed([check(EAST), check(WEST), check(NORTH)], "us")
    assert [(row.check.where, row.same) for row in rows] == [(EAST, "the same: west wall, north wall")]


def test_what_is_only_rounded_alike_is_told_once() -> None:
    assert len(collapsed([check(EAST), check(WEST, 1000.0 + 1e-9)], "us")) == 1


@pytest.mark.parametrize(
    "other",
    [
        check(WEST, 1100.0),
        check("vat, east wall, studs"),
        check("reef, west wall, rim"),
        check("reef, west wall"),
        check(WEST, case="filled to the brim"),
        check(WEST, what="shear"),
        check(WEST, limit=2200.0),
        check(WEST, source=PRACTICE),
        check(WEST, advice="something else"),
        check(WEST, missing="nothing is known"),
    ],
    ids=["value", "vessel", "two parts", "shorter", "case", "what", "limit", "source", "advice", "unproven"],
)
def test_what_differs_in_anything_else_has_its_own_row(other: Check) -> None:
    assert len(collapsed([check(EAST), other], "us")) == 2


def test_places_that_differ_in_different_parts_are_not_mixed() -> None:
    rows = collapsed([check(EAST), check(WEST), check("reef, east wall, jambs")], "us")
    assert [row.same for row in rows] == ["the same: west wall", ""]


def test_a_bare_noun_stands_with_its_place() -> None:
    assert wording.titled(check(EAST)) == "east wall, studs: bending"
    assert (
        wording.titled(check("reef, window long in the south wall, timber under it"))
        == "timber under it: bending"
    )
    assert wording.titled(check(EAST, what="push at the foot of the wall")) == "push at the foot of the wall"


def test_what_a_range_rests_on_is_said_where_it_matters() -> None:
    spread = Estimate(900.0, 1000.0, 1900.0, "creep from memory")
    assert wording.range_basis(check(EAST, estimate=spread)) == "range: creep from memory"
    assert wording.range_basis(check(EAST, estimate=dataclasses.replace(spread, high=1200.0))) == ""
    assert wording.range_basis(check(EAST, 1900.0)) == ""


def test_a_band_of_its_own_is_said() -> None:
    tight = check(EAST, 1800.0, near=0.05)
    assert tight.verdict is Verdict.SOUND
    assert wording.own_band(tight) == "near only below 5 % left"
    assert wording.own_band(check(EAST, 1800.0, near=0.0)).startswith("not called near")
    assert wording.own_band(check(EAST, 1800.0)) == wording.own_band(check(EAST, near=0.05)) == ""


def test_a_band_of_its_own_is_said_of_what_is_near_and_of_what_fails_too() -> None:
    near, fails = check(EAST, 1960.0, near=0.05), check(EAST, 2100.0, near=0.05)
    assert (near.verdict, fails.verdict) == (Verdict.NEAR, Verdict.FAILS)
    assert wording.own_band(near) == wording.own_band(fails) == "near only below 5 % left"
    early = check(EAST, 1400.0, near=0.5)
    assert early.verdict is Verdict.NEAR
    assert wording.own_band(early) == "near already below 50 % left"
    assert wording.own_band(check(EAST, 1960.0)) == wording.own_band(check(EAST, 2100.0)) == ""
