"""Words that do not belong in the tree: how and where it was made, registries, paths of one machine."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.house.tree import named, text_files

# Written in pieces, so that this file may be read by its own rule.
UNWANTED = [
    "trans" + r"cripts?\b",
    "seed" + " document",
    "practitioner" + ".s talk",
    "sub" + "-?agent",
    r"\bthis" + " session",
    r"\." + "library/",
    "chat" + "gpt|clau" + "de|open" + "ai|anthro" + "pic",
    "py" + r"pi\.org|python" + r"hosted\.org|npm" + r"js\.(org|com)|deb" + r"ian\.org",
    r"(?<![\w.])/(root|home|Users|work|opt/py|opt/wheels)/\w",
    r"[A-Z]:\\Users\\",
    r"(?-i:\bTO" + r"DO\b|\bFIX" + r"ME\b|\bXX" + r"X\b)",
    r"^(<{7}|>{7}|={7})( |$)",
]
PATTERN = re.compile("|".join(f"(?:{word})" for word in UNWANTED), re.IGNORECASE | re.MULTILINE)


def unwanted(text: str) -> list[str]:
    """Lines with an unwanted word, numbered."""
    return [
        f"{number}: {line.strip()}"
        for number, line in enumerate(text.splitlines(), 1)
        if PATTERN.search(line)
    ]


def test_tree_is_free_of_them() -> None:
    found = [
        f"{named(path)}:{line}"
        for path in text_files()
        for line in unwanted(path.read_text(encoding="utf-8", errors="replace"))
    ]
    assert not found, "\n".join(found)


def test_file_names_are_free_of_them() -> None:
    assert not [named(path) for path in text_files() if PATTERN.search(named(path))]


@pytest.mark.parametrize(
    "line",
    [
        "see the Trans" + "cript",
        "written by a sub" + "agent",
        "open(" + '"/wo' + 'rk/x")',
        "https://py" + "pi.org/simple",
        "# TO" + "DO: later",
        "<<<" + "<<<< HEAD",
    ],
)
def test_planted_word_is_found(line: str) -> None:
    assert unwanted("fine\n" + line) == ["2: " + line]


def test_ordinary_words_pass() -> None:
    fine = (
        "the home sheet/home page; the network of pipes; works/fine; workbench; a todo-free text; homework/at"
    )
    assert unwanted(fine) == []


def test_the_tree_is_walked() -> None:
    names = {named(path) for path in text_files()}
    assert {
        "README.md",
        "start.py",
        ".ci/run",
        Path(__file__).relative_to(Path(__file__).parents[2]).as_posix(),
    } <= names
