"""Taking and showing photos: for the customer by the private link, for staff by their right."""

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

from intake import selectors
from intake.access import staff_required
from intake.api_throttle import seconds_to_wait
from intake.models import Photo, Submission
from intake.photos import services
from intake.photos.pictures import PhotoRefused, Words
from intake.photos.selectors import photo_bytes

# What a form adds around the file: boundaries, the token, the question.
_AROUND = 16_384
_CHUNK = 65_536
# A picture can do nothing, whoever makes a browser open it as something else.
_POLICY = "default-src 'none'; frame-ancestors 'none'; sandbox"

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
        submission = _by_token(token)
        if wait := seconds_to_wait(request):
            said = _("That were many in a short time. Please wait a minute, then send it again.")
            response = _refused(request, submission, said, 429)
            response["Retry-After"] = str(wait)
        elif _length(request) > settings.PHOTO_MOST_BYTES + _AROUND:
            _pour_away(request)
            response = _refused(request, submission, services.too_large_words(), 413)
        else:
            request.upload_handlers = [InMemory(request)]
            response = csrf_protect(view)(request, submission, **kwargs)
        response["Cache-Control"] = "no-store, private"
        return response

    return guarded


def _length(request: HttpRequest) -> int:
    return int(request.META.get("CONTENT_LENGTH") or 0)


def _pour_away(request: HttpRequest) -> None:
    """Read what is somewhat too large: a browser that is cut off shows its own error, not ours."""
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
        return _refused(request, submission, refused.message, _status_of(refused))
    if _wants_page(request):
        messages.success(request, _("Thank you, the photo is here."))
        return _back(submission)
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
        return _refused(request, submission, stays.message, _status_of(stays))
    if not gone:
        return _refused(request, submission, _("This photo is gone already."), 404)
    if not _wants_page(request):
        return HttpResponse(status=204)
    messages.success(request, _("The photo is deleted."))
    return _back(submission)


def _wants_page(request: HttpRequest) -> bool:
    """A plain form was sent, not a script's call."""
    return request.get_preferred_type(["application/json", "text/html"]) == "text/html"


def _refused(
    request: HttpRequest, submission: Submission, said: Words, status: int
) -> HttpResponse:
    """One sentence: on the page for a plain form, as a problem (RFC 9457) for a script."""
    if _wants_page(request):
        messages.error(request, str(said))
        return _back(submission)
    problem = {
        "type": "about:blank",
        "title": _("The photo is not taken"),
        "status": status,
        "detail": str(said),
    }
    return JsonResponse(problem, status=status, content_type="application/problem+json")


def _back(submission: Submission) -> HttpResponse:
    return redirect(f"{reverse('status', args=[submission.token])}#photos")


@require_safe
def photo(request: HttpRequest, token: str, ident: str, *, small: bool = False) -> HttpResponse:
    """One photo, for whoever has the private link."""
    return _picture(_by_token(token), ident, small=small, kept="private, max-age=3600")


@require_safe
@staff_required
def staff_photo(
    request: HttpRequest, reference: str, ident: str, *, small: bool = False
) -> HttpResponse:
    """The same photo for staff; a desk's browser is shared, so it keeps nothing."""
    try:
        submission = selectors.by_reference(reference)
    except Submission.DoesNotExist:
        raise Http404 from None
    return _picture(submission, ident, small=small, kept="private, no-store")


def _picture(submission: Submission, ident: str, *, small: bool, kept: str) -> HttpResponse:
    content = photo_bytes(submission, ident, small=small)
    if content is None:
        raise Http404
    response = HttpResponse(content, content_type="image/jpeg")
    response["X-Content-Type-Options"] = "nosniff"
    response["Content-Disposition"] = 'inline; filename="photo.jpg"'
    response["Content-Security-Policy"] = _POLICY
    response["Cross-Origin-Resource-Policy"] = "same-origin"
    response["X-Robots-Tag"] = "noindex, nofollow, noarchive"
    response["Cache-Control"] = kept
    return response


def _by_token(token: str) -> Submission:
    try:
        return selectors.by_token(token)
    except Submission.DoesNotExist:
        raise Http404 from None
