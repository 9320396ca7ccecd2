"""The one small tree of exceptions, and the record of a fault in a user's text.

Every message says where, what was typed, what is allowed and what to do.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Fault:
    """One thing wrong with what the user wrote.

    `where` is a dotted plan key (or a file name), `line` counts from 1 and is None where no line can be named.
    """

    where: str
    line: int | None
    given: str
    allowed: str
    advice: str

    def __str__(self) -> str:
        place = f"{self.where} (line {self.line})" if self.line is not None else self.where
        parts = [place + ":"]
        if self.given:
            parts.append(self.given)
        parts.append(self.allowed)
        parts.append(self.advice)
        return " ".join(part for part in parts if part)


class TidesteadError(Exception):
    """Anything this program raises on purpose."""


class QuantityError(TidesteadError):
    """A typed quantity that cannot be taken: bare, ambiguous, of the wrong dimension, or not a quantity.

    `bare` is the number of a quantity that came without a unit, as typed.
    """

    def __init__(self, given: str, allowed: str, advice: str, bare: str = "") -> None:
        self.given, self.allowed, self.advice, self.bare = given, allowed, advice, bare
        super().__init__(" ".join(part for part in (given, allowed, advice) if part))


class PlanError(TidesteadError):
    """The plan file is wrong; carries every fault found in it."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        self.faults = faults
        super().__init__("\n".join(str(fault) for fault in faults))


class WeatherError(TidesteadError):
    """A source of weather cannot be used; carries every fault found in it."""

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        self.faults = faults
        super().__init__("\n".join(str(fault) for fault in faults))


class CatalogError(TidesteadError):
    """A catalog row is missing, incomplete or has no source."""


class SolverError(TidesteadError):
    """A computation did not converge or met a mechanism; the message names the part."""


class ImpossibleInput(TidesteadError, ValueError):
    """A calculator was given something nature does not have, such as a negative depth."""
