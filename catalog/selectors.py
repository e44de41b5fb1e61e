"""Reading the catalogue."""

from __future__ import annotations

from typing import Any

from django.db import connection

from catalog.domain.stock import Stock, StockPart
from catalog.models import CatalogVersion, Part

PAGE = 100
_kept: dict[Any, Stock] = {}

# Asked on every request, so it is not built anew on each: that costs ten times the answer. The
# stamp is compared only with itself, so each database may give it in its own form.
_VERSION = f"SELECT number, stamp FROM {CatalogVersion._meta.db_table} LIMIT 1"  # noqa: S608


def stock() -> Stock:
    """All we stock, kept in this process until the catalogue changes: one tiny query."""
    with connection.cursor() as cursor:
        cursor.execute(_VERSION)
        version = cursor.fetchone()
    if version is None:
        return Stock()
    number, stamp = version
    found = _kept.get(stamp)
    if found is None:
        found = Stock(tuple(_facts()), number)
        _kept.clear()
        _kept[stamp] = found
    return found


def _facts() -> list[StockPart]:
    return [part.as_fact() for part in Part.objects.order_by("pk")]


def parts_page(*, kind: str = "", after: str = "") -> tuple[list[StockPart], str]:
    """One page of parts by code, and the code to ask for the next page after ("" at the end)."""
    rows = Part.objects.filter(code__gt=after).order_by("code")
    if kind:
        rows = rows.filter(kind=kind)
    found = [part.as_fact() for part in rows[: PAGE + 1]]
    return found[:PAGE], found[PAGE - 1].code if len(found) > PAGE else ""


def all_parts() -> list[StockPart]:
    """Every part, in the order in which it first came."""
    return _facts()
