"""From bytes to the text of a plan, whatever the bytes are."""

from __future__ import annotations

import codecs
import re
from dataclasses import dataclass
from pathlib import Path

from tidestead.core.errors import Fault, PlanError

LARGEST = 1_000_000
"""Bytes. A plan of every subject is some 40,000."""
MOST_LINES = 20_000

_OTHER_ENCODINGS = (
    (codecs.BOM_UTF32_LE, "UTF-32"),
    (codecs.BOM_UTF32_BE, "UTF-32"),
    (codecs.BOM_UTF16_LE, "UTF-16"),
    (codecs.BOM_UTF16_BE, "UTF-16"),
)
_CONTROL = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f]|\r(?!\n)")
_MOST_TOLD = 20


@dataclass(frozen=True)
class Text:
    """The text of a plan with what no text may hold blanked out, and a fault for each line that held it."""

    text: str
    faults: tuple[Fault, ...] = ()
    marked: bool = False
    """Whether the bytes began with the UTF-8 mark that some editors write. It is kept when saving."""


def read_bytes(path: Path) -> bytes:
    """The bytes of a plan file; a PlanError where there is no such file or it cannot be one."""
    name = str(path)
    try:
        if path.is_dir():
            raise _refused(name, "This is a folder.", "Give the plan file in it.")
        if path.exists() and not path.is_file():
            raise _refused(name, "This is not a plain file.", "Give a plan file.")
        with path.open("rb") as file:
            data = file.read(LARGEST + 1)
    except FileNotFoundError:
        advice = "Look at the name, or start one with: tidestead new PLAN"
        raise _refused(name, "There is no such file.", advice) from None
    except (OSError, ValueError) as error:
        said = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        raise _refused(
            name, f"This file cannot be read: {said}.", "Look at its name and its rights."
        ) from error
    return data


def decode(data: bytes, name: str) -> Text:
    """The text in the bytes; a PlanError where they are not text."""
    if len(data) > LARGEST:
        raise _refused(name, f"This file is larger than {LARGEST // 1000:,} kB.", "A plan is a short text.")
    for mark, encoding in _OTHER_ENCODINGS:
        if data.startswith(mark):
            raise _refused(name, f"This file is in {encoding}.", "Save it as UTF-8.")
    if data.count(b"\n") > MOST_LINES:
        raise _refused(name, f"This file has more than {MOST_LINES:,} lines.", "A plan is a short text.")
    marked = data.startswith(codecs.BOM_UTF8)
    data = data.removeprefix(codecs.BOM_UTF8)
    if data[:400].count(0) > len(data[:400]) // 4:
        raise _refused(name, "This file is not text, or it is in UTF-16.", "Save it as UTF-8.")
    text, faults = _utf8(data, name)
    if not text.strip():
        raise _refused(name, "This file is empty.", "Start a plan with: tidestead new PLAN")
    faults += _control_faults(text, name)
    return Text(_CONTROL.sub(" ", text) if faults else text, tuple(faults), marked)


def _utf8(data: bytes, name: str) -> tuple[str, list[Fault]]:
    """The text; lines that are not UTF-8 are told, and read as Windows text would be, to go on with."""
    try:
        return data.decode("utf-8"), []
    except UnicodeDecodeError:
        pass  # told line by line below
    lines, faults = [], []
    for number, line in enumerate(data.split(b"\n"), start=1):
        try:
            lines.append(line.decode("utf-8"))
        except UnicodeDecodeError as error:
            lines.append(line.decode("cp1252", "replace"))
            given = f"byte 0x{line[error.start]:02x}"
            faults.append(Fault(name, number, given, "is not UTF-8 text.", "Save the file as UTF-8."))
    return "\n".join(lines), faults[:_MOST_TOLD]


def _control_faults(text: str, name: str) -> list[Fault]:
    faults: list[Fault] = []
    found = _CONTROL.search(text)
    line = counted = 0
    while found and len(faults) < _MOST_TOLD:
        line, counted = line + text.count("\n", counted, found.start()), found.start()
        return_alone = found.group() == "\r"
        given = f"character U+{ord(found.group()):04X}"
        allowed = "is a carriage return without a line feed." if return_alone else "may not stand in a plan."
        advice = "Save the file with ordinary line ends." if return_alone else "Take it out."
        faults.append(Fault(name, line + 1, given, allowed, advice))
        following = text.find("\n", found.end())
        found = _CONTROL.search(text, following) if following >= 0 else None
    return faults


def _refused(name: str, allowed: str, advice: str) -> PlanError:
    return PlanError((Fault(name, None, "", allowed, advice),))
