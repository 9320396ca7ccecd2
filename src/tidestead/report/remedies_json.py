"""Remedies as one JSON object: SI values with their unit beside them, money in the plan's currency."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any, TypeAlias

from tidestead import __version__
from tidestead.plan.edits import Edit
from tidestead.report.as_json import FORMAT
from tidestead.report.json_numbers import Numbers
from tidestead.trials.remedy import Effect, Mended, Move, Priced, Remedy, State, Whole

Object: TypeAlias = dict[str, Any]


def dump_remedies(mended: Sequence[Mended], plan: str) -> str:
    """The remedies of every check as text, with a newline at its end."""
    return _text({**_head(plan), "checks": [_mended(one) for one in mended]})


def dump_whole(whole: Whole, plan: str) -> str:
    """A whole design as text, with a newline at its end."""
    found = {
        "moves": [_move(move) for move in whole.moves],
        "mends": [_state(state) for state in whole.before],
        "left": [_state(state) for state in whole.left],
        "effects": [_effect(effect) for effect in whole.effects],
        "price": _price(whole.price),
        "no_less_than": whole.bound,
        "tried": whole.tried,
        "changes": whole.changes,
        "subjects": list(whole.subjects),
        "proof": whole.proof,
        "late": whole.late,
    }
    return _text({**_head(plan), "whole": found})


def _head(plan: str) -> Object:
    return {"format": FORMAT, "tidestead": __version__, "plan": plan}


def _text(found: Object) -> str:
    return json.dumps(found, indent=1, ensure_ascii=True, allow_nan=False) + "\n"


def _mended(one: Mended) -> Object:
    best = None if one.best is None else {"words": one.best[0], "state": _state(one.best[1])}
    return {
        "state": _state(State.of(one.check)),
        "remedies": [_remedy(remedy) for remedy in one.remedies],
        "tried": one.tried,
        "best": best,
        "cut": one.cut,
        "advice": one.check.advice,
    }


def _remedy(remedy: Remedy) -> Object:
    return {
        "number": remedy.number,
        **_move(remedy.move),
        "before": _state(remedy.before),
        "after": _state(remedy.after),
        "subjects": list(remedy.subjects),
        "unasked": list(remedy.unasked),
        "effects": [_effect(effect) for effect in remedy.effects],
        "price": _price(remedy.price),
    }


def _move(move: Move) -> Object:
    return {"words": move.words, "effort": move.effort, "edits": [_edit(edit) for edit in move.edits]}


def _edit(edit: Edit) -> Object:
    return {"key": edit.key, "value": edit.value}


def _effect(effect: Effect) -> Object:
    before, after = effect.before, effect.after
    return {
        "id": effect.id,
        "worse": effect.worse,
        "better": effect.better,
        "before": None if before is None else _state(before),
        "after": None if after is None else _state(after),
    }


def _state(state: State) -> Object:
    numbers = Numbers()
    found: Object = {
        "id": state.id,
        "what": state.what,
        "where": state.where,
        "value": numbers.take("value", state.value),
        "at_worst": numbers.take("at_worst", state.value if state.worst is None else state.worst),
        "unit": state.unit,
        "use": numbers.take("use", state.use),
        "margin": numbers.take("margin", state.margin),
        "verdict": state.verdict.value,
    }
    return {**found, "why_null": numbers.why} if numbers.why else found


def _price(price: Priced | None) -> Object | None:
    if price is None:
        return None
    cash, yearly = price.cash, price.yearly
    found: Object = {
        "currency": price.currency,
        "low": cash.low,
        "likely": cash.likely,
        "high": cash.high,
        "whole": price.whole,
        "unpriced": list(price.unpriced),
    }
    if yearly is not None:
        found["yearly"] = {"low": yearly.low, "likely": yearly.likely, "high": yearly.high}
    return found
