"""What thickness? The least one in the catalogue with which every check of a window is sound."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tidestead.core.answer import Verdict, worst
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.core.units import System
from tidestead.studies.structure.judged import Judged
from tidestead.studies.structure.window_checks import bow_checks, stress_checks
from tidestead.studies.structure.window_facts import WindowFacts, WindowSetting, find_window


@dataclass(frozen=True)
class Choice:
    """One thickness tried: largest use of stress and of bow over all load cases, and the verdict."""

    thickness: float
    stress: float
    bow: float
    verdict: Verdict


def least_sound(
    window: WindowFacts, settings: Sequence[WindowSetting], lasting: int, system: System
) -> tuple[Choice, ...]:
    """Thicknesses from the catalogue around the least sound one, rising; the last is sound unless none is.

    `settings` are the load cases, `lasting` the number of the one that stays for good.
    """
    if window.window.plies:
        return ()
    stock = window.row.several("thicknesses" if system == "metric" else "thicknesses_inch")
    found: list[Choice] = []
    for thickness in sorted(stock):
        choice = _try(window, settings, lasting, thickness, system)
        if choice is None:
            continue
        found.append(choice)
        if choice.verdict is Verdict.SOUND:
            break
    return tuple(found[-4:])


def _try(
    window: WindowFacts, settings: Sequence[WindowSetting], lasting: int, thickness: float, system: System
) -> Choice | None:
    tried = window.window.model_copy(
        update={"thickness": thickness, "as_built": type(window.window.as_built)()}
    )
    checks: list[Judged] = []
    for number, setting in enumerate(settings):
        try:
            facts = find_window(window.at, window.name, tried, setting)
        except (SolverError, ImpossibleInput):
            return None
        checks += stress_checks(facts, system)
        bows = bow_checks(facts)
        checks += [one for one in bows if number == lasting or one.check.id.endswith("bow.short")]
    judged = [one for one in checks if one.check.id.rsplit(".", 2)[-1] != "temperature" and "broken_ply" not in one.check.id]
    stress = max((one.use for one in judged if ".stress" in one.check.id), default=float("inf"))
    bow = max((one.use for one in judged if ".bow" in one.check.id), default=float("inf"))
    return Choice(thickness, stress, bow, worst([one.check.verdict for one in judged]))
