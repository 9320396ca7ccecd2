"""What the weather is wanted for, in plain values: the place and the sources to try; and the answer for none."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Site:
    """Where the weather is wanted: degrees north and east, metres above the sea, and the name of its time zone."""

    latitude: float | None
    longitude: float | None
    elevation: float | None = None
    zone: str | None = None


@dataclass(frozen=True)
class Monthly:
    """Twelve means each, as a plan gives them, January first: degC, W/m2 over day and night, 0 to 1, m/s at 10 m, K."""

    temp_c: tuple[float, ...] | None = None
    sun: tuple[float, ...] | None = None
    humidity: tuple[float, ...] | None = None
    wind: tuple[float, ...] | None = None
    swing: tuple[float, ...] | None = None

    @property
    def said(self) -> bool:
        """Whether anything at all is given."""
        return any((self.temp_c, self.sun, self.humidity, self.wind, self.swing))


@dataclass(frozen=True)
class Wanted:
    """What a plan asks for, in the order in which it is tried: a file, years to fetch, monthly means.

    `stem` names the plan's file, without its ending: what is fetched is kept beside it.
    """

    file: str | None = None
    years: tuple[int, int] | None = None
    monthly: Monthly = Monthly()
    stem: str = "plan"


@dataclass(frozen=True)
class NoWeather:
    """Why there is no weather, in whole sentences; `tried` are the sources that could not be used, and why."""

    reason: str
    tried: tuple[str, ...] = ()
