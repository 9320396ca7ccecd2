"""Coats of a vessel's lining: how much each takes, and what those that were laid have built."""

from __future__ import annotations

import math
from collections.abc import Generator, Iterator
from dataclasses import dataclass

from tidestead.build.takeoff.findings import Gap, positive, rows_of
from tidestead.build.takeoff.seams import coated_height
from tidestead.build.takeoff.wetted import Inside, built, windows_of
from tidestead.catalog import Row
from tidestead.core.answer import Check, Column, Estimate, Table
from tidestead.core.source import YOURS, Source
from tidestead.core.units import System, show
from tidestead.physics import lining as laws
from tidestead.plan.model import Lining, Plan
from tidestead.studies.checks import At, Limit, above

TRANSFER = Estimate(
    0.85, 0.90, 0.95, "what arrives on the wall by brush and roller; the rest stays in tools and cans"
)
"""Share of a coating that ends up in the film. Common practice, no source."""

TOUCH_UP = 0.05
"""Share of all coats kept for mending. Common practice, no source."""

_ALIKE = 0.05
"""Share by which the label's film may differ from what is required and still agree. Own choice."""

_NEAR = 0.05
"""A film needs no more room than this above what is required, as its check in the structure. Own choice."""


@dataclass(frozen=True)
class CoatPlan:
    """What coats a vessel. `film` is the dry film planned, `required` the least it must reach, m; `area` m2.

    `coats` is 0 where their number is not known. `wet_most` is the wettest a coat may go on, where its row says.
    """

    inside: Inside
    lining: Lining
    row: Row
    area: float
    counted: str
    film: float
    required: float
    required_source: Source
    solids: float
    coats: int
    why: str

    @property
    def key(self) -> str:
        return f"{self.inside.path}.lining"

    @property
    def each(self) -> float:
        """Dry film of one coat."""
        return self.film / max(self.coats, 1)

    @property
    def wet(self) -> float:
        """How wet one coat goes on."""
        return float(laws.wet_for_dry(self.each, self.solids))

    @property
    def wet_most(self) -> float | None:
        return positive(self.row, "wet_film_per_coat_max")

    @property
    def net(self) -> float:
        """Volume of one coat in the film, m3."""
        return float(laws.coat_volume(self.area, self.each, self.solids, 1.0))

    @property
    def volume(self) -> Estimate:
        """Volume of one coat with what stays in tools and cans."""
        return by_transfer(self.net)


@dataclass(frozen=True)
class CoatLaid:
    """One coat that was laid: m3 used, dry film it left and all up to it, m; `too_wet` where it went on too thick."""

    number: int
    used: float
    left: Estimate
    built: Estimate
    too_wet: bool


@dataclass(frozen=True)
class RateTold:
    """The label's rate beside the film: dry film that so many coats by the label leave, and the rate that the film
    asks for, m2/m3. `agrees` where they differ by little; the film governs in any case.
    """

    label: float
    by_label: float
    wanted: float
    agrees: bool

    @property
    def too_thin(self) -> bool:
        """Whether coats spread as far as the label says leave too little."""
        return not self.agrees and self.label > self.wanted


@dataclass(frozen=True)
class CoatsTold:
    """Where a lining stands. `final` is the film once the coats that are still planned are laid as planned; `owed` film
    that lacks now, `volume` coating for it, `coats` how many more that takes at least; `more` laid than planned.
    """

    plan: CoatPlan
    laid: tuple[CoatLaid, ...]
    built: Estimate
    final: Estimate
    owed: Estimate
    volume: Estimate
    coats: int
    more: int
    rate: RateTold | None


def by_transfer(net: float) -> Estimate:
    """A volume in the film with what is lost on the way there."""
    return Estimate(net / TRANSFER.high, net / TRANSFER.likely, net / TRANSFER.low, TRANSFER.basis)


def coat_plans(plan: Plan) -> Iterator[CoatPlan | Gap]:
    """Every vessel of the builder's own that is to be coated."""
    for inside in built(plan):
        if isinstance(inside, Inside):
            lining = inside.vessel.lining
            if lining is not None and lining.kind == "coating":
                yield from coat_plan(plan, inside, lining)


