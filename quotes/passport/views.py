"""The tag as a label, and the page that anybody sees who holds the shaft."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST, require_safe

from intake import drafts
from quotes.links.throttle import too_often
from quotes.passport import selectors, services, tags
from quotes.passport.models import Passport
from quotes.passport.page import PassportPage
from quotes.passport.page import same_again as known_boxes
from quotes.private import private
from quotes.shop.shafts import look_required, none_to_make, paper_response, shaft_of, show


@look_required
@require_safe
def shaft_tag(request: HttpRequest, reference: str) -> HttpResponse:
    """The label for the tag of one shaft; before its bar is sawn there is none."""
    submission, quote = shaft_of(reference)
    if quote is None:
        return none_to_make(request, submission)
    passport = selectors.passport_of(quote)
    if passport is None:
        messages.warning(request, "The tag is there as soon as the bar is sawn.")
        return show(request, quote)
    return paper_response(tags.tag(passport), f"tag-{quote.number}.pdf")


@private
@require_safe
def passport(request: HttpRequest, token: str) -> HttpResponse:
    """One shaft for whoever holds it."""
    return _shown(request, PassportPage(_found(token)))


@private
@require_POST
def hours(request: HttpRequest, token: str) -> HttpResponse:
    """The owner adds a reading. Nothing that was told is changed."""
    found = _found(token)
    if too_often(request, "hours"):
        return render(request, "429.html", status=429)
    typed = request.POST.get("hours", "")[:20]
    try:
        renewed = request.POST.get("renewed") == "yes"
        services.add_reading(passport=found, typed=typed, renewed=renewed)
    except services.NotHours:
        sentence = _("Please write the engine hours as a whole number, like 1240.")
        return _shown(request, PassportPage(found, typed, sentence), status=400)
    messages.success(request, _("The hours are kept."))
    return redirect("passport", token=token)


@private
@require_POST
def same_again(request: HttpRequest, token: str) -> HttpResponse:
    """Begin a new request with what is known of this shaft; everything in it can be changed."""
    page = PassportPage(_found(token))
    name = drafts.begin(request, known_boxes(page))
    return redirect(f"{reverse('measure')}?draft={name}")


def _found(token: str) -> Passport:
    found = selectors.by_token(token)
    if found is None:
        raise Http404
    return found


def _shown(request: HttpRequest, page: PassportPage, status: int = 200) -> HttpResponse:
    return render(request, "quotes/passport.html", {"page": page}, status=status)
