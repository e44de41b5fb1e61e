"""Everything that was changed on purpose, with its day."""

from __future__ import annotations

from datetime import date

from django.utils import timezone

from intake.desk_words import LABELS
from intake.models import LimitSet, QuestionWording
from intake.wording.selectors import wordings_between
from quotes.domain.insight.changes import Mark
from quotes.models import CostSet, RateSet

_MOST = 40


def _asked_so(row: QuestionWording) -> str:
    return f"“{LABELS.get(row.slug, row.slug)}” asked in other words: {row.reason}"[:160]


def marks(first: date, last: date) -> list[Mark]:
    """New limits, rates, costs and wordings from one day to another, oldest first."""
    limits = LimitSet.objects.filter(adopted_at__date__range=(first, last)).order_by("adopted_at")
    rates = RateSet.objects.filter(from_day__range=(first, last)).order_by("from_day")
    found = [
        Mark(timezone.localdate(one.adopted_at), f"limits {one.name}: {one.reason}"[:160])
        for one in limits[:_MOST]
    ]
    found += [Mark(one.from_day, f"rates {one.name}: {one.reason}"[:160]) for one in rates[:_MOST]]
    costs = CostSet.objects.filter(from_day__range=(first, last)).order_by("from_day")[:_MOST]
    found += [Mark(one.from_day, f"costs {one.name}: {one.reason}"[:160]) for one in costs]
    found += [
        Mark(timezone.localdate(one.adopted_at), _asked_so(one), one.slug)
        for one in wordings_between(first, last)[:_MOST]
    ]
    return sorted(found, key=lambda mark: mark.on)
