"""What the water does with nothing wrong: levels that it passes by itself tell nobody of a fault."""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from tidestead.studies.faults.facts import STEPS, FaultFacts, Hours, Quantity, Season
from tidestead.studies.faults.wording import HARMS, after_words


def untouched_words(faults: Iterable[FaultFacts]) -> Iterator[str]:
    """A sentence for each season and quantity that passes a level by itself, at worst: the deepest and when."""
    for (season, quantity), (step, hours, likely) in sorted(_passed(faults).items()):
        end = "likely" if likely else "at the adverse end"
        yield (
            f"With nothing wrong the water of the {_TIMES[season]} passes the level to {STEPS[step]} by itself, {end}, "
            f"{after_words(hours)}: {HARMS[quantity]}. An alarm at that level tells nothing of a fault."
        )


_TIMES: dict[Season, str] = {"winter": "coldest days", "summer": "warmest days"}


def _passed(faults: Iterable[FaultFacts]) -> dict[tuple[Season, Quantity], tuple[int, float, bool]]:
    """The deepest step, the hours until it and whether it is likely, by season and quantity."""
    found: dict[tuple[Season, Quantity], tuple[int, float, bool]] = {}
    for one in faults:
        if one.season is None or one.quiet is None or one.quiet_likely is None:
            continue
        for quantity, hours in one.quiet.reached.items():
            step = _deepest(hours)
            if step is None:
                continue
            likely = _reached(one.quiet_likely, quantity, step)
            at = hours[step]
            before = found.get((one.season, quantity))
            if before is None or (-step, at) < (-before[0], before[1]):
                found[one.season, quantity] = step, at, likely
    return found


def _deepest(hours: tuple[float, float, float]) -> int | None:
    return max((step for step, at in enumerate(hours) if math.isfinite(at)), default=None)


def _reached(hours: Hours, quantity: Quantity, step: int) -> bool:
    return math.isfinite(hours.reached[quantity][step])
