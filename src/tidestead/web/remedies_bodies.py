"""What the page sends and gets back of remedies; the remedies themselves are as `tidestead mend --json` prints them."""

from __future__ import annotations

import json
from typing import Annotated, Any, Literal

from pydantic import BaseModel, Field, JsonValue

from tidestead.report.remedies_json import dump_remedies, dump_whole
from tidestead.trials.remedy import Mended
from tidestead.web.bodies import Body, Digest
from tidestead.web.finding import Sought, progress

CheckId = Annotated[
    str,
    Field(max_length=300, description="The id of a check; empty for the changes that make everything sound."),
]


class FindOn(Body):
    """Remedies that are sought in one text of the plan."""

    check: CheckId
    base: Digest


class StopOf(Body):
    """A search that is to be given up."""

    check: CheckId


class WriteOn(Body):
    """A remedy that was found for one text of the plan, by its place in the list, from 1."""

    check: CheckId
    number: Annotated[int, Field(ge=1, le=1000)]
    base: Digest


class StateOut(BaseModel):
    """What a check comes to. `why_null` says why a number is null."""

    id: str
    what: str
    where: str
    value: float | None
    unit: str
    use: float | None
    margin: float | None
    verdict: str
    why_null: dict[str, str] = {}


class EffectOut(BaseModel):
    """What a change does to another check; null where that is not made before or after."""

    id: str
    worse: bool
    better: bool
    before: StateOut | None
    after: StateOut | None


class SpanOut(BaseModel):
    """Money with its range."""

    low: float
    likely: float
    high: float


class PriceOut(SpanOut):
    """What a change adds to the cash still to spend, and to a year.

    `unpriced` has no price and is not in it, so that it is no total unless it is `whole`.
    """

    currency: str
    whole: bool
    unpriced: list[str]
    yearly: SpanOut | None = None


class ChangeFound(BaseModel):
    """A change of the plan in words and as edits."""

    words: str
    effort: float
    edits: list[dict[str, JsonValue]]


class RemedyOut(ChangeFound):
    """A change that makes the check sound, with what else it does in the subjects that were asked anew."""

    number: int
    before: StateOut
    after: StateOut
    subjects: list[str]
    effects: list[EffectOut]
    price: PriceOut | None


class BestOut(BaseModel):
    """The nearest that any change came where none makes the check sound."""

    words: str
    state: StateOut


class MendedOut(BaseModel):
    """A check with its remedies, cheapest first; `cut` are the sorts of change for which no time was left."""

    state: StateOut
    remedies: list[RemedyOut]
    tried: int
    best: BestOut | None
    cut: int = 0
    advice: str = ""


class WholeOut(BaseModel):
    """Changes that make everything sound together, and how far from proven they are the cheapest."""

    moves: list[ChangeFound]
    mends: list[StateOut]
    left: list[StateOut]
    effects: list[EffectOut]
    price: PriceOut | None
    no_less_than: float | None
    tried: int
    changes: int
    subjects: list[str]
    proof: str
    late: bool = False


class RemediesOut(BaseModel):
    """How a search stands in the plan as it is. While it is working what is found has no price and few effects yet."""

    check: str
    digest: str
    state: Literal["none", "working", "done", "fault"]
    stage: str
    done: int
    of: int
    words: str
    mended: MendedOut | None
    whole: WholeOut | None

    @classmethod
    def of_search(cls, one: Sought, digest: str, plan: str) -> RemediesOut:
        """A search as it is sent."""
        mended, whole = _found(one, plan)
        told = {"check": one.check, "digest": digest, "state": one.state, "stage": one.stage}
        counted = {"done": one.done, "of": one.of, "words": progress(one)}
        return cls.model_validate({**told, **counted, "mended": mended, "whole": whole})


def _found(one: Sought, plan: str) -> tuple[Any, Any]:
    """What was found, as the command prints it."""
    if one.found is None:
        return None, None
    if isinstance(one.found, Mended):
        return json.loads(dump_remedies([one.found], plan))["checks"][0], None
    return None, json.loads(dump_whole(one.found, plan))["whole"]
