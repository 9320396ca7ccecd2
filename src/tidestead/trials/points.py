"""One point of a sweep after the other, in whatever process: the plan there, and what was sought of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from tidestead.core.errors import PlanError, TidesteadError
from tidestead.desk.sought import Sought, sought
from tidestead.plan import LoadedPlan
from tidestead.trials.grid import Grid
from tidestead.trials.known import Row
from tidestead.trials.plans import Plans
from tidestead.trials.shows import Shown, cells_of


@dataclass(frozen=True)
class Points:
    """A plan, what is varied of it and what is looked at."""

    loaded: LoadedPlan
    grid: Grid
    shown: tuple[Shown, ...]

    @cached_property
    def plans(self) -> Plans:
        """Read once in each process."""
        return Plans.of(self.loaded, self.grid)

    @cached_property
    def wanted(self) -> Mapping[str, frozenset[str] | None]:
        """The ids to look for by subject; None for all of them, where the subject as a whole is shown."""
        found: dict[str, frozenset[str] | None] = {}
        for one in self.shown:
            before = found.get(one.subject, frozenset())
            whole = one.kind == "subject" or before is None
            found[one.subject] = None if whole else (before or frozenset()) | {one.id}
        return found

    def row(self, number: int) -> Row:
        """What a point comes to. One that breaks does not take the others with it."""
        try:
            plan = self.plans.at(number)
        except PlanError as error:
            return Row(number, refused=" ".join(str(error.faults[0]).split()))
        try:
            return Row(number, cells_of(self.shown, found_of(plan, self.wanted)))
        except TidesteadError as error:
            return Row(number, refused=" ".join(str(error).split()))
        except Exception as error:  # a fault of ours at one point must not end the sweep
            return Row(
                number, refused=f"Tidestead is at fault: {type(error).__name__}: {error}"[:300], fault=True
            )


def found_of(loaded: LoadedPlan, wanted: Mapping[str, frozenset[str] | None]) -> dict[str, Sought]:
    """What was sought of each subject."""
    return {subject: sought(loaded, subject, ids) for subject, ids in wanted.items()}
