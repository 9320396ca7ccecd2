"""A sound plan, ten faults to plant in it, and where each must be told."""

from __future__ import annotations

import pytest

from tidestead.core.errors import Fault, PlanError
from tidestead.plan import loads

SOUND = """\
tidestead = 1
name = "Test basin"

[vessels.tank]
role = "display"
shape = "box"
length = "4 m"
width = "2.1 m"
height = "1.2 m"
water = "1.1 m"

[vessels.tank.walls.all.studs]
section = "47 x 145 mm"
grade = "C24"
spacing = "400 mm"
top = { fastener = "screw-6x120", count = 2 }

[vessels.tank.walls.south.windows.long]
material = "acrylic-cast"
thickness = "50 mm"
width = "2 m"
height = "0.8 m"
sill = "0.2 m"
edges = { left = "seat", right = "seat", bottom = "seat", top = "seat" }

[vessels.tank.ties.cross]
across = "width"
at = [
  "1 m",
  "3 m",
]
"""

WINDOW = "vessels.tank.walls.south.windows.long"
STUDS = "vessels.tank.walls.all.studs"

TEN = (
    ('name = "Test basin"', 'heigth = "3 m"\nname = "Test basin"', "heigth", "heigth = "),
    ('role = "display"', 'role = "displya"', "vessels.tank.role", '"displya"'),
    ('width = "2.1 m"', "width = 2.1", "vessels.tank.width", "2.1"),
    ('height = "1.2 m"', 'height = "1.2 kg"', "vessels.tank.height", '"1.2 kg"'),
    ('section = "47 x 145 mm"', 'section = "47 x 145"', f"{STUDS}.section", '"47 x 145"'),
    ('grade = "C24"', 'grade = "C42"', f"{STUDS}.grade", '"C42"'),
    ("count = 2", 'count = "2"', f"{STUDS}.top.count", '"2"'),
    ('width = "2 m"', 'width = "5 m"', f"{WINDOW}.width", '"5 m"'),
    ('bottom = "seat", top = "seat" }', 'bottom = "seat" }', f"{WINDOW}.edges.top", ""),
    ('  "3 m",', '  "9 m",', "vessels.tank.ties.cross.at[2]", '"9 m"'),
)
"""Ten faults of ten kinds: what stands in the sound plan, what is put there, where it is told, as typed."""


def faults_of(text: str) -> tuple[Fault, ...]:
    with pytest.raises(PlanError) as raised:
        loads(text)
    return raised.value.faults


def told(text: str) -> dict[str, Fault]:
    return {fault.where: fault for fault in faults_of(text)}


def planted() -> str:
    text = SOUND
    for before, after, _, _ in TEN:
        assert text.count(before) == 1, before
        text = text.replace(before, after)
    return text


def line_of(text: str, words: str) -> int:
    return text[: text.index(words)].count("\n") + 1


def expected_lines(text: str) -> dict[str, int]:
    """The line of each planted fault, found by looking for what was planted."""
    return {where: line_of(text, after) for _, after, where, _ in TEN}
