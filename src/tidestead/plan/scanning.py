"""Cut the text of a plan into its statements, and go on after whatever is not TOML.

The library's TOML reader stops at the first fault and knows no lines. This scanner does not judge values: it
only finds where each statement, key, list item and value stands, and picks itself up after a fault. Whether
the text is TOML is for the reader to say.
"""

from __future__ import annotations

import re
import tomllib
from bisect import bisect_left
from collections.abc import Iterator

from tidestead.core.kept import kept
from tidestead.plan.statements import BARE_KEY, Key, Kind, Mark, Path, Statement, Trouble, dotted, shown

DEEPEST = 24
"""Brackets within brackets, and parts of one dotted key. A plan needs six."""
LONGEST_WORD = 200
"""Characters of one key or of one bare value."""
MOST_TROUBLES = 20
"""Kept for one statement."""
MOST_VALUES = 5_000
"""In one statement."""
_NEAR = 40
"""Lines in which a lost closing bracket is looked for."""

_BLANK = re.compile(r"(?:[ \t\r\n]++|#[^\n]*+)*+")
_BASIC = re.compile(r'"(?:[^"\\\r\n]++|\\[^\r\n])*+"')
_LITERAL = re.compile(r"'[^'\r\n]*+'")
_LONG_BASIC = re.compile(r'"""(?:[^"\\]++|\\[\s\S]|"(?!""))*+"""(?:"{1,2})?')
_LONG_LITERAL = re.compile(r"'''(?:[^']++|'(?!''))*+'''(?:'{1,2})?")
_BARE_VALUE = re.compile(r"[^#\r\n]+")
_BARE_ITEM = re.compile(r"[^,\[\]{}#\"'\r\n=]+")
_PART = r"""(?:[A-Za-z0-9_-]++|"[^"\r\n]*+"|'[^'\r\n]*+')"""
_PAIR = re.compile(rf"[ \t]*+{_PART}(?:[ \t]*+\.[ \t]*+{_PART})*+[ \t]*+=")
_HEADING = re.compile(
    r"[ \t]*\[\[?[ \t]*(?!(?:true|false|inf|nan)\b)[A-Za-z_][\w. \t-]*\]\]?[ \t]*(?:#[^\n]*)?\r?(?:\n|\Z)"
)

_NOT_A_PAIR = "is not of the form key = value."
_ONE_LINE = "is a table in braces that runs over more than one line."


class _Stop(Exception):
    """This statement cannot be followed past `at`."""

    def __init__(self, at: int, allowed: str, advice: str, *, fatal: bool = False) -> None:
        self.at, self.allowed, self.advice, self.fatal = at, allowed, advice, fatal
        super().__init__(allowed)


@kept(at_most=4)
def statements(text: str) -> tuple[Statement, ...]:
    """Every statement of the text, in order."""
    return tuple(_Scanner(text).run())


