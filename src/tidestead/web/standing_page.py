"""The standing page: twelve questions in a line each, what changed, and the system drawn."""

from __future__ import annotations

import re
from dataclasses import dataclass

from markupsafe import Markup

from tidestead.core.answer import Answer
from tidestead.core.scene import Scene
from tidestead.plan.first import untouched
from tidestead.web.assumed import how_many
from tidestead.web.bench import Bench
from tidestead.web.changes import Change, first_of
from tidestead.web.frame import Told, told_one
from tidestead.web.pictures import Picture, PictureTold
from tidestead.web.pictures import told as picture_told
from tidestead.web.remedies_told import Panel, whole_panel
from tidestead.web.rows import TO_MEND


@dataclass(frozen=True)
class Line:
    """One question: how it stands, its sentence, and what is not as it was."""

    head: Told
    sentence: str
    more: bool
    changes: tuple[Change, ...]
    more_changes: int


@dataclass(frozen=True)
class Drawn:
    """A drawing of the system, and the question it belongs to."""

    subject: str
    picture: PictureTold
    svg: Markup


@dataclass(frozen=True)
class StandingView:
    """What the standing page shows."""

    lines: tuple[Line, ...]
    since: str
    since_exact: str
    drawings: tuple[Drawn, ...]
    starter: bool
    assumed: int
    """Values that its first writing took without having asked."""
    whole: Panel | None
    """The search for what makes everything sound; None where nothing fails or is near."""


def standing(bench: Bench) -> StandingView:
    """The whole as it stands."""
    changed = bench.last_changes()
    lines = []
    for name, one in bench.standings.items():
        shown, more = first_of(changed.get(name, ()))
        sentence, left = beginning(one.answer.sentence if one.answer is not None else "")
        lines.append(Line(told_one(one), sentence, left, tuple(shown[:3]), more + len(shown[3:])))
    drawings = [found for found in (_round(bench), _course(bench)) if found is not None]
    starter = untouched(bench.text)
    when = bench.remembered.before_when
    return StandingView(
        tuple(lines),
        when.replace("T", " ")[:16],
        when,
        tuple(drawings),
        starter,
        how_many(bench),
        whole_panel(bench) if _to_mend(bench) else None,
    )


def _to_mend(bench: Bench) -> bool:
    return any(check.verdict in TO_MEND for answer in _known(bench) for check in answer.checks)


def beginning(text: str) -> tuple[str, bool]:
    """The first sentences of an answer, as many as are read at a glance; and whether there are more."""
    sentences = _END.split(text)
    kept = sentences[:1]
    for sentence in sentences[1:]:
        if len(" ".join((*kept, sentence))) > _GLANCE:
            break
        kept.append(sentence)
    return " ".join(kept), len(kept) < len(sentences)


_END = re.compile(r"(?<=[.!?])\s+(?=[A-Z])")
_GLANCE = 330
"""Characters."""


def _round(bench: Bench) -> Drawn | None:
    """The whole in the round, from whichever answer has it."""
    return next((_drawn(bench, answer, one) for answer in _known(bench) for one in answer.rounds), None)


def _course(bench: Bench) -> Drawn | None:
    """The drawing with the most vessels in it that is not of one vessel: how the water goes."""
    best = max(
        ((answer, scene) for answer in _known(bench) for scene in answer.scenes),
        key=lambda pair: len(_vessels(bench, pair[1])),
        default=None,
    )
    return _drawn(bench, *best) if best is not None and len(_vessels(bench, best[1])) > 1 else None


def _vessels(bench: Bench, scene: Scene) -> set[str]:
    named = {getattr(shape, "part", "") for shape in scene.shapes}
    return named & set(bench.loaded.plan.vessels if bench.loaded else ())


def _known(bench: Bench) -> list[Answer]:
    return [one.answer for one in bench.standings.values() if one.answer is not None]


def _drawn(bench: Bench, answer: Answer, picture: Picture) -> Drawn:
    return Drawn(
        answer.subject, picture_told(picture), bench.drawings.at_hand(picture, answer, bench.system, now=True)
    )
