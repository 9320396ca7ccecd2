"""Any text at all is read or refused in one way, at once; what is read is what it says."""

from __future__ import annotations

import math
import time
from collections.abc import Callable
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.many import many
from tidestead.core.errors import QuantityError
from tidestead.core.units import (
    parse,
    parse_band,
    parse_price,
    parse_salinity,
    parse_section,
    parse_three,
)

# ---- reading -----------------------------------------------------------------------------------------------

READERS = [
    *(
        lambda text, name=name: parse(text, name)
        for name in ("length", "temperature", "ratio", "flow", "time")
    ),
    lambda text: parse(text, "volume", "us"),
    lambda text: parse_band(text, "length"),
    lambda text: parse_three(text, "time"),
    parse_section,
    parse_salinity,
    parse_price,
]

ALPHABET = st.text(
    st.sampled_from("0123456789 ..,,//-'\"°½²xX()eE%mftinlbsgaolrhpkNPCFUSDEURto"), max_size=70
)


def refusal(read: Callable[[str], object], text: str) -> QuantityError | None:
    """The one sort of fault a reader may raise; anything else fails the test."""
    try:
        read(text)
    except QuantityError as fault:
        return fault
    return None


@settings(max_examples=many(400), deadline=None)
@given(text=st.one_of(st.text(max_size=90), ALPHABET))
def test_any_text_is_read_or_refused_in_one_way(text: str) -> None:
    for read in READERS:
        fault = refusal(read, text)
        if fault is not None:
            assert fault.allowed
            assert fault.advice
            assert len(fault.given) <= 43
            assert str(fault).isprintable()
            assert len(str(fault)) < 400


@settings(max_examples=many(300), deadline=None)
@given(text=ALPHABET)
def test_what_is_read_is_finite(text: str) -> None:
    try:
        value = parse(text, "length")
    except QuantityError:
        return
    assert math.isfinite(value)


HOSTILE = [
    "9**9**9",
    "9" * 10_000,
    "1 " * 30,
    "1m" * 30,
    "1'" * 30,
    "1/" * 30,
    "1-" * 30,
    "-" * 60,
    "(" * 60,
    "m/" * 30,
    "1e999999999 m",
    "1e" + "9" * 50,
    "\0" * 1_000_000,
    "\x1b]0;title\x07 4 m",
    "٤ m",
    "４ m",
    "४ m",
    "\u202e4 m",
    "1" + "\u0301" * 50 + " m",
    "1 \u043c",
    "\ud800 m",
    "½" * 60,
    "2" * 30 + "x" + "6" * 29,
    ".." * 30,
    " to " * 15,
]


@pytest.mark.parametrize("text", HOSTILE, ids=range(len(HOSTILE)))
def test_hostile_text_is_answered_at_once(text: str) -> None:
    start = time.perf_counter()
    for read in READERS:
        with pytest.raises(QuantityError) as fault:
            read(text)
        assert len(fault.value.given) <= 43
        assert str(fault.value).isprintable()
    assert time.perf_counter() - start < 0.5


@settings(max_examples=many(100), deadline=None)
@given(feet=st.integers(0, 999), sixteenths=st.integers(0, 191))
def test_feet_and_inches_are_what_they_say(feet: int, sixteenths: int) -> None:
    whole, left = divmod(sixteenths, 16)
    inches = f"{whole} {left}/16" if left else f"{whole}"
    exact = float((feet * 12 + Fraction(sixteenths, 16)) * Fraction(254, 10_000))
    for text in (
        f"{feet} ft {inches} in",
        f"{feet}' {inches}\"",
        f"{feet}'-{inches}\"",
        f"{feet} feet {inches} inches",
    ):
        assert parse(text, "length") == exact
        assert parse(f"-{text}", "length") == -exact


@given(number=st.integers(1, 999_999_999))
def test_thousands_may_be_parted(number: int) -> None:
    for parted in (
        f"{number:,}",
        f"{number:,}".replace(",", " "),
        f"{number:,}".replace(",", "\u2009"),
        str(number),
    ):
        assert parse(f"{parted} mm", "length") == float(Fraction(number, 1000))


@given(low=st.integers(-50, 50), rise=st.integers(1, 50), more=st.integers(0, 50))
def test_bands_and_threes_keep_their_order(low: int, rise: int, more: int) -> None:
    high = low + rise
    assert parse_band(f"{low} to {high} degC", "temperature") == (low, high)
    assert parse_three(f"{low} .. {high} .. {high + more} degC", "temperature") == (low, high, high + more)
    with pytest.raises(QuantityError):
        parse_band(f"{high} to {low} degC", "temperature")
    with pytest.raises(QuantityError):
        parse_three(f"{high} .. {low} .. {high} degC", "temperature")
