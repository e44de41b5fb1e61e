"""The machinist's list of shafts that come back to be shortened."""

from __future__ import annotations

from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from intake.access import needs
from quotes.cases import selectors, services
from quotes.cases.models import Case
from quotes.cases.page import CaseShown
from quotes.cases.services import CaseError
from quotes.outcomes.selectors import expected_for

shop_required = needs("intake.view_submission", "quotes.view_quote", "quotes.view_case")


@shop_required
@require_http_methods(["GET", "HEAD", "POST"])
def rework(request: HttpRequest) -> HttpResponse:
    """Shafts to shorten, each with its card; POST begins one, or writes a note to it."""
    if request.method == "POST":
        return _write(request)
    after = request.GET.get("after", "")
    key = int(after) if after.isdecimal() and len(after) < 19 else None
    page = selectors.to_shorten(key)
    foreseen = expected_for([case.quote for case in page.cases], page.cases)
    context = {
        "rows": [
            CaseShown(case, kept={"expected": foreseen.get(case.quote_id)}) for case in page.cases
        ],
        "after": page.after,
        "is_first": not after,
    }
    return render(request, "quotes/desk_rework.html", context)


def _write(request: HttpRequest) -> HttpResponse:
    found, by = _find(request.POST.get("number", "")), cast("User", request.user)
    try:
        if request.POST.get("do") == "begin":
            services.begin(case=found, by=by)
        else:
            services.work_note(case=found, said=request.POST.get("note", "").strip(), by=by)
    except CaseError as error:
        messages.error(request, str(error))
    else:
        messages.success(request, "Written down.")
    return redirect("rework")


def _find(number: str) -> Case:
    try:
        return selectors.case_by_number(number)
    except Case.DoesNotExist:
        raise Http404 from None
