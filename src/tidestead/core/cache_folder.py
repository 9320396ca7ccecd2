"""Where what can be made again at any time is kept on this machine, one folder for all of it."""

from __future__ import annotations

import os
import sys
from pathlib import Path


def cache_folder() -> Path:
    """Our folder among the user's caches, whether it exists yet or not."""
    return _home() / "tidestead"


def _home() -> Path:
    if sys.platform == "win32":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local")
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches"
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")
