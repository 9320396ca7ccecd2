"""What this study finds and hands on: frozen, SI, for other studies, sweeps and the telling of the answer."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from dataclasses import dataclass

from tidestead.core.units import System
from tidestead.plan.model import Vessel
from tidestead.studies.judged import Judged
from tidestead.studies.structure.case_facts import CaseFacts, Subject
from tidestead.studies.structure.first_fill import FillPoint
from tidestead.studies.structure.levels import SafeLevel
from tidestead.studies.structure.water import WaterFacts

KEPT_VESSELS = 16
"""Vessels whose facts, checks and pictures are kept, so that an edit of one leaves the others as they are."""


@dataclass(frozen=True)
class VesselFacts:
    """One vessel: its load cases and what they do, as found."""

    subject: Subject
    water: WaterFacts
    cases: tuple[CaseFacts, ...]
    fill: tuple[FillPoint, ...]
    level: SafeLevel | None
    level_as_drawn: SafeLevel | None


def read_of(facts: VesselFacts, system: System) -> Hashable:
    """All that a vessel's checks, tables and pictures of fields hang on."""
    return facts.subject.read, facts.water, system


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
