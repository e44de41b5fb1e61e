"""The customer's door: measure, read it all back, send it once."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from intake import drafts, services
from intake.forms import FormErrors, read_form
from intake.measure_page import MeasurePage, read_back
from intake.review_page import ReviewPage, next_step
from intake.said import language_now


@require_http_methods(["GET", "HEAD", "POST"])
def measure(request: HttpRequest) -> HttpResponse:
    """The questions; a readable answer goes on to the review."""
    if request.method != "POST":
        return _ask(request, request.GET.get("draft", ""))
    try:
        read_form(request.POST)
    except FormErrors as refused:
        page = MeasurePage(request.POST, refused.errors)
        name = request.POST.get("draft", "")
        return render(request, "intake/measure.html", {"page": page, "draft": name})
    page = MeasurePage(request.POST, {})
    if page.asks_further:
        name = request.POST.get("draft", "")
        context = {"page": page, "draft": name, "one_step_more": True}
        return render(request, "intake/measure.html", context)
    name = drafts.keep(request, request.POST.get("draft", ""))
    return redirect(f"{reverse('review')}?draft={name}")


def _ask(request: HttpRequest, name: str) -> HttpResponse:
    draft = drafts.find(request, name)
    page = MeasurePage(draft[0] if draft else QueryDict(""), {})
    return render(request, "intake/measure.html", {"page": page, "draft": name if draft else ""})


@require_http_methods(["GET", "HEAD", "POST"])
def review(request: HttpRequest) -> HttpResponse:
    """Everything as understood; sending it twice stores it once."""
    given = request.POST if request.method == "POST" else request.GET
    name = given.get("draft", "")
    draft = drafts.find(request, name)
    if draft is None:
        messages.warning(request, _("That sheet is no longer here. Please fill it in again."))
        return redirect("measure")
    typed, key = draft
    try:
        body, sheet = read_form(typed)
    except FormErrors:
        return redirect(f"{reverse('measure')}?draft={name}")
    if request.method == "POST":
        sent = services.receive_submission(body=body, idempotency_key=key, language=language_now())
        return redirect("status", token=sent.token)
    outcome = services.dry_check(body=body).as_record()
    page = ReviewPage(typed, sheet, outcome)
    word, step = next_step(page.shown.verdict)
    context = {"page": page, "draft": name, "word": word, "next_step": step}
    return render(request, "intake/review.html", context)


@require_POST
def read_back_one(request: HttpRequest) -> HttpResponse:
    """One length as we understood it, beside its box, while the customer types."""
    slug = request.POST.get("slug", "")
    text = request.POST.get(f"answers.{slug}.text", "")
    read = read_back(slug, text, request.POST.get("tape_unit"))
    return render(request, "intake/_read_back.html", {"read": read})
