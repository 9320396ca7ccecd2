"""The published description of the door is complete and true: schemathesis sends what it allows and what not."""

from __future__ import annotations

import shutil
import socket
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any, TypeAlias

import pytest
import schemathesis
import uvicorn
from fastapi import FastAPI
from fastapi.routing import APIRoute
from hypothesis import HealthCheck, given, settings
from hypothesis.errors import Unsatisfiable
from schemathesis import GenerationMode
from schemathesis.config import SchemathesisConfig
from schemathesis.core.errors import InvalidSchema
from schemathesis.core.result import Ok, Result
from schemathesis.schemas import APIOperation
from schemathesis.specs.openapi.checks import positive_data_acceptance

from tests.journeys.page_parts import Still
from tidestead.web import events, routes_api, routes_first, routes_forms, routes_pages, routes_remedies
from tidestead.web.app import build
from tidestead.web.bench import Bench
from tidestead.web.serving import bound

Operation: TypeAlias = APIOperation[Any, Any, Any, Any]
ENDLESS = "/events"
"""It never ends; test_page_events reads it."""
CONFIG = SchemathesisConfig.from_dict(
    {"checks": {"negative_data_rejection": {"expected-statuses": ["4XX"]}}}  # too large is refused as 413
)
PACKHOUSE = Path(__file__).parents[2] / "examples" / "packhouse.toml"


@contextmanager
def running(app: FastAPI, listener: socket.socket) -> Iterator[None]:
    """The app served from a thread of this process."""
    server = uvicorn.Server(uvicorn.Config(app, log_level="error", timeout_graceful_shutdown=1, ws="none"))
    thread = threading.Thread(target=server.run, args=([listener],), daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.02)
    yield
    server.should_exit = True
    thread.join(10.0)


DESCRIBED = build(Bench(Path("nowhere.toml"), Still()), 1).openapi()
OPERATIONS = sorted(
    f"{method.upper()} {path}"
    for path, methods in DESCRIBED["paths"].items()
    for method in methods
    if path != ENDLESS
)


@pytest.fixture(scope="module")
def address(tmp_path_factory: pytest.TempPathFactory) -> Iterator[str]:
    folder = tmp_path_factory.mktemp("contract")
    with pytest.MonkeyPatch.context() as patched:
        patched.setenv("XDG_CACHE_HOME", str(folder / "cache"))
        listener = bound("127.0.0.1", None)
        port = listener.getsockname()[1]
        bench = Bench(Path(shutil.copy(PACKHOUSE, folder)), Still())
        with running(build(bench, port), listener):
            yield f"http://127.0.0.1:{port}"


def sound(found: Result[Operation, InvalidSchema]) -> Operation:
    """An operation that the description describes as it must."""
    assert isinstance(found, Ok), found
    return found.ok()


def methods_of(route: APIRoute) -> set[str]:
    assert route.methods is not None, route.path
    return route.methods


@pytest.mark.parametrize("label", OPERATIONS)
def test_what_is_sent_is_answered_as_described(address: str, label: str) -> None:
    """What the description allows is answered as it says, what it does not allow is refused as it says.

    What has the form of an edit may still be refused as a plan: that is what faults are for.
    """
    schema = schemathesis.openapi.from_dict(DESCRIBED, config=CONFIG)
    operation = next(one for one in map(sound, schema.get_all_operations()) if one.label == label)
    for mode in (GenerationMode.POSITIVE, GenerationMode.NEGATIVE):
        sent = 0

        # silenced: one open door answers all examples, and many bodies are refused as they are meant to be
        @settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
        @given(case=operation.as_strategy(generation_mode=mode))
        def answered(case: schemathesis.Case[Operation]) -> None:
            nonlocal sent
            sent += 1
            case.call_and_validate(base_url=address, excluded_checks=[positive_data_acceptance])

        with suppress(Unsatisfiable):  # nothing can be wrong with a page that takes nothing
            answered()
        assert sent or mode is GenerationMode.NEGATIVE


def test_every_route_is_described() -> None:
    wanted = {
        f"{method} {path}"
        for module in (events, routes_api, routes_first, routes_forms, routes_pages, routes_remedies)
        for route in module.router.routes
        if isinstance(route, APIRoute)
        for method in methods_of(route)
        for path in [route.path.replace(":path}", "}")]
    }
    assert wanted == {*OPERATIONS, f"GET {ENDLESS}"}
    for path, methods in DESCRIBED["paths"].items():
        for method, told in methods.items():
            assert told.get("description"), f"{method} {path} is not described"


def test_every_page_has_a_twin() -> None:
    """Each page under / has its figures under /api; a picture or a table is a twin already."""
    paths = set(DESCRIBED["paths"])
    twins = {
        "/": "/api/standing",
        "/question/{subject}": "/api/question/{subject}",
        "/question/{subject}/working/{number}": "/api/question/{subject}",
        "/file": "/api/plan",
        "/plan": "/api/forms",
        "/plan/{group}": "/api/forms/group/{group}",
        "/start": "/api/first",
        "/assumed": "/api/assumed",
    }
    pages = {
        path
        for path in paths
        if not path.startswith("/api")
        and not path.endswith((".svg", ".csv"))
        and path not in (ENDLESS, "/plan/new")  # the latter only leads on
    }
    for page in pages:
        twin = twins.get(page) or (
            "/api/forms" + page.removeprefix("/plan") if page.startswith("/plan") else ""
        )
        assert twin in paths, f"{page} has no twin"
