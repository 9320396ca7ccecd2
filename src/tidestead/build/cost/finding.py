"""What the plan takes, how it is bought, what it may come to."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from tidestead.build.cost.book import extras_of, mishaps_of, money_of, offers_of
from tidestead.build.cost.buying import Bought, bought_of, endless, lasting, needs_of, standing_of
from tidestead.build.cost.cuts import Sawing, Tick, Work
from tidestead.build.cost.ensemble import Term, Throws, Togetherness
from tidestead.build.cost.facts import CostFacts, Purchase, Worn
from tidestead.build.cost.offers import Buy, Money, Offer
from tidestead.build.cost.totals import replaced, throw_cash, throw_replacement, throw_yearly
from tidestead.build.cutting.lengths import Saw
from tidestead.build.cutting.sheets import SheetSaw
from tidestead.build.lists import Line, TakenOff
from tidestead.build.takeoff.coats import coats_told
from tidestead.build.takeoff.rest import Studies, rest_taken
from tidestead.build.takeoff.vessels import vessels_taken
from tidestead.catalog import table
from tidestead.core.answer import Estimate
from tidestead.core.kept import kept
from tidestead.plan.items import Item
from tidestead.plan.model import Plan
from tidestead.studies.vessels import display_of, plan_area


def found(plan: Plan, studies: Studies, tick: Tick | None = None) -> CostFacts:
    """All of it."""
    bought = purchased(plan, studies, tick)
    work = Work(bought.money, bought.sawing)
    yearly = bought_of(needs_of(bought.taken, yearly=True), lasting(bought.offers), work)
    worn = tuple(_worn(bought))
    volumes = {key: plan_area(one) * one.water for key, one in plan.vessels.items()
               if one.holds == "seawater" and one.water is not None}  # fmt: skip
    return CostFacts(
        bought,
        yearly,
        worn,
        throw_cash(bought.once, bought.money, bought.mishaps, bought.together),
        throw_replacement((*bought.once, *bought.standing), bought.money, bought.together),
        throw_yearly(yearly, tuple(_set_aside(worn, bought.money)), bought.money, bought.together),
        volumes.get(display_of(plan), 0.0),
        sum(volumes.values()),
        coats_told(plan),
        tuple(_unworn(bought)),
    )


def purchased(plan: Plan, studies: Studies, tick: Tick | None = None) -> Purchase:
    """The lists of the plan, and how what they name is had."""
    offers, money, sawing = offers_of(plan), money_of(plan), sawing_of(plan)
    taken = vessels_taken(plan, sheet_sizes(offers, sawing.boards.trim)) + rest_taken(plan, studies)
    taken += _extras(plan, taken)
    stands = standing_of({name: vessel.stage for name, vessel in plan.vessels.items()})
    work = Work(money, sawing, tick)
    once = bought_of(needs_of(taken, standing=stands), offers, work)
    there = _only(taken, stands)
    standing = tuple(_as_there(one) for one in bought_of(needs_of(there), endless(offers), work))
    rows = table("cost_limits")["together"]
    together = Togetherness(rows.si("within"), rows.si("across"))
    return Purchase(taken, offers, money, sawing, together, mishaps_of(plan), once, standing)


@dataclass(frozen=True, eq=False)
class Cash:
    """What is still to be spent, by the plan alone. `lacking` is what has no price, with how much of it is needed."""

    throws: Throws
    currency: str
    lacking: tuple[tuple[str, float], ...]

    @property
    def unpriced(self) -> tuple[str, ...]:
        """Names of what has no price."""
        return tuple(name for name, _ in self.lacking)


@kept(at_most=64, by=lambda plan: plan.model_dump_json(exclude_unset=True))
def cash_of(plan: Plan) -> Cash | None:
    """What is still to be spent, for remedies, which ask often; None where nothing has a price.

    No study is asked: water and salt of the first fill, and what warms it, are not in it.
    """
    bought = purchased(plan, Studies())
    if not any(buy.offer.price for one in bought.once for buy in one.buys):
        return None
    throws = throw_cash(bought.once, bought.money, bought.mishaps, bought.together)
    return Cash(throws, bought.money.currency, lacking_of(bought.once))


def lacking_of(bought: Iterable[Bought]) -> tuple[tuple[str, float], ...]:
    """What has no price, each once, with how much of it is needed."""
    found: dict[str, float] = {}
    for one in bought:
        if one.missing:
            name = one.item.written()
            found[name] = found.get(name, 0.0) + one.needed
    return tuple(found.items())


def sawing_of(plan: Plan) -> Sawing:
    """Saws as the plan has them, else as usual."""
    said, usual = plan.cutting, table("cost_limits")["saws"]

    def taken(value: float | None, key: str) -> float:
        return usual.si(key) if value is None else value

    return Sawing(
        Saw(taken(said.kerf, "kerf"), taken(said.trim, "trim"), taken(said.useful, "useful")),
        SheetSaw(taken(said.sheet_kerf, "sheet_kerf"), taken(said.sheet_trim, "sheet_trim")),
        taken(said.spoils, "spoils"),
    )


def sheet_sizes(offers: Iterable[Offer], trim: float) -> dict[Item, tuple[float, float]]:
    """What is left of the largest sheet of each sort that is on offer: along the grain, across it."""
    sizes: dict[Item, tuple[float, float]] = {}
    for one in offers:
        if one.item.sort == "sheet" and len(one.size) == 2:
            along, across = (side - 2.0 * trim for side in one.size)
            if along * across > _area(sizes.get(one.item)):
                sizes[one.item] = (along, across)
    return sizes


def _area(size: tuple[float, float] | None) -> float:
    return 0.0 if size is None else size[0] * size[1]


def _extras(plan: Plan, taken: TakenOff) -> TakenOff:
    """What the price book names that stands on no list."""
    listed = {line.item for line in taken.lines}
    lines = (
        Line(
            one.item,
            Estimate.exact(one.amount),
            one.unit,
            one.item.name,
            one.row,
            "other",
            "machines",
            basis="your price book",
        )
        for one in extras_of(plan)
        if one.item not in listed
    )
    return TakenOff(tuple(lines))


def _only(taken: TakenOff, vessels: frozenset[str]) -> TakenOff:
    return TakenOff(
        tuple(one for one in taken.lines if one.vessel in vessels and one.vessel),
        tuple(one for one in taken.pieces if one.vessel in vessels),
        tuple(one for one in taken.parts if one.vessel in vessels),
    )


def _as_there(one: Bought) -> Bought:
    """What stands already: nothing of it is paid for."""
    return replace(one, buys=tuple(Buy(buy.offer, 0.0, buy.here + buy.count) for buy in one.buys))


def _worn(bought: Purchase) -> Iterable[Worn]:
    """Everything that has a life, by the price book or as usual."""
    for one in (*bought.once, *bought.standing):
        said = next((buy.offer.life for buy in one.buys if buy.offer.life is not None), None)
        life = said if said is not None else _usual_life(one)
        worth = sum(replaced(buy, bought.money) for buy in one.buys)
        if life is not None and worth > 0.0:
            yield Worn(one, worth, life, said is not None)


def _unworn(bought: Purchase) -> Iterable[Bought]:
    """Everything that has a life, and of which what a new one costs is not known."""
    said = {offer.item for offer in bought.offers if offer.life is not None}
    for one in (*bought.unpriced, *bought.unvalued):
        if one.item in said or _usual_life(one) is not None:
            yield one


def _usual_life(one: Bought) -> float | None:
    """How long such a thing lasts where the price book does not say."""
    lives, row = table("cost_limits"), f"life-{one.item.sort}"
    return lives[row].si("life") if row in lives else None


def _set_aside(worn: Iterable[Worn], money: Money) -> Iterable[Term]:
    """What a year takes of each thing that wears out."""
    for one in worn:
        for buy in one.bought.buys:
            today = buy.offer.today
            if today is not None:
                share = (buy.count + buy.here) * one.yearly
                name = f"wear: {one.bought.item.written()}"
                yield Term(
                    name,
                    one.bought.lines[0].trade,
                    today.times(share),
                    rate=money.rate(buy.offer.currency),
                    key=buy.offer.row,
                )
