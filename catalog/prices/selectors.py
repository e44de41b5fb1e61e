"""What parts cost on a day, what is to come, and how a price came about."""

from __future__ import annotations

from collections.abc import Collection
from datetime import date
from decimal import Decimal

from django.db.models import Exists, Max, OuterRef, Q, QuerySet

from catalog.prices.models import PartPrice

PAGE = 100
_FEW = 500  # codes that are asked for by name; for more, all rows cost less than the long question


def prices_on(day: date, codes: Collection[str] | None = None) -> dict[str, Decimal]:
    """The price of each part that is in force on a day, by code; one query."""
    later = Q(from_day__gt=OuterRef("from_day")) | Q(
        from_day=OuterRef("from_day"), number__gt=OuterRef("number")
    )
    newer = PartPrice.objects.filter(later, code=OuterRef("code"), from_day__lte=day)
    rows = PartPrice.objects.filter(~Exists(newer), from_day__lte=day).order_by()
    return dict(_named(rows, codes).values_list("code", "price"))


def last_numbers(codes: Collection[str]) -> dict[str, int]:
    """The number of the newest row of each code; one query."""
    rows = _named(PartPrice.objects.order_by(), codes)
    return dict(rows.values("code").annotate(last=Max("number")).values_list("code", "last"))


def _named(rows: QuerySet[PartPrice], codes: Collection[str] | None) -> QuerySet[PartPrice]:
    return rows.filter(code__in=codes) if codes is not None and len(codes) <= _FEW else rows


def prices_of(code: str) -> list[PartPrice]:
    """Every price one part ever had or will have, the latest day first."""
    rows = PartPrice.objects.filter(code=code).select_related("by")
    return list(rows.order_by("-from_day", "-number")[:PAGE])


def to_come(
    today: date, after: tuple[date, int] | None = None
) -> tuple[list[PartPrice], tuple[date, int] | None]:
    """A page of prices set for a day that has not come, the nearest first, and the place to ask
    for the next page after (None at the end).
    """
    rows = PartPrice.objects.filter(from_day__gt=today).select_related("by")
    if after is not None:
        day, key = after
        rows = rows.filter(Q(from_day__gt=day) | Q(from_day=day, pk__gt=key), from_day__gte=day)
    found = list(rows.order_by("from_day", "pk")[: PAGE + 1])
    shown = found[:PAGE]
    more = (shown[-1].from_day, shown[-1].pk) if len(found) > PAGE else None
    return shown, more


def newest_key() -> int:
    """The key of the row stored last; 0 where there is none."""
    return PartPrice.objects.aggregate(newest=Max("pk"))["newest"] or 0


def set_since(key: int, codes: Collection[str]) -> list[str]:
    """Of these parts, those somebody has set a price for since that row was the newest."""
    rows = _named(PartPrice.objects.filter(pk__gt=key), codes)
    return sorted(set(rows.values_list("code", flat=True)) & set(codes))
