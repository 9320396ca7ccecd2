"""What a fault says to write is taken when it is written: for every value of the model, whatever was typed."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic import ValidationError

from tests.many import many
from tidestead.core.errors import Fault
from tidestead.plan.faults import faults_of
from tidestead.plan.forms.leaves import gathers, is_list, is_table, item_of, items_wanted, value_typed
from tidestead.plan.lines import Lines
from tidestead.plan.model import Plan
from tidestead.plan.outline import Spot
from tidestead.plan.statements import Path

SYSTEMS = ("metric", "us", None)
WRITE = re.compile(r'Write (?:it like |such as )?"([^"]*)"((?:(?:, | or )"[^"]*")*)')


def places(here: Spot, path: Path = ()) -> Iterator[tuple[Path, Spot]]:
    """Every value of the model with a way to it; a part named by the user is called x."""
    if is_table(here):
        keys = ("x",) if gathers(here) else tuple(here.keys)
        for key in keys:
            inner = here.under(key)
            if inner is not None and path[:1] != ("yours",):
                yield from places(inner, (*path, key))
    elif path[:1] != ("yours",):
        yield path, here


PLACES = dict(places(Spot(Plan)))
KINDS = {(path[-1], spot): path for path, spot in PLACES.items()}
"""One way to each sort of value under each key: the same one elsewhere is read alike."""

TYPED = [
    "-3", "0", "115", "24", "75", "0.15", "1e9", "-0.5", "30 to 60", "30 to 60 in", "60 to 30", "5 to", "abc", "0 mm",
    "0 in", "0 ft", "-1 m", "1000 m", "1e9 m", "4' 6''", "1,5 m", "1,5", "2.400,5 mm", "3 ft 4 in 5", "45 x 1000 m",
    "47 x 145", "2x5", "145 x 47 mm", "3 months", "2 therm", "1 hp", "5 scfm", "100 gal", "900 gph", "100 kg", "6 mil",
    "8 oz", "35 sg", "0 psu", "100 kWh/m2/day", "15 ct", "15 ct/kWh", "0.15 EUR/kWh", "0.15 EUR", "$0.15",
    "15 USD/month",
    "100 mineral-wool", "mineral-wool", "9 m mineral-wool", "resistance 0 m2 K/W", "12 degC", "-300 degC",
    "0 %", "112 %", "0 h", "30 h", "400 days", "6 m3/h", "6 m3/h at 6.1", "6 at 6.1 m", "0.4 m at 0 m3/h",
    "6 m3/h at 60 kPa", "pipe", "pipe pvc40-2in", "pipe pvc40-2in 0 m", "pipe pvc40-2in 3.2", "pipe 3.2 m", "pump",
    "valve", "riser", "riser 2", "elbow-90 2", "elbow-90 x0", "elbow", "310 at 0.2 m", "310 umol/m2/s at 0.2", "Oct",
    "2023 to 2005", "400 deg", "northish", "95", "55 N", "55°57′N", "45°75'", "181 W", "12 E 3", "eur", "box ",
    "yes", "no", "3.5", "-2", "four", "12 furlongs", "½", "1 3/2 in", "1/0 in", "9**9", "四 m", "a/b", "My Tank", "",
]  # fmt: skip


def context(system: str | None) -> dict[str, Any]:
    return {"gallons": None, "yours": {}, "show": system, "currency": "USD" if system == "us" else None}


def faults_at(path: Path, here: Spot, words: str, system: str | None) -> list[Fault]:
    """What the models find wrong with words typed into one field."""
    lines = (items_wanted(here) or 1) if is_list(here) else 1
    value = value_typed(here, "\n".join([words] * lines))
    if value is None:
        return []
    values: Any = value
    for key in reversed(path):
        values = {key: values}
    try:
        Plan.model_validate(values, context=context(system))
    except ValidationError as error:
        if all(one["loc"][: len(path)] != path for one in error.errors(include_url=False)):
            return []  # only what else a whole plan must hold: those faults need no words here
        key = ".".join(map(str, path))
        return [
            fault
            for fault in faults_of(error, Lines.of(""), system)  # type: ignore[arg-type]  # one of the three
            if fault.where == key or fault.where.startswith(f"{key}[")
        ]
    return []


def offered(fault: Fault) -> list[str]:
    """What the advice of a fault says to write."""
    found = WRITE.search(fault.advice)
    return [found[1], *re.findall(r'"([^"]*)"', found[2])] if found else []


@cache
def refused(path: Path, here: Spot, advised: str, system: str | None) -> tuple[Fault, ...]:
    """What is wrong with what is advised. Much that is typed leads to the same advice: it is judged once."""
    return tuple(faults_at(path, here, advised, system))


def refused_advice(path: Path, here: Spot, words: str, system: str | None) -> list[str]:
    """Advice that would lead to the next error."""
    return [
        f"{'.'.join(map(str, path))} ({system}): {words!r}: {fault.allowed} {fault.advice}: "
        f"{text!r}: {again[0].allowed}"
        for fault in faults_at(path, here, words, system)
        for text in offered(fault)
        if (again := refused(path, here, text, system))
    ]


@pytest.mark.parametrize("system", SYSTEMS)
@pytest.mark.parametrize("words", TYPED)
def test_what_is_advised_is_taken(words: str, system: str | None) -> None:
    bad = [line for path in KINDS.values() for line in refused_advice(path, PLACES[path], words, system)]
    assert bad == []


NUMBERS = st.one_of(
    st.integers(-5000, 20_000).map(str),
    st.floats(-1e4, 1e6, allow_nan=False).map(lambda value: f"{value:.4g}"),
    st.sampled_from(["1/2", "1 1/2", "0", "-0", ".5", "1e-9", "1e12", "1,5", "1.000,5"]),
)
UNITS = st.sampled_from(
    ["", "m", "mm", "in", "ft", "'", "''", "degC", "F", "%", "L", "gal", "W", "kW", "h", "days", "psi", "N", "kg",
     "m3/h", "gph", "W/m2", "kWh/m2/day", "umol/m2/s", "EUR/kWh", "ct/kWh", "USD/h", "N", "W", "deg", "at 3", "to 7 m"]
)  # fmt: skip
PHRASES = st.builds(
    lambda number, unit, lead: f"{lead}{number} {unit}".strip(),
    NUMBERS,
    UNITS,
    st.sampled_from(["", "", "", "2 to ", "pipe pvc40-2in ", "riser ", "6 m3/h at ", "-"]),
)


@settings(max_examples=many(300), deadline=None)
@given(PHRASES, st.sampled_from(sorted(KINDS.values(), key=str)), st.sampled_from(SYSTEMS))
def test_whatever_is_typed_the_advice_is_taken(words: str, path: Path, system: str | None) -> None:
    assert refused_advice(path, PLACES[path], words, system) == []


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_example_of_a_field_is_taken(system: str | None) -> None:
    for path, here in PLACES.items():
        inner = item_of(here) if is_list(here) else here
        typed = getattr(inner.typed, "examples_for", None)
        for text in typed(system, path[-1]) if typed else ():
            assert faults_at(path, here, text, system) == [], path


def told(key: str, words: str, system: str = "metric") -> str:
    path = tuple(key.split("."))
    (fault,) = faults_at(path, PLACES[path], words, system)
    return f"{fault.allowed} {fault.advice}"


SPACING, DEPTH = "vessels.x.walls.x.studs.spacing", "corals.x.depth"
THICK = "vessels.x.walls.x.windows.x.thickness"


@pytest.mark.parametrize(
    ("key", "words", "system", "wanted"),
    [
        ("vessels.x.length", "-3", "us", 'no unit, and must be more than 0. Write it like "4 ft 6 in" or "1.2 m".'),
        ("vessels.x.length", "115", "us", 'Write "115 in" or "115 mm".'),
        ("vessels.x.length", "abc", "metric", 'Write it like "1.2 m" or "4 ft 6 in".'),
        ("vessels.x.length", "1000 m", "metric", "must be 100 m or less."),
        ("vessels.x.length", "1e9 m", "us", "must be 328 ft 1 in or less."),
        (SPACING, "0 mm", "metric", 'Write it like "300 mm" or "12 in".'),
        (SPACING, "3 m", "metric", "must be 2.5 m or less."),
        (THICK, "4' 6''", "us", "must be 19.7 in or less."),
        ("vessels.x.walls.x.studs.section", "45 x 1000 m", "metric", "has a side over 1 m."),
        (DEPTH, "30 to 60", "metric", 'Write "30 to 60 cm" or "30 to 60 mm" or "30 to 60 in".'),
        (DEPTH, "deep", "metric", 'Write it like "0.5 to 0.9 m" or "20 to 36 in".'),
        ("targets.turnover", "fast", "metric", 'Write it like "8".'),
        ("building.infiltration", "much", "metric", 'Write it like "0.75 1/h".'),
        ("weather.normals.sun", "100 kWh/m2/day", "metric", "must be 14.4 kWh/m² a day or less."),
        ("supplies.tariff", "15 ct", "us", 'Write it like "0.15 USD/kWh".'),
        ("supplies.tariff", "15 ct/kWh", "us", 'Write it like "0.15 USD/kWh".'),
        ("supplies.tariff", "0.15", "us", 'Write it like "0.15 USD/kWh".'),
        ("supplies.tariff", "0.15 EUR/kWh", "us", "is in EUR, and this plan counts in USD."),
        ("supplies.tariff", "£0.24", "metric", 'Write it like "0.24 GBP/kWh".'),
        ("site.latitude", "95", "metric", "must be from 90 S to 90 N."),
        ("site.latitude", "45 E", "metric", 'does not lie N or S. Write it like 45 or "45 N"; south is negative.'),
    ],
)  # fmt: skip
def test_advice_fits_the_field_and_the_plan(key: str, words: str, system: str, wanted: str) -> None:
    path = tuple(key.split("."))
    if words == "1000 m" or key.endswith("sun"):
        assert wanted in " ".join(
            f"{one.allowed} {one.advice}" for one in faults_at(path, PLACES[path], words, system)
        )
    else:
        assert wanted in told(key, words, system)


@pytest.mark.parametrize(
    ("key", "words", "degrees"),
    [
        ("latitude", "45N", 45.0), ("latitude", "55 N", 55.0),
        ("latitude", "45°12'", 45.2), ("latitude", "N 45.2", 45.2),
        ("latitude", "55°57′N", 55.95), ("latitude", "45°12'30\"S", -45.208333333333336), ("latitude", "-33.9", -33.9),
        ("latitude", "45° 12′ 30″ S", -45.208333333333336), ("latitude", "12 deg 30 min south", -12.5),
        ("longitude", "3W", -3.0), ("longitude", "3 W", -3.0), ("longitude", "0.5 east", 0.5),
        ("longitude", "+12", 12.0),
    ],
)  # fmt: skip
def test_a_place_is_read_as_people_write_it(key: str, words: str, degrees: float) -> None:
    path = ("site", key)
    assert faults_at(path, PLACES[path], words, "metric") == []
    values = {"tidestead": 1, "name": "x", "site": {key: value_typed(PLACES[path], words)}}
    assert getattr(Plan.model_validate(values, context=context("metric")).site, key) == pytest.approx(
        degrees, rel=1e-12
    )


@pytest.mark.parametrize(
    "words", ["45°75'", "-45 S", "45 N S", "N 45 S", "45.2.1", "north", "45 12 30", "9" * 50, "°"]
)
def test_what_is_no_place_is_refused(words: str) -> None:
    path = ("site", "latitude")
    assert faults_at(path, PLACES[path], words, "metric") != []
