"""What a lining takes of label, coats, solids and cloth, in SI, and what it refuses with which advice."""

from __future__ import annotations

from typing import Any

import pytest
from pydantic import TypeAdapter, ValidationError

from tests.journeys.flow_plans import changed, example
from tests.published.case import FOOT, INCH
from tidestead.core.errors import PlanError
from tidestead.plan import lining_fields as fields
from tidestead.plan import loads

GALLON = 231.0 * INCH**3

TAKEN = [
    (fields.LabelRate, "6 m2/L", 6000.0),
    (fields.LabelRate, "100 ft2/US gal", 100.0 * FOOT**2 / GALLON),
    (fields.LaidVolumes, ["4.5 L", "1 US gal"], (0.0045, GALLON)),
    (fields.LaidVolumes, [], ()),
    (fields.Solids, "60 %", 0.6),
    (fields.ClothWeight, "200 g/m2", 0.2),
    (fields.ClothWeight, "6 oz/yd2", 6.0 * 0.028349523125 / 0.9144**2),
]

REFUSED = [
    (fields.LabelRate, "6", "has no unit"),
    (fields.LabelRate, "6 m2", "is an area; a coverage is wanted here."),
    (fields.LabelRate, "-6 m2/L", "must be 0.1 m²/L or more"),
    (fields.LabelRate, "100 ft2/gal", "could be US or imperial gallons"),
    (fields.LaidVolumes, ["4.5"], "has no unit"),
    (fields.LaidVolumes, ["-1 L"], "must be more than"),
    (fields.LaidVolumes, ["4.5 kg"], "is a mass; a volume is wanted here."),
    (fields.LaidVolumes, ["1 L"] * 21, "at most 20"),
    (fields.Solids, "140 %", "must be 100 % or less"),
    (fields.Solids, "-20 %", "must be 5 % or more"),
    (fields.ClothWeight, "200 g", "is a mass"),
    (fields.ClothWeight, "-1 g/m2", "must be more than"),
]


@pytest.mark.parametrize(("field", "typed", "value"), TAKEN)
def test_what_is_taken(field: Any, typed: Any, value: Any) -> None:
    assert TypeAdapter(field).validate_python(typed) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(("field", "typed", "words"), REFUSED)
def test_what_is_refused(field: Any, typed: Any, words: str) -> None:
    with pytest.raises(ValidationError) as raised:
        TypeAdapter(field).validate_python(typed, context={"show": "metric"})
    (detail,) = raised.value.errors()
    assert words in detail["msg"]


@pytest.mark.parametrize(
    ("line", "words"),
    [
        ('laid = ["4.5 L", "4"]', "has no unit"),
        ('laid = "4.5 L"', "laid"),
        ('label_rate = "6 L/m2"', "label_rate"),
        ('over_rim = "-1 ft"', "over_rim"),
        ('over_rim = "40 m"', "over_rim"),
    ],
)
def test_a_slip_is_told_with_its_line(line: str, words: str) -> None:
    key = '[vessels.basin.lining]\nkind = "coating"'
    with pytest.raises(PlanError) as raised:
        loads(changed(example("skerry"), (key, f"{key}\n{line}")))
    assert words in str(raised.value)
    assert "vessels.basin.lining" in str(raised.value)


def test_more_coats_laid_than_planned_is_no_fault() -> None:
    coats = '[vessels.basin.lining]\nkind = "coating"'
    text = changed(
        example("skerry"), (coats, f'{coats}\nlaid = ["1 L", "1 L", "1 L", "1 L", "1 L", "1 L", "1 L"]')
    )
    lining = loads(text).plan.vessels["basin"].lining
    assert lining is not None
    assert len(lining.laid) == 7
