"""How the water moves in a run: pumps, what falls back, what runs out, what tops up, each until something stops it."""

from __future__ import annotations

import math

from tidestead.physics.transient.system import FLOOR, Leak, Overflow, Pump, TopOff
from tidestead.plan.water_fields import OnCircuit
from tidestead.studies.faults.case import Case, at_end, held, runs_for
from tidestead.studies.faults.knobs import Knobs
from tidestead.studies.faults.waters import Basis

_A_DAY = 86400.0


def pumps_of(basis: Basis, case: Case, knobs: Knobs) -> list[Pump]:
    """Every pump that feeds the display, for as long as it runs."""
    found = []
    for name, flow in basis.feeds.items():
        if flow > 0.0:
            course = held(runs_for(basis, case, OnCircuit("pump", name)), 1.0, 0.0)
            if case.burst:
                found.append(Pump(1, FLOOR, _open(basis, name, knobs), _draws_to(basis, case), course))
            else:
                found.append(Pump(1, 0, flow, basis.pools[1].intake, course))
    return found


def _open(basis: Basis, name: str, knobs: Knobs) -> float:
    """What a pump throws out of a burst hose, m3/s: as much as into its pipes; at the adverse end all that it can."""
    flow, pump = basis.feeds[name], basis.plan.pumps[name]
    most = max((point.flow * pump.speed for point in pump.curve), default=flow)
    return max(flow, most) if knobs.end("leak") == "adverse" else flow


def _draws_to(basis: Basis, case: Case) -> float:
    """Water of the sump, m3, at which the pumps draw no more: air, or a switch once so much lies on the floor."""
    sump = basis.pools[1]
    if case.switch is None:
        return sump.intake
    return max(sump.intake, sump.volume - case.switch)


def overflows_of(basis: Basis) -> list[Overflow]:
    """What the display holds while it runs is its crest: all above falls back to the sump."""
    if basis.sump is None:
        return []
    return [Overflow(0, 1, basis.display.volume)]


def leaks_of(basis: Basis, case: Case, knobs: Knobs) -> list[Leak]:
    """What runs out of a body, as fast as the knob has it."""
    leaking = case.leaking
    if leaking is None:
        return []
    at = min(leaking.body, len(basis.pools) - 1)
    return [Leak(at, 0.05 * basis.pools[at].volume, at_end(leaking.flow, knobs.end("leak")))]


def top_offs_of(basis: Basis, case: Case) -> list[TopOff]:
    """Every float valve; what it lets into a vessel ends in the sump, which has no way out."""
    found = []
    for number, pool in enumerate(basis.pools):
        for key in pool.keys:
            valve = basis.plan.vessels[key].top_off
            if valve is not None:
                stock = math.inf if valve.stock is None else valve.stock
                stock = stock if case.stock is None else case.stock
                stock = math.inf if case.by_hand else stock
                stock = min(stock, _shut_at(basis, case))
                ends = 1 if basis.sump is not None else number
                holds = basis.pools[ends].volume
                found.append(TopOff(ends, holds, valve.flow, stock, basis.setting.temp_c, mode=case.top_off))
    if case.by_hand and not found:
        ends = len(basis.pools) - 1
        flow = basis.pools[ends].volume / _A_DAY
        found.append(TopOff(ends, basis.pools[ends].volume, flow, math.inf, basis.setting.temp_c))
    return found


def _shut_at(basis: Basis, case: Case) -> float:
    """Fresh water, m3, that runs in until a leak switch shuts it: through a float that sticks up to the brim and what
    lies on the floor then; none after water that a pump has thrown there.
    """
    if case.switch is None:
        return math.inf
    if case.top_off != "open":
        return 0.0
    last = basis.pools[-1]
    return max(last.brim - last.volume, 0.0) + case.switch
