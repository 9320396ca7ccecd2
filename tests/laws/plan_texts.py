"""Plan texts for property tests: TOML made so that every key's line is known; and broken plans."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from hypothesis import strategies as st

from tidestead.plan import starter_text

EXAMPLES = tuple(
    path.read_text(encoding="utf-8")
    for path in sorted((Path(__file__).parents[2] / "examples").glob("*.toml"))
)
SOUND = (starter_text("metric"), starter_text("us"), *EXAMPLES)

PRICED = """tidestead = 1
name = "Harbour"
currency = "EUR"
[pumps.return]
power = "150 W"
[heaters.sump]
vessel = "sump"
power = "900 W"
setpoint = "24 degC"
[vessels.sump]
role = "sump"
made = "bought"
shape = "box"
length = "1.8 m"
width = "1.0 m"
height = "0.75 m"
water = "0.45 m"
place = { x = "0 m", y = "0 m", floor = "0 m" }
stands_on = { kind = "slab", slab_thickness = "150 mm", soil = "gravel" }
[rates]
GBP = { worth = "1.17 EUR", dated = "2026-08-30" }
[yours.sheathing.marine]
like = "birch-plywood-18"
[book]
"""
"""A plan whose last table is its price book, still without a row."""

WORDS = st.sampled_from(["a", "b", "walls", "x-1", "under_score", "7", "two words", "dotted.word", "ü", ""])
SCALARS = st.sampled_from(
    [
        '"4 ft 6 in"',
        "'30\"'",
        '""',
        '"a # b"',
        '"\\u00bd in"',
        "1",
        "-2.5",
        "1_000",
        "true",
        "2026-08-03",
        '"]"',
        "'}'",
    ]
)
GAPS = st.sampled_from(["", "\n", "# a remark\n", "\n# [not.a.heading]\n\n", "   \n"])


def spelled(word: str) -> str:
    """A key part as it is written."""
    return word if word.isascii() and word.replace("-", "").replace("_", "").isalnum() else f'"{word}"'


@dataclass
class Made:
    """A TOML text and the line of everything in it."""

    text: str = ""
    lines: dict[tuple[str | int, ...], int] = field(default_factory=dict)
    typed: dict[tuple[str | int, ...], str] = field(default_factory=dict)

    @property
    def here(self) -> int:
        return self.text.count("\n") + 1


@st.composite
def known_texts(draw: st.DrawFn) -> Made:
    """TOML of headings, lists of tables, dotted keys, braces and lists over several lines."""
    made = Made()
    names = draw(st.lists(WORDS, min_size=1, max_size=4, unique=True))
    _pairs(draw, made, (), "root ")
    for at, name in enumerate(names):
        made.text += draw(GAPS)
        several = draw(st.booleans())
        for item in range(draw(st.integers(1, 3)) if several else 1):
            table: tuple[str | int, ...] = (f"t{at}", name, item) if several else (f"t{at}", name)
            made.lines[table] = made.here
            made.lines.setdefault((f"t{at}",), made.here)
            opened, closed = ("[[", "]]") if several else ("[", "]")
            made.text += f"{opened} t{at} . {spelled(name)} {closed} # {name}\n"
            if several:
                made.lines.setdefault(table[:-1], made.here - 1)
            _pairs(draw, made, table, "")
    return made


def _pairs(draw: st.DrawFn, made: Made, table: tuple[str | int, ...], lead: str) -> None:
    for number, word in enumerate(draw(st.lists(WORDS, max_size=4, unique=True))):
        made.text += draw(GAPS)
        parts: tuple[str, ...] = (f"k{number}", lead + word) if draw(st.booleans()) else (lead + word,)
        path = (*table, *parts)
        made.lines[path] = made.here
        made.text += f"{'.'.join(map(spelled, parts))} = "
        begun = len(made.text)
        _value(draw, made, path)
        made.typed[path] = made.text[begun:]
        made.text += draw(st.sampled_from(["", "  ", " # 1.2 m"])) + "\n"


def _value(draw: st.DrawFn, made: Made, path: tuple[str | int, ...], deep: int = 0) -> None:
    kind = draw(st.sampled_from(["scalar", "scalar", "list", "braces", "long"])) if deep < 2 else "scalar"
    if kind == "list":
        made.text += "["
        for item in range(draw(st.integers(0, 3))):
            made.text += draw(st.sampled_from(["", " ", "\n  ", " # one\n"]))
            made.lines[(*path, item)] = made.here
            _value(draw, made, (*path, item), deep + 1)
            made.text += draw(st.sampled_from([",", " ,", "\n,"]))
        made.text += draw(st.sampled_from(["]", " ]", "\n]"]))
    elif kind == "braces":
        made.text += "{"
        for item in range(draw(st.integers(0, 3))):
            made.text += ", " if item else " "
            made.lines[(*path, f"i{item}")] = made.here
            made.text += f"i{item} = "
            _value(draw, made, (*path, f"i{item}"), deep + 1)
        made.text += " }"
    elif kind == "long":
        made.text += draw(st.sampled_from(['"""\nx = [ "1" \n"""', "'''\n[heading]\n'''", '"""a\\\n  b"""']))
    else:
        made.text += draw(SCALARS)


SCRAPS = st.sampled_from(
    [
        '"', "'", '"""', "[", "]", "[[", "{", "}", "=", ",", ".", "#", "\n", "\\", "\t", "\r", "\0", "\x1b",
        "½", "1.2 m", "true", "nan", "= 4\n", "[vessels]\n", "[[vessels]]\n", "vessels = 1\n", "x", " ",
        "-", '"-4 m"', '"9**9**9"', "٣", "\ud7ff", "\U0001f41f", "name = {}\n", "1e999", "\ufeff",
        "[yours.clear.x]\nmodulus = 1\n",
    ]
)  # fmt: skip


@st.composite
def broken_plans(draw: st.DrawFn) -> str:
    """A sound plan with a few cuts, scraps and moved lines in it."""
    text = draw(st.sampled_from(SOUND))
    for _ in range(draw(st.integers(1, 6))):
        at = draw(st.integers(0, len(text)))
        change = draw(st.sampled_from(["scrap", "cut", "twice", "swap"]))
        if change == "scrap":
            text = text[:at] + draw(SCRAPS) + text[at:]
        elif change == "cut":
            text = text[:at] + text[at + draw(st.integers(1, 40)) :]
        else:
            lines = text.split("\n")
            one, other = (draw(st.integers(0, len(lines) - 1)) for _ in range(2))
            if change == "twice":
                lines.insert(other, lines[one])
            else:
                lines[one], lines[other] = lines[other], lines[one]
            text = "\n".join(lines)
    return text
