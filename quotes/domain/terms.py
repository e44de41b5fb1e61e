"""What was agreed with one customer about prices: a trade discount, and the deposit."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from quotes.domain.lines import Line, plain, sum_line
from quotes.domain.money import to_money
from quotes.domain.rates import Rates
from quotes.domain.tax import GOODS, WORK, percent

DISCOUNT = "DISCOUNT"


@dataclass(frozen=True, slots=True)
class Terms:
    """``discount``: part of goods and work that is taken off, as a fraction from 0 to below 1;
    never of freight. ``deposit_part`` and ``deposit_over``: this customer's own, None as usual.
    """

    discount: Decimal = Decimal(0)
    deposit_part: Decimal | None = None
    deposit_over: Decimal | None = None


NO_TERMS = Terms()


def discount_line(goods: Decimal, terms: Terms, rates: Rates) -> Line | None:
    """The discount on what goods and work come to; None where there is none.

    It never goes over the desk's own limit, whatever was agreed before the limit came down.
    """
    part = min(terms.discount, rates.discount_limit)
    if part <= 0 or goods <= 0:
        return None
    how = f"{percent(part)} % of {to_money(goods, rates.currency)}"
    return sum_line(DISCOUNT, "Trade discount", -goods * part, how)


def shared(amount: Decimal, over: Mapping[str, Decimal], currency: str = "") -> dict[str, Decimal]:
    """An amount parted between goods and work as their sums stand; the parts make the whole."""
    goods, work = over.get(GOODS, Decimal(0)), over.get(WORK, Decimal(0))
    if not goods + work:
        return {GOODS: amount, WORK: Decimal(0)}
    of_work = to_money(amount * work / (goods + work), currency)
    return {GOODS: amount - of_work, WORK: of_work}


def deposit(total: Decimal, terms: Terms, rates: Rates) -> Decimal:
    """What is to be paid before we cut: a part of a total over the limit, else nothing.

    >>> deposit(Decimal("697.07"), NO_TERMS, Rates()), deposit(Decimal(500), NO_TERMS, Rates())
    (Decimal('348.54'), Decimal('0'))
    """
    part = rates.deposit_part if terms.deposit_part is None else terms.deposit_part
    over = rates.deposit_over if terms.deposit_over is None else terms.deposit_over
    return to_money(total * part, rates.currency) if total > over else Decimal(0)


def deposit_words(terms: Terms, rates: Rates) -> str:
    """The rule of the deposit in words, for the quote's terms."""
    part = rates.deposit_part if terms.deposit_part is None else terms.deposit_part
    over = rates.deposit_over if terms.deposit_over is None else terms.deposit_over
    return f"An order over {plain(over)} needs a deposit of {percent(part)} %." if part else ""
