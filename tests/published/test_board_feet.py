"""Board feet against the worked examples of training manuals and of an old textbook."""

from __future__ import annotations

import pytest

from tests.published.case import INCH, Case, marked
from tidestead.build.timber_sizes import board_feet

ARMY = "US Army carpentry course, estimating lumber"
DANFORTH = "Danforth, An Elementary Outline of Mechanical Processes, lumber measurement"
FOOT = 12.0 * INCH


def example(
    name: str, pieces: int, size: tuple[float, float, float], printed: float, source: str, to: float
) -> Case:
    thick, wide, long = size
    return Case(
        name,
        board_feet,
        {"thickness": thick * INCH, "width": wide * INCH, "length": long * FOOT},
        printed,
        to,
        source,
        "worked example",
        "read",
        pick=lambda one: pieces * float(one),
        why="a fraction is printed, 37 1/3" if printed % 1.0 else "",
    )


CASES = (
    example("fourteen of 1 x 4, 8 ft", 14, (1.0, 4.0, 8.0), 37.33, ARMY, 0.005),
    example("twelve of 1/2 x 8, 12 ft, as if an inch thick", 12, (0.5, 8.0, 12.0), 96.0, DANFORTH, 0.05),
    example("eighty of 1 1/2 x 6, 16 ft", 80, (1.5, 6.0, 16.0), 960.0, DANFORTH, 0.05),
)


@pytest.mark.parametrize("printed", [marked(case) for case in CASES])
def test_board_feet_as_printed(printed: Case) -> None:
    assert printed.holds()
    assert not printed.holds(1.02)
