"""How the same water reads on one instrument and another, and what it costs to take one scale for the other."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.core.answer import Column, Table
from tidestead.core.units import System, show
from tidestead.physics import seawater
from tidestead.physics.water import readings, salts
from tidestead.studies.water.salt_facts import Instrument
from tidestead.studies.water.setting import Setting

ROOM_C, SIXTY_F, TWENTY_C = 25.0, 15.56, 20.0
"""Temperatures that scales are made for: 77, 60 and 68 degF."""

LEAST_PSU, MOST_PSU = 2.0, 42.0
"""Salinity that scales are made for: the practical salinity scale."""

_MS_PER_CM = 10.0


def instruments_of(setting: Setting) -> Iterator[Instrument]:
    """Every instrument that is met with, none outside what scales are made for; `thought_psu` where its figure is
    taken for the scale beside it.
    """
    kept, temp = setting.sal_psu, setting.temp_c
    if not LEAST_PSU <= kept <= MOST_PSU:
        return
    yield from _words(kept, temp)
    yield from _conductivity(kept, temp)
    yield from _hydrometers(kept, temp)
    yield from _refractometers(kept, temp)


def _words(kept: float, temp: float) -> Iterator[Instrument]:
    by_weight, by_volume = float(salts.grams_of_salt(kept)), float(salts.salt_per_volume(kept, temp))
    yield Instrument("practical salinity, which this program counts in", f"{kept:.2f} psu", "itself", kept)
    yield Instrument("grams of salt in a kilogram", f"{by_weight:.2f} g/kg", "practical salinity", by_weight)
    yield Instrument("grams of salt in a litre", f"{by_volume:.2f} g/L", "practical salinity", by_volume)


def _conductivity(kept: float, temp: float) -> Iterator[Instrument]:
    led_back, bare = (float(readings.conductivity(kept, at)) for at in (ROOM_C, temp))
    yield Instrument(
        f"conductivity led back to {ROOM_C:g} °C", f"{_MS_PER_CM * led_back:.2f} mS/cm",
        f"conductivity at {TWENTY_C:g} °C", float(readings.salinity_from_conductivity(led_back, TWENTY_C)),
    )  # fmt: skip
    yield Instrument(
        "conductivity as it is in the tank", f"{_MS_PER_CM * bare:.2f} mS/cm",
        f"conductivity led back to {ROOM_C:g} °C", float(readings.salinity_from_conductivity(bare, ROOM_C)),
    )  # fmt: skip


def _hydrometers(kept: float, temp: float) -> Iterator[Instrument]:
    usual = f"specific gravity {ROOM_C:g}/{ROOM_C:g} °C"
    scales = (
        (f"{usual}, sample and scale at {ROOM_C:g} °C", ROOM_C, ROOM_C, "density over that at 4 °C", 3.98),
        (f"hydrometer for {ROOM_C:g} °C (77 °F), read in the tank", temp, ROOM_C, usual, ROOM_C),
        (f"hydrometer for {TWENTY_C:g} °C (68 °F), read in the tank", temp, TWENTY_C, usual, ROOM_C),
        (f"hydrometer for {SIXTY_F:g} °C (60 °F), read in the tank", temp, SIXTY_F, usual, ROOM_C),
    )
    for words, sample, scale, taken, reference in scales:
        gravity = float(seawater.specific_gravity(kept, sample, scale))
        thought = float(seawater.salinity_from_specific_gravity(gravity, ROOM_C, reference))
        yield Instrument(words, f"{gravity:.4f}", taken, thought)


def _refractometers(kept: float, temp: float) -> Iterator[Instrument]:
    sodium, warm = (
        float(readings.sodium_chloride_reading(kept)), float(readings.uncompensated_reading(kept, temp)),
    )  # fmt: skip
    scale = "a seawater scale"
    yield Instrument(f"refractometer with {scale}, at {TWENTY_C:g} °C", f"{kept:.1f}", "itself", kept)
    yield Instrument(
        "refractometer with a scale for table salt (sodium chloride)", f"{sodium:.1f} g/kg", scale, sodium
    )
    yield Instrument(
        f"refractometer for {TWENTY_C:g} °C, prism as warm as the tank", f"{warm:.1f}",
        f"{scale} at {TWENTY_C:g} °C", warm,
    )  # fmt: skip


def readings_table(setting: Setting, instruments: tuple[Instrument, ...], system: System) -> Table:
    """What each should show, and how far off the tank ends where the figure is taken for another scale."""
    columns = (
        Column("instrument"),
        Column("reads in this water"),
        Column("if taken for"),
        Column("you would think", "psu"),
        Column("wrong by", "psu"),
    )
    rows = tuple(
        (
            one.words,
            one.reads,
            one.taken_for,
            round(one.thought_psu, 2),
            round(one.thought_psu - setting.sal_psu, 2) + 0.0,
        )
        for one in instruments
    )
    note = (
        f"All in water of {show(setting.sal_psu, 'psu', system)} at {show(setting.temp_c, 'degC', system)}. Wrong by "
        "more than nothing: you would think it too salty and thin it; by less: you would salt it. Know your "
        "instrument's scale and its temperature, and prove it once a season with water of known salinity."
    )
    return Table("water.salt.readings", "How the same water reads", columns, rows, note)


def worst_mistake(setting: Setting, instruments: tuple[Instrument, ...]) -> Instrument:
    """The mistake that costs most."""
    return max(instruments, key=lambda one: abs(one.thought_psu - setting.sal_psu))
