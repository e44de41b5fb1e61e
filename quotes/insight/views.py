"""The manager's pages: all questions, one question, the requests behind a number."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from intake.access import manager_required
from quotes.insight import downloads, filters, selectors
from quotes.insight.alarms.selectors import standing_alarms
from quotes.insight.drill import said
from quotes.insight.keeping.selectors import counted_at, is_behind
from quotes.insight.models import RequestFact
from quotes.insight.overview import overview_rows
from quotes.insight.pages.all_of_them import BY_SLUG, QUESTIONS
from quotes.insight.pages.base import Given, Question, View, cause_label


@manager_required
@require_safe
def overview(request: HttpRequest) -> HttpResponse:
    """Every question with its first figure."""
    asked = filters.read(request.GET)
    context = {
        "rows": overview_rows(asked),
        "choices": filters.choices(asked),
        "query": filters.query(asked),
        "looked_at": filters.in_words(asked),
        "alarms": [cause_label(one.cause) for one in standing_alarms()],
        **_freshness(),
    }
    return render(request, "quotes/insight/overview.html", context)


@manager_required
@require_safe
def question(request: HttpRequest, slug: str) -> HttpResponse:
    """One question: figures, pictures, tables."""
    asked = filters.read(request.GET)
    one = _known(slug)
    context = {
        "question": one,
        "view": _view(one, request),
        "questions": QUESTIONS,
        "choices": filters.choices(asked),
        "query": filters.query(asked),
        "looked_at": filters.in_words(asked),
        **_freshness(),
    }
    return render(request, "quotes/insight/question.html", context)


@manager_required
@require_safe
def question_csv(request: HttpRequest, slug: str) -> HttpResponse:
    """The tables of a page as CSV."""
    one = _known(slug)
    return downloads.as_csv(one, _view(one, request), filters.read(request.GET))


@manager_required
@require_safe
def question_xlsx(request: HttpRequest, slug: str) -> HttpResponse:
    """The tables of a page as a workbook."""
    one = _known(slug)
    return downloads.as_xlsx(one, _view(one, request), filters.read(request.GET))


@manager_required
@require_safe
def behind(request: HttpRequest) -> HttpResponse:
    """The requests a number was counted from."""
    asked = filters.read(request.GET)
    measure, key = (request.GET.get(name, "").replace("\x00", "")[:200] for name in ("of", "key"))
    after = request.GET.get("after", "")
    found = selectors.requests_behind(
        asked, measure, key, int(after) if after.isdecimal() and len(after) < 18 else None
    )
    context = {
        "rows": [(fact, _mistakes(fact)) for fact in found.facts],
        "after": found.after,
        "said": said(measure, key),
        "looked_at": filters.in_words(asked),
        "query": filters.query(asked, of=measure, key=key),
        "back": filters.query(asked),
    }
    return render(request, "quotes/insight/behind.html", context)


def _mistakes(fact: RequestFact) -> str:
    return "; ".join(sorted({cause_label(one.cause) for one in fact.mismatch_facts.all()}))


def _known(slug: str) -> Question:
    try:
        return BY_SLUG[slug]
    except KeyError as error:
        raise Http404 from error


def _view(one: Question, request: HttpRequest) -> View:
    return one.view(Given(filters.read(request.GET), one.measures))


def _freshness() -> dict[str, object]:
    return {"counted_at": counted_at(), "is_behind": is_behind()}
