"""A link that holds no more, asking for a new one, reminders, and the counter's look at a link."""

from __future__ import annotations

from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.csrf import csrf_exempt
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from intake.access import counter_required
from intake.models import Submission
from intake.selectors import by_reference
from quotes.links import services
from quotes.links.digests import submission_of_quiet
from quotes.links.selectors import Found, find_link, link_until
from quotes.links.throttle import too_often
from quotes.private import private


def expired(
    request: HttpRequest, token: str, *, error: str = "", status: int = 410
) -> HttpResponse:
    """The kind page in place of one whose link holds no more. It tells nothing of the boat."""
    return render(
        request, "quotes/link_expired.html", {"token": token, "error": error}, status=status
    )


@private
@require_POST
def renew(request: HttpRequest, token: str) -> HttpResponse:
    """Ask for a new link with the e-mail or phone that was given. Says the same to everybody."""
    found: Found | None = find_link(token)
    if found is None:
        raise Http404
    if found.holds:
        return redirect("status", token=token)
    if too_often(request, "link"):
        return render(request, "429.html", status=429)
    typed = request.POST.get("contact", "").strip()
    if not typed:
        sentence = _("Please type the e-mail address or the phone number you gave us.")
        return expired(request, token, error=sentence, status=400)
    services.ask_for_link(submission=found.submission, typed=typed)
    return redirect("link-asked")


@private
@require_GET
def asked(request: HttpRequest) -> HttpResponse:
    """What everybody is told who asked for a link, whether it was theirs or not."""
    return render(request, "quotes/link_asked.html")


@csrf_exempt  # mail programs send this on a click of theirs; the signed address is the proof
@private
@require_http_methods(["GET", "HEAD", "POST"])
def quiet(request: HttpRequest, token: str) -> HttpResponse:
    """Switch reminders off: a look changes nothing, a click does."""
    pk = submission_of_quiet(token)
    if pk is None:
        raise Http404
    done = request.method == "POST"
    if done:
        services.switch_reminders_off(submission_id=pk)
    return render(request, "quotes/link_quiet.html", {"done": done})


@counter_required
@require_http_methods(["GET", "HEAD", "POST"])
def desk_link(request: HttpRequest, reference: str) -> HttpResponse:
    """The customer's link as it is now; a new one in its place, or a mail with it."""
    submission = _submission(reference)
    if request.method == "POST":
        _do(request, submission)
        return redirect("desk-link", reference=submission.reference)
    context = {
        "submission": submission,
        "address": request.build_absolute_uri(reverse("status", args=[submission.token])),
        "until": link_until(submission),
    }
    response = render(request, "quotes/desk_link.html", context)
    response["Cache-Control"] = "no-store, private"
    return response


def _do(request: HttpRequest, submission: Submission) -> None:
    if request.POST.get("do") == "renew":
        services.renew_link(submission=submission)
        messages.success(request, _("A new link is made. The old one holds no more."))
    elif submission.contact_email:
        services.send_link(submission=submission)
        messages.success(request, _("The link goes to the customer by mail."))


def _submission(reference: str) -> Submission:
    try:
        return by_reference(reference)
    except Submission.DoesNotExist:
        raise Http404 from None
