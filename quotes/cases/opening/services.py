"""Opening a case: by what a customer told, or by the desk. At most one stands open for an order."""

from __future__ import annotations

from typing import Any

from django.contrib.auth.models import User
from django.db import transaction
from django.db.models import F
from django.utils import timezone

from catalog.domain.lengths import Length
from intake.inserts import insert
from quotes.cases import selectors
from quotes.cases.lines.services import TRAIL, CaseError, change, note, note_once, state_of
from quotes.cases.models import Case, CaseSeries
from quotes.checks.outcomes import OutcomeFacts, it_fits_as_predicted
from quotes.domain import case_words as words
from quotes.domain.fitted import Expected
from quotes.domain.remedy import OTHER, SHAFT
from quotes.making import order_of
from quotes.models import Quote
from quotes.outcomes.models import Outcome
from staff.trail.services import note_change


@transaction.atomic
def open_case(
    quote: Quote,
    kind: str = "",
    cause: str = "",
    stage: str = "",
    why: str = "",
    by: User | None = None,
    *,
    opened_as: str = "staff",
    part: str = SHAFT,
    gap: Length | None = None,
) -> Case:
    """Open a case of an accepted order; where one is open, add to it what was told now.

    ``stage``: when it was found, a word of FOUND. ``by`` None: it opened by itself. Raises
    CaseError where the order was never accepted.
    """
    if not selectors.was_accepted(quote):
        raise CaseError("A case is opened on an order that was accepted.")
    row = Case(
        quote=quote,
        number=_next_number(),
        opened_as=opened_as,
        kind=kind,
        part=part,
        cause=cause,
        found=stage,
        gap_nm=gap.nm if gap is not None else None,
        opened_by=by,
    )
    if not insert(row, unless_there=True):
        return _told_again(quote, why, by, opened_as, gap)
    note(row, "opened", why or words.OPENED_AS[opened_as], by)
    note_change(record=TRAIL, key=row.number, by=by, why="", before={}, after=state_of(row))
    return row


def _next_number() -> str:
    """The year's next number. It may be lost when what follows fails; it is never given twice."""
    year = timezone.localdate().year
    CaseSeries.objects.get_or_create(year=year)
    CaseSeries.objects.filter(year=year).update(last=F("last") + 1)
    return f"C-{year}-{CaseSeries.objects.get(year=year).last:04d}"


def _told_again(
    quote: Quote, why: str, by: User | None, opened_as: str, gap: Length | None
) -> Case:
    """One is open already: what was thought to fit may be a misfit now; the newest gap counts."""
    case = selectors.open_case_of(quote)
    if case is None:  # it was closed this very moment
        raise CaseError("This case changed a moment ago. Please look again.")
    fields: dict[str, Any] = {}
    if case.opened_as == words.NO_MISFIT and opened_as != words.NO_MISFIT:
        fields["opened_as"] = opened_as
    if gap is not None:
        fields["gap_nm"] = gap.nm
    if fields:
        change(case, fields, by, "told again")
    note_once(case, "told", why or words.OPENED_AS[opened_as], by)
    return case


def case_of_outcome(
    *, quote: Quote, outcome: Outcome, foreseen: Expected | None, by: User | None
) -> Case | None:
    """The case that an answer opens; None where it fits as predicted. In the caller's transaction.

    A "no" and a gap out of its band are misfits. A gap far from the predicted one wants a cause,
    though it fits.
    """
    gap = Length(outcome.gap_nm) if outcome.gap_nm is not None else None
    opened_as = _opened_as(outcome.fitted, gap, foreseen)
    if not opened_as:
        return None
    part = SHAFT if order_of(quote).shaft else OTHER
    why = _words_of(outcome, gap, foreseen)
    found = "at_fitting"
    return open_case(quote, "", "", found, why, by, opened_as=opened_as, part=part, gap=gap)


def _opened_as(fitted: str, gap: Length | None, foreseen: Expected | None) -> str:
    if fitted == "no":
        return "no"
    if gap is None or foreseen is None:
        return ""
    if not foreseen.is_fair(gap):
        return "outside"
    return "shift" if _shifts(gap, foreseen) else ""


def _shifts(gap: Length, foreseen: Expected) -> tuple[str, ...]:
    facts = OutcomeFacts(gap=gap, predicted=foreseen.gap, u=foreseen.u)
    return tuple(one.message for one in it_fits_as_predicted.found(facts))


def _words_of(outcome: Outcome, gap: Length | None, foreseen: Expected | None) -> str:
    """What was told, in one line; the customer's own words are told last."""
    who = f"{outcome.told_by} says" if outcome.told_by else "The customer says"
    said = [f"{who}, asked after {outcome.after_days} days: {outcome.get_fitted_display()}."]
    if gap is not None:
        said.append(f"Gap {gap.both()}.")
        said += list(_shifts(gap, foreseen)) if foreseen else []
    if outcome.different:
        said.append(f"“{outcome.different}”")
    return " ".join(said)
