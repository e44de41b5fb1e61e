"""The desk's pages of cases: the list, one case with its steps, and opening one by hand."""

from __future__ import annotations

from collections.abc import Callable
from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from intake.access import needs
from intake.models import Submission
from intake.selectors import by_reference
from quotes.cases import selectors, services
from quotes.cases.forms import (
    AgreeForm,
    CauseForm,
    CostForm,
    RemakeForm,
    SizeForm,
    StepForm,
    WordsForm,
)
from quotes.cases.models import Case
from quotes.cases.page import FORMS, CaseShown
from quotes.cases.remaking.services import accept_at_our_cost, remake
from quotes.cases.rows import CaseRow
from quotes.cases.services import CaseError
from quotes.outcomes.selectors import order_to_ask_about
from quotes.shop.selectors import last_accepted

cases_required = needs("intake.view_submission", "quotes.change_case")
reader_required = needs("intake.view_submission", "quotes.view_case")


@cases_required
@require_safe
def cases(request: HttpRequest) -> HttpResponse:
    """Cases that are open, want a cause, or are closed."""
    show = request.GET.get("show", "open")
    show = show if show in selectors.SHOWS else "open"
    after = request.GET.get("after", "")
    page = selectors.some_cases(show, int(after) if _is_key(after) else None)
    context = {
        "rows": [CaseRow(case) for case in page.cases],
        "after": page.after,
        "is_first": not after,
        "show": show,
        "shows": selectors.SHOWS.items(),
        "want_a_cause": selectors.how_many_want_a_cause(),
    }
    return render(request, "quotes/desk_cases.html", context)


def _is_key(text: str) -> bool:
    return text.isdecimal() and len(text) < 19


@reader_required
@require_http_methods(["GET", "HEAD", "POST"])
def case(request: HttpRequest, case_number: str) -> HttpResponse:
    """One case; POST takes one step of it, for whoever may."""
    found = _find(case_number)
    if request.method != "POST":
        return _show(request, found)
    return cases_required(_step)(request, found)


def _step(request: HttpRequest, found: Case) -> HttpResponse:
    """One step: read its form, call its service, show what came of it."""
    step = _STEPS.get(request.POST.get("do", ""))
    if step is None:
        raise Http404
    name, act, said = step
    form = FORMS[name](found, request.POST)
    if not form.is_valid():
        return _show(request, found, form, status=400)
    try:
        act(found, form, cast("User", request.user))
    except CaseError as error:
        refused = form.refuse(error.errors)
        return _show(request, selectors.fresh_case(found.pk), form, refused, status=400)
    messages.success(request, said)
    return redirect("case", found.number)


def _show(
    request: HttpRequest,
    found: Case,
    form: StepForm | None = None,
    refused: str = "",
    status: int = 200,
) -> HttpResponse:
    writes = request.user.has_perm("quotes.change_case")
    shown = CaseShown(found, form, refused, writes=writes)
    return render(request, "quotes/desk_case.html", {"page": shown}, status=status)


def _find(number: str) -> Case:
    try:
        return selectors.case_by_number(number)
    except Case.DoesNotExist:
        raise Http404 from None


# --- Steps: the form, what it does, what is said then -----------------------------------


def _size(found: Case, form: StepForm, by: User) -> None:
    form = cast("SizeForm", form)
    said = form.cleaned_data
    services.tell_size(case=found, part=said["part"], gap=said["gap"], excess=form.signed, by=by)


def _cause(found: Case, form: StepForm, by: User) -> None:
    services.code_cause(case=found, coded=cast("CauseForm", form).coded, by=by)


def _agree(found: Case, form: StepForm, by: User) -> None:
    services.agree(case=found, agreement=cast("AgreeForm", form).agreement, by=by)


def _begin(found: Case, form: StepForm, by: User) -> None:
    del form
    services.begin(case=found, by=by)


def _finish(found: Case, form: StepForm, by: User) -> None:
    services.finish(case=found, said=form.cleaned_data["said"], by=by)


def _back(found: Case, form: StepForm, by: User) -> None:
    services.reopen(case=found, why=form.cleaned_data["why_back"], by=by)


def _without(found: Case, form: StepForm, by: User) -> None:
    services.close_without(case=found, why=form.cleaned_data["why_without"], by=by)


def _note(found: Case, form: StepForm, by: User) -> None:
    services.work_note(case=found, said=form.cleaned_data["note"], by=by)


def _cost(found: Case, form: StepForm, by: User) -> None:
    form = cast("CostForm", form)
    services.book_cost(case=found, cost=form.cost, once=form.cleaned_data["once"], by=by)


def _usual(found: Case, form: StepForm, by: User) -> None:
    del form
    services.book_usual(case=found, by=by)


def _remake(found: Case, form: StepForm, by: User) -> None:
    remake(case=found, why=form.cleaned_data["why_new"], by=by)


def _accept(found: Case, form: StepForm, by: User) -> None:
    del form
    accept_at_our_cost(case=found, by=by)


Act = Callable[[Case, StepForm, User], None]
_WORDS = WordsForm.step
_STEPS: dict[str, tuple[str, Act, str]] = {
    "size": (SizeForm.step, _size, "Written down."),
    "cause": (CauseForm.step, _cause, "The cause is coded."),
    "agree": (AgreeForm.step, _agree, "Agreed."),
    "cost": (CostForm.step, _cost, "Booked."),
    "begin": (_WORDS, _begin, "Work has begun."),
    "finish": (_WORDS, _finish, "Done; the case is closed."),
    "back": (_WORDS, _back, "It goes back one step."),
    "without": (_WORDS, _without, "The case is closed."),
    "note": (_WORDS, _note, "Written down."),
    "remake": (RemakeForm.step, _remake, "The remake's quote is made."),
    "accept": (_WORDS, _accept, "The remake is accepted, and goes to the shop."),
    "usual": (_WORDS, _usual, "The usual costs are booked, marked as invented."),
}


# --- Opening one ------------------------------------------------------------------------


@cases_required
@require_http_methods(["GET", "HEAD", "POST"])
def open_case(request: HttpRequest, reference: str) -> HttpResponse:
    """Open a case by hand, any time after the acceptance; the cases there are."""
    submission = _submission(reference)
    quote = order_to_ask_about(submission) or last_accepted(submission.pk)
    said, refused = request.POST.get("why", ""), ""
    if request.method == "POST" and quote is None:
        refused = "No quote of this request was accepted, so there is nothing to put right."
    elif request.method == "POST" and not said.strip():
        refused = "Write in a few words what is wrong."
    elif request.method == "POST" and quote is not None:
        opened = services.open_case(quote, why=said.strip(), by=cast("User", request.user))
        return redirect("case", opened.number)
    context = {
        "submission": submission,
        "quote": quote,
        "cases": [CaseRow(one) for one in selectors.cases_of(submission)],
        "why": said,
        "refused": refused,
    }
    status = 400 if refused else 200
    return render(request, "quotes/desk_case_open.html", context, status=status)


def _submission(reference: str) -> Submission:
    try:
        return by_reference(reference)
    except Submission.DoesNotExist:
        raise Http404 from None
