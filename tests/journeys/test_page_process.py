"""The command that serves the page: it says where, tells what happens, ends cleanly and leaves nothing."""

from __future__ import annotations

import asyncio
import json
import os
import signal
import socket
import subprocess
import sys
import time
from pathlib import Path
from urllib.request import urlopen

import pytest

from tests.journeys.browser import served
from tidestead.cli import main
from tidestead.web.serving import bound

pytestmark = pytest.mark.skipif(sys.platform == "win32", reason="signals and /proc as on Linux")


def children(pid: int, count: int) -> list[int]:
    """The processes that any thread of a process has begun, once there are so many."""
    deadline = time.monotonic() + 30.0
    while True:
        tasks = Path(f"/proc/{pid}/task").glob("*/children")
        found = [int(one) for task in tasks for one in task.read_text("ascii").split()]
        if len(found) >= count or time.monotonic() > deadline:
            return found
        time.sleep(0.05)


def gone(pids: list[int]) -> bool:
    """Whether all of them are, within a while; one that is no more than an entry to be collected is."""
    deadline = time.monotonic() + 30.0
    while time.monotonic() < deadline:
        if not any(_lives(pid) for pid in pids):
            return True
        time.sleep(0.05)
    return False


def _lives(pid: int) -> bool:
    try:
        return ") Z " not in Path(f"/proc/{pid}/stat").read_text("utf-8")
    except OSError:
        return False


@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM, signal.SIGKILL])
def test_however_it_ends_nothing_is_left(plan: Path, tmp_path: Path, how: signal.Signals) -> None:
    with served(plan, tmp_path / "cache") as found:
        with urlopen(found.address) as reply:
            assert b"<h1>" in reply.read()
        below = children(found.process.pid, 2)
        assert len(below) >= 2, "two lanes are at work"
        found.process.send_signal(how)
        found.process.wait(30)
        assert gone(below)
        if how == signal.SIGINT:
            assert found.process.returncode in (0, 130)
        with pytest.raises(OSError, match="refused"):
            urlopen(found.address)


def test_events_tell_of_an_edit_made_elsewhere_within_a_second(plan: Path, tmp_path: Path) -> None:
    with served(plan, tmp_path / "cache") as found, urlopen(found.address + "events", timeout=60) as stream:
        assert stream.headers["content-type"].startswith("text/event-stream")
        lines = (line.decode() for line in stream)
        hello = next(line for line in lines if line.startswith("data: "))
        digest = json.loads(hello.removeprefix("data: "))["digest"]
        plan.write_text(plan.read_text("utf-8") + "# a remark\n", "utf-8")
        news = (json.loads(line.removeprefix("data: ")) for line in lines if line.startswith("data: "))
        told = next(one for one in news if one["kind"] == "plan")
        assert told["digest"] != digest


def test_the_door_sends_each_piece_at_once() -> None:
    """Without TCP_NODELAY the body of every reply waits some 40 ms for a receipt of its head."""

    async def no_delay() -> int:
        accepted: asyncio.Future[int] = asyncio.get_running_loop().create_future()

        def met(_: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
            theirs = writer.get_extra_info("socket")
            accepted.set_result(theirs.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY))
            writer.close()

        listener = bound("127.0.0.1", None)
        async with await asyncio.start_server(met, sock=listener):
            _, writer = await asyncio.open_connection(*listener.getsockname()[:2])
            try:
                return await accepted
            finally:
                writer.close()

    assert asyncio.run(no_delay()) != 0


def test_a_port_that_is_taken_is_told(plan: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        assert main(["open", str(plan), "--no-browser", "--port", str(port)]) == 2
    told = capsys.readouterr().err
    assert str(port) in told
    assert "--port" in told


@pytest.mark.parametrize(("words", "said"), [(["nowhere.toml"], "no file"), (["."], "folder")])
def test_a_plan_that_is_not_there_is_told_before_anything_is_served(
    words: list[str], said: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["open", *words, "--no-browser"]) == 2
    assert said in capsys.readouterr().err


def test_demo_serves_the_example_at_once(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "tidestead", "demo", str(tmp_path), "--no-browser"]
    settings = {**os.environ, "XDG_CACHE_HOME": str(tmp_path / "cache")}
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env=settings) as process:
        try:
            assert process.stdout is not None
            lines = iter(process.stdout.readline, "")
            address = next(word for line in lines for word in line.split() if word.startswith("http://"))
            with urlopen(address + "api/plan") as reply:
                assert json.load(reply)["file"] == "packhouse.toml"
            assert (tmp_path / "packhouse.toml").exists()
        finally:
            process.send_signal(signal.SIGINT)
            process.wait(30)


def test_a_plan_with_faults_opens_and_says_so(plan: Path, tmp_path: Path) -> None:
    plan.write_text(plan.read_text("utf-8") + "nonsense = 1\n", "utf-8")
    with served(plan, tmp_path / "cache") as found:
        with urlopen(found.address) as reply:
            page = reply.read().decode()
        assert "file has 1 fault" in page
        with urlopen(found.address + "file") as reply:
            assert "nonsense = 1" in reply.read().decode()
