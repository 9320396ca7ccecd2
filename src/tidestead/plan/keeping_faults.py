"""Whether water, stock, dosing and power fit the rest: vessels, sources and apparatus that they name are there.

Whether there is power or water enough is for the studies. These work on what could be read, as `shape` does.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from tidestead.catalog.rows import nearest
from tidestead.core.errors import Fault, QuantityError
from tidestead.core.units import Gallon, parse
from tidestead.plan.fields import MOST_ITEMS
from tidestead.plan.lines import Lines
from tidestead.plan.seen import Misfit, Seen
from tidestead.plan.statements import Path, dotted, shown
from tidestead.plan.water_fields import ON_TABLES, OnCircuit, read_on_circuit

_IN_VESSEL = ("fish", "filters", "adsorbers", "harvests", "dosers", "reactors", "airpumps")
"""Tables whose parts say in which vessel they are."""

_ROUNDING = 0.005
"""Share by which one weight typed in two unit systems may differ."""

_LISTS = (("electrics", "feeds"), ("backups", "carries"))


def keeping_faults(values: Mapping[str, Any], lines: Lines, gallon: Gallon) -> list[Fault]:
    """Every name in what keeps the water and in what draws power that the plan does not have."""
    whole = Seen((), values, gallon)
    found = [*_vessels(whole), *_changes(whole), *_items(whole), *_twice(whole), *_shares(whole)]
    found += _shrinking(whole)
    return [
        Fault(dotted(one.path), lines.line(one.path), lines.typed(one.path), one.allowed, one.advice)
        for one in found
    ]


def _vessels(whole: Seen) -> Iterator[Misfit]:
    """What lives, filters, doses and stirs does so in a vessel of the plan."""
    known = _names(whole, "vessels")
    for table in _IN_VESSEL:
        for _, part in whole.parts(table):
            name = part.word("vessel")
            if name and name not in known:
                yield _no_vessel((*part.path, "vessel"), name, known)


def _changes(whole: Seen) -> Iterator[Misfit]:
    """The vat and the source of changes."""
    changes = whole.under("changes")
    vessels, sources = _names(whole, "vessels"), _names(whole, "sources")
    vat, source = changes.word("vat"), changes.word("source")
    if vat and vat not in vessels:
        yield _no_vessel((*changes.path, "vat"), vat, vessels)
    if source and source not in sources:
        allowed = f"names no source; there is no source called {source[:40]}."
        yield Misfit((*changes.path, "source"), allowed, _advice(source, sources, "sources"))


def _no_vessel(path: Path, name: str, known: tuple[str, ...]) -> Misfit:
    allowed = f"names no vessel; there is no vessel called {name[:40]}."
    return Misfit(path, allowed, _advice(name, known, "vessels"))


def _items(whole: Seen) -> Iterator[Misfit]:
    """What hangs on circuits and on what stands in for them is described somewhere."""
    known: dict[str, tuple[str, ...]] = {kind: _names(whole, table) for kind, table in ON_TABLES.items()}
    named = [found for table, key in _LISTS for _, part in whole.parts(table) for found in _read(part, key)]
    named += _read(whole.under("response").under("alarm"), "hangs_on")
    named += [found for _, vessel in whole.parts("vessels") for found in _read(vessel.under("air"), "blower")]
    named += [found for _, part in whole.parts("apparatus") for found in _read(part, "same_as")]
    for path, item in named:
        if item.name not in known[item.kind]:
            yield Misfit(path, f"names no {item.kind} of this plan.", _meant(item, known))


def _meant(item: OnCircuit, known: Mapping[str, tuple[str, ...]]) -> str:
    """The nearest of its kind; else what has that name and is of another kind; else what to add."""
    close = nearest(item.name, known[item.kind], 1)
    if close:
        return f'Did you mean "{item.kind} {close[0]}"?'
    kind = next((one for one, names in known.items() if item.name in names), "")
    if kind:
        return f'Did you mean "{kind} {item.name}"?'
    some = known[item.kind]
    add = f"add [{ON_TABLES[item.kind]}.{item.name}]."
    return f"Write one of {_listed(item.kind, some)}, or {add}" if some else add.capitalize()


def _listed(kind: str, names: tuple[str, ...]) -> str:
    return ", ".join(f'"{kind} {name}"' for name in names[:8])


def _twice(whole: Seen) -> Iterator[Misfit]:
    """A thing hangs on one circuit."""
    seen: dict[OnCircuit, str] = {}
    for name, circuit in whole.parts("electrics"):
        for path, item in _read(circuit, "feeds"):
            if item in seen:
                advice = "One thing hangs on one circuit: describe what hangs on the second under a name of its own."
                yield Misfit(path, f"hangs on circuit {seen[item]} already.", advice)
            seen.setdefault(item, name)


def _shares(whole: Seen) -> Iterator[Misfit]:
    """A residual-current device is shared with another circuit that has one."""
    circuits = dict(whole.parts("electrics"))
    for name, circuit in circuits.items():
        other, path = circuit.word("shares"), (*circuit.path, "shares")
        if not other:
            continue
        if other == name:
            yield Misfit(path, "names the circuit itself.", "Name the other circuit, or take it out.")
        elif other not in circuits:
            allowed = f"names no circuit; there is no circuit called {other[:40]}."
            known = tuple(one for one in circuits if one != name)
            yield Misfit(path, allowed, _advice(other, known, "electrics"))
        elif not circuits[other].has("residual"):
            advice = f'Write electrics.{other}.residual = "30 mA", or name the circuit that has it.'
            yield Misfit(path, f"names circuit {other}, which has no residual-current device.", advice)


def _shrinking(whole: Seen) -> Iterator[Misfit]:
    """Fish that would weigh less once they are grown."""
    for _, fish in whole.parts("fish"):
        now, grown = (_mass(fish, key) for key in ("mass", "grown"))
        if now is not None and grown is not None and grown < now * (1.0 - _ROUNDING):
            mass = shown(str(fish.values["mass"]))
            allowed = f"is less than they weigh now: mass is {mass}."
            advice = "Write what all of them weigh once grown, as much as mass or more, or correct mass."
            yield Misfit((*fish.path, "grown"), allowed, advice)


def _mass(part: Seen, key: str) -> float | None:
    """A good mass in kilograms."""
    text = part.values.get(key)
    try:
        return parse(text, "mass", part.gallon) if isinstance(text, str) else None
    except QuantityError:
        return None


def _read(part: Seen, key: str) -> Iterator[tuple[Path, OnCircuit]]:
    """The items of a key, one or a list, that could be read; the models tell of the others."""
    items = part.values.get(key)
    if isinstance(items, list):
        placed: list[tuple[Path, Any]] = [
            ((*part.path, key, at), one) for at, one in enumerate(items[:MOST_ITEMS])
        ]
    else:
        placed = [((*part.path, key), items)]
    for path, text in placed:
        try:
            item = read_on_circuit(text, part.gallon) if isinstance(text, str) else None
        except QuantityError:
            item = None
        if item is not None:
            yield path, item


def _names(whole: Seen, table: str) -> tuple[str, ...]:
    return tuple(name for name, _ in whole.parts(table))


def _advice(name: str, known: tuple[str, ...], table: str) -> str:
    close = nearest(name, known, 1)
    if close:
        return f'Did you mean "{close[0]}"?'
    return f"There are: {', '.join(known[:20])}." if known else f"Describe it under [{table}.NAME]."
