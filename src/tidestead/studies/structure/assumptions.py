"""Every default that was used because the plan is silent, with what to write to override it."""

from __future__ import annotations

from tidestead.core.answer import Assumption
from tidestead.core.source import PRACTICE, STATICS
from tidestead.core.units import show
from tidestead.plan.model import Vessel, Wall
from tidestead.studies.inputs import Inputs
from tidestead.studies.structure.facts import StructureFacts, VesselFacts
from tidestead.studies.structure.fixing_rows import BOLTS_CLOSEST, NAILS_CLOSEST
from tidestead.studies.structure.ground_checks import OWN_SHARE
from tidestead.studies.structure.lining_checks import FALLBACK_HUMIDITY
from tidestead.studies.structure.timber import FALLBACK_WOOD_C
from tidestead.studies.structure.water import FALLBACK_TEST
from tidestead.studies.structure.window_glass import free_edged
from tidestead.studies.vessels import FALLBACK_C, FALLBACK_PSU


def assumptions_of(inputs: Inputs, facts: StructureFacts) -> tuple[Assumption, ...]:
    """Defaults of the plan first, then those of each vessel."""
    plan, system = inputs.plan, inputs.system
    found = []
    if plan.water.salinity is None:
        found.append(
            Assumption("water.salinity", f"{FALLBACK_PSU:g} psu", "the sea's usual salinity", PRACTICE)
        )
    if plan.water.keep is None:
        found.append(
            Assumption(
                "water.keep", show(FALLBACK_C, "degC", system), "water is heaviest when coolest", PRACTICE
            )
        )
    if plan.building.humidity is None:
        low, high = FALLBACK_HUMIDITY
        found.append(
            Assumption(
                "building.humidity", f"{100 * low:g} to {100 * high:g} %", "air beside open water", PRACTICE
            )
        )
    for vessel in facts.built:
        found += _of_vessel(inputs, vessel)
    for name, (bought, _) in facts.bought.items():
        if bought.dry_mass_share is None:
            key, share = f"vessels.{name}.dry_mass_share", f"{100 * OWN_SHARE:g} %"
            found.append(Assumption(key, share, "own mass over its water's", PRACTICE))
    return tuple(found)


def _of_vessel(inputs: Inputs, facts: VesselFacts) -> list[Assumption]:
    key, vessel, system = f"vessels.{facts.subject.key}", facts.subject.vessel, inputs.system
    brim, wood_c = show(vessel.height, "m", system, "level"), show(FALLBACK_WOOD_C, "degC", system)
    warmest = vessel.warmest_wood or inputs.plan.building.warmest_wood
    defaults = (
        (
            vessel.test.lasts if any(case.case.name == "test" for case in facts.cases) else 0.0,
            "test.lasts",
            show(FALLBACK_TEST, "s", system),
            "wood bears less the longer the load stands",
            PRACTICE,
        ),
        (vessel.brim, "brim", brim, "it spills over the wall's top", STATICS),
        (vessel.wood, "wood", "wet", "wood may get and stay wet unless proved otherwise", PRACTICE),
        (warmest, "warmest_wood", wood_c, "no more than this costs no strength", PRACTICE),
        (
            vessel.dry_mass_share,
            "dry_mass_share",
            f"{100 * OWN_SHARE:g} %",
            "own mass over its water's",
            PRACTICE,
        ),
    )
    found = [
        Assumption(f"{key}.{name}", value, why, source)
        for said, name, value, why, source in defaults
        if said is None
    ]
    for name, wall in vessel.walls.items():
        found += _of_wall(f"{key}.walls.{name}", wall)
    found += _of_rows(key, vessel)
    glass = {window.at.path: window for case in facts.cases for window in case.windows}
    return found + [
        Assumption(f"{path}.edge_work", "as cut", "the weakest edge is taken", PRACTICE)
        for path, window in glass.items()
        if window.row.tag("kind") == "glass" and window.window.edge_work is None and free_edged(window.window)
    ]


def _of_rows(key: str, vessel: Vessel) -> list[Assumption]:
    """Joints that pull along the grain and whose rows are not described."""
    joints = {f"ties.{name}.end_joint": tie.end_joint for name, tie in vessel.ties.items()}
    if vessel.corners is not None:
        joints["corners.joint"] = vessel.corners.joint
    if vessel.rings is not None:
        joints["rings.joint"] = vessel.rings.joint
    why = "one row, and the spacing at which a row carries least"
    worst = f"{NAILS_CLOSEST:g} diameters of nails, {BOLTS_CLOSEST:g} of bolts; 4 in by NDS"
    return [
        Assumption(f"{key}.{name}.row_spacing", worst, why, PRACTICE)
        for name, joint in joints.items()
        if (joint.count or 0) > 1 and joint.row_spacing is None
    ]


def _of_wall(key: str, wall: Wall) -> list[Assumption]:
    found = [
        Assumption(f"{key}.windows.{name}.from_left", "centred", "in the middle of its wall", PRACTICE)
        for name, window in wall.windows.items()
        if window.from_left is None
    ]
    if wall.sheathing is not None and "face_grain" not in wall.sheathing.model_fields_set:
        found.append(Assumption(f"{key}.sheathing.face_grain", "across studs", "the strong way", PRACTICE))
    if wall.studs is not None:
        joints = (("top", wall.studs.top), ("foot", wall.studs.foot))
        found += [
            Assumption(f"{key}.studs.{joint}.into", "end", "the weaker is taken", PRACTICE)
            for joint, fixing in joints
            if fixing.fastener is not None and fixing.into is None
        ]
    return found
