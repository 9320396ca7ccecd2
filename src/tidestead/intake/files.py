"""A file beside the plan, read whole: never from elsewhere, never more than a limit, as text whatever its bytes."""

from __future__ import annotations

import codecs
import os
import stat
import zlib
from pathlib import Path

from tidestead.core.errors import WeatherError
from tidestead.intake.rows import no_weather_in

LARGEST = 50_000_000
"""Bytes; an hour of weather takes 30 to 200, so that this is a good thirty years."""
MOST_LINES = 1_000_000
LONGEST_LINE = 20_000
_GZIP = b"\x1f\x8b"
_MARKS = ((codecs.BOM_UTF32_LE, "utf-32"), (codecs.BOM_UTF32_BE, "utf-32"), (codecs.BOM_UTF8, "utf-8-sig"),
          (codecs.BOM_UTF16_LE, "utf-16"), (codecs.BOM_UTF16_BE, "utf-16"))  # fmt: skip
_FLAGS = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
"""Not waiting for a pipe that nobody writes to; bytes as they are."""
_BESIDE = "Put the file into the folder of the plan and write its name alone."


def read_beside(folder: Path | None, name: str) -> bytes:
    """The bytes of a file that lies in a folder. Raises a WeatherError."""
    if folder is None:
        raise no_weather_in(
            name, "The plan is not saved yet, so no file lies beside it.", "Save the plan first."
        )
    if not name or name in (".", "..") or any(mark in name for mark in "/\\:\x00"):
        raise no_weather_in(name[:80], "This is not a plain file name.", _BESIDE)
    path = folder / name
    try:
        if path.is_symlink() and path.resolve().parent != folder.resolve():
            raise no_weather_in(name, "This is a link that leads out of the plan's folder.", _BESIDE)
        with os.fdopen(os.open(path, _FLAGS), "rb") as file:
            if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
                raise no_weather_in(name, "This is not a plain file.", "Give a weather file.")
            data = file.read(LARGEST + 1)
    except FileNotFoundError:
        raise no_weather_in(name, "There is no such file beside the plan.", _BESIDE) from None
    except IsADirectoryError:
        raise no_weather_in(
            name, "This is a folder.", "Give the weather file in it, and put it beside the plan."
        ) from None
    except (OSError, ValueError) as error:
        said = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        raise no_weather_in(name, f"This file cannot be read: {said}.", "Look at its rights.") from error
    return data


def lines_of(name: str, data: bytes) -> list[str]:
    """The lines of a text, unpacked first where it is packed with gzip. Raises a WeatherError."""
    if data.startswith(_GZIP):
        data = _unpacked(name, data)
    if len(data) > LARGEST:
        raise _too_large(name)
    text = _text(name, data).replace("\r\n", "\n").replace("\r", "\n")
    if text.count("\n") > MOST_LINES:
        raise no_weather_in(name, f"This file has more than {MOST_LINES:,} lines.", "Hours are enough.")
    lines = text.split("\n")
    if len(lines) > 2 and max(map(len, lines)) > LONGEST_LINE and not text.lstrip().startswith("{"):
        line = next(at for at, words in enumerate(lines, start=1) if len(words) > LONGEST_LINE)
        raise no_weather_in(name, "This line is too long for a weather file.", "Give a weather file.", line)
    if not text.strip():
        raise no_weather_in(name, "This file is empty.", "Give a weather file.")
    return lines


def _unpacked(name: str, data: bytes) -> bytes:
    try:
        packed = zlib.decompressobj(wbits=31)
        whole = packed.decompress(data, LARGEST + 1)
    except zlib.error:
        raise no_weather_in(name, "This packed file is damaged.", "Take it anew.") from None
    if len(whole) > LARGEST:
        raise _too_large(name)
    if not packed.eof:
        raise no_weather_in(name, "This packed file is cut off.", "Take it anew.")
    return whole


def _text(name: str, data: bytes) -> str:
    for mark, encoding in _MARKS:
        if data.startswith(mark):
            try:
                return data.decode(encoding)
            except UnicodeDecodeError:
                raise no_weather_in(
                    name, f"This file is no sound {encoding.upper()} text.", "Save it as UTF-8."
                ) from None
    if b"\x00" in data[:4000]:
        raise no_weather_in(name, "This file is not text.", "Give a weather file: EPW, TMY3, PVGIS or csv.")
    try:
        return data.decode("utf-8")
    except UnicodeDecodeError:
        return data.decode("cp1252", "replace")


def _too_large(name: str) -> WeatherError:
    return no_weather_in(name, f"This file is larger than {LARGEST // 1_000_000} MB.", "Give fewer years.")
