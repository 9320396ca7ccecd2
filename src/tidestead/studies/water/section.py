"""One matter of the water's answer, as its module hands it up: checks, what is shown, what is told."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.core.answer import Assumption, Figure, Table, Working
from tidestead.core.charts import Chart
from tidestead.studies.judged import Judged


@dataclass(frozen=True)
class Section:
    """`told` are sentences for the answer's own, the most important first; `workings` such as belong to no check."""

    judged: tuple[Judged, ...] = ()
    figures: tuple[Figure, ...] = ()
    tables: tuple[Table, ...] = ()
    charts: tuple[Chart, ...] = ()
    assumptions: tuple[Assumption, ...] = ()
    workings: tuple[Working, ...] = ()
    cautions: tuple[str, ...] = ()
    told: tuple[str, ...] = ()
