"""What is read of photos. Bytes are read only for the one picture that is shown."""

from __future__ import annotations

from collections.abc import Iterator, Set
from dataclasses import dataclass
from datetime import datetime

from intake.desk_show import label_for
from intake.desk_words import LABELS, Words
from intake.domain.lifecycle import Status
from intake.models import Event, Photo, Submission

MOST_PHOTOS = 6
_SMALL_SIDE = 320


@dataclass(frozen=True, slots=True)
class PhotoLine:
    """One photo without its bytes."""

    ident: str
    question: str
    width: int
    height: int
    at: datetime

    @property
    def about(self) -> Words:
        """The short name of the answer it was taken for, or empty."""
        return label_for(self.question) if self.question else ""

    @property
    def small_width(self) -> int:
        """About the width of the small version in px, so that the page does not jump."""
        return self._small(self.width)

    @property
    def small_height(self) -> int:
        return self._small(self.height)

    def _small(self, side: int) -> int:
        longest = max(self.width, self.height)
        return side if longest <= _SMALL_SIDE else max(1, round(side * _SMALL_SIDE / longest))


@dataclass(frozen=True, slots=True)
class Photos:
    """The photos of a submission, oldest first, and what may be done with them.

    ``aside``: how many are not among them, because they show what is to be read blind.
    """

    token: str
    reference: str
    lines: tuple[PhotoLine, ...]
    aside: int
    may_add: bool
    may_remove: bool

    def __iter__(self) -> Iterator[PhotoLine]:
        return iter(self.lines)

    def __len__(self) -> int:
        return len(self.lines)

    def __bool__(self) -> bool:
        """There is something to show, be it the form alone."""
        return bool(self.lines) or self.may_add or self.aside > 0

    @property
    def questions(self) -> list[tuple[str, Words]]:
        """What a photo may be tagged with on the plain page: every answer with a short name."""
        return sorted(LABELS.items(), key=lambda row: str(row[1]))


def photos_of(submission: Submission, *, hidden: Set[str] = frozenset()) -> Photos:
    """The photos of a submission, in at most two queries; those of ``hidden`` questions aside."""
    fields = ("ident", "question", "width", "height", "at")
    rows = Photo.objects.filter(submission=submission).order_by("pk").values_list(*fields)
    every = [PhotoLine(*row) for row in rows]
    lines = tuple(line for line in every if line.question not in hidden)
    closed = submission.status == Status.WITHDRAWN
    return Photos(
        token=submission.token,
        reference=submission.reference,
        lines=lines,
        aside=len(every) - len(lines),
        may_add=len(every) < MOST_PHOTOS and not closed,
        may_remove=bool(lines) and not ever_accepted(submission),
    )


def photo_bytes(submission: Submission, ident: str, *, small: bool) -> bytes | None:
    """The JPEG of one photo of this submission, or None."""
    mine = Photo.objects.filter(submission=submission, ident=ident).order_by()
    content = mine.values_list("small" if small else "content", flat=True).first()
    return None if content is None else bytes(content)


def sent_before(submission: Submission, digest: str) -> Photo | None:
    """The photo made from the file of this digest, without its bytes."""
    mine = Photo.objects.filter(submission=submission, sent_sha256=digest)
    return mine.order_by().defer("content", "small").first()


def how_many(submission: Submission) -> int:
    return Photo.objects.filter(submission=submission).count()


def ever_accepted(submission: Submission) -> bool:
    """A quote was accepted at some time, whatever came after."""
    return Event.objects.filter(submission=submission, new_status=Status.ACCEPTED).exists()
