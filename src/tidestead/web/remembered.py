"""What the answers were when the plan was last looked at, kept among the user's caches, never beside the plan."""

from __future__ import annotations

import hashlib
import json
import os
from contextlib import suppress
from dataclasses import asdict, dataclass, field
from datetime import UTC, datetime
from pathlib import Path

from tidestead.core.cache_folder import cache_folder
from tidestead.web.changes import Snapshot

_LARGEST = 4_000_000


@dataclass
class Remembered:
    """Two states of the answers, `before` and `now`, each with when it was reached; and the plan of `now`."""

    before: Snapshot = field(default_factory=dict)
    before_when: str = ""
    now: Snapshot = field(default_factory=dict)
    now_digest: str = ""
    now_when: str = ""

    def take(self, told: Snapshot, digest: str) -> None:
        """Note answers for a plan, named by its digest; one that is not known yet moves what is into `before`."""
        if digest != self.now_digest:
            if self.now_digest:
                self.before, self.before_when = self.before | self.now, self.now_when
            self.now, self.now_digest = {}, digest
            self.now_when = datetime.now(UTC).isoformat(timespec="minutes")
        self.now = self.now | told


def home_of(path: Path) -> Path:
    """Where the state of one plan is kept."""
    name = hashlib.sha256(str(path.resolve()).encode("utf-8", "surrogateescape")).hexdigest()[:24]
    return cache_folder() / "seen" / f"{name}.json"


def recall(path: Path) -> Remembered:
    """The state kept for a plan; an empty one where there is none or it cannot be read."""
    home = home_of(path)
    try:
        if home.stat().st_size > _LARGEST:
            return Remembered()
        return Remembered(**json.loads(home.read_text("utf-8")))
    except (OSError, ValueError, TypeError):
        return Remembered()


def keep(path: Path, state: Remembered) -> None:
    """Keep the state of a plan. A cache that cannot be written is done without."""
    home = home_of(path)
    draft = home.with_suffix(f".{os.getpid()}.part")
    with suppress(OSError):  # a cache that cannot be written is done without
        home.parent.mkdir(parents=True, exist_ok=True)
        draft.write_text(json.dumps(asdict(state)), "utf-8")
        os.replace(draft, home)
