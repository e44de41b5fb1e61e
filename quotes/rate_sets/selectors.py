"""The rates in force on a day, and every set that changed them."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from asgiref.local import Local
from django.conf import settings
from django.core.signals import request_finished, request_started
from django.db import connection
from django.utils import timezone

from quotes.domain.rate_values import rates_from
from quotes.domain.rates import Rates
from quotes.rate_sets.models import RateSet

# Asked on every page with a price, so it is not built anew on each. The stamp is compared only
# with itself, so each database may give it in its own form.
_VERSION = f"SELECT stamp FROM {RateSet._meta.db_table} ORDER BY number DESC LIMIT 1"  # noqa: S608
_MOST_KEPT = 8
_kept: dict[tuple[Any, date], tuple[Rates, Rates]] = {}
_request = Local()


def rates_on(day: date | None = None) -> Rates:
    """The desk's own rules of price on a day; None is today.

    A set for a day to come is in force on that day without anybody doing anything. One tiny query,
    asked once within a request.
    """
    usual, stamp = Rates.of(settings.SHOP), _stamp()
    if stamp is None:
        return usual
    key = stamp, day or timezone.localdate()
    base, found = _kept.get(key, (None, usual))
    if base == usual:
        return found
    found = fresh_rates(key[1])
    for old in list(_kept)[: 1 - _MOST_KEPT]:
        _kept.pop(old, None)
    _kept[key] = usual, found
    return found


def fresh_rates(day: date) -> Rates:
    """The same, read from the rows."""
    rows = RateSet.objects.filter(from_day__lte=day).order_by("from_day", "number")
    return rates_from(Rates.of(settings.SHOP), rows.values_list("number", "values"))


def newest_number() -> int:
    """The number of the newest set; 0 while the settings alone speak."""
    newest = RateSet.objects.order_by("-number").values_list("number", flat=True).first()
    return newest or 0


def all_sets() -> Sequence[RateSet]:
    """Every set, newest first, with who adopted it."""
    return list(RateSet.objects.select_related("adopted_by").order_by("-number"))


def name_is_taken(name: str) -> bool:
    """Whether a set goes by that name, in any case of letters."""
    return RateSet.objects.filter(name__iexact=name).exists()


def _stamp() -> Any:
    """What names the newest set; asked once within a request, which sees one state of it."""
    if not getattr(_request, "open", False):
        return _stored_stamp()
    if not hasattr(_request, "stamp"):
        _request.stamp = _stored_stamp()
    return _request.stamp


def _stored_stamp() -> Any:
    with connection.cursor() as cursor:
        cursor.execute(_VERSION)
        newest = cursor.fetchone()
    return newest[0] if newest else None


def forget_what_was_asked() -> None:
    """The rates were changed within this request: ask again."""
    if hasattr(_request, "stamp"):
        del _request.stamp


def _begin(**_rest: Any) -> None:
    _request.open = True
    forget_what_was_asked()


def _end(**_rest: Any) -> None:
    _request.open = False
    forget_what_was_asked()


request_started.connect(_begin, dispatch_uid="quotes.rate_sets.begin")
request_finished.connect(_end, dispatch_uid="quotes.rate_sets.end")
