"""A sweep of a thousand points over one check of the structure, beside a plain loop of whole answers.

Run with `pytest benchmarks/test_vary.py`. Nothing is asserted about time: a machine with other work to do is slower.
The figure to compare with: a thousand points under 20 s on two cores. The loop goes over few of the points; its time
is for so many.
"""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from tidestead import desk
from tidestead.core.kept import forget
from tidestead.plan import load
from tidestead.trials.grid import read_grid
from tidestead.trials.plans import Plans
from tidestead.trials.vary import Request, vary

PACKHOUSE = Path(__file__).parents[1] / "examples" / "packhouse.toml"
AXES = (
    "vessels.reef.walls.south.windows.long.thickness=60..100 mm:25",
    "vessels.reef.walls.all.studs.spacing=6..16 in:40",
)
SHOWN = [
    "structure.reef.south.long.bow.long",
    "structure.reef.south.studs.bending",
    "structure.reef.ties.cross.tension",
]
LOOPED = 10


@pytest.mark.parametrize("shown", SHOWN)
@pytest.mark.benchmark(group="a thousand points of window thickness and stud spacing")
def test_sweep(benchmark: Any, shown: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path))
    loaded = load(PACKHOUSE)
    found = benchmark.pedantic(vary, (loaded, Request(AXES, (shown,), anew=True)), setup=forget, rounds=1)
    assert len(found.rows) == 1000
    assert not any(row.refused for row in found.rows)


@pytest.mark.benchmark(group=f"{LOOPED} whole answers of the same grid in one process")
def test_plain_loop(benchmark: Any) -> None:
    loaded = load(PACKHOUSE)
    plans = Plans.of(loaded, read_grid(loaded, AXES))
    numbers = range(0, 1000, 1000 // LOOPED)

    def loop() -> list[int]:
        answers = [desk.answer(plans.at(number), ["structure"])["structure"] for number in numbers]
        return [len(answer.checks) for answer in answers]

    found = benchmark.pedantic(loop, setup=forget, rounds=1)
    assert len(found) == LOOPED
    assert min(found) > 0
