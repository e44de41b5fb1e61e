"""Reading the calendar: one tiny query, asked at most once a request."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from typing import Any

from asgiref.local import Local
from django.core.signals import request_finished, request_started
from django.db import connection
from django.db.models import Exists, OuterRef, QuerySet
from django.utils import timezone

from intake.domain.lifecycle import Status
from quotes.calendar.models import ClosedDay, ShopWeek
from quotes.domain.calendar import USUAL, Calendar
from quotes.domain.lead import HOLDS, Bar, LeadRange, lead_range
from quotes.domain.lifecycle import QuoteStatus
from quotes.domain.order import Order
from quotes.domain.quoted_order import quoted_order
from quotes.domain.shop_stages import Stage
from quotes.models import Quote
from quotes.selectors import rates
from quotes.shop.models import ShopOrder

# Of an accepted order a call may be in between that changes nothing; then it is ready again.
_TO_MAKE = (Status.ACCEPTED.value, Status.READY.value)
_BEFORE_IT_IS_MADE = (Stage.WAITING.value, Stage.SAWN.value)
_STILL_WORK = timedelta(days=90)  # nobody works still on what was accepted before

# Asked on many pages, so it is not built anew on each. The stamp is compared only with itself, so
# each database may give it in its own form.
_VERSION = f"SELECT open_days, stamp FROM {ShopWeek._meta.db_table} WHERE id = 1"  # noqa: S608
_kept: dict[Any, Calendar] = {}
_request = Local()


def calendar() -> Calendar:
    """The days the shop works. Within one request it is asked once, and stays what it was."""
    if not getattr(_request, "open", False):
        return _as_stored()
    found: Calendar | None = getattr(_request, "calendar", None)
    if found is None:
        found = _request.calendar = _as_stored()
    return found


def _as_stored() -> Calendar:
    with connection.cursor() as cursor:
        cursor.execute(_VERSION)
        row = cursor.fetchone()
    if row is None:
        return USUAL
    week, stamp = row
    found = _kept.get(stamp)
    if found is None:
        found = Calendar(
            frozenset(map(int, week)), frozenset(_closed().values_list("day", flat=True))
        )
        _kept.clear()
        _kept[stamp] = found
    return found


def _closed() -> QuerySet[ClosedDay]:
    return ClosedDay.objects.order_by("day")


def closed_days(since: date) -> list[ClosedDay]:
    """Closed days from this one on, with who closed them."""
    return list(_closed().filter(day__gte=since).select_related("by"))


# --- The shop's load, and the days it makes ------------------------------------------------


def load_days(before: Quote | None = None) -> int:
    """Working days of shafts that are accepted and not made yet, the begun day as a whole one.

    ``before``: only what was accepted earlier than that quote.
    """
    begun = ShopOrder.objects.filter(quote=OuterRef("pk")).exclude(stage__in=_BEFORE_IT_IS_MADE)
    waiting = Quote.objects.filter(
        ~Exists(begun),
        status=QuoteStatus.ACCEPTED,
        is_here=True,
        accepted_at__gt=timezone.now() - _STILL_WORK,
        sheet__is_current=True,
        submission__status__in=_TO_MAKE,
        sheet__outcome__shaft__nominal__isnull=False,
        outcomes__isnull=True,
    )
    if before is not None and before.accepted_at is not None:
        waiting = waiting.filter(accepted_at__lt=before.accepted_at)
    return -(-waiting.count() // max(1, rates().shafts_per_day))


def leaves_if_accepted(
    order: Order, record: Mapping[str, Any], today: date, valid_until: date | None = None
) -> LeadRange:
    """Between which days an order leaves us that is accepted within the next working days.

    The range says by when it must be accepted for that: never later than the offer is valid.
    """
    days = calendar()
    accept_by = min(days.after(today, HOLDS), valid_until or date.max)
    return lead_range(
        order, record, rates(), days, load_days(), today, accept_by=max(accept_by, today)
    )


def leaves_between(quote: Quote, *, bar: Bar | None = None) -> LeadRange | None:
    """Between which days an accepted quote leaves us; None for one that is not accepted.

    ``bar``: where its bar is, when that is known better than by the sheet.
    """
    if quote.accepted_at is None:
        return None
    order = quoted_order(quote.sheet.body, quote.sheet.outcome, quote.inputs)
    accepted = timezone.localdate(quote.accepted_at)
    load = load_days(before=quote)
    return lead_range(order, quote.sheet.outcome, rates(), calendar(), load, accepted, bar=bar)


def forget_what_was_asked() -> None:
    """The calendar was changed within this request: ask again."""
    _request.calendar = None


def _begin(**_rest: Any) -> None:
    _request.open, _request.calendar = True, None


def _end(**_rest: Any) -> None:
    _request.open, _request.calendar = False, None


request_started.connect(_begin, dispatch_uid="quotes.calendar.begin")
request_finished.connect(_end, dispatch_uid="quotes.calendar.end")
