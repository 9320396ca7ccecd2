"""What is let in: our own hosts, our own pages, small bodies, in good time; and what a browser may load.

A page in another tab could send forms here, and a name that points to this machine could read answers: so the host
that is asked for must be one of ours, and whoever changes something must come from our own page.
"""

from __future__ import annotations

import asyncio
import time
from collections.abc import Iterable

from starlette.datastructures import Headers, MutableHeaders
from starlette.responses import JSONResponse
from starlette.types import ASGIApp, Message, Receive, Scope, Send

BODY_LIMIT = 2_000_000
"""Bytes of a request: a plan has some ten thousand."""
BODY_SECONDS = 10.0

_SAFE = ("GET", "HEAD", "OPTIONS")
_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)
_DRAWING = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'self'"
"""A drawing opened by itself carries its own style sheet."""
_HEADERS = {
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(), microphone=(), geolocation=()",
}


class Guard:
    """Stands before the whole app."""

    def __init__(self, app: ASGIApp, hosts: Iterable[str], port: int) -> None:
        self.app = app
        names = list(hosts)
        self.hosts = frozenset(f"{name}:{port}" for name in names) | (
            frozenset(names) if port == 80 else frozenset()
        )
        self.origins = frozenset(f"http://{host}" for host in self.hosts)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        refusal = self._refusal(scope["method"], scope["path"], headers)
        if refusal is not None:
            status, words = refusal
            response = JSONResponse({"words": words, "faults": []}, status, headers={"connection": "close"})
            await response(scope, receive, _dressed(send, scope["path"]))
            return
        await self.app(scope, _in_time(receive), _dressed(send, scope["path"]))

    def _refusal(self, method: str, path: str, headers: Headers) -> tuple[int, str] | None:
        """Why a request is not let in, with its status."""
        host = headers.get("host", "").lower()
        if host not in self.hosts or len(headers.getlist("host")) != 1:
            return (
                400,
                "This address is not one the page is served at. Use the address that was printed at the start.",
            )
        if method in _SAFE:
            from_elsewhere = headers.get("sec-fetch-site", "none") in ("cross-site", "same-site")
            data = path.startswith("/api/") or path == "/events"
            return (403, "Figures are given to the page itself only.") if from_elsewhere and data else None
        origin = headers.get("origin")
        if origin is not None and origin.lower() not in self.origins:
            return 403, "Changes are taken from the page itself only, not from another site."
        if origin is None and headers.get("sec-fetch-site", "same-origin") not in ("same-origin", "none"):
            return 403, "Changes are taken from the page itself only, not from another site."
        kind = headers.get("content-type", "").partition(";")[0].strip().lower()
        if method == "POST" and kind != "application/json":
            return 415, "Send JSON, with the content type application/json."
        return None


def _in_time(receive: Receive) -> Receive:
    """A body that has not come whole in time ends the request; an event stream, whose body has come, may wait."""
    whole = False
    begun = time.monotonic()

    async def take() -> Message:
        nonlocal whole
        if whole:
            return await receive()
        try:
            left = max(0.01, begun + BODY_SECONDS - time.monotonic())
            message = await asyncio.wait_for(receive(), left)
        except TimeoutError:
            whole = True
            return {"type": "http.disconnect"}
        whole = message["type"] != "http.request" or not message.get("more_body", False)
        return message

    return take


def _dressed(send: Send, path: str) -> Send:
    """Every reply with the headers that keep it to ourselves."""

    async def dressed(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in _HEADERS.items():
                headers[name] = value
            headers["content-security-policy"] = _DRAWING if path.endswith(".svg") else _POLICY
            if not path.startswith("/static/"):
                headers["cache-control"] = "no-store"
        await send(message)

    return dressed
