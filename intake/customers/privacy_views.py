"""Handing out and erasing what is kept of one customer."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from intake.access import needs
from intake.customers.forms import EraseForm, WhyForm
from intake.customers.privacy import selectors
from intake.customers.privacy.services import EraseRefused, erase_customer, note_handing_out
from intake.customers.views import find_customer, user_of

may_erase = needs("intake.view_submission", "intake.add_callrecord", "intake.erase_customer")


@may_erase
@require_POST
def export(request: HttpRequest, pk: int) -> HttpResponse:
    """Everything kept of this customer as one file; that it was handed out stands in the trail."""
    found, form = find_customer(pk), WhyForm(request.POST)
    if not form.is_valid():
        messages.error(request, _("Please write in a few words how it was asked for."))
        return redirect("customer", pk=pk)
    told, files = selectors.everything_kept(found)
    note_handing_out(customer=found, by=user_of(request), why=form.cleaned_data["why"])
    return HttpResponse(
        selectors.as_zip(told, files),
        content_type="application/zip",
        headers={
            "Content-Disposition": f'attachment; filename="customer-{pk}.zip"',
            "Cache-Control": "no-store, private",
            "X-Content-Type-Options": "nosniff",
        },
    )


@may_erase
@require_http_methods(["GET", "HEAD", "POST"])
def erase(request: HttpRequest, pk: int) -> HttpResponse:
    """What erasing does, and doing it: typed out, with a reason, for good."""
    found = find_customer(pk)
    if found.merged_into_id:
        return redirect("erase-customer", pk=found.merged_into_id)
    form = EraseForm(request.POST or None)
    status = 200 if request.method != "POST" else 400
    if request.method == "POST" and form.is_valid():
        try:
            erase_customer(customer=found, by=user_of(request), why=form.cleaned_data["why"])
        except EraseRefused as refused:
            form.add_error(None, str(refused))
            status = 409
        else:
            messages.success(request, _("Erased. What was measured still counts."))
            return redirect("customer", pk=pk)
    orders = selectors.open_orders(one.pk for one in selectors.submissions_of([found]))
    context = {"customer": found, "form": form, "orders": orders}
    return render(request, "intake/customers/erase.html", context, status=status)
