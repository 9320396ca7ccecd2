"""What happens, told to open pages as server-sent events."""

from __future__ import annotations

import asyncio
import json
from collections.abc import AsyncIterator

from fastapi import APIRouter, HTTPException
from starlette.responses import StreamingResponse

from tidestead.web.listeners import TooManyPages
from tidestead.web.places import BenchOf

router = APIRouter()

_BEAT = 15.0
"""Seconds after which a silent stream says that it still lives."""


@router.get(
    "/events",
    response_class=StreamingResponse,
    responses={
        200: {"content": {"text/event-stream": {}}},
        503: {"description": "Too many pages listen already."},
    },
)
async def events(bench: BenchOf) -> StreamingResponse:
    """News of the plan and of answers, as they come."""
    try:
        queue = bench.listeners.add()
    except TooManyPages as error:
        raise HTTPException(503, str(error)) from error

    async def stream() -> AsyncIterator[str]:
        try:
            hello = {
                "digest": bench.digest,
                "count": bench.count,
                "told": bench.listeners.told,
                "faults": len(bench.faults),
                "missing": bench.missing,
            }
            yield f"retry: 1000\nevent: hello\ndata: {json.dumps(hello)}\n\n"
            while (
                bench.listeners.is_in(queue) or not queue.empty()
            ):  # one that is dropped comes back and reads anew
                try:
                    news = await asyncio.wait_for(queue.get(), _BEAT)
                except TimeoutError:
                    yield ": still here\n\n"
                    continue
                yield f"data: {json.dumps(news)}\n\n"
                if news["kind"] == "closing":
                    return
        finally:
            bench.listeners.leave(queue)

    return StreamingResponse(stream(), media_type="text/event-stream")
