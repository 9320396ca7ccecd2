"""The JSON twin of every page that shows answers, and the changes a page can make."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import asdict
from typing import Any

from fastapi import APIRouter, HTTPException
from starlette.responses import JSONResponse

from tidestead.core.errors import Fault, PlanError, TidesteadError
from tidestead.plan.edits import Edit
from tidestead.plan.forms import Draft
from tidestead.plan.forms_echo import echoes
from tidestead.plan.reading import faults_in
from tidestead.report import as_json
from tidestead.report.round_uses import uses_object, uses_of
from tidestead.report.solids_json import round_object
from tidestead.web.bench import Bench, NothingToDo, StaleError
from tidestead.web.bodies import (
    ChangeOut,
    Done,
    EditIn,
    Edits,
    EditsOn,
    FaultOut,
    KeepOn,
    Leave,
    On,
    PlanOut,
    Previewed,
    QuestionOut,
    Refused,
    StandingOut,
    TrialOut,
    Units,
    WholeText,
    as_sent,
)
from tidestead.web.changes import Change
from tidestead.web.forms_changes import TakenError
from tidestead.web.places import BenchOf
from tidestead.web.routes_pages import MISSING, Name, Subject
from tidestead.web.standing import Standing

router = APIRouter(prefix="/api")

REFUSALS: dict[int | str, dict[str, Any]] = {
    409: {"model": Refused, "description": "The plan has changed since; nothing was done."},
    422: {"model": Refused, "description": "There are faults; nothing was done."},
}


STATE = "x-state"
"""Header that says whether an answer is for the plan as it stands."""


def edits_of(body: Edits | EditsOn) -> list[Edit]:
    """The edits that were sent."""
    return [Edit(one.key, one.value) for one in body.edits]


def refused(status: int, words: str, faults: Sequence[Fault] = (), *, taken: bool = False) -> JSONResponse:
    """A reply that says why nothing was done; `taken` where that is a part of the same name."""
    told = Refused(words=words, faults=list(map(FaultOut.of, faults)), taken=taken)
    return JSONResponse(told.model_dump(), status)


def changed(bench: Bench, change: Callable[[], object]) -> Done | JSONResponse:
    """Make a change; the digest it leads to, or why it was not made."""
    try:
        words = change()
    except TakenError as error:
        return refused(409, str(error), taken=True)
    except StaleError as error:
        return refused(409, str(error))
    except NothingToDo as error:
        return refused(409, str(error))
    except PlanError as error:
        return refused(422, "Nothing was saved.", error.faults)
    except TidesteadError as error:
        return refused(422, str(error))
    return Done(digest=bench.digest, count=bench.count, words=words if isinstance(words, str) else "")


@router.get("/standing")
async def standing(bench: BenchOf) -> StandingOut:
    """How the whole stands."""
    return StandingOut(
        name=bench.loaded.plan.name if bench.loaded else bench.path.name,
        digest=bench.digest,
        faults=list(map(FaultOut.of, bench.faults)),
        questions=_questions(bench.standings, bench.last_changes()),
    )


def _questions(
    standings: Mapping[str, Standing], changes: Mapping[str, Sequence[Change]]
) -> list[QuestionOut]:
    return [
        QuestionOut(
            subject=name,
            question=one.question,
            state=one.state,
            verdict=one.verdict.value if one.verdict is not None else None,
            sentence=one.answer.sentence if one.answer is not None else "",
            done=one.done,
            of=one.of,
            words=one.words,
            changes=[ChangeOut(**asdict(change)) for change in changes.get(name, ())],
        )
        for name, one in standings.items()
    ]


@router.get("/question/{subject}", responses=MISSING)
async def one_question(bench: BenchOf, subject: Subject) -> JSONResponse:
    """The answer to one question: the same object as `tidestead ask --json` prints, with that one answer in it.

    The header `x-state` says whether it is for the plan as it stands (done), or the last there was: faulty where the
    file cannot be read as it stands.
    """
    one = bench.standings.get(subject)
    if one is None:
        raise HTTPException(404, f"There is no question called {subject}.")
    answers = {subject: one.answer} if one.answer is not None else {}
    return JSONResponse(
        as_json.document(answers, bench.path.name), headers={STATE: "faulty" if bench.faults else one.state}
    )


@router.get("/question/{subject}/round/{name}", responses=MISSING)
async def one_round(bench: BenchOf, subject: Subject, name: Name) -> JSONResponse:
    """A view in the round as bodies in space, with how much each part uses."""
    one = bench.standings.get(subject)
    answer = one.answer if one is not None else None
    views = answer.rounds if answer is not None else ()
    view = next((view for view in views if view.id == name.removesuffix(".use")), None)
    if view is None or answer is None:
        raise HTTPException(404, f"There is no view of that name for {subject}.")
    uses = uses_object(uses_of(view, answer.checks))
    return JSONResponse(
        {"round": round_object(view), "uses": uses, "by": "use" if name != view.id else "stuff"}
    )


@router.get("/answers")
async def answers(bench: BenchOf) -> JSONResponse:
    """Every answer there is so far, in one object; the header `x-state` says whether all are for the plan of now."""
    known = {name: one.answer for name, one in bench.standings.items() if one.answer is not None}
    state = "done" if all(one.current for one in bench.standings.values()) else "working"
    state = "faulty" if bench.faults else state
    return JSONResponse(as_json.document(known, bench.path.name), headers={STATE: state})


@router.get("/plan")
async def plan(bench: BenchOf) -> PlanOut:
    """The plan as it stands in its file."""
    return PlanOut(
        file=bench.path.name,
        digest=bench.digest,
        count=bench.count,
        text=bench.text,
        faults=list(map(FaultOut.of, bench.faults)),
        system=bench.system,
        undoes=bench.history.undoes,
        redoes=bench.history.redoes,
    )


@router.post("/preview", responses={422: {"model": Refused}})
async def preview(bench: BenchOf, body: Edits) -> Previewed:
    """What edits would lead to. Nothing is saved."""
    edits = edits_of(body)
    try:
        text = bench.scratch(edits)
    except PlanError as error:
        return Previewed(sound=False, faults=list(map(FaultOut.of, error.faults)), echoes={})
    draft = Draft.of(text, bench.path.name)
    told = echoes(text, [edit.key for edit in edits], bench.path.name)
    return Previewed(sound=draft.sound, faults=list(map(FaultOut.of, draft.faults)), echoes=told)


@router.post("/preview/text", responses={422: {"model": Refused}})
async def preview_text(bench: BenchOf, body: WholeText) -> Previewed:
    """The faults a whole text would have. Nothing is saved."""
    faults = faults_in(body.text, bench.path.name)
    return Previewed(sound=not faults, faults=list(map(FaultOut.of, faults)), echoes={})


@router.post("/save", responses=REFUSALS, response_model=Done)
async def save(bench: BenchOf, body: EditsOn) -> Done | JSONResponse:
    """Make edits in the plan's file."""
    return changed(bench, lambda: bench.save(edits_of(body), body.base))


