"""What a quote's paper says besides the sheet and the price, gathered by who makes the quote."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from quotes.domain.alloys import NOT_ENGINEERED, AlloyColumn
from quotes.domain.choice import NO_CHOICE, Choice
from quotes.domain.facts import AlloyFact, OptionFact, PhotoFact
from quotes.domain.lead import LeadRange
from quotes.domain.money import money_text
from quotes.domain.options import Offer
from quotes.domain.terms import NO_TERMS, Terms

ASK_US = "ask us"


@dataclass(frozen=True, slots=True)
class Besides:
    """All of it may be left out. ``address`` is the status page's, whole, for the square code.

    ``choice``: what the customer chose, so that the chosen metal is the one that is printed.
    ``leaves`` are the days, ``say_day`` words a day in the paper's ``language``. ``photos``: every
    one that may be shown, so none of what is still to be read blind.
    """

    address: str = ""
    choice: Choice = NO_CHOICE
    terms: Terms = NO_TERMS
    alloys: tuple[AlloyColumn, ...] = ()
    offers: tuple[Offer, ...] = ()
    photos: tuple[PhotoFact, ...] = ()
    leaves: LeadRange | None = None
    say_day: Callable[[date], str] = date.isoformat
    language: str = "en"


NOTHING_BESIDES = Besides()


def alloy_facts(
    columns: Iterable[AlloyColumn], currency: str = "", language: str = "en"
) -> tuple[AlloyFact, ...]:
    """The metals as they are printed."""

    def difference(one: AlloyColumn) -> str:
        return "" if one.chosen else difference_words(one.difference, currency, language)

    def total(one: AlloyColumn) -> str:
        return "to come" if one.total is None else money_text(one.total, currency, language)

    return tuple(
        AlloyFact(
            name=one.name,
            metal=one.metal,
            total=total(one),
            difference=difference(one),
            words=one.words,
            crevice=one.crevice,
            margin=one.margin,
            stock=one.stock,
            caution=one.caution,
            barred=one.barred,
            chosen=one.chosen,
        )
        for one in columns
    )


def difference_words(amount: Decimal | None, currency: str = "", language: str = "en") -> str:
    """A difference of totals, told by a word and not by a sign alone.

    >>> difference_words(Decimal("-53.50")), difference_words(Decimal(0)), difference_words(None)
    ('53.50 less', 'the same', 'to come')
    """
    if amount is None:
        return "to come"
    if not amount:
        return "the same"
    return f"{money_text(abs(amount), currency, language)} {'more' if amount > 0 else 'less'}"


def alloy_notes(columns: Iterable[AlloyColumn]) -> tuple[str, ...]:
    """What holds for every column: where the strengths are from, and that none is engineered."""
    every = dict.fromkeys(one.sure for one in columns if one.sure)
    sure = [one for one in every if not any(one != more and one in more for more in every)]
    return (*sure, NOT_ENGINEERED) if sure else ()


def option_facts(
    offered: Iterable[Offer], currency: str = "", language: str = "en"
) -> tuple[OptionFact, ...]:
    """What can be had besides, as it is printed."""

    def amount(one: Offer) -> str:
        return ASK_US if one.amount is None else money_text(one.amount, currency, language)

    return tuple(
        OptionFact(
            text=one.text,
            why=one.why,
            how=one.how,
            amount=amount(one),
            ticked=one.ticked,
            tickable=one.tickable,
        )
        for one in offered
    )
