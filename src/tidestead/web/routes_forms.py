"""The plan as forms, the file itself in an editor, and the changes that forms make."""

from __future__ import annotations

from collections.abc import Callable
from typing import Annotated, Any
from urllib.parse import urlencode

from fastapi import APIRouter, HTTPException, Path, Query, Request
from starlette.responses import HTMLResponse, JSONResponse, RedirectResponse, Response

from tidestead.core.errors import PlanError
from tidestead.plan.forms import Form, Group, words_of_key
from tidestead.plan.parts import removed
from tidestead.plan.references import renamed_everywhere
from tidestead.web import forms_changes, forms_view
from tidestead.web.bench import Bench
from tidestead.web.bodies import Done, FaultOut, Refused
from tidestead.web.changes import Change
from tidestead.web.forms_bodies import (
    FieldTold,
    GroupTold,
    KeyOn,
    Looked,
    NameOn,
    PartIn,
    PartOn,
    PartTold,
    Typing,
    TypingOn,
    Written,
)
from tidestead.web.places import BenchOf, page
from tidestead.web.routes_api import REFUSALS, changed, refused
from tidestead.web.routes_pages import MISSING

router = APIRouter()

GroupName = Annotated[str, Path(pattern="^[a-z_]{1,40}$")]
PartKey = Annotated[str, Path(min_length=1, max_length=300)]
QueryKey = Annotated[str, Query(max_length=300)]
QueryName = Annotated[str, Query(max_length=60)]
LOOKS: dict[int | str, dict[str, object]] = {422: {"model": Refused, "description": "It cannot be read."}}


# Pages


@router.get("/plan", response_class=HTMLResponse)
async def whole(request: Request, bench: BenchOf) -> HTMLResponse:
    """Every group of the plan, with what is in it."""
    return page(request, bench, "forms/plan.html", sheet=forms_view.sheet_on(bench), view=forms_view)


@router.get(
    "/plan/part/{key:path}",
    response_class=HTMLResponse,
    responses={303: {"description": "It stands in a table that has a page of its own."}, **MISSING},
)
async def part(
    request: Request,
    bench: BenchOf,
    key: PartKey,
    back: Annotated[str, Query(alias="for", max_length=40)] = "",
    there: bool = False,
) -> Response:
    """One table of the plan and all that is in it; of a key that is no table, that of the table it stands in.

    `there` says that it was to be added and is there already.
    """
    found = forms_view.part_page(bench, key, back)
    if found is not None:
        shown: dict[str, Any] = {"one": found, "view": forms_view, "after": _after(bench), "there": there}
        return page(request, bench, "forms/part.html", **shown)
    near = forms_view.nearest_form(forms_view.sheet_on(bench), key)
    if near is None:
        raise HTTPException(404, "The plan has no such part.")
    return RedirectResponse(
        f"{forms_view.href_of(near.key)}{f'?for={back}' if back.isidentifier() else ''}", 303
    )


@router.get(
    "/plan/new/{key:path}",
    response_class=HTMLResponse,
    responses={303: {"description": "It is there already, and has a page of its own."}, **MISSING},
)
async def new(
    request: Request,
    bench: BenchOf,
    key: PartKey,
    name: QueryName = "",
    like: QueryKey = "",
    of: QueryKey = "",
) -> Response:
    """An empty form for a part, or a copy of one that is there. Nothing is saved until it is whole.

    `of` is filled in where the part is a row of the price book.
    """
    try:
        wanted = forms_view.key_under(key, name)
        if forms_view.is_there(bench, wanted):
            return RedirectResponse(f"{forms_view.href_of(wanted)}?there=true", 303)
        found = forms_view.new_page(bench, wanted, like, of)
    except PlanError as error:
        raise HTTPException(404, str(error) or "No part may stand there.") from error
    if found is None:
        raise HTTPException(404, "No new part may stand there.")
    return page(request, bench, "forms/new.html", one=found, view=forms_view)


@router.get("/plan/new", status_code=303, response_class=RedirectResponse)
async def new_in(table: QueryKey, name: QueryName) -> RedirectResponse:
    """To the form of a new part, by its table and its name."""
    return RedirectResponse(f"/plan/new/{forms_view.quoted(table)}?{urlencode({'name': name})}", 303)


@router.get("/plan/{group}", response_class=HTMLResponse, responses=MISSING)
async def one_group(request: Request, bench: BenchOf, group: GroupName) -> HTMLResponse:
    """One group of the plan."""
    return page(request, bench, "forms/group.html", group=_group(bench, group), view=forms_view)


@router.get("/file", response_class=HTMLResponse)
async def file(request: Request, bench: BenchOf) -> HTMLResponse:
    """The plan's file in an editor, with its faults."""
    return page(request, bench, "forms/file.html", text=bench.text, faults=bench.faults)


def _after(bench: BenchOf) -> list[tuple[str, str, tuple[Change, ...]]]:
    """What the last change made here did to answers, by question; nothing before the first."""
    if bench.history.at < 1:
        return []
    standings = bench.standings
    return [
        (standings[name].question, f"/question/{name}", told[:4])
        for name, told in bench.last_changes().items()
        if standings[name].current
    ]


# Twins


