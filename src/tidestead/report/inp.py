"""The closed pipes of a circulation in EPANET's open input format.

The format knows neither weirs nor open drains: where those begin, the head found there stands as a reservoir. It has
one kind of check valve, without a head that opens it.
"""

from __future__ import annotations

import re

from tidestead.core.pipework import ClosedNetwork, ClosedPipe

_HOURLY = 3600.0
_WATER = 1.1e-5 * 0.3048**2
"""m2/s. Viscosity that the format's figure is a multiple of. Source: L. Rossman et al., EPANET 2.2 User Manual
(2020)."""

_LONGEST = 31
"""Characters of a name."""


class _Names:
    """Names the format can hold: short, without spaces, each once."""

    def __init__(self) -> None:
        self._known: dict[str, str] = {}

    def of(self, name: str) -> str:
        """The same name for the same thing."""
        if name not in self._known:
            short = re.sub(r"[^A-Za-z0-9_.-]+", "_", name)[:_LONGEST]
            taken, number = set(self._known.values()), 1
            fresh = short
            while fresh in taken:
                number += 1
                fresh = f"{short[: _LONGEST - 4]}_{number}"
            self._known[name] = fresh
        return self._known[name]


def inp_text(network: ClosedNetwork) -> str:
    """The whole file: metres, millimetres, m3/h, Darcy and Weisbach."""
    nodes, links = _Names(), _Names()
    parts = [
        ["[TITLE]", _plain(network.title), *_left_out(network)],
        ["[JUNCTIONS]", *(f"{nodes.of(name)} 0 0" for name in network.joints)],
        ["[RESERVOIRS]", *(f"{nodes.of(one.name)} {one.head:.6f}" for one in network.fixed)],
        ["[PIPES]", *(_pipe(pipe, nodes, links) for pipe in network.pipes)],
        ["[PUMPS]"],
        ["[CURVES]"],
        ["[OPTIONS]", *_options(network)],
        ["[END]"],
    ]
    for number, pump in enumerate(network.pumps, start=1):
        ends = f"{nodes.of(pump.start)} {nodes.of(pump.end)}"
        parts[4].append(f"{links.of(pump.name)} {ends} HEAD C{number}")
        parts[5] += [f"C{number} {_HOURLY * flow:.6f} {head:.6f}" for flow, head in _falling(pump.points)]
    return "\n\n".join("\n".join(part) for part in parts) + "\n"


def _falling(points: tuple[tuple[float, float], ...]) -> list[tuple[float, float]]:
    """Points whose head falls: the format takes no two of one head."""
    kept: list[tuple[float, float]] = []
    for flow, head in points:
        if not kept or head < kept[-1][1]:
            kept.append((flow, head))
    return kept


def _plain(title: str) -> str:
    """One line that cannot be taken for a heading or a remark."""
    return re.sub(r"[\[\];\r\n]+", " ", title)[:79].strip() or "plan"


def _left_out(network: ClosedNetwork) -> list[str]:
    if not network.left_out:
        return []
    names = ", ".join(_plain(name) for name in network.left_out)
    return [f"; not closed pipes, left out: {names}"]


def _pipe(pipe: ClosedPipe, nodes: _Names, links: _Names) -> str:
    status = "CLOSED" if pipe.shut else "CV" if pipe.one_way else "OPEN"
    sizes = f"{pipe.length:.6f} {1000.0 * pipe.bore:.6f} {1000.0 * pipe.roughness:.7f} {pipe.k:.6f}"
    return f"{links.of(pipe.name)} {nodes.of(pipe.start)} {nodes.of(pipe.end)} {sizes} {status}"


def _options(network: ClosedNetwork) -> list[str]:
    return [
        "UNITS CMH",
        "HEADLOSS D-W",
        f"VISCOSITY {network.viscosity / _WATER:.6f}",
        "TRIALS 200",
        "ACCURACY 0.000001",
    ]
