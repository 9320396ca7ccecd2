"""Prices in a plan: for one of what they must be for, and in the plan's own money."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Annotated, Any, TypeAlias

from pydantic import GetCoreSchemaHandler, GetJsonSchemaHandler, ValidationInfo
from pydantic_core import CoreSchema, core_schema

from tidestead.core.errors import QuantityError
from tidestead.core.units import Price, System, parse_price, price_in_cents
from tidestead.plan.advice import like
from tidestead.plan.refusals import refusal

_AMOUNT = re.compile(r"\s*(?:[$€£¥]\s*)?([0-9]{1,9}(?:\.[0-9]{1,6})?)")
_USUAL = {"EUR": "0.32", "USD": "0.15", "GBP": "0.28"}
"""Made up, for examples only."""
_SIGNS = {"€": "EUR", "£": "GBP"}
"""Signs of money that mean one currency alone."""


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
        return f"{amount or self.usual or _USUAL.get(currency, '0.30')} {currency}/{self.per}"

    def validate(self, value: Any, info: ValidationInfo) -> Price:
        """The price, for the thing it must be for."""
        context = info.context or {}
        own = str(context.get("currency") or "")
        money = own or _money_of(value, context)
        if not isinstance(value, str):
            amount = f"{value}" if isinstance(value, int | float) and not isinstance(value, bool) else ""
            amount = amount if _AMOUNT.fullmatch(amount) else ""
            raise refusal("", "must be a price in quotes.", like((self.example(money, amount),)))
        try:
            price = parse_price(value, context.get("gallons"))
        except QuantityError as error:
            raise refusal(error.given, error.allowed, like((self.example(money, _meant(value)),))) from error
        if price.per != self.per:
            raise refusal("", f"is not a price for one {self.per}.", like((self.example(money),)))
        if own and price.currency != own:
            allowed = f"is in {price.currency}, and this plan counts in {own}."
            advice = f"{like((self.example(own),))[:-1]}, or let the plan count in {price.currency}."
            raise refusal("", allowed, advice)
        return price


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
