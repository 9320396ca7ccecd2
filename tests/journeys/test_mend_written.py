"""What is written is what was shown: numbers, missing prices, costs beside, files that cannot be written."""

from __future__ import annotations

import math
import re
import stat
from pathlib import Path

import pytest

from tests.journeys.weak_vat import FEET, WEAK, weak_vat
from tidestead import desk
from tidestead.cli import main
from tidestead.core.answer import Verdict
from tidestead.plan import load, loads
from tidestead.plan.edits import Edit
from tidestead.report.terminal_remedies import money
from tidestead.trials.answered import Answered
from tidestead.trials.applying import undone, written
from tidestead.trials.mending import Search, checks_to_mend, mended
from tidestead.trials.pricing import costed, difference, price_of
from tidestead.trials.remedy import Mended, Priced
from tidestead.trials.scratch import Scratch


@pytest.fixture
def vat(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    return weak_vat(tmp_path, monkeypatch)


def test_no_number_is_written_that_was_not_shown(vat: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = vat.read_bytes()
    assert main(["mend", str(vat), FEET, "--quick", "--write", "1"]) == 2
    assert f"Type first: tidestead mend {vat} {FEET} --quick" in capsys.readouterr().err
    assert vat.read_bytes() == before


def test_numbers_of_a_plan_that_has_changed_since_are_refused(
    vat: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["mend", str(vat), FEET, "--quick"]) == 0
    changed = WEAK + "\n# a remark\n"
    vat.write_text(changed, encoding="utf-8")
    capsys.readouterr()
    assert main(["mend", str(vat), FEET, "--quick", "--write", "1"]) == 2
    assert "the plan as it stands now" in capsys.readouterr().err
    assert vat.read_text("utf-8") == changed


def test_a_plan_that_may_not_be_written_stays(vat: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["mend", str(vat), FEET, "--quick"]) == 0
    before = vat.read_bytes()
    vat.chmod(stat.S_IRUSR | stat.S_IRGRP | stat.S_IROTH)
    capsys.readouterr()
    code = main(["mend", str(vat), FEET, "--quick", "--write", "1"])
    words = capsys.readouterr()
    if code == 2:
        assert "may not be written" in words.err
        assert vat.read_bytes() == before
    else:  # whoever may write anything, as root may
        assert "Written: " in words.out
        assert vat.read_bytes() != before


def test_a_search_goes_on_where_it_was(vat: Path) -> None:
    first = Scratch.resumed(load(vat))
    checks = checks_to_mend(first, ["structure"], [FEET])
    told = mended(first, checks, Search(fully=False, workers=1))
    assert first.asked > 1
    again = Scratch.resumed(load(vat))
    assert mended(again, checks_to_mend(again, ["structure"], [FEET]), Search(fully=False, workers=1)) == told
    assert again.asked == 1  # the plan as it is, for its checks
    vat.write_text(WEAK + "\n# another text\n", encoding="utf-8")
    assert Answered.of(load(vat)).read() == ({}, {})


def test_what_was_torn_off_is_passed_over(vat: Path) -> None:
    loaded = load(vat)
    store = Answered.of(loaded)
    first = Scratch(loaded, store=store)
    states = first.states("structure")
    assert states is not None
    file = next(Path(vat.parent, "cache").rglob("mending/*.jsonl"))
    whole = file.read_bytes()
    file.write_bytes(whole + whole[: len(whole) // 2])
    known, prices = store.read()
    assert known == {first.key(loaded, "structure"): states}
    assert prices == {}
    file.write_bytes(whole[: len(whole) // 2])
    assert store.read() == ({}, {})


@pytest.fixture(scope="module")
def packhouse() -> tuple[Scratch, Mended]:
    path = Path(__file__).parents[2] / "examples" / "packhouse.toml"
    few = path.read_text("utf-8").replace("[weather]\n", "[weather]\nyears = 2\n")
    scratch = Scratch(loads(few, "packhouse.toml"))
    [check] = checks_to_mend(scratch, ["structure"], ["structure.reef.ties.cross.end_joint.force"])
    [one] = mended(scratch, [check], Search(most=2, sorts=3, workers=1))
    return scratch, one


@pytest.mark.timeout(300)
def test_a_remedy_of_timbers_tells_what_it_does_to_the_budget(
    packhouse: tuple[Scratch, Mended], tmp_path: Path
) -> None:
    scratch, one = packhouse
    remedy = one.remedies[0]
    assert remedy.subjects == ("structure", "flow", "cost")
    path = tmp_path / "reef.toml"
    path.write_text(scratch.loaded.text, encoding="utf-8")
    before = path.read_bytes()
    base = costed(load(path))
    written(load(path), remedy.edits)
    after = costed(load(path))
    assert base is not None
    assert after is not None
    added = difference(base.price, after.price)
    assert added is not None
    assert remedy.price is not None
    assert math.isclose(remedy.price.cash.likely, added.cash.likely, abs_tol=1e-6)
    checks = desk.answer(load(path), ["cost"])["cost"].checks
    cash = next(check for check in checks if check.id == "cost.cash")
    told = {effect.id: effect.after for effect in remedy.effects}
    if "cost.cash" in told:
        state = told["cost.cash"]
        assert state is not None
        assert state.use == pytest.approx(cash.use, rel=1e-9)
        assert state.verdict is cash.verdict is Verdict.SOUND
    else:
        assert abs(added.cash.high) < 1e-6
    undone(path)
    assert path.read_bytes() == before


def test_what_has_no_price_is_no_saving(packhouse: tuple[Scratch, Mended]) -> None:
    scratch, _ = packhouse
    [check] = checks_to_mend(scratch, ["structure"], ["structure.reef.east.sheathing.rolling"])
    [one] = mended(scratch, [check], Search(fully=False, workers=1))
    bare = [remedy for remedy in one.remedies if remedy.price is not None and not remedy.price.whole]
    assert [remedy.price.unpriced for remedy in bare if remedy.price] == [("sheet plywood-1-1/8",)]
    assert one.remedies[-1] is bare[0]  # after all that have a total
    assert money(bare[0].price) == "no total, for the price book has no price of sheet plywood-1-1/8"
    assert "USD" in money(one.remedies[0].price)


def test_more_of_what_lacks_its_price_is_no_total() -> None:
    """Studs without a price, as they stand and closer: plates and nails alone are not what closer studs cost."""
    text = (Path(__file__).parents[2] / "examples" / "packhouse.toml").read_text("utf-8")
    scratch = Scratch(loads(re.sub(r"(?m)^stud-\d+ = .*\n", "", text), "packhouse.toml"))
    base = price_of(scratch.loaded)
    assert base is not None
    assert base.unpriced == ("lumber 2x6 dfl-no2",)

    def added(key: str, value: str) -> Priced:
        plan = scratch.with_edits((Edit(key, value),))
        assert plan is not None
        found = difference(base, price_of(plan))
        assert found is not None
        return found

    for spacing in ("8 in", "20 in"):
        assert added("vessels.reef.walls.east.studs.spacing", spacing).unpriced == base.unpriced
    assert added("supply.amps", "80 A").whole
