"""What is read of cases: one question answered each, in a constant number of queries."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from django.db.models import Exists, OuterRef, Q, QuerySet, Subquery, Sum

from catalog.domain.lengths import Length
from intake.finding.request.answered import Told, all_told
from intake.models import CallRecord, SheetVersion, Submission
from intake.selectors import current_sheet, history_of
from quotes.cases.models import Case, CaseCost, CaseEvent
from quotes.domain.case_words import AGREED, DOING, NO_MISFIT, STANDS_OPEN
from quotes.domain.fitted import Expected
from quotes.domain.order import Order
from quotes.domain.remedy import Misfit
from quotes.making import order_of
from quotes.models import Quote
from quotes.receiving.models import SHAFT, OwnPart

PAGE = 25
_WITH = ("quote", "quote__submission", "quote__sheet")
# What a page of the list may show, and what its words are.
SHOWS = {
    "open": "open",
    "cause": "cause wanted",
    "closed": "closed",
}


def case_by_number(number: str) -> Case:
    """One case with its order. Raises Case.DoesNotExist."""
    return Case.objects.select_related(*_WITH, "opened_by").get(number=number)


def fresh_case(pk: int) -> Case:
    """The case as it stands now."""
    return Case.objects.select_related(*_WITH).get(pk=pk)


def was_accepted(quote: Quote) -> bool:
    """Whether somebody said yes to this quote, whatever became of it since."""
    return Quote.objects.filter(pk=quote.pk, accepted_at__isnull=False).exists()


def open_case_of(quote: Quote) -> Case | None:
    """The case that is open for this order, if one is."""
    return Case.objects.filter(quote=quote, state__in=STANDS_OPEN).select_related(*_WITH).first()


def is_put_right(submission: Submission) -> bool:
    """Whether a misfit of an order that has left us is open."""
    misfits = Case.objects.filter(quote__submission=submission, state__in=STANDS_OPEN)
    return misfits.exclude(opened_as=NO_MISFIT).filter(quote__shipment__isnull=False).exists()


def cases_of(submission: Submission) -> list[Case]:
    """Every case of a request, newest first."""
    return list(Case.objects.filter(quote__submission=submission).select_related("quote"))


@dataclass(frozen=True, slots=True)
class CasePage:
    """Some cases, the longest open first; ``after``: the key the next page begins behind, None
    where there is none."""

    cases: Sequence[Case]
    after: int | None


def some_cases(show: str = "open", after: int | None = None, size: int = PAGE) -> CasePage:
    """Cases that are open, that want a cause, or that are closed; closed ones newest first."""
    costs = CaseCost.objects.filter(case=OuterRef("pk")).order_by().values("case")
    cost = Subquery(costs.annotate(sum=Sum("amount")).values("sum"))
    cases = _shown(show).select_related("quote__submission").annotate(cost=cost)
    newest_first = show == "closed"
    if after is not None:
        cases = cases.filter(_behind(after, newest_first=newest_first))
    order = ("-opened_at", "-pk") if newest_first else ("opened_at", "pk")
    found = list(cases.order_by(*order)[: size + 1])
    return CasePage(found[:size], found[size - 1].pk if len(found) > size else None)


def _shown(show: str) -> QuerySet[Case]:
    if show == "cause":
        return Case.objects.filter(cause="")
    return Case.objects.filter(closed_at__isnull=show != "closed")


def _behind(key: int, *, newest_first: bool) -> Q:
    """Behind that one in the list; a key nobody has begins behind nothing."""
    moment = Case.objects.filter(pk=key).values_list("opened_at", flat=True).first()
    if moment is None:
        return Q(pk__isnull=False)
    if newest_first:
        before = Q(opened_at__lt=moment) | Q(opened_at=moment, pk__lt=key)
        return before & Q(opened_at__lte=moment)  # which an index can be read from
    later = Q(opened_at__gt=moment) | Q(opened_at=moment, pk__gt=key)
    return later & Q(opened_at__gte=moment)


def how_many_want_a_cause() -> int:
    """Cases without a cause: a misfit, or a gap that is not as predicted."""
    return Case.objects.filter(cause="").count()


def costs_of(case: Case) -> list[CaseCost]:
    """The lines of a case, as they were booked."""
    return list(CaseCost.objects.filter(case=case).select_related("by"))


def events_of(case: Case) -> list[CaseEvent]:
    """What happened to a case, from its beginning."""
    return list(CaseEvent.objects.filter(case=case).select_related("by"))


def parts_of(case: Case) -> list[OwnPart]:
    """Parts that were asked back for this case."""
    return list(OwnPart.objects.filter(case=case).order_by("pk"))


def remake_for(case: Case) -> Quote | None:
    """The newest quote that makes this case's order anew."""
    return Quote.objects.filter(remake_of=case.quote_id).order_by("-version").first()