class _Scanner:
    def __init__(self, text: str) -> None:
        self.text = text
        self.breaks = [match.start() for match in re.finditer("\n", text)]
        self.inner: list[tuple[Path, Mark]] = []
        self.troubles: list[Trouble] = []

    def run(self) -> Iterator[Statement]:
        at = self._blank(0)
        while at < len(self.text):
            self.inner, self.troubles = [], []
            found = self._header(at) if self.text[at] == "[" else self._pair(at)
            yield found
            at = self._blank(found.end)

    # Statements

    def _header(self, start: int) -> Statement:
        double = self.text.startswith("[[", start)
        opened, closed = ("[[", "]]") if double else ("[", "]")
        try:
            key, at = self._key(self._space(start + len(opened)))
        except _Stop as stop:
            return self._junk(start, stop)
        at = self._space(at)
        if self.text.startswith(closed, at):
            end = self._tail(at + len(closed))
        else:
            end = self._line_end(at)
            lost = "]" in self.text[at : min(end, at + LONGEST_WORD)]
            allowed = "is no heading." if lost else f"is a heading that is not closed with {closed}."
            advice = "A name is one word." if lost else f"Write {opened}{dotted(key)}{closed}."
            self._note(start, allowed, advice)
            if lost:
                return self._made("junk", (), start, end, broken=True)
        return self._made("tables" if double else "table", key, start, end)

    def _pair(self, start: int) -> Statement:
        try:
            key, at = self._key(start)
        except _Stop as stop:
            return self._junk(start, stop)
        at = self._space(at)
        end = self._line_end(at)
        if not self.text.startswith("=", at):
            spaced = "=" in self.text[at : min(end, at + LONGEST_WORD)]
            advice = (
                "A key is one word."
                if spaced
                else f'Write {shown(key[-1])} = "...", or put # before a remark.'
            )
            self._note(start, _NOT_A_PAIR, advice)
            return self._made("pair", key, start, end, broken=True)
        value = self._space(at + 1)
        try:
            end = self._tail(self._value(value, (), 0))
        except _Stop as stop:
            self._note(start, stop.allowed, stop.advice)
            bracketed = self.text[value : value + 1] in ("[", "{")
            end = self._recovered(stop.at) if bracketed else self._line_end(stop.at)
            return self._made("pair", key, start, end, broken=True, fatal=stop.fatal)
        return self._made("pair", key, start, end)

    def _junk(self, start: int, stop: _Stop) -> Statement:
        self._note(start, stop.allowed, stop.advice)
        return self._made("junk", (), start, self._line_end(start), broken=True, fatal=stop.fatal)

    def _made(
        self, kind: Kind, key: Key, start: int, end: int, *, broken: bool = False, fatal: bool = False
    ) -> Statement:
        inner = () if broken else tuple(sorted(self.inner, key=_outermost_first))
        return Statement(kind, key, self._line(start), start, end, inner, tuple(self.troubles), broken, fatal)

    # Keys

    def _key(self, at: int) -> tuple[Key, int]:
        parts: list[str] = []
        while True:
            part, at = self._key_part(at)
            parts.append(part)
            if len(parts) > DEEPEST:
                raise _Stop(at, f"has more than {DEEPEST} parts in one key.", "Take it out.", fatal=True)
            dot = self._space(at)
            if not self.text.startswith(".", dot):
                return tuple(parts), at
            at = self._space(dot + 1)

    def _key_part(self, at: int) -> tuple[str, int]:
        text = self.text
        match = BARE_KEY.match(text, at) or _BASIC.match(text, at) or _LITERAL.match(text, at)
        if match is None:
            raise _Stop(at, _NOT_A_PAIR, 'Write key = "1.2 m", or put # before a remark.')
        word = match.group()
        if len(word) > LONGEST_WORD:
            raise _Stop(at, f"has a key of more than {LONGEST_WORD} characters.", "Take it out.", fatal=True)
        if word[0] == "'":
            return word[1:-1], match.end()
        return (_unescaped(word, at) if word[0] == '"' else word), match.end()

    # Values

    def _value(self, at: int, path: Path, depth: int) -> int:
        if depth > DEEPEST:
            raise _Stop(at, f"has brackets more than {DEEPEST} deep.", "Take it out.", fatal=True)
        first = self.text[at : at + 1]
        if first and first in "\"'":
            end = self._string(at)
        elif first == "[":
            end = self._array(at, path, depth)
        elif first == "{":
            end = self._braces(at, path, depth)
        else:
            end = self._bare(at, depth)
        self.inner.append((path, Mark(self._line(at), at, end)))
        if len(self.inner) > MOST_VALUES:
            raise _Stop(end, f"holds more than {MOST_VALUES:,} values.", "Take some out.", fatal=True)
        return end

    def _string(self, at: int) -> int:
        quote = self.text[at]
        if self.text.startswith(quote * 3, at):
            match = (_LONG_BASIC if quote == '"' else _LONG_LITERAL).match(self.text, at)
            where, quote = "closed", quote * 3
        else:
            match = (_BASIC if quote == '"' else _LITERAL).match(self.text, at)
            where = "closed on its line"
        if match is None:
            raise _Stop(at, f"opens a text with {quote} that is not {where}.", f"Close it with {quote}.")
        return match.end()

    def _bare(self, at: int, depth: int) -> int:
        match = (_BARE_ITEM if depth else _BARE_VALUE).match(self.text, at)
        if match is None or not match.group().strip():
            raise _Stop(at, "has no value.", "Write the value, or take the line out.")
        word = match.group().rstrip()
        if len(word) > LONGEST_WORD:
            raise _Stop(at, f"has a value of more than {LONGEST_WORD} characters.", "Write less.", fatal=True)
        return at + len(word)

    def _array(self, start: int, path: Path, depth: int) -> int:
        at, item = self._gap(start, start + 1), 0
        while not self.text.startswith("]", at):
            at = self._gap(start, self._value(at, (*path, item), depth + 1))
            item += 1
            at = self._next_item(start, at, "]")
        return at + 1

    def _braces(self, start: int, path: Path, depth: int) -> int:
        at = self._gap(start, start + 1)
        while not self.text.startswith("}", at):
            key, at = self._key(at)
            at = self._space(at)
            if not self.text.startswith("=", at):
                allowed = "has something in braces that is not of the form key = value."
                raise _Stop(at, allowed, 'Write { key = "1.2 m" }.')
            at = self._gap(start, self._value(self._space(at + 1), (*path, *key), depth + 1))
            comma, at = at, self._next_item(start, at, "}")
            if self.text.startswith(",", comma) and self.text.startswith("}", at):
                self._note(comma, "ends with a comma before }.", "Take the comma out.")
        return at + 1

    def _next_item(self, start: int, at: int, close: str) -> int:
        """Past the comma, to the next item or to the closing bracket."""
        if self.text.startswith(",", at):
            return self._gap(start, at + 1)
        if self.text.startswith(close, at):
            return at
        if self.text[at] in "\"'[{" or _BARE_ITEM.match(self.text, at):
            self._note(at, "has two items with no comma between them.", "Put a comma between the items.")
            return at
        raise _Stop(at, f"opens a bracket that is not closed with {close}.", f"Close it with {close}.")

    def _gap(self, start: int, at: int) -> int:
        """Past blanks, line ends and remarks inside brackets; stops where the bracket was forgotten."""
        braces = self.text[start] == "{"
        close, goes_on = ("}" if braces else "]"), self.text[at - 1] in "{,["
        past = self._blank(at)
        unclosed = f"opens a bracket that is not closed with {close}."
        if past >= len(self.text):
            raise _Stop(start, unclosed, f"Close it with {close}.")
        if self.text.find("\n", at, past) < 0:
            return past
        a_pair = _PAIR.match(self.text, past) and not (braces and goes_on)
        if a_pair or _HEADING.match(self.text, past):
            raise _Stop(self._line_end(start), unclosed, f"Close it with {close}.")
        if braces and all(trouble.allowed != _ONE_LINE for trouble in self.troubles):
            self._note(start, _ONE_LINE, "Put it on one line, or give it a [heading] of its own.")
        return past

    # Places

    def _tail(self, at: int) -> int:
        """The end of the statement's line, where nothing but a remark may follow."""
        at = self._space(at)
        end = self._line_end(at)
        if at < end and self.text[at] != "#":
            rest = shown(self.text[at : min(end, at + LONGEST_WORD)], 30)
            self._note(at, "has something after its end.", f"Take out {rest}, or put # before a remark.")
        return end

    def _recovered(self, at: int) -> int:
        """Where to go on after a value that cannot be followed: past its closing bracket, if that is near."""
        first = end = self._line_end(at)
        for _ in range(_NEAR):
            begin = self.text.find("\n", end) + 1
            if begin == 0 or _PAIR.match(self.text, begin) or _HEADING.match(self.text, begin):
                return end if begin else first
            end = self._line_end(begin)
            if self.text[begin:end].lstrip()[:1] in ("]", "}"):
                return end
        return first

    def _note(self, at: int, allowed: str, advice: str) -> None:
        if len(self.troubles) < MOST_TROUBLES:
            line = self._line(at)
            begin = self.breaks[line - 2] + 1 if line > 1 else 0
            given = shown(self.text[begin : min(self._line_end(at), begin + LONGEST_WORD)])
            self.troubles.append(Trouble(line, given, allowed, advice))

    def _line(self, at: int) -> int:
        return bisect_left(self.breaks, at) + 1

    def _line_end(self, at: int) -> int:
        end = self.text.find("\n", at)
        end = len(self.text) if end < 0 else end
        return end - 1 if end > at and self.text[end - 1] == "\r" else end

    def _space(self, at: int) -> int:
        while self.text[at : at + 1] in (" ", "\t"):
            at += 1
        return at

    def _blank(self, at: int) -> int:
        match = _BLANK.match(self.text, at)
        return match.end() if match else at


def _outermost_first(found: tuple[Path, Mark]) -> tuple[int, int]:
    return found[1].start, len(found[0])


def _unescaped(word: str, at: int) -> str:
    try:
        return next(iter(tomllib.loads(f"{word} = 0")))
    except tomllib.TOMLDecodeError as error:
        raise _Stop(
            at, "has a backslash in its key that stands for nothing.", "Write the key plainly."
        ) from error
