"""Looking at two records side by side, making them one, and parting them again."""

from __future__ import annotations

from collections.abc import Callable

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from intake.access import needs
from intake.customers import selectors
from intake.customers.forms import MergeForm
from intake.customers.merging import selectors as plans
from intake.customers.merging.services import MergeRefused, merge_boats, merge_customers, part
from intake.customers.models import Boat, Customer, Merge
from intake.customers.show import boats_beside, customers_beside
from intake.customers.views import find_customer, user_of

may_merge = needs("intake.view_submission", "intake.add_callrecord", "intake.merge_records")


@may_merge
@require_http_methods(["GET", "HEAD", "POST"])
def customers(request: HttpRequest, pk: int) -> HttpResponse:
    """Two customers side by side; POST makes them one."""
    one, other = find_customer(pk), _other_customer(request)
    if other is None or other.pk == one.pk:
        messages.warning(request, _("Nobody else is known by that number or address."))
        return redirect("customer", pk=one.merged_into_id or pk)
    context = {
        "kind": "customer",
        "sides": [(one, plans.what_moves(one)), (other, plans.what_moves(other))],
        "lines": customers_beside(one, other),
        "home": reverse("customer", args=[one.pk]),
        "is_one": bool(one.merged_into_id or other.merged_into_id),
    }

    def make_one(keep: int, seen: dict[int, int], why: str) -> int:
        rows = {row.pk: row for row in (one, other)}
        for key, row in rows.items():
            row.revision = seen[key]
        gone = next(row for key, row in rows.items() if key != keep)
        merge_customers(keep=rows[keep], gone=gone, by=user_of(request), why=why)
        return keep

    return _merge(request, context, {one.pk, other.pk}, make_one, "customer")


@may_merge
@require_http_methods(["GET", "HEAD", "POST"])
def boats(request: HttpRequest, pk: int) -> HttpResponse:
    """Two boats of one customer side by side; POST makes them one."""
    found = selectors.two_boats(pk, _key(request.GET.get("with", "")))
    if not found or found[0].pk != pk:
        raise Http404
    if len(found) < 2 or found[0].pk == found[1].pk:
        messages.warning(request, _("Choose the other boat first."))
        return redirect("boat", pk=found[0].merged_into_id or pk)
    one, other = found
    context = {
        "kind": "boat",
        "sides": [(one, plans.boat_moves(one)), (other, plans.boat_moves(other))],
        "lines": boats_beside(one, other),
        "home": reverse("boat", args=[one.pk]),
        "is_one": bool(one.merged_into_id or other.merged_into_id),
    }

    def make_one(keep: int, seen: dict[int, int], why: str) -> int:
        rows = {row.pk: row for row in (one, other)}
        for key, row in rows.items():
            row.customer.revision = seen[key]
        gone = next(row for key, row in rows.items() if key != keep)
        merge_boats(keep=rows[keep], gone=gone, by=user_of(request), why=why)
        return keep

    return _merge(request, context, {one.pk, other.pk}, make_one, "boat")


@may_merge
@require_POST
def part_again(request: HttpRequest, pk: int) -> HttpResponse:
    """Put back what a merge moved."""
    try:
        merge = selectors.find_merge(pk)
    except Merge.DoesNotExist:
        raise Http404 from None
    try:
        part(merge=merge, by=user_of(request))
    except MergeRefused as refused:
        messages.error(request, str(refused))
    else:
        messages.success(request, _("Parted again. What came later stays with the kept record."))
    return redirect(merge.kind, pk=merge.kept)


MakeOne = Callable[[int, dict[int, int], str], int]


def _merge(
    request: HttpRequest, context: dict[str, object], keys: set[int], make_one: MakeOne, home: str
) -> HttpResponse:
    """Show, or do what was decided; what was typed is not lost."""
    if request.method != "POST":
        return render(request, "intake/customers/merge.html", {**context, "form": MergeForm()})
    form = MergeForm(request.POST)
    if not form.is_valid() or form.cleaned_data["keep"] not in keys:
        return render(request, "intake/customers/merge.html", {**context, "form": form}, status=400)
    seen = dict(
        zip(_in_order(context), (form.cleaned_data[n] for n in ("one", "other")), strict=True)
    )
    try:
        kept = make_one(form.cleaned_data["keep"], seen, form.cleaned_data["why"])
    except MergeRefused as refused:
        form.add_error(None, str(refused))
        return render(request, "intake/customers/merge.html", {**context, "form": form}, status=409)
    messages.success(request, _("They are one record now. It can be taken back below."))
    return redirect(home, pk=kept)


def _in_order(context: dict[str, object]) -> list[int]:
    sides: list[tuple[Customer | Boat, object]] = context["sides"]  # type: ignore[assignment]
    return [row.pk for row, _moves in sides]


def _other_customer(request: HttpRequest) -> Customer | None:
    text = request.GET.get("with", "").replace("\0", "")[:254]
    return selectors.with_number_or_address(text)


def _key(text: str) -> int:
    """A record's key as it stands in an address; 0 is nobody's."""
    return int(text) if text.isascii() and text.isdigit() and len(text) < 18 else 0
