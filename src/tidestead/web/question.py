"""One question as the page shows it, built from the answer's own parts and nothing else."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace

from markupsafe import Markup

from tidestead.core.answer import Answer, Working
from tidestead.core.source import Source
from tidestead.plan.forms import Field, field_at, words_of_key
from tidestead.plan.forms.groups import GATHERINGS
from tidestead.plan.places import key_finder
from tidestead.report import wording
from tidestead.web import rows
from tidestead.web.bench import Bench
from tidestead.web.changes import Change, first_of
from tidestead.web.forms_view import draft_of
from tidestead.web.frame import Told, told_one
from tidestead.web.pictures import PictureTold, main_picture, picture_named, pictures_of
from tidestead.web.pictures import told as picture_told
from tidestead.web.remedies_told import Panel, panel
from tidestead.web.standing_page import beginning
from tidestead.web.tables_told import TableShown
from tidestead.web.tables_told import shown as shown_tables


@dataclass(frozen=True)
class Cited:
    """A source by its mark. `anchor` is its place on the page."""

    mark: str
    anchor: str
    words: str


@dataclass(frozen=True)
class Question:
    """All that stands on the page of one question. `answer` is the last there was, and may be for an older plan."""

    head: Told
    tally: str
    sentence: str
    further: str
    changes: tuple[Change, ...]
    more_changes: int
    picture: PictureTold | None
    drawn: Markup
    pictures: tuple[PictureTold, ...]
    checks: rows.ChecksTold
    advice: tuple[rows.Advice, ...]
    remedies: dict[str, Panel]
    """By the id of a line of advice the search for its remedies."""
    sought_at: dict[str, str]
    figures: tuple[rows.FigureTold, ...]
    assumptions: tuple[rows.Assumed, ...]
    written: tuple[rows.Assumed, ...]
    tables: tuple[TableShown, ...]
    workings: tuple[Working, ...]
    cautions: tuple[str, ...]
    sources: tuple[Cited, ...]


@dataclass(frozen=True)
class Chosen:
    """What of a page its address names: a picture, and which lines of a list."""

    picture: str = ""
    lines: str = ""


def question(
    bench: Bench, subject: str, chosen: Chosen = Chosen(), *, drawn: bool = True, every: bool = True
) -> Question:
    """The page of a subject, with the picture chosen or the one that comes first. KeyError for no subject.

    A picture that has not been drawn yet is drawn now only where the page is to be sent `drawn`; checks that are
    folded away are told only where `every` one is wanted.
    """
    standing = bench.standings[subject]
    answer = standing.answer or Answer(subject, standing.question, "This has not been answered yet.")
    system, citations, key_of = bench.system, wording.Citations(), part_keys(bench)
    checks = rows.checks_told(answer, system, citations, key_of, every=every)
    figures = rows.figures_told(answer.figures, system, citations)
    find = field_of(bench)
    assumptions = rows.assumptions_told(answer.assumptions, citations, find)
    written = [
        one
        for one in bench.overridden.get(subject, {}).values()
        if (field := find(one.key, one.value)) and field.typed
    ]
    for source in answer.sources:
        citations.mark(source)
    picture = picture_named(answer, chosen.picture) or main_picture(answer)
    sentence, _ = beginning(answer.sentence)
    advice = rows.advice_told(answer.checks, key_of, group_for)
    shown, more = first_of(bench.last_changes().get(subject, ()))
    return Question(
        head=told_one(standing),
        tally=wording.tally(answer.checks),
        sentence=sentence,
        further=answer.sentence[len(sentence) :].strip(),
        changes=tuple(shown),
        more_changes=more,
        picture=picture_told(picture, system) if picture is not None else None,
        drawn=bench.drawings.at_hand(picture, answer, system, now=drawn) if picture is not None else Markup(),
        pictures=tuple(map(picture_told, pictures_of(answer))),
        checks=checks,
        advice=tuple(advice),
        remedies={one.id: panel(bench, one.id) for one in advice if one.sought},
        sought_at=rows.sought_at(answer.checks, advice),
        figures=tuple(figures),
        assumptions=tuple(assumptions),
        written=tuple(rows.assumptions_told(written, citations, find)),
        tables=shown_tables(answer, system, chosen.lines),
        workings=answer.working,
        cautions=answer.cautions,
        sources=cited(citations),
    )


def cited(citations: wording.Citations) -> tuple[Cited, ...]:
    """Every source that has a mark, in order."""
    return tuple(Cited(mark, anchor(mark), rows.source_words(source)) for mark, source in citations)


def anchor(mark: str) -> str:
    """The place of a source on the page, for links to it."""
    return f"source-{mark.strip('[]')}"


def marks_of(answer: Answer) -> dict[Source, str]:
    """The mark that each source has on the page of an answer."""
    citations = wording.Citations()
    rows.checks_told(answer, "metric", citations, lambda _: "")
    rows.figures_told(answer.figures, "metric", citations)
    rows.assumptions_told(answer.assumptions, citations, lambda *_: None)
    return {source: citations.mark(source) for source in answer.sources}


def part_keys(bench: Bench) -> Callable[[str], str]:
    """Finds the key of the plan for the part of a check; empty where there is none."""
    if bench.loaded is None:
        return lambda _: ""
    return key_finder(bench.values)


def group_for(words: str) -> str:
    """The address of the forms in which something would be described that words such as "add [circuits.NAME]" name.

    Of several things the first that is named counts; where none is, all of the plan.
    """
    named = _NAMED.search(words)
    found = _GROUP_OF[next(key for key in named.groups() if key)] if named is not None else ""
    return f"/plan/{found}" if found else "/plan"


def field_of(bench: Bench) -> Callable[[str, str], Field | None]:
    """Finds the field in which an assumed value can be typed; None where the key is a pattern, words or a table."""
    draft = draft_of(bench)

    def found(key: str, assumed: str) -> Field | None:
        if not _KEY.fullmatch(key):
            return None
        field = field_at(draft, key, assumed, bench.system)
        if field is None or field.kind == "unknown":
            return None
        return replace(field, label=words_of_key(key))

    return found


_GROUP_OF = {key: group.name for group in GATHERINGS for key in group.keys}
_GROUP_OF |= {key.removesuffix("s"): group for key, group in _GROUP_OF.items() if key.endswith("s")}
_GROUP_OF |= {"setpoint": "equipment", "vents": "building", "glazing": "building", "shade": "building"}
_ANY = "|".join(sorted(_GROUP_OF, key=len, reverse=True))
_NAMED = re.compile(rf"\[({_ANY})[^\]]*\]|\b({_ANY})\b")
_KEY = re.compile(r"[A-Za-z0-9_-]+(\.[A-Za-z0-9_-]+)*")
