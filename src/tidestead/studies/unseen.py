"""What a study does not look at yet and what could hurt: each stays unproven, so that no answer calls it sound."""

from __future__ import annotations

from collections.abc import Mapping

from tidestead.core.source import COMPUTED
from tidestead.studies.checks import At, unproven
from tidestead.studies.judged import Judged

FLOW: Mapping[str, tuple[str, str]] = {
    "throttled": (
        "flow through half-open valves",
        "makes of valve differ by a factor of two where they are part open; the range is not carried yet",
    ),
}
FOAM: Mapping[str, tuple[str, str]] = {
    "lifted": (
        "level with the air on",
        "air lifts the water by a few centimetres over the level found without it; outlets and brim are not judged "
        "for that yet",
    ),
    "way_through": (
        "way of the water through the column",
        "where the water comes in and leaves is not looked at yet: an inlet beside the outlet passes the bubbles by",
    ),
}


def unseen(subject: str, items: Mapping[str, tuple[str, str]]) -> list[Judged]:
    """One unproven check for each item of a subject."""
    at = At("unseen", "not looked at by this version", subject, "circuits")
    return [Judged(unproven(at, name, words, "1", why, COMPUTED)) for name, (words, why) in items.items()]
