"""The prices that a plan counts by: those of its own [book] over those of a file beside it."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping
from dataclasses import dataclass, field, replace

from tidestead.core.errors import Fault, WeatherError
from tidestead.core.kept import kept
from tidestead.intake.files import read_beside
from tidestead.plan import LoadedPlan
from tidestead.plan.book_file import LARGEST, rows_in
from tidestead.plan.model import BookRow


@dataclass(frozen=True)
class Told:
    """The rows by name, and what is wrong with the file. `digest` changes when, and only when, any of it does.

    `file` are the names of the rows that came of the file; with a fault in it none did, and the plan's own stand.
    """

    rows: Mapping[str, BookRow]
    faults: tuple[Fault, ...]
    digest: str
    file: frozenset[str] = field(default_factory=frozenset)


def prices_for(loaded: LoadedPlan) -> Told:
    """The price book of a plan, with the file that it names."""
    own = dict(loaded.plan.book)
    name = loaded.plan.supplies.book
    if name is None:
        return _told(own, {}, ())
    folder = loaded.path.resolve().parent if loaded.path is not None else None
    try:
        data = read_beside(folder, name)
    except WeatherError as error:
        return _told(own, {}, tuple(_of_prices(fault) for fault in error.faults))
    if len(data) > LARGEST:
        allowed = f"This file is larger than {LARGEST // 1000} kB: it is no price book."
        return _told(own, {}, (Fault(name, None, "", allowed, "Keep in it what this plan needs."),))
    return _told(own, *_rows(data, name, loaded))


def with_prices(loaded: LoadedPlan) -> LoadedPlan:
    """The plan with the rows of the file that it names; as it is where it names none."""
    if loaded.plan.supplies.book is None:
        return loaded
    return replace(loaded, plan=loaded.plan.model_copy(update={"book": dict(prices_for(loaded).rows)}))


def _of_prices(fault: Fault) -> Fault:
    """What is wrong with a file that cannot be had at all, in words of prices."""
    return replace(fault, advice=fault.advice.replace("weather file", "price book"))


@kept(at_most=8, by=lambda data, name, loaded: (hashlib.sha256(data).digest(), name, loaded.text))
def _rows(data: bytes, name: str, loaded: LoadedPlan) -> tuple[dict[str, BookRow], tuple[Fault, ...]]:
    return rows_in(data, name, loaded)


def _told(own: Mapping[str, BookRow], file: Mapping[str, BookRow], faults: tuple[Fault, ...]) -> Told:
    rows = {**file, **own}
    digest = hashlib.sha256(repr((sorted(rows.items(), key=_name), faults)).encode()).hexdigest()
    return Told(rows, faults, digest, frozenset(file) - frozenset(own))


def _name(row: tuple[str, BookRow]) -> str:
    return row[0]
