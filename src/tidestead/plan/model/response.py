"""Who notices and who acts: the minder, the alarm, what may be too little or too much, the cleaning of windows."""

from __future__ import annotations

from typing import Annotated, Literal, TypeAlias

from pydantic import Strict

from tidestead.plan.fields import Duration, Temperature
from tidestead.plan.model.part import Part
from tidestead.plan.water_fields import (
    AmmoniaLevel,
    Clocks,
    Deviation,
    FilmLimit,
    OnCircuitItems,
    OxygenLevel,
    Reach,
)

Watched: TypeAlias = Annotated[
    tuple[Literal["temperature", "level", "power", "leak", "oxygen", "flow"], ...], Strict(False)
]


class Alarm(Part):
    """What calls when something goes wrong."""

    watches: Watched = ()
    """What it sees."""
    power: Literal["mains", "battery"] = "mains"
    """mains: it dies with the power that it should tell of."""
    network: Literal["house", "mobile"] = "house"
    """house: the router dies with the power, unless that hangs on a battery."""
    after: Reach | None = None
    """From the event to the message; 10 min (2 to 30) when left out."""
    hangs_on: OnCircuitItems = ()
    """What must live for a call to come, as circuits name it: its controller, its router. It wins over power and
    network; what must run when left out."""


class Response(Part):
    """How long it takes until somebody has acted."""

    looks: Clocks
    """When the minder looks, each day."""
    travel: Reach
    """Of the minder, from the message to the water."""
    does: Duration | None = None
    """To do the first three acts; 30 min (15 to 60) when left out."""
    answers: Reach | None = None
    """Until a call at night is answered; 30 min (5 to 120) when left out."""
    owner: Reach | None = None
    """How far away the owner is."""
    absent: Duration | None = None
    """The longest that nobody at all may look."""
    away: Duration | None = None
    """From one visit of the owner to the next."""
    alarm: Alarm | None = None


class Thresholds(Part):
    """Your own levels, where you know better than the catalogue. Oxygen and ammonia by weight in a litre."""

    oxygen_warn: OxygenLevel | None = None
    """Oxygen under which somebody should be told."""
    oxygen_act: OxygenLevel | None = None
    """Oxygen under which somebody must act."""
    oxygen_harm: OxygenLevel | None = None
    """Oxygen under which animals are harmed."""
    ammonia_warn: AmmoniaLevel | None = None
    """Un-ionised ammonia over which somebody should be told."""
    ammonia_act: AmmoniaLevel | None = None
    """Un-ionised ammonia over which somebody must act."""
    ammonia_harm: AmmoniaLevel | None = None
    """Un-ionised ammonia over which animals are harmed."""
    cold_act: Temperature | None = None
    """Water under which somebody must act."""
    cold_harm: Temperature | None = None
    """Water under which animals are harmed."""
    hot_act: Temperature | None = None
    """Water over which somebody must act."""
    hot_harm: Temperature | None = None
    """Water over which animals are harmed."""
    salinity_act: Deviation | None = None
    """Salinity off what is kept, either way, at which somebody must act."""
    salinity_harm: Deviation | None = None
    """Salinity off what is kept, either way, at which animals are harmed."""


class Cleaning(Part):
    """How windows are kept clear."""

    every: Duration
    """From one wipe with the magnet to the next."""
    scraped: Duration | None = None
    """From one scrape by hand, which takes set patches off, to the next; each visit of the owner when left out."""
    allowed: FilmLimit | None = None
    """Share of a window under set patches that is borne; 15 % when left out."""
