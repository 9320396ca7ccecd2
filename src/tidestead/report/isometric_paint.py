"""Colours of a picture in the round: by stuff, or by how much of its limit a part uses; faces shaded by how they lie.

A colour is one role of the palette laid over another and darkened by the lie of the face, so that it follows the
page's own colours, a dark screen and print as the drawings do.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import NamedTuple

from tidestead.core.answer import Verdict
from tidestead.core.scene import Stuff
from tidestead.report.round_uses import PartUse
from tidestead.report.svg_paint import LIGHT

SHADES = (0.0, 0.08, 0.16)
"""How much darker a face is: level, upright to the right, upright to the left."""


class Tint(NamedTuple):
    """A role of the palette laid over another with some strength, how much of what is behind it hides, and a hatch."""

    role: str
    share: float = 1.0
    over: str = "paper"
    opacity: float = 1.0
    line: str = "ink"
    hatch: str = ""
    dashes: str = ""


STUFFS: dict[Stuff, Tint] = {
    "timber": Tint("timberpale", line="timber"),
    "sheet": Tint("sheetpale", line="timber"),
    "clear": Tint("waterpale", opacity=0.5, hatch="glint"),
    "water": Tint("water", 0.22, "waterpale", 0.8, "water"),
    "membrane": Tint("stone", 0.35, "stonepale", line="soft"),
    "ground": Tint("stonepale", line="stone"),
    "metal": Tint("soft"),
    "seal": Tint("soft", 0.5),
    "outline": Tint("paper", opacity=0.35, line="soft", dashes="3 2"),
    "ghost": Tint("paper", opacity=0.2, line="soft", dashes="3 2"),
    "load": Tint("water", opacity=0.28, line="water"),
    "bow": Tint("rustpale", line="rust"),
    "solid": Tint("stonepale"),
    "dashed": Tint("paper", opacity=0.2, line="water"),
    "dotted": Tint("paper", opacity=0.2, line="rust"),
}

WORDS: dict[Stuff, str] = {
    "timber": "timber",
    "sheet": "sheathing",
    "clear": "clear sheet",
    "water": "water",
    "membrane": "lining",
    "ground": "slab or ground",
    "metal": "metal",
    "seal": "seal",
    "outline": "bare shell",
}

LITTLE = 0.5
"""Up to this share of a limit a sound part is drawn paler."""


class Band(NamedTuple):
    """One step of the scale of use: its words and its look."""

    words: str
    tint: Tint


SCALE: dict[str, Band] = {
    "little": Band("sound, up to 50 % used", Tint("water", 0.16)),
    "sound": Band("sound, over 50 % used", Tint("water", 0.5)),
    "near": Band("near its limit", Tint("rust", 0.28, hatch="sparse")),
    "fails": Band("fails", Tint("rust", hatch="dense")),
    "unproven": Band("unproven", Tint("paper", hatch="query")),
    "unjudged": Band("not judged", Tint("stonepale", 0.5, line="stone")),
}


def band_of(use: PartUse | None) -> str:
    """The step of the scale a part stands on."""
    if use is None:
        return "unjudged"
    if use.verdict is Verdict.SOUND:
        return "little" if use.use is not None and use.use <= LITTLE else "sound"
    return use.verdict.value


HATCHES: dict[str, tuple[str, str, float]] = {
    "glint": ("M-2 12L12 -2", "water", 0.5),
    "sparse": ("M-2 12L12 -2", "rust", 0.9),
    "dense": ("M-1 3L3 -1M-1 8L8 -1M3 11L11 3", "paper", 0.55),
    "query": ("M0 0l3 3M3 0l-3 3M5 5l3 3M8 5l-3 3", "soft", 0.8),
}
"""Tiles ten units wide laid over a colour: their lines, the role and the strength of them."""


def hatch_tiles(uid: str) -> str:
    """The hatches as tiles that faces name."""
    return "".join(
        f'<pattern id="{uid}-{name}" patternUnits="userSpaceOnUse" width="10" height="10"><path d="{lines}" '
        f'fill="none" stroke="{LIGHT[role]}" class="s-{role}" stroke-width="0.9" opacity="{strength}"/></pattern>'
        for name, (lines, role, strength) in HATCHES.items()
    )


@dataclass
class Colours:
    """The colours a picture has used so far, each with its rule for browsers."""

    uid: str
    rules: dict[str, str] = field(default_factory=dict)

    def fill(self, tint: Tint, turned: int, more: str = "", *, seamless: bool = False) -> str:
        """Attributes that fill with a tint, with more classes; `seamless` draws its rim in the same colour, for pieces
        of one face.
        """
        shade = SHADES[turned]
        name = _name(tint, turned, seamless)
        colour = _mixed(_mixed(LIGHT[tint.role], LIGHT[tint.over], tint.share), "#000000", 1.0 - shade)
        self.rules[name] = _rule(tint, turned, seamless)
        rim = f' stroke="{colour}" stroke-width="0.7"' if seamless else ""
        through = f' fill-opacity="{tint.opacity}"' if tint.opacity < 1.0 else ""
        return f'fill="{colour}" class="{f"{name} {more}".strip()}"{rim}{through}'

    def style(self) -> str:
        """The rules; viewers without colour variables skip them and keep the attributes."""
        rules = "".join(f".{self.uid} .{name}{{{rule}}}" for name, rule in self.rules.items())
        return f"<style>@supports (fill:color-mix(in srgb,red,blue)){{{rules}}}</style>"


def _name(tint: Tint, turned: int, seamless: bool) -> str:
    return f"k{tint.role}-{tint.over}-{round(100 * tint.share)}-{turned}{'s' if seamless else ''}"


def _rule(tint: Tint, turned: int, seamless: bool) -> str:
    """How a browser mixes the colour from the roles."""
    laid = f"var(--ts-{tint.role})"
    if tint.share < 1.0:
        laid = f"color-mix(in srgb,{laid} {round(100 * tint.share)}%,var(--ts-{tint.over}))"
    if SHADES[turned]:
        laid = f"color-mix(in srgb,{laid} {round(100 * (1.0 - SHADES[turned]))}%,#000)"
    return f"fill:{laid}{f';stroke:{laid}' if seamless else ''}"


def _mixed(one: str, other: str, share: float) -> str:
    """One colour laid over another with a strength."""
    pairs = zip(_parts(one), _parts(other), strict=True)
    return "#" + "".join(f"{round(share * a + (1.0 - share) * b):02x}" for a, b in pairs)


def _parts(colour: str) -> tuple[int, int, int]:
    return int(colour[1:3], 16), int(colour[3:5], 16), int(colour[5:7], 16)
