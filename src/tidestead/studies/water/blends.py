"""Two waters of the plan poured together so that they come out as salty as is kept, by the balance of salt."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from tidestead.core.answer import Column, Table, Working
from tidestead.core.units import System, show
from tidestead.physics.water import salts
from tidestead.physics.water.salts import Body
from tidestead.plan.model import Plan
from tidestead.studies.checks import given
from tidestead.studies.judged import step
from tidestead.studies.water.batches import BALANCE
from tidestead.studies.water.setting import Setting
from tidestead.studies.water.waters import Supply, supplies_of, vat_of

_ALIKE = 1e-9
"""Difference of salinity, psu, from which two waters are two."""


@dataclass(frozen=True)
class Blend:
    """So much of a saltier and of a fresher water, m3 as they come, that makes `made`; `weight` and `volume` are the
    shares of the saltier. Where no share does, `why` says so and the rest is nothing.
    """

    saltier: Supply
    fresher: Supply
    made: Body | None = None
    first: float = 0.0
    second: float = 0.0
    weight: float = 0.0
    volume: float = 0.0
    why: str = ""


def blends_of(plan: Plan, setting: Setting) -> tuple[Blend, ...]:
    """Of every pair of sources that differ, for a load of the vat; where there is no vat, for all the water."""
    vat = vat_of(plan)
    amount = setting.volume if vat.missing else vat.volume
    pairs = combinations(supplies_of(plan).values(), 2)
    ordered = (sorted(pair, key=lambda one: -one.sal_psu) for pair in pairs)
    return tuple(
        _blend(one, other, setting, amount)
        for one, other in ordered
        if one.sal_psu - other.sal_psu > _ALIKE and setting.sal_psu > 0.0 and amount > 0.0
    )


def _blend(saltier: Supply, fresher: Supply, setting: Setting, amount: float) -> Blend:
    kept = setting.sal_psu
    if saltier.sal_psu < kept:
        return Blend(
            saltier, fresher, why="none: both are fresher than what is kept; salt mix makes up the rest"
        )
    if fresher.sal_psu > kept:
        return Blend(saltier, fresher, why="none: both are saltier than what is kept; fresh water thins them")
    salty, fresh = Body(1.0, saltier.sal_psu, saltier.temp_c), Body(1.0, fresher.sal_psu, fresher.temp_c)
    mass, other = float(salts.water_mass(salty)), float(salts.water_mass(fresh))
    weight = (kept - fresher.sal_psu) / (saltier.sal_psu - fresher.sal_psu)
    first, second = weight / mass, (1.0 - weight) / other
    one = salts.blend(Body(first, salty.sal_psu, salty.temp_c), Body(second, fresh.sal_psu, fresh.temp_c))
    scale = amount / one.volume
    return Blend(
        saltier,
        fresher,
        Body(amount, one.sal_psu, one.temp_c),
        scale * first,
        scale * second,
        weight,
        first / (first + second),
    )


def blends_table(plan: Plan, setting: Setting, system: System) -> Iterator[Table]:
    """A row for each pair; nothing where all sources are alike."""
    blends = blends_of(plan, setting)
    if not blends:
        return
    words = "all the water" if vat_of(plan).missing else "a load"
    columns = (
        Column("saltier"), Column("fresher"), Column("saltier, by weight", "1", "share"),
        Column("by volume", "1", "share"), Column(f"of it for {words}", "m3"), Column("of the fresher", "m3"),
        Column("comes out at", "degC"), Column("why not"),
    )  # fmt: skip
    rows: tuple[tuple[float | str | None, ...], ...] = tuple(
        (one.saltier.key, one.fresher.key, None, None, None, None, None, one.why)
        if one.made is None
        else (
            one.saltier.key,
            one.fresher.key,
            one.weight,
            one.volume,
            one.first,
            one.second,
            one.made.temp_c,
            "",
        )
        for one in blends
    )
    title = f"Two waters blended to {show(setting.sal_psu, 'psu', system)}"
    note = (
        "Volumes as each water comes. Nothing else is mixed in, and what each brings beside salt (chlorine, nitrate) "
        "comes with it. Measure before use."
    )
    yield Table("water.salt.blends", title, columns, rows, note)


def blend_working(plan: Plan, setting: Setting) -> Iterator[Working]:
    """The first pair that does."""
    one = next((blend for blend in blends_of(plan, setting) if blend.made is not None), None)
    if one is None or one.made is None:
        return
    rho1, rho2 = (
        float(salts.water_mass(Body(1.0, water.sal_psu, water.temp_c)))
        for water in (one.saltier, one.fresher)
    )
    sums = (
        given("S", setting.sal_psu, "psu"),
        given("S1", one.saltier.sal_psu, "psu"),
        given("S2", one.fresher.sal_psu, "psu"),
    )
    mass = float(salts.water_mass(one.made))
    first = (
        given("w", one.weight, "1", "fine"),
        given("M", mass, "kg"),
        given("rho1", rho1, "kg/m3", "fine"),
    )
    second = (
        given("w", one.weight, "1", "fine"),
        given("M", mass, "kg"),
        given("rho2", rho2, "kg/m3", "fine"),
    )
    meaning = f"share by weight of {one.saltier.key}, the rest {one.fresher.key}"
    yield Working(
        "two waters blended: how much of each",
        (
            step("w", meaning, "w = (S - S2)/(S1 - S2)", sums, (one.weight, "1"), BALANCE),
            step("V1", f"of {one.saltier.key}", "V1 = w*M/rho1", first, (one.first, "m3"), BALANCE),
            step("V2", f"of {one.fresher.key}", "V2 = (1 - w)*M/rho2", second, (one.second, "m3"), BALANCE),
        ),
    )
