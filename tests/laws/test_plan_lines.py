"""Every key is found on the line it stands on, whatever the text looks like."""

from __future__ import annotations

import tomllib

from hypothesis import given, settings

from tests.laws.plan_texts import SOUND, Made, known_texts
from tests.many import many
from tidestead.plan.lines import Lines
from tidestead.plan.mending import mend
from tidestead.plan.scanning import statements
from tidestead.plan.statements import dotted, shown


@settings(max_examples=many(150), deadline=None)
@given(known_texts())
def test_every_key_and_item_is_found_on_its_line(made: Made) -> None:
    for text in (made.text, made.text.replace("\n", "\r\n")):
        lines = Lines.of(text)
        assert {path: lines.line(path) for path in made.lines} == made.lines
        for path, typed in made.typed.items():
            mark = lines.marks[path]
            assert text[mark.start : mark.end].replace("\r\n", "\n") == typed


@settings(max_examples=many(150), deadline=None)
@given(known_texts())
def test_a_sound_text_needs_no_mending_and_reads_as_the_library_reads_it(made: Made) -> None:
    parts = statements(made.text)
    mended = mend(made.text, parts)
    assert not any(part.troubles or part.broken or part.fatal for part in parts)
    assert not mended.faults
    assert mended.values == tomllib.loads(made.text)


def test_every_key_of_the_shipped_plans_has_a_line_that_names_it() -> None:
    for text in SOUND:
        lines = Lines.of(text)
        rows = text.split("\n")
        paths = list(_paths(tomllib.loads(text), ()))
        assert len(paths) > 50
        for path in paths:
            word = next(part for part in reversed(path) if isinstance(part, str))
            assert path in lines.marks
            assert word in rows[lines.line(path) - 1]


def _paths(value: object, path: tuple[str | int, ...]) -> list[tuple[str | int, ...]]:
    if isinstance(value, dict):
        return [inner for key, part in value.items() for inner in [(*path, key), *_paths(part, (*path, key))]]
    return []


def test_a_key_that_is_not_there_has_the_line_of_the_table_above_it() -> None:
    lines = Lines.of("a = 1\n\n[b.c]\nd = { e = 2 }\n")
    assert lines.line(("b", "c", "d", "e", "f")) == 4
    assert lines.line(("b", "c", "x")) == 3
    assert lines.line(("z",)) == 1


def test_paths_are_told_as_a_builder_would_write_them() -> None:
    assert dotted(("vessels", "a-b", "ties", "two words", "at", 1)) == 'vessels.a-b.ties."two words".at[2]'


def test_what_is_repeated_to_the_user_cannot_drive_his_terminal() -> None:
    assert shown("a\x1b[31m\x07\nb\u202ec") == "a [31m  b c"
    assert len(shown("x" * 10**6)) == 60
