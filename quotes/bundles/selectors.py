"""What is read of bundles: a constant number of queries each."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from django.conf import settings
from django.db.models import Prefetch, Q
from django.utils import timezone

from intake.customers.models import Customer
from quotes.bundles.models import Bundle, BundleMember
from quotes.domain.bundle import Share, freight_tax
from quotes.domain.lifecycle import QuoteStatus
from quotes.models import Quote

_MOST = 200  # quotes of one yard that are offered for a bundle, and bundles that are listed
# What may be in a bundle: what waits for an answer, and what was accepted under it before.
MAY_BE_IN = (QuoteStatus.ISSUED, QuoteStatus.ACCEPTED)
# What was in a bundle and makes it a thing of the past.
_GONE = (QuoteStatus.REPLACED, QuoteStatus.LAPSED, QuoteStatus.CANCELLED)


def bundle_of(quote: Quote) -> Bundle | None:
    """The bundle a quote is in, in its newest version; None where it goes by itself."""
    return Bundle.objects.filter(members__quote=quote, current=True).order_by("-pk").first()


def members(bundle: Bundle) -> list[Quote]:
    """The quotes of a bundle in the order of its paper, each with its request and sheet."""
    rows = BundleMember.objects.filter(bundle=bundle).order_by("place")
    return [row.quote for row in rows.select_related("quote__submission", "quote__sheet")]


def find_bundle(pk: int) -> Bundle | None:
    """One bundle with its customer."""
    return Bundle.objects.select_related("customer").filter(pk=pk).first()


def by_token(token: str) -> Bundle | None:
    """The newest version of the bundle behind a private link."""
    return Bundle.objects.select_related("customer").filter(token=token, current=True).first()


def version_of(bundle: Bundle, version: int) -> Bundle | None:
    """One version of the same bundle."""
    return Bundle.objects.filter(number=bundle.number, version=version).first()


def holds_until(bundle: Bundle, quotes: Sequence[Quote]) -> datetime:
    """Until when its link holds: so many days after it was issued, or last accepted from."""
    accepted = [one.accepted_at for one in quotes if one.accepted_at]
    newest = max([bundle.issued_at, *accepted])
    return newest + timedelta(days=int(settings.LINK_DAYS))


def gone(quotes: Sequence[Quote]) -> list[Quote]:
    """The quotes among these that no longer hold, so that the bundle needs a new version."""
    return [one for one in quotes if one.status in _GONE]


def waiting(quotes: Sequence[Quote]) -> list[Quote]:
    """The quotes among these that can be accepted today."""
    today = timezone.localdate()
    return [
        one
        for one in quotes
        if one.status == QuoteStatus.ISSUED and one.valid_until and one.valid_until >= today
    ]


def share_of(quote: Quote) -> Share:
    """What a quote brings into a bundle's sums."""
    on_freight = freight_tax(quote.inputs, quote.freight)
    return Share(quote.goods, quote.freight, quote.freight_words, quote.tax, on_freight)


@dataclass(frozen=True, slots=True)
class JobQuotes:
    """The quotes of one order number that may go into a bundle, and the bundle there is."""

    job: str
    quotes: list[Quote]
    bundle: Bundle | None


def jobs_to_bundle(customer: Customer) -> list[JobQuotes]:
    """A yard's order numbers with what could be bundled under each, the newest first."""
    rows = Quote.objects.filter(submission__customer=customer, status__in=MAY_BE_IN)
    quotes = rows.exclude(submission__job="").select_related("submission", "sheet")
    by_job: dict[str, list[Quote]] = {}
    for quote in quotes.order_by("-pk")[:_MOST]:
        by_job.setdefault(quote.submission.job, []).append(quote)
    bundles = {bundle.job: bundle for bundle in bundles_of(customer)}
    return [
        JobQuotes(job, sorted(found, key=_by_boat), bundles.get(job))
        for job, found in by_job.items()
        if len(found) > 1 or job in bundles
    ]


def _by_boat(quote: Quote) -> tuple[str, str, int]:
    return quote.submission.boat_key, quote.submission.station, quote.pk


def bundles_of(customer: Customer) -> list[Bundle]:
    """A yard's bundles in their newest versions, the oldest first, each with its quotes' rows."""
    rows = BundleMember.objects.select_related("quote").order_by("place")
    mine = Bundle.objects.filter(customer=customer, current=True).defer("content")
    return list(mine.prefetch_related(Prefetch("members", rows)).order_by("pk")[:_MOST])


def quotes_to_bundle(customer: Customer, job: str, keys: Sequence[int]) -> list[Quote]:
    """Those of the keys that may go into one bundle of this order number, by boat and side."""
    rows = Quote.objects.filter(
        Q(submission__customer=customer, submission__job=job), pk__in=keys, status__in=MAY_BE_IN
    )
    return sorted(rows.select_related("submission", "sheet"), key=_by_boat)


def standing_bundle(customer: Customer, job: str) -> Bundle | None:
    """The newest version of the bundle of one order number."""
    mine = Bundle.objects.filter(customer=customer, job=job, current=True)
    return mine.order_by("-pk").first()


def last_number(year: int) -> str:
    """The last number given in a year, or ""."""
    mine = Bundle.objects.filter(number__startswith=f"B-{year}-")
    return mine.order_by("-number").values_list("number", flat=True).first() or ""


def bundle_papers(submissions: Sequence[int]) -> dict[str, bytes]:
    """The papers of all bundles with one of these requests, by their names as files."""
    mine = Bundle.objects.filter(members__quote__submission__in=submissions).distinct()
    return {
        f"papers/{one.number}-v{one.version}.pdf": bytes(one.content)
        for one in mine.order_by("pk")
        if one.content
    }
