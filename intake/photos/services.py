"""What may be done to the photos of a submission. Each is one whole step, in one transaction."""

from __future__ import annotations

import hashlib
import secrets

from django.conf import settings
from django.db import transaction
from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _

from intake.domain.lifecycle import Status
from intake.domain.questions import QUESTIONS
from intake.models import Photo, Submission
from intake.photos.pictures import PhotoRefused, Picture, Words, read_picture
from intake.photos.selectors import MOST_PHOTOS, ever_accepted, how_many, sent_before


class PhotoTooLarge(PhotoRefused):
    """More bytes than we take."""

    def __init__(self) -> None:
        super().__init__(too_large_words())


class NoRoom(PhotoRefused):
    """There are as many photos as we keep, or the request is closed."""


class PhotoStays(PhotoRefused):
    """A quote was accepted with this photo at hand: it is part of what was agreed."""

    def __init__(self) -> None:
        super().__init__(
            _("Since the quote is accepted the photos stay. Ring us if one should go.")
        )


_FULL = _("Six photos are enough; remove one to add another.")
_CLOSED = _("This request is closed, so no photo is taken any more.")
_NO_QUESTION = _("There is no question of this name; send the photo without one.")


def too_large_words() -> Words:
    """That a file is too large, and how large it may be."""
    most = f"{settings.PHOTO_MOST_BYTES / 1_000_000:g}"
    return format_lazy(
        _("The file is larger than {most} MB. Please send a smaller version of the picture."),
        most=most,
    )


def take_photo(*, submission: Submission, sent: bytes, question: str = "") -> Photo:
    """Make the picture anew and keep it. The same file sent again answers the first photo.

    ``question`` is a question's slug, or empty. Raises PhotoRefused, NoRoom or PhotoTooLarge.
    """
    if question and question not in QUESTIONS:
        raise PhotoRefused(_NO_QUESTION)
    if len(sent) > settings.PHOTO_MOST_BYTES:
        raise PhotoTooLarge
    digest = hashlib.sha256(sent).hexdigest()
    if earlier := sent_before(submission, digest):
        return earlier
    # Decoding is dear, so what is refused anyway is refused before; it counts under the lock.
    _require_room(submission)
    picture = read_picture(sent, most_pixels=settings.PHOTO_MOST_PIXELS)
    return _keep(submission, question, digest, picture)


@transaction.atomic
def _keep(submission: Submission, question: str, digest: str, picture: Picture) -> Photo:
    now = _hold(submission)
    if earlier := sent_before(now, digest):
        return earlier
    _require_room(now)
    return Photo.objects.create(
        submission=submission,
        ident=secrets.token_urlsafe(16),
        question=question,
        width=picture.width,
        height=picture.height,
        content=picture.content,
        small=picture.small,
        sent_sha256=digest,
    )


def _hold(submission: Submission) -> Submission:
    """The submission as it is now; who else adds, removes or accepts waits for us.

    On SQLite the transaction itself is the lock: there is one writer at a time.
    """
    return Submission.objects.select_for_update(no_key=True).get(pk=submission.pk)


def _require_room(submission: Submission) -> None:
    if submission.status == Status.WITHDRAWN:
        raise NoRoom(_CLOSED)
    if how_many(submission) >= MOST_PHOTOS:
        raise NoRoom(_FULL)


@transaction.atomic
def remove_photo(*, submission: Submission, ident: str) -> bool:
    """Delete one photo for good; False when there is none of this name.

    Raises PhotoStays once a quote was accepted.
    """
    mine = Photo.objects.filter(submission=_hold(submission), ident=ident)
    if not mine.exists():
        return False
    if ever_accepted(submission):
        raise PhotoStays
    return bool(mine.delete()[0])


@transaction.atomic
def forget_photos(*, submission: Submission) -> int:
    """Delete all photos of a submission for good, because its owner asks for it. How many."""
    return Photo.objects.filter(submission=_hold(submission)).delete()[0]
