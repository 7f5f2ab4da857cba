"""Amounts and sums in words."""

from __future__ import annotations

from decimal import Decimal

from composer.costing.costs import Costs
from composer.costing.shown import NO_BREAK, show_money
from composer.texts import say, say_many

SIGNS = {"EUR": "€", "GBP": "£", "USD": "$", "JPY": "¥", "INR": "₹", "CHF": "CHF"}
"""Signs everybody reads as that currency; others are written by their code (ISO 4217)."""


def amount(value: Decimal, currency: str) -> str:
    """An amount with its currency: ``€ 43.57``."""
    return f"{SIGNS.get(currency, currency)}{NO_BREAK}{show_money(value, currency)}"


def total_words(costs: Costs) -> str:
    """The total and how it stands to the budget, in one sentence."""
    if not costs.lines and not costs.unpriced:
        return say("Nothing to buy.")
    total = amount(costs.total, costs.currency)
    spare = costs.to_spare
    if spare is None:
        return say("{total} to pay", total=total)
    if spare < 0:
        return say("{total} to pay, {over} over the budget", total=total, over=show_money(-spare, costs.currency))
    return say("{total} to pay, {spare} to spare", total=total, spare=show_money(spare, costs.currency))


def lacking_words(costs: Costs) -> str:
    """How many things nobody knows the price of yet; empty for none."""
    count = costs.prices_lacking
    return say_many("{count} price lacking", "{count} prices lacking", count) if count else ""
