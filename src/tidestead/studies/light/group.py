"""One group of corals: its light over the years by month, day and hour, what lamps add and what is left to make up."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import numpy as np

from tidestead.core.answer import Estimate
from tidestead.core.dims import Array
from tidestead.core.weather import MONTH_DAYS, SunPath, WeatherYear
from tidestead.physics.light import attenuation, lamps, photons
from tidestead.physics.light.lamps import LampLight
from tidestead.plan.model.warmth import Coral
from tidestead.studies.light import falling
from tidestead.studies.light.facts import Band, CoralLight, Lighting, MakeUp, Months
from tidestead.studies.light.falling import Share, Sky
from tidestead.studies.light.lighting import by_hour
from tidestead.studies.years import tenths

_KS = (photons.DAYLIGHT_LOW, photons.DAYLIGHT, photons.DAYLIGHT_HIGH)
_MOL = 3600.0 / 1e6


@dataclass(frozen=True, eq=False)
class Place:
    """Where a group sits and what falls on the water over it; `rate` is the water's attenuation."""

    key: str
    coral: Coral
    band: Band
    surface: Share
    lighting: Lighting
    rate: Estimate


@dataclass(frozen=True, eq=False)
class _Depth:
    """Light at one depth: of the sun in every year at one photon a joule, for three rates, and of the lamps at one of
    them, umol/(m2 s): `sun` by rate (years, 8760), `lamp` by rate (12, 24)."""

    sun: tuple[Array, Array, Array]
    lamp: tuple[Array, Array, Array]


def group_of(place: Place, sun: SunPath, sky: Sky, words: str, typical: Sequence[WeatherYear]) -> CoralLight:
    """Everything found of one group. `words` say what the years are, `typical` is the one year of a file or none."""
    shallow, deepest = place.coral.depth
    low = place.lighting.low if place.lighting.covers else np.zeros((12, 24))
    deep, top = _depth(place, sun, sky, deepest, low), _depth(place, sun, sky, shallow, place.lighting.high)
    usual = photons.DAYLIGHT
    natural, natural_top = falling.monthly(usual * deep.sun[1]), falling.monthly(usual * top.sun[1])
    sun_top, sun_peaks = falling.spread(natural_top), _numbers(tenths(falling.highest(usual * top.sun[1]))[2])
    lit_top = usual * top.sun[1] + by_hour(top.lamp[1])
    return CoralLight(
        key=place.key,
        vessel=place.coral.vessel,
        band=place.band,
        shallow=shallow,
        deepest=deepest,
        area=place.lighting.area,
        outside=falling.spread(falling.monthly(usual * (sky.beam + sky.diffuse))),
        surface=falling.spread(falling.monthly(falling.flows(sky, place.surface, usual))),
        natural=falling.spread(natural),
        natural_top=sun_top,
        deep=falling.spread(natural + _added(deep.lamp[1])),
        top=falling.spread(natural_top + _added(top.lamp[1])),
        peaks=falling.spread(falling.highest(lit_top)),
        sun_peaks=sun_peaks,
        least=_over_all(deep, _darkest, words),
        most=_over_all(top, _brightest, words),
        peak=_over_all(top, _peak, words),
        lighting=place.lighting,
        make_up=_make_up(place, natural, words),
        shade=_shade(place.band, sun_top.high, sun_peaks),
        days=falling.mean_days(lit_top),
        year=falling.columns(lit_top),
        brightest=falling.brightest_day(lit_top),
        typical=_typical(place, sun, typical),
    )


def _depth(place: Place, sun: SunPath, sky: Sky, depth: float, lamp: Array) -> _Depth:
    rates = (place.rate.low, place.rate.likely, place.rate.high)
    shares = [falling.at_depth(place.surface, sun, depth, rate) for rate in rates]
    left = [float(attenuation.straight_share(depth, rate)) for rate in rates]
    clear, usual, dim = (falling.flows(sky, share, 1.0) for share in shares)
    return _Depth((clear, usual, dim), (lamp * left[0], lamp * left[1], lamp * left[2]))


def _added(lamp: Array) -> Array:
    """Light of a day that lamps add, by month."""
    added: Array = lamp.sum(axis=1) * _MOL
    return added


def _darkest(sun: Array, lamp: Array) -> Array:
    """Light of a day in the darkest month of each year."""
    least: Array = (falling.monthly(sun) + _added(lamp)).min(axis=1)
    return least


def _brightest(sun: Array, lamp: Array) -> Array:
    most: Array = (falling.monthly(sun) + _added(lamp)).max(axis=1)
    return most


def _peak(sun: Array, lamp: Array) -> Array:
    peak: Array = (sun + by_hour(lamp)).max(axis=1)
    return peak


def _over_all(depth: _Depth, told: Callable[[Array, Array], Array], words: str) -> Estimate:
    """P10 of the years with few photons and dim water, the median, P90 with many photons and clear water."""
    clear, usual, dim = depth.sun
    low = tenths(told(_KS[0] * dim, depth.lamp[2]))[0]
    middle = tenths(told(_KS[1] * usual, depth.lamp[1]))[1]
    high = tenths(told(_KS[2] * clear, depth.lamp[0]))[2]
    basis = f"{words}, P10 to P90; {_KS[0]:g} to {_KS[2]:g} umol/J; the water's clearness"
    return Estimate(float(low), float(middle), float(high), basis)


def _make_up(place: Place, natural: Array, words: str) -> MakeUp:
    """What lamps would have to give beside the sun alone."""
    lighting = place.lighting
    left = float(attenuation.straight_share(place.coral.depth[1], place.rate.likely))
    lamp = LampLight(lighting.efficacy, lighting.reaches, lighting.area, left)
    missing = np.maximum(place.band.least - natural, 0.0)
    seconds = np.array(MONTH_DAYS) * lighting.hours * 3600.0
    watts = float(lamps.lamp_power(1.0, lamp, lighting.hours))
    usual = np.maximum(place.band.least - np.median(natural, axis=0), 0.0)
    low, middle, high = tenths((missing * watts * seconds).sum(axis=1))
    return MakeUp(
        _numbers(usual),
        _numbers(usual * watts),
        _numbers(usual * watts * seconds),
        Estimate(float(low), float(middle), float(high), f"{words}, P10 to P90"),
    )


def _shade(band: Band, natural: Months, peaks: Months) -> Months:
    """Share of the sun to keep out by month in a bright year, so that neither a day nor its peak is too much."""
    days = 1.0 - band.most / np.maximum(natural, 1e-9)
    hours = 1.0 - band.peak / np.maximum(peaks, 1e-9)
    return _numbers(np.maximum(np.maximum(days, hours), 0.0))


def _typical(place: Place, sun: SunPath, years: Sequence[WeatherYear]) -> Months:
    """Natural light at the deepest in the typical year of a file."""
    if not years:
        return ()
    sky = falling.sky_of(years[:1])
    share = falling.at_depth(place.surface, sun, place.coral.depth[1], place.rate.likely)
    return _numbers(falling.monthly(falling.flows(sky, share, photons.DAYLIGHT))[0])


def _numbers(values: Array) -> Months:
    return tuple(float(value) for value in values)
