"""How far flows and levels may lie from what is likely: fittings, part-open valves and guessed pumps differ.

The network is solved again with everything that is uncertain pushed one way, then the other, and for lines that share
a flow with one of them pushed against the rest. The ends found are bounds by corners, not chances: all makers do not
err the same way at once.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from tidestead.core.answer import Estimate
from tidestead.physics.flow.fittings import FittingLaw
from tidestead.physics.flow.laws import Law
from tidestead.physics.flow.pumps import PowerPumpLaw
from tidestead.physics.flow.valves import CheckLaw
from tidestead.plan.model import Plan
from tidestead.studies.flow.elements import Stock
from tidestead.studies.flow.facts import Line, Run, Running
from tidestead.studies.flow.lines import with_laws
from tidestead.studies.flow.solving import Trial, all_tried

SPREAD = 0.3
"""By how much a fitting may differ whose row tells no spread of its own. Source: Hydraulic Institute, as the catalogue
quotes it: 10 to 50 % by kind."""

THROTTLED = 2.0
"""By what factor the resistance of a part-open valve may differ from its table, either way: makes differ by as much.
Source: the catalogue's table of valves."""

GUESSED = 0.2
"""By what share of its greatest head a pump may differ of which only two numbers are known. Source: `parabola_pump`."""

MOST = 8
"""So many lines that share a flow are tried one against the others, the largest first."""

_CARRIES = 1e-4
"""Share of the largest flow from which on a line counts as one that carries."""

Given = Callable[[Running], float]


@dataclass(frozen=True)
class Ranges:
    """The network as it likely runs, and at the corners of what is uncertain. `lost` counts corners not found."""

    likely: Running
    corners: tuple[Running, ...]
    basis: str
    lost: int = 0

    def over(self, find: Given) -> Estimate:
        """Any figure of a solution, with its range. Endless, and so unproven, where a corner was not found."""
        likely = find(self.likely)
        found = [likely, *(find(corner) for corner in self.corners)]
        if self.lost:
            return Estimate(-math.inf, likely, math.inf, "the flow was not found at the ends of its range")
        return Estimate(min(found), likely, max(found), self.basis if len(found) > 1 else "")

    def flow(self, line: str) -> Estimate:
        """Flow of a line."""
        return self.over(lambda running: running.flows[line])

    def inflow(self, vessel: str) -> Estimate:
        """What enters a vessel."""
        return self.over(lambda running: running.inflow.get(vessel, 0.0))

    def level(self, vessel: str) -> Estimate:
        """Surface of a vessel above the datum, without the range of the heads over its crests."""
        return self.over(lambda running: running.levels[vessel])


def ranges_of(
    plan: Plan, stock: Stock, lines: tuple[Line, ...], fixed: Mapping[str, float], running: Running
) -> Ranges:
    """The solutions at the corners of everything uncertain in these lines."""
    stiff = {line.key: pushed(plan, stock, line, 1.0) for line in lines}
    loose = {line.key: pushed(plan, stock, line, -1.0) for line in lines}
    if all(stiff[line.key] is line for line in lines):
        return Ranges(running, (), "")
    sharing = _sharing(lines, fixed, running)
    corners = [
        tuple((stiff if line.key in tight else loose)[line.key] for line in lines)
        for tight in _corners(lines, sharing)
    ]
    solved = all_tried(plan, [Trial(corner, fixed, running.state) for corner in corners])
    found = tuple(one for one in solved if one is not None)
    return Ranges(running, found, _basis(plan, lines, len(sharing)), len(solved) - len(found))


def _sharing(lines: Sequence[Line], fixed: Mapping[str, float], running: Running) -> list[frozenset[str]]:
    """For every line that shares a flow, the lines it shares it with; that with the largest flow first."""
    size = max((abs(flow) for flow in running.flows.values()), default=0.0)
    carrying = [line for line in lines if abs(running.flows[line.key]) > _CARRIES * size]
    shared = [(line, beside) for line in carrying if (beside := _beside(line, carrying, fixed))]
    return [beside for _, beside in sorted(shared, key=lambda one: -abs(running.flows[one[0].key]))]


def _corners(lines: Sequence[Line], sharing: Sequence[frozenset[str]]) -> list[frozenset[str]]:
    """Which lines are stiff, the rest loose: all, none, and each that shares a flow against those it shares it with."""
    every = frozenset(line.key for line in lines)
    found = [every, frozenset[str]()]
    for beside in sharing[:MOST]:
        found += [every - beside, beside]
    return list(dict.fromkeys(found))


def _beside(line: Line, lines: Iterable[Line], fixed: Mapping[str, float]) -> frozenset[str]:
    """Lines that leave from where this one leaves, or join it where it ends; not at a level that is fixed."""
    leaves, joins = _place(line.circuit.start), line.circuit.end
    return frozenset(
        other.key
        for other in lines
        if other is not line
        and (
            (leaves not in fixed and _place(other.circuit.start) == leaves)
            or ("." not in joins and other.circuit.end == joins)
        )
    )


def _place(name: str) -> str:
    """The vessel of a port, or the junction."""
    return name.partition(".")[0]


def _basis(plan: Plan, lines: Sequence[Line], sharing: int) -> str:
    runs = [run for line in lines for run in line.runs]
    words = ["fittings by what makes differ"]
    if any(is_part_open(plan, run) for run in runs):
        words.append("part-open valves by a factor of two")
    if any(_is_guess(run) for run in runs):
        words.append("guessed pump curves by a fifth of their head")
    if sharing > MOST:
        words.append(f"of {sharing} lines that share a flow the {MOST} largest one against the others")
    return ", ".join(words)


def is_part_open(plan: Plan, run: Run) -> bool:
    """Whether a run is a valve that neither stands open nor is shut."""
    return (
        run.item.kind == "valve" and plan.valves[run.item.name].open < 1.0 and isinstance(run.law, FittingLaw)
    )


def _is_guess(run: Run) -> bool:
    """Whether a pump's curve stands on two numbers only: those alone are taken as a power law."""
    return run.item.kind == "pump" and isinstance(run.law, PowerPumpLaw)


def pushed(plan: Plan, stock: Stock, line: Line, way: float, *, but_valves: bool = False) -> Line:
    """The line with all that is uncertain in it stiffer (1) or looser (-1); the same object where nothing is.

    `but_valves` leaves part-open valves as the plan has them.
    """
    laws = {
        id(run.law): law
        for run in line.runs
        if not (but_valves and is_part_open(plan, run)) and (law := _other(plan, stock, run, way)) is not None
    }
    if not laws:
        return line
    return with_laws(line, laws)


def _other(plan: Plan, stock: Stock, run: Run, way: float) -> Law | None:
    """The law at an end of its range; None where the plan or nature knows it."""
    law = run.law
    if _is_guess(run) and isinstance(law, PowerPumpLaw):
        return replace(law, shut_off_head=law.shut_off_head * (1.0 - way * GUESSED))
    if run.item.kind not in ("fitting", "valve"):
        return None
    if isinstance(law, CheckLaw):
        return replace(law, k=law.k * (1.0 + way * SPREAD))
    if not isinstance(law, FittingLaw):
        return None
    if is_part_open(plan, run):
        return replace(law, k=law.k * THROTTLED**way)
    return replace(law, k=law.k + way * _spread(stock, run) * abs(law.k))


def _spread(stock: Stock, run: Run) -> float:
    """What makes of this kind differ by, as a share."""
    rows = stock.tables["fittings"]
    if run.item.kind == "fitting" and run.item.name in rows and rows[run.item.name].has("spread"):
        return rows[run.item.name].si("spread")
    return SPREAD
