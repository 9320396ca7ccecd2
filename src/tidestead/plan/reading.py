"""A plan file in, a validated plan out; or every fault of the file at once, each with its line."""

from __future__ import annotations

import hashlib
import tomllib
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from pydantic import ValidationError

from tidestead.core.errors import Fault, PlanError
from tidestead.core.kept import kept
from tidestead.core.units import Gallon, System
from tidestead.plan.book_faults import book_faults
from tidestead.plan.circuits import circuit_faults
from tidestead.plan.faults import faults_of, ordered
from tidestead.plan.fields import CURRENCY
from tidestead.plan.indoors import indoor_faults
from tidestead.plan.keeping_faults import keeping_faults
from tidestead.plan.lines import Lines
from tidestead.plan.mending import Mended, mend, reader_fault
from tidestead.plan.migration import migrated
from tidestead.plan.model import Plan
from tidestead.plan.own_rows import own_names, own_row_faults
from tidestead.plan.scanning import statements
from tidestead.plan.shape import shape_faults
from tidestead.plan.statements import dotted
from tidestead.plan.text import Text, decode, read_bytes
from tidestead.plan.toml import own_values

if TYPE_CHECKING:
    from tidestead.plan.saving import Document


@dataclass(frozen=True)
class LoadedPlan:
    """A plan with the text it was read from. `digest` tells whether the file has changed on disk since."""

    plan: Plan
    text: str
    path: Path | None
    digest: str
    marked: bool = field(default=False, repr=False)
    """Whether the file begins with the UTF-8 mark."""

    @cached_property
    def document(self) -> Document:
        """The text for editing. Edits change the document, never this plan."""
        from tidestead.plan.saving import Document  # noqa: PLC0415 - wanted only for edits

        return Document(self.text, self.path, self.digest, self.marked)


def load(path: str | Path) -> LoadedPlan:
    """The plan in a file. Raises a PlanError that carries every fault found."""
    path = Path(path)
    data = read_bytes(path)
    text = decode(data, path.name)
    return LoadedPlan(_plan(text, path.name), text.text, path, digest_of(data), text.marked)


def loads(text: str, name: str = "plan") -> LoadedPlan:
    """The plan in a text. Raises a PlanError that carries every fault found."""
    data = text.encode("utf-8", "surrogatepass")
    decoded = decode(data, name)
    return LoadedPlan(_plan(decoded, name), decoded.text, None, digest_of(data), decoded.marked)


def faults_in(text: str, name: str = "plan") -> tuple[Fault, ...]:
    """Everything that is wrong with a text, in the order of its lines."""
    try:
        loads(text, name)
    except PlanError as error:
        return ordered(list(error.faults))
    return ()


def digest_of(data: bytes) -> str:
    """A short name for exactly these bytes."""
    return hashlib.sha256(data).hexdigest()


def _plan(text: Text, name: str) -> Plan:
    plan, faults = judged(text.text, name)
    told = ordered([*text.faults, *faults])
    if told or plan is None:
        raise PlanError(told)
    return plan


def judged(text: str, name: str) -> tuple[Plan | None, list[Fault]]:
    """The plan in a clean text, and everything that is wrong with it."""
    plan, faults = _judged(text, name)
    return plan, list(faults)


def judged_values(values: dict[str, Any], lines: Lines) -> tuple[Plan | None, list[Fault]]:
    """The same of values that were read before, with the lines of the text that they stood in."""
    newest, version_faults = migrated(values, lines)
    if newest is None:
        return None, version_faults
    plan, faults = _validated(newest, lines)
    return plan, [*version_faults, *faults]


def misfits_in(values: dict[str, Any], lines: Lines) -> list[Fault]:
    """What is wrong with values each of which can be read: parts that do not fit each other."""
    said = values.get("gallons")
    gallon: Gallon = said if said in ("us", "imperial") else None
    found = [*shape_faults(values, lines, gallon), *circuit_faults(values, lines, gallon)]
    found += [*indoor_faults(values, lines, gallon), *keeping_faults(values, lines, gallon)]
    found += book_faults(values, lines, gallon)
    return [*found, *own_row_faults(values, lines, gallon)]


@kept(at_most=8)
def _judged(text: str, name: str) -> tuple[Plan | None, tuple[Fault, ...]]:
    """As `judged`. An edit is looked at, tried and saved as one and the same text, and is judged once."""
    parts = statements(text)
    lines = Lines.of(text, parts)
    mended = Mended()
    try:
        if any(part.fatal for part in parts):
            mended = mend(text, parts)
        else:
            mended.values = own_values(text)
    except tomllib.TOMLDecodeError as error:
        mended = mend(text, parts)
        if not mended.faults:
            mended.faults.append(reader_fault(error, name))
    values, version_faults = migrated(mended.values, lines)
    if values is None:
        return None, tuple(version_faults)
    plan, faults = _validated(values, lines)
    unread = {dotted(path) for path in mended.unread}
    own = [fault for fault in faults if fault.where not in unread]
    return plan, (*mended.faults, *version_faults, *own)


def _currency(values: dict[str, Any]) -> str | None:
    """The money that the plan counts in, where it says so."""
    said = values.get("currency")
    return said if isinstance(said, str) and CURRENCY.fullmatch(said) else None


def context_of(values: dict[str, Any]) -> dict[str, Any]:
    """What the kinds of value see of the plan round them."""
    said, wanted = values.get("gallons"), values.get("show")
    gallon: Gallon = said if said in ("us", "imperial") else None
    system: System | None = wanted if wanted in ("metric", "us") else None
    rates = values.get("rates")
    return {
        "gallons": gallon,
        "yours": own_names(values),
        "show": system,
        "currency": _currency(values),
        "rates": tuple(rates) if isinstance(rates, dict) else (),
    }


def _validated(values: dict[str, Any], lines: Lines) -> tuple[Plan | None, list[Fault]]:
    """The plan in these values, with the faults of its models, of its shape and of the user's own rows."""
    context = context_of(values)
    system = context["show"]
    plan, faults = None, []
    try:
        plan = Plan.model_validate(values, context=context)
    except ValidationError as error:
        faults = faults_of(error, lines, system)
    return plan, [*faults, *misfits_in(values, lines)]
