"""The remedies last shown for a plan, kept among the user's caches, so that the number seen is the one written."""

from __future__ import annotations

import hashlib
import json
import os
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path

from tidestead import __version__
from tidestead.core.cache_folder import cache_folder
from tidestead.plan.edits import Edit
from tidestead.trials.remedy import Move


def keep(text: str, asked: Sequence[str], moves: Sequence[Move]) -> None:
    """Keep what was shown of a plan's text and what was asked; a folder that cannot be written is no fault."""
    path = _path(text, asked)
    told = [{"words": move.words, "edits": [[edit.key, edit.value] for edit in move.edits]} for move in moves]
    draft = path.with_suffix(f".{os.getpid()}.part")
    with suppress(OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        draft.write_text(json.dumps(told), encoding="utf-8")
        os.replace(draft, path)


def recalled(text: str, asked: Sequence[str]) -> list[Move] | None:
    """What was shown of exactly this text and asking, in order; None where nothing is kept."""
    try:
        told = json.loads(_path(text, asked).read_text(encoding="utf-8"))
        return [
            Move(str(one["words"]), tuple(Edit(str(key), value) for key, value in one["edits"]))
            for one in told
        ]
    except (OSError, ValueError, TypeError, KeyError):
        return None


def _path(text: str, asked: Sequence[str]) -> Path:
    key = hashlib.sha256("\n".join((__version__, *asked, "", text)).encode()).hexdigest()
    return cache_folder() / "remedies" / f"{key}.json"
