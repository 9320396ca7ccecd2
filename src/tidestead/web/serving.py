"""Serves the page of a plan until it is told to stop."""

from __future__ import annotations

import asyncio
import gc
import socket
import threading
import webbrowser
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

import uvicorn
from uvicorn.protocols.http.h11_impl import H11Protocol

from tidestead.core.errors import TidesteadError
from tidestead.core.units import System
from tidestead.web.app import LOCAL, build
from tidestead.web.bench import Bench
from tidestead.web.workers import Lanes

FIRST_PORT, LAST_PORT = 8340, 8359
"""Tried in turn where none is asked for."""
_GOODBYE = 2
_SELDOM = (200_000, 50, 50)
"""Objects made, and sweeps of the young, before memory is swept unasked."""
_FIRST_REQUEST = 15.0
"""Seconds within which a new connection must have asked for something, head and all."""


class PortError(TidesteadError):
    """No port could be had."""


def serve(
    path: Path,
    *,
    say: Callable[[str], None],
    port: int | None = None,
    listen: str = "127.0.0.1",
    browser: bool = True,
    system: System | None = None,
) -> None:
    """Serve until Ctrl-C. `say` is told the address. Raises PortError where no port can be had."""
    with bound(listen, port) as listener:
        at = listener.getsockname()[1]
        hosts = LOCAL if listen in ("127.0.0.1", "localhost", "::1") else (*LOCAL, *names_of(listen))
        bench = Bench(path, Lanes(), system)
        bench.at_rest = sweep
        gc.set_threshold(*_SELDOM)
        config = uvicorn.Config(
            build(bench, at, hosts),
            log_level="warning",
            access_log=False,
            server_header=False,
            proxy_headers=False,
            timeout_keep_alive=15,
            timeout_graceful_shutdown=_GOODBYE,
            http=Prompt,
            ws="none",
        )
        shown = "127.0.0.1" if listen in ("0.0.0.0", "::") else listen
        address = f"http://{f'[{shown}]' if ':' in shown else shown}:{at}/"
        server = _Server(config, lambda: _ready(address, say, browser))
        server.bench = bench
        server.run([listener])


def sweep() -> None:
    """Clear memory away while nobody waits: a sweep of all there is takes as long as an answer.

    What is left is looked at no more; it goes when nothing holds it, as an answer does when there is a newer one.
    """
    gc.collect()
    gc.freeze()


class Prompt(H11Protocol):
    """Lets nobody hold a connection without asking for something in good time."""

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override] # as the library has it
        super().connection_made(transport)
        self.loop.call_later(_FIRST_REQUEST, self._still_silent)

    def _still_silent(self) -> None:
        if self.cycle is None and not self.transport.is_closing():
            self.transport.close()


class _Server(uvicorn.Server):
    """Says when it is ready, and lets open event streams go when it ends."""

    bench: Bench

    def __init__(self, config: uvicorn.Config, ready: Callable[[], None]) -> None:
        super().__init__(config)
        self._ready = ready

    async def startup(self, sockets: list[socket.socket] | None = None) -> None:
        await super().startup(sockets)
        if self.started:
            self._ready()

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        self.bench.listeners.tell({"kind": "closing"})
        await super().shutdown(sockets)


def _ready(address: str, say: Callable[[str], None], browser: bool) -> None:
    say(address)
    if browser:
        threading.Thread(target=_open, args=(address,), daemon=True).start()


def _open(address: str) -> None:
    with suppress(webbrowser.Error, OSError):  # the address has been told: it can be opened by hand
        webbrowser.open(address)


def bound(listen: str, port: int | None) -> socket.socket:
    """A socket at the port asked for, or at the first that is free. Raises PortError."""
    family = socket.AF_INET6 if ":" in listen else socket.AF_INET
    wanted = range(FIRST_PORT, LAST_PORT + 1) if port is None else (port,)
    why = ""
    for number in wanted:
        # named as TCP, so that asyncio sends each piece at once; else the second waits 40 ms for a receipt of the first
        listener = socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP)
        listener.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            listener.bind((listen, number))
            listener.listen(128)  # from now on nobody else can have it
        except OSError as error:
            why = (error.strerror or str(error)).lower()
            listener.close()
            continue
        return listener
    tried = f"port {port}" if port is not None else f"ports {FIRST_PORT} to {LAST_PORT}"
    raise PortError(f"{listen}, {tried}: {why}. Give another with --port, or close what uses it.")


def names_of(listen: str) -> tuple[str, ...]:
    """The names under which a page that listens on the network may be asked for."""
    if listen not in ("0.0.0.0", "::"):
        return (f"[{listen}]" if ":" in listen else listen.lower(),)
    name = socket.gethostname().lower()
    found = {name, f"{name}.local"}
    with suppress(OSError):  # a name that nobody resolves has no address
        found |= {str(info[4][0]) for info in socket.getaddrinfo(name, None, socket.AF_INET)}
    return tuple(sorted(found))
