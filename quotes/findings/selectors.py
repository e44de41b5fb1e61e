"""The findings of one quote, in a constant number of queries."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import timedelta
from decimal import Decimal
from typing import Any

from django.utils import timezone

from catalog.domain.lengths import Length, inches, mm
from catalog.domain.stock import Kind, Stock
from catalog.selectors import stock
from intake.checks.base import Mismatch
from quotes.checks.base import ShopCheck
from quotes.checks.prices import (
    AgeFacts,
    NeedFacts,
    PriceFacts,
    in_time,
    priced_as_usual,
    still_holds,
)
from quotes.domain.lifecycle import QuoteStatus
from quotes.domain.order import Shaft
from quotes.domain.price_model import BarPrice, expected, of_catalogue
from quotes.making import order_of
from quotes.models import Quote
from quotes.selectors import rates
from quotes.told import leaves

_YEAR = timedelta(days=365)
_NEWEST = 200  # quotes the model looks back on at most
_OFFERED = (QuoteStatus.ISSUED, QuoteStatus.LAPSED)


@dataclass(frozen=True, slots=True)
class Finding:
    """What a check found: its name, severity, what it says and what to ask."""

    check: str
    severity: str
    message: str
    ask: str


def findings_of(quote: Quote) -> tuple[Finding, ...]:
    """Everything ``needed-by``, ``price-outlier`` and ``quote-expired`` find on a quote."""
    return tuple(_found(quote))


def _found(quote: Quote) -> Iterator[Finding]:
    left = leaves(quote)
    need = NeedFacts(quote.submission.needed_by, left.last if left else None)
    yield from _as_findings(in_time, in_time.found(need))
    shelf, line = stock(), _bar_line(quote.lines)
    if line and line.get("amount") and (facts := _price_facts(quote, line, shelf)):
        yield from _as_findings(priced_as_usual, priced_as_usual.found(facts))
    if quote.status in _OFFERED and quote.issued_at:
        yield from _as_findings(still_holds, still_holds.found(_age(quote, line, shelf)))


def _as_findings(check: ShopCheck[Any, Any], found: Iterable[Mismatch]) -> Iterator[Finding]:
    for one in found:
        yield Finding(check.id, check.severity.value, one.message, check.ask)


def _bar_line(lines: Iterable[Mapping[str, Any]]) -> Mapping[str, Any] | None:
    """The line of the bar, as pricing words it."""
    return next((line for line in lines if str(line["text"]).startswith("Bar, ")), None)


def _price_facts(quote: Quote, line: Mapping[str, Any], shelf: Stock) -> PriceFacts | None:
    shaft = order_of(quote).shaft
    if shaft is None:
        return None
    amount = Decimal(line["amount"])
    usual = expected(shaft, _charged(line), _quoted(quote, shaft, shelf), of_catalogue(shelf.parts))
    return PriceFacts(str(line["code"]), amount, usual)


def _charged(line: Mapping[str, Any]) -> Length:
    return mm(line["quantity"]) if line["unit"] == "mm" else inches(line["quantity"])


def _quoted(quote: Quote, shaft: Shaft, shelf: Stock) -> list[BarPrice]:
    """What bars were quoted at in the last year, as far as their rows are still known."""
    since = timezone.now() - _YEAR
    others = Quote.objects.filter(issued_at__gte=since).exclude(pk=quote.pk)
    found = []
    for lines in others.order_by("-issued_at").values_list("lines", flat=True)[:_NEWEST]:
        line = _bar_line(lines)
        part = shelf.part(str(line["code"])) if line else None
        if line and line.get("unit_price") and part and part.kind == Kind.BAR and part.diameter:
            price = Decimal(line["unit_price"])
            found.append(BarPrice(part.alloy or "", part.diameter, price, str(line["unit"])))
    return found


def _age(quote: Quote, line: Mapping[str, Any] | None, shelf: Stock) -> AgeFacts:
    issued = timezone.localdate(quote.issued_at)
    held = (quote.valid_until - issued).days if quote.valid_until else rates().validity_days
    part = shelf.part(str(line["code"])) if line else None
    then = Decimal(line["unit_price"]) if line and line.get("unit_price") and part else None
    return AgeFacts(issued, timezone.localdate(), held, then, part.price if part else None)
