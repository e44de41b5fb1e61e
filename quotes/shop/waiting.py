"""What a shaft waits for besides its turn: the customer's coupling, the deposit, parts to come."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from quotes.domain.money import money_text
from quotes.models import Quote
from quotes.payments.selectors import deposit_due, deposits_not_in
from quotes.receiving.selectors import waiting_for, waiting_ids
from quotes.selectors import rates
from quotes.stock.selectors import not_there


@dataclass(frozen=True, slots=True)
class Waits:
    """For one shaft on the list. ``deposit``: what of it is still to come."""

    coupling: bool = False
    deposit: str = ""
    saw_waits: bool = False


NOTHING = Waits()


def waits_of(quotes: Sequence[Quote]) -> dict[int, Waits]:
    """The same for every shaft of a page, in a constant number of queries."""
    coupling, due = waiting_ids([one.pk for one in quotes]), deposits_not_in(quotes)
    held_up = rates().saw_waits_for_deposit
    return {
        one.pk: Waits(
            coupling=one.pk in coupling,
            deposit=_money(one, due[one.pk]) if one.pk in due else "",
            saw_waits=held_up and one.pk in due,
        )
        for one in quotes
    }


def coupling_awaited(quote: Quote) -> tuple[str, ...]:
    """Sentences about the customer's coupling that is not here."""
    return waiting_for(quote)


def deposit_not_in(quote: Quote) -> str:
    """What of the deposit is still to come, as an amount; "" where nothing is."""
    due = deposit_due(quote)
    return _money(quote, due) if due > 0 else ""


def saw_stopped(quote: Quote) -> tuple[str, ...]:
    """Why the bar is not to be sawn yet, where the shop waits for deposits."""
    if not rates().saw_waits_for_deposit:
        return ()
    due = deposit_not_in(quote)
    return (f"The deposit is not in: {due} is still to come, and the saw waits for it.",) * bool(
        due
    )


def not_on_the_shelf(missing: Sequence[str]) -> tuple[str, ...]:
    """What to say of parts that nobody has; nothing where all are there."""
    if not missing:
        return ()
    return (f"Not on the shelf: {'; '.join(missing)}. It is on the list of what to order.",)


def parts_awaited(quote: Quote) -> tuple[str, ...]:
    """The same for one order, as the rack and the shelf stand now."""
    return not_on_the_shelf(not_there(quote))


def _money(quote: Quote, amount: Decimal) -> str:
    return money_text(amount, quote.currency)
