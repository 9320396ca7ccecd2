"""The twelve questions in the user's order, and which of them can be answered yet."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class SubjectEntry:
    """One question. `study` is the module that answers it, `uses` the parts of the plan it reads, `needs` the
    subjects whose facts it is given, which come before it. `weather` says that it is given the weather, `dated` that
    its judgement hangs on the day on which it is asked. `part_of` is the question that a stage is the first part of.
    """

    name: str
    question: str
    study: str = ""
    uses: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    weather: bool = False
    compiles: str = ""
    dated: bool = False
    part_of: str = ""

    @property
    def built(self) -> bool:
        return bool(self.study)

    @property
    def reason(self) -> str:
        """Why there is no proof yet; empty where there is a study."""
        return "" if self.built else "This version cannot work this out yet, so nothing is proved either way."


_FLOW_USES = (
    "name", "gallons", "site", "water", "vessels", "pumps", "valves", "apparatus", "circuits", "outfalls", "supplies",
    "targets", "yours",
)  # fmt: skip

HEAT_YEARS = "years of heat"

_HEAT_USES = (
    "show", "gallons", "site", "weather", "building", "water", "vessels", "pumps", "apparatus", "heaters", "chillers",
    "corals", "covers", "fans", "supplies", "yours",
)  # fmt: skip

SUBJECTS: tuple[SubjectEntry, ...] = (
    SubjectEntry(
        "structure",
        "Will it hold?",
        "tidestead.studies.structure",
        ("show", "gallons", "site", "building", "water", "vessels", "yours"),
    ),
    SubjectEntry("flow", "Will the water go round?", "tidestead.studies.flow", _FLOW_USES),
    SubjectEntry(
        "foam",
        "Will the fractionator earn its place?",
        "tidestead.studies.foam",
        _FLOW_USES,
        needs=("flow",),
    ),
    SubjectEntry(
        "heat",
        "Will it stay warm, and not get too warm?",
        "tidestead.studies.heat",
        _HEAT_USES,
        needs=("flow", "light", HEAT_YEARS),
        weather=True,
        compiles="run_hours",
    ),
    SubjectEntry(
        "light",
        "Is there light enough to grow?",
        "tidestead.studies.light",
        (
            "gallons",
            "weather",
            "building",
            "water",
            "vessels",
            "covers",
            "lamps",
            "corals",
            "measured",
            "supplies",
            "yours",
        ),
        weather=True,
        compiles="year_into",
    ),
    SubjectEntry(
        "water",
        "Is the water right?",
        "tidestead.studies.water",
        (
            "name",
            "gallons",
            "currency",
            "site",
            "water",
            "vessels",
            "heaters",
            "covers",
            "corals",
            "salt",
            "sources",
            "changes",
            "feed",
            "fish",
            "quarantine",
            "filters",
            "adsorbers",
            "harvests",
            "losses",
            "dosers",
            "kalkwasser",
            "reactors",
            "airpumps",
            "response",
            "thresholds",
            "measured",
            "supplies",
            "targets",
            "yours",
        ),
        needs=("flow", "foam", HEAT_YEARS),
    ),
    SubjectEntry(
        "power",
        "Is there power enough, and is it safe?",
        "tidestead.studies.power",
        (
            "show",
            "gallons",
            "building",
            "pumps",
            "heaters",
            "chillers",
            "fans",
            "lamps",
            "changes",
            "airpumps",
            "supply",
            "electrics",
            "devices",
            "backups",
            "response",
            "supplies",
        ),
        needs=("flow", "light", HEAT_YEARS),
    ),
    SubjectEntry(
        "faults",
        "What if something stops?",
        "tidestead.studies.faults",
        (
            "gallons",
            "site",
            "building",
            "water",
            "vessels",
            "pumps",
            "heaters",
            "chillers",
            "covers",
            "corals",
            "feed",
            "fish",
            "quarantine",
            "filters",
            "dosers",
            "kalkwasser",
            "airpumps",
            "devices",
            "supply",
            "electrics",
            "backups",
            "response",
            "thresholds",
            "prices",
            "cleaning",
            "measured",
            "yours",
        ),
        needs=("flow", "light", "heat", "water", "power"),
        compiles="run_steps",
    ),
    SubjectEntry(
        "cost",
        "What does it take, and what does it cost?",
        "tidestead.build.cost.study",
        (
            "show",
            "gallons",
            "currency",
            "site",
            "building",
            "water",
            "vessels",
            "pumps",
            "valves",
            "apparatus",
            "circuits",
            "outfalls",
            "heaters",
            "chillers",
            "covers",
            "fans",
            "lamps",
            "salt",
            "sources",
            "changes",
            "feed",
            "filters",
            "adsorbers",
            "harvests",
            "dosers",
            "kalkwasser",
            "reactors",
            "airpumps",
            "supply",
            "electrics",
            "devices",
            "backups",
            "supplies",
            "book",
            "rates",
            "risks",
            "cutting",
            "targets",
            "yours",
        ),
        needs=("flow", "light", HEAT_YEARS, "water"),
        dated=True,
    ),
    SubjectEntry("visits", "What fits into this visit?"),
    SubjectEntry("care", "May I leave, and who does what then?"),
    SubjectEntry("watch", "Is all well today?"),
)

STAGES: tuple[SubjectEntry, ...] = (
    SubjectEntry(
        HEAT_YEARS,
        "",
        "tidestead.studies.heat.yearly",
        _HEAT_USES,
        needs=("flow", "light"),
        weather=True,
        compiles="run_hours",
        part_of="heat",
    ),
)
"""Parts of a study that others rest on, found for themselves: nobody waits for the rest of it. None is a question."""

ENTRIES = {entry.name: entry for entry in (*SUBJECTS, *STAGES)}
"""All that the desk can find, by name."""
