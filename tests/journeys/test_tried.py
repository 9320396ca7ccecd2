"""What is being tried goes on when the plan changes elsewhere, and never hides or writes over what another changed."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.journeys.test_page_bench import FLOW, NAME, Slow
from tidestead.plan.edits import Edit
from tidestead.web.bench import Bench, NothingToDo, StaleError

VALVE = "valves.main.open"


def number_of(bench: Bench) -> int:
    """The number of the trial that pages show."""
    assert bench.trial is not None
    return bench.trial.number


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
    shown = number_of(bench)
    bench.save([Edit(FLOW, "350 W")], bench.digest)
    assert bench.trial is None
    assert bench.trial_ended.how == "overtaken"
    assert "power" in bench.trial_ended.words
    with pytest.raises(NothingToDo, match="nothing is being tried any more"):
        bench.keep_trial(bench.digest, shown)
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


@pytest.mark.parametrize("broken", ["half a li", 'name = "twice"\n'])
def test_a_trial_waits_while_the_file_has_faults(bench: Bench, broken: str) -> None:
    bench.try_out([Edit(FLOW, "400 W")], bench.digest)
    shown = number_of(bench)
    sound = bench.text
    bench.path.write_text(sound + broken, "utf-8")
    bench.look()
    assert bench.faults
    with pytest.raises(StaleError, match="mend it first"):
        bench.keep_trial(bench.digest, shown)
    bench.path.write_text(sound, "utf-8")
    bench.look()
    assert bench.trial is not None
    bench.keep_trial(bench.digest, shown)
    assert b'"400 W"' in bench.path.read_bytes()


def test_a_trial_that_would_heal_anothers_fault_is_not_kept_over_it(bench: Bench) -> None:
    """Another wrote a faulty value at the same key, and opened a valve: neither was in what the trial told."""
    bench.try_out([Edit(FLOW, "400 W")], bench.digest)
    shown = number_of(bench)
    theirs = bench.text.replace('power = "170 W"', 'power = "350 watt-ish"', 1)
    assert theirs != bench.text
    bench.path.write_text(theirs, "utf-8")
    bench.look()
    with pytest.raises(StaleError):
        bench.keep_trial(bench.digest, shown)
    assert bench.path.read_text("utf-8") == theirs
    bench.path.write_text(theirs.replace("350 watt-ish", "350 W"), "utf-8")
    bench.look()
    assert bench.trial is None
    assert bench.trial_ended.how == "overtaken"


def test_a_trial_does_not_put_back_a_part_that_another_took_out(bench: Bench) -> None:
    """The only thing said of the east wall goes; the rim that is tried there would bring that wall back."""
    bench.try_out([Edit("vessels.reef.walls.east.rim", {"section": "2x6"})], bench.digest)
    start = bench.text.index("[vessels.reef.walls.east.studs]")
    without = bench.text[:start] + bench.text[bench.text.index("\n[", start) + 1 :]
    bench.path.write_text(without, "utf-8")
    bench.look()
    assert not bench.faults
    assert bench.trial is None
    assert bench.trial_ended.how == "overtaken"


def test_a_change_that_writes_what_is_tried_has_kept_it(bench: Bench) -> None:
    bench.try_out([Edit(FLOW, "400 W")], bench.digest)
    bench.save([Edit(FLOW, "400 W"), Edit(VALVE, "60 %")], bench.digest)
    assert bench.trial is None
    assert bench.trial_ended.how == "kept"
    bench.undo(bench.digest)
    assert bench.trial is None


def test_what_of_a_trial_is_saved_by_itself_is_tried_no_more_and_the_rest_goes_on(bench: Bench) -> None:
    bench.try_out([Edit(FLOW, "400 W"), Edit(VALVE, "60 %")], bench.digest)
    bench.save([Edit(FLOW, "400 W")], bench.digest)
    assert bench.trial is not None
    assert bench.trial.words() == {VALVE: "60 %"}
    bench.undo(bench.digest)
    assert bench.trial is not None
    assert bench.trial.words() == {VALVE: "60 %"}
    bench.save([Edit(VALVE, "50 %")], bench.digest)
    assert bench.trial is None
    assert bench.trial_ended.how == "overtaken"


def test_only_the_trial_that_was_shown_is_kept(bench: Bench) -> None:
    bench.try_out([Edit(FLOW, "400 W")], bench.digest)
    shown = number_of(bench)
    bench.try_out([Edit(FLOW, "500 W")], bench.digest)
    before = bench.path.read_bytes()
    with pytest.raises(StaleError, match="Something else is being tried"):
        bench.keep_trial(bench.digest, shown)
    assert bench.path.read_bytes() == before
    assert bench.trial is not None
    assert bench.trial.words() == {FLOW: "500 W"}
    bench.keep_trial(bench.digest, shown + 1)
    assert b'"500 W"' in bench.path.read_bytes()


def test_what_the_plan_has_already_is_no_trial_and_ends_none(bench: Bench) -> None:
    bench.try_out([Edit(FLOW, "400 W")], bench.digest)
    for nothing in ([], [Edit(FLOW, "170 W")], [Edit("vessels.reef.nothing", None)]):
        with pytest.raises(NothingToDo, match="has this already"):
            bench.try_out(nothing, bench.digest)
        assert bench.trial is not None
        assert bench.trial.words() == {FLOW: "400 W"}


def test_of_two_edits_of_one_key_the_last_is_tried_and_kept(bench: Bench) -> None:
    bench.try_out([Edit(FLOW, "400 W"), Edit(FLOW, "500 W")], bench.digest)
    shown = number_of(bench)
    assert bench.trial is not None
    assert bench.trial.told() == "Pump return: power 500 W"
    bench.keep_trial(bench.digest, shown)
    assert bench.trial_ended.how == "kept"
    assert b'"500 W"' in bench.path.read_bytes()


def test_one_value_of_a_trial_is_left_and_the_rest_goes_on(bench: Bench) -> None:
    bench.try_out([Edit(FLOW, "400 W"), Edit(VALVE, "60 %")], bench.digest)
    shown = number_of(bench)
    bench.drop_trial([FLOW])
    assert bench.trial is not None
    assert bench.trial.words() == {VALVE: "60 %"}
    bench.drop_trial([VALVE])
    assert bench.trial is None
    assert (bench.trial_ended.number, bench.trial_ended.how) == (shown + 1, "left")
    with pytest.raises(NothingToDo, match="is left"):
        bench.drop_trial()


def test_a_late_answer_to_the_trial_before_is_not_this_ones(bench: Bench) -> None:
    slow = bench.workers
    assert isinstance(slow, Slow)
    bench.heard(slow.answer(slow.jobs[-1]))
    bench.try_out([Edit(FLOW, "400 W")], bench.digest)
    late = slow.answer(slow.jobs[-1])
    bench.try_out([Edit(VALVE, "60 %")], bench.digest)
    assert bench.trial is not None
    assert not bench.trial.standings["flow"].current
    assert bench.trial_changes() == {}
    bench.heard(late)
    assert not bench.trial.standings["flow"].current
    bench.heard(slow.answer(slow.jobs[-1]))
    assert bench.trial.standings["flow"].current
    assert bench.trial_changes()["flow"]


def test_what_is_tried_is_told_as_its_fields_show_it(bench: Bench) -> None:
    curve = ["0 gal/h at 16 ft", "3000 gal/h at 8 ft", "4200 gal/h at 0 ft"]
    bench.try_out(
        [Edit("pumps.return.curve", curve), Edit("pumps.return.check_valve", True), Edit(NAME, "x")],
        bench.digest,
    )
    assert bench.trial is not None
    told = bench.trial.told()
    assert f"curve {', '.join(curve)}; Pump return: check valve yes; " in told
    assert "[" not in told


def test_every_page_hears_of_a_trial_and_of_its_end_and_of_units(bench: Bench) -> None:
    queue = bench.listeners.add()
    before = bench.listeners.told
    bench.try_out([Edit(FLOW, "400 W")], bench.digest)
    bench.drop_trial()
    bench.show_in("us" if bench.system == "metric" else "metric")
    heard = [queue.get_nowait()["kind"] for _ in range(queue.qsize())]
    assert heard == ["trial", "trial", "units"]
    assert bench.listeners.told == before + 3


def test_a_later_text_of_the_plan_has_a_higher_count(bench: Bench) -> None:
    queue = bench.listeners.add()
    first = bench.count
    bench.save([Edit(FLOW, "400 W")], bench.digest)
    bench.path.write_text(bench.text + "half a li", "utf-8")
    bench.look()
    bench.undo(bench.digest)
    news = [queue.get_nowait() for _ in range(queue.qsize())]
    counts = [one["count"] for one in news if one["kind"] == "plan"]
    assert counts == [first + 1, first + 2, first + 3]
