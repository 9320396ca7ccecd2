"""Every fault that the transient runs: what is wrong, what is watched, what is tried against it, who could see it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.plan.water_fields import OnCircuit
from tidestead.studies.faults.case import Case, Leaking
from tidestead.studies.faults.facts import Quantity, Season
from tidestead.studies.faults.waters import Basis
from tidestead.studies.power.facts import Dying

SEASONS: tuple[Season, ...] = ("winter", "summer")
LIFE: tuple[Quantity, ...] = ("oxygen", "cold", "hot", "ammonia")
A_DAY = 24.0
FIVE_DAYS = 5.0 * A_DAY
LONG = 40.0 * A_DAY
FEED_DAYS = 3.0
_DRY = 0.9
"""Share of the nitrogen of protein that ends as ammonia or is eaten again: what decays gives nearly all. Own choice."""

SECONDS = 300.0
SLOW_SECONDS = 1200.0


@dataclass(frozen=True)
class Fault:
    """One fault to run. `row` names its acts; `sees` alarm eyes that see it at once, or `late` by so many hours where a
    battery holds what they watch; `plain` says that whoever looks sees it at once, else only once the level to warn is
    passed. `tries` names what is tried against it, `needs` says why it cannot be run. `alone`: nobody comes, which is
    the fault itself.
    """

    key: str
    row: str
    title: str
    case: Case
    watched: tuple[Quantity, ...]
    part: str = ""
    until: float = FIVE_DAYS
    step: float = SECONDS
    sees: tuple[str, ...] = ()
    late: Mapping[str, float] = field(default_factory=dict)
    plain: bool = True
    dies: frozenset[OnCircuit] = field(default_factory=frozenset)
    tries: tuple[str, ...] = ()
    words: str = ""
    numbers: tuple[tuple[float, str], ...] = ()
    needs: str = ""
    alone: bool = False


def acts_of(fault: Fault) -> tuple[tuple[str, ...], str]:
    """Three acts in their order, and what never to do."""
    row = table("fault_acts")[fault.row]
    acts = row.tag("acts")
    return (acts if isinstance(acts, tuple) else ()), str(row.tag("never"))


def faults_of(basis: Basis) -> Iterator[Fault]:
    """All that the plan lets happen, in the order of the matrix."""
    yield from _power(basis)
    yield from _pumps(basis)
    yield from _warmth(basis)
    yield from _air(basis)
    yield from _fresh_water(basis)
    yield from _losses(basis)
    yield from _life(basis)
    yield from _devices(basis)


def _power(basis: Basis) -> Iterator[Fault]:
    """The mains are gone, by the network or by the main device; batteries that take over by themselves do so."""
    tried: dict[Season, tuple[str, ...]] = {
        "winter": ("air", "pump", "cover", "half"), "summer": ("air", "pump", "half"),
    }  # fmt: skip
    words: dict[Season, str] = {"winter": "winter night", "summer": "summer evening"}
    main = " or main device off" if basis.plan.electrics else ""
    late = dict.fromkeys(("flow", "level"), _held(basis, [OnCircuit("pump", name) for name in _fed(basis)]))
    for season in SEASONS:
        yield Fault(
            f"power-{season}", "power", f"Power cut{main}, {words[season]}", Case(season, cut=True), LIFE,
            sees=("power", "flow", "level"), late=late, tries=tried[season],
        )  # fmt: skip


def _fed(basis: Basis) -> list[str]:
    """Names of the pumps that feed the display."""
    return [name for name, into in basis.feeds.items() if into > 0.0]


def _held(basis: Basis, items: Iterable[OnCircuit]) -> float:
    """Hours for which all of them go on by battery."""
    return min((basis.backed(one) for one in items), default=0.0)


def _pumps(basis: Basis) -> Iterator[Fault]:
    """Each pump that feeds the display, by itself."""
    fed = _fed(basis)
    if not fed:
        why = "the circulation is not known: the answer on flow says what it wants"
        yield Fault("pump", "pump", "Main pump stops", Case("summer"), LIFE, needs=why)
    for name in fed:
        title = "Main pump stops" if len(fed) == 1 else f"Pump {name} stops"
        for season in SEASONS:
            case = Case(season, dead={OnCircuit("pump", name): 0.0})
            yield Fault(
                f"pump.{name}-{season}", "pump", f"{title}, {season}", case, LIFE, f"pumps.{name}",
                sees=("flow", "level"), tries=("air", "half"),
            )  # fmt: skip


def _warmth(basis: Basis) -> Iterator[Fault]:
    plan, known = basis.plan, basis.setting.volumes
    heaters = {key: one for key, one in plan.heaters.items() if one.vessel in known}
    lost = {OnCircuit("heater", key): 0.0 for key in heaters}
    if heaters:
        yield Fault(
            "heater-off", "heater-off", "All heaters fail, winter", Case("winter", dead=lost), ("cold",),
            plain=False, tries=("cover",),
        )  # fmt: skip
        largest = max(heaters, key=lambda key: heaters[key].power)
        yield Fault(
            "heater-on", "heater-on", "Heater stuck on, summer", Case("summer", stuck_on=largest),
            ("hot", "oxygen"), f"heaters.{largest}", plain=False, tries=("split", "air"),
        )  # fmt: skip
    cold = {OnCircuit("chiller", key): 0.0 for key, one in plan.chillers.items() if one.vessel in known}
    if cold:
        yield Fault(
            "chiller", "chiller", "Chiller fails, summer", Case("summer", dead=cold), ("hot", "oxygen"), plain=False,
            tries=("air",),
        )  # fmt: skip


def _air(basis: Basis) -> Iterator[Fault]:
    stops = {OnCircuit("air", key): 0.0 for key in basis.plan.airpumps}
    if stops:
        yield Fault("air", "air", "Air pumps stop", Case("summer", dead=stops), LIFE, tries=("half",))


def _fresh_water(basis: Basis) -> Iterator[Fault]:
    """Floats that stick; what makes up for evaporation."""
    valves = {key: one.top_off for key, one in basis.plan.vessels.items() if one.top_off is not None}
    mains = any(one.stock is None for one in valves.values())
    if valves:
        words = "It is fed from a line: nothing ends it but somebody who shuts it." if mains else ""
        yield Fault(
            "top-off-open", "top-off-open", "Top-off stuck open", Case("winter", top_off="open"), ("fresh", "floor"),
            sees=("level",), plain=False, tries=("stock", "switch"), words=words,
        )  # fmt: skip
    title = "Top-off stuck shut or empty" if valves else "Nobody tops up"
    for season, key in _BOTH:
        yield Fault(
            f"top-off-shut{key}", "top-off-shut", title, Case(season, top_off="shut" if valves else "hold"),
            ("salt", "oxygen"), until=LONG, step=SLOW_SECONDS, plain=False,
        )  # fmt: skip


_BOTH: tuple[tuple[Season, str], ...] = (("winter", ""), ("summer", "-summer"))
"""Seasons of what goes on for weeks, and how its key ends: the one that harms sooner is told."""


def _losses(basis: Basis) -> Iterator[Fault]:
    """Water that runs out, from what can hardly be seen to a burst hose. What empties the sump is soon over."""
    sizes = table("fault_acts")["sizes"]

    def rate(name: str) -> Estimate:
        return Estimate(
            sizes.si(f"{name}_low"), sizes.si(name), sizes.si(f"{name}_high"), "own choice of its size"
        )

    watched: tuple[Quantity, ...] = ("fresh", "floor", "low")
    for key, row, title, body, size in (
        ("leak", "leak", "Slow leak of the display", 0, "slow"),
        ("seal", "seal", "Window seal weeps", 0, "weep"),
        ("foam", "foam", "Fractionator overflows", 1, "foam"),
    ):
        if key == "seal" and not _windows(basis):
            continue
        if key == "foam" and not any(one.role == "fractionator" for one in basis.plan.vessels.values()):
            continue
        yield Fault(
            key, row, title, Case("winter", leaking=Leaking(body, rate(size))), watched,
            until=LONG if body == 0 else FIVE_DAYS, step=SLOW_SECONDS, plain=False,
        )  # fmt: skip
    if basis.sump is not None and basis.feeds:
        yield Fault(
            "hose", "hose", "Hose of the main pump bursts", Case("winter", burst=True), ("floor", "oxygen"),
            sees=("leak", "level", "flow"), step=60.0, until=24.0, tries=("switch",),
        )  # fmt: skip
    else:
        why = "the circulation is not known: the answer on flow says what it wants"
        yield Fault("hose", "hose", "Hose of the main pump bursts", Case("winter"), ("floor",), needs=why)


def _windows(basis: Basis) -> bool:
    return any(wall.windows for wall in basis.plan.vessels[basis.setting.display].walls.values())


def _life(basis: Basis) -> Iterator[Fault]:
    """What eats, breathes and decays."""
    stock, row, plan = basis.stock, table("fault_limits")["stock"], basis.plan
    watched: tuple[Quantity, ...] = ("ammonia", "oxygen")
    why = "" if stock.ammonia is not None else "the plan does not say what is fed: write [feed] with daily"
    yield Fault(
        "filter", "filter", "Filter lost, fed on as usual", Case("summer", no_filter=True, by_hand=True), watched,
        until=LONG, step=SLOW_SECONDS, plain=False, tries=("hungry",), needs=why,
    )  # fmt: skip
    dead = row.si("dead") * stock.mass_now
    nitrogen = 1000.0 * row.si("fish_nitrogen") * dead
    no_fish = "" if dead > 0.0 else "the plan names no fish that live in it now: write [fish.NAME] with mass"
    yield Fault(
        "death", "death", "Fish die and decay",
        Case("summer", decays=(nitrogen, _OXYGEN_OF_FLESH), by_hand=True), watched,
        until=LONG, step=SLOW_SECONDS, plain=False, tries=("air", "hungry"), needs=no_fish,
        words="a fifth of the fish, {}, left lying" if dead > 0.0 else "",
            numbers=((dead, "kg"),) if dead > 0.0 else (),
    )  # fmt: skip
    feed = stock.feed or 0.0
    pulse = table("water_limits")["feed"].si("pulse")
    most = pulse * feed if plan.feed is None or plan.feed.most is None else plan.feed.most
    grams = 1000.0 * 86400.0 * max(most - feed, 0.0) * FEED_DAYS
    food = grams * stock.protein * table("water_limits")["feed"].si("nitrogen") * _DRY
    yield Fault(
        "overfed", "overfed", "Far too much food, three days on end",
        Case("summer", decays=(food, _OXYGEN_OF_FOOD), by_hand=True), watched,
        until=LONG, step=SLOW_SECONDS, plain=False, tries=("air", "hungry"), needs=why,
        words="{} more than usual, left to decay" if grams > 0.0 else "",
            numbers=((grams / 1000.0, "kg"),) if grams > 0.0 else (),
    )  # fmt: skip
    for season, key in _BOTH:
        yield Fault(
            f"absent{key}", "absent", "Nobody comes: no food, no water carried", Case(season, eats=0.0),
            ("salt", "cold", "oxygen", "ammonia"), until=LONG, step=SLOW_SECONDS, plain=False, alone=True,
            words="hunger is not counted: grown fish bear one to two weeks without food by practice",
        )  # fmt: skip


_OXYGEN_OF_FLESH = 16.0
_OXYGEN_OF_FOOD = 15.0
"""Grams of oxygen for each gram of nitrogen as it decays: 2.67 for each gram of carbon, of which a whole fish has 6 (a
seventh of its weight) and food of 45 % protein 5.6 to one of nitrogen. What ammonia takes is counted where the filter
clears it. Worked out, carbon from memory."""


def _devices(basis: Basis) -> Iterator[Fault]:
    """Each breaker and residual-current device; those that let the same things die are one fault."""
    same: dict[frozenset[OnCircuit], list[Dying]] = {}
    for one in basis.power.dying:
        if one.device != "main" and one.items:
            same.setdefault(frozenset(one.items), []).append(one)
    for items, devices in same.items():
        pumps = [item for item in items if item.kind == "pump" and item.name in _fed(basis)]
        dark = any(item.kind in ("pump", "lamp") and basis.backed(item) <= 0.0 for item in items)
        for season in SEASONS:
            yield Fault(
                f"device.{devices[0].key}-{season}", "device", _opened(devices, season),
                Case(season, dead={item: basis.backed(item) for item in items}), LIFE,
                f"electrics.{devices[0].key.partition('.')[0]}",
                sees=("flow", "level") if pumps else (),
                late=dict.fromkeys(("flow", "level"), _held(basis, pumps)), plain=dark, dies=items,
                tries=("air",),
            )  # fmt: skip


def _opened(devices: Sequence[Dying], season: Season) -> str:
    """What opens, the circuit first where it is one alone."""
    circuits = {one.key.partition(".")[0] for one in devices}
    if len(circuits) == 1 and not any(one.shared_with for one in devices):
        names = " or ".join(_DEVICES[one.device] for one in devices)
        return f"Circuit {circuits.pop()} off, {season}: its {names} opens"
    words = " or ".join(one.words for one in devices)
    return f"{words[:1].upper()}{words[1:]} opens, {season}"


_DEVICES: Mapping[str, str] = {"breaker": "breaker", "residual": "residual-current device"}