def coat_plan(plan: Plan, inside: Inside, lining: Lining) -> Iterator[CoatPlan | Gap]:
    """What coats one vessel, and what is lacking."""
    path, key = f"{inside.path}.lining", inside.key
    if lining.product is None:
        yield Gap(f"{path}.product", f"Say what {key} is coated with: no litres can be told without.")
        return
    row = rows_of(plan, "linings")[lining.product]
    film, why = _film(lining, row)
    solids = lining.solids if lining.solids is not None else positive(row, "solids_volume")
    if film is None:
        yield Gap(
            f"{path}.dry_film", f"Say how thick the coating of {key} is to be when dry, or how many coats."
        )
    if solids is None or solids > 1.0:
        yield Gap(
            f"{path}.solids",
            f"Say the solids by volume of what {key} is coated with, from its maker's sheet.",
        )
    if film is None or solids is None or solids > 1.0:
        return
    coats = lining.coats or _coats_for(film, row)
    if not coats:
        yield Gap(
            f"{path}.coats", f"Say in how many coats {key} is coated: its litres are one sum until then."
        )
    area, counted = yield from _area(inside, lining, plan)
    if area > 0.0:
        least = positive(row, "dry_film_min") or 0.0
        source = row.figure("dry_film_min").source if least > film else YOURS
        yield CoatPlan(
            inside, lining, row, area, counted, film, max(film, least), source, solids, coats, why
        )  # fmt: skip


def _film(lining: Lining, row: Row) -> tuple[float | None, str]:
    """The dry film that is wanted: as planned, by the coats, else the least that the product's sheet asks for."""
    if lining.dry_film is not None:
        return lining.dry_film, "as planned"
    each, least = positive(row, "dry_film_per_coat"), positive(row, "dry_film_min")
    if lining.coats and each is not None:
        return lining.coats * each, "by the film of a coat"
    return least, "the least that its sheet asks for"


def _coats_for(film: float, row: Row) -> int:
    each = positive(row, "dry_film_per_coat")
    return 0 if each is None else math.ceil(film / each - 1e-9)


def _area(inside: Inside, lining: Lining, plan: Plan) -> Generator[Gap, None, tuple[float, str]]:
    """What is coated, and the sum in words."""
    vessel, system = inside.vessel, plan.show
    height = vessel.height
    if lining.ends_above_water is None or vessel.water is None:
        key = "lining.ends_above_water" if lining.ends_above_water is None else "water"
        words = f"Say where the coating of {inside.key} ends above the water: it is counted to the top of its walls."
        yield Gap(f"{inside.path}.{key}", words)
    else:
        height = coated_height(vessel)
    cut = [one.clear_area(height) for one in windows_of(inside)]
    openings = sum(one for one in cut if one is not None)
    area = inside.floor + inside.girth * height - openings
    words = f"floor {show(inside.floor, 'm2', system)}, walls {show(inside.girth, 'm', system)} round x "
    words += show(height, "m", system)
    if openings:
        words += f", less clear openings {show(openings, 'm2', system)}; seats of windows are coated"
    if None in cut:
        words += "; windows without a seat in the plan are not taken off"
    return area, words


def coats_told(plan: Plan) -> tuple[CoatsTold, ...]:
    """Where each coated vessel stands whose film can be told."""
    return tuple(_told(one) for one in coat_plans(plan) if isinstance(one, CoatPlan))


def _told(plan: CoatPlan) -> CoatsTold:
    laid = tuple(_laid(plan))
    nothing = Estimate.exact(0.0)
    built_now = laid[-1].built if laid else nothing
    rest = max(plan.coats - len(laid), 0) * plan.each
    final = _shifted(built_now, rest)
    least, likely, most = (
        max(plan.required - one, 0.0) for one in (built_now.high, built_now.likely, built_now.low)
    )
    owed = Estimate(least, likely, most, TRANSFER.basis)
    net = [
        float(laws.coat_volume(plan.area, one, plan.solids, 1.0))
        for one in (owed.low, owed.likely, owed.high)
    ]
    volume = Estimate(net[0] / TRANSFER.high, net[1] / TRANSFER.likely, net[2] / TRANSFER.low, TRANSFER.basis)
    coats = math.ceil(owed.high / plan.each - 1e-9) if plan.coats else 0
    more = max(len(laid) - plan.coats, 0) if plan.coats else 0
    return CoatsTold(plan, laid, built_now, final, owed, volume, coats, more, _rate(plan))


