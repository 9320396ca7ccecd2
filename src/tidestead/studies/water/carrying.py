"""How many fish the water carries: by oxygen at night, by the filter, by the nitrate that is wanted."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.physics.water import nutrients as films
from tidestead.physics.water.nutrients import Film
from tidestead.studies.water.exports import Exports
from tidestead.studies.water.spans import DAY, GRAMS, moved
from tidestead.studies.water.stock_facts import Capacity, Load

FILMS = (films.SEA_CEILING / 0.69, 0.5, films.SEA_FACTOR)
"""Speed of films in sea over fresh water: Nijhof and Bovendeur (1990), half way, Rusten et al. (2006)."""

_FED = "say what is fed and to which fish: feed.daily and [fish.NAME]"


@dataclass(frozen=True)
class Carried:
    """What the fish of a load find: exchange m3/h, saturation and warn level g/m3, corals g/h, the grown load,
    protein, film area m2, warmth, total ammonia that warns (None without a pH), ways out, volume, nitrate wanted.
    """

    exchange: Estimate
    saturation: float
    corals: Estimate
    grown: Load
    protein: float
    area: float
    temp_c: float
    tan: float | None
    exports: Exports
    volume: float
    nitrate: float
    warn: float


def capacities_of(found: Carried) -> tuple[Capacity, ...]:
    """By each of the three."""
    return _by_oxygen(found), _by_filter(found), _by_nitrate(found)


def _by_oxygen(found: Carried) -> Capacity:
    """With corals and with the bacteria that live on the fish's feed."""
    words = "oxygen on a dark night, pumps running"
    load = found.grown
    if load.mass <= 0.0 or load.feed is None:
        return Capacity("oxygen", words, None, _FED)
    if found.exchange.likely <= 0.0:
        return Capacity("oxygen", words, None, "say how large the open water is: vessels")
    each, with_it = load.fish.times(1.0 / load.mass), load.bacteria.times(1.0 / load.mass)
    room = found.saturation - found.warn

    def mass(clears: float, corals: float, fish: float, bacteria: float) -> float:
        return max(clears * room - corals, 0.0) / (fish + bacteria)

    basis = "exchange and uptake, each at its ends, as squares"
    return Capacity("oxygen", words, moved(mass, (found.exchange, found.corals, each, with_it), basis, 0.0))


def _by_filter(found: Carried) -> Capacity:
    """At the ammonia that warns; without a pH, at the most that films take."""
    words = "the filter, at the ammonia that warns" if found.tan is not None else "the filter at its ceiling"
    load = found.grown
    if load.mass <= 0.0 or load.feed is None or load.feed <= 0.0:
        return Capacity("filter", words, None, _FED)
    if found.area <= 0.0:
        return Capacity("filter", words, None, "say what surface turns ammonia: [filters.NAME]")
    parts = []
    ration = load.feed * DAY * GRAMS / load.mass
    for sea, share in zip(FILMS, _shares(), strict=True):
        rate = (
            films.SEA_CEILING
            if found.tan is None
            else films.film_rate(found.tan, found.temp_c, Film(sea=sea))
        )
        parts.append(float(rate) * found.area / (ration * found.protein * share))
    parts.sort()
    return Capacity(
        "filter", words, Estimate(parts[0], parts[1], parts[2], "films and feed from worst to best")
    )


def _by_nitrate(found: Carried) -> Capacity:
    """What changes, skimmer, filters without air and algae take at the level that is wanted."""
    words = "the nitrate that is wanted"
    load, out = found.grown, found.exports
    if load.mass <= 0.0 or load.feed is None or load.feed <= 0.0:
        return Capacity("nitrate", words, None, _FED)
    ion = float(films.nitrate_ion(1.0))
    leaves = found.nitrate * (out.renewed + out.denitrified * found.volume)
    least, likely, high = (
        leaves + ion * one for one in (out.nitrogen.low, out.nitrogen.likely, out.nitrogen.high)
    )
    each = load.feed * DAY * GRAMS / load.mass * found.protein * ion
    most, usual, _ = _shares()
    return Capacity(
        "nitrate",
        words,
        Estimate(least / (each * most), likely / (each * usual), high / (each * usual), "feed"),
    )


def _shares() -> tuple[float, float, float]:
    """Of protein to ammonia: the most, the usual twice."""
    row = table("water_limits")["feed"]
    return row.si("ammonia_high"), row.si("ammonia"), row.si("ammonia")
