"""Questions and their words: a manager looks, changes them, and sees what it did."""

from __future__ import annotations

from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from intake.access import manager_required, needs
from intake.domain.questions import QUESTIONS
from intake.wording import selectors, services
from quotes.insight.pages.base import percent, question_label, rate, span
from quotes.insight.wording.selectors import Trial, trials

may_word = needs("intake.view_insights", "intake.add_questionwording")
_LONGEST_BOX = 1000


@manager_required
@require_safe
def wordings(request: HttpRequest) -> HttpResponse:
    """Every question as it is asked now, and every change with its trial."""
    now = {row.slug: row for row in selectors.newest_of_each()}
    questions = [
        (slug, question_label(slug), (now[slug].ask if slug in now else "") or one.ask)
        for slug, one in QUESTIONS.items()
    ]
    rows = [_row(one) for one in trials(selectors.all_wordings())]
    context = {"questions": questions, "trials": rows}
    return render(request, "quotes/insight/wordings.html", context)


def _row(trial: Trial) -> dict[str, object]:
    low, high = trial.difference
    return {
        "row": trial.row,
        "label": question_label(trial.row.slug),
        "days": trial.days,
        "before": rate(trial.before),
        "before_span": span(trial.before),
        "after": rate(trial.after),
        "after_span": span(trial.after),
        "difference": f"{_signed(low)} to {_signed(high)}" if trial.after.of else "—",
        "is_apart": trial.is_apart,
    }


def _signed(share: float) -> str:
    return f"{'−' if share < 0 else '+'}{percent(abs(share))}"


@may_word
@require_http_methods(["GET", "HEAD", "POST"])
def word_question(request: HttpRequest, slug: str) -> HttpResponse:
    """Ask one question in other words."""
    if slug not in QUESTIONS:
        raise Http404
    if request.method != "POST":
        return _page(request, slug, {}, {})
    names = ("ask", "ask_es", "reason", "based_on")
    typed = {name: request.POST.get(name, "")[:_LONGEST_BOX] for name in names}
    based = typed["based_on"]
    try:
        services.adopt_wording(
            slug=slug,
            ask=typed["ask"],
            ask_es=typed["ask_es"],
            reason=typed["reason"],
            by=cast("User", request.user),
            based_on=int(based) if based.isascii() and based.isdigit() else None,
        )
    except services.WordingErrors as refused:
        return _page(request, slug, typed, refused.errors, status=400)
    except services.WordingOvertaken as late:
        return _page(request, slug, typed, {"": str(late)}, status=409)
    messages.success(request, "Asked so from now on. Other processes follow within half a minute.")
    return redirect("wording")


def _page(
    request: HttpRequest,
    slug: str,
    typed: dict[str, str],
    errors: dict[str, str],
    status: int = 200,
) -> HttpResponse:
    rows = selectors.wordings_of(slug)
    now = rows[0] if rows else None
    context = {
        "slug": slug,
        "label": question_label(slug),
        "own": QUESTIONS[slug].ask,
        "why_asked": QUESTIONS[slug].why,
        "usual_slip": QUESTIONS[slug].slip,
        "rows": rows,
        "newest": now.number if now else 0,
        "typed": typed
        or {"ask": now.ask if now else "", "ask_es": now.ask_es if now else "", "reason": ""},
        "errors": errors,
    }
    return render(request, "quotes/insight/wording.html", context, status=status)
