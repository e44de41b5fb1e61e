"""What is kept of some orders in cases, own parts and days named, as it is handed out."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from typing import Any

from quotes.cases.lines.services import TRAIL
from quotes.cases.models import Case, CaseCost, CaseEvent
from quotes.outcomes.models import NotYetFitted
from quotes.receiving.models import OwnPart
from staff.models import Change

Rows = list[dict[str, Any]]
_OF_A_CASE = (
    *("number", "state", "kind", "part", "gap_nm", "excess_nm", "by_nm", "cause", "contributing"),
    *("evidence", "found_by", "found", "born", "payer", "payer_why", "opened_at", "closed_at"),
)
_OF_A_PART = (
    *("what", "awaited_since", "received_on", "received_from", "condition", "place"),
    *("not_coming", "returned_on", "returned_how"),
)


def cases_handed_out(quotes: Sequence[int]) -> Mapping[int, dict[str, Rows]]:
    """By quote: its cases with their lines, its own parts, and days named to ask again."""
    told: dict[int, dict[str, Rows]] = defaultdict(
        lambda: {"cases": [], "own_parts": [], "not_yet_fitted": []}
    )
    for case in Case.objects.filter(quote__in=quotes).order_by("pk"):
        row = {name: getattr(case, name) for name in _OF_A_CASE}
        told[case.quote_id]["cases"].append({**row, **_lines(case)})
    for part in OwnPart.objects.filter(quote__in=quotes).order_by("pk"):
        row = {name: getattr(part, name) for name in _OF_A_PART}
        told[part.quote_id]["own_parts"].append(row)
    for one in NotYetFitted.objects.filter(quote__in=quotes).order_by("pk"):
        row = {"ask_on": one.ask_on, "told_by": one.told_by, "at": one.at}
        told[one.quote_id]["not_yet_fitted"].append(row)
    return told


def _lines(case: Case) -> dict[str, Rows]:
    costs = CaseCost.objects.filter(case=case).order_by("pk")
    events = CaseEvent.objects.filter(case=case).order_by("pk")
    trail = Change.objects.filter(record=TRAIL, key=case.number).order_by("pk")
    return {
        "costs": [
            {"kind": one.kind, "words": one.words, "amount": one.amount, "at": one.at}
            for one in costs
        ],
        "events": [{"what": one.what, "words": one.words, "at": one.at} for one in events],
        "changes": [{"why": one.why, "what": one.what, "at": one.at} for one in trail],
    }
