"""The sentence of an answer: what governs, by how much, what to do; the same manner in every subject."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from tidestead.core.answer import Check, Estimate, Verdict, worst
from tidestead.core.units import System, show

HEADS: Mapping[Verdict, str] = {
    Verdict.SOUND: "Yes, by these checks.",
    Verdict.NEAR: "Yes, but with little to spare.",
    Verdict.FAILS: "Not as it stands.",
    Verdict.UNPROVEN: "Not proved yet.",
}


def told_of(
    checks: Sequence[Check],
    system: System,
    opening: Sequence[str] = (),
    mending: Sequence[str] = (),
    causes: Sequence[str] = (),
) -> list[str]:
    """The sentences on a set of checks: yes or no, what fails, what is not proved, what is near, else what comes first.

    `opening` follows the yes or no, `mending` what fails, where something does. `causes` are ends of checks whose
    failure brings others with it, the deepest first: they are told before the most used.
    """
    words = [HEADS[worst([check.verdict for check in checks])], *opening]
    failing, near = ranked(checks, Verdict.FAILS, causes), ranked(checks, Verdict.NEAR)
    silent = [check for check in checks if check.verdict is Verdict.UNPROVEN]
    if failing:
        words += [failing_words(failing, system), *mending]
    if silent:
        words.append(silent_words(silent))
    if near and not failing:
        words.append(near_words(near))
    if not (failing or near or silent):
        first = governing(checks)
        margin = first.margin
        spare = "an unknown share" if margin is None else f"{100.0 * margin:.0f} %"
        words.append(f"{named(first)} is the tightest, with {spare} to spare.")
    return words


def governing(checks: Sequence[Check], causes: Sequence[str] = ()) -> Check:
    """The check that the sentence tells first and the verdict rests on. `checks` holds one at least."""
    found = worst([check.verdict for check in checks])
    return ranked(checks, found, causes if found is Verdict.FAILS else ())[0]


def ranked(checks: Sequence[Check], verdict: Verdict, causes: Sequence[str] = ()) -> list[Check]:
    """The checks of one verdict, causes first and then the most used."""
    found = [check for check in checks if check.verdict is verdict]

    def order(check: Check) -> tuple[int, float]:
        rank = next((at for at, end in enumerate(causes) if check.id.endswith(end)), len(causes))
        return rank, -(check.use or 0.0)

    return sorted(found, key=order)


def failing_words(failing: Sequence[Check], system: System) -> str:
    """The worst failing check with its numbers, how many more there are, and what to try."""
    first = failing[0]
    estimate, limit = first.estimate, first.limit
    words = f"{named(first)} fails"
    if estimate is not None and isinstance(limit, tuple):
        words += f": {_between(first, estimate, limit, system)}"
    elif estimate is not None and isinstance(limit, float):
        adverse = estimate.high if first.must_be == "below" else estimate.low
        pair = (adverse, limit)
        now, allowed = (_shown(value, first, system, pair) for value in pair)
        now = f"over {now}" if adverse >= estimate.followed else now
        needed = f"{allowed} is allowed" if first.must_be == "below" else f"at least {allowed} is needed"
        told = (first.unit != "1" or first.style == "share") and now != allowed
        words += f": {now} where {needed}" if told else f": {percent(first)} of what is allowed"
    words += f"{rest_words(failing, 'fails too', 'fail too')}."
    if first.advice:
        words += f" Try {first.advice}."
    return words


def _shown(value: float, check: Check, system: System, beside: Sequence[float]) -> str:
    """A value of a check; shares in per cent."""
    if check.style == "share":
        return f"{100.0 * value:.0f} %"
    return show(value, check.unit, system, check.style, beside)


def _between(check: Check, estimate: Estimate, limits: tuple[float, float], system: System) -> str:
    """The end of the value that is further outside, and what it has to lie between."""
    low, high = limits
    adverse = estimate.high if estimate.high - high >= low - estimate.low else estimate.low
    numbers = (adverse, low, high)
    now, least, most = (_shown(value, check, system, numbers) for value in numbers)
    return f"{now} where {least} to {most} is allowed"


def near_words(near: Sequence[Check]) -> str:
    """The tightest of the checks that are near."""
    return (
        f"{named(near[0])} uses {percent(near[0])} of what is allowed"
        f"{rest_words(near, 'is near its limit', 'are near theirs')}."
    )


def silent_words(silent: Sequence[Check]) -> str:
    """How many checks cannot be made, and what the first of them wants."""
    first = silent[0]
    count = len(silent)
    head = "One check cannot be made" if count == 1 else f"{count} checks cannot be made"
    return f"{head}; begin with {first.where}: {(first.missing or 'the value is not finite').rstrip('.')}."


def rest_words(checks: Sequence[Check], one: str, many: str) -> str:
    """How many more there are than the first."""
    left = len(checks) - 1
    if left == 0:
        return ""
    return f"; one more {one}" if left == 1 else f"; {left} more {many}"


def named(check: Check) -> str:
    """Where and what, as the begin of a sentence."""
    words = f"{check.where}: {check.what}"
    return words[0].upper() + words[1:]


def percent(check: Check) -> str:
    """The share used, in words."""
    use = check.use
    return "an unknown share" if use is None else f"{100.0 * use:.0f} %" if use < 100.0 else "many times"
