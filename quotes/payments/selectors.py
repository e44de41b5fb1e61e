"""What was paid, and what deposit is still to come."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from decimal import Decimal
from typing import Any

from django.db.models import Exists, OuterRef, Q, QuerySet

from quotes.bundles.models import Bundle, BundleMember
from quotes.domain.exact_json import from_json
from quotes.domain.kept_price import PRICE
from quotes.domain.lifecycle import QuoteStatus
from quotes.domain.payments import Version, counts_for, signed
from quotes.domain.rates import Rates
from quotes.domain.terms import Terms, deposit
from quotes.invoices.models import InvoicedQuote
from quotes.models import Quote
from quotes.payments.models import Payment
from quotes.selectors import rates
from quotes.terms.selectors import terms_of

_ZERO = Decimal(0)


def paid(quote: Quote) -> Decimal:
    """What was paid for this quote so far, refunds taken off; with what was paid for the versions
    it replaced. What was paid for its bundle is not in it."""
    return paid_of([quote])[quote.pk]


def paid_of(quotes: Sequence[Quote]) -> dict[int, Decimal]:
    """The same for several quotes, in two queries."""
    versions = _versions({quote.submission_id for quote in quotes})
    found = {}
    for quote in quotes:
        own = versions[quote.submission_id]
        wanted = next(one for one in own if one.quote == quote.pk)
        found[quote.pk] = counts_for(wanted, own)
    return found


def _versions(submissions: Iterable[int]) -> dict[int, list[Version]]:
    sums = _sums(Payment.objects.filter(quote__submission__in=submissions), "quote_id")
    invoiced = InvoicedQuote.objects.filter(quote=OuterRef("pk"), stands=True)
    rows = Quote.objects.filter(submission__in=submissions).annotate(done=Exists(invoiced))
    found: dict[int, list[Version]] = defaultdict(list)
    for pk, submission, version, status, done in rows.values_list(
        "pk", "submission_id", "version", "status", "done"
    ):
        replaced = status == QuoteStatus.REPLACED
        found[submission].append(Version(pk, version, replaced, done, sums[pk]))
    return found


def _sums(payments: QuerySet[Payment], key: str) -> defaultdict[int, Decimal]:
    """Money summed by what it was paid for; as Decimals, which SQLite would not keep exact."""
    sums: defaultdict[int, Decimal] = defaultdict(Decimal)
    for pk, kind, amount in payments.values_list(key, "kind", "amount").order_by():
        sums[pk] += signed(kind, amount)
    return sums


def paid_for_bundles(numbers: Iterable[str]) -> dict[str, Decimal]:
    """What was paid for bundles as such, by their numbers, whichever version it was written at."""
    rows = Payment.objects.filter(bundle__number__in=list(numbers)).order_by()
    sums: defaultdict[str, Decimal] = defaultdict(Decimal)
    for number, kind, amount in rows.values_list("bundle__number", "kind", "amount"):
        sums[number] += signed(kind, amount)
    return sums


def bundle_of(quote: Quote) -> Bundle | None:
    """The bundle a quote is in now."""
    found = BundleMember.objects.filter(quote=quote, bundle__current=True)
    member = found.select_related("bundle").first()
    return member.bundle if member else None


def payments_of(quote: Quote) -> list[Payment]:
    """Everything written down for any version of this request's quote, and for its bundle."""
    bundle = bundle_of(quote)
    own = Payment.objects.filter(quote__submission_id=quote.submission_id)
    if bundle:
        own = own | Payment.objects.filter(bundle__number=bundle.number)
    return list(own.select_related("quote", "bundle", "by").order_by("day", "pk"))


