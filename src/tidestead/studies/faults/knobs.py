"""What is uncertain in every fault, each likely, at its adverse end or at its mild end."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

End = Literal["likely", "adverse", "mild"]

NAMES: Mapping[str, str] = {
    "uptake": "the oxygen that animals and bacteria use",
    "still": "the oxygen that a still surface lets in",
    "stirred": "the oxygen that a stirred surface lets in",
    "bubbles": "the oxygen that bubbles give",
    "lid": "how much oxygen a cover keeps out",
    "ammonia": "the ammonia that food becomes",
    "filter": "how fast the filter clears ammonia",
    "heat": "heat between water and surroundings (a fifth more or less)",
    "vapour": "what evaporates",
    "acid": "the pH (0.1 up or down)",
    "leak": "how much runs out",
}
"""What each knob is, in words."""

HEAT = 0.2
ACID = 0.1
"""Share by which heat may differ, steps of pH. Own choices."""


@dataclass(frozen=True)
class Knobs:
    """Ends by name; a knob that is not named is likely."""

    ends: Mapping[str, End] = field(default_factory=dict)

    def end(self, name: str) -> End:
        """Where a knob stands."""
        return self.ends.get(name, "likely")

    def factor(self, name: str, share: float, adverse: float = 1.0) -> float:
        """One, or one and a share more: upwards at the adverse end where `adverse` is 1, downwards where it is -1."""
        step = {"likely": 0.0, "adverse": adverse, "mild": -adverse}[self.end(name)]
        return 1.0 + share * step


LIKELY = Knobs()


def all_at(end: End) -> Knobs:
    """Every knob at one end."""
    return Knobs(dict.fromkeys(NAMES, end))


def only(name: str) -> Knobs:
    """One knob at its adverse end."""
    return Knobs({name: "adverse"})
