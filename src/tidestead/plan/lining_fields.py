"""Kinds of value that a lining holds: what a label covers, what coats took, solids of a coating, weight of cloth."""

from __future__ import annotations

from typing import Annotated, TypeAlias

from pydantic import Field, Strict

from tidestead.plan.fields import Typed

_MOST_LAID = 20
"""Coats of one lining: more is a slip."""

LabelRate: TypeAlias = Annotated[
    float, Typed("coverage", least=100.0, most=50_000.0, examples=("6 m2/L", "250 ft2/US gal"))
]
"""A litre that covers less than a tenth of a square metre, or more than fifty of them, is a slip of the unit."""
LaidVolume: TypeAlias = Annotated[
    float, Typed("volume", above=0.0, most=1.0, examples=("4.5 L", "1.2 US gal"))
]
LaidVolumes: TypeAlias = Annotated[tuple[LaidVolume, ...], Strict(False), Field(max_length=_MOST_LAID)]
Solids: TypeAlias = Annotated[float, Typed("ratio", least=0.05, most=1.0, examples=("60 %",))]
"""By volume; a coating with less than a twentieth of them is a slip."""
ClothWeight: TypeAlias = Annotated[
    float, Typed("mass_per_area", above=0.0, most=2.0, examples=("200 g/m2", "6 oz/yd2"))
]
