"""A price as pages show it: the same lines, sums and words as the paper."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from intake.said import language_now
from quotes import selectors
from quotes.domain.facts import LineFact
from quotes.domain.kept_price import NotKept, again
from quotes.domain.money import money_text
from quotes.domain.paper_facts import line_fact, sums
from quotes.domain.pricing import Priced
from quotes.domain.tax import TaxSum
from quotes.models import Quote


@dataclass(frozen=True, slots=True)
class ShownPrice:
    """Lines, what stands between them and the total, the total, and what is missing."""

    lines: tuple[LineFact, ...]
    sums: tuple[tuple[str, str], ...]
    total: str
    currency: str
    missing: Sequence[Mapping[str, Any]]

    @property
    def complete(self) -> bool:
        return not self.missing


def of_quote(quote: Quote) -> ShownPrice:
    """A stored quote."""
    money = quote.currency, language_now()
    return ShownPrice(
        lines=tuple(line_fact(line, *money) for line in quote.lines),
        sums=sums(
            quote.goods,
            quote.freight_words,
            quote.freight,
            quote.tax,
            selectors.rates(),
            taxes_of(quote),
            *money,
        ),
        total=money_text(quote.total, *money),
        currency=quote.currency,
        missing=quote.missing,
    )


def taxes_of(quote: Quote) -> tuple[TaxSum, ...]:
    """Each tax with what it was taken of, from what the quote was made from; () where unknown."""
    try:
        found = again(quote.inputs).taxes
    except (NotKept, KeyError, TypeError, ValueError):
        return ()
    return found if sum(one.amount for one in found) == quote.tax else ()


def of_priced(priced: Priced) -> ShownPrice:
    """A price that has only been worked out."""
    rates = selectors.rates()
    money = rates.currency, language_now()
    return ShownPrice(
        lines=tuple(line_fact(line.as_json(), *money) for line in priced.lines),
        sums=sums(
            priced.goods,
            priced.freight_words,
            priced.freight,
            priced.tax,
            rates,
            priced.taxes,
            *money,
        ),
        total=money_text(priced.total, *money),
        currency=rates.currency,
        missing=[missing.as_json() for missing in priced.missing],
    )
