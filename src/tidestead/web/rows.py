"""Checks, figures, assumptions and tables as words in cells, the same for every subject."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from markupsafe import Markup

from tidestead.core.answer import Answer, Assumption, Check, Figure, Table, Verdict
from tidestead.core.kept import kept
from tidestead.core.source import Source
from tidestead.core.units import System
from tidestead.plan.forms import Field
from tidestead.report import wording
from tidestead.report.alike import Row, collapsed
from tidestead.web.frame import drawn
from tidestead.web.pictures import showing

_WANTED = ("", "water")
"""Tables that say what is wanted: a change there would move the limit, and mend nothing."""
SOUND_SHOWN = 5
"""How many sound checks stand in sight; the rest are folded, and counted."""


@dataclass(frozen=True)
class CheckTold:
    """A check in words. `change` is the key of the plan where what it speaks of is described."""

    id: str
    part: str
    verdict: str
    sign: Markup
    what: str
    where: str
    same: str
    now: str
    adverse: str
    allowed: str
    used: str
    margin: str
    notes: tuple[str, ...]
    includes: str
    advice: str
    cautions: tuple[str, ...]
    source: str
    mark: str
    change: str
    picture: str
    """The drawing that shows its part best; empty where none does."""


@dataclass(frozen=True)
class ChecksTold:
    """Checks in sight, worst first, and sound ones that are folded away; `more` counts the latter, told or not,
    each of those that are alike."""

    seen: tuple[CheckTold, ...]
    folded: tuple[CheckTold, ...]
    more: int


def checks_told(
    answer: Answer,
    system: System,
    citations: wording.Citations,
    key_of: Callable[[str], str],
    *,
    every: bool = True,
) -> ChecksTold:
    """Checks in words; those that are folded away only where `every` one is wanted. All take their marks in order."""
    rows = collapsed(wording.ordered(answer.checks), system)
    bad = sum(row.check.verdict is not Verdict.SOUND for row in rows)
    seen = bad + SOUND_SHOWN if len(rows) > bad + SOUND_SHOWN + 2 else len(rows)
    shown_in = showing(answer)
    told = tuple(_told(row, system, citations, key_of, shown_in) for row in rows[: None if every else seen])
    for row in rows[len(told) :]:
        citations.mark(row.check.source)
    return ChecksTold(told[:seen], told[seen:], sum(row.count for row in rows[seen:]))


def _told(
    row: Row,
    system: System,
    citations: wording.Citations,
    key_of: Callable[[str], str],
    shown_in: Callable[[str], str],
) -> CheckTold:
    """A row in words: what its check says by itself, and what the page adds to it."""
    alone = _told_alone(row.check, system)
    return replace(
        alone,
        same=row.same,
        mark=citations.mark(row.check.source),
        change=key_of(row.check.part),
        picture=shown_in(row.check.part),
    )


@kept(at_most=1024)
def _told_alone(check: Check, system: System) -> CheckTold:
    notes = (wording.reason(check), wording.range_basis(check), wording.own_band(check))
    return CheckTold(
        id=check.id,
        part=check.part,
        verdict=check.verdict.value,
        sign=drawn(check.verdict, check.use, 22.0),
        what=wording.titled(check),
        where=wording.place(check),
        same="",
        now=_together(wording.now(check, system)),
        adverse=_together(wording.adverse(check, system)),
        allowed=_together(wording.allowed(check, system)),
        used=wording.used(check),
        margin=wording.margin(check),
        notes=tuple(note for note in notes if note),
        includes=check.limit_includes,
        advice=check.advice if check.verdict is not Verdict.SOUND else "",
        cautions=check.cautions,
        source=source_words(check.source),
        mark="",
        change="",
        picture="",
    )


def _together(words: str) -> str:
    """A value whose unit is not torn, and short units stay with their number."""
    whole = _IN_BRACKETS.sub(lambda found: found[0].replace(" ", NO_BREAK), words)
    return _SHORT_UNIT.sub(rf"\1{NO_BREAK}\2", whole)


NO_BREAK = "\u00a0"
_IN_BRACKETS = re.compile(r"\([^)]*\)")
_SHORT_UNIT = re.compile(r"(\d) (\S{1,3})$")


@dataclass(frozen=True)
class Advice:
    """What would mend a check, in words. `change`: the key of its part; `describe`: forms where a part is added.

    `sought`: whether remedies can be sought for it.
    """

    id: str
    what: str
    where: str
    verdict: str
    told: str
    change: str
    describe: str
    sought: bool


TO_MEND = (Verdict.FAILS, Verdict.NEAR)


def advice_told(
    checks: Sequence[Check], key_of: Callable[[str], str], group_for: Callable[[str], str]
) -> list[Advice]:
    """One line for each thing that wants doing, the worst first."""
    found: dict[tuple[str, str, str], Advice] = {}
    for check in wording.ordered(checks):
        told = wording.mending(check)
        sought = check.verdict in TO_MEND
        if check.verdict is Verdict.SOUND or not (told or sought):
            continue
        change = key_of(check.part)
        another = "[" in told and check.verdict is Verdict.UNPROVEN
        describe = group_for(told) if another or change in _WANTED else ""
        words = f"{told}." if told else ""
        line = Advice(check.id, check.what, check.where, check.verdict.value, words, change, describe, sought)
        found.setdefault((check.what, check.where, told), line)
    return list(found.values())


def sought_at(checks: Sequence[Check], advice: Sequence[Advice]) -> dict[str, str]:
    """For every check that may be mended the id of the line of advice at which its remedies are told."""
    lines = {(one.what, one.where, one.told): one.id for one in advice if one.sought}
    found = {}
    for check in checks:
        told = wording.mending(check)
        line = lines.get((check.what, check.where, f"{told}." if told else ""))
        if check.verdict in TO_MEND and line is not None:
            found[check.id] = line
    return found


@dataclass(frozen=True)
class FigureTold:
    """A total without a limit, in words."""

    what: str
    value: str
    spread: str
    basis: str
    mark: str


def figures_told(figures: Sequence[Figure], system: System, citations: wording.Citations) -> list[FigureTold]:
    """Every figure in words."""
    told = []
    for figure in figures:
        value = wording.likely(figure.estimate, figure.unit, system, figure.style)
        spread = wording.spread(figure.estimate, figure.unit, system, figure.style)
        told.append(
            FigureTold(figure.what, value, spread, figure.estimate.basis, citations.mark(figure.source))
        )
    return told


@dataclass(frozen=True)
class Assumed:
    """A default that was used. `field` is where it can be typed over; None where its key is no value of the plan."""

    key: str
    value: str
    why: str
    source: str
    mark: str
    field: Field | None


def assumptions_told(
    assumptions: Sequence[Assumption],
    citations: wording.Citations,
    field_of: Callable[[str, str], Field | None],
) -> list[Assumed]:
    """Every assumption in words; a key that is named twice is typed over in one place."""
    told, met = [], set[str]()
    for one in assumptions:
        field = field_of(one.key, one.value) if one.key not in met else None
        met.add(one.key)
        source, mark = source_words(one.source), citations.mark(one.source)
        told.append(Assumed(one.key, one.value, one.why, source, mark, field))
    return told


@dataclass(frozen=True)
class TableTold:
    """A table in words: heads, and cells with whether each stands for a number."""

    id: str
    title: str
    note: str
    heads: tuple[tuple[str, bool], ...]
    rows: tuple[tuple[str, ...], ...]


@kept(at_most=128)
def table_told(table: Table, system: System) -> TableTold:
    """A table in words, each column in one unit."""
    columns = [
        wording.column_cells([row[index] for row in table.rows], column, system)
        for index, column in enumerate(table.columns)
    ]
    numeric = [_numeric([row[index] for row in table.rows]) for index in range(len(table.columns))]
    heads = tuple((column.head, number) for column, number in zip(table.columns, numeric, strict=True))
    return TableTold(table.id, table.title, table.note, heads, tuple(zip(*columns, strict=True)))


def _numeric(values: Sequence[float | str | None]) -> bool:
    return any(not isinstance(value, str) and value is not None for value in values)


def source_words(source: Source) -> str:
    """A source with its note."""
    return f"{source}. {source.note}" if source.note else str(source)
