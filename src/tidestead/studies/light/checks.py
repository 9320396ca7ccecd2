"""Judging a group's light: the darkest month, the brightest, the highest hour, by its band."""

from __future__ import annotations

import math
from dataclasses import replace

from tidestead.core.source import YOURS
from tidestead.plan.model import Plan
from tidestead.studies.checks import At, Limit, above, below, unproven
from tidestead.studies.judged import Judged
from tidestead.studies.light.facts import CoralLight, LightFacts
from tidestead.studies.light.steps import least_steps, most_steps, peak_steps
from tidestead.studies.light.wording import DAY, FLOW, in_months, share_words

SLOWLY = "Change light slowly, over three weeks or more: Acropora millepora took more than 20 days to adapt."
HOPELESS = 1e5
"""Watts of lamps beyond which nothing is proposed: the water is too dim for any."""

_SHADED = (
    "The plan's shade ({share}) counts in the months that it names; drawn by warmth, it is not counted here."
)
_DARKEST = "light, darkest month"
_UNLIT = "The plan's lamps light less than the area of these corals, so that they are not counted for the least light."


def judged(plan: Plan, facts: LightFacts) -> list[Judged]:
    """Every check of every group; where there is none, one that says why."""
    found: list[Judged] = []
    for group in facts.groups:
        at = At(group.key, f"corals {group.key}", "light", f"corals.{group.key}")
        found += [_least(at, group), _harm(at, group), *_most(at, plan, group)]
    for key, why in facts.missing:
        at = At(key, f"corals {key}", "light", f"corals.{key}")
        found.append(Judged(unproven(at, "least", _DARKEST, DAY, why, YOURS)))
    if not found:
        at = At("corals", "corals", "light", "corals")
        why = "the plan names no corals: describe them under [corals.NAME] with kind, vessel and depth"
        found.append(Judged(unproven(at, "least", _DARKEST, DAY, why, YOURS)))
    return found


def _least(at: At, group: CoralLight) -> Judged:
    band = group.band
    limit = Limit(band.least, band.source, "least light of a day, mean of the month, with lamps")
    cautions = (*band.cautions, SLOWLY, *(() if group.lighting.covers else (_UNLIT,)))
    deepest, advice = _part(at, "deepest"), _brighter(group)
    check = above(deepest, "least", _DARKEST, group.least, DAY, limit, advice=advice, cautions=cautions)
    return Judged(check, least_steps(group))


def _harm(at: At, group: CoralLight) -> Judged:
    band = group.band
    limit = Limit(band.harm, band.harm_source, "what harms corals that live by light, for weeks")
    deepest, words = _part(at, "deepest"), "light, darkest month, against harm"
    return Judged(above(deepest, "harm", words, group.least, DAY, limit, advice=_brighter(group)))


def _most(at: At, plan: Plan, group: CoralLight) -> tuple[Judged, Judged]:
    band, shade = group.band, plan.building.shade
    noted = () if shade is None else (_SHADED.format(share=share_words(shade.share)),)
    shallowest, advice = _part(at, "shallowest"), _darker(group)
    limit = Limit(band.most, band.source, "most light of a day, mean of the month, with lamps", near=0.1)
    words = "light, brightest month"
    most = below(shallowest, "most", words, group.most, DAY, limit, advice=advice, cautions=noted)
    top = Limit(band.peak, band.peak_source, "what corals bear in one hour unless led up to it", near=0.1)
    words = "light, highest hour"
    peak = below(shallowest, "peak", words, group.peak, FLOW, top, advice=advice, cautions=noted)
    return Judged(most, most_steps(group)), Judged(peak, peak_steps(group))


def _part(at: At, end: str) -> At:
    return replace(at, words=f"{at.words}, {end}")


def _brighter(group: CoralLight) -> str:
    """What makes up the dark months."""
    missing, power = group.make_up.missing, group.make_up.power
    dark = [month for month in range(12) if group.deep.low[month] < group.band.least or missing[month] > 0.0]
    known = [month for month in range(12) if missing[month] > 0.0]
    if not known:
        return "lamps in the dull months; clearer water; or corals higher up"
    if max(power) > HOPELESS:
        return "clearer water or corals higher up"
    words = "further lamps" if group.lighting.planned else "lamps"
    return (
        f"{words} of about {_watts(group, known):.0f} W in all over these corals, {group.lighting.hours:g} h a day "
        f"{in_months(dark)}; clearer water; or corals higher up"
    )


def _watts(group: CoralLight, known: list[int]) -> float:
    """Power that lifts the least light that may be to what is wanted, in whole tens: by what a watt of the darkest
    month brings in likely water, and as much more as the least light lies under the likely.
    """
    darkest = max(known, key=group.make_up.missing.__getitem__)
    each = group.make_up.power[darkest] / group.make_up.missing[darkest]
    short = max(group.band.least - group.least.low, 0.0)
    worse = min(group.least.likely / max(group.least.low, 1e-6), _WORST)
    return _round_up(each * short * worse)


_WORST = 2.0
"""Times by which light may be less than is likely and still be reckoned with. Own choice."""


def _round_up(watts: float) -> float:
    """To whole tens."""
    return max(10.0, 10.0 * math.ceil(watts / 10.0))


def _darker(group: CoralLight) -> str:
    """What takes the bright months down: shade, and fewer hours of lamps where these make it too much."""
    band, top, natural = group.band, group.top.high, group.natural_top.high
    bright = [month for month, share in enumerate(group.shade) if share > 0.0]
    lit = [month for month in range(12) if natural[month] <= band.most < top[month]]
    ways = []
    bearable = [1.0 - band.least / max(group.deep.low[month], 1e-9) for month in bright]
    if bright and min(bearable) >= max(group.shade[month] for month in bright):
        ways.append(
            f"shade (building.shade with months) that keeps out up to {share_words(max(group.shade))} of the sun "
            f"{in_months(bright)}"
        )
    elif bright:
        ways.append("corals at less different depths, for no one shade suits the shallowest and the deepest")
    if lit:
        ways.append(f"fewer hours of lamps {in_months(lit)}")
    ways += ["corals deeper", "or lead them up to it over weeks"]
    return "; ".join(ways)
