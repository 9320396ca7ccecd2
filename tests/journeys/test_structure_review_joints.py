"""Fasteners in rows, how deep they reach, whether they come out: what a hostile reader found, and what catches it."""

from __future__ import annotations

import re

import pytest

from tests.journeys.structure_plans import PLAIN, TANK, TOWER, asked, changed, checks, limit, use, worked
from tidestead.core.answer import Verdict

CORNER = 'joint = { fastener = "screw-lag-1/2x6", count = 6'
LAGS = "tank.corners.joint.force"
RING = "tower.rings.joint.force"
JOINT = re.compile(r'(spacing = "400 mm"\ncorners = "pinned"\njoint = \{)[^}]*(\})')
WIDE = changed(
    TOWER,
    ('section = "45 x 95 mm"\ngrade = "C24"\nspacing', 'section = "80 x 95 mm"\ngrade = "C24"\nspacing'),
)
"""Laps of 40 on 40 mm, which hold a screw of 5 mm 8 diameters deep."""


def ringed(joint: str, text: str = WIDE) -> str:
    found, count = JOINT.subn(rf"\1 {joint}, into = 'side' \2", text)
    assert count == 1
    return found


# ---- rows along the pull ---------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "counted"),
    [
        ("count = 4, rows = 4", 4.0),
        ("count = 4, row_spacing = '70 mm'", 4.0),
        ("count = 4, row_spacing = '50 mm'", 4.0**0.85),
        ("count = 4, row_spacing = '35 mm'", 4.0**0.7),
        ("count = 4", 4.0**0.7),
        ("count = 4, rows = 2, row_spacing = '35 mm'", 2.0 * 2.0**0.7),
    ],
)
def test_screws_in_a_row_count_as_eurocode_5_counts_them(said: str, counted: float) -> None:
    """Table 8.1: n**k, k 0.7 at 7 d, 0.85 at 10 d, 1 at 14 d."""
    each = worked(ringed("fastener = 'screw-5x80', count = 1"), RING, "R")
    text = ringed(f"fastener = 'screw-5x80', {said}")
    assert checks(text)[RING].limit == pytest.approx(counted * each)


def test_bolts_in_a_row_count_as_eurocode_5_counts_them() -> None:
    """Equation 8.34: n**0.9 (a1/13d)**0.25, at the least of 5 d where nobody says."""
    each = worked(ringed("fastener = 'bolt-m10', count = 1"), RING, "R")
    for said, ratio in (("", 5.0 / 13.0), (", row_spacing = '90 mm'", 9.0 / 13.0)):
        text = ringed(f"fastener = 'bolt-m10', count = 3{said}")
        assert checks(text)[RING].limit == pytest.approx(3.0**0.9 * ratio**0.25 * each)
    far = ringed("fastener = 'bolt-m10', count = 3, row_spacing = '300 mm'")
    assert checks(far)[RING].limit == pytest.approx(3.0 * each)


@pytest.mark.parametrize(
    "said", ["'screw-5x80', count = 4, row_spacing = '30 mm'", "'bolt-m10', count = 3, row_spacing = '40 mm'"]
)
def test_rows_closer_than_counts_hold_nothing(said: str) -> None:
    check = checks(ringed(f"fastener = {said}"))[RING]
    assert check.verdict is Verdict.FAILS
    assert any("closer" in word for word in check.cautions)
    assert "rows" in check.advice


def test_lag_screws_in_a_row_share_unequally() -> None:
    """Equation 11.3-1 with both rims' planks, worked here by itself for six lags 4 in and 2 in apart."""
    one, six = changed(TANK, (CORNER, CORNER.replace("6,", "1,").replace("count = 6", "count = 1"))), TANK
    each = worked(one, LAGS, "R")
    assert limit(six, LAGS) < 0.999 * 6.0 * each
    assert use(changed(TANK, (CORNER, f"{CORNER}, rows = 6")), LAGS) == pytest.approx(use(one, LAGS) / 6.0)
    pound, plank = 1.4e6, 1.5 * 5.5
    for apart, said in ((4.0, ""), (2.0, ', row_spacing = "2 in"')):
        stretch = [pound * plank, pound * (3.0 * 3.0)]
        u = 1.0 + 180_000.0 * 0.5**1.5 * apart / 2.0 * sum(1.0 / ea for ea in stretch)
        m, r = u - (u * u - 1.0) ** 0.5, min(stretch) / max(stretch)
        n = 6
        share = (
            m * (1 - m ** (2 * n)) / (n * ((1 + r * m**n) * (1 + m) - 1 + m ** (2 * n))) * (1 + r) / (1 - m)
        )
        text = changed(TANK, (CORNER, CORNER + said))
        assert checks(text)[LAGS].limit == pytest.approx(6.0 * each * share, rel=1e-6)


def test_rows_nobody_describes_are_an_assumption() -> None:
    keys = {one.key for one in asked(PLAIN).assumptions}
    assert {"vessels.vat.ties.middle.end_joint.row_spacing", "vessels.vat.corners.joint.row_spacing"} <= keys
    said = changed(PLAIN, ('kind = "pinned"\njoint = {', 'kind = "pinned"\njoint = { row_spacing = "3 in",'))
    assert "vessels.vat.corners.joint.row_spacing" not in {one.key for one in asked(said).assumptions}


# ---- depth -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("fastener", "behind", "holds"),
    [
        ("screw-5x80", "23 mm", True),
        ("screw-5x80", "22 mm", False),
        ("nail-4x100", "33 mm", True),
        ("nail-4x100", "31 mm", False),
    ],
)
def test_point_must_reach_as_deep_as_eurocode_5_asks(fastener: str, behind: str, holds: bool) -> None:
    """8.3.1.2: eight diameters of a smooth nail, six of a screw, 1.1 times its root of 3.4 mm each."""
    check = checks(ringed(f"fastener = '{fastener}', count = 4, behind = '{behind}'"))[RING]
    refused = any("deep enough" in word for word in check.cautions)
    assert refused is not holds
    if not holds:
        assert check.verdict is Verdict.FAILS


def test_fastener_longer_than_both_timbers_is_told_to_come_out() -> None:
    thin = checks(ringed("fastener = 'screw-5x80', count = 4, behind = '34 mm'"))[RING]
    assert any("comes out" in word for word in thin.cautions)
    deep = checks(ringed("fastener = 'screw-5x80', count = 4, behind = '41 mm'"))[RING]
    assert not any("comes out" in word for word in deep.cautions)
    bolt = checks(ringed("fastener = 'bolt-m10', count = 4"))[RING]
    assert not any("comes out" in word for word in bolt.cautions)