def payments_handed_out(submissions: Sequence[int]) -> list[dict[str, Any]]:
    """Everything written down for these requests, as the customer may read it."""
    told = ("kind", "amount", "day", "how", "note")
    bundles = BundleMember.objects.filter(quote__submission__in=submissions).values("bundle")
    found = Payment.objects.filter(Q(quote__submission__in=submissions) | Q(bundle__in=bundles))
    rows = found.order_by("pk").values("quote__number", "bundle__number", *told)
    return [{"payment": row.pop("quote__number") or row["bundle__number"], **row} for row in rows]


# --- The deposit -------------------------------------------------------------------------


def deposit_asked(quote: Quote) -> Decimal:
    """The deposit of a quote, or of the bundle it is in; 0 where none is asked.

    By the terms and rates the quote was made with, so that it is what the paper says.
    """
    return _asked(quote, bundle_of(quote))


def _asked(quote: Quote, bundle: Bundle | None) -> Decimal:
    return deposit(bundle.total if bundle else quote.total, *_agreed(quote))


def _agreed(quote: Quote) -> tuple[Terms, Rates]:
    kept = quote.inputs.get(PRICE)
    if not kept:
        return terms_of(quote.submission), rates()
    return from_json(Terms, kept["terms"]), from_json(Rates, kept["rates"])


def deposit_due(quote: Quote) -> Decimal:
    """What of the deposit is still to come; 0 where it is in, or none is asked.

    For a quote in a bundle the deposit is the bundle's, and whatever was paid for any of its
    quotes counts.
    """
    bundle = bundle_of(quote)
    asked = _asked(quote, bundle)
    return max(_ZERO, asked - _paid_with(quote, bundle)) if asked else _ZERO


def asked_and_came(quote: Quote, bundle: Bundle | None) -> tuple[Decimal, Decimal]:
    """The deposit that is asked, and what was paid; for a quote, or for the bundle it is in."""
    return _asked(quote, bundle), _paid_with(quote, bundle)


def paid_with_bundle(quote: Quote) -> Decimal:
    """What was paid for a quote, or for the bundle it is in and any of its quotes."""
    return _paid_with(quote, bundle_of(quote))


def _paid_with(quote: Quote, bundle: Bundle | None) -> Decimal:
    if bundle is None:
        return paid(quote)
    members = list(Quote.objects.filter(in_bundles__bundle=bundle))
    return sum(paid_of(members).values(), paid_for_bundles([bundle.number])[bundle.number])


def deposits_not_in(quotes: Sequence[Quote]) -> dict[int, Decimal]:
    """Of several accepted quotes, those whose deposit is still to come, and how much of it.

    For the shop's list: in a constant number of queries, however many.
    """
    members = BundleMember.objects.filter(quote__in=quotes, bundle__current=True)
    bundles = {one.quote_id: one.bundle for one in members.select_related("bundle")}
    alone = [quote for quote in quotes if quote.pk not in bundles]
    came = paid_of(alone) if alone else {}
    due = {one.pk: deposit(one.total, *_agreed(one)) - came[one.pk] for one in alone}
    if bundles:
        due |= _not_in_for_bundles([one for one in quotes if one.pk in bundles], bundles)
    return {pk: amount for pk, amount in due.items() if amount > 0}


def _not_in_for_bundles(
    quotes: Sequence[Quote], bundles: Mapping[int, Bundle]
) -> dict[int, Decimal]:
    kept = {bundle.pk: bundle for bundle in bundles.values()}
    rows = BundleMember.objects.filter(bundle__in=kept).select_related("quote")
    members = [(row.bundle_id, row.quote) for row in rows]
    came = paid_of([quote for _bundle, quote in members])
    pool = paid_for_bundles({bundle.number for bundle in kept.values()})
    sums = {pk: pool[bundle.number] for pk, bundle in kept.items()}
    for bundle, quote in members:
        sums[bundle] += came[quote.pk]
    asked = {one.pk: deposit(bundles[one.pk].total, *_agreed(one)) for one in quotes}
    return {one.pk: asked[one.pk] - sums[bundles[one.pk].pk] for one in quotes}
