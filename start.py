"""Set up Tidestead in a folder of its own beside this file, and run it.

    python3 start.py                     the example plan, every question answered
    python3 start.py ask PLAN ...        any command of tidestead
    python3 start.py test ...            every test of the tree, on all cores; what follows goes to pytest

Needs Python 3.11 or newer and pip, nothing else. Everything goes into `.venv` beside this file, so the
system's own Python is left alone, also where the system refuses pip. Only the first run takes long.

The package is installed as a link to this tree (pip's editable install): after an edit or a `git pull` the
next run and the tests see what stands here, and not a copy made earlier. It is installed again when
pyproject.toml changes or the tree is moved.

No `from __future__ import annotations` here: an older Python reads this file too, and must live to say so.
"""

import hashlib
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

NEEDED = (3, 11)
PIP_NEEDED = (22, 3)  # the first pip that can install into another environment (pip --python)
CANNOT_SET_UP = 9  # exit code of our own; tidestead uses 0 to 3 and pytest 0 to 5

if sys.version_info[:2] < NEEDED:
    newer = [name for name in ("python3.13", "python3.12", "python3.11") if shutil.which(name)]
    sys.stderr.write(
        "Tidestead needs Python 3.11 or newer; this is Python {}.{}.\n".format(*sys.version_info)
        + "Get a newer one from python.org or your system's packages and run start.py with it"
        + (f", or try: {newer[0]} start.py\n" if newer else ".\n")
    )
    sys.exit(CANNOT_SET_UP)

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
WINDOWS = os.name == "nt"
PYTHON = VENV / ("Scripts/python.exe" if WINDOWS else "bin/python")
COMMAND = VENV / ("Scripts/tidestead.exe" if WINDOWS else "bin/tidestead")

NO_VENV = """\
This Python cannot make a virtual environment.
On Debian or Ubuntu:  sudo apt install python3-venv
Elsewhere:            a Python from python.org has what is needed.
Then run start.py again."""

NO_PIP = """\
This Python can neither put pip into an environment nor lend its own pip to one.
On Debian or Ubuntu:  sudo apt install python3-venv
On Fedora:            sudo dnf install python3-pip
Elsewhere:            a Python from python.org has what is needed.
Then run start.py again."""

OLD_PIP = """\
This Python cannot put pip into an environment, and its own pip {found} is too old to install into one:
22.3 or newer is needed.
On Debian or Ubuntu:  sudo apt install python3-venv
Elsewhere:            python3 -m pip install --upgrade pip
Then run start.py again."""

PIP_FAILED = """\
pip could not install what Tidestead needs; its own words stand above.
Most often the network or the disk is the reason. Run the same command again when that is mended."""


class SetUpError(Exception):
    """The environment cannot be made; the message says what to do."""


def workers() -> str:
    """As many processes as there are cores, and one more: walks through the page wait more than they work."""
    return str((os.cpu_count() or 1) + 1)


def main(words: list[str]) -> int:
    """Set up what is missing, then hand over to tidestead or pytest and give back its exit code."""
    testing = words[:1] == ["test"]
    try:
        prepare("test" if testing else "")
    except SetUpError as trouble:
        say(str(trouble))
        return CANNOT_SET_UP
    except OSError as trouble:
        say(f"Setting up in {VENV} failed: {trouble}")
        return CANNOT_SET_UP
    if testing:
        os.chdir(ROOT)
        return hand_over([str(PYTHON), "-m", "pytest", "-n", workers(), "--dist", "worksteal", *words[1:]])
    os.environ["TIDESTEAD_CALLED_AS"] = ("py" if WINDOWS else "python3") + " start.py"
    return hand_over([str(COMMAND), *(words or ["demo"])])


