"""The command as a process: quick to help, quiet when interrupted, plain where nobody looks."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
import time
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest

from tidestead import __version__

EXAMPLES = Path(__file__).parents[2] / "examples"
PACKHOUSE = EXAMPLES / "packhouse.toml"


def run(*args: object, **env: str) -> subprocess.CompletedProcess[str]:
    """The command in a process of its own."""
    return subprocess.run(
        [sys.executable, "-m", "tidestead", *map(str, args)],
        capture_output=True,
        text=True,
        encoding="utf-8",
        env=os.environ | env,
        timeout=120,
        check=False,
    )


def test_version_and_help() -> None:
    assert run("--version").stdout == f"tidestead {__version__}\n"
    for args in ((), ("--help",), ("-h",)):
        shown = run(*args)
        assert shown.returncode == 0
        listed = re.findall(r"^  (\w+)  +[A-Z]", shown.stdout, re.MULTILINE)
        assert listed[:7] == ["demo", "new", "open", "ask", "mend", "vary", "export"]


def test_help_loads_nothing_heavy() -> None:
    """So it comes at once; how soon is for a benchmark, on a machine that does nothing else."""
    code = (
        "import sys; from tidestead.cli import main; main(['--help']); print(*sys.modules, file=sys.stderr)"
    )
    loaded = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    ).stderr.split()
    assert not {"numpy", "scipy", "pydantic", "tomlkit", "rich", "gsw", "tidestead.plan"} & set(loaded)


def test_nobody_reading_is_no_fault() -> None:
    """As in `tidestead ask PLAN structure | head -1`."""
    for form in ([], ["--json"], ["--working"]):
        process = subprocess.Popen(
            [sys.executable, "-m", "tidestead", "ask", str(PACKHOUSE), "structure", *form],
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
        )
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        assert process.stderr.read() == b""
        assert process.wait(timeout=60) == 0


@pytest.mark.skipif(sys.platform == "win32", reason="signals as on POSIX")
@pytest.mark.parametrize("delay", [0.0, 0.1, 0.4])
def test_ctrl_c_is_quiet(delay: float, tmp_path: Path) -> None:
    code = (
        "import signal, sys; from tidestead.cli import main;"
        "signal.signal(signal.SIGINT, signal.default_int_handler);"  # a shell's background job inherits it ignored
        "print('ready', file=sys.stderr, flush=True);"
        f"sys.exit(main(['export', {str(PACKHOUSE)!r}, '--to', 'svg', '-o', {str(tmp_path / 'out')!r}]))"
    )
    process = subprocess.Popen(
        [sys.executable, "-c", code], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )
    assert process.stderr is not None
    assert process.stderr.readline() == "ready\n"
    time.sleep(delay)
    process.send_signal(signal.SIGINT)
    _, told = process.communicate(timeout=60)
    assert told == ""
    assert process.returncode in (130, 0)
    for file in tmp_path.rglob("*"):
        assert file.is_dir() or ET.parse(file).getroot().tag.endswith("svg")


def test_a_stream_that_knows_only_ascii_gets_ascii() -> None:
    shown = run("ask", PACKHOUSE, "structure", "flow", PYTHONIOENCODING="ascii", PYTHONUTF8="0")
    assert (shown.returncode, shown.stderr) == (0, "")
    assert shown.stdout.isascii()
    assert "~#~ fails" in shown.stdout


def test_piped_output_is_plain_and_fits_eighty_columns() -> None:
    shown = run("ask", PACKHOUSE, "--all", COLUMNS="", TERM="xterm-256color")
    assert "\x1b" not in shown.stdout
    assert max(map(len, shown.stdout.splitlines())) <= 80
    assert "…" not in shown.stdout


@pytest.mark.skipif(sys.platform == "win32", reason="signals as on POSIX")
def test_ctrl_c_where_no_exception_can_leave_is_not_lost() -> None:
    """An interrupt inside an object's last moments is ignored by Python: it is raised again, and ends the command."""
    code = (
        "import signal, sys, time, os\n"
        "import tidestead.cli as cli, tidestead.cli.commands as commands\n"
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"  # a shell's background job inherits it ignored
        "class Gone:\n"
        "    def __del__(self):\n"
        "        os.kill(os.getpid(), signal.SIGINT)\n"
        "        time.sleep(0.2)\n"
        "def run(args):\n"
        "    thing = Gone()\n"
        "    del thing\n"
        "    time.sleep(5.0)\n"
        "    return 0\n"
        "commands.run = run\n"
        "sys.exit(cli.main([]))\n"
    )
    ended = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, timeout=60, check=False
    )
    assert ended.stderr == ""
    assert ended.returncode == 130