def sheet_now(case: Case) -> SheetVersion:
    """The sheet of the case's request as it stands now."""
    return current_sheet(case.quote.submission)


def last_words(case: Case) -> tuple[str, int | None]:
    """The newest line of a case and who wrote it: the same once more is a double click."""
    newest = CaseEvent.objects.filter(case=case).order_by("-at", "-pk")
    return newest.values_list("words", "by_id").first() or ("", None)


def total_of(case: Case) -> Decimal:
    """What it has cost so far."""
    found = CaseCost.objects.filter(case=case).aggregate(total=Sum("amount"))["total"]
    return found if found is not None else Decimal("0.00")


# --- What it rests on -----------------------------------------------------------------


def misfit_of(case: Case, foreseen: Expected | None) -> Misfit | None:
    """What is known of the misfit, for advice; None where no shaft was ordered.

    ``foreseen``: what was expected of it before this case changed anything.
    """
    order = order_of(case.quote)
    if order.shaft is None or foreseen is None:
        return None
    return Misfit(
        part=case.part,
        system=foreseen.system,
        length=foreseen.length,
        overall=order.shaft.overall + (foreseen.length - order.shaft.length),
        least=foreseen.least,
        goal=foreseen.goal,
        most=foreseen.most,
        gap=Length(case.gap_nm) if case.gap_nm is not None else None,
        excess=Length(case.excess_nm) if case.excess_nm is not None else None,
        plain_end=_is_plain(order),
    )


def _is_plain(order: Order) -> bool:
    shaft = order.shaft
    return shaft is not None and shaft.forward_end == "straight" and shaft.layout == "conventional"


def asked_before(case: Case) -> list[Told]:
    """Every check that had held this request, and what settled it: was one released over?"""
    history = history_of(case.quote.submission)
    sheets = [entry.row for entry in history if isinstance(entry.row, SheetVersion)]
    calls = [entry.row for entry in history if isinstance(entry.row, CallRecord)]
    accepted = [one for one in sheets if one.number <= case.quote.sheet.number]
    return all_told(accepted, calls) if accepted else []


# --- The shop's part ------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class ReworkPage:
    """Some shafts to shorten, the longest agreed first."""

    cases: Sequence[Case]
    after: int | None


def to_shorten(after: int | None = None, size: int = PAGE) -> ReworkPage:
    """Shafts that come back to us to be shortened, and are not finished."""
    comes = OwnPart.objects.filter(case=OuterRef("pk"), what=SHAFT)
    cases = Case.objects.filter(Exists(comes), kind="shorten", state__in=(AGREED, DOING))
    if after is not None:
        cases = cases.filter(_behind(after, newest_first=False))
    with_parts = cases.select_related(*_WITH).prefetch_related("own_parts")
    found = list(with_parts.order_by("opened_at", "pk")[: size + 1])
    return ReworkPage(found[:size], found[size - 1].pk if len(found) > size else None)
