"""Which program this is, for what is kept on disk: what another state of it found is not taken for its own."""

from __future__ import annotations

import hashlib
import sys
from functools import cache
from importlib.metadata import version
from pathlib import Path

HOME = Path(__file__).parents[1]


@cache
def program() -> str:
    """Changes when any file of this program does, and with the versions that its numbers come from."""
    found = hashlib.sha256(f"{sys.version} {version('numpy')} {version('scipy')}\n".encode())
    for path in sorted([*HOME.rglob("*.py"), *HOME.rglob("*.toml")]):
        stat = path.stat()
        found.update(f"{path.relative_to(HOME)} {stat.st_size} {stat.st_mtime_ns}\n".encode())
    return found.hexdigest()
