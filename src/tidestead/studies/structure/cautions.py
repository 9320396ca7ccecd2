"""What is always said with this subject."""

from __future__ import annotations

from tidestead.studies.inputs import Inputs
from tidestead.studies.structure.facts import StructureFacts, VesselFacts
from tidestead.studies.structure.frame_facts import AGREE

ALWAYS = (
    "This does not replace a licensed engineer. Local building codes govern; ask whether a permit is needed.",
    "A full vessel is a permanent load that can hurt people: keep them away from a loaded window while it is filled "
    "for the first time, and never work below or before a window that has not been proved.",
    "The floor and the soil under it carry the whole weight for good: have them looked at.",
    "Timber counts as dry only where it is vented and its moisture is measured; otherwise wet factors apply.",
    "Salt eats fasteners: stainless (A4, 316) or hot-dipped steel, and look at them every visit. No mains wiring where "
    "a leak can reach it.",
    "Fill for the first time in steps of a quarter, measure the bow at each, wait, and compare with the table.",
    "Clean acrylic with water and a soft cloth only: solvents craze it. Put a guard along a free top edge.",
)

UNEVEN = (
    "Where two walls that face each other push unequally, as with a window in one of them, the difference bends "
    "both rims over their whole length; a hand formula with ties as fixed props does not see it."
)

STILL = (
    "Still water only: earthquake is not checked, since the plan gives no accelerations (site.earthquake)."
)
SHAKEN = (
    "Earthquake: only the slosh and the tipping of a tower are reckoned here; walls, anchors and ties under it are an "
    "engineer's work."
)


def cautions_of(inputs: Inputs, facts: StructureFacts) -> tuple[str, ...]:
    """The usual words, those of the load, and those of a frame that could not be solved or disagrees."""
    found = [*ALWAYS, STILL if inputs.plan.site.earthquake is None else SHAKEN]
    for vessel in facts.built:
        found += _frame_cautions(vessel)
        found += _cracked_ties(vessel)
        if vessel.level is not None and vessel.level.blocked:
            found.append(
                f"{vessel.subject.key}: no water level mends these: {'; '.join(vessel.level.blocked[:4])}"
                f"{' and more' if len(vessel.level.blocked) > 4 else ''}."
            )
    return tuple(found)


def _cracked_ties(vessel: VesselFacts) -> list[str]:
    """Ties that the plan calls cracked: they are out of the reckoning, and out of sight of the checks."""
    key = vessel.subject.key
    return [
        f"{key}: {'tie' if len(tie.as_built.cracked) == 1 else 'ties'} "
        f"{', '.join(str(number) for number in tie.as_built.cracked)} of {name}, counted from the "
        f"{'west' if tie.across == 'width' else 'south'}, cracked as the plan says: left out here, the rims and the "
        "other ties take the share. Keep away from the long walls, draw the water down and mend it."
        for name, tie in vessel.subject.vessel.ties.items()
        if tie.as_built.cracked
    ]


def _frame_cautions(vessel: VesselFacts) -> list[str]:
    """Where there is no whole frame, and where it and the hand formulas differ."""
    if not vessel.cases:
        return []
    key, service = vessel.subject.key, vessel.cases[0]
    found = []
    if service.frame_missing:
        found.append(f"{key}: no whole frame beside the hand checks: {service.frame_missing}.")
    differ = [name for name, rim in service.rims.items() if rim.apart > AGREE]
    if differ:
        found.append(
            f"{key}: hand formula and whole frame differ by more than {100 * AGREE:.0f} % on the rims "
            f"{', '.join(differ)}; the larger decides. {UNEVEN}"
        )
    return found
