"""Timber under either set of rules, seen the same way: what a piece may bear, how stiff it is, how it creeps.

Allowable stress design lowers strengths only; Eurocode 5 raises the load too. `load_factor` carries that, so
that a check is always load_factor times what acts against what is allowed.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from tidestead.catalog import Row, table
from tidestead.core.errors import CatalogError
from tidestead.core.source import Known, Source
from tidestead.core.units import Section, parse_section, to_si
from tidestead.physics.structure import eurocode, nds, nds_columns
from tidestead.physics.structure.members import MemberSection, plank_section
from tidestead.physics.structure.nds_fasteners import Moisture
from tidestead.plan.model import Plan, Vessel
from tidestead.studies.structure.limit_steps import LimitSteps, ec_limits, nds_limits
from tidestead.studies.structure.water import Duration

Wood = Literal["dry", "humid", "wet"]

_NDS_DURATION: dict[Duration, str] = {"permanent": "permanent", "weeks": "two_months", "days": "seven_days"}
_EC_DURATION: dict[Duration, str] = {"permanent": "permanent", "weeks": "medium", "days": "short"}
_SERVICE_CLASS: dict[Wood, str] = {"dry": "1", "humid": "2", "wet": "3"}
NDS_SOURCE = Source("AWC, NDS-2018 and Supplement", "4.3 and Table 4A", Known.QUOTED)
EC_SOURCE = Source("EN 1995-1-1 with EN 338:2016", "2.4.1 and Table 1", Known.QUOTED)


@dataclass(frozen=True)
class Setting:
    """The rules a vessel is judged by and how its timber lives."""

    rules: Literal["NDS", "EC5"]
    wood: Wood
    warmest_c: float

    @property
    def wet(self) -> bool:
        """Lumber wetter than 19 %."""
        return self.wood == "wet"

    @property
    def wet_sheet(self) -> bool:
        """Sheet at 16 % moisture or more, which damp air alone brings about."""
        return self.wood != "dry"

    @property
    def moisture(self) -> Moisture:
        """Of a joint made in dry wood."""
        return "wets" if self.wet else "dry"

    @property
    def load_factor(self) -> float:
        return 1.0 if self.rules == "NDS" else factor("ec-gamma-load", "water")

    @property
    def service_class(self) -> str:
        return _SERVICE_CLASS[self.wood]

    @property
    def source(self) -> Source:
        return NDS_SOURCE if self.rules == "NDS" else EC_SOURCE


@dataclass(frozen=True)
class Piece:
    """A timber as used: its section and what it may bear. Stresses in Pa.

    `creep` is the final bow over the bow at once. `column_modulus` is the low modulus for buckling, lowered as the
    compression strength is. `includes` says what safety the limits hold, `limits` how each was made.
    """

    section: Section
    shape: MemberSection
    bending: float
    tension: float
    shear: float
    across: float
    compression: float
    column_modulus: float
    modulus: float
    creep: float
    load_factor: float
    crack_factor: float
    includes: str
    source: Source
    limits: LimitSteps

    @property
    def stiffness(self) -> float:
        """EI against the push, all pieces together."""
        return self.modulus * self.shape.strong


def setting_of(plan: Plan, vessel: Vessel) -> Setting | None:
    """The rules and climate of a vessel; None where the plan does not say which rules."""
    if vessel.timber_rules is None:
        return None
    warmest = vessel.warmest_wood if vessel.warmest_wood is not None else plan.building.warmest_wood
    return Setting(
        vessel.timber_rules, vessel.wood or "wet", warmest if warmest is not None else FALLBACK_WOOD_C
    )


_HOTTEST_C = {"NDS": 65.6, "EC5": 60.0}
"""Wood that stays hotter has no figures. Source: NDS-2018, Table 2.3.3 ends at 150 F; EN 1995-1-1, 1.1.2, from
memory."""


def check_heat(setting: Setting) -> None:
    """Raises CatalogError where the wood stays too hot for the rules to say anything of it."""
    hottest = _HOTTEST_C[setting.rules]
    if setting.warmest_c > hottest:
        both = f"{hottest:g} °C ({9.0 * hottest / 5.0 + 32.0:.0f} °F)"
        raise CatalogError(f"the {setting.rules} rules have no figures for wood that stays over {both}.")


FALLBACK_WOOD_C = to_si(100.0, "degF", "temperature")
"""Taken where the plan is silent: 100 F, up to which neither set of rules takes anything off."""

_TIMBERS_FROM = 0.110
"""Sawn wood of this least side and more is graded as timbers, which have values of their own: 5 in nominal, 4 1/2 in
dressed. Source: NDS Supplement 2018, Tables 4A and 4D, from memory."""

_WIDER = 0.003
"""How much wider than its printed section a grade's piece may measure, metres: wood swells. Own choice."""


def factor(name: str, key: str) -> float:
    """A duration, moisture, creep or partial factor from its table."""
    return table("timber_factors")[name].si(key)