@router.post("/save/text", responses=REFUSALS, response_model=Done)
async def save_text(bench: BenchOf, body: WholeText) -> Done | JSONResponse:
    """Put a whole text in place of the plan's."""
    return changed(bench, lambda: bench.save_text(body.text, body.base))


@router.post("/undo", responses=REFUSALS, response_model=Done)
async def undo(bench: BenchOf, body: On) -> Done | JSONResponse:
    """Go back to the version before."""
    return changed(bench, lambda: bench.undo(body.base))


@router.post("/redo", responses=REFUSALS, response_model=Done)
async def redo(bench: BenchOf, body: On) -> Done | JSONResponse:
    """Go on to the version that was undone."""
    return changed(bench, lambda: bench.redo(body.base))


@router.post("/again", responses=REFUSALS, response_model=Done)
async def again(bench: BenchOf, body: On) -> Done | JSONResponse:
    """Write the plan's file again as it was last sound, where it was moved or deleted; never over another."""
    return changed(bench, lambda: bench.write_again(body.base))


@router.post("/units", responses=REFUSALS, response_model=Done)
async def units(bench: BenchOf, body: Units) -> Done | JSONResponse:
    """Show answers in other units; the plan is not changed."""
    return changed(bench, lambda: bench.show_in(body.system))


@router.post("/try", responses=REFUSALS, response_model=Done)
async def try_out(bench: BenchOf, body: EditsOn) -> Done | JSONResponse:
    """Answer for edits on a scratch copy; `GET /api/trial` tells how it stands. Nothing is saved."""
    return changed(bench, lambda: bench.try_out(edits_of(body), body.base))


@router.get("/trial")
async def trial(bench: BenchOf) -> TrialOut:
    """How the trial stands, and what it would change; where there is none, how the last one ended."""
    now, last = bench.trial, bench.trial_ended
    questions = _questions(now.standings, bench.trial_changes()) if now else []
    return TrialOut(
        number=now.number if now else 0,
        edits=[EditIn.model_construct(key=edit.key, value=as_sent(edit.value)) for edit in now.edits]
        if now
        else [],
        fields=now.words() if now else {},
        at_work=any(one.state in ("waiting", "working") for one in questions),
        questions=questions,
        ended=last.how,
        ended_number=last.number,
        words=last.words,
    )


@router.post("/trial/keep", responses=REFUSALS, response_model=Done)
async def keep(bench: BenchOf, body: KeepOn) -> Done | JSONResponse:
    """Save what is being tried, where that is still the trial of the number that the page showed."""
    return changed(bench, lambda: bench.keep_trial(body.base, body.trial))


@router.post("/trial/drop", responses=REFUSALS, response_model=Done)
async def drop(bench: BenchOf, body: Leave) -> Done | JSONResponse:
    """Leave the plan as it is, whatever it is by now; or only at some keys, and go on trying the rest."""
    return changed(bench, lambda: bench.drop_trial(body.keys))
