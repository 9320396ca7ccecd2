"""How much of its limit each part of a view in the round uses: the worst of the checks that speak of it."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from tidestead.core.answer import Check, Verdict
from tidestead.core.scene import Stuff
from tidestead.core.solids import Round
from tidestead.report import wording

BEARS: frozenset[Stuff] = frozenset(
    ("timber", "sheet", "clear", "metal", "seal", "membrane", "ground", "solid")
)
"""What can be judged; water and bare shells are not."""


@dataclass(frozen=True)
class PartUse:
    """The worst check of a part: its use (None where it cannot be told), its verdict, and both in words."""

    use: float | None
    verdict: Verdict
    words: str


def uses_of(view: Round, checks: Sequence[Check]) -> dict[str, PartUse]:
    """The worst check for each part of the view that any check speaks of.

    A check belongs to the longest beginning of its part that the view knows, dot by dot: a joint of a tie to the tie,
    the stand of a whole tower to the tower. A part that has no check of its own takes those of the whole it is in.
    """
    parts = sorted({solid.part for solid in view.solids if solid.part and solid.stuff in BEARS})
    known = {whole for part in parts for whole in beginnings(part)}
    homes: dict[str, list[Check]] = {}
    for check in checks:
        home = next((begin for begin in beginnings(check.part) if begin in known), "")
        if home:
            homes.setdefault(home, []).append(check)
    found = {}
    for part in parts:
        nearest = next((begin for begin in beginnings(part) if begin in homes), "")
        if nearest:
            found[part] = _worst(homes[nearest])
    return found


def beginnings(part: str) -> list[str]:
    """The part itself, then what it is a part of, and so on."""
    names = part.split(".")
    return [".".join(names[:count]) for count in range(len(names), 0, -1)]


def _worst(checks: Iterable[Check]) -> PartUse:
    check = wording.ordered(list(checks))[0]
    told = wording.titled(check)
    if check.verdict is Verdict.UNPROVEN or check.use is None:
        return PartUse(None, Verdict.UNPROVEN, f"{told}: unproven, {wording.reason(check)}")
    return PartUse(check.use, check.verdict, f"{told}: {wording.used(check)} used, {check.verdict.value}")


def told_uses(uses: Mapping[str, PartUse]) -> str:
    """What is not sound in words, worst first; that all is sound where it is."""
    bad = {part: use for part, use in uses.items() if use.verdict is not Verdict.SOUND}
    if not bad:
        return "Every part that is judged is sound."
    order = list(reversed(sorted(bad.items(), key=lambda pair: _badness(pair[1]))))
    return " ".join(f"{part}: {use.words}." for part, use in order)


def _badness(use: PartUse) -> tuple[int, float]:
    return list(Verdict).index(use.verdict), use.use or 0.0


def uses_object(uses: Mapping[str, PartUse]) -> dict[str, Any]:
    """The same as JSON; a use without end is null, and its words tell it."""
    return {
        part: {
            "use": use.use if use.use is not None and math.isfinite(use.use) else None,
            "verdict": use.verdict.value,
            "words": use.words,
        }
        for part, use in uses.items()
    }
