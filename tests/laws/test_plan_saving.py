"""A save loses nothing: not to a fault, a crash, another saver, or another editor."""

from __future__ import annotations

import os
import random
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tidestead.core.errors import PlanError
from tidestead.plan import Document, load, loads, save, set_value, starter_text
from tidestead.plan.saving import previous_of

COATS = "vessels.basin.lining.coats"


@pytest.fixture
def plan(tmp_path: Path) -> Path:
    path = tmp_path / "basin.toml"
    path.write_text(starter_text("metric"), encoding="utf-8")
    return path


def left_over(folder: Path) -> list[str]:
    return [entry.name for entry in folder.iterdir() if entry.name.endswith(".part")]


def test_an_edit_is_saved_with_its_comment_and_the_version_before_it_is_kept(plan: Path) -> None:
    before = plan.read_bytes()
    document = load(plan).document
    changed = set_value(document, "vessels.basin.walls.south.windows.front.thickness", "2 3/8 in")
    assert changed.vessels["basin"].walls["south"].windows["front"].thickness == pytest.approx(0.060325)
    assert save(document, plan) == previous_of(plan)
    assert previous_of(plan).name == "basin.previous.toml"
    assert previous_of(plan).read_bytes() == before
    assert plan.read_bytes() == before.replace(b'thickness = "35 mm"', b'thickness = "2 3/8 in"')
    assert load(plan).plan == changed
    assert not left_over(plan.parent)


def test_line_ends_mark_and_rights_are_kept(plan: Path) -> None:
    data = b"\xef\xbb\xbf" + plan.read_bytes().replace(b"\n", b"\r\n")
    plan.write_bytes(data)
    plan.chmod(0o640)
    document = load(plan).document
    set_value(document, COATS, 6)
    set_value(document, "vessels.basin.lining.dry_film", "1 mm")
    save(document, plan)
    assert plan.read_bytes() == data.replace(b"coats = 5\r\n", b"coats = 6\r\n").replace(
        b"below the water\r\n", b'below the water\r\ndry_film = "1 mm"\r\n', 1
    )
    assert plan.stat().st_mode & 0o777 == 0o640


def test_a_bad_edit_changes_neither_document_nor_file(plan: Path) -> None:
    document = load(plan).document
    text = document.text
    with pytest.raises(PlanError) as raised:
        set_value(document, "vessels.basin.water", "24")
    assert raised.value.faults[0].where == "vessels.basin.water"
    assert raised.value.faults[0].line == text[: text.index("water = ")].count("\n") + 1
    with pytest.raises(PlanError, match="is not a key known here"):
        set_value(document, "vessels.basin.wather", "1 m")
    with pytest.raises(PlanError, match="is missing"):
        set_value(document, "vessels.basin.height", None)
    assert document.text == text
    document.text = text.replace("[vessels.basin]", "[vessels.basin")
    with pytest.raises(PlanError, match="not closed"):
        save(document, plan)
    assert plan.read_text(encoding="utf-8") == text


def test_a_key_can_be_taken_out(plan: Path) -> None:
    document = load(plan).document
    assert set_value(document, "vessels.basin.brim", None).vessels["basin"].brim is None
    assert "brim = " not in document.text


def test_a_file_that_changed_on_disk_is_not_overwritten(plan: Path) -> None:
    document = load(plan).document
    set_value(document, COATS, 6)
    plan.write_text(plan.read_text(encoding="utf-8") + "# a remark\n", encoding="utf-8")
    theirs = plan.read_bytes()
    with pytest.raises(PlanError, match="has changed on disk"):
        save(document, plan)
    assert plan.read_bytes() == theirs
    assert not previous_of(plan).exists()


def test_a_second_save_of_one_document_follows_the_first(plan: Path) -> None:
    document = load(plan).document
    for coats in (6, 7, 8):
        set_value(document, COATS, coats)
        save(document, plan)
    lining = load(plan).plan.vessels["basin"].lining
    assert lining is not None
    assert lining.coats == 8
    assert b"coats = 7" in previous_of(plan).read_bytes()


def test_a_new_file_is_made_and_none_is_overwritten(plan: Path) -> None:
    other = plan.with_name("other.toml")
    document = load(plan).document
    assert save(document, other) == other
    assert other.read_bytes() == plan.read_bytes()
    with pytest.raises(PlanError, match="is there already"):
        save(Document(starter_text("us")), plan)
    assert load(plan).plan.show == "metric"
    assert save(loads(starter_text("us")).document, plan.with_name("us.toml")).exists()
    assert not left_over(plan.parent)


