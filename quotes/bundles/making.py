"""The paper of a bundle, worked out before anything is written."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from django.conf import settings
from django.utils import timezone, translation
from django.utils.formats import date_format

from intake.said import said
from quotes.bundles.selectors import share_of
from quotes.domain.bundle import RULE, BundleFacts, BundleLine, BundleSums, bundle_sums
from quotes.domain.words import both
from quotes.ending.agreed import station_of
from quotes.making import order_of
from quotes.models import Quote
from quotes.selectors import rates
from quotes.told import money

_OWN_PAPER = (
    "Each boat's quote keeps its own paper, with her drawing, her numbers, terms and cautions; "
    "each is accepted by itself, and what is ready waits for no other."
)


def sums_of(quotes: Sequence[Quote]) -> BundleSums:
    """What some quotes come to together, with one freight."""
    return bundle_sums([share_of(quote) for quote in quotes])


def line_of(quote: Quote) -> BundleLine:
    """A boat's line in the language of the moment."""
    shaft = order_of(quote).shaft
    return BundleLine(
        boat=quote.submission.boat_name or quote.submission.reference,
        side=said(station_of(quote.sheet)) or "—",
        length=said(both(shaft.length, shaft.system)) if shaft else "—",
        number=f"{quote.number} v{quote.version}",
        amount=money(quote.goods, quote.currency),
    )


def sums_rows(sums: BundleSums, currency: str) -> tuple[tuple[str, str], ...]:
    """The sums line by line, but for the total."""
    freight = sums.freight_words or "Freight"
    return (
        (said("Goods and work"), money(sums.goods, currency)),
        (said(f"{freight}, once"), money(sums.freight, currency)),
        (said("Tax"), money(sums.tax, currency)),
    )


def paper(quotes: Sequence[Quote], number: str, version: int, valid_until: date) -> bytes:
    """The PDF, in the language of the first boat's request. Slow, so outside any transaction."""
    from quotes.paper.bundle import bundle_pdf  # here: a start needs no printer

    first = quotes[0].submission
    language = first.language or settings.LANGUAGE_CODE
    with translation.override(language):
        sums, currency = sums_of(quotes), quotes[0].currency
        facts = BundleFacts(
            shop=rates().name,
            number=number,
            version=version,
            issued=_day(timezone.localdate()),
            valid_until=_day(valid_until),
            customer=first.contact_name,
            job=first.job,
            lines=tuple(line_of(quote) for quote in quotes),
            sums=sums_rows(sums, currency),
            total=money(sums.total, currency),
            notes=(said(RULE), said(_OWN_PAPER)),
        )
        return bundle_pdf(facts, say=said, language=language)


def _day(day: date) -> str:
    return date_format(day, "DATE_FORMAT")
