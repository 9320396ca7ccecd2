"""What thickness? The least one in the catalogue with which every check of a window is sound."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tidestead.core.answer import Verdict, worst
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.core.units import System
from tidestead.studies.judged import Judged
from tidestead.studies.structure.window_checks import BOW_SHARE, bow_checks, stress_checks
from tidestead.studies.structure.window_facts import WindowFacts, WindowSetting, find_window


@dataclass(frozen=True)
class Choice:
    """One thickness tried: largest use of stress and of bow over all load cases, and the verdict."""

    thickness: float
    stress: float
    bow: float
    verdict: Verdict


def least_sound(window: WindowFacts, settings: Sequence[WindowSetting], system: System) -> tuple[Choice, ...]:
    """Thicknesses from the catalogue up to the least sound one over all load cases, which are `settings`."""
    if window.window.plies:
        return ()
    stock = sorted(window.row.several("thicknesses" if system == "metric" else "thicknesses_inch"))
    found: list[Choice] = []
    for thickness in stock[max(0, _first_guess(window, stock) - 2) :]:
        choice = _try(window, settings, thickness, system)
        if choice is None:
            continue
        found.append(choice)
        if choice.verdict is Verdict.SOUND:
            break
    return tuple(found[-SHOWN:])


SHOWN = 4
"""Thicknesses told of for one window."""


def _first_guess(window: WindowFacts, stock: Sequence[float]) -> int:
    """Number of the thickness at which the lasting bow would be about sound, by its cube; tried from two below."""
    bow = window.state.max_bow / min(window.creep)
    wanted = window.thickness * (bow / (0.8 * window.span / BOW_SHARE)) ** (1.0 / 3.0)
    thick = window.row.figures
    stress = [
        6.0 * peak.value / window.thickness**2 / window.row.si(f"stress_{side}_side")
        for side, peak in (("water", window.state.peak_water), ("air", window.state.peak_air))
        if f"stress_{side}_side" in thick
    ]
    wanted = max([wanted, *(window.thickness * (use / 0.8) ** 0.5 for use in stress)])
    return sum(thickness < wanted for thickness in stock)


def _try(
    window: WindowFacts, settings: Sequence[WindowSetting], thickness: float, system: System
) -> Choice | None:
    tried = window.window.model_copy(
        update={"thickness": thickness, "as_built": type(window.window.as_built)()}
    )
    checks: list[Judged] = []
    for setting in settings:
        try:
            facts = find_window(window.at, window.name, tried, setting)
        except (SolverError, ImpossibleInput):
            return None
        checks += stress_checks(facts, system) + bow_checks(facts)
    judged = [one for one in checks if not one.check.id.endswith((".temperature", ".broken_ply"))]
    stress = max((one.use for one in judged if ".stress" in one.check.id), default=float("inf"))
    bow = max((one.use for one in judged if ".bow" in one.check.id), default=float("inf"))
    return Choice(thickness, stress, bow, worst([one.check.verdict for one in judged]))
