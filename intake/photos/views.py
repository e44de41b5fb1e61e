"""Showing a photo: what a browser is told about it, and the door for staff."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from intake import selectors
from intake.access import staff_required
from intake.models import Submission
from intake.photos.selectors import photo_bytes

# A picture can do nothing, whoever makes a browser open it as something else. The browser's own
# page around a picture fits it to the screen with a style attribute; that much is allowed.
_POLICY = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'; sandbox"


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
    return picture(submission, ident, small=small, kept="private, no-store")


def picture(submission: Submission, ident: str, *, small: bool, kept: str) -> HttpResponse:
    """The JPEG itself, or 404. ``kept``: what the browser may keep of it."""
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
