"""What every judgement of a timber part needs besides the part: rules and climate, the load case, the tables."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tidestead.catalog import Row, Table
from tidestead.core.units import Section
from tidestead.studies.structure.timber import Piece, Setting, piece
from tidestead.studies.structure.water import LoadCase


@dataclass(
    frozen=True, eq=False
)  # as a row is itself: what is worked out with these tables can be kept by them
class Tables:
    """Our tables by name, with the user's own rows in them."""

    named: Mapping[str, Table]

    def __getitem__(self, name: str) -> Table:
        return self.named[name]


@dataclass(frozen=True)
class Ask:
    """Rules, load case and tables of one vessel."""

    setting: Setting
    case: LoadCase
    tables: Tables

    def lumber(self, grade: str) -> Row:
        return self.tables["lumber"][grade]

    def piece(self, grade: str, section: Section, *, repetitive: bool = False) -> Piece:
        """A timber of a grade, as used in this case."""
        return piece(self.setting, self.lumber(grade), section, self.case.duration, repetitive=repetitive)

    def lasting(self, creep: float) -> float:
        """How many times its first bow a timber bends in the end: creep counts where the load stays."""
        return creep if self.case.duration == "permanent" else 1.0
