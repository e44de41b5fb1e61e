"""What is read for the shop: one question answered each, in a constant number of queries."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.db.models import Exists, OuterRef, Q, QuerySet

from intake.domain.lifecycle import Status
from quotes.domain.lifecycle import QuoteStatus
from quotes.models import Quote
from quotes.shop.models import CutSheet

PAGE = 25
# Of an accepted order a call may be in between that changes nothing; then it is ready again.
_TO_MAKE = (Status.ACCEPTED.value, Status.READY.value)


def accepted_quote(pk: int) -> Quote | None:
    """A quote with its submission and sheet, if it was accepted."""
    accepted = Quote.objects.filter(pk=pk, status=QuoteStatus.ACCEPTED)
    return accepted.select_related("submission", "sheet").first()


def last_accepted(submission_id: int) -> Quote | None:
    """The newest quote of a submission that was accepted, whatever came after it."""
    accepted = Quote.objects.filter(submission_id=submission_id, status=QuoteStatus.ACCEPTED)
    return accepted.select_related("submission", "sheet").order_by("-version").first()


def cut_sheet_of(quote: Quote) -> CutSheet | None:
    """The cut sheet that was drawn for this quote, if one was."""
    return CutSheet.objects.filter(quote=quote).first()


def is_drawn(quote: Quote) -> bool:
    """Whether its cut sheet is kept already."""
    return CutSheet.objects.filter(quote=quote).exists()


@dataclass(frozen=True, slots=True)
class ShopPage:
    """Some accepted shafts, the longest accepted first; ``after``: the key the next page begins
    behind, None where there is none."""

    quotes: Sequence[Quote]
    after: int | None


def shafts_to_make(after: int | None = None, size: int = PAGE) -> ShopPage:
    """Accepted shafts whose sheet still stands and of which nobody has told how they fitted."""
    quotes = _to_make()
    if after is not None:
        quotes = quotes.filter(_behind(after))
    found = list(quotes.order_by("accepted_at", "pk")[: size + 1])
    return ShopPage(found[:size], found[size - 1].pk if len(found) > size else None)


def _to_make() -> QuerySet[Quote]:
    quotes = Quote.objects.filter(
        status=QuoteStatus.ACCEPTED,
        sheet__is_current=True,
        submission__status__in=_TO_MAKE,
        sheet__outcome__shaft__nominal__isnull=False,
        outcomes__isnull=True,
    )
    drawn = CutSheet.objects.filter(quote=OuterRef("pk"))
    return quotes.select_related("submission", "sheet").annotate(drawn=Exists(drawn))


def _behind(key: int) -> Q:
    """Accepted after that one; a key nobody has begins behind nothing."""
    moment = Quote.objects.filter(pk=key).values_list("accepted_at", flat=True).first()
    if moment is None:
        return Q(pk__isnull=False)
    return Q(accepted_at__gt=moment) | Q(accepted_at=moment, pk__gt=key)
