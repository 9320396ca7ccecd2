"""What is taken out of the water for good by granulates that bind phosphate and by algae that are harvested."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from tidestead.catalog import Row, table
from tidestead.core.answer import Estimate
from tidestead.core.source import YOURS, Source
from tidestead.physics.water import binding as laws
from tidestead.plan.model import Plan
from tidestead.plan.model.keeping import Adsorber, Harvest
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import DAY, NOTHING, moved, three

_BINDS = "what a load binds until it is renewed"
_GROWS = "dry part of algae, and what of it is nutrient, each at its ends, as squares"


@dataclass(frozen=True)
class Taking:
    """One load or harvest: weight kg each `every` days, and g P and g N in a day that it can take.

    `shares` are of the weight what is dry (1 for a load), and of that what is phosphorus and nitrogen; `source` says
    who tells them.
    """

    path: str
    mass: float
    every: float
    shares: tuple[Estimate, Estimate, Estimate]
    phosphorus: Estimate
    nitrogen: Estimate
    source: Source


def takings_of(plan: Plan, setting: Setting) -> tuple[Taking, ...]:
    """All that stand in the water that is shared."""
    loads = (_load(key, one) for key, one in plan.adsorbers.items() if one.vessel in setting.volumes)
    cuts = (_cut(key, one) for key, one in plan.harvests.items() if one.vessel in setting.volumes)
    return (*loads, *cuts)


def added(parts: Iterable[Estimate]) -> Estimate:
    """End by end."""
    found = list(parts)
    low, likely, high = (sum(getattr(one, end) for one in found) for end in ("low", "likely", "high"))
    return Estimate(
        low,
        likely,
        high,
        "; ".join(dict.fromkeys(one.basis for one in found if one.basis and one.high > 0.0)),
    )


def algae() -> Row:
    """What harvested algae are made of."""
    return table("water_limits")["algae"]


def wet_share(name: str) -> Estimate:
    """Share of the drained weight of algae that is nitrogen or phosphorus, where nobody has measured either."""

    def share(part: float, content: float) -> float:
        return part * content

    return moved(share, (three(algae(), "dry"), three(algae(), name)), _GROWS, 0.0)


def granulate(kind: str) -> Row:
    """What a granulate binds."""
    return table("water_limits")[kind]


def _load(key: str, one: Adsorber) -> Taking:
    row, every = granulate(one.kind), one.every / DAY
    binds = three(row, "binds") if one.binds is None else Estimate.exact(one.binds)
    low, likely, high = (
        float(laws.bound_phosphorus(one.mass, share, every))
        for share in (binds.low, binds.likely, binds.high)
    )
    bound = Estimate(low, likely, high, _BINDS if one.binds is None else "")
    source = row.figure("binds").source if one.binds is None else YOURS
    whole = Estimate.exact(1.0)
    return Taking(f"adsorbers.{key}", one.mass, every, (whole, binds, NOTHING), bound, NOTHING, source)


def _cut(key: str, one: Harvest) -> Taking:
    every = one.every / DAY
    dry, nitrogen, phosphorus = (
        three(algae(), name) if told is None else Estimate.exact(told)
        for name, told in (("dry", one.dry), ("nitrogen", one.nitrogen), ("phosphorus", one.phosphorus))
    )

    def goes(part: float, content: float) -> float:
        return float(laws.harvested_nutrient(one.mass, part, content, every))

    silent = None in (one.dry, one.nitrogen, one.phosphorus)
    source = algae().figure("phosphorus").source if silent else YOURS
    taken = [moved(goes, (dry, content), _GROWS if silent else "", 0.0) for content in (phosphorus, nitrogen)]
    return Taking(f"harvests.{key}", one.mass, every, (dry, phosphorus, nitrogen), taken[0], taken[1], source)
