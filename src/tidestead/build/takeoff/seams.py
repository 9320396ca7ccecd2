"""Fabric over joints between the sheets that a coating lies on, where its seams are reinforced."""

from __future__ import annotations

from collections.abc import Iterable

from tidestead.build.takeoff.gathered import Counted, Gathered, Part
from tidestead.build.takeoff.sheeting import Field, Sheeted, joints_up_to
from tidestead.plan.items import Item
from tidestead.plan.model import Vessel


def coated_height(vessel: Vessel) -> float:
    """How far up its walls a coating is carried: to the top of them where nobody says where it ends."""
    lining = vessel.lining
    if vessel.water is None or lining is None or lining.ends_above_water is None:
        return vessel.height
    return min(vessel.height, max(vessel.water + lining.ends_above_water, 0.0))


def seam_fabric(
    gathered: Gathered, vessel: Vessel, part: Part, faces: Iterable[tuple[Field, Sheeted]]
) -> None:
    """Over the joints of the innermost layer of each face, up to where the coating ends."""
    lining = vessel.lining
    if lining is None or lining.kind != "coating" or lining.seams != "reinforced":
        return
    height = coated_height(vessel)
    total = sum(joints_up_to(field, sheets, height) for field, sheets in faces)
    basis = f"joints of its innermost layer up to {gathered.told(height)}, clear openings left out; laps come on top"
    over = Part(part.key, f"fabric over joints of the {part.what}", "")
    gathered.counted(Item("fabric"), total, over, basis, Counted("m", "lining", "lining"))
