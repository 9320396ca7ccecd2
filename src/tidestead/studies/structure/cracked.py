"""Cracked pieces that nothing here takes out of the reckoning: such a part is unproven, never sound.

Ties are not among them: a cracked tie is left out, and rims and the other ties take its share.
"""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.core.source import PRACTICE
from tidestead.plan.model import MeasuredTimber, Vessel
from tidestead.studies.checks import At, unproven
from tidestead.studies.judged import Judged
from tidestead.studies.structure.found import box_walls


def cracked_checks(at: At, vessel: Vessel) -> list[Judged]:
    """One check for every part of which a piece is cracked through."""
    found = []
    for here, measured in _parts(at, vessel):
        if measured.cracked:
            count = len(measured.cracked)
            pieces = "a piece is" if count == 1 else f"{count} pieces are"
            why = f"{pieces} cracked through, and what the others then carry is not reckoned: mend or replace"
            found.append(Judged(unproven(here, "cracked", "cracked pieces", "1", why, PRACTICE)))
    return found


def _parts(at: At, vessel: Vessel) -> Iterator[tuple[At, MeasuredTimber]]:
    """Every part whose pieces may be measured, but the ties."""
    for place in box_walls(vessel) if vessel.shape == "box" else ():
        wall, here = place.wall, at.below(place.name, f"{place.name} wall")
        for name, timber in (("studs", wall.studs), ("rim", wall.rim), ("buttresses", wall.buttresses)):
            if timber is not None:
                yield here.below(name, name), timber.as_built
    if vessel.shape != "box":
        for name, part in (("rings", vessel.rings), ("ribs", vessel.ribs)):
            if part is not None:
                yield at.below(name, name), part.as_built
