"""Alkalinity, calcium and magnesium: what is used, what is given, what water that makes."""

from __future__ import annotations

from dataclasses import dataclass

from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.core.errors import ImpossibleInput
from tidestead.physics.ph import PHScale, on_scale
from tidestead.physics.water import carbonate as chemistry
from tidestead.physics.water import dosing as laws
from tidestead.physics.water.carbonate import Carbonate, Seawater
from tidestead.plan.model import Plan
from tidestead.studies.inputs import Inputs
from tidestead.studies.water.dosing import (
    DoserFacts,
    Limewater,
    brought,
    dosers_of,
    limewater_of,
    per_kg,
)
from tidestead.studies.water.drawn import drawn
from tidestead.studies.water.nutrients import NutrientFacts
from tidestead.studies.water.reactors import Flows, ReactorFacts, holding_flows, reactors_of
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.spans import DAY, GRAMS, NOTHING, ends, summed, three

CALCIUM, MAGNESIUM, CHALK = 40.078, 24.305, 100.087
"""g/mol of calcium, magnesium and calcium carbonate. Source: IUPAC standard atomic weights."""

SILENT_PH = 'write what the meter says with its scale: water.ph, such as "8.2 NBS"'
SILENT_ALKALINITY = 'write what is kept: water.alkalinity, such as "8 dKH"'


@dataclass(frozen=True)
class Used:
    """What goes in a day: alkalinity mol (all, by corals, by nitrification), calcium and magnesium g.

    `measured` says that the plan tells it, which holds what nitrification takes; `calcium_measured` that it tells the
    calcium.
    """

    alkalinity: Estimate
    corals: Estimate
    nitrification: Estimate
    calcium: Estimate
    magnesium: Estimate
    measured: bool
    calcium_measured: bool
    unsized: tuple[str, ...]

    def calcium_to_give(self, near: float) -> tuple[float, bool]:
        """Grams a day to aim at, and whether it lies as near as `near` (a share) to all that may be used.

        The likely use where that does; else the middle of what does; the likely use where nothing does.
        """
        least, most = (1.0 - near) * self.calcium.high, (1.0 + near) * self.calcium.low
        if least <= self.calcium.likely <= most:
            return self.calcium.likely, True
        return ((least + most) / 2.0, True) if least <= most else (self.calcium.likely, False)


@dataclass(frozen=True)
class System:
    """The water's carbonate: solved at the pH told, and a meter's error to either side; `why` where it cannot be."""

    water: Seawater | None
    middle: Carbonate | None
    aragonite: Estimate | None
    scales: tuple[tuple[str, float], ...]
    why: str = ""


@dataclass(frozen=True)
class AlkalinityFacts:
    """Alkalinity mol/m3 (meq/L), amounts a day in mol and g, volumes m3.

    `given` is what bottles, limewater and reactors bring a day (alkalinity, calcium, magnesium), `changes` what
    changes bring (below nothing where they take). `hold` is stock to give a day so that the alkalinity is held, by
    doser, m3/day; `hold_calcium` the same for calcium; `hold_flow` and `hold_flow_calcium` the flow through each
    reactor that would do it, m3/day. `ceiling` is the most that limewater can bring if all top-off were that.
    """

    volume: float
    used: Used
    given: tuple[Estimate, Estimate, Estimate]
    changes: tuple[float, float]
    dosers: tuple[DoserFacts, ...]
    lime: Limewater | None
    ceiling: Estimate | None
    hold: tuple[tuple[str, float], ...]
    hold_calcium: tuple[tuple[str, float], ...]
    reactors: tuple[ReactorFacts, ...]
    hold_flow: Flows
    hold_flow_calcium: Flows
    system: System
    sharing: tuple[str, ...]


def alkalinity_of(inputs: Inputs, setting: Setting, nutrients: NutrientFacts) -> AlkalinityFacts:
    """Everything that calcifiers ask for, and what they get."""
    plan = inputs.plan
    used = _used(plan, setting, nutrients)
    system = _system(plan, setting)
    dosers = dosers_of(plan, setting, system.water, system.middle)
    lime = limewater_of(plan, setting)
    reactors = reactors_of(plan, setting, _held(plan, setting)[0])
    given = brought(dosers, lime, reactors)
    changes = _changes(plan, setting, nutrients)
    alkaline = [one for one in dosers if one.alkaline]
    chalky = [one for one in dosers if one.has_calcium]
    wanted, wanted_calcium = _wanted(used, given, changes, dosers)
    by_flow = _wanted(used, given, changes, reactors)
    dissolved = by_flow[1] / float(laws.calcium_with_alkalinity(1.0))
    return AlkalinityFacts(
        setting.volume,
        used,
        given,
        changes,
        dosers,
        lime,
        _ceiling(plan, setting),
        tuple((one.key, wanted / len(alkaline) / one.stock.alkalinity) for one in alkaline),
        tuple((one.key, wanted_calcium / len(chalky) / one.stock.calcium) for one in chalky),
        reactors,
        holding_flows(reactors, by_flow[0], setting.volume),
        holding_flows(reactors, dissolved, setting.volume),
        system,
        tuple(dict.fromkeys(one.vessel for one in alkaline if one.vessel in {two.vessel for two in chalky})),
    )


