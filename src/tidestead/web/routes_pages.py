"""The standing page, the page of each question, its pictures, working and tables."""

from __future__ import annotations

import csv
import io
from typing import Annotated, Any

from fastapi import APIRouter, HTTPException, Path, Query, Request
from starlette.concurrency import run_in_threadpool
from starlette.responses import HTMLResponse, Response

from tidestead.core.answer import Answer
from tidestead.report.steps import told_step
from tidestead.web import standing_page
from tidestead.web.bench import Bench
from tidestead.web.bodies import Refused
from tidestead.web.pictures import picture_named
from tidestead.web.places import BenchOf, environment, page
from tidestead.web.question import Chosen, anchor, marks_of, question

router = APIRouter(default_response_class=HTMLResponse)

Subject = Annotated[str, Path(pattern="^[a-z_]{1,40}$")]
Name = Annotated[str, Path(max_length=200)]
MISSING: dict[int | str, dict[str, Any]] = {
    404: {"model": Refused, "description": "There is nothing of that name."}
}


@router.get("/")
async def standing(request: Request, bench: BenchOf) -> HTMLResponse:
    """Where the whole stands: twelve questions, what changed, the system drawn."""
    return page(request, bench, "standing.html", find=lambda: standing_page.standing(bench))


@router.get("/question/{subject}", responses=MISSING)
async def one_question(
    request: Request,
    bench: BenchOf,
    subject: Subject,
    picture: Annotated[str, Query(max_length=200)] = "",
    lines: Annotated[str, Query(max_length=200)] = "",
) -> HTMLResponse:
    """One question: sentence, picture, checks, what to do, assumptions, working, tables.

    `lines`, such as trade:timber, picks rows out of the list of lines. With the header `X-Folded: closed` the checks
    that are folded away are counted and not sent.
    """
    answer_of(bench, subject)
    bench.looked_at = subject
    whole = not request.headers.get("x-part")
    every = request.headers.get("x-folded", "") != "closed"
    return page(
        request,
        bench,
        "question.html",
        find=lambda: question(bench, subject, Chosen(picture, lines), drawn=whole, every=every),
    )


@router.get("/question/{subject}/working/{number}", responses=MISSING)
async def one_working(
    request: Request, bench: BenchOf, subject: Subject, number: Annotated[int, Path(ge=0, le=100_000)]
) -> HTMLResponse:
    """The steps that lead to one check, formulas set."""
    answer = answer_of(bench, subject)
    if number >= len(answer.working):
        raise HTTPException(404, "There is no such working.")
    marks = marks_of(answer)
    working = answer.working[number]
    values: dict[str, Any] = {
        "working": working,
        "steps": [told_step(step, bench.system) for step in working.steps],
        "marks": marks,
        "anchor": anchor,
        "subject": subject,
        "question": answer.question,
    }
    if request.headers.get("x-part"):
        return HTMLResponse(environment().get_template("working_steps.html").render(values))
    return page(request, bench, "working.html", **values)


@router.get(
    "/question/{subject}/picture/{name}.svg",
    response_class=Response,
    responses={200: {"content": {"image/svg+xml": {}}}, **MISSING},
)
async def picture_alone(request: Request, bench: BenchOf, subject: Subject, name: Name) -> Response:
    """One picture as a file of its own; with `X-Part`, as it is put into the page."""
    answer = answer_of(bench, subject)
    found = picture_named(answer, name)
    if found is None:
        raise HTTPException(404, f"There is no picture of that name for {subject}.")
    alone = not request.headers.get("x-part")
    text = await run_in_threadpool(bench.drawings.svg, found, answer, bench.system, alone=alone)
    return Response(text, media_type="image/svg+xml")


@router.get(
    "/question/{subject}/table/{name}.csv",
    response_class=Response,
    responses={200: {"content": {"text/csv": {}}}, **MISSING},
)
async def table_file(bench: BenchOf, subject: Subject, name: Name) -> Response:
    """One table as comma-separated values: SI numbers, the unit in the head of the column."""
    answer = answer_of(bench, subject)
    table = next((table for table in answer.tables if table.id == name), None)
    if table is None:
        raise HTTPException(404, f"There is no table of that name for {subject}.")
    sheet = io.StringIO()
    writer = csv.writer(sheet)
    writer.writerow(
        [f"{column.head} ({column.unit})" if column.unit else column.head for column in table.columns]
    )
    writer.writerows([["" if cell is None else _plain(cell) for cell in row] for row in table.rows])
    headers = {"content-disposition": f'attachment; filename="{_file_name(table.id)}.csv"'}
    return Response("\ufeff" + sheet.getvalue(), media_type="text/csv; charset=utf-8", headers=headers)


def _plain(cell: float | str) -> float | str:
    """A cell that no spreadsheet takes for a formula."""
    return f"'{cell}" if isinstance(cell, str) and cell[:1] in "=+-@\t\r" and cell[:1] else cell


def _file_name(name: str) -> str:
    return "".join(letter if letter.isalnum() or letter in "._-" else "-" for letter in name)[:100]


def answer_of(bench: Bench, subject: str) -> Answer:
    """The last answer to a question; an empty one before the first."""
    standing = bench.standings.get(subject)
    if standing is None:
        raise HTTPException(404, f"There is no question called {subject}.")
    return standing.answer or Answer(subject, standing.question, "This has not been answered yet.")
