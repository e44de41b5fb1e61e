"""A customer's terms: the desk may look, a manager agrees them."""

from __future__ import annotations

from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_POST, require_safe

from intake.access import counter_required, needs
from intake.customers.models import Customer
from intake.customers.selectors import find_customer
from quotes.domain.tax import percent
from quotes.rate_sets.selectors import rates_on
from quotes.terms import selectors, services
from quotes.terms.forms import TermsForm

may_agree = needs("intake.view_submission", "quotes.add_customerterms")


@counter_required
@require_safe
def terms(request: HttpRequest, pk: int) -> HttpResponse:
    """What holds for a customer today, what is to come, and what was agreed before."""
    found = _customer(pk)
    if found.merged_into_id:
        return redirect("customer-terms", pk=found.merged_into_id)
    return _page(request, found)


@may_agree
@require_POST
def agree(request: HttpRequest, pk: int) -> HttpResponse:
    """Agree terms from a day on."""
    found, form, seen = _customer(pk), TermsForm(request.POST), request.POST.get("seen", "")
    if not form.is_valid():
        return _page(request, found, form, status=400)
    try:
        services.agree_terms(
            customer=found,
            by=cast("User", request.user),
            seen=int(seen) if seen.isascii() and seen.isdigit() and len(seen) < 10 else None,
            **form.cleaned_data,
        )
    except services.TermsRefused as refused:
        form.add_error(refused.field or None, str(refused))
        return _page(request, found, form, status=400)
    except services.TermsOvertaken as late:
        form.add_error(None, str(late))
        return _page(request, found, form, status=409)
    messages.success(request, "These terms are stored.")
    return redirect("customer-terms", pk=pk)


def _customer(pk: int) -> Customer:
    try:
        return find_customer(pk)
    except Customer.DoesNotExist:
        raise Http404 from None


def _page(
    request: HttpRequest, found: Customer, form: TermsForm | None = None, status: int = 200
) -> HttpResponse:
    today, rates = timezone.localdate(), rates_on()
    now = selectors.terms_on(found.pk, today)
    context = {
        "customer": found,
        "today": today,
        "discount": percent(min(now.discount, rates.discount_limit)),
        "limit": percent(rates.discount_limit),
        "usual_part": percent(rates.deposit_part),
        "usual_over": rates.deposit_over,
        "part": percent(rates.deposit_part if now.deposit_part is None else now.deposit_part),
        "over": rates.deposit_over if now.deposit_over is None else now.deposit_over,
        "rows": selectors.terms_of_customer(found),
        "form": form or TermsForm(initial={"from_day": today}),
        "seen": selectors.newest_number(found.pk),
        "may_agree": request.user.has_perm("quotes.add_customerterms") and not found.erased_at,
    }
    return render(request, "quotes/terms.html", context, status=status)