def _wanted(
    used: Used,
    given: tuple[Estimate, ...],
    changes: tuple[float, float],
    own: tuple[DoserFacts, ...] | tuple[ReactorFacts, ...],
) -> tuple[float, float]:
    """Alkalinity (mol) and calcium (g) that these must bring in a day, where all else brings what it does."""
    alkalinity = given[0].likely - sum(one.brings.alkalinity for one in own)
    calcium = given[1].likely - sum(one.brings.calcium for one in own)
    goal, _ = used.calcium_to_give(table("water_limits")["carbonate"].si("calcium_near"))
    return (
        max(used.alkalinity.likely - changes[0] - alkalinity, 0.0),
        max(goal - changes[1] - calcium, 0.0),
    )


def _used(plan: Plan, setting: Setting, nutrients: NutrientFacts) -> Used:
    """By your own reading, else by the ground that corals cover and by what nitrate takes."""
    row = table("water_limits")["calcifiers"]
    nitrification = nutrients.alkalinity or NOTHING
    inside = {key: one for key, one in plan.corals.items() if one.vessel in setting.volumes}
    area = sum(one.area or 0.0 for one in inside.values())
    grown = three(row, "growth", DAY * GRAMS).times(
        area * 2.0 / CHALK, "growth of corals by the ground they cover"
    )
    measured = plan.water.uses_alkalinity is not None
    if measured:
        told = (plan.water.uses_alkalinity or 0.0) * setting.volume
        alkalinity = Estimate.exact(told, "measured")
        corals = Estimate(
            max(told - nitrification.high, 0.0),
            max(told - nitrification.likely, 0.0),
            max(told - nitrification.low, 0.0),
            "measured, less what nitrification takes",
        )
    else:
        alkalinity, corals = summed([grown, nitrification]), grown
    share = three(row, "magnesium", MAGNESIUM / 2.0)
    magnesium = Estimate(
        share.low * corals.low, share.likely * corals.likely, share.high * corals.high, share.basis
    )
    unsized = tuple(key for key, one in inside.items() if one.area is None)
    read = plan.water.uses_calcium
    calcium = corals.times(float(laws.calcium_with_alkalinity(1.0)))
    if read is not None:
        calcium = Estimate.exact(GRAMS * read * setting.volume, "measured")
    return Used(alkalinity, corals, nitrification, calcium, magnesium, measured, read is not None, unsized)


def _held(plan: Plan, setting: Setting) -> tuple[float, float]:
    """Alkalinity (mol/m3) and calcium (kg/m3) of the water; as the sea's where the plan is silent."""
    row, salt = table("water_limits")["carbonate"], setting.sal_psu / 35.0
    return plan.water.alkalinity or row.si("sea") * salt, plan.water.calcium or row.si("sea_calcium") * salt


def _changes(plan: Plan, setting: Setting, nutrients: NutrientFacts) -> tuple[float, float]:
    """Alkalinity (mol) and calcium (g) that new water brings more than the old takes, a day; as the sea's at 35."""
    row, out = table("water_limits")["carbonate"], nutrients.exports
    salt, held = setting.sal_psu / 35.0, _held(plan, setting)
    alkalinity = out.changed * (row.si("sea") * salt - held[0]) - out.lost * held[0]
    calcium = GRAMS * (out.changed * (row.si("sea_calcium") * salt - held[1]) - out.lost * held[1])
    return alkalinity, calcium


def _ceiling(plan: Plan, setting: Setting) -> Estimate | None:
    """Most alkalinity that limewater can bring to the water in a day, mol/m3."""
    fresh = drawn(plan, setting)
    if fresh is None or setting.volume <= 0.0:
        return None
    strength = table("water_limits")["carbonate"].si("limewater")

    def most(daily: float) -> float:
        return float(laws.limewater_ceiling(daily, setting.volume, strength))

    return ends(most, fresh)


def _system(plan: Plan, setting: Setting) -> System:
    """The carbonate at the alkalinity and pH that are kept."""
    if plan.water.ph is None or plan.water.alkalinity is None:
        why = SILENT_PH if plan.water.ph is None else SILENT_ALKALINITY
        return System(None, None, None, scales_of(plan, setting), why)
    calcium = plan.water.calcium
    water = Seawater(
        setting.sal_psu,
        setting.temp_c,
        None if calcium is None else per_kg(GRAMS * calcium / CALCIUM, setting),
    )
    alkalinity = per_kg(plan.water.alkalinity, setting)
    scale, told = PHScale(plan.water.ph.scale), plan.water.ph.value
    error = table("water_limits")["carbonate"].si("meter")
    try:
        low, middle, high = (
            chemistry.from_alkalinity_and_ph(water, alkalinity, told + off, scale)
            for off in (-error, 0.0, error)
        )
    except ImpossibleInput as refused:
        return System(water, None, None, scales_of(plan, setting), str(refused))
    basis = f"pH by a meter good to {error:g}"
    aragonite = Estimate(low.aragonite, middle.aragonite, high.aragonite, basis)
    return System(water, middle, aragonite, scales_of(plan, setting))


def scales_of(plan: Plan, setting: Setting) -> tuple[tuple[str, float], ...]:
    """The kept pH on all four scales."""
    told = plan.water.ph
    if told is None:
        return ()
    read_on = PHScale(told.scale)
    return tuple(
        (scale.value, float(on_scale(told.value, read_on, scale, setting.sal_psu, setting.temp_c)))
        for scale in PHScale
    )