@router.get("/api/forms")
async def groups(bench: BenchOf) -> list[GroupTold]:
    """Every group of the plan, with the tables in it."""
    return [
        GroupTold(
            name=group.name,
            title=group.title,
            told=group.told,
            faults=len(group.all_faults),
            parts=[
                PartTold(key=form.key, title=form.title, faults=len(form.all_faults))
                for form in group.all_forms
                if form.key
            ],
        )
        for group in forms_view.sheet_on(bench).groups
    ]


@router.get("/api/forms/group/{group}", responses=MISSING)
async def group_twin(bench: BenchOf, group: GroupName) -> Group:
    """One group of the plan with its forms and their fields."""
    return _group(bench, group)


@router.get("/api/forms/part/{key:path}", responses=MISSING)
async def part_twin(bench: BenchOf, key: PartKey) -> Form:
    """The form of one table of the plan, with those in it."""
    found = forms_view.part_page(bench, key, "")
    if found is None:
        raise HTTPException(404, "The plan has no such part.")
    return found.form


@router.get("/api/forms/new/{key:path}", responses=MISSING)
async def new_twin(bench: BenchOf, key: PartKey, like: QueryKey = "") -> Form:
    """The empty form of a part that may be added at a key, or one filled as a part that is there."""
    try:
        found = forms_view.new_form(bench, key, like)
    except PlanError as error:
        raise HTTPException(404, str(error) or "No part may stand there.") from error
    if found is None:
        raise HTTPException(404, "No new part may stand there.")
    return found


def _group(bench: BenchOf, name: str) -> Group:
    found = next((group for group in forms_view.sheet_on(bench).groups if group.name == name), None)
    if found is None:
        raise HTTPException(404, f"The plan has no group called {name}.")
    return found


# Changes


@router.post("/api/forms/preview", responses=LOOKS, response_model=Looked)
async def preview(bench: BenchOf, body: Typing) -> Looked | JSONResponse:
    """How words are understood, and what is wrong with them. Nothing is saved."""
    return _looked(lambda: forms_changes.looked(bench, body.fields))


@router.post("/api/forms/save", responses=REFUSALS, response_model=Written)
async def save(bench: BenchOf, body: TypingOn) -> Written | JSONResponse:
    """Save words typed into fields. Refused where a field is no longer as it was shown."""
    return _told_as_written(bench, lambda: forms_changes.save(bench, body.fields, body.base))


@router.post("/api/forms/try", responses=REFUSALS, response_model=Written)
async def try_out(bench: BenchOf, body: TypingOn) -> Written | JSONResponse:
    """Answer for words typed into fields on a scratch copy. Nothing is saved."""
    return _told_as_written(bench, lambda: forms_changes.try_out(bench, body.fields, body.base))


@router.post("/api/forms/new/preview", responses=LOOKS, response_model=Looked)
async def preview_part(bench: BenchOf, body: PartIn) -> Looked | JSONResponse:
    """How the form of a new part is understood. Nothing is saved."""
    return _looked(lambda: forms_changes.looked_part(bench, body))


@router.post("/api/forms/new", responses=REFUSALS, response_model=Done)
async def add(bench: BenchOf, body: PartOn) -> Done | JSONResponse:
    """Add a part whole."""
    why = f"{words_of_key(body.key)}, added"
    return _written(bench, lambda: forms_changes.with_new(bench, body), body.base, why)


@router.post("/api/forms/remove", responses=REFUSALS, response_model=Done)
async def remove(bench: BenchOf, body: KeyOn) -> Done | JSONResponse:
    """Take a part out with all that is in it."""
    why = f"{words_of_key(body.key)}, taken out"
    return _written(bench, lambda: removed(bench.text, body.key), body.base, why)


@router.post("/api/forms/rename", responses=REFUSALS, response_model=Done)
async def rename(bench: BenchOf, body: NameOn) -> Done | JSONResponse:
    """Give a part another name, here and wherever the plan names it."""
    why = f"{words_of_key(body.key)}, now called {body.name}"
    return _written(bench, lambda: renamed_everywhere(bench.text, body.key, body.name), body.base, why)


def _written(bench: Bench, text: Callable[[], str], base: str, why: str) -> Done | JSONResponse:
    """Save another text of the plan; what was done comes back in words."""

    def write() -> str:
        bench.save_text(text(), base, why)
        return why

    return changed(bench, write)


def _told_as_written(bench: Bench, change: Callable[[], dict[str, str]]) -> Written | JSONResponse:
    """Make a change; what its fields show then comes back with it."""
    shown: dict[str, str] = {}
    done = changed(bench, lambda: shown.update(change()))
    return (
        done
        if isinstance(done, JSONResponse)
        else Written(**done.model_dump(), fields=shown, trial=bench.trial.number if bench.trial else 0)
    )


def _looked(look: Callable[[], forms_changes.Seen]) -> Looked | JSONResponse:
    try:
        seen = look()
    except PlanError as error:
        return refused(422, "This cannot be written into the plan.", error.faults)
    except forms_changes.TakenError as error:
        return refused(422, str(error), taken=True)
    told = {
        key: FieldTold(
            echo=field.echo,
            shows=field.typed,
            now=seen.now[key],
            gone=False,
            faults=[FaultOut.of(fault, field.kind) for fault in field.faults],
        )
        for key, field in seen.fields.items()
    }
    told |= {key: FieldTold(echo="", shows="", now="", gone=True, faults=[]) for key in seen.gone}
    return Looked(sound=seen.sound, fields=told, others=list(map(FaultOut.of, seen.others)))
