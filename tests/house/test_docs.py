"""What the documents say exists, and what is made from the code is up to date."""

from __future__ import annotations

import re
import shlex
import tomllib
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from tests.house.tree import ROOT, TESTS, named
from tidestead import desk
from tidestead.cli.commands import tidestead
from tidestead.core.answer import Verdict
from tidestead.plan import loads
from tools import made

PAGES = [ROOT / "README.md", ROOT / "CHANGELOG.md", *sorted((ROOT / "docs").rglob("*.md"))]
ADDED = re.compile(r"# add to (packhouse|skerry)\.toml")
EXAMPLE = (ROOT / "examples" / "packhouse.toml").read_text(encoding="utf-8")
TEST_COMMAND = "python3 start.py test"
_FENCE = re.compile(r"^```(\w*)\n(.*?)^```", re.MULTILINE | re.DOTALL)
_LINK = re.compile(r"\]\(([^)#\s]+)(?:#[\w-]*)?\)")


def fenced(page: Path, language: str) -> Iterator[str]:
    """The blocks of one language in a page."""
    for found in _FENCE.finditer(page.read_text(encoding="utf-8")):
        if found[1] == language:
            yield found[2]


def commands(page: Path) -> Iterator[list[str]]:
    """Every call of the program that a page shows, without the word that starts it."""
    for block in fenced(page, "sh"):
        for line in block.splitlines():
            words = shlex.split(line, comments=True)
            if words[:2] == ["python3", "start.py"]:
                yield words[2:]
            elif words[:1] == ["tidestead"]:
                yield words[1:]


@pytest.mark.parametrize("page", PAGES, ids=named)
def test_commands_and_their_options_exist(page: Path) -> None:
    for words in commands(page):
        if not words or words[0] == "test":
            continue
        assert words[0] in tidestead.commands, f"{named(page)}: no command {' '.join(words)!r}"
        known = {name for option in tidestead.commands[words[0]].params for name in option.opts}
        asked = {word.split("=")[0] for word in words[1:] if word.startswith("-")} - {"--help", "-h"}
        assert asked <= known, f"{named(page)}: {words[0]} has no {asked - known}"


@pytest.mark.parametrize("page", PAGES, ids=named)
def test_links_lead_somewhere(page: Path) -> None:
    places = (found[1] for found in _LINK.finditer(page.read_text(encoding="utf-8")))
    lost = [place for place in places if "://" not in place and not (page.parent / place).exists()]
    assert not lost, f"{named(page)} links to what is not there: {lost}"


@pytest.mark.parametrize("page", PAGES, ids=named)
def test_pieces_of_a_plan_are_toml(page: Path) -> None:
    for block in fenced(page, "toml"):
        assert tomllib.loads(block), f"{named(page)} shows an empty piece of a plan"


@pytest.mark.parametrize("page", PAGES, ids=named)
def test_pieces_to_add_fit_the_example(page: Path) -> None:
    for block in fenced(page, "toml"):
        named_in = ADDED.match(block)
        if named_in is not None:
            example = (ROOT / "examples" / f"{named_in[1]}.toml").read_text(encoding="utf-8")
            assert loads(example + "\n" + block).plan.vessels


def test_tables_that_pages_speak_of_are_in_the_answer() -> None:
    spoken = {
        name.strip("?")
        for page in PAGES
        for name in re.findall(r"[Tt]able\s+\*\*([^*]+)\*\*", page.read_text(encoding="utf-8"))
    }
    answers = desk.answer(loads(EXAMPLE), ["structure", "flow", "foam"]).values()
    titles = [table.title.lower() for answer in answers for table in answer.tables]
    lost = {name for name in spoken if not any(name.lower() in title for title in titles)}
    assert spoken
    assert not lost, f"{lost} in none of {titles}"


def verdict_of(text: str) -> str:
    return str(desk.answer(loads(text), ["structure"])["structure"].verdict)


def test_first_plan_gets_the_answers_its_page_says() -> None:
    """Unproven while nothing is said of the walls, then sound; a thinner window fails."""
    blocks = list(fenced(ROOT / "docs" / "first-plan.md", "toml"))
    steps = ["\n".join(blocks[:count]) for count in range(1, len(blocks) + 1)]
    assert [verdict_of(step) for step in steps] == ["unproven", "sound", "sound"]
    assert verdict_of(steps[-1].replace('thickness = "40 mm"', 'thickness = "30 mm"')) == "fails"