@lru_cache(maxsize=512)
def piece(
    setting: Setting, row: Row, section: Section, duration: Duration, *, repetitive: bool = False
) -> Piece:
    """A timber bent along its depth, under the rules of its vessel.

    Raises CatalogError where the grade belongs to the other set of rules or the wood is too hot for any.
    """
    check_heat(setting)
    if row.tag("basis") != setting.rules:
        raise CatalogError(
            f'grade "{row.name}" is of the {row.tag("basis")} rules, but the vessel is judged by {setting.rules}.'
        )
    shape = plank_section(section.breadth, section.depth, section.pieces)
    if setting.rules == "NDS":
        _check_size(row, section)
        return _nds_piece(setting, row, section, shape, duration, repetitive)
    return _ec_piece(setting, row, section, shape, duration)


def _check_size(row: Row, section: Section) -> None:
    """Raises CatalogError where a grade's values are printed for narrower or thinner pieces than this one."""
    if min(section.breadth, section.depth) > _TIMBERS_FROM:
        raise CatalogError(
            f'grade "{row.name}" is of planks up to 4 in thick; 5 x 5 in and larger are timbers with values of their '
            "own: write them as a row of yours, or take thinner pieces side by side."
        )
    printed = str(row.tag("section", ""))
    if not printed:
        return
    one = parse_section(printed)
    if max(section.breadth, section.depth) > max(one.breadth, one.depth) + _WIDER:
        raise CatalogError(
            f'grade "{row.name}" has the values of {printed}; wider pieces bear less: take the grade of their own size.'
        )


def _nds_piece(
    setting: Setting, row: Row, section: Section, shape: MemberSection, duration: Duration, repetitive: bool
) -> Piece:
    reference = nds.LumberReference(
        row.si("bending"),
        row.si("tension"),
        row.si("shear"),
        row.si("compression_across"),
        row.si("compression"),
        row.si("modulus"),
        row.si("modulus_min"),
    )
    load_duration = nds_duration(duration)
    conditions = nds.NdsConditions(
        duration=load_duration,
        thickness=min(section.graded),
        width=max(section.graded),
        wet=setting.wet,
        temp_c=setting.warmest_c,
        size_in_values=bool(row.tag("size_in_values", False)),
        repetitive=repetitive or section.pieces >= 3,
        flat=section.graded[1] < section.graded[0],
    )
    design = nds.adjusted_lumber(reference, conditions)
    return Piece(
        section,
        shape,
        design.bending,
        design.tension,
        design.shear,
        design.compression_across,
        design.compression,
        design.modulus_min,
        design.modulus,
        factor("nds-creep", "seasoned_dry" if setting.wood == "dry" else "wet"),
        1.0,
        1.0,
        f"allowable stress: load duration {load_duration:g}, {'wet' if setting.wet else 'dry'} service, "
        "the wood at its warmest",
        row.figure("bending").source,
        nds_limits(reference, conditions, design, row.figure("bending").source),
    )


def _ec_piece(
    setting: Setting, row: Row, section: Section, shape: MemberSection, duration: Duration
) -> Piece:
    strength = eurocode.LumberStrength(
        row.si("bending"),
        row.si("tension"),
        row.si("shear"),
        row.si("compression_across"),
        row.si("compression"),
        row.si("modulus"),
        row.si("modulus_fifth"),
        row.si("density_characteristic"),
    )
    lasting = kmod(setting, duration)
    conditions = eurocode.EcConditions(
        kmod=lasting,
        gamma_m=factor("ec-gamma-material", "solid"),
        kdef=factor("ec-kdef-solid", f"class_{setting.service_class}"),
        depth=section.graded[1],
        widest=max(section.graded),
    )
    design = eurocode.design_lumber(strength, conditions)
    return Piece(
        section,
        shape,
        design.bending,
        design.tension,
        design.shear,
        design.compression_across,
        design.compression,
        strength.modulus_fifth * design.compression / strength.compression,
        design.modulus,
        1.0 + conditions.kdef,
        setting.load_factor,
        factor("ec-shape", "crack"),
        f"load times {setting.load_factor:g}, strength times {lasting:g} over {conditions.gamma_m:g}, "
        f"service class {setting.service_class}",
        row.figure("bending").source,
        ec_limits(strength, conditions, design, row.figure("bending").source),
    )


def nds_duration(duration: Duration) -> float:
    """C_D."""
    return factor("nds-duration", _NDS_DURATION[duration])


def kmod(setting: Setting, duration: Duration, material: str = "solid") -> float:
    """k_mod of solid timber or of plywood."""
    return factor(f"ec-kmod-{material}-{setting.service_class}", _EC_DURATION[duration])


def column_strength(setting: Setting, used: Piece, length: float) -> float:
    """Stress along the grain that a strut of this length may bear, about its thinner side."""
    thin = min(used.section.breadth * used.section.pieces, used.section.depth)
    if setting.rules == "NDS":
        buckling = nds_columns.column_buckling_stress(used.column_modulus, length, thin)
        return float(used.compression * nds_columns.column_stability_factor(used.compression, buckling))
    slender = eurocode.relative_slenderness(length, thin, used.compression, used.column_modulus)
    return float(used.compression * eurocode.column_factor(slender))
