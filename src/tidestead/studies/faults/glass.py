"""Film on windows: share under set patches by day since the wipe, month by month, and the last safe day."""

from __future__ import annotations

import math

from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.core.source import YOURS
from tidestead.physics import film
from tidestead.plan.model import Plan
from tidestead.studies.faults.facts import FilmFacts
from tidestead.studies.faults.waters import Basis
from tidestead.studies.light.facts import LightFacts

DAYS = 14
_A_DAY = 86400.0
_TEN = 10.0
ENOUGH = 8
"""Looks from which on the plan's own take the place of the catalogue's. Own choice, with the reference's 8 to 10."""


def film_of(basis: Basis, light: LightFacts) -> FilmFacts | None:
    """The calendar; None where the display has no window."""
    plan = basis.plan
    if not any(wall.windows for wall in plan.vessels[basis.setting.display].walls.values()):
        return None
    raise NotImplementedError


__all__ = ["DAYS", "ENOUGH", "Estimate", "YOURS", "film", "film_of", "math", "table", "Plan"]
