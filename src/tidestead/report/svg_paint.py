"""Colours, patterns and style rules of drawings: paper, ink, water, timber, rust.

Every shape carries its light colour as a plain attribute, which any viewer understands. A style sheet on top
lets browsers follow the page's own colours (`--paper` and so on), a dark screen, and print.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from tidestead.core.scene import Stuff

LIGHT = {
    "paper": "#fffdf7",
    "ink": "#1d2a33",
    "soft": "#5b6a72",
    "line": "#cfc8b6",
    "water": "#2f7f8c",
    "waterpale": "#d3e6e6",
    "timber": "#97652c",
    "timberpale": "#ecdcc3",
    "sheetpale": "#f5ecdb",
    "rust": "#a8432a",
    "rustpale": "#f2d9cf",
    "stone": "#8a8475",
    "stonepale": "#e6e1d4",
}
DARK = {
    "paper": "#1c2429",
    "ink": "#e9e4d6",
    "soft": "#a3adb0",
    "line": "#38434a",
    "water": "#6fc0cc",
    "waterpale": "#234048",
    "timber": "#d0a671",
    "timberpale": "#45371f",
    "sheetpale": "#2f2a1f",
    "rust": "#e58a6b",
    "rustpale": "#4a2a20",
    "stone": "#98a0a3",
    "stonepale": "#2b3338",
}

SERIF = "'Source Serif 4', Georgia, 'Times New Roman', serif"
SANS = "'Source Sans 3', 'Segoe UI', 'Helvetica Neue', Arial, sans-serif"


class Paint(NamedTuple):
    """How a stuff is drawn: roles of fill and line, a hatch in place of the fill, and the line itself."""

    fill: str
    line: str
    width: float
    pattern: str = ""
    dashes: str = ""
    opacity: float = 1.0
    word: str = ""


PAINTS: dict[Stuff, Paint] = {
    "timber": Paint("timberpale", "timber", 1.0, "grain", word="timber"),
    "sheet": Paint("sheetpale", "timber", 1.0, "ply", word="sheathing"),
    "clear": Paint("waterpale", "ink", 1.2, "clear", word="clear sheet"),
    "water": Paint("waterpale", "water", 1.5, word="water"),
    "membrane": Paint("none", "ink", 2.4, dashes="9 2 2 2", word="lining"),
    "ground": Paint("stonepale", "stone", 1.2, "earth", word="ground or slab"),
    "metal": Paint("ink", "ink", 0.8, word="metal"),
    "seal": Paint("soft", "soft", 1.0, "cross", word="seal"),
    "outline": Paint("none", "ink", 1.0),
    "ghost": Paint("none", "soft", 1.0, dashes="4 3", word="for comparison"),
    "load": Paint("water", "water", 1.0, opacity=0.28, word="push of the water"),
    "bow": Paint("rustpale", "rust", 1.8, word="bent shape"),
    "solid": Paint("none", "ink", 2.0),
    "dashed": Paint("none", "water", 2.0, dashes="8 4"),
    "dotted": Paint("none", "rust", 2.0, dashes="2 4"),
}


class Hatch(NamedTuple):
    """A tile that repeats: its size, the roles of ground and lines, the lines and their strength."""

    size: tuple[int, int]
    ground: str
    role: str
    lines: str
    opacity: float


HATCHES: Mapping[str, Hatch] = {
    "grain-along": Hatch((26, 9), "timberpale", "timber", "M0 2.2h17M21 2.2h5M4 6.6h22", 0.55),
    "grain-up": Hatch((9, 26), "timberpale", "timber", "M2.2 0v17M2.2 21v5M6.6 4v22", 0.55),
    "ply": Hatch((22, 22), "sheetpale", "timber", "M3 5h7M13 16h7", 0.35),
    "clear": Hatch((16, 16), "waterpale", "water", "M-2 18L18 -2", 0.45),
    "earth": Hatch((18, 18), "stonepale", "stone", "M2 12l6-6M6 14l6-6M10 16l6-6", 0.8),
    "cross": Hatch((5, 5), "paper", "soft", "M0 0l5 5M5 0l-5 5", 1.0),
    "over": Hatch((8, 8), "none", "rust", "M-2 10L10 -2M-2 2L2 -2M6 10L10 6", 0.9),
}
"""As a builder draws them: grain, plies, a thin diagonal for clear sheet, earth; what lies over a limit."""

FIELD_STEP = 0.17
"""Each band of a field is this much of the water colour laid over the bands below it."""


def fill(role: str) -> str:
    """Attributes that fill with the colour of a role."""
    return 'fill="none"' if role == "none" else f'fill="{LIGHT[role]}" class="f-{role}"'


def paint(fill_role: str, line_role: str = "", pattern: str = "", extra: str = "") -> str:
    """Attributes for fill and line; a pattern, named by its full id, takes the place of the fill."""
    classes, parts = [extra] if extra else [], []
    if pattern:
        parts.append(f'fill="url(#{pattern})"')
    elif fill_role == "none":
        parts.append('fill="none"')
    else:
        parts.append(f'fill="{LIGHT[fill_role]}"')
        classes.append(f"f-{fill_role}")
    if line_role:
        parts.append(f'stroke="{LIGHT[line_role]}"')
        classes.append(f"s-{line_role}")
    if classes:
        parts.append(f'class="{" ".join(classes)}"')
    return " ".join(parts)


def style(scope: str) -> str:
    """The style sheet of one drawing. Viewers without colour variables skip it and keep the attributes."""
    light = _variables(LIGHT, own=True)
    dark = _variables(DARK, own=True)
    rules = "".join(
        f".{scope} .f-{role}{{fill:var(--ts-{role})}}.{scope} .s-{role}{{stroke:var(--ts-{role})}}"
        for role in LIGHT
    )
    return (
        f"<style>@supports (fill:var(--ts-ink)){{.{scope}{{{light}}}"
        f"@media screen and (prefers-color-scheme:dark){{.{scope}{{{dark}}}}}"
        f"@media print{{.{scope}{{{_variables(LIGHT, own=False)}}}}}"
        f"{rules}}}.{scope} .serif{{font-family:{SERIF}}}</style>"
    )


def _variables(palette: dict[str, str], own: bool) -> str:
    """The colour of each role; the page's colour of the same name wins where there is one."""
    return "".join(
        f"--ts-{role}:{f'var(--{role},{colour})' if own else colour};" for role, colour in palette.items()
    )


def patterns(uid: str, hatches: Mapping[str, Hatch]) -> str:
    """Hatches as tiles that areas name."""
    return "".join(
        f'<pattern id="{uid}-{name}" patternUnits="userSpaceOnUse" {_size(hatch)}>{_ground(hatch)}'
        f'<path d="{hatch.lines}" {paint("none", hatch.role)} stroke-width="0.8" opacity="{hatch.opacity}"/>'
        "</pattern>"
        for name, hatch in hatches.items()
    )


def _ground(hatch: Hatch) -> str:
    if hatch.ground == "none":
        return ""
    return f"<rect {_size(hatch)} {fill(hatch.ground)}/>"


def _size(hatch: Hatch) -> str:
    return f'width="{hatch.size[0]}" height="{hatch.size[1]}"'
