"""What this study finds and hands on: frozen, SI, for other studies, sweeps and the telling of the answer."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from tidestead.plan.model import Vessel
from tidestead.studies.judged import Judged
from tidestead.studies.structure.case_facts import CaseFacts, Subject
from tidestead.studies.structure.first_fill import FillPoint
from tidestead.studies.structure.levels import SafeLevel
from tidestead.studies.structure.water import WaterFacts


@dataclass(frozen=True)
class VesselFacts:
    """One vessel: its load cases and what they do, as found."""

    subject: Subject
    water: WaterFacts
    cases: tuple[CaseFacts, ...]
    fill: tuple[FillPoint, ...]
    level: SafeLevel | None
    level_as_drawn: SafeLevel | None


@dataclass(frozen=True)
class StructureFacts:
    """Every vessel that holds water, bought ones among them."""

    built: tuple[VesselFacts, ...]
    bought: Mapping[str, tuple[Vessel, WaterFacts]]


@dataclass(frozen=True)
class VesselJudged:
    """One vessel with its checks, the adverse load case of each."""

    facts: VesselFacts
    judged: tuple[Judged, ...]
