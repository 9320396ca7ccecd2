"""What is taken for granted of faults where the plan is silent, and what the runs leave out."""

from __future__ import annotations

from collections.abc import Iterator

from tidestead.catalog import table
from tidestead.core.answer import Assumption
from tidestead.core.source import COMPUTED, PRACTICE
from tidestead.core.units import System, advised
from tidestead.studies.faults.knobs import ACID, HEAT
from tidestead.studies.faults.normal import FALLBACK_PH
from tidestead.studies.faults.waters import SHADE, Basis
from tidestead.studies.light.facts import LightFacts

LEFT_OUT = (
    "Every water is taken as well mixed, in the dark: light gives oxygen by day that is not counted, corners without "
    "flow have less than the mean. A probe and an hour with the pumps off, watched, tell more: write measured.uptake.",
    "What runs back when a pump stops, and how high vessels then stand, is told by the answer on flow.",
    "Levels of harm are judgements for mixed stock; some animals bear less.",
)
"""What is said beside every answer."""

CAUTIONS = (
    "Mains and seawater kill: before a hand goes into the water everything in it is unplugged; sockets, boxes and "
    "leads hang above the floor that may flood; a licensed electrician builds what is fixed; local codes govern.",
    "Run generators outdoors only, far from openings: carbon monoxide has no smell.",
    "Drained sumps, dead sand and filters that stood still give off hydrogen sulphide, which kills and soon cannot be "
    "smelt: air the room first, do not go in alone.",
    "A window that weeps more or bows more than before is a loaded sheet about to fail: keep people away and lower the "
    "water first.",
)


def assumptions_of(basis: Basis, light: LightFacts, system: System) -> Iterator[Assumption]:
    """Every default that was used."""
    plan, row = basis.plan, table("oxygen")
    still, stirred = row["still-surface"], row["stirred-surface"]
    yield Assumption(
        "exchange of a still surface", _speeds(still.si("speed_low"), still.si("speed"), still.si("speed_high")),
        "oxygen through the surface once nothing stirs it", still.figure("speed").source,
    )  # fmt: skip
    yield Assumption(
        "exchange of a stirred surface",
        _speeds(stirred.si("speed_low"), stirred.si("speed"), stirred.si("speed_high")),
        "while the pump runs", stirred.figure("speed").source,
    )  # fmt: skip
    if plan.covers:
        words = f"{100.0 * SHADE.likely:.0f} % ({100.0 * SHADE.low:.0f} to {100.0 * SHADE.high:.0f} %)"
        yield Assumption("what a cover keeps out", words, "of the oxygen that passes the surface", PRACTICE)
    if plan.water.ph is None:
        yield Assumption(
            "water.ph", f"{FALLBACK_PH:g} NBS", "how much ammonia is un-ionised hangs on it", PRACTICE
        )
    yield Assumption(
        "doubt in heat", f"{100.0 * HEAT:.0f} %", "between water and surroundings, either way", PRACTICE
    )
    yield Assumption("doubt in pH", f"{ACID:g}", "either way", PRACTICE)
    if basis.power.missing and not plan.electrics:
        yield Assumption(
            "electrics",
            "every device by itself",
            "which things hang on one breaker is not in the plan",
            COMPUTED,
        )
    for key, one in plan.airpumps.items():
        if one.starts == "battery" and one.lasts is None:
            yield Assumption(
                f"airpumps.{key}.lasts", "0 h", "how long its battery lasts is not in the plan", PRACTICE
            )
    if not light.groups:
        yield Assumption("corals", "none", "only fish and bacteria breathe", PRACTICE)
    sizes = table("fault_acts")["sizes"]
    for name, words in (
        ("slow", "a slow leak"),
        ("weep", "a seal that weeps"),
        ("foam", "foam that runs over"),
    ):
        low, likely, high = (
            advised(sizes.si(f"{name}{end}"), "m3/s", system) for end in ("_low", "", "_high")
        )
        yield Assumption(words, f"{likely} ({low} to {high})", "own choice", PRACTICE)


def _speeds(low: float, likely: float, high: float) -> str:
    return f"{likely * 3600.0:.3g} m/h ({low * 3600.0:.3g} to {high * 3600.0:.3g})"
