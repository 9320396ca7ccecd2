"""Any bytes as a plan give a plan or clear faults: never a trace, never a wait."""

from __future__ import annotations

import time
import tomllib
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from tests.laws.plan_texts import SCRAPS, broken_plans
from tests.many import many
from tidestead.core.errors import Fault, PlanError
from tidestead.plan import LoadedPlan, loads
from tidestead.plan.reading import digest_of, judged
from tidestead.plan.scanning import statements
from tidestead.plan.text import decode

FEW = settings(max_examples=many(120, 30), deadline=None, suppress_health_check=list(HealthCheck))
MANY = settings(max_examples=12_000, deadline=None, suppress_health_check=list(HealthCheck))
"""Health checks are silenced: hurt texts are mostly refused and slow to make, as they are meant to be."""
SECONDS = 2.0


def outcome(data: bytes) -> LoadedPlan | tuple[Fault, ...]:
    """The plan, or the faults; anything else that is raised fails the test."""
    begun = time.process_time()
    try:
        text = decode(data, "plan")
        plan, faults = judged(text.text, "plan")
        told = (*text.faults, *faults)
        if plan is not None and not told:
            return LoadedPlan(plan, text.text, Path("plan"), digest_of(data))
    except PlanError as error:
        told = error.faults
    finally:
        assert time.process_time() - begun < SECONDS
    return told


def check(data: bytes) -> None:
    found = outcome(data)
    if isinstance(found, LoadedPlan):
        assert tomllib.loads(found.text)["tidestead"] == 1
        return
    last = data.count(b"\n") + 1
    assert found
    for fault in found:
        assert fault.where
        assert fault.advice
        assert fault.line is None or 1 <= fault.line <= last
        assert all(char.isprintable() for char in str(fault)), str(fault)


def check_line_ends(text: str) -> None:
    """The same faults on the same lines, whichever line ends the file has."""
    if "\r" in text:
        return
    unix, windows = outcome(text.encode()), outcome(text.replace("\n", "\r\n").encode())
    assert isinstance(unix, LoadedPlan) == isinstance(windows, LoadedPlan)
    if not isinstance(unix, LoadedPlan) and not isinstance(windows, LoadedPlan):
        assert [(fault.where, fault.line) for fault in unix] == [
            (fault.where, fault.line) for fault in windows
        ]


def check_agreement(text: str) -> None:
    """Where the library's reader is content, the scanner saw nothing wrong either."""
    try:
        tomllib.loads(text)
    except tomllib.TOMLDecodeError:
        return
    for part in statements(text):
        assert part.fatal or not (part.troubles or part.broken), part


@FEW
@given(st.binary(max_size=400))
def test_any_bytes(data: bytes) -> None:
    check(data)


@FEW
@given(st.lists(SCRAPS, max_size=60).map("".join))
def test_any_scraps(text: str) -> None:
    check(text.encode())
    check_agreement(text)


@FEW
@given(broken_plans())
def test_any_broken_plan(text: str) -> None:
    check(text.encode())
    check_line_ends(text)
    check_agreement(text)


@pytest.mark.long
@MANY
@given(st.binary(max_size=4000))
def test_very_many_bytes(data: bytes) -> None:
    check(data)


@pytest.mark.long
@MANY
@given(st.lists(SCRAPS, max_size=200).map("".join))
def test_very_many_scraps(text: str) -> None:
    check(text.encode())
    check_agreement(text)


@pytest.mark.long
@MANY
@given(broken_plans())
def test_very_many_broken_plans(text: str) -> None:
    check(text.encode())
    check_line_ends(text)
    check_agreement(text)


def test_a_text_is_judged_as_its_bytes_are() -> None:
    with pytest.raises(PlanError) as raised:
        loads("name = '\ud800'")
    assert raised.value.faults[0].allowed == "is not UTF-8 text."
