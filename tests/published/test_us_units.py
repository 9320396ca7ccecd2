"""Every published case once more, with what goes in typed in feet, pounds, gallons and degrees Fahrenheit.

Each argument that carries a unit is written in a US unit, read back as from a plan file, and the case judged
again: the answer must be the same and must still agree with print.
"""

from __future__ import annotations

import dataclasses
import inspect
import typing
from collections.abc import Iterator
from fractions import Fraction
from typing import Any

import numpy as np
import pytest

from tests.house.proofs import every_case
from tests.published.case import Case
from tidestead.core.dims import unit_of
from tidestead.core.units import DIMENSIONS, Dimension, parse, write

SAME = 1e-12
"""Relative. What is typed reads back to the last bit or next to it."""
DIGITS = 17
"""Digits that tell any two floats apart (IEEE 754 double)."""
LIKED = ("ft", "US gal", "lb/ft3", "psf", "lbf ft")
"""Units a builder would use where a dimension has several."""
EVERY = every_case()


def dimension_of(unit: str) -> Dimension | None:
    """The first dimension kept in this SI unit that people type in a US unit."""
    fitting = (dimension for dimension in DIMENSIONS.values() if dimension.si == unit and not dimension.bare)
    return next((dimension for dimension in fitting if dimension.common("us")), None)


def typed(value: float, dimension: Dimension) -> str:
    """The value as someone types it in the US."""
    units = {unit.symbol: unit for unit in dimension.common("us")}
    symbol = next((liked for liked in LIKED if liked in units), next(iter(units)))
    number = units[symbol].from_si(Fraction(float(value)))
    return f"{float(number):.{DIGITS}g} {symbol}"


def through_us(value: Any, hint: Any) -> Any:
    """A value read back from its US text, wherever in it a unit is known; anything else as it is."""
    unit = unit_of(hint)
    if unit is not None:
        dimension = dimension_of(unit)
        return value if dimension is None else _read_back(value, dimension)
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        hints = typing.get_type_hints(type(value), include_extras=True)
        fields = {field.name: getattr(value, field.name) for field in dataclasses.fields(value) if field.init}
        return dataclasses.replace(
            value, **{name: through_us(held, hints[name]) for name, held in fields.items()}
        )
    inner = typing.get_args(hint)
    if isinstance(value, (tuple, list)) and inner:
        inners = [inner[0]] * len(value) if len(inner) < len(value) or inner[-1] is Ellipsis else list(inner)
        return type(value)(through_us(item, one) for item, one in zip(value, inners, strict=False))
    return value


def _read_back(value: Any, dimension: Dimension) -> Any:
    if isinstance(value, (np.ndarray, list, tuple)):
        return np.array([_read_back(item, dimension) for item in value])
    typeable = value is not None and np.isfinite(value)
    return parse(typed(value, dimension), dimension.name) if typeable else value


def in_us(case: Case) -> Case:
    """The case with every argument that has a unit typed in the US."""
    hints = typing.get_type_hints(inspect.unwrap(case.of), include_extras=True)
    return dataclasses.replace(
        case, given={name: through_us(value, hints.get(name)) for name, value in case.given.items()}
    )


def numbers(value: Any, hint: Any) -> Iterator[tuple[float, Dimension]]:
    """Every number in a value whose unit people type."""
    dimension = dimension_of(unit_of(hint) or "")
    if dimension is not None:
        yield from ((float(number), dimension) for number in np.ravel(value) if np.isfinite(number))
    elif dataclasses.is_dataclass(value) and not isinstance(value, type):
        hints = typing.get_type_hints(type(value), include_extras=True)
        for field in dataclasses.fields(value):
            yield from numbers(getattr(value, field.name), hints[field.name])


@pytest.mark.parametrize(("module", "case"), EVERY, ids=[f"{module}-{case.name}" for module, case in EVERY])
def test_case_is_the_same_in_us_units(module: str, case: Case) -> None:
    again = in_us(case)
    assert again.ours() == pytest.approx(case.ours(), rel=SAME, abs=0.0), module
    assert again.holds() or bool(case.differs), f"{case.name} no longer agrees with print"


@pytest.mark.parametrize(("module", "case"), EVERY, ids=[f"{module}-{case.name}" for module, case in EVERY])
def test_inputs_survive_being_written_in_a_us_plan(module: str, case: Case) -> None:
    hints = typing.get_type_hints(inspect.unwrap(case.of), include_extras=True)
    for name, value in case.given.items():
        for number, dimension in numbers(value, hints.get(name)):
            text = write(number, dimension.name, "us")
            assert parse(text, dimension.name) == number, f"{module}, {name}: {text}"


def test_units_that_builders_type_can_be_typed_in_the_us() -> None:
    typed_in_plans = {"m", "m2", "m3", "kg", "N", "Pa", "N/m", "N m", "kg/m3", "degC"}
    assert not {unit for unit in typed_in_plans if dimension_of(unit) is None}


def test_most_cases_have_something_to_type() -> None:
    typed_in = [case for _, case in EVERY if any(text for text in _texts(case))]
    assert len(typed_in) > len(EVERY) / 2


def _texts(case: Case) -> Iterator[str]:
    hints = typing.get_type_hints(inspect.unwrap(case.of), include_extras=True)
    for name, value in case.given.items():
        yield from (typed(number, dimension) for number, dimension in numbers(value, hints.get(name)))


@pytest.mark.parametrize(
    ("value", "unit", "text"),
    [
        (0.3048, "m", "1 ft"),
        (0.003785411784, "m3", "1 US gal"),
        (25.0, "degC", "77 degF"),
        (0.0, "Pa", "0 psf"),
    ],
)
def test_typed_as_in_the_us(value: float, unit: str, text: str) -> None:
    dimension = dimension_of(unit)
    assert dimension is not None
    assert typed(value, dimension) == text
