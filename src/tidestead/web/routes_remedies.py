"""Remedies on the page: to seek them, to see what was found, to do one."""

from __future__ import annotations

from dataclasses import replace
from typing import Annotated

from fastapi import APIRouter, Query
from starlette.responses import JSONResponse

from tidestead.web.bench import Bench, NothingToDo, StaleError
from tidestead.web.bodies import Done
from tidestead.web.finding import WHOLE
from tidestead.web.places import BenchOf
from tidestead.web.remedies_bodies import FindOn, RemediesOut, StopOf, WriteOn
from tidestead.web.routes_api import REFUSALS, changed
from tidestead.web.rows import TO_MEND

router = APIRouter(prefix="/api/remedies")


@router.get("")
async def found(bench: BenchOf, check: Annotated[str, Query(max_length=300)] = WHOLE) -> RemediesOut:
    """How the search for remedies of a check stands, and what it has found; without a check that for the whole."""
    sought = bench.finding.sought(bench.digest, check)
    return RemediesOut.of_search(sought, bench.digest, bench.path.name)


@router.post("/find", responses=REFUSALS, response_model=Done)
async def find(bench: BenchOf, body: FindOn) -> Done | JSONResponse:
    """Search for remedies of a check that fails or is near; another search is given up. Nothing is saved."""
    return changed(bench, lambda: _find(bench, body))


@router.post("/stop", responses=REFUSALS, response_model=Done)
async def stop(bench: BenchOf, body: StopOf) -> Done | JSONResponse:
    """Give up the search for remedies of a check; what it found so far is forgotten, what an earlier one did stands."""
    return changed(bench, lambda: _stop(bench, body.check))


@router.post("/write", responses=REFUSALS, response_model=Done)
async def write(bench: BenchOf, body: WriteOn) -> Done | JSONResponse:
    """Do a remedy that was found: its edits are made in the plan's file, as any edit is, and can be undone."""
    return changed(bench, lambda: _write(bench, body))


def _find(bench: Bench, body: FindOn) -> None:
    bench.look()
    if body.base != bench.digest:
        raise StaleError("The plan has changed since. Look at how it stands now, then search again.")
    if bench.loaded is None or bench.faults:
        raise StaleError("The plan's file has faults. Mend it first, then search.")
    open_ones = {
        check.id
        for one in bench.standings.values()
        if one.answer is not None
        for check in one.answer.checks
        if check.verdict in TO_MEND
    }
    if body.check not in open_ones and not (body.check == WHOLE and open_ones):
        raise NothingToDo("There is no such check that fails or is near.")
    bench.finding.ask(replace(bench.loaded, path=bench.path.resolve()), body.check)


def _stop(bench: Bench, check: str) -> None:
    if bench.finding.sought(bench.digest, check).state != "working":
        raise NothingToDo("No such search is at work.")
    bench.finding.give_up()


def _write(bench: Bench, body: WriteOn) -> str:
    words, edits = bench.finding.edits(body.base, body.check, body.number)
    bench.save(edits, body.base, words)
    return words
