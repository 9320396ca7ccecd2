"""What every route is given: the bench, and the page as templates."""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Annotated, Any, TypeAlias

from fastapi import Depends, Request
from jinja2 import Environment, FileSystemLoader, StrictUndefined
from starlette.responses import HTMLResponse

from tidestead.plan.forms import said
from tidestead.web.bench import Bench

FOLDER = Path(str(resources.files("tidestead.web")))


def bench_of(request: Request) -> Bench:
    """The bench this app serves."""
    bench: Bench = request.app.state.bench
    return bench


BenchOf: TypeAlias = Annotated[Bench, Depends(bench_of)]


@cache
def environment() -> Environment:
    """The templates; whatever is put into them is escaped, and a name that is missing is an error."""
    made = Environment(
        loader=FileSystemLoader(FOLDER / "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    made.filters["said"] = said
    return made


def page(
    request: Request, bench: Bench, template: str, find: Callable[[], Any] | None = None, **values: Any
) -> HTMLResponse:
    """A page in its frame; where only a part is asked for (`X-Part`), the rest is left out.

    `find` gives what the page shows as `view`; it is called only where more than the frame is asked for.
    """
    from tidestead.web.frame import frame  # noqa: PLC0415 - frame builds on this module

    part = request.headers.get("x-part", "")
    shown: dict[str, Any] = {"frame": frame(bench, request.url.path), "part": part}
    if part in ("top", "nav"):
        return HTMLResponse(environment().get_template("frame.html").render(shown))
    shown |= values if find is None else {**values, "view": find()}
    return HTMLResponse(environment().get_template(template).render(shown))
