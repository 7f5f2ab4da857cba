"""Amounts and piece numbers for reading."""

from collections.abc import Iterable
from decimal import ROUND_HALF_UP, Decimal

from composer.texts import say

NO_BREAK = "\u00a0"

WITHOUT_CENTS = frozenset(
    {"BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "VND", "VUV", "XAF", "XOF", "XPF"}
)
"""Currencies that have no smaller unit (ISO 4217, minor unit 0)."""


def show_money(amount: Decimal, currency: str) -> str:
    """An amount without its currency: two decimals, none where the currency has no smaller unit; a true minus."""
    places = Decimal(1) if currency in WITHOUT_CENTS else Decimal("0.01")
    rounded = amount.quantize(places, ROUND_HALF_UP)
    words = f"{abs(rounded):,}".replace(",", NO_BREAK)
    return f"−{words}" if rounded < 0 else words


def show_numbers(numbers: Iterable[int]) -> str:
    """Piece numbers: runs of three and more as "1 to 9"."""
    runs: list[list[int]] = []
    for number in sorted(set(numbers)):
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    words = []
    for run in runs:
        if len(run) > 2:
            words.append(say("{first} to {last}", first=run[0], last=run[-1]))
        else:
            words += [str(number) for number in run]
    return ", ".join(words)
