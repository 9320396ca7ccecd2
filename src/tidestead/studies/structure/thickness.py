"""What thickness? The least one in the catalogue with which every check of a window is sound."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tidestead.core.answer import Verdict, worst
from tidestead.core.errors import ImpossibleInput, SolverError
from tidestead.core.units import System
from tidestead.studies.checks import ENOUGH
from tidestead.studies.judged import Judged
from tidestead.studies.structure.beam_checks import BOW_SHARE
from tidestead.studies.structure.timber import Piece
from tidestead.studies.structure.window_bow import bow_checks
from tidestead.studies.structure.window_checks import clamp_checks, seat_checks, stress_checks
from tidestead.studies.structure.window_facts import WindowFacts, WindowSetting, find_window
from tidestead.studies.structure.window_seal import seal_checks


@dataclass(frozen=True)
class Choice:
    """One thickness tried: largest use of stress, of bow and of seat and seal over all load cases, and the verdict."""

    thickness: float
    stress: float
    bow: float
    rest: float
    verdict: Verdict


Surroundings = Sequence[tuple[WindowSetting, Piece | None]]
"""In every load case, what the window is solved with and the timber its lower edge leans on."""


def least_sound(window: WindowFacts, settings: Surroundings, system: System) -> tuple[Choice, ...]:
    """Thicknesses from the catalogue up to the least sound one over all load cases, which are `settings`.

    Where stress and bow are sound and something else is not, a few thicker ones are tried, since they turn less on
    their seats.
    """
    if window.window.plies:
        return ()
    stock = sorted(window.row.several("thicknesses" if system == "metric" else "thicknesses_inch"))
    found: list[Choice] = []
    enough = 0
    for thickness in stock[max(0, _first_guess(window, stock) - 2) :]:
        choice = _try(window, settings, thickness, system)
        if choice is None:
            continue
        found.append(choice)
        enough += max(choice.stress, choice.bow) <= ENOUGH
        if choice.verdict is Verdict.SOUND or enough >= SHOWN:
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


_LEFT_OUT = (".temperature",)
"""Checks that no thickness changes and that the table leaves out: how warm the sheet stays."""


def _try(window: WindowFacts, settings: Surroundings, thickness: float, system: System) -> Choice | None:
    tried = window.window.model_copy(
        update={"thickness": thickness, "as_built": type(window.window.as_built)()}
    )
    checks: list[Judged] = []
    for setting, timber in settings:
        try:
            facts = find_window(window.at, window.name, tried, setting)
        except (SolverError, ImpossibleInput):
            return None
        checks += stress_checks(facts, system) + bow_checks(facts)
        checks += seat_checks(facts, timber) + clamp_checks(facts) + seal_checks(facts)
    judged = [one for one in checks if not one.check.id.endswith(_LEFT_OUT)]
    stress = max((one.use for one in judged if ".stress" in one.check.id), default=float("inf"))
    bow = max((one.use for one in judged if ".bow" in one.check.id), default=float("inf"))
    rest = max(
        (one.use for one in judged if ".stress" not in one.check.id and ".bow" not in one.check.id),
        default=0.0,
    )
    return Choice(thickness, stress, bow, rest, worst([one.check.verdict for one in judged]))
