"""Words and numbers of renderers: a rounded figure never tells another story than the verdict."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.laws.report_samples import ANSWER, BOOK, CHECKS
from tidestead.core.answer import Check, Estimate, Verdict
from tidestead.core.source import STATICS
from tidestead.core.units import System
from tidestead.report import plain, wording
from tidestead.report.glyph import WIDTH, glyph


def test_an_end_that_was_followed_no_further_is_over_it() -> None:
    """Hours to harm: a day at worst, likely and at best not within the five days that were followed."""
    hours = Estimate(86400.0, 432000.0, 432000.0, "", 432000.0)
    check = replace(CHECKS[0], unit="s", estimate=hours, limit=3600.0, must_be="above")
    assert wording.now(check, "metric") == "over 120 h"
    assert wording.adverse(check, "metric") == "down to 24 h"
    assert wording.likely(hours, "s", "metric") == "over 120 h"
    assert wording.spread(hours, "s", "metric") == "24 h to over 120 h"
    reached = replace(hours, likely=172800.0)
    assert wording.likely(reached, "s", "metric") == "48 h"
    assert wording.spread(reached, "s", "metric") == "24 h to over 120 h"
    assert wording.spread(replace(hours, low=432000.0), "s", "metric") == ""


@given(st.floats(0.0, 9.9))
def test_percent_stays_on_its_side_of_what_judges_it(share: float) -> None:
    printed = float(wording.percent(share).removesuffix(" %"))
    for bound in (80.0, 100.0):
        if abs(share * 100.0 - bound) > 1e-3:
            assert (printed > bound) == (share * 100.0 > bound)
            assert printed != bound


@pytest.mark.parametrize(
    ("share", "printed"),
    [
        (0.5, "50 %"),
        (1.0004, "100.04 %"),
        (0.999, "99.9 %"),
        (2.667, "267 %"),
        (-1.667, "-167 %"),
        (0.8, "80 %"),
    ],
)
def test_percent_as_written(share: float, printed: str) -> None:
    assert wording.percent(share) == printed
    assert wording.percent(np.float64(share)) == printed


@pytest.mark.parametrize(
    ("share", "printed"), [(math.inf, ">999 %"), (55.0, ">999 %"), (-math.inf, "<-999 %")]
)
def test_percent_past_all_sense(share: float, printed: str) -> None:
    assert wording.percent(share) == printed


def test_worst_stands_first_and_use_decides_among_equals() -> None:
    verdicts = [check.verdict for check in wording.ordered(CHECKS)]
    assert verdicts == [
        Verdict.FAILS,
        Verdict.UNPROVEN,
        Verdict.NEAR,
        Verdict.SOUND,
        Verdict.SOUND,
        Verdict.SOUND,
    ]
    sound = [check.use for check in wording.ordered(CHECKS) if check.verdict is Verdict.SOUND]
    assert sound == sorted(sound, key=lambda use: -(use or 0.0))
    assert sorted(wording.ordered(CHECKS), key=id) == sorted(CHECKS, key=id)


@given(st.floats(allow_nan=True, allow_infinity=True), st.floats(allow_nan=True, allow_infinity=True))
def test_every_check_has_words_for_now_allowed_and_reason(value: float, limit: float) -> None:
    check = Check("a.b", "what", "where", "m", Estimate.exact(value), limit, BOOK)
    assert wording.now(check, "metric")
    assert wording.allowed(check, "us")
    assert bool(wording.reason(check)) == (check.verdict is Verdict.UNPROVEN)


def test_adverse_end_is_named_with_its_side() -> None:
    by_what = {check.what: check for check in CHECKS}
    assert wording.adverse(by_what["bow of window after ten years"], "metric").startswith("up to ")
    assert wording.adverse(by_what["seat that holds the window"], "metric").startswith("down to ")
    assert wording.adverse(by_what["bending of studs"], "metric") == ""
    assert wording.allowed(by_what["seat that holds the window"], "metric").startswith("at least ")
    assert " to " in wording.allowed(by_what["moisture of wood"], "metric")


def test_tally_counts_every_check() -> None:
    assert wording.tally(CHECKS) == "6 checks: 1 fails, 1 unproven, 1 near, 3 sound"
    assert wording.tally(()) == "no checks"
    governing = wording.governing(ANSWER)
    assert governing is not None
    assert governing.verdict is ANSWER.verdict


def test_citations_number_each_source_once() -> None:
    citations = wording.Citations()
    assert [citations.mark(source) for source in (BOOK, STATICS, BOOK)] == ["[1]", "[2]", "[1]"]
    assert list(citations) == [("[1]", BOOK), ("[2]", STATICS)]


@given(st.sampled_from(list(Verdict)), st.one_of(st.none(), st.floats(0.0, 5.0)), st.booleans())
def test_sign_in_text_keeps_its_width_and_alphabet(
    verdict: Verdict, use: float | None, ascii_only: bool
) -> None:
    sign = glyph(verdict, use, ascii_only)
    assert len(sign) == WIDTH
    assert sign.isascii() or not ascii_only


def test_sign_in_text_rises_with_use_and_differs_between_verdicts() -> None:
    levels = [glyph(Verdict.SOUND, use)[1] for use in (0.0, 0.2, 0.4, 0.6, 0.79)]
    assert levels == sorted(levels)
    assert max(levels) < glyph(Verdict.NEAR, 0.9)[1]
    for ascii_only in (True, False):
        signs = {glyph(verdict, 0.5, ascii_only) for verdict in Verdict}
        assert len(signs) == len(Verdict)


@given(st.text())
def test_cleaned_text_steers_no_terminal(text: str) -> None:
    cleaned = plain.clean(text)
    assert not any(ord(letter) < 32 and letter not in "\n\t" for letter in cleaned)
    assert not any(letter in cleaned for letter in "\x1b\x7f\x9b\u202e\u2066\u200f")
    assert len(cleaned) == len(text)


@given(st.text())
def test_ascii_text_is_ascii(text: str) -> None:
    assert plain.ascii_text(text).isascii()


def test_ascii_text_keeps_what_units_mean() -> None:
    assert plain.ascii_text("2.4 m², 1½ in, 25 °C, 4 × 5 µm") == "2.4 m2, 1 1/2 in, 25  deg C, 4 x 5 um"
    assert "≥ 3".encode("ascii", plain.HANDLER) == b">= 3"


PSI, PSF = 6894.757293168, 47.88025898034


@pytest.mark.parametrize(
    ("value", "limit", "unit", "system", "told"),
    [
        (388.0 * PSF, 10.4 * PSI, "Pa", "us", ("2.69 psi", "10.4 psi")),
        (505.0 * PSF, 435.0 * PSI, "Pa", "us", ("3.51 psi", "435 psi")),
        (212.0 * PSF, 1.8 * PSI, "Pa", "us", ("212 psf", "259 psf")),
        (980.0, 1200.0, "N", "metric", ("0.98 kN", "1.2 kN")),
        (0.9, 1.2, "m", "metric", ("0.9 m", "1.2 m")),
        (0.003, 1.2, "m", "metric", ("3 mm", "1200 mm")),
        (5.0, 900_000.0, "Pa", "metric", ("0.005 kPa", "900 kPa")),
    ],
)
def test_value_and_limit_share_a_unit(
    value: float, limit: float, unit: str, system: System, told: tuple[str, str]
) -> None:
    check = Check("a.b", "what", "where", unit, Estimate.exact(value), limit, STATICS)
    assert (wording.now(check, system), wording.allowed(check, system)) == told


def test_range_shares_the_unit_of_its_limit() -> None:
    check = Check("a.b", "what", "where", "N", Estimate(400.0, 400.0, 900.0), 4000.0, STATICS)
    told = (wording.now(check, "metric"), wording.adverse(check, "metric"), wording.allowed(check, "metric"))
    assert told == ("0.4 kN", "up to 0.9 kN", "4 kN")


def test_more_than_one_fail_and_one_fails() -> None:
    (failing,) = [check for check in CHECKS if check.verdict is Verdict.FAILS]
    assert wording.tally([failing]) == "1 check: 1 fails"
    assert wording.tally([failing, failing]) == "2 checks: 2 fail"


def test_margin_far_below_nothing_is_none_left() -> None:
    """Beyond all scale a number tells no more than that nothing is left."""
    (failing,) = [check for check in CHECKS if check.verdict is Verdict.FAILS]
    far = replace(failing, estimate=Estimate.exact(1e9 * float(failing.limit or 1.0)))  # type: ignore[arg-type]  # one limit
    assert far.use is not None
    assert far.use > 10.0
    assert wording.margin(far) == "none left"
