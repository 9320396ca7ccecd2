"""What is always said with this subject, and what this plan gives cause to say."""

from __future__ import annotations

from tidestead.physics.flow.network import NetworkState
from tidestead.plan.model import Plan
from tidestead.studies.flow.elements import is_guessed
from tidestead.studies.flow.facts import FlowFacts
from tidestead.studies.flow.pump_checks import GUESSED

ALWAYS = (
    "Mains and seawater: pumps on a residual-current device, drip loops in every cable, plugs above the flood line. A "
    "licensed electrician; local codes govern.",
    "Try the power stop with a bucket at hand before anything lives in it: switch off at full flow, wait an hour, mark "
    "the level in the sump, and again with the siphon break taped shut.",
    "A check valve is a help, not a guard: growth and a grain of sand hold it open.",
    "Clean siphon breaks, combs and strainers at every visit; snails and algae do not read plans.",
    "Heads over weirs below about 30 mm (1 3/16 in) lie under the range of every formula printed: the range is shown.",
)


def cautions_of(plan: Plan, facts: FlowFacts) -> tuple[str, ...]:
    """The usual words, then those of this plan."""
    found = list(ALWAYS)
    if any(is_guessed(pump) for pump in plan.pumps.values()):
        found.append(GUESSED)
    if facts.running is not None:
        found += _of_crests(facts.running.state)
    if facts.unparted:
        found.append(
            "Tees carry the resistances printed for their two ways, not those of this flow, which were not found: "
            f"{facts.unparted}."
        )
    stuck = [one.words for one in facts.shutting if not one.dry]
    if stuck:
        found.append(f"These cannot be taken out without water running out of a vessel: {', '.join(stuck)}.")
    for pump in facts.pumps:
        if pump.efficiency is not None and pump.efficiency > 0.6:
            share = f"{100.0 * pump.efficiency:.0f} %"
            found.append(
                f"Pump {pump.name} would put {share} of its power into the water: more than small pumps do. Read its "
                "curve and its watts again."
            )
    idle = (
        [name for name in plan.pumps if name not in {pump.name for pump in facts.pumps}]
        if facts.solved
        else []
    )
    if idle:
        found.append(f"These pumps stand in no circuit: {', '.join(idle)}.")
    return tuple(found)


def _of_crests(state: NetworkState) -> list[str]:
    """What is said of crests with water above them on their far side."""
    found = []
    doubtful = {name.partition("/")[0] for name in state.doubtful}
    drowned = {name.partition("/")[0] for name in state.drowned} - doubtful
    if drowned:
        names = ", ".join(sorted(drowned))
        found.append(
            f"Water stands above the crest on the far side of {names}: it is reckoned as drowned there."
        )
    if doubtful:
        names = ", ".join(sorted(doubtful))
        found.append(
            f"Water stands above the crest on the far side of {names}: what passes there is not to be trusted."
        )
    return found
