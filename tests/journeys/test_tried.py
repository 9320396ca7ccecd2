"""What is being tried goes on when the plan changes elsewhere, and never hides or writes over what another changed."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.journeys.test_page_bench import FLOW, NAME, Slow
from tidestead.core.errors import PlanError
from tidestead.plan.edits import Edit
from tidestead.web.bench import Bench, NothingToDo, StaleError

VALVE = "valves.main.open"


@pytest.fixture
def bench(plan: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Bench:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    slow = Slow()
    made = Bench(plan, slow)
    slow.start(made.heard)
    made.look()
    return made


def test_a_trial_goes_on_over_a_change_elsewhere_and_then_keeps_both(bench: Bench) -> None:
    bench.try_out([Edit(FLOW, "400 W")], bench.digest)
    assert bench.trial is not None
    number = bench.trial.number
    bench.path.write_text(bench.text.replace("Packhouse reef", "Another name"), "utf-8")
    bench.look()
    assert bench.trial is not None
    assert bench.trial.number == number
    assert "Another name" in bench.trial.loaded.text
    assert '"400 W"' in bench.trial.loaded.text
    assert isinstance(bench.workers, Slow)
    assert bench.workers.jobs[-1].loaded.text == bench.trial.loaded.text
    bench.keep_trial(bench.digest, number)
    text = bench.path.read_text("utf-8")
    assert "Another name" in text
    assert 'power = "400 W"' in text
    assert bench.trial is None
    assert bench.trial_ended.how == "kept"


def test_a_trial_ends_where_another_changed_what_it_tries(bench: Bench) -> None:
    bench.try_out([Edit(FLOW, "400 W"), Edit(NAME, "tried")], bench.digest)
    bench.save([Edit(FLOW, "350 W")], bench.digest)
    assert bench.trial is None
    assert bench.trial_ended.how == "overtaken"
    assert "power" in bench.trial_ended.words
    with pytest.raises(NothingToDo, match="nothing is being tried any more"):
        bench.keep_trial(bench.digest, 1)
    assert '"350 W"' in bench.path.read_text("utf-8")


def test_a_trial_ends_where_it_no_longer_fits(bench: Bench) -> None:
    bench.try_out([Edit("vessels.reef.water", "4 ft 4 in")], bench.digest)
    lower = bench.text.replace('brim = "4 ft 5 in"', 'brim = "4 ft 3 1/2 in"', 1)
    assert lower != bench.text
    bench.path.write_text(lower, "utf-8")
    bench.look()
    assert not bench.faults
    assert bench.trial is None
    assert bench.trial_ended.how == "overtaken"
    assert "no longer fits" in bench.trial_ended.words


def test_a_trial_waits_while_the_file_has_faults(bench: Bench) -> None:
    bench.try_out([Edit(FLOW, "400 W")], bench.digest)
    sound = bench.text
    bench.path.write_text(sound + "half a li", "utf-8")
    bench.look()
    assert bench.faults
    with pytest.raises(PlanError):
        bench.keep_trial(bench.digest, 1)
    bench.path.write_text(sound, "utf-8")
    bench.look()
    assert bench.trial is not None
    bench.keep_trial(bench.digest, 1)
    assert b'"400 W"' in bench.path.read_bytes()


def test_a_change_that_writes_what_is_tried_has_kept_it(bench: Bench) -> None:
    bench.try_out([Edit(FLOW, "400 W")], bench.digest)
    bench.save([Edit(FLOW, "400 W"), Edit(VALVE, "60 %")], bench.digest)
    assert bench.trial is None
    assert bench.trial_ended.how == "kept"
    bench.undo(bench.digest)
    assert bench.trial is None


def test_only_the_trial_that_was_shown_is_kept(bench: Bench) -> None:
    bench.try_out([Edit(FLOW, "400 W")], bench.digest)
    bench.try_out([Edit(FLOW, "500 W")], bench.digest)
    before = bench.path.read_bytes()
    with pytest.raises(StaleError, match="Something else is being tried"):
        bench.keep_trial(bench.digest, 1)
    assert bench.path.read_bytes() == before
    assert bench.trial is not None
    assert bench.trial.words() == {FLOW: "500 W"}
    bench.keep_trial(bench.digest, 2)
    assert b'"500 W"' in bench.path.read_bytes()


def test_a_trial_of_nothing_is_none(bench: Bench) -> None:
    bench.try_out([Edit(FLOW, "400 W")], bench.digest)
    bench.try_out([], bench.digest)
    assert bench.trial is None
    assert bench.trial_ended.how == "left"


def test_every_page_hears_of_a_trial_and_of_its_end_and_of_units(bench: Bench) -> None:
    queue = bench.listeners.add()
    bench.try_out([Edit(FLOW, "400 W")], bench.digest)
    bench.drop_trial()
    bench.drop_trial()
    bench.show_in("us" if bench.system == "metric" else "metric")
    heard = [queue.get_nowait()["kind"] for _ in range(queue.qsize())]
    assert heard == ["trial", "trial", "units"]