def prepare(extra: str) -> None:
    """Make or mend the environment so that the package, and the extra asked for, is installed in it."""
    if not starts(PYTHON):
        if os.path.lexists(VENV):
            say("The environment in .venv does not work; making it again.")
            clear_away(VENV)
        say(f"Setting up Tidestead in {VENV}; this takes a few minutes, once.")
        make_environment()
    stamp, wanted = VENV / f"installed-{extra or 'plain'}", fingerprint()
    if COMMAND.exists() and stamp.exists() and stamp.read_text(encoding="utf-8") == wanted:
        return
    say("Installing " + ("Tidestead and what its tests need." if extra else "Tidestead."))
    install(f"{ROOT}[{extra}]" if extra else str(ROOT))
    stamp.write_text(wanted, encoding="utf-8")


def fingerprint() -> str:
    """What an installation depends on: the package's metadata and where the tree stands."""
    return hashlib.sha256((ROOT / "pyproject.toml").read_bytes() + str(ROOT).encode()).hexdigest()


def starts(python: Path) -> bool:
    """Whether this is the Python of a working environment, and new enough."""
    probe = f"import sys; sys.exit(sys.prefix == sys.base_prefix or sys.version_info[:2] < {NEEDED})"
    try:
        return quietly([str(python), "-I", "-c", probe]).returncode == 0
    except OSError:
        return False


def make_environment() -> None:
    """A virtual environment, still without pip: some systems take `ensurepip` away, see pip_command."""
    made = quietly([sys.executable, "-m", "venv", "--without-pip", str(VENV)])
    if made.returncode != 0 or not starts(PYTHON):
        say(made.stdout + made.stderr)
        raise SetUpError(NO_VENV)


def install(what: str) -> None:
    """Let pip install the tree as a link to itself; its words go to the error stream."""
    command = [*pip_command(), "install", "--disable-pip-version-check", "--editable", what]
    # Settings that send pip elsewhere, or allow it only inside an environment, are met here or do not apply.
    settings = {**os.environ, "PIP_USER": "0", "PIP_REQUIRE_VIRTUALENV": "0"}
    if subprocess.run(command, cwd=ROOT, env=settings, stdout=sys.stderr, check=False).returncode != 0:
        raise SetUpError(PIP_FAILED)


def pip_command() -> list[str]:
    """The environment's own pip, or the pip of the Python that runs this file, pointed at the environment."""
    own = [str(PYTHON), "-m", "pip"]
    for attempt in ([*own, "--version"], [str(PYTHON), "-m", "ensurepip", "--default-pip"]):
        if quietly(attempt).returncode == 0:
            return own
    lent = [sys.executable, "-m", "pip"]
    told = quietly([*lent, "--version"])
    found = re.match(r"pip (\d+)\.(\d+)\S*", told.stdout)
    if told.returncode != 0 or found is None:
        raise SetUpError(NO_PIP)
    if (int(found[1]), int(found[2])) < PIP_NEEDED:
        raise SetUpError(OLD_PIP.format(found=found[0].split()[1]))
    return [*lent, "--python", str(PYTHON)]


def clear_away(place: Path) -> None:
    """Remove a file, a link or a folder; of a link only the link."""
    if place.is_dir() and not place.is_symlink():
        shutil.rmtree(place)
    else:
        place.unlink()


def quietly(command: list[str]) -> "subprocess.CompletedProcess[str]":
    """Run a command and keep its words."""
    return subprocess.run(command, capture_output=True, text=True, errors="replace", check=False)


def hand_over(command: list[str]) -> int:
    """Become the command, so that its exit code and every signal are its own; on Windows wait for it."""
    sys.stdout.flush()
    sys.stderr.flush()
    if not WINDOWS:
        os.execv(command[0], command)
    with subprocess.Popen(command) as running:
        while True:
            try:
                return running.wait()
            except KeyboardInterrupt:
                continue  # the command was told too, and ends in its own way


def say(words: str) -> None:
    sys.stderr.write(words.rstrip() + "\n")
    sys.stderr.flush()


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except KeyboardInterrupt:
        say("Stopped.")
        sys.exit(130)