def test_a_plan_that_was_taken_away_is_not_silently_made_again(plan: Path) -> None:
    document = load(plan).document
    plan.unlink()
    with pytest.raises(PlanError, match="no longer there"):
        save(document, plan)
    assert not plan.exists()


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_pipe_in_place_of_the_plan_is_refused_at_once(plan: Path) -> None:
    document = load(plan).document
    plan.unlink()
    os.mkfifo(plan)
    with pytest.raises(PlanError, match="not a plain file"):
        save(document, plan)
    assert plan.is_fifo()


def test_a_link_stays_a_link(plan: Path) -> None:
    link = plan.with_name("link.toml")
    link.symlink_to(plan.name)
    document = load(link).document
    set_value(document, COATS, 9)
    save(document, link)
    assert link.is_symlink()
    assert b"coats = 9" in plan.read_bytes()


@pytest.mark.skipif(os.name != "posix" or os.geteuid() == 0, reason="rights do not bind this user")
def test_a_file_that_may_not_be_written_is_left(plan: Path) -> None:
    document = load(plan).document
    set_value(document, COATS, 9)
    plan.chmod(0o444)
    with pytest.raises(PlanError, match="may not be written"):
        save(document, plan)


def test_a_full_disk_is_told_and_leaves_the_plan(plan: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = plan.read_bytes()
    document = load(plan).document
    set_value(document, COATS, 9)

    def full(_: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("tidestead.plan.saving.os.fsync", full)
    with pytest.raises(PlanError, match="No space left"):
        save(document, plan)
    assert plan.read_bytes() == before
    assert not left_over(plan.parent)


SAVER = """
import sys
from tidestead.plan import load, save, set_value
loaded = load(sys.argv[1])
document = loaded.document
print("ready", flush=True)
for coats in range(1, 9999):
    set_value(document, "vessels.basin.lining.coats", coats)
    set_value(document, "site.place", "x" * coats)
    save(document, sys.argv[1])
"""


def check_no_crash_loses_anything(plan: Path, times: int) -> None:
    """Kill a saver at random moments; the plan must be whole and of one state every time."""
    seeded = random.Random(7)
    for _ in range(times):
        saver = subprocess.Popen([sys.executable, "-c", SAVER, str(plan)], stdout=subprocess.PIPE)
        assert saver.stdout is not None
        saver.stdout.readline()
        time.sleep(seeded.uniform(0.0, 0.12))
        saver.kill()
        saver.wait()
        saver.stdout.close()
        found = load(plan).plan
        lining = found.vessels["basin"].lining
        assert lining is not None
        assert lining.coats == 5 or found.site.place == "x" * (lining.coats or 0)
        if previous_of(plan).exists():
            assert load(previous_of(plan)).plan.name == found.name
        document = load(plan).document
        set_value(document, COATS, 5)
        save(document, plan)
        assert not left_over(plan.parent)
        plan.write_text(starter_text("metric"), encoding="utf-8")


def test_a_crash_while_saving_loses_nothing(plan: Path) -> None:
    check_no_crash_loses_anything(plan, 5)


@pytest.mark.long
@pytest.mark.timeout(3000)
def test_a_thousand_crashes_while_saving_lose_nothing(plan: Path) -> None:
    check_no_crash_loses_anything(plan, 1000)


COUNTER = """
import sys
from tidestead.core.errors import PlanError
from tidestead.plan import load, save, set_value
done = 0
while done < int(sys.argv[2]):
    loaded = load(sys.argv[1])
    coats = loaded.plan.vessels["basin"].lining.coats
    set_value(loaded.document, "vessels.basin.lining.coats", coats + 1)
    try:
        save(loaded.document, sys.argv[1])
        done += 1
    except PlanError as error:
        assert "has changed on disk" in str(error), error
"""


@pytest.mark.skipif(sys.platform == "win32", reason="there the digest alone guards, without a lock")
def test_of_two_savers_neither_loses_what_the_other_wrote(plan: Path) -> None:
    savers = [subprocess.Popen([sys.executable, "-c", COUNTER, str(plan), "15"]) for _ in range(2)]
    assert [saver.wait(120) for saver in savers] == [0, 0]
    lining = load(plan).plan.vessels["basin"].lining
    assert lining is not None
    assert lining.coats == 5 + 30


def test_what_a_crash_left_is_swept_and_nothing_else(plan: Path) -> None:
    stale = plan.with_name(f".{plan.name}.0123456789ab.part")
    others = [plan.with_name(".other.toml.0123456789ab.part"), plan.with_name("basin.toml.part")]
    for path in (stale, *others):
        path.write_text("half", encoding="utf-8")
    document = load(plan).document
    set_value(document, COATS, 6)
    save(document, plan)
    assert stale.exists() == (sys.platform == "win32")
    assert all(path.exists() for path in others)
