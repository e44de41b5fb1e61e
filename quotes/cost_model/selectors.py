"""Which costs and targets are in force, and every set that changed them."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from django.utils import timezone

from quotes.cost_model.models import CostSet
from quotes.domain.cost_fields import model_from
from quotes.domain.cost_model import CostModel


def costs_on(day: date | None = None) -> CostModel:
    """The costs and targets in force on a day; today where none is given."""
    return costs_on_days([day or timezone.localdate()])[0]


def costs_on_days(days: Sequence[date]) -> list[CostModel]:
    """The same for several days, in one query."""
    rows = CostSet.objects.order_by("from_day", "number").values_list("from_day", "values")
    sets = list(rows)
    return [model_from(*(values for first, values in sets if first <= day)) for day in days]


def newest_number() -> int:
    """The number of the newest set; 0 while the usual figures alone hold."""
    newest = CostSet.objects.order_by("-number").values_list("number", flat=True).first()
    return newest or 0


def all_sets() -> list[CostSet]:
    """Every set, newest first, with who adopted it."""
    return list(CostSet.objects.select_related("adopted_by").order_by("-number"))


def name_is_taken(name: str) -> bool:
    """Whether a set goes by that name, in any case of letters."""
    return CostSet.objects.filter(name__iexact=name).exists()
