"""What hydrometers, conductivity meters and refractometers show, as typed with its temperatures."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import NamedTuple

from tidestead.core.errors import QuantityError
from tidestead.core.units.reading import parse_part
from tidestead.core.units.salt_readings import SalinityReading
from tidestead.core.units.typed import excerpt

LIGHTEST, HEAVIEST = 0.9, 1.3
"""Specific gravities outside these are no water: saturated brine is about 1.2."""

DULLEST, BRIGHTEST = 1.32, 1.36
"""Refractive indices outside these are no seawater of any salinity or temperature: it has 1.33 to 1.345."""

MOST_CONDUCTING, MOST_ON_SCALE = 200.0, 100.0
"""mS/cm, and ppt on a refractometer: more than any water here, whatever its temperature. Own bounds."""

STEEPEST, FLATTEST = 4.0, 0.5
"""Per cent a kelvin that instruments can be set to. Own bounds: 1.9 to 2.1 is usual."""

_FREEZING, _WARM, _HOT, _AIR = 0.0, 30.0, 35.0, 40.0
"""Temperatures that the laws of light, conductivity and density are good to, and where they begin."""

_DEGREES = r"(?:-?[0-9.]+) ?[^0-9/ ]+(?: [CF])?"
_GRAVITY = re.compile(
    r"sg(?: at)? (?P<sample>-?[0-9.]+) ?(?P<own>[^0-9/]*?) ?/ ?(?P<reference>-?[0-9.]+) ?(?P<unit>[^0-9/]+)",
    re.IGNORECASE,
)
_CONDUCTIVITY = re.compile(r"(?P<unit>(?:m|u|µ)?s ?/ ?c?m)(?![a-z])(?P<rest>.*)", re.IGNORECASE)
_MS_PER_CM: Mapping[str, float] = {"ms/cm": 1.0, "us/cm": 1e-3, "µs/cm": 1e-3, "s/m": 10.0}
_LED_BACK = re.compile(
    rf"(?: at (?P<sample>{_DEGREES}))?(?: (?:led back|compensated) to (?P<reference>{_DEGREES}))?"
    r"(?: by (?P<slope>[0-9.]+) ?% ?/ ?(?:k|(?:deg ?|°)?c))?",
    re.IGNORECASE,
)
_INDEX = re.compile(rf"nD(?: at (?P<sample>{_DEGREES}))?", re.IGNORECASE)
_SCALE = re.compile(
    r"(?P<unit>[^ ]+) (?:(?P<sea>sea ?water)|(?P<salt>nacl|sodium chloride|brine)|(?P<other>.*?)) ?refractometer"
    rf"(?:,? (?P<way>compensated|ATC)| at (?P<sample>{_DEGREES}))?(?P<rest>.*)",
    re.IGNORECASE,
)
_PPT: Mapping[str, float] = {"ppt": 1.0, "‰": 1.0, "g/kg": 1.0, "%": 10.0}


class Shown(NamedTuple):
    """What an instrument shows: the number, its letters, what follows it, and the whole as typed."""

    value: float
    letters: str
    rest: str
    typed: str


def instrument(shown: Shown) -> SalinityReading | None:
    """The reading; None where what follows the number names no instrument. Raises `QuantityError`."""
    if shown.rest[:2].lower() == "sg":
        return _gravity(shown)
    if re.match(r"nd(?![a-z])", shown.rest, re.IGNORECASE):
        return _index(shown)
    if found := _CONDUCTIVITY.fullmatch(shown.rest):
        return _conductivity(shown, found)
    if "refractometer" in shown.rest.lower():
        return _refractometer(shown)
    return None


def _gravity(shown: Shown) -> SalinityReading:
    """A specific gravity with the temperature of the sample and of the water it is compared with."""
    found = _GRAVITY.fullmatch(shown.rest)
    write = f'Write "{shown.letters} sg at 25/25 degC" (or degF), as printed on the hydrometer.'
    if not found:
        allowed = "needs two temperatures: of the sample, and of the pure water it is compared with."
        raise QuantityError(excerpt(shown.typed), allowed, write)
    if not LIGHTEST < shown.value < HEAVIEST:
        allowed = "is no specific gravity of water; seawater has about 1.026."
        raise QuantityError(excerpt(shown.typed), allowed, 'Write "1.0264 sg at 25/25 degC".')
    own = found["own"] or found["unit"]
    sample = _temperature(f"{found['sample']} {own}", shown, _AIR)
    reference = _temperature(f"{found['reference']} {found['unit']}", shown, _AIR)
    return SalinityReading("sg", shown.value, sample, reference)


def _conductivity(shown: Shown, found: re.Match[str]) -> SalinityReading:
    """A conductivity as it is in the water, or led back to a temperature."""
    unit = found["unit"].replace(" ", "")
    factor, told = _MS_PER_CM.get(unit.lower()), f"{shown.letters} {unit}"
    write = (
        f'Write "{told} at 20 degC" where the meter shows it as it is in water of 20 degC. '
        f'Write "{told} led back to 25 degC" where it compensates to 25 degC.'
    )
    if factor is None:
        advice = 'Write mS/cm, uS/cm or S/m: "53.1 mS/cm at 25 degC".'
        raise QuantityError(excerpt(shown.typed), f'has "{unit}", in which no seawater is measured.', advice)
    if shown.value * factor > MOST_CONDUCTING:
        allowed = "conducts more than any seawater: that has about 53 mS/cm, or 5.3 S/m, at 25 degC."
        raise QuantityError(excerpt(shown.typed), allowed, 'Write it like "53.1 mS/cm at 25 degC".')
    how = _LED_BACK.fullmatch(found["rest"].rstrip())
    if how is None:
        raise QuantityError(
            excerpt(shown.typed), f'has "{found["rest"].strip()[:40]}", not known here.', write
        )
    if how["sample"] is None and how["reference"] is None:
        allowed = "needs a temperature: of the water, or that the meter leads back to."
        raise QuantityError(excerpt(shown.typed), allowed, write)
    slope = None if how["slope"] is None else _slope(how, shown, told)
    sample, reference = (
        None if text is None else _temperature(text, shown, _HOT)
        for text in (how["sample"], how["reference"])
    )
    return SalinityReading("mS/cm", shown.value * factor, sample, reference, slope)


def _slope(how: re.Match[str], shown: Shown, told: str) -> float:
    """Of the line that a meter compensates along, 1/K: it matters between two temperatures only."""
    write = f'Write "{told} at 20 degC led back to 25 degC by 1.91 %/K".'
    if how["sample"] is None or how["reference"] is None:
        allowed = "has a slope, which needs two temperatures: of the water, and that it is led back to."
        raise QuantityError(excerpt(shown.typed), allowed, write)
    per_cent = float(parse_part(f"{how['slope']} %", shown.typed, "ratio")) * 100.0
    if not FLATTEST <= per_cent <= STEEPEST:
        allowed = f"has a slope that no meter is set to: {FLATTEST:g} to {STEEPEST:g} % a kelvin."
        raise QuantityError(excerpt(shown.typed), allowed, write)
    return per_cent / 100.0


def _index(shown: Shown) -> SalinityReading:
    """A refractive index for sodium light, with the temperature of the drop."""
    found = _INDEX.fullmatch(shown.rest)
    if found is None or found["sample"] is None:
        allowed = "needs the temperature of the drop: the index falls as water warms."
        raise QuantityError(excerpt(shown.typed), allowed, f'Write "{shown.letters} nD at 20 degC".')
    if not DULLEST < shown.value < BRIGHTEST:
        allowed = "is no refractive index of seawater, which has about 1.339."
        raise QuantityError(excerpt(shown.typed), allowed, 'Write it like "1.3394 nD at 20 degC".')
    return SalinityReading("nD", shown.value, _temperature(found["sample"], shown, _WARM))


def _refractometer(shown: Shown) -> SalinityReading:
    """A scale for seawater or for sodium chloride, compensated or at a temperature."""
    found = _SCALE.fullmatch(shown.rest)
    factor = None if found is None else _PPT.get(found["unit"].lower())
    if found is None or factor is None:
        advice = 'Write "35 ppt seawater refractometer at 20 degC", or % for ppt.'
        raise QuantityError(excerpt(shown.typed), "needs the unit of the scale.", advice)
    told = f"{shown.letters} {found['unit']}"
    if not (found["sea"] or found["salt"]):
        allowed = "needs the scale: one for sodium chloride shows 1.5 more than one for seawater."
        choices = (f'"{told} {name} refractometer at 20 degC"' for name in ("seawater", "NaCl"))
        raise QuantityError(excerpt(shown.typed), allowed, f"Write {' or '.join(choices)}.")
    scale = "seawater" if found["sea"] else "NaCl"
    if found["rest"].strip() or not (found["way"] or found["sample"]):
        allowed = (
            "needs the temperature of the prism, or whether it compensates: 6 K warmer shows 3 to 4 less."
        )
        begun = f"{told} {scale} refractometer"
        raise QuantityError(excerpt(shown.typed), allowed, f'Write "{begun} at 20 degC" or "{begun}, ATC".')
    if shown.value * factor > MOST_ON_SCALE:
        allowed = "is more than any seawater shows: the sea has 30 to 40 ppt, or 3 to 4 %."
        advice = f'Write it like "35 ppt {scale} refractometer at 20 degC".'
        raise QuantityError(excerpt(shown.typed), allowed, advice)
    at = None if found["sample"] is None else _temperature(found["sample"], shown, _WARM)
    return SalinityReading("sea" if found["sea"] else "NaCl", shown.value * factor, at)


def _temperature(text: str, shown: Shown, most: float) -> float:
    """A temperature that the law of the instrument is good at."""
    found = parse_part(text, shown.typed, "temperature")
    if not _FREEZING <= found <= most:
        allowed = f"has a temperature that this cannot be told at: {_FREEZING:g} to {most:g} degC is meant."
        raise QuantityError(excerpt(shown.typed), allowed, "Measure a sample brought to room temperature.")
    return found
