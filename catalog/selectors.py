"""Reading the catalogue."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

from django.db import connection
from django.utils import timezone

from catalog.domain.stock import Stock, StockPart
from catalog.models import CatalogVersion, Part
from catalog.prices.selectors import prices_on

PAGE = 100
_kept: dict[tuple[Any, date], Stock] = {}

# Asked on every request, so it is not built anew on each: that costs ten times the answer. The
# stamp is compared only with itself, so each database may give it in its own form.
_VERSION = f"SELECT number, stamp FROM {CatalogVersion._meta.db_table} LIMIT 1"  # noqa: S608


def stock() -> Stock:
    """All we stock at today's prices, kept in this process until the catalogue changes or the day
    does: one tiny query. A price set for a day comes into force with it.
    """
    with connection.cursor() as cursor:
        cursor.execute(_VERSION)
        version = cursor.fetchone()
    if version is None:
        return Stock()
    number, stamp = version
    key = stamp, timezone.localdate()
    found = _kept.get(key)
    if found is None:
        found = Stock(tuple(facts_today()), number)
        _kept.clear()
        _kept[key] = found
    return found


def facts_today() -> list[StockPart]:
    """Every part as it is stored and as it costs today: two queries."""
    return _as_they_cost(list(Part.objects.order_by("pk")), prices_on(timezone.localdate()))


def part_today(part: Part) -> Part:
    """The row, its price set to the one in force today: as it is to be shown and changed."""
    part.price = prices_on(timezone.localdate(), [part.code]).get(part.code, part.price)
    return part


def _as_they_cost(parts: Iterable[Part], prices: Mapping[str, Decimal]) -> list[StockPart]:
    facts = [part.as_fact() for part in parts]
    return [
        fact if prices.get(fact.code, fact.price) == fact.price
        else replace(fact, price=prices[fact.code])
        for fact in facts
    ]  # fmt: skip


def parts_page(*, kind: str = "", after: str = "") -> tuple[list[StockPart], str]:
    """One page of parts by code, and the code to ask for the next page after ("" at the end)."""
    rows = Part.objects.filter(code__gt=after).order_by("code")
    if kind:
        rows = rows.filter(kind=kind)
    parts = list(rows[: PAGE + 1])
    today = timezone.localdate()
    found = _as_they_cost(parts, prices_on(today, [part.code for part in parts]))
    return found[:PAGE], found[PAGE - 1].code if len(found) > PAGE else ""


def all_parts() -> list[StockPart]:
    """Every part, in the order in which it first came."""
    return facts_today()
