"""Erasing who a customer was from cases and own parts. Causes, lengths, days and amounts stay."""

from __future__ import annotations

from collections.abc import Sequence

from quotes.cases.lines.services import TRAIL
from quotes.cases.models import Case, CaseCost, CaseEvent
from quotes.outcomes.models import NotYetFitted, Outcome
from quotes.receiving.models import OwnPart
from staff.trail.services import FORGOTTEN, forget_values


def forget_cases(quotes: Sequence[int]) -> None:
    """Names and free words are blanked. In the caller's transaction."""
    cases = Case.objects.filter(quote__in=quotes)
    cases.update(evidence="", found_by="", payer_why="")
    CaseEvent.objects.filter(case__in=cases).update(words=FORGOTTEN)
    CaseCost.objects.filter(case__in=cases, invented=False).update(words="")
    for number in cases.order_by().values_list("number", flat=True):
        forget_values(record=TRAIL, key=number, names=())
    parts = OwnPart.objects.filter(quote__in=quotes)
    parts.update(received_from="", condition="", place="", returned_how="")
    # An empty reason would mean that it is awaited again.
    parts.exclude(not_coming="").update(not_coming=FORGOTTEN)
    Outcome.objects.filter(quote__in=quotes).update(told_by="")
    NotYetFitted.objects.filter(quote__in=quotes).update(told_by="")
