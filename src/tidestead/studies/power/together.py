"""What stops together when one device opens, and what hangs on no circuit at all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tidestead.plan.model import Plan
from tidestead.plan.water_fields import OnCircuit
from tidestead.studies.power.facts import DeviceKind, Dying
from tidestead.studies.power.leaking import hung_on

LIFE = ("pump", "air")
"""Kinds without which the water goes short of oxygen first."""
COMFORT = ("heater", "chiller", "lamp")
"""Kinds that leak and trip most; the water stands hours without them."""


def dying_of(plan: Plan) -> tuple[Dying, ...]:
    """One entry for every breaker, every residual-current device and the main device."""
    carried = carried_on(plan)
    found = [*_breakers(plan, carried), *_residuals(plan, carried)]
    if plan.electrics:
        found.append(_dying("supply.main", "the main device", "main", tuple(plan.electrics), plan, carried))
    return tuple(found)


def _breakers(plan: Plan, carried: frozenset[OnCircuit]) -> Iterator[Dying]:
    for key in plan.electrics:
        yield _dying(key, f"the breaker of circuit {key}", "breaker", (key,), plan, carried)


def _residuals(plan: Plan, carried: frozenset[OnCircuit]) -> Iterator[Dying]:
    for key, circuit in plan.electrics.items():
        if circuit.residual is not None:
            words = f"the residual-current device of circuit {key}"
            yield _dying(f"{key}.residual", words, "residual", hung_on(plan, key), plan, carried)


def _dying(
    key: str,
    words: str,
    device: DeviceKind,
    circuits: tuple[str, ...],
    plan: Plan,
    carried: frozenset[OnCircuit],
) -> Dying:
    items = tuple(item for one in circuits for item in plan.electrics[one].feeds)
    others = circuits[1:]
    return Dying(
        key,
        words,
        device,
        items,
        others if device == "residual" else (),
        tuple(item for item in items if item in carried),
    )


def carried_on(plan: Plan) -> frozenset[OnCircuit]:
    """What a battery carries on by itself, whichever device opens."""
    by_battery = (
        item
        for backup in plan.backups.values()
        if backup.kind == "battery" and backup.starts == "by itself"
        for item in backup.carries
    )
    return frozenset((*by_battery, *own_battery(plan)))


def own_battery(plan: Plan) -> tuple[OnCircuit, ...]:
    """Air pumps with a battery of their own."""
    return tuple(OnCircuit("air", name) for name, one in plan.airpumps.items() if one.starts == "battery")


def unfed_of(plan: Plan, things: Iterable[OnCircuit]) -> tuple[OnCircuit, ...]:
    """What draws power and hangs on no circuit."""
    fed = {item for circuit in plan.electrics.values() for item in circuit.feeds}
    return tuple(item for item in things if item not in fed)


def must_run_of(plan: Plan, things: Iterable[OnCircuit]) -> tuple[OnCircuit, ...]:
    """What must go on when the power stops: what says so, and what a backup is there to carry."""
    said = {OnCircuit("device", name) for name, one in plan.devices.items() if one.must_run}
    said |= {item for backup in plan.backups.values() for item in backup.carries}
    return tuple(item for item in things if item in said)


def in_one_basket(dying: Dying) -> bool:
    """Whether what keeps animals breathing stops with what trips most."""
    kinds = {item.kind for item in dying.items if item not in dying.carried}
    return bool(kinds & set(LIFE)) and bool(kinds & set(COMFORT))
