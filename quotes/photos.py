"""The customer's photos, by the private link: sending, seeing, removing.

They live in this room because only here it is known until when a link holds.
"""

from __future__ import annotations

from collections.abc import Callable
from contextlib import suppress
from functools import wraps
from typing import Any

from django.conf import settings
from django.contrib import messages
from django.core.files.uploadhandler import MemoryFileUploadHandler
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse, UnreadablePostError
from django.shortcuts import redirect
from django.urls import reverse
from django.utils.translation import gettext as _
from django.views.decorators.csrf import csrf_exempt, csrf_protect
from django.views.decorators.http import require_POST, require_safe

from intake.api_throttle import seconds_to_wait
from intake.models import Photo, Submission
from intake.photos import services
from intake.photos.pictures import PhotoRefused, Words
from intake.photos.views import picture
from quotes.links.selectors import Found, find_link

# What a form adds around the file: boundaries, the token, the question.
_AROUND = 16_384
_CHUNK = 65_536

View = Callable[..., HttpResponse]


class InMemory(MemoryFileUploadHandler):
    """Keeps the file in memory: the whole request was measured before, nothing meets a disk."""

    def handle_raw_input(self, *_args: Any, **_kwargs: Any) -> None:
        self.activated = True


def _posted(view: View) -> View:
    """The customer's own post: counted by address and measured before a byte of it is read."""

    @csrf_exempt  # and protected below, once the body may be read
    @require_POST
    @wraps(view)
    def guarded(request: HttpRequest, token: str, **kwargs: str) -> HttpResponse:
        found = find_link(token)
        if found is None:
            raise Http404
        said, status, wait = _hindrance(request, found)
        if said:
            _pour_away(request)
            response = _refused(request, token, said, status)
            if wait:
                response["Retry-After"] = str(wait)
        else:
            request.upload_handlers = [InMemory(request)]
            response = csrf_protect(view)(request, found.submission, **kwargs)
        response["Cache-Control"] = "no-store, private"
        return response

    return guarded


def _hindrance(request: HttpRequest, found: Found) -> tuple[Words, int, int]:
    """What speaks against reading this post at all: a sentence, a status, seconds to wait."""
    if not found.holds:
        return _("This link has run out. Open your page to ask for a new one."), 410, 0
    if wait := seconds_to_wait(request):
        return _("That were many in a short time. Please wait a minute and try again."), 429, wait
    if _length(request) > settings.PHOTO_MOST_BYTES + _AROUND:
        return services.too_large_words(), 413, 0
    return "", 0, 0


def _length(request: HttpRequest) -> int:
    return int(request.META.get("CONTENT_LENGTH") or 0)


def _pour_away(request: HttpRequest) -> None:
    """Read what is not taken, within reason: a browser cut off shows its own error, not ours."""
    left = min(_length(request), 4 * settings.PHOTO_MOST_BYTES)
    with suppress(UnreadablePostError):
        while left > 0 and (read := len(request.read(_CHUNK))):
            left -= read


@_posted
def add(request: HttpRequest, submission: Submission) -> HttpResponse:
    """Take one photo: 201 with its address, or back to the page for a plain form."""
    question = request.POST.get("question", "").strip()
    try:
        sent = _file(request)
        photo = services.take_photo(submission=submission, sent=sent, question=question)
    except PhotoRefused as refused:
        return _refused(request, submission.token, refused.message, _status_of(refused))
    if _wants_page(request):
        messages.success(request, _("Thank you, the photo is here."))
        return _back(submission.token)
    said = _described(photo, submission)
    return JsonResponse(said, status=201, headers={"Location": said["url"]})


def _file(request: HttpRequest) -> bytes:
    files = request.FILES.getlist("photo")
    if not files:
        raise PhotoRefused(_("Please choose a picture first."))
    if len(files) > 1:
        raise PhotoRefused(_("Please send one picture at a time."))
    sent: bytes = files[0].read()
    return sent


def _described(photo: Photo, submission: Submission) -> dict[str, str]:
    at = [submission.token, photo.ident]
    return {
        "id": photo.ident,
        "url": reverse("photo", args=at),
        "small": reverse("photo-small", args=at),
        "question": photo.question,
    }


def _status_of(refused: PhotoRefused) -> int:
    if isinstance(refused, services.PhotoTooLarge):
        return 413
    return 409 if isinstance(refused, services.NoRoom | services.PhotoStays) else 400


@_posted
def remove(request: HttpRequest, submission: Submission, ident: str) -> HttpResponse:
    """Delete one photo for good."""
    try:
        gone = services.remove_photo(submission=submission, ident=ident)
    except services.PhotoStays as stays:
        return _refused(request, submission.token, stays.message, _status_of(stays))
    if not gone:
        return _refused(request, submission.token, _("This photo is gone already."), 404)
    if not _wants_page(request):
        return HttpResponse(status=204)
    messages.success(request, _("The photo is deleted."))
    return _back(submission.token)


def _wants_page(request: HttpRequest) -> bool:
    """A plain form was sent, not a script's call."""
    return request.get_preferred_type(["application/json", "text/html"]) == "text/html"


def _refused(request: HttpRequest, token: str, said: Words, status: int) -> HttpResponse:
    """One sentence: on the page for a plain form, as a problem (RFC 9457) for a script."""
    if _wants_page(request):
        messages.error(request, str(said))
        return _back(token)
    problem = {
        "type": "about:blank",
        "title": _("Not done"),
        "status": status,
        "detail": str(said),
    }
    return JsonResponse(problem, status=status, content_type="application/problem+json")


def _back(token: str) -> HttpResponse:
    return redirect(f"{reverse('status', args=[token])}#photos")


@require_safe
def photo(request: HttpRequest, token: str, ident: str, *, small: bool = False) -> HttpResponse:
    """One photo, for whoever has the private link."""
    found = find_link(token)
    if found is None or not found.holds:
        raise Http404
    return picture(found.submission, ident, small=small, kept="private, max-age=3600")
