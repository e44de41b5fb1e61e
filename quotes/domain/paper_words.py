"""Sentences of a quote about money, the tube and the day she must run again. Pure."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from datetime import date
from decimal import ROUND_HALF_UP, Decimal
from typing import Any

from catalog.domain.units import pounds_to_kg
from quotes.domain.freight import shaft_pounds, tube_for
from quotes.domain.money import money_text
from quotes.domain.order import Order, Shaft
from quotes.domain.rates import Rates
from quotes.domain.tax import DUTY
from quotes.domain.terms import Terms, deposit, deposit_words
from quotes.domain.texts import PLACES
from quotes.domain.words import both

SayDay = Callable[[date], str]


def money_terms(total: Decimal, terms: Terms, rates: Rates, language: str = "en") -> Iterator[str]:
    """The deposit by its rule of the day, what it comes to here, and whose duty is whose.

    >>> next(money_terms(Decimal("697.07"), Terms(), Rates()))
    'An order over 500 needs a deposit of 50 %. For this quote: 348.54 before we cut.'
    """
    if rule := deposit_words(terms, rates):
        due = deposit(total, terms, rates)
        asked = money_text(due, rates.currency, language)
        here = f"{asked} before we cut" if due else "none"
        yield f"{rule} For this quote: {here}."
    yield DUTY


def delivery_words(order: Order, answers: Mapping[str, Any], rates: Rates) -> Iterator[str]:
    """The tube's length, the shaft's weight, and that somebody must receive it."""
    shaft = order.shaft
    if shaft is None:
        yield "Goes as a parcel; somebody must be there to receive it."
    else:
        tube = both(tube_for(shaft.tube_by, rates), shaft.system)
        yield f"Goes in a tube {tube} long; the shaft weighs about {weight_words(shaft)}."
        yield "Somebody must be there to receive it, and two to carry it."
    if kind := PLACES.get(_told(answers, "kind")):
        yield f"It goes to {kind}."
    elif not deliver_to(answers):
        yield "Where it goes is not told yet: please say who can receive it, and when."


def deliver_to(answers: Mapping[str, Any]) -> str:
    """Where it goes, as it was typed."""
    return ", ".join(filter(None, (_told(answers, name) for name in ("postcode", "country"))))


def _told(answers: Mapping[str, Any], name: str) -> str:
    told = answers.get("ship_to")
    return str(told.get(name) or "").strip() if isinstance(told, Mapping) else ""


def weight_words(shaft: Shaft) -> str:
    """What the bar weighs, by the table's density; ends and keyways are not taken off."""
    pounds = shaft_pounds(shaft.diameter, shaft.sent_overall, shaft.alloy)
    return f"{_one_place(pounds)} lb, {_one_place(pounds_to_kg(pounds))} kg"


def _one_place(amount: Decimal) -> str:
    """Enough for who lifts it."""
    return str(amount.quantize(Decimal("0.1"), ROUND_HALF_UP))


def needed_words(answers: Mapping[str, Any], say_day: SayDay) -> Iterator[str]:
    """By what day she must run again, as the customer told it."""
    told = answers.get("needed_by")
    if not isinstance(told, Mapping):
        return
    if run := _day(told.get("run")):
        yield f"You need her running by {say_day(run)}."
    if lift := _day(told.get("lift")):
        yield f"The lift is booked for {say_day(lift)}."


def _day(text: Any) -> date | None:
    try:
        return date.fromisoformat(str(text))
    except ValueError:
        return None
