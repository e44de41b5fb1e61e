"""What is read for the shop: one question answered each, in a constant number of queries."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from django.db.models import Exists, OuterRef, Q, QuerySet

from intake.domain.lifecycle import Status
from intake.models import Submission
from intake.selectors import current_sheet
from quotes.domain.lifecycle import QuoteStatus
from quotes.domain.shop_stages import DONE, Stage
from quotes.models import Quote
from quotes.selectors import latest_quote
from quotes.shop.models import CutSheet, DeskWord, ShopMove, ShopOrder
from quotes.shop.standing import stands_not, why_not

PAGE = 25
# Of an accepted order a call may be in between that changes nothing; then it is ready again.
_TO_MAKE = (Status.ACCEPTED.value, Status.READY.value)


def accepted_quote(pk: int) -> Quote | None:
    """A quote with its submission and sheet, if it was accepted."""
    accepted = Quote.objects.filter(pk=pk, status=QuoteStatus.ACCEPTED)
    return accepted.select_related("submission", "sheet").first()


def last_accepted(submission_id: int) -> Quote | None:
    """The newest quote of a submission that was accepted, whatever came after it: also one that
    is void or cancelled since, so that the shop is told why."""
    accepted = Quote.objects.filter(submission_id=submission_id, accepted_at__isnull=False)
    return accepted.select_related("submission", "sheet").order_by("-version").first()


def shop_quote(submission_id: int) -> Quote | None:
    """The quote a shaft is or was made from: the accepted one, else the last the shop began on."""
    accepted = last_accepted(submission_id)
    if accepted is not None:
        return accepted
    begun = Quote.objects.filter(submission_id=submission_id, shop_order__isnull=False)
    return begun.select_related("submission", "sheet").order_by("-version").first()


def standing_now(quote: Quote) -> tuple[str, ...]:
    """Sentences that say why nothing may be done with this quote's shaft at this moment."""
    submission = Submission.objects.get(pk=quote.submission_id)
    accepted = last_accepted(submission.pk)
    if accepted is not None and accepted.pk != quote.pk:
        return (f"A newer quote, version {accepted.version}, was accepted since.",)
    return why_not(submission, current_sheet(submission), latest_quote(submission), accepted)


def order_stands_not(quote: Quote) -> tuple[str, ...]:
    """The same for an order of parts alone, which has no stations to add up."""
    submission = Submission.objects.get(pk=quote.submission_id)
    accepted = last_accepted(submission.pk)
    return stands_not(submission, current_sheet(submission), latest_quote(submission), accepted)


def stage_of(quote: Quote) -> Stage:
    """Where the shaft stands; one nobody has touched waits."""
    found = ShopOrder.objects.filter(quote=quote).values_list("stage", flat=True).first()
    return Stage(found) if found else Stage.WAITING


def moves_of(quote: Quote) -> list[ShopMove]:
    """Every step so far with who took it, the first one first."""
    return list(ShopMove.objects.filter(order__quote=quote).select_related("by").order_by("pk"))


def desk_word(quote: Quote) -> DeskWord | None:
    """The newest word of the desk on what no table gives, and whose it is."""
    return DeskWord.objects.filter(quote=quote).select_related("by").order_by("-pk").first()


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
    """Accepted shafts whose sheet still stands, that have not left us nor been called off, and
    of which nobody has told how they fitted."""
    quotes = _to_make()
    if after is not None:
        quotes = quotes.filter(_behind(after))
    found = list(quotes.order_by("accepted_at", "pk")[: size + 1])
    return ShopPage(found[:size], found[size - 1].pk if len(found) > size else None)


def parcels_to_send(size: int = PAGE) -> list[Quote]:
    """Accepted orders of parts alone that have not left us, the longest accepted first; at most
    one more than ``size``."""
    quotes = _here().filter(sheet__outcome__shaft__nominal__isnull=True)
    return list(quotes.order_by("accepted_at", "pk")[: size + 1])


def _here() -> QuerySet[Quote]:
    """What was accepted and still stands, has not left us nor been called off."""
    done = ShopOrder.objects.filter(quote=OuterRef("pk"), stage__in=DONE)
    quotes = Quote.objects.filter(
        ~Exists(done),
        status=QuoteStatus.ACCEPTED,
        is_here=True,
        sheet__is_current=True,
        submission__status__in=_TO_MAKE,
        outcomes__isnull=True,
    )
    return quotes.select_related("submission", "sheet", "shop_order")


def _to_make() -> QuerySet[Quote]:
    drawn = CutSheet.objects.filter(quote=OuterRef("pk"))
    quotes = _here().filter(sheet__outcome__shaft__nominal__isnull=False)
    return quotes.annotate(drawn=Exists(drawn))


def _behind(key: int) -> Q:
    """Accepted after that one; a key nobody has begins behind nothing."""
    moment = Quote.objects.filter(pk=key).values_list("accepted_at", flat=True).first()
    if moment is None:
        return Q(pk__isnull=False)
    later = Q(accepted_at__gt=moment) | Q(accepted_at=moment, pk__gt=key)
    return later & Q(accepted_at__gte=moment)  # which an index can be read from
