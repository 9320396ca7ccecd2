"""The first-run path: plain questions, answers looked at while they are typed, and the plan that they make."""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from typing import Any

from fastapi import APIRouter, Request
from starlette.responses import HTMLResponse, JSONResponse

from tidestead.core.errors import Fault, PlanError
from tidestead.plan.editing import written
from tidestead.plan.first import FirstPlan, plan_text
from tidestead.plan.first_order import loads_first, title_for
from tidestead.plan.first_questions import Blank, asked, questions
from tidestead.plan.forms import words_of_key
from tidestead.web.assumed import AssumedView, assumed
from tidestead.web.bench import Bench, StaleError
from tidestead.web.bodies import FaultOut, Refused, as_sent
from tidestead.web.first_bodies import (
    Answered,
    AnsweredOn,
    AssumedOut,
    BlankOut,
    ChoiceOut,
    FirstAsked,
    FirstLooked,
    FirstWritten,
    QuestionAsked,
)
from tidestead.web.first_writing import may_replace, name_beside, write_beside, write_in_place
from tidestead.web.places import BenchOf, page
from tidestead.web.routes_api import REFUSALS, refused

router = APIRouter()


@router.get("/start", response_class=HTMLResponse)
async def start(request: Request, bench: BenchOf) -> HTMLResponse:
    """From nothing to a first plan: the questions, a screen each."""
    given = {"show": bench.system, "gallons": "us" if bench.system == "us" else "none"}
    values = {blank.id: given.get(blank.id, blank.suggest) for one in questions() for blank in one.blanks}
    shown: dict[str, Any] = {
        "untouched": may_replace(bench),
        "beside": name_beside(bench),
        "values": values,
        "kept": _kept(bench),
    }
    return page(request, bench, "first/start.html", questions=questions(), **shown)


@router.get("/api/first")
async def first(bench: BenchOf) -> FirstAsked:
    """The questions of a first plan."""
    listed = [
        QuestionAsked(id=one.id, words=one.words, hint=one.hint, blanks=list(map(_blank, one.blanks)))
        for one in questions()
    ]
    return FirstAsked(
        digest=bench.digest,
        file=bench.path.name,
        untouched=may_replace(bench),
        beside=name_beside(bench),
        questions=listed,
    )


@router.post("/api/first/preview", responses={422: {"model": Refused}})
async def preview(body: Answered) -> FirstLooked:
    """The plan that answers would make, and what is wrong with them. Nothing is saved."""
    plan, known = plan_text(body.answers), asked(body.answers)
    return FirstLooked(
        sound=not plan.faults,
        asked=list(known),
        offered={name: _offered(blank, body.answers) for name, blank in known.items() if _depends(blank)},
        faults={name: list(map(FaultOut.of, faults)) for name, faults in plan.faults.items()},
        echoes=dict(plan.echoes),
        assumed=list(_taken(plan)),
        text=plan.text,
    )


@router.post("/api/first", responses=REFUSALS, response_model=FirstWritten)
async def write(bench: BenchOf, body: AnsweredOn) -> FirstWritten | JSONResponse:
    """Write the plan that answers make. Never over a plan that holds its user's work."""
    plan = plan_text(body.answers)
    if plan.faults:
        return refused(422, "Some answers have faults; nothing was written.", _flat(plan))
    try:
        if body.beside:
            words, file = write_beside(bench, plan.text, body.beside), body.beside
        else:
            words, file = write_in_place(bench, plan.text, body.base), bench.path.name
    except StaleError as error:
        return refused(409, str(error))
    except PlanError as error:
        return refused(422, "Nothing was written.", error.faults)
    return FirstWritten(
        file=file, opened=not body.beside, digest=bench.digest, count=bench.count, words=words
    )


@router.get("/assumed", response_class=HTMLResponse)
async def all_assumed(request: Request, bench: BenchOf) -> HTMLResponse:
    """What was assumed for the user when the plan was first written, each value to be typed over in place."""
    return page(request, bench, "assumed.html", find=lambda: assumed(bench))


@router.get("/api/assumed")
async def all_assumed_twin(bench: BenchOf) -> AssumedView:
    """Every value of the plan that its file marks as assumed, in batches, what carries load first.

    Those that were typed over since the plan was opened follow in their place, marked as the user's.
    """
    return assumed(bench)


def _taken(plan: FirstPlan) -> Iterator[AssumedOut]:
    """What is assumed, what carries load first."""
    known = {one.key: one for one in plan.assumed}
    for key in loads_first(known):
        one = known[key]
        yield AssumedOut.model_construct(
            key=key,
            words=words_of_key(key),
            title=title_for(key),
            value=as_sent(one.value),
            written=written(one.value),
            why=one.why,
            blank=one.blank,
        )


def _kept(bench: Bench) -> str:
    """The name under which a browser keeps the answers to the questions of this plan's file, and of no other."""
    return hashlib.sha256(str(bench.path.resolve()).encode("utf-8", "surrogateescape")).hexdigest()[:16]


def _flat(plan: FirstPlan) -> list[Fault]:
    return [fault for faults in plan.faults.values() for fault in faults]


def _depends(blank: Blank) -> bool:
    """Whether the choices of a blank go by another answer."""
    return any(one.only_for is not None for one in blank.choices)


def _offered(blank: Blank, answers: Mapping[str, str]) -> list[str]:
    return [one.value for one in blank.offered(answers)]


def _blank(blank: Blank) -> BlankOut:
    return BlankOut(
        id=blank.id,
        words=blank.words,
        kind=blank.kind,
        hint=blank.hint,
        optional=blank.optional,
        open=blank.open,
        suggest=blank.suggest,
        examples=dict(blank.examples or {}),
        choices=[ChoiceOut(value=one.value, words=one.words, only_for=one.only_for) for one in blank.choices],
        when={name: list(values) for name, values in (blank.when or {}).items()},
    )
