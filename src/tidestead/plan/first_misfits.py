"""Answers to first questions that are good alone but cannot stand beside each other, or say nothing alone."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.core.errors import Fault
from tidestead.plan.first_said import Said
from tidestead.plan.first_sizes import rounded
from tidestead.plan.first_vessel import brim_of

_RISING = (
    ("winter", "summer", "is colder than the mean of the coldest month."),
    ("dark_sun", "bright_sun", "is less sun than in the darkest month."),
    ("cold_spell", "heat_wave", "is colder than the coldest days."),
)
"""Pairs of answers that rise, with what is said where they do not."""
_WATER_WAY = ("pump_flow", "pump_lift", "pipe", "drain")
_NEEDS = {
    "latitude": ("longitude",), "longitude": ("latitude",), "winter": ("summer", "latitude"),
    "summer": ("winter", "latitude"), "dark_sun": ("bright_sun", "latitude"), "bright_sun": ("dark_sun", "latitude"),
    **dict.fromkeys(_WATER_WAY, _WATER_WAY), "needs_head": _WATER_WAY, "heater_count": ("heater",),
}  # fmt: skip
"""Answers that say nothing without others, with those."""
_LEVEL = 0.0005
"""Metres by which two heights may differ and still be the same to a builder. Own choice."""


def lonely(said: Said) -> dict[str, list[Fault]]:
    """Blanks that were left open while another was answered that says nothing without them."""
    found: dict[str, list[Fault]] = {}
    for name, needed in _NEEDS.items():
        for other in needed:
            if said.text(name) and other in said.asked and not said.text(other) and other not in found:
                allowed = f'is left open, but "{said.asked[name].words}" says nothing without it.'
                advice = "Answer both, or leave both open."
                found[other] = [Fault(said.asked[other].words, None, "", allowed, advice)]
    return found


def clashes(said: Said) -> Iterator[tuple[str, Fault]]:
    """Answers that cannot both be so: the blank at which each is told, with what to do."""
    for low, high, words in _RISING:
        one, other = said.size(low), said.size(high)
        if one is not None and other is not None and other < one:
            yield high, answer_fault(said, high, words, "Look at both.")
    yield from _no_slab(said)
    yield from _over_the_sheet(said)


def answer_fault(said: Said, blank: str, allowed: str, advice: str) -> Fault:
    """What is wrong with an answer; one that was picked is told in the words of its choice."""
    asked, text = said.asked[blank], said.text(blank)
    words = next((one.words for one in asked.choices if one.value == text), text)
    return Fault(asked.words, None, f'"{words}"', allowed, advice)


def _no_slab(said: Said) -> Iterator[tuple[str, Fault]]:
    """Anchors need concrete."""
    under = said.text("stands_on")
    if said.text("carried_by") != "anchors" or under in ("", "slab"):
        return
    words = next(one.words for one in said.asked["stands_on"].choices if one.value == under)
    allowed = f"need a slab, and you said that under the vessel is {words}."
    advice = "Pick another way to carry the foot, or a concrete slab under the vessel."
    yield "carried_by", answer_fault(said, "carried_by", allowed, advice)


def _over_the_sheet(said: Said) -> Iterator[tuple[str, Fault]]:
    """A free top edge holds water back only where it lies as high as the water may stand."""
    sill, height, water = (said.size(name) for name in ("sill", "window_height", "water"))
    if said.text("edges") != "free" or sill is None or height is None:
        return
    brim, top = brim_of(said), sill + height
    reach = max(water or 0.0, brim or 0.0)
    if not reach or top >= reach - _LEVEL:
        return
    if water is not None and top < water - _LEVEL:
        level = f"under the water, which stands at {rounded(said, water)}: it would run over the sheet."
    else:
        level = (
            f"under the depth at which it spills over, {rounded(said, reach)}: water would go over the sheet."
        )
    allowed = f"puts the free top edge at {rounded(said, top)} above the floor, {level}"
    advice = f"Make the sheet {rounded(said, reach - top)} higher, or let its top edge lean on a seat or on the rim."
    yield "window_height", answer_fault(said, "window_height", allowed, advice)
