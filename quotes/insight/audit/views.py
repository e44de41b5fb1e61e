"""Audit calls: the list of those to be made, and the card of one."""

from __future__ import annotations

from collections.abc import Mapping
from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods, require_safe

from intake.access import counter_required
from intake.calling.blind import Compared
from intake.calling.selectors import newest_version
from intake.models import SheetVersion
from intake.services import Overtaken
from quotes.insight.audit import again, selectors, services
from quotes.insight.audit.forms import AuditForm
from quotes.models import AuditCall


@counter_required
@require_safe
def audit_calls(request: HttpRequest) -> HttpResponse:
    """Who is to be called about, longest drawn first."""
    show = "tried" if request.GET.get("show") == "tried" else "open"
    after = request.GET.get("after", "")
    key = int(after) if after.isdecimal() and len(after) < 19 else None
    context = {"page": selectors.to_make(show, key), "show": show, "is_first": key is None}
    return render(request, "quotes/insight/audit_calls.html", context)


@counter_required
@require_http_methods(["GET", "HEAD", "POST"])
def audit_call(request: HttpRequest, reference: str) -> HttpResponse:
    """The card of one call; POST compares numbers, or writes down what came of it."""
    try:
        call = selectors.audit_call(reference)
    except AuditCall.DoesNotExist as error:
        raise Http404 from error
    sheet = newest_version(call.submission)
    if request.method != "POST":
        return _show(request, call, sheet, AuditForm(sheet))
    if "compare" in request.POST:
        return _compare(request, call, sheet)
    form = AuditForm(sheet, request.POST)
    if not form.is_valid():
        return _show(request, call, sheet, form, status=400)
    return _write_down(request, call, sheet, form)


def _compare(request: HttpRequest, call: AuditCall, sheet: SheetVersion) -> HttpResponse:
    form = AuditForm(sheet, initial={name: request.POST.get(name, "") for name in _TYPED})
    try:
        found = again.compare(call.submission, sheet, request.POST, cast("User", request.user))
    except Overtaken:
        messages.warning(request, "The sheet has changed meanwhile: look at it again.")
        return redirect("audit-call", call.submission.reference)
    if not found:
        messages.warning(request, "Type a number they read now; the first is shown beside it then.")
    refused = any(one.errors for one in found.values())
    return _show(request, call, sheet, form, found, 400 if refused else 200)


_TYPED = ("outcome", "cause", "answer", "note")


def _write_down(
    request: HttpRequest, call: AuditCall, sheet: SheetVersion, form: AuditForm
) -> HttpResponse:
    try:
        written = services.record(call=call, by=cast("User", request.user), **form.cleaned_data)
    except services.AuditRefused as refused:
        form.refuse(refused.errors)
        return _show(request, call, sheet, form, status=400)
    messages.success(request, "Written down." if written else "That was written down already.")
    if form.cleaned_data["outcome"] == "wrong":
        return redirect("audit-call", call.submission.reference)  # it says where to correct it
    return redirect("audit-calls")


def _show(
    request: HttpRequest,
    call: AuditCall,
    sheet: SheetVersion,
    form: AuditForm,
    compared: Mapping[str, Compared] | None = None,
    status: int = 200,
) -> HttpResponse:
    context = {
        "call": call,
        "submission": call.submission,
        "sheet": sheet,
        "form": form,
        "rows": again.rows(sheet, compared),
        "is_sawn": selectors.is_sawn(call),
        "is_open": call.outcome in ("", "not_reached"),
    }
    return render(request, "quotes/insight/audit_call.html", context, status=status)
