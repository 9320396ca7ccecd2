"""Our networks of full pipes, pumps and check valves handed to EPANET, and what it answers."""

from __future__ import annotations

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

from epanet import toolkit

from tidestead.physics.flow import pumps
from tidestead.physics.flow.laws import Link
from tidestead.physics.flow.pipes import PipeLaw
from tidestead.physics.flow.pumps import PowerPumpLaw

EPANET_VISCOSITY = 1.1e-5 * 0.3048**2
"""m2/s of water of 20 degC by which EPANET tells viscosities. Source: its source text, 1.1e-5 ft2/s."""

VISCOSITY = 0.94e-6


@dataclass(frozen=True)
class Circuit:
    """Links with levels and what is put in or taken out."""

    links: tuple[Link, ...]
    fixed: Mapping[str, float]
    injections: Mapping[str, float]


def pipe(name: str, start: str, end: str, length: float, bore: float, k: float = 0.0) -> Link:
    return Link(name, start, end, PipeLaw(length, bore, 1.5e-6, VISCOSITY, k))


def circuit() -> Circuit:
    """A sump, a pump with its check valve, a ring round a display, branches to vessels, an overflow pipe."""
    curve = pumps.power_pump(
        pumps.PumpPoint(0.0, 7.0), pumps.PumpPoint(4e-3, 5.5), pumps.PumpPoint(8e-3, 1.5)
    )
    links = (
        Link("pump", "in", "out", curve, one_way=True),
        pipe("suction", "sump", "in", 0.8, 0.0779, 1.3),
        replace(pipe("check", "out", "riser", 0.4, 0.0525, 2.5), one_way=True),
        pipe("riser", "riser", "top", 2.6, 0.0525, 1.4),
        pipe("ring1", "top", "r1", 1.8, 0.0409, 0.9),
        pipe("ring2", "r1", "r2", 2.2, 0.0409, 0.9),
        pipe("ring3", "r2", "r3", 1.8, 0.0409, 0.9),
        pipe("ring4", "r3", "top", 2.2, 0.0409, 0.9),
        *(pipe(f"jet{at}", f"r{1 + at % 3}", f"j{at}", 0.4 + 0.1 * at, 0.0266, 1.5) for at in range(6)),
        *(pipe(f"out{at}", f"j{at}", "basin", 0.1, 0.0209, 1.0 + 0.1 * at) for at in range(6)),
        pipe("tower", "riser", "tower", 1.1, 0.0266, 6.0),
        pipe("overflow", "basin", "sump2", 3.0, 0.0779, 2.3),
        pipe("drain", "sump2", "sump", 1.0, 0.0973, 1.5),
    )
    return Circuit(links, {"sump": 0.35, "tower": 1.1}, {"r2": -1e-4, "basin": 2e-5})


def written(circuit: Circuit) -> str:
    """The circuit in EPANET's own input format, in litres a second."""
    nodes = {node for link in circuit.links for node in (link.start, link.end)}
    lines = ["[JUNCTIONS]"]
    lines += [
        f"{node} 0 {-circuit.injections.get(node, 0.0) * 1e3!r}"
        for node in sorted(nodes - circuit.fixed.keys())
    ]
    lines += ["[RESERVOIRS]", *(f"{node} {head!r}" for node, head in circuit.fixed.items()), "[PIPES]"]
    curves = ["[CURVES]"]
    turning = ["[PUMPS]"]
    for link in circuit.links:
        law = link.through
        if isinstance(law, PipeLaw):
            status = "CV" if link.one_way else "Open"
            sizes = f"{law.length!r} {law.bore * 1e3!r} {law.roughness * 1e3!r} {law.sum_k!r}"
            lines.append(f"{link.name} {link.start} {link.end} {sizes} {status}")
        elif isinstance(law, PowerPumpLaw):
            turning.append(f"{link.name} {link.start} {link.end} HEAD c{link.name}")
            curves += [
                f"c{link.name} {flow * 1e3!r} {pumps.pump_head(law, flow)!r}" for flow in (0.0, 4e-3, 8e-3)
            ]
    options = ["[OPTIONS]", "Units LPS", "Headloss D-W", f"Viscosity {VISCOSITY / EPANET_VISCOSITY!r}"]
    options += ["Accuracy 1e-8", "Trials 200", "[REPORT]", "Status No", "[END]"]
    return "\n".join([*lines, *turning, *curves, *options])


@dataclass
class Epanet:
    """An EPANET project with a network in it."""

    project: object
    links: Sequence[str]
    nodes: Sequence[str]

    def solve(self) -> None:
        toolkit.solveH(self.project)

    def flows(self) -> dict[str, float]:
        return {
            name: toolkit.getlinkvalue(self.project, toolkit.getlinkindex(self.project, name), toolkit.FLOW)
            / 1e3
            for name in self.links
        }

    def heads(self) -> dict[str, float]:
        return {
            name: toolkit.getnodevalue(self.project, toolkit.getnodeindex(self.project, name), toolkit.HEAD)
            for name in self.nodes
        }

    def close(self) -> None:
        toolkit.close(self.project)
        toolkit.deleteproject(self.project)


def opened(circuit: Circuit, folder: Path) -> Epanet:
    """A project made of the circuit; files of it lie in `folder`."""
    path = folder / "circuit.inp"
    path.write_text(written(circuit), encoding="utf-8")
    project = toolkit.createproject()
    toolkit.open(project, str(path), str(folder / "circuit.rpt"), str(folder / "circuit.out"))
    nodes = sorted({node for link in circuit.links for node in (link.start, link.end)})
    return Epanet(project, [link.name for link in circuit.links], nodes)


def grid(rows: int, columns: int) -> Circuit:
    """A net of pipes of many sizes, a pump across its first mesh, something taken at every third node."""
    sizes = (0.0409, 0.0525, 0.0779)
    links = [
        Link("pump", "n0.0", "n1.1",
             pumps.power_pump(pumps.PumpPoint(0.0, 7.0), pumps.PumpPoint(4e-3, 5.5), pumps.PumpPoint(8e-3, 1.5)),
             one_way=True)
    ]  # fmt: skip
    for row in range(rows):
        for column in range(columns):
            length = 2.0 + 18.0 * abs(math.sin(1.0 + row + 7.0 * column))
            bore = sizes[(row + 2 * column) % 3]
            here = f"n{row}.{column}"
            if row + 1 < rows:
                links.append(pipe(f"v{row}.{column}", here, f"n{row + 1}.{column}", length, bore, 1.0))
            if column + 1 < columns:
                links.append(pipe(f"h{row}.{column}", here, f"n{row}.{column + 1}", length, bore, 0.5))
    taken = {
        f"n{row}.{column}": -1e-5
        for row in range(rows)
        for column in range(columns)
        if (row + column) % 3 == 1
    }
    return Circuit(tuple(links), {"n0.0": 3.0}, taken)
