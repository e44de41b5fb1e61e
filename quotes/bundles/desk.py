"""The counter's pages of bundles: which of a yard's quotes go into one, and what became of it."""

from __future__ import annotations

from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from intake.customers.models import Customer
from intake.customers.selectors import find_customer
from intake.services import Overtaken
from quotes.bundles import selectors, services
from quotes.bundles.models import Bundle
from quotes.bundles.page import BundlePage
from quotes.desk import quoter_required
from quotes.domain.lifecycle import QuoteError


@quoter_required
@require_http_methods(["GET", "HEAD", "POST"])
def bundles(request: HttpRequest, pk: int) -> HttpResponse:
    """A yard's order numbers; the quotes of one of them become one bundle."""
    customer = _customer(pk)
    if customer.merged_into_id:
        return redirect("bundles", pk=customer.merged_into_id)
    if request.method != "POST":
        return _page(request, customer)
    job = request.POST.get("job", "")
    keys = [int(key) for key in request.POST.getlist("quote") if key.isdecimal() and len(key) < 18]
    try:
        made = services.issue_bundle(
            customer=customer, job=job, keys=keys, by=cast(User, request.user)
        )
    except (QuoteError, Overtaken) as error:
        return _page(request, customer, wrong={"job": job, "keys": keys, "error": str(error)})
    told = {"number": made.number, "version": made.version}
    messages.success(request, _("Quote %(number)s, version %(version)s, is issued.") % told)
    return redirect("desk-bundle", pk=made.pk)


def _page(
    request: HttpRequest, customer: Customer, wrong: dict[str, object] | None = None
) -> HttpResponse:
    context = {
        "customer": customer,
        "jobs": selectors.jobs_to_bundle(customer),
        "bundles": selectors.bundles_of(customer),
        "wrong": wrong,
    }
    return render(request, "quotes/desk_bundles.html", context, status=400 if wrong else 200)


@quoter_required
@require_GET
def desk_bundle(request: HttpRequest, pk: int) -> HttpResponse:
    """One bundle as it stands: who accepted which boat, what holds no more."""
    found = _bundle(pk)
    page = BundlePage(found, selectors.members(found))
    response = render(request, "quotes/desk_bundle.html", {"page": page})
    response["Cache-Control"] = "no-store, private"  # its link stands here
    return response


@quoter_required
@require_POST
def desk_bundle_link(request: HttpRequest, pk: int) -> HttpResponse:
    """A new link in the old one's place, by mail where there is an address."""
    services.renew_bundle_link(bundle=_bundle(pk))
    messages.success(request, _("A new link is made. The old one holds no more."))
    return redirect("desk-bundle", pk=pk)


def _customer(pk: int) -> Customer:
    try:
        return find_customer(pk)
    except Customer.DoesNotExist:
        raise Http404 from None


def _bundle(pk: int) -> Bundle:
    found = selectors.find_bundle(pk)
    if found is None:
        raise Http404
    return found
