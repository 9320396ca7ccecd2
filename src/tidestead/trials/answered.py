"""What changes of a plan came to, kept on this machine, so that a search that was stopped goes on where it was."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from contextlib import suppress
from dataclasses import astuple
from pathlib import Path
from typing import Any, TypeAlias

from tidestead import __version__, desk
from tidestead.core.answer import Estimate, Verdict
from tidestead.core.cache_folder import cache_folder
from tidestead.core.program import program
from tidestead.desk.prices import prices_for
from tidestead.desk.sought import weather_digest
from tidestead.plan import LoadedPlan
from tidestead.trials.known import add_lines
from tidestead.trials.remedy import Priced, State

States: TypeAlias = Mapping[str, State]
Key: TypeAlias = tuple[str, str]
"""The digest of a changed plan's text, and a subject."""


class Answered:
    """The states of one plan's changes: a file that only ever grows, a line for each plan and subject."""

    def __init__(self, path: Path) -> None:
        self._path = path

    @classmethod
    def of(cls, loaded: LoadedPlan) -> Answered:
        """What is kept of a plan as it stands, with its weather, its prices and this program."""
        weathered = [entry.name for entry in desk.SUBJECTS if entry.weather]
        said = [loaded.digest, __version__, program(), weather_digest(loaded, weathered)]
        said.append(prices_for(loaded).digest)
        name = hashlib.sha256("\n".join(said).encode()).hexdigest()[:32]
        return cls(cache_folder() / "mending" / f"{name}.jsonl")

    def read(self) -> tuple[dict[Key, States | None], dict[str, Priced | None]]:
        """All states, and what changed plans add to the cost; a line that was torn off is passed over."""
        states: dict[Key, States | None] = {}
        prices: dict[str, Priced | None] = {}
        try:
            lines = self._path.read_bytes().splitlines()
            self._path.touch()
        except OSError:
            return states, prices
        for line in lines:
            with suppress(ValueError, TypeError, KeyError, AttributeError):  # torn off, or of another sort
                kept = json.loads(line)
                if "price" in kept:
                    prices[str(kept["plan"])] = _price(kept["price"])
                else:
                    states[str(kept["plan"]), str(kept["subject"])] = _states(kept["states"])
        return states, prices

    def add(self, states: Mapping[Key, States | None], prices: Mapping[str, Priced | None]) -> None:
        """Keep what was answered. Where nothing can be kept nothing is said: the search goes on."""
        told: list[dict[str, Any]] = []
        for (plan, subject), one in states.items():
            rows = None if one is None else [astuple(state) for state in one.values()]
            told.append({"plan": plan, "subject": subject, "states": rows})
        told.extend(
            {"plan": plan, "price": None if one is None else _told(one)} for plan, one in prices.items()
        )
        add_lines(self._path, [json.dumps(one, separators=(",", ":")) for one in told])


def _told(price: Priced) -> dict[str, Any]:
    """What a change adds to the cost; its throws are not kept."""
    yearly = None if price.yearly is None else astuple(price.yearly)
    return {
        "cash": astuple(price.cash),
        "currency": price.currency,
        "yearly": yearly,
        "unpriced": price.unpriced,
    }


def _price(kept: dict[str, Any] | None) -> Priced | None:
    """The same as it was kept; raises where it is none."""
    if kept is None:
        return None
    yearly = None if kept["yearly"] is None else Estimate(*kept["yearly"])
    return Priced(Estimate(*kept["cash"]), str(kept["currency"]), yearly, tuple(map(str, kept["unpriced"])))


def _states(kept: list[list[Any]] | None) -> States | None:
    return None if kept is None else {one.id: one for one in map(_state, kept)}


def _state(kept: list[Any]) -> State:
    ident, what, where, value, unit, style, use, verdict, part, worst = kept
    told = (str(ident), str(what), str(where), value, str(unit), str(style))
    return State(*told, use, Verdict(verdict), str(part), worst)
