"""Reading the counts and what lies behind them."""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from django.db.models import Q, QuerySet, Sum

from quotes.domain.insight.honesty import EDGES, FIT_EDGES, KEYS
from quotes.domain.insight.measures import Counted, Counts, Measure
from quotes.insight.asked import Asked
from quotes.models import BarFact, Cell, FlagFact, MismatchFact, RequestFact

PAGE = 50
_MOST_WAITS = 100_000
_FILTERS = ("channel", "method", "layout", "role")
_LONGEST_KEY = 120  # what Cell.key holds
_FIT_BINS = tuple(str(at) for at in range(len(FIT_EDGES) + 1))
_TOLD: dict[str, bool | None] = {"fitted": True, "misfit": False, "silent": None}


def counts(asked: Asked, measures: Iterable[Measure]) -> Counts:
    """Those measures by month and key, under the circumstances asked for: one query."""
    rows = under(Cell.objects.all(), asked).filter(measure__in=[one.value for one in measures])
    grouped = rows.order_by().values_list("month", "measure", "key")
    summed = grouped.annotate(Sum("n"), Sum("amount"))
    return {
        (month, Measure(measure), key): Counted(n, amount)
        for month, measure, key, n, amount in summed
    }


def under(rows: QuerySet[Any], asked: Asked, month: str = "month") -> QuerySet[Any]:
    """The rows of those months under those circumstances."""
    return _alike(rows.filter(**{f"{month}__range": (asked.first, asked.last)}), asked)


def _alike(rows: QuerySet[Any], asked: Asked) -> QuerySet[Any]:
    for name in _FILTERS:
        if wanted := getattr(asked, name):
            rows = rows.filter(**{name: wanted})
    return rows.filter(parts__contains=asked.part) if asked.part else rows


def waits(asked: Asked) -> list[tuple[str, tuple[int, int, int]]]:
    """The month of each request that was quoted, and its seconds waited for program, desk and
    customer; of more than a hundred thousand, the newest."""
    quoted = under(RequestFact.objects.exclude(machine_seconds=None), asked).order_by("-pk")
    names = ("month", "machine_seconds", "desk_seconds", "customer_seconds")
    return [(month, tuple(rest)) for month, *rest in quoted.values_list(*names)[:_MOST_WAITS]]


def came_back(asked: Asked, most: int) -> list[MismatchFact]:
    """Mistakes that were seen before, the newest first, with their requests."""
    again = under(MismatchFact.objects.exclude(again=""), asked)
    return list(again.select_related("fact__submission").order_by("-on", "-pk")[:most])


# --- Behind a number ------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Behind:
    """Some of the requests behind a number; ``after``: where the next page goes on."""

    facts: list[RequestFact]
    after: int | None


def requests_behind(asked: Asked, measure: str, key: str, after: int | None = None) -> Behind:
    """Requests that are counted in a number, the newest first, with their mistakes."""
    facts = _counted_in(asked, measure, key)
    if after is not None:
        facts = facts.filter(pk__lt=after)
    rows = facts.select_related("submission").prefetch_related("mismatch_facts")
    found = list(rows.order_by("-pk")[: PAGE + 1])
    return Behind(found[:PAGE], found[PAGE - 1].pk if len(found) > PAGE else None)


def _counted_in(asked: Asked, measure: str, key: str) -> QuerySet[RequestFact]:
    """By the month that number counts in. What is no number of ours has nothing behind it."""
    came = under(RequestFact.objects.all(), asked)
    left = under(RequestFact.objects.all(), asked, "shipped_month")
    if measure in (Measure.FLAG, Measure.FLAG_RIGHT, Measure.FLAG_ANSWERED):
        flags = under(FlagFact.objects.filter(check_id=key), asked)
        return RequestFact.objects.filter(pk__in=flags.order_by().values("fact"))
    if measure in (Measure.MISMATCH, Measure.BORN):
        return RequestFact.objects.filter(pk__in=_mistakes(asked, measure, key))
    if measure == Measure.BAR_USED:
        return _sawn(asked, key)
    found: dict[str, QuerySet[RequestFact]] = {
        Measure.RECEIVED: came,
        Measure.CAUGHT: came.filter(caught=key) if key else came.exclude(caught=""),
        Measure.LACKING: came.filter(_holds("lacking", key)),
        Measure.SHIPPED: left.filter(fits=_TOLD[key]) if key in _TOLD else left,
        Measure.OVER: left.filter(_holds("over", key)),
        Measure.FIT_STATED: left.filter(_in_fit_bin(key), fits__isnull=False),
        Measure.Z: left.filter(_in_z_bin(key), fits=True),
    }
    return found.get(measure, RequestFact.objects.none())


def _holds(name: str, words: str) -> Q:
    """Rows whose list of texts has one of those words.

    A database keeps the list as JSON text; one writes letters beyond ASCII as they are, another
    as escapes. A key that was cut to what a cell can hold stands for all that begin with it.
    """
    wanted = Q()
    for plainly in (True, False):
        text = json.dumps(words, ensure_ascii=plainly)
        text = text if len(words) < _LONGEST_KEY else text.removesuffix('"')
        wanted |= Q(**{f"{name}__icontains": text})
    return wanted


def _sawn(asked: Asked, size: str) -> QuerySet[RequestFact]:
    """Requests a bar of that size was sawn for; the month is that of the saw."""
    bars = BarFact.objects.filter(size=size, month__range=(asked.first, asked.last))
    facts = RequestFact.objects.filter(pk__in=bars.order_by().values("fact"))
    return _alike(facts, asked)


def _mistakes(asked: Asked, measure: str, key: str) -> QuerySet[MismatchFact, Any]:
    """By cause, by the letter of a family, or by the question it was made in."""
    rows = under(MismatchFact.objects.all(), asked)
    if measure == Measure.BORN:
        rows = rows.filter(answer=key)
    else:
        rows = rows.filter(cause__startswith=key) if len(key) == 1 else rows.filter(cause=key)
    return rows.order_by().values("fact")


def _in_fit_bin(key: str) -> Q:
    edges = (-0.01, *FIT_EDGES, 1.01)
    if key not in _FIT_BINS:
        return Q(pk=None)
    at = _FIT_BINS.index(key)
    return Q(stated_fit__gte=edges[at], stated_fit__lt=edges[at + 1])


def _in_z_bin(key: str) -> Q:
    if key not in KEYS:
        return Q(pk=None)
    if key == KEYS[0]:
        return Q(z__lt=EDGES[0])
    low = EDGES[-1] + 0.5 if key == KEYS[-1] else float(key)
    return Q(z__gte=low) if key == KEYS[-1] else Q(z__gte=low, z__lt=low + 0.5)
