"""What shipped quotes come to, and what was paid for them so far."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from quotes.bundles.models import Bundle
from quotes.domain.invoice import Bill, bill_of, freight_line, with_freight_of_bundle
from quotes.invoices import selectors
from quotes.invoices.making import quoted
from quotes.models import Quote
from quotes.payments.selectors import paid_for_bundles, paid_of

_ZERO = Decimal(0)


def bill_and_paid(quotes: Sequence[Quote], bundle: Bundle | None) -> tuple[Bill, Decimal]:
    """The bill of these quotes and what is taken off it.

    A bundle has one freight, on its first invoice; what was paid for the bundle as such goes to
    its invoices one after another.
    """
    bill = bill_of(map(quoted, quotes))
    paid = sum(paid_of(quotes).values(), _ZERO)
    if bundle is None:
        return bill, paid
    bill = _as_bundled(bill, bundle)
    pool = paid_for_bundles([bundle.number])[bundle.number] - selectors.taken_from_pool(bundle)
    return bill, paid + min(max(pool, _ZERO), max(bill.total - paid, _ZERO))


def _as_bundled(bill: Bill, bundle: Bundle) -> Bill:
    if selectors.freight_is_invoiced(bundle):
        return with_freight_of_bundle(bill, freight_line(bundle.number, "", _ZERO), _ZERO)
    members = selectors.members_of(bundle)
    tax_left = bundle.tax - sum((quote.tax for quote in members), _ZERO)
    freight = freight_line(bundle.number, bundle.freight_words, bundle.freight)
    return with_freight_of_bundle(bill, freight, tax_left)
