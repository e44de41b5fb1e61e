"""Pages of customers' own parts: those that are awaited, and those of one request."""

from __future__ import annotations

from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from intake.access import needs
from intake.models import Submission
from intake.selectors import by_reference
from quotes.receiving import selectors, services
from quotes.receiving.forms import ArrivalForm
from quotes.receiving.models import OwnPart
from quotes.receiving.services import NotReceived
from quotes.shop.selectors import last_accepted

parts_required = needs("intake.view_submission", "quotes.change_ownpart")


@parts_required
@require_safe
def awaited(request: HttpRequest) -> HttpResponse:
    """Customers' parts that are not here, longest awaited first."""
    after = request.GET.get("after", "")
    page = selectors.awaited(int(after) if after.isdecimal() and len(after) < 19 else None)
    context = {
        "rows": [(part, part.awaited_since < page.late_before) for part in page.parts],
        "after": page.after,
        "is_first": not after,
        "late_after": selectors.LATE_AFTER.days,
    }
    return render(request, "quotes/desk_parts.html", context)


@parts_required
@require_http_methods(["GET", "HEAD", "POST"])
def parts(request: HttpRequest, reference: str) -> HttpResponse:
    """Parts of one request: take one in, give it back, stop waiting."""
    submission = _find(reference)
    if request.method != "POST":
        return _page(request, submission, ArrivalForm())
    act = {"receive": _receive, "back": _give_back, "stop": _stop_waiting}
    if request.POST.get("do") not in act:
        raise Http404
    return act[request.POST["do"]](request, submission)


def _receive(request: HttpRequest, submission: Submission) -> HttpResponse:
    """What was awaited is taken in as such; what was not is written down as it came."""
    form, by = ArrivalForm(request.POST), cast("User", request.user)
    if not form.is_valid():
        return _page(request, submission, form, status=400)
    try:
        taken_in = _take_in(request, submission, form, by)
    except NotReceived as missing:
        for box, said in missing.errors.items():
            form.add_error(box if box in form.fields else None, said)
        return _page(request, submission, form, status=400)
    messages.success(request, "It is here." if taken_in else "It was taken in already.")
    return redirect("own-parts", reference=submission.reference)


def _take_in(request: HttpRequest, submission: Submission, form: ArrivalForm, by: User) -> bool:
    if request.POST.get("part"):
        part = _part(request, submission)
        return services.receive(part=part, arrival=form.arrival, by=by)
    quote = last_accepted(submission.pk)
    if quote is None:
        raise NotReceived({"what": "No quote of this request was accepted: what is it for?"})
    what = form.cleaned_data["what"]
    services.receive_unasked(quote=quote, what=what, arrival=form.arrival, by=by)
    return True


def _give_back(request: HttpRequest, submission: Submission) -> HttpResponse:
    part, how = _part(request, submission), request.POST.get("how", "").strip()
    done = services.give_back(part=part, how=how, by=cast("User", request.user))
    messages.success(request, "It has gone back." if done else "It is not here.")
    return redirect("own-parts", reference=submission.reference)


def _stop_waiting(request: HttpRequest, submission: Submission) -> HttpResponse:
    try:
        services.stop_waiting(
            part=_part(request, submission), why=request.POST.get("not_coming", "").strip()
        )
    except NotReceived as missing:
        return _page(request, submission, ArrivalForm(), refused=str(missing), status=400)
    messages.success(request, "Nobody waits for it any more.")
    return redirect("own-parts", reference=submission.reference)


def _part(request: HttpRequest, submission: Submission) -> OwnPart:
    try:
        return selectors.part_by_key(submission, int(request.POST.get("part", "")[:18]))
    except (ValueError, OwnPart.DoesNotExist):
        raise Http404 from None


def _page(
    request: HttpRequest,
    submission: Submission,
    form: ArrivalForm,
    *,
    refused: str = "",
    status: int = 200,
) -> HttpResponse:
    context = {
        "submission": submission,
        "parts": selectors.parts_of(submission),
        "form": form,
        "chosen": request.POST.get("part", ""),
        "refused": refused,
    }
    return render(request, "quotes/desk_own_parts.html", context, status=status)


def _find(reference: str) -> Submission:
    try:
        return by_reference(reference)
    except Submission.DoesNotExist:
        raise Http404 from None
