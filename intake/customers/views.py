"""Customers, their boats and their jobs."""

from __future__ import annotations

from datetime import datetime
from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.dateparse import parse_datetime
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from intake.access import counter_required
from intake.customers import selectors, services
from intake.customers.alike.selectors import look_alikes
from intake.customers.forms import CustomerForm, WhyForm
from intake.customers.models import Boat, Customer
from intake.customers.show import ShaftRow, merge_words, trail_lines
from staff.trail.selectors import changes_of

_TRAIL = 50


@counter_required
@require_GET
def customers(request: HttpRequest) -> HttpResponse:
    """Who has asked us, newest first, and which records are perhaps one."""
    after = _after(request)
    rows, more = selectors.customers_page(after)
    last = rows[-1].customer if rows else None
    context = {
        "rows": rows,
        "alike": look_alikes([row.customer for row in rows]),
        "older": f"{last.active_at.isoformat()}_{last.pk}" if last and more else "",
        "is_first": after is None,
    }
    return render(request, "intake/customers/customers.html", context)


@counter_required
@require_http_methods(["GET", "HEAD", "POST"])
def customer(request: HttpRequest, pk: int) -> HttpResponse:
    """One customer: what we know of them, and putting it right."""
    found = find_customer(pk)
    if found.merged_into_id:
        messages.info(request, _("That record has become one with this one."))
        return redirect("customer", pk=found.merged_into_id)
    if request.method != "POST":
        return _customer_page(request, found, _form_of(found))
    form = CustomerForm(request.POST)
    if not form.is_valid():
        return _customer_page(request, found, form, status=400)
    seen = Customer(**_as_seen(found, form.cleaned_data["revision"]))
    try:
        services.edit_customer(
            customer=seen,
            changed=form.cleaned_data,
            by=user_of(request),
            why=form.cleaned_data["why"],
        )
    except services.EditRefused as refused:
        found.refresh_from_db()  # what is typed goes on from what stands there now
        again = CustomerForm({**request.POST.dict(), "revision": found.revision})
        again.add_error(None, str(refused))
        return _customer_page(request, found, again, other=refused.other, status=409)
    messages.success(request, _("Stored."))
    return redirect("customer", pk=pk)


@counter_required
@require_GET
def boat(request: HttpRequest, pk: int) -> HttpResponse:
    """One boat and side: the shafts we supplied for her, and what was asked."""
    found = find_boat(pk)
    if found.merged_into_id:
        messages.info(request, _("That record has become one with this one."))
        return redirect("boat", pk=found.merged_into_id)
    theirs = selectors.boats_of(found.customer)
    context = {
        "boat": found,
        "customer": found.customer,
        "shafts": [ShaftRow(row) for row in selectors.shafts_of(found)],
        "requests": selectors.requests_of(boat=found),
        "sides": selectors.other_sides(found),
        "others": [one for one in theirs if one.pk != found.pk],
        "merges": _merges("boat", pk),
        "trail": trail_lines(changes_of("boat", pk)[:_TRAIL]),
        "part_form": WhyForm(),
    }
    return render(request, "intake/customers/boat.html", context)


@counter_required
@require_GET
def job(request: HttpRequest, pk: int) -> HttpResponse:
    """All sheets of one order number, each with its own verdict; nothing waits for another."""
    found, number = find_customer(pk), request.GET.get("job", "").replace("\0", "").strip()[:40]
    if found.merged_into is not None:
        found = found.merged_into
    asked = selectors.job_of(found, number) if number else None
    if asked is None or not asked.requests:
        raise Http404
    context = {"customer": found, "number": number, "job": asked}
    return render(request, "intake/customers/job.html", context)


# --- What the pages here have in common -----------------------------------------------


def find_customer(pk: int) -> Customer:
    """The record, or a page that is not there."""
    try:
        return selectors.find_customer(pk)
    except Customer.DoesNotExist:
        raise Http404 from None


def find_boat(pk: int) -> Boat:
    """The record, or a page that is not there."""
    try:
        return selectors.find_boat(pk)
    except Boat.DoesNotExist:
        raise Http404 from None


def user_of(request: HttpRequest) -> User:
    """Who asks; the pages here are for nobody else."""
    return cast(User, request.user)


def _after(request: HttpRequest) -> tuple[datetime, int] | None:
    """Where the page before ended; a made-up one begins at the top."""
    text, _sep, key = request.GET.get("after", "").replace(" ", "+").rpartition("_")
    try:
        at = parse_datetime(text)
        return (at, int(key)) if at is not None and at.tzinfo else None
    except (ValueError, OverflowError):
        return None


def _customer_page(
    request: HttpRequest,
    found: Customer,
    form: CustomerForm,
    *,
    other: Customer | None = None,
    status: int = 200,
) -> HttpResponse:
    requests = selectors.requests_of(customer=found)
    context = {
        "customer": found,
        "form": form,
        "other": other,
        "boats": selectors.boats_of(found),
        "requests": requests,
        "jobs": selectors.jobs_of(requests),
        "alike": look_alikes([found]),
        "merges": _merges("customer", found.pk),
        "trail": trail_lines(changes_of("customer", found.pk)[:_TRAIL]),
    }
    return render(request, "intake/customers/customer.html", context, status=status)


def _merges(kind: str, pk: int) -> list[tuple[object, str]]:
    return [(merge, merge_words(merge, pk)) for merge in selectors.merges_of(kind, pk)]


def _form_of(found: Customer) -> CustomerForm:
    told = {name: getattr(found, name) for name in services.EDITED}
    return CustomerForm(initial={**told, "revision": found.revision})


def _as_seen(found: Customer, revision: int) -> dict[str, object]:
    """The record as it was when the page was opened: an older revision is refused."""
    told = {name: getattr(found, name) for name in services.EDITED}
    return {"pk": found.pk, "revision": revision, **told}
