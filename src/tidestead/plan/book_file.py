"""A price book in a file of its own, beside the plan: read as the plan's own [book] is, each fault with its line."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from pydantic import Field, ValidationError

from tidestead.core.errors import Fault, PlanError
from tidestead.plan.book_faults import book_faults
from tidestead.plan.faults import faults_of, ordered
from tidestead.plan.fields import PartName
from tidestead.plan.lines import Lines
from tidestead.plan.mending import mend, reader_fault
from tidestead.plan.model.book import BookRow
from tidestead.plan.model.part import Part
from tidestead.plan.reading import LoadedPlan, context_of
from tidestead.plan.scanning import statements
from tidestead.plan.text import decode
from tidestead.plan.toml import own_values

LARGEST = 1_000_000
"""Bytes of a price book: some five thousand rows."""

_STARTS = "tidestead new"
_ADVICE = "Write [book] and a row under it: NAME = { of = ..., price = ... }."
"""In place of what begins a plan."""


class _BookFile(Part):
    """All that such a file may hold."""

    book: dict[PartName, BookRow] = Field(default_factory=dict)


def rows_in(data: bytes, name: str, loaded: LoadedPlan) -> tuple[dict[str, BookRow], tuple[Fault, ...]]:
    """The rows of a price book with the plan's money, gallons and parts; or its faults, the file named in each."""
    try:
        text = decode(data, name)
    except PlanError as error:
        return {}, tuple(
            replace(fault, advice=_ADVICE if _STARTS in fault.advice else fault.advice)
            for fault in error.faults
        )
    rows, faults = _judged(text.text, name, own_values(loaded.text))
    told = ordered([*text.faults, *faults])
    return ({}, tuple(_in_file(fault, name) for fault in told)) if told else (rows, ())


def _in_file(fault: Fault, name: str) -> Fault:
    """A fault that says in which file it is."""
    return fault if fault.where == name else replace(fault, where=f"{name}: {fault.where}")


def _judged(text: str, name: str, plan: dict[str, Any]) -> tuple[dict[str, BookRow], list[Fault]]:
    parts = statements(text)
    lines, faults = Lines.of(text, parts), []
    try:
        broken = any(part.fatal for part in parts)
        mended = mend(text, parts) if broken else None
        values = mended.values if mended else own_values(text)
    except tomllib.TOMLDecodeError as error:
        mended = mend(text, parts)
        values = mended.values
        mended.faults = mended.faults or [reader_fault(error, name)]
    faults += mended.faults if mended else []
    faults += [_stranger(key, lines) for key in values if key != "book"]
    values = {"book": values.get("book", {})}
    rows: dict[str, BookRow] = {}
    try:
        rows = dict(_BookFile.model_validate(values, context=context_of(plan)).book)
    except ValidationError as error:
        faults += faults_of(error, lines, context_of(plan)["show"])
    return rows, [*faults, *_misfits(values, plan, lines)]


def _stranger(key: str, lines: Lines) -> Fault:
    """What stands in the file beside its [book]."""
    advice = "Only [book] stands here; money, rates and parts are those of the plan."
    return Fault(key, lines.line((key,)), lines.key_typed((key,)), "does not belong in a price book.", advice)


def _misfits(values: Mapping[str, Any], plan: dict[str, Any], lines: Lines) -> list[Fault]:
    """What does not fit the plan; only what stands in the file itself is told."""
    book = values.get("book")
    rest = {key: value for key, value in plan.items() if key not in ("rates", "risks")}
    found = book_faults({**rest, "book": book}, lines, context_of(plan)["gallons"])
    return [fault for fault in found if fault.where.startswith("book.")]
