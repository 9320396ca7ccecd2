"""What changed between two sets of answers, in words: verdicts first, then checks that moved."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, TypeAlias

from tidestead.core.answer import Answer, Verdict
from tidestead.report import wording

Snapshot: TypeAlias = dict[str, Any]
"""Of each subject its verdict and of each check its verdict, use and name; plain, so that it can be kept as JSON."""

_MOVED = 0.01
"""Of the limit: a check whose use moved by less has not changed for a reader."""
_TOLD = 6


@dataclass(frozen=True)
class Change:
    """One thing that is not as it was: of what, what it was, what it is, and whether that is better or worse."""

    subject: str
    check: str
    what: str
    was: str
    now: str
    better: bool | None


def snapshot(answers: Mapping[str, Answer]) -> Snapshot:
    """What of the answers is compared later. Use that is endless or unknown is None."""
    return {
        name: {
            "verdict": answer.verdict.value,
            "checks": {
                check.id: [
                    check.verdict.value,
                    _finite(check.use),
                    f"{wording.titled(check)} ({check.where})",
                ]
                for check in answer.checks
            },
        }
        for name, answer in answers.items()
    }


def _finite(use: float | None) -> float | None:
    return use if use is not None and abs(use) < 1e6 else None


def changes(before: Snapshot, now: Snapshot) -> dict[str, tuple[Change, ...]]:
    """By subject, what is not as it was; only subjects that both know."""
    found = {name: tuple(_of_subject(name, before[name], now[name])) for name in now if name in before}
    return {name: told for name, told in found.items() if told}


def _of_subject(name: str, before: Snapshot, now: Snapshot) -> list[Change]:
    told = []
    if before["verdict"] != now["verdict"]:
        better = _better(before["verdict"], now["verdict"])
        told.append(Change(name, "", "the answer", before["verdict"], now["verdict"], better))
    less_known = _unproven(now) > _unproven(before)
    turned, moved = [], []
    for check, (verdict, use, what) in now["checks"].items():
        if check not in before["checks"]:
            continue
        old_verdict, old_use, _ = before["checks"][check]
        if old_verdict != verdict:
            better = _better(old_verdict, verdict)
            better = None if better and less_known else better
            turned.append(Change(name, check, what, old_verdict, verdict, better))
        elif use is not None and old_use is not None and abs(use - old_use) >= _MOVED:
            was, is_now = (f"{wording.percent(share)} used" for share in (old_use, use))
            eased = None if less_known else True
            change = Change(name, check, what, was, is_now, eased if use < old_use else False)
            moved.append((abs(use - old_use), change))
    moved.sort(key=lambda pair: -pair[0])
    told += sorted(turned, key=lambda change: -_rank(change.now))
    grave, light = _come_and_gone(name, before["checks"], now["checks"])
    return [*told, *grave, *(change for _, change in moved), *light]


def _come_and_gone(name: str, before: Snapshot, now: Snapshot) -> tuple[list[Change], list[Change]]:
    """Checks that one state alone has: first those that are not sound in it, then the others."""
    come = [
        Change(name, key, now[key][2], "not asked", now[key][0], None) for key in now if key not in before
    ]
    gone = [
        Change(name, key, before[key][2], before[key][0], "no longer asked", None)
        for key in before
        if key not in now
    ]
    found = [(change.now, change) for change in come] + [(change.was, change) for change in gone]
    grave = [change for verdict, change in found if verdict != Verdict.SOUND.value]
    return grave, [change for verdict, change in found if verdict == Verdict.SOUND.value]


def _better(before: str, now: str) -> bool | None:
    """Whether a verdict is better than another; from failing to unproven is neither."""
    if {before, now} == {Verdict.FAILS.value, Verdict.UNPROVEN.value}:
        return None
    return _rank(now) < _rank(before)


def _unproven(state: Snapshot) -> int:
    """How many checks are unproven. Where more are, others may only seem to be eased: a load is missing."""
    return sum(verdict == Verdict.UNPROVEN.value for verdict, *_ in state["checks"].values())


def _rank(verdict: str) -> int:
    return [Verdict.SOUND, Verdict.NEAR, Verdict.UNPROVEN, Verdict.FAILS].index(Verdict(verdict))


def first_of(told: Sequence[Change]) -> tuple[Sequence[Change], int]:
    """The changes to show, and how many more there are."""
    return told[:_TOLD], max(0, len(told) - _TOLD)