def _laid(plan: CoatPlan) -> Iterator[CoatLaid]:
    """Coat by coat, from what was used."""
    used = 0.0
    for number, volume in enumerate(plan.lining.laid, start=1):
        used += volume
        wet = float(laws.wet_film(volume * TRANSFER.likely, plan.area))
        too_wet = plan.wet_most is not None and wet > (1.0 + _ALIKE) * plan.wet_most
        yield CoatLaid(number, volume, _left(plan, volume), _left(plan, used), too_wet)


def _left(plan: CoatPlan, volume: float) -> Estimate:
    """Dry film that a volume leaves, by how much of it arrives."""
    low, likely, high = (
        float(laws.film_built(volume, plan.area, plan.solids, one))
        for one in (TRANSFER.low, TRANSFER.likely, TRANSFER.high)
    )
    return Estimate(low, likely, high, TRANSFER.basis)


def _shifted(found: Estimate, more: float) -> Estimate:
    return Estimate(found.low + more, found.likely + more, found.high + more, found.basis)


def _rate(plan: CoatPlan) -> RateTold | None:
    """The label's rate beside the film required; None where the plan does not tell it, or not how many coats."""
    label = plan.lining.label_rate
    if label is None or not plan.coats:
        return None
    wanted = float(laws.spreading_rate(plan.solids, plan.required / plan.coats, 1.0))
    by_label = plan.coats * float(laws.rate_film(label, plan.solids))
    return RateTold(label, by_label, wanted, abs(by_label / plan.required - 1.0) <= _ALIKE)


def rate_words(told: CoatsTold, system: System) -> str:
    """Which of the label's rate and the film governs, in a sentence; empty where the label's is not told."""
    rate = told.rate
    if rate is None:
        return ""
    count = told.plan.coats
    film, needed = (show(one, "m", system, "film") for one in (rate.by_label, told.plan.required))
    label, wanted, spread = (
        show(one, "m2/m3", system) for one in (rate.label, rate.wanted, rate.wanted * TRANSFER.low)
    )
    lost = f"{wanted} of what arrives on the wall; with what stays in tools and cans {spread} of what is used"
    start = f"{count} coats spread as the label says ({label}) leave {film} dry, and {needed} is required"
    if rate.agrees:
        return f"{start}: they agree. That is {lost}."
    if rate.too_thin:
        return f"{start}: the film governs. Spread each coat no further than {lost}, or lay more coats."
    return f"{start}: the film governs, and each coat may go as far as {lost}; the label's rate lays more than that."


def coats_table(told: CoatsTold, system: System) -> Table:
    """Coat by coat: what was used, the film so far with its range, what is still owed."""
    columns = (
        Column("coat", "count"),
        Column("used", "m3"),
        Column("dry film it left", "m", "film"),
        Column("film so far, at least", "m", "film"),
        Column("film so far, likely", "m", "film"),
        Column("still owed, at most", "m", "film"),
        Column("told"),
    )
    required = told.plan.required
    rows = tuple(
        (float(one.number), one.used, one.left.likely, one.built.low, one.built.likely,
         max(required - one.built.low, 0.0), _remark(told, one))
        for one in told.laid
    )  # fmt: skip
    key = told.plan.inside.key
    note = f"{TRANSFER.basis[0].upper()}{TRANSFER.basis[1:]}: from {100 * TRANSFER.low:.0f} to "
    note += f"{100 * TRANSFER.high:.0f} %, common practice. Measure the film on test plates. {rate_words(told, system)}"
    return Table(f"cost.{key}.coats", f"Coats of {key}", columns, rows, note.strip())


def _remark(told: CoatsTold, coat: CoatLaid) -> str:
    words = []
    if coat.too_wet:
        words.append("went on wetter than its sheet allows, if spread evenly")
    if told.plan.coats and coat.number > told.plan.coats:
        words.append("more than planned")
    return "; ".join(words)


def film_check(told: CoatsTold) -> Check | None:
    """Whether the film gets as thick as required: as built, with the coats that are still planned. None where nothing
    has been laid.
    """
    if not told.laid:
        return None
    key = told.plan.inside.key
    at = At(f"{key}.lining", f"{key}, lining", "cost", told.plan.key)
    left = max(told.plan.coats - len(told.laid), 0)
    words = "lining film built" if not left else f"lining film built, {left} more as planned"
    limit = Limit(told.plan.required, told.plan.required_source, "dry film required", _NEAR)
    return above(at, "built", words, told.final, "m", limit, style="film", advice=_advice(told))


def _advice(told: CoatsTold) -> str:
    return "thicker coats from here on, or another coat" if told.owed.high > 0.0 else ""
