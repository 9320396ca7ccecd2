"""Sweeps on all cores, and gone on with: what is done is kept, and nothing hangs on who did it or when."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import cache
from pathlib import Path

import pytest

from tidestead.desk.sought import Sought
from tidestead.plan import LoadedPlan, load, loads
from tidestead.trials import sweeping
from tidestead.trials.shows import Cell, Shown, cells_of
from tidestead.trials.vary import Request, Sweep, asked, vary

PACKHOUSE = Path(__file__).parents[2] / "examples" / "packhouse.toml"
VOLUME = "structure.sump.volume"
SUMP = ("vessels.sump.length=4..6 ft:5", "vessels.sump.width=3,4 ft")


@cache
def plan() -> LoadedPlan:
    return load(PACKHOUSE)


@pytest.fixture(autouse=True)
def own_cache(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Nothing is known of earlier sweeps, and nothing of these is left."""
    for name in ("XDG_CACHE_HOME", "LOCALAPPDATA", "HOME"):
        monkeypatch.setenv(name, str(tmp_path))
    return tmp_path


class Stopped(Exception):
    """Stands for Ctrl-C."""


def stopped_after(points: int, request: Request) -> None:
    def stop(done: int, of: int) -> None:
        if done >= points:
            raise Stopped(f"{done} of {of}")

    with pytest.raises(Stopped):
        vary(plan(), request, stop, cores=1)


def table(sweep: Sweep) -> list[object]:
    return [(sweep.grid.typed(row.number), row.cells, row.refused) for row in sweep.rows]


def kept_file(folder: Path) -> Path:
    (found,) = folder.rglob("sweeps/*.jsonl")
    return found


def test_sweep_that_was_stopped_goes_on_and_ends_as_if_it_had_not_been(own_cache: Path) -> None:
    request = Request(
        (*SUMP, "vessels.sump.water=10,16,99 in"), (VOLUME, "structure.sump.stands_on.pressure")
    )
    stopped_after(7, request)
    gone_on = vary(plan(), request, cores=1)
    whole = vary(plan(), Request(request.axes, request.show, anew=True), cores=1)
    again = vary(plan(), request, cores=1)
    assert (gone_on.known, whole.known, again.known) == (7, 0, 30)
    assert table(gone_on) == table(whole) == table(again)
    assert any(row.refused for row in whole.rows)


def test_torn_and_foreign_lines_are_passed_over(own_cache: Path) -> None:
    request = Request(SUMP, (VOLUME,))
    whole = vary(plan(), request, cores=1)
    path = kept_file(own_cache)
    kept = path.read_bytes()
    torn = kept[: len(kept) // 2]
    for spoilt in (
        torn,
        b"\xff\xfe junk\n" + torn,
        b'{"at":1}\n[]\n"x"\n{"at":["4 ft"],"cells":[{}]}\n' + torn,
    ):
        path.write_bytes(spoilt)
        gone_on = vary(plan(), request, cores=1)
        assert 0 < gone_on.known < 10
        assert table(gone_on) == table(whole)
        assert vary(plan(), request, cores=1).known == 10


def test_wider_grid_uses_what_is_known_of_a_narrower_one_and_another_plan_does_not() -> None:
    vary(plan(), Request((SUMP[0],), (VOLUME,)), cores=1)
    assert vary(plan(), Request(("vessels.sump.length=4,4.5,7 ft",), (VOLUME,)), cores=1).known == 2
    other = loads(plan().text.replace('name = "Packhouse reef"', 'name = "Another reef"'))
    assert vary(other, Request((SUMP[0],), (VOLUME,)), cores=1).known == 0


def test_cache_that_cannot_be_written_does_not_stop_a_sweep(own_cache: Path) -> None:
    folder = own_cache / "tidestead"
    folder.write_text("a file where a folder is wanted", "utf-8")
    assert len(vary(plan(), Request(SUMP, (VOLUME,)), cores=1).rows) == 10


def test_two_processes_find_what_one_finds(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sweeping, "ALONE", 0.0)
    points, _ = asked(
        plan(), Request(("vessels.sump.length=4..6 ft:9",), (VOLUME, "structure.sump.stands_on.pressure"))
    )
    one = {row.number: row for number in range(9) for row in [points.row(number)]}
    two = {row.number: row for rows in sweeping.swept(points, range(9), cores=2) for row in rows}
    assert two == one


def test_fault_of_ours_at_one_point_is_told_there_and_not_kept(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    request = Request((SUMP[0],), (VOLUME,))
    with monkeypatch.context() as patch:
        patch.setattr("tidestead.trials.points.cells_of", _breaks_once())
        found = vary(plan(), request, cores=1)
    assert [row.fault for row in found.rows] == [False, False, True, False, False]
    assert "Tidestead is at fault: ZeroDivisionError" in found.rows[2].refused
    assert vary(plan(), request, cores=1).known == 4


def _breaks_once() -> Callable[[Sequence[Shown], Mapping[str, Sought]], tuple[Cell, ...]]:
    calls = iter(range(100))

    def breaks(shown: Sequence[Shown], found: Mapping[str, Sought]) -> tuple[Cell, ...]:
        if next(calls) == 2:
            raise ZeroDivisionError("made up")
        return cells_of(shown, found)

    return breaks