def test_readme_change_of_a_window_changes_its_verdict() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    shown = next(fenced(ROOT / "README.md", "toml"))
    assert shown in EXAMPLE, "the window shown in the README is not the example's"
    changed = re.search(r"Type `([^`]+)`\s+as its thickness", text)
    assert changed is not None
    thicker = re.sub(r'(?m)^thickness = ".*"', f'thickness = "{changed[1]}"', shown)
    before, after = (
        {
            check.id + check.case: check.verdict
            for check in desk.answer(loads(plan), ["structure"])["structure"].checks
        }
        for plan in (EXAMPLE, EXAMPLE.replace(shown, thicker))
    )
    mended = {name for name in before if before[name] != after[name]}
    assert mended
    assert all(name.startswith("structure.reef.south.long.") for name in mended)
    assert {before[name] for name in mended} == {Verdict.FAILS}
    assert {after[name] for name in mended} == {Verdict.SOUND}


def test_readme_starts_with_the_job_and_shows_both_commands() -> None:
    text = (ROOT / "README.md").read_text(encoding="utf-8")
    heading, job, *_ = text.split("\n\n")
    assert heading == "# Tidestead"
    assert len(job) > 200, "the job is not told in the first paragraph"
    assert job[0].isalpha()
    lines = [line.strip() for block in fenced(ROOT / "README.md", "sh") for line in block.splitlines()]
    assert "python3 start.py" in [line.split("#")[0].strip() for line in lines]
    assert TEST_COMMAND in [line.split("#")[0].strip() for line in lines]


def test_changelog_answers_first_whether_a_number_changes() -> None:
    text = (ROOT / "CHANGELOG.md").read_text(encoding="utf-8")
    for entry in re.split(r"^## ", text, flags=re.MULTILINE)[1:]:
        _, first = entry.split("\n\n", 1)
        assert first.startswith("**Does any number in my design change?**"), entry.splitlines()[0]


def test_ci_runs_the_test_command_of_the_readme() -> None:
    lines = (ROOT / ".ci" / "run").read_text(encoding="utf-8").splitlines()
    assert TEST_COMMAND in [line.strip() for line in lines]


def test_architecture_table_opens_what_exists() -> None:
    text = (ROOT / "docs" / "architecture.md").read_text(encoding="utf-8")
    table = [line for line in text.splitlines() if line.startswith("|")]
    assert table[0].replace(" ", "") == "|Iwanttochange|open|"
    lost = []
    for line in table[2:]:
        paths = re.findall(r"`([^`]+)`", line.rsplit("|", 2)[1])
        assert paths, f"no path in: {line}"
        lost += [path for path in paths if not (ROOT / path).exists()]
    assert not lost


def test_made_pages_are_up_to_date() -> None:
    stale = [
        named(path)
        for path, text in made.pages().items()
        if not path.exists() or path.read_text(encoding="utf-8") != text
    ]
    stale += [named(path) for path in (ROOT / "docs" / "theory").glob("*.md") if path not in made.pages()]
    assert not stale, "Run python tools/made.py; out of date: " + ", ".join(stale)


@pytest.mark.parametrize("name", sorted(tidestead.commands))
def test_every_command_tells_its_purpose(name: str) -> None:
    command = tidestead.commands[name]
    assert isinstance(command, click.Command)
    assert command.help, name
    assert [
        option.name for option in command.params if isinstance(option, click.Option) and not option.help
    ] == []


def test_every_test_folder_of_the_house_is_there() -> None:
    assert {"published", "laws", "agree", "pins", "journeys", "house"} <= {
        path.name for path in TESTS.iterdir()
    }


def test_page_of_keys_tells_the_meaning_of_every_key_of_a_plan() -> None:
    page = made.pages()[ROOT / "docs" / "plan-keys.md"]
    rows = [line.split(" | ") for line in page.splitlines() if line.startswith("| `")]
    assert len(rows) > 150
    assert [row[0] for row in rows if len(row) < 3 or len(row[2].strip(" |")) < 5] == []
    assert "plan-keys.md" in (ROOT / "README.md").read_text(encoding="utf-8")


def test_values_that_the_page_of_keys_shows_are_toml() -> None:
    page = made.pages()[ROOT / "docs" / "plan-keys.md"]
    for line in page.splitlines():
        if line.startswith("| `"):
            for shown in re.findall(r"`([^`]+)`", line.split(" | ")[1]):
                assert shown == "yours:" or tomllib.loads(f"x = {shown.replace(', ...', '')}"), line
