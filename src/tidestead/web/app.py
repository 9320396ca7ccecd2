"""The app: the bench, its routes, its guard, and the watch on the plan's file."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import AsyncIterator, Iterable
from contextlib import asynccontextmanager, suppress

from fastapi import FastAPI, HTTPException, Request
from fastapi.exceptions import RequestValidationError
from starlette.exceptions import HTTPException as StarletteHTTPException
from starlette.middleware.gzip import GZipMiddleware
from starlette.responses import HTMLResponse, JSONResponse, Response
from starlette.staticfiles import StaticFiles

from tidestead import __version__
from tidestead.web import events, routes_api, routes_first, routes_forms, routes_pages, routes_remedies
from tidestead.web.bench import Bench
from tidestead.web.bodies import FaultOut, Refused
from tidestead.web.guard import BODY_LIMIT, Guard
from tidestead.web.openapi import described
from tidestead.web.places import FOLDER, page

LOOK_EVERY = 0.25
"""Seconds between looks at the plan's file."""
LOCAL = ("127.0.0.1", "localhost", "[::1]")


def build(bench: Bench, port: int, hosts: Iterable[str] = LOCAL) -> FastAPI:
    """The app for one bench, served at a port under these names only."""

    @asynccontextmanager
    async def life(_: FastAPI) -> AsyncIterator[None]:
        bench.start(asyncio.get_running_loop())
        watch = asyncio.create_task(_watch(bench))
        try:
            yield
        finally:
            watch.cancel()
            with suppress(asyncio.CancelledError):  # by the line above
                await watch
            bench.stop()

    app = FastAPI(
        title="Tidestead",
        version=__version__,
        description="The page of one plan, and its JSON twins.",
        lifespan=life,
        docs_url=None,
        redoc_url=None,
        openapi_url="/api/openapi.json",
        max_body_size=BODY_LIMIT,
        telemetry={"tracing": False},
    )
    app.state.bench = bench
    for router in (
        routes_pages.router,
        routes_api.router,
        routes_remedies.router,
        routes_forms.router,
        routes_first.router,
        events.router,
    ):
        app.include_router(router)
    app.mount("/static", StaticFiles(directory=FOLDER / "static"), name="static")
    app.add_exception_handler(RequestValidationError, _invalid)
    app.add_exception_handler(StarletteHTTPException, _missing)
    app.add_middleware(GZipMiddleware, minimum_size=1_000, compresslevel=5)
    app.add_middleware(Guard, hosts=tuple(hosts), port=port)
    app.openapi = lambda: described(app)  # type: ignore[method-assign] # the way the library documents
    return app


async def _watch(bench: Bench) -> None:
    """See within a moment what another program has done to the file."""
    while True:
        await asyncio.sleep(LOOK_EVERY)
        try:
            bench.look()
        except Exception:  # whatever it was, the next look may go well; the page must not grow deaf
            logging.getLogger("tidestead").exception("looking at the plan's file")


async def _invalid(_: Request, error: Exception) -> Response:
    """What was sent does not have the form it must have: where, and what is allowed."""
    assert isinstance(error, RequestValidationError)
    found = [(".".join(map(str, one["loc"])), str(one["msg"])) for one in error.errors()[:50]]
    faults = [
        FaultOut(where=where, words=where, line=None, given="", allowed=words, advice="", said=words)
        for where, words in found
    ]
    return JSONResponse(Refused(words="What was sent cannot be read.", faults=faults).model_dump(), 422)


async def _missing(request: Request, error: Exception) -> Response:
    """A page where a page was asked for, else JSON."""
    assert isinstance(error, HTTPException | StarletteHTTPException)
    words = "There is no page at this address." if error.detail == "Not Found" else str(error.detail)
    path = request.url.path
    as_page = not path.startswith("/api/") and not path.endswith((".svg", ".csv")) and path != "/events"
    if not as_page:
        return JSONResponse(
            Refused(words=words).model_dump(), error.status_code, headers=dict(error.headers or {})
        )
    title = "There is nothing here" if error.status_code == 404 else "That cannot be done"
    shown: HTMLResponse = page(request, request.app.state.bench, "lost.html", title=title, words=words)
    shown.status_code = error.status_code
    return shown
