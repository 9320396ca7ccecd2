"""Prices in a plan: for one of what they must be for, in the plan's own money or in one that it has a rate for."""

from __future__ import annotations

import re
from collections.abc import Container, Mapping
from dataclasses import dataclass
from decimal import Decimal
from functools import lru_cache
from typing import Annotated, Any, TypeAlias

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationInfo
from pydantic_core import CoreSchema, core_schema

from tidestead.core.errors import QuantityError
from tidestead.core.units import Gallon, Price, System, parse_price, parse_three_prices, price_in_cents
from tidestead.plan.advice import like
from tidestead.plan.refusals import refusal

_AMOUNT = re.compile(r"\s*(?:[$€£¥]\s*)?([0-9]{1,9}(?:\.[0-9]{1,6})?)")
_USUAL = {"EUR": "0.32", "USD": "0.15", "GBP": "0.28"}
"""Made up, for examples only."""
_SIGNS = {"€": "EUR", "£": "GBP"}
"""Signs of money that mean one currency alone."""
_DOTS = ".."


@dataclass(frozen=True)
class PriceOf:
    """A price for one of something, in the currency that the plan counts in, where it says one.

    `usual` is an amount for examples, made up, where that of a kWh of power says nothing of it.
    """

    per: str
    usual: str = ""

    def __get_pydantic_core_schema__(self, source: Any, handler: GetCoreSchemaHandler) -> CoreSchema:
        return core_schema.with_info_plain_validator_function(self.validate)

    def __get_pydantic_json_schema__(
        self, schema: CoreSchema, handler: GetJsonSchemaHandler
    ) -> dict[str, Any]:
        return {"type": "string", "examples": [self.example("EUR")]}

    def example(self, currency: str, amount: str = "") -> str:
        """A price as it may be written."""
        per = f"/{self.per}" if self.per else ""
        return f"{amount or self.usual or _USUAL.get(currency, '0.30')} {currency}{per}"

    def read(self, text: str, gallon: Gallon) -> Price | PriceRange:
        """What a text says. Raises QuantityError."""
        return parse_price(text, gallon)

    def validate(self, value: Any, info: ValidationInfo) -> Price | PriceRange:
        """The price, for the thing it must be for."""
        context: Mapping[str, Any] = info.context or {}
        own = str(context.get("currency") or "")
        money = own or _money_of(value, context)
        if not isinstance(value, str):
            amount = f"{value}" if isinstance(value, int | float) and not isinstance(value, bool) else ""
            amount = amount if _AMOUNT.fullmatch(amount) else ""
            raise refusal("", "must be a price in quotes.", like((self.example(money, amount),)))
        try:
            price = self.read(value, context.get("gallons"))
        except QuantityError as error:
            advice = like((self.example(money, _meant(value)),))
            if _DOTS in value:
                advice = f"{error.advice} {advice}" if '"' not in error.advice else error.advice
            raise refusal(error.given, error.allowed, advice) from error
        if not self.fits(price.per):
            raise refusal("", self.misfit(price.per), like((self.example(money),)))
        if own and price.currency != own:
            self.judge_money(price.currency, own, context.get("rates", ()))
        return price

    def fits(self, per: str) -> bool:
        """Whether a price may be for one of this."""
        return per == self.per

    def misfit(self, per: str) -> str:
        """What is wrong with a price for one of something else."""
        if self.per:
            return f"is not a price for one {self.per}."
        return f"is a price for one {per}; the whole sum is wanted."

    def judge_money(self, currency: str, own: str, rates: Container[str]) -> None:  # noqa: ARG002 - see RangeOf
        """Refuse money that is not the plan's own."""
        allowed = f"is in {currency}, and this plan counts in {own}."
        advice = f"{like((self.example(own),))[:-1]}, or let the plan count in {currency}."
        raise refusal("", allowed, advice)


@dataclass(frozen=True)
class PriceRange:
    """A low, likely and high price for one of something; all alike where one was typed. `per` as a Price has it."""

    low: Decimal
    likely: Decimal
    high: Decimal
    currency: str
    per: str
    single: bool = False


@dataclass(frozen=True)
class RangeOf(PriceOf):
    """One price or three, low to high. `foreign`: in any money that the plan has a rate for. `anything`: for one of
    whatever it is sold by.
    """

    foreign: bool = True
    anything: bool = False

    def read(self, text: str, gallon: Gallon) -> PriceRange:
        """ "9.40 EUR/piece" or "8.90 .. 9.40 .. 11.20 EUR/piece". Raises QuantityError."""
        return _range(text, gallon)

    def fits(self, per: str) -> bool:
        """Whether a price may be for one of this."""
        return bool(per) if self.anything else per == self.per

    def misfit(self, per: str) -> str:
        """What is wrong with a price for one of something else, or of nothing."""
        return "does not say for one of what." if self.anything else super().misfit(per)

    def judge_money(self, currency: str, own: str, rates: Container[str]) -> None:
        """Refuse money that the plan has no rate for."""
        if not self.foreign:
            super().judge_money(currency, own, rates)
        elif currency not in rates:
            allowed = f"is in {currency}; this plan counts in {own} and has no rate for {currency}."
            advice = (
                f'Write what one {currency} is worth under [rates]: {currency} = {{ worth = "1.10 {own}" }}.'
            )
            raise refusal("", allowed, advice)


@lru_cache(maxsize=2048)
def _range(text: str, gallon: Gallon) -> PriceRange:
    if _DOTS in text:
        low, likely, high = parse_three_prices(text, gallon)
        return PriceRange(low.amount, likely.amount, high.amount, likely.currency, likely.per)
    one = parse_price(text, gallon)
    return PriceRange(one.amount, one.amount, one.amount, one.currency, one.per, single=True)


def _money_of(value: Any, context: Mapping[str, Any]) -> str:
    """The currency of examples in a plan that names none."""
    typed = next((code for sign, code in _SIGNS.items() if isinstance(value, str) and sign in value), "")
    return typed or usual_money("us" if context.get("show") == "us" else "metric")


def usual_money(system: System) -> str:
    """The currency of examples for readers of these units, where nothing tells of theirs."""
    return "USD" if system == "us" else "EUR"


def _meant(text: str) -> str:
    """The amount that a price was meant to have which is refused for its money; empty where it cannot be told."""
    found = _AMOUNT.match(text)
    if found is None or "," in text:
        return ""
    amount = Decimal(found[1])
    if price_in_cents(text):
        amount /= 100
    return f"{amount:f}"


BatteryPrice: TypeAlias = Annotated[Price, PriceOf("kWh", "450")]
PiecePrice: TypeAlias = Annotated[Price, PriceOf("piece", "120")]
BookPrice: TypeAlias = Annotated[PriceRange, RangeOf("piece", "9.40", anything=True)]
"""In the price book: for one of what is sold."""
SumRange: TypeAlias = Annotated[PriceRange, RangeOf("", "400")]
"""What something costs as a whole."""
Worth: TypeAlias = Annotated[PriceRange, RangeOf("", "1.10", foreign=False)]
"""Of one unit of other money, in the plan's own."""
Budget: TypeAlias = Annotated[Price, PriceOf("", "8000")]
YearlySum: TypeAlias = Annotated[Price, PriceOf("year", "1500")]
