"""The pictures of an answer, whatever their sort: which there are, which comes first, and each as SVG."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TypeAlias

from markupsafe import Markup

from tidestead.core.answer import Answer, Series, Table
from tidestead.core.charts import Chart, Curve, LineChart
from tidestead.core.scene import Scene
from tidestead.core.solids import Round
from tidestead.core.units import System
from tidestead.plan.statements import steps_shared
from tidestead.report import wording
from tidestead.report.chart_tables import table_of
from tidestead.report.round_uses import uses_of
from tidestead.report.svg import draw
from tidestead.report.svg_chart import draw_chart


@dataclass(frozen=True)
class Used:
    """A view in the round, its parts coloured by how much of what they can bear is used."""

    view: Round

    @property
    def id(self) -> str:
        return f"{self.view.id}.use"

    @property
    def title(self) -> str:
        return f"{self.view.title}: how much each part uses"

    @property
    def told(self) -> str:
        return f"{self.view.told} Each part is coloured by the most that any check of it uses."


Picture: TypeAlias = Scene | Chart | Round | Used


@dataclass(frozen=True)
class PictureTold:
    """A picture by name, and in words."""

    id: str
    title: str
    told: str
    sort: str
    table: Table | None = None
    """Its figures, where the picture is all that tells them."""


def pictures_of(answer: Answer) -> list[Picture]:
    """Every picture, in the study's order; series that nothing else draws are drawn as plots."""
    rounds = [one for view in answer.rounds for one in (view, Used(view))]
    pictures: list[Picture] = [*rounds, *answer.scenes, *answer.charts]
    return pictures or [_as_chart(series) for series in answer.series if series.likely]


def _as_chart(series: Series) -> LineChart:
    curve = Curve("likely", series.at, series.likely, series.low, series.high)
    told = f"{series.title}, over {series.axis}."
    return LineChart(
        series.id,
        series.title,
        told,
        series.title,
        series.unit,
        (curve,),
        along=series.axis,
        along_unit=series.axis_unit,
    )


def told(picture: Picture, system: System | None = None) -> PictureTold:
    """A picture by name; with its figures, where it has a table of them, if a `system` of units is named."""
    sort = (
        "round" if isinstance(picture, Round | Used) else "drawing" if isinstance(picture, Scene) else "plot"
    )
    table = None if system is None or isinstance(picture, Round | Used | Scene) else table_of(picture, system)
    return PictureTold(picture.id, picture.title, picture.told, sort, table)


def picture_named(answer: Answer, name: str) -> Picture | None:
    """The picture of that id."""
    return next((picture for picture in pictures_of(answer) if picture.id == name), None)


def main_picture(answer: Answer) -> Picture | None:
    """The picture one would want to look at first: a drawing of the part that governs, else the first there is.

    Where it is the whole plan that governs, a plot comes first.
    """
    pictures = pictures_of(answer)
    governing = wording.governing(answer)
    if governing is not None and governing.part:
        flat = [picture for picture in pictures if isinstance(picture, Scene)]
        best = max(flat, key=lambda scene: _nearness(scene, governing.part), default=None)
        if best is not None and _nearness(best, governing.part):
            return best
    elif governing is not None and answer.charts and not answer.rounds:
        return answer.charts[0]  # what is true of the whole plan is told by a plot
    return next(
        (picture for picture in pictures if not isinstance(picture, Round | Used)), next(iter(pictures), None)
    )


def showing(answer: Answer) -> Callable[[str], str]:
    """Finds the name of the drawing that goes furthest into a part, the first of several; empty where none goes in."""
    first: dict[str, str] = {}
    for scene in answer.scenes:
        for drawn in dict.fromkeys(_parts(scene)):
            names = drawn.split(".")
            for depth in range(1, len(names) + 1):
                first.setdefault(".".join(names[:depth]), scene.id)

    def found(part: str) -> str:
        here = part
        while here and here not in first:
            here = here.rpartition(".")[0]
        return first.get(here, "") if here == part or "." in here else ""

    return found


def _nearness(scene: Scene, part: str) -> int:
    """How far a drawing goes into the part: the number of names that the nearest of its parts shares with it."""
    names = part.split(".")
    return max((steps_shared(drawn.split("."), names) for drawn in _parts(scene)), default=0)


def _parts(scene: Scene) -> Iterator[str]:
    for shape in scene.shapes:
        part = getattr(shape, "part", "")
        if part:
            yield part


def svg(picture: Picture, answer: Answer, system: System, *, alone: bool = False) -> str:
    """A picture as SVG: to be put into the page, whose colours it takes, or to stand `alone`."""
    if isinstance(picture, Scene):
        return draw(picture, system, titled=alone, themed=alone)
    if not isinstance(picture, Round | Used):
        return draw_chart(picture, system, titled=alone, themed=alone)
    from tidestead.report import isometric  # noqa: PLC0415 - it brings numpy, which the first page can do without

    if isinstance(picture, Round):
        return isometric.draw(picture, system, titled=alone, themed=alone)
    uses = uses_of(picture.view, answer.checks)
    return isometric.draw(picture.view, system, uses=uses, titled=alone, themed=alone)


class Drawings:
    """Pictures that have been drawn, kept for as long as their answer stands."""

    def __init__(self) -> None:
        self._kept: dict[tuple[str, str, System, bool], tuple[Answer, str]] = {}

    def svg(self, picture: Picture, answer: Answer, system: System, *, alone: bool = False) -> str:
        """A picture as `svg` draws it; at once where it has been drawn for this answer."""
        key = (answer.subject, picture.id, system, alone)
        before, drawn = self._kept.get(key, (None, ""))
        if before is not answer:
            drawn = svg(picture, answer, system, alone=alone)
            self._kept = {kept: pair for kept, pair in self._kept.items() if pair[0].subject != answer.subject
                          or pair[0] is answer}  # fmt: skip
            self._kept[key] = (answer, drawn)
        return drawn

    def at_hand(self, picture: Picture, answer: Answer, system: System, *, now: bool = False) -> Markup:
        """A picture to be put into the page; empty where it has not been drawn yet, unless it is wanted `now`.

        A view in the round takes long to draw, and is never drawn before the page is sent.
        """
        if not now or isinstance(picture, Round | Used):
            kept = self._kept.get((answer.subject, picture.id, system, False))
            return Markup(kept[1]) if kept is not None and kept[0] is answer else Markup()
        return self.inline(picture, answer, system)

    def inline(self, picture: Picture, answer: Answer, system: System) -> Markup:
        """A picture to be put into the page."""
        return Markup(self.svg(picture, answer, system))
