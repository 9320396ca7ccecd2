"""What stands round every page: the plan's name, the twelve questions with their verdicts, undo, units, faults."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from markupsafe import Markup

from tidestead.core.answer import Verdict
from tidestead.core.errors import Fault
from tidestead.core.units import System
from tidestead.plan.saving import previous_of
from tidestead.report import wording
from tidestead.report.svg_sign import sign
from tidestead.web.bench import Bench
from tidestead.web.standing import Standing

PAGES = (("/", "Where it stands"), ("/plan", "Your plan"), ("/file", "The file itself"))
"""What stands beside the twelve questions."""


@dataclass(frozen=True)
class Told:
    """One question in a line: its verdict, what governs, and whether that is for the plan as it stands."""

    subject: str
    question: str
    href: str
    verdict: str
    sign: Markup
    words: str
    current: bool
    state: str
    progress: str


@dataclass(frozen=True)
class Frame:
    """What the frame of a page shows."""

    name: str
    file: str
    digest: str
    count: int
    told: int
    here: str
    pages: tuple[tuple[str, str], ...]
    questions: tuple[Told, ...]
    undoes: str
    redoes: str
    system: System
    faults: tuple[Fault, ...]
    missing: bool
    back: str
    trying: str
    trial: int
    busy: str


def frame(bench: Bench, here: str) -> Frame:
    """The frame for the page at an address."""
    name = bench.loaded.plan.name if bench.loaded else bench.path.name
    questions = told(bench.standings)
    at_work = sum(not item.current and item.state != "fault" for item in questions)
    return Frame(
        name=name,
        file=bench.path.name,
        digest=bench.digest,
        count=bench.count,
        told=bench.listeners.told,
        here=here,
        pages=PAGES,
        questions=questions,
        undoes="" if bench.faults else bench.history.undoes,
        redoes=bench.history.redoes,
        system=bench.system,
        faults=bench.faults,
        missing=bench.missing,
        back=previous_of(bench.path).name if bench.history.has_sound else "",
        trying=bench.trial.told() if bench.trial else "",
        trial=bench.trial.number if bench.trial else 0,
        busy=f"{wording.many(at_work, 'answer')} being worked out" if at_work and bench.loaded else "",
    )


def told(standings: Mapping[str, Standing]) -> tuple[Told, ...]:
    """Every question in a line."""
    return tuple(told_one(standing) for standing in standings.values())


def told_one(standing: Standing) -> Told:
    """One question in a line."""
    answer = standing.answer
    governing = wording.governing(answer) if answer is not None else None
    verdict = answer.verdict if answer is not None else Verdict.UNPROVEN
    use = governing.use if governing is not None else None
    words = "not answered yet"
    if answer is not None:
        words = wording.titled(governing) if governing is not None else "cannot be worked out yet"
    return Told(
        standing.subject,
        standing.question,
        f"/question/{standing.subject}",
        verdict.value,
        drawn(verdict, use),
        words,
        standing.current,
        standing.state,
        progress(standing),
    )


def drawn(verdict: Verdict, use: float | None, size: float = 24.0) -> Markup:
    """The sign of a verdict. Its word always stands beside it, so that the sign itself is passed over in reading."""
    text = sign(verdict, use, size, themed=False).replace(
        'role="img"', 'aria-hidden="true" focusable="false"'
    )
    return Markup(text)


def progress(standing: Standing) -> str:
    """How far the work on an answer is, in words."""
    if standing.state == "fault":
        return f"Tidestead is at fault, not your plan: {standing.words}."
    if standing.current:
        return ""
    if standing.of:
        return f"working: {standing.done} of {standing.of}"
    return f"working: {standing.words}" if standing.words else "working"
