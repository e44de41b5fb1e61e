"""Keeping calls while they are typed, and saving each once. Every function is one whole step."""

from __future__ import annotations

import secrets
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import timedelta

from django.conf import settings
from django.contrib.auth.models import User
from django.db import IntegrityError, transaction
from django.utils import timezone

from intake import selectors as requests
from intake import services as intake
from intake.desk_drafts import selectors
from intake.desk_drafts.boxes import body_of, boxes_of
from intake.desk_drafts.drawn import drawn
from intake.desk_drafts.merging import Conflict, Sent, merge, texts_of
from intake.desk_drafts.rebasing import carried_over, corrected, moved
from intake.domain.lifecycle import Status, require_move
from intake.inserts import insert
from intake.models import DeskDraft, PageOpen, Submission

_TRIES = 60  # each round somebody gets through, so this is how many may type at once
_LOOK_SECONDS = 15
_LONGEST_TITLE = 300


class Busy(Exception):
    """So many people change this at once that there was no getting through."""


class MustChoose(Exception):
    """Answers were changed here and on the newer sheet: a person must say which stay."""


@dataclass(frozen=True, slots=True)
class Kept:
    """What became of one keep: the draft as it is now, and what of mine is not in it.

    ``draft`` is None where nothing was ever kept. ``closed``: it was saved before, and nothing was
    changed; ``late`` are then the boxes that say something else than what was saved.
    ``elsewhere``: it was put away, and another draft of its request is open: nothing was changed.
    """

    draft: DeskDraft | None
    conflicts: tuple[Conflict, ...] = ()
    closed: Submission | None = None
    late: tuple[str, ...] = ()
    elsewhere: DeskDraft | None = None


def new_ident() -> str:
    """The address of a call that nobody has typed yet."""
    return secrets.token_urlsafe(16)


# --- Keeping --------------------------------------------------------------------------


def keep(*, ident: str, sent: Sent, by: User) -> Kept:
    """Store the boxes of a page that nobody else has changed since it was last answered.

    The first keep makes the draft. One that was put away is open again when somebody types into
    it. A saved one stays as it is. Raises Busy.
    """
    for _try in range(_TRIES):
        draft = selectors.by_ident(ident)
        kept = _first(ident, sent, by) if draft is None else _again(draft, sent, by)
        if kept is not None:
            return kept
    raise Busy


def _first(ident: str, sent: Sent, by: User) -> Kept | None:
    """A new draft of everything on the page; None where somebody else made it just now."""
    merged = merge({}, Sent(sent.texts, whole=True, page=sent.page, by=sent.by, at=sent.at), 1)
    if not merged.stored:
        return Kept(None)
    draft = DeskDraft(ident=ident, boxes=merged.boxes, revision=1, key=_new_key(), opened_by=by)
    draft.touched_by, draft.title = by, title_of(texts_of(merged.boxes))
    return Kept(draft) if insert(draft, unless_there=True) else None


def _again(draft: DeskDraft, sent: Sent, by: User) -> Kept | None:
    """The draft with this page's changes; None where it was changed meanwhile."""
    merged = merge(draft.boxes, sent, draft.revision + 1, drawn)
    if draft.saved_as is not None:
        late = [*merged.stored, *(conflict.name for conflict in merged.conflicts)]
        return Kept(draft, closed=draft.saved_as, late=tuple(late))
    if not merged.differs:
        return Kept(draft, conflicts=merged.conflicts)
    new = {"boxes": merged.boxes, "title": title_of(texts_of(merged.boxes))}
    new |= {"touched_by": by, "touched_at": timezone.now()}
    if draft.closed_at is not None:
        return _opened(draft, merged.conflicts, new)
    return Kept(draft, conflicts=merged.conflicts) if _change(draft, **new) else None


def _opened(
    draft: DeskDraft, conflicts: tuple[Conflict, ...], new: dict[str, object]
) -> Kept | None:
    """Open a draft that was put away, with the change that somebody typed into it."""
    try:
        with transaction.atomic():
            done = _change(draft, closed_at=None, **new)
    except IntegrityError:  # its request is being typed elsewhere
        return Kept(draft, elsewhere=selectors.open_of(draft.submission))
    return Kept(draft, conflicts=conflicts) if done else None


def _change(draft: DeskDraft, **new: object) -> bool:
    """Write a draft that is as it was read and not saved; the update is the lock."""
    as_read = DeskDraft.objects.filter(pk=draft.pk, revision=draft.revision, saved_as__isnull=True)
    new["revision"] = draft.revision + 1
    if not as_read.update(**new):
        return False
    for name, value in new.items():
        setattr(draft, name, value)
    return True


def _new_key() -> str:
    return f"desk {secrets.token_urlsafe(24)}"


def title_of(texts: Mapping[str, str]) -> str:
    """How a draft is called in a list: the boat, and who is on the phone."""
    names = ("answers.boat_name_and_station.name", "contact.name", "contact.phone")
    told = [" ".join(texts.get(name, "").split()) for name in names]
    return " · ".join(name for name in told[:2] or told[2:] if name)[:_LONGEST_TITLE] or told[2]


# --- Saving ---------------------------------------------------------------------------


def save(*, ident: str, by: User) -> Submission:
    """Make a request of a draft, or a new sheet of the request it goes on from; once.

    Whoever comes second gets the same request. Raises SheetErrors (an answer cannot be read; the
    draft stays open as it is), Overtaken (the sheet it went on from is another one now),
    MoveError (that request is over), DeskDraft.DoesNotExist, Busy.
    """
    for _try in range(_TRIES):
        draft = selectors.by_ident(ident)
        if draft is None:
            raise DeskDraft.DoesNotExist
        if draft.saved_as is not None:
            return draft.saved_as
        if (saved := _save(draft, by)) is not None:
            return saved
    raise Busy


@transaction.atomic
def _save(draft: DeskDraft, by: User) -> Submission | None:
    """Close the draft and store the request together; None where it was changed meanwhile."""
    now = timezone.now()
    if not _change(draft, closed_at=now, touched_by=by, touched_at=now):
        return None
    texts = texts_of(draft.boxes)
    if draft.submission is None:
        saved = intake.receive_submission(body=body_of(texts), idempotency_key=draft.key, by=by)
    else:
        saved = _new_sheet(draft, draft.submission, texts, by)
    DeskDraft.objects.filter(pk=draft.pk).update(saved_as=saved)
    return saved


def _new_sheet(
    draft: DeskDraft, submission: Submission, texts: Mapping[str, str], by: User
) -> Submission:
    base, _current = selectors.base_and_current(draft)
    return intake.correct_sheet(
        submission=submission,
        sheet_number=base.number,
        body=corrected(base.body, texts),
        by=by,
        said_by=texts.get("contact.name", ""),
    )


def put_away(*, ident: str, by: User) -> DeskDraft | None:
    """Close a draft without saving it. It is kept, and can be opened again."""
    for _try in range(_TRIES):
        draft = selectors.by_ident(ident)
        if draft is None or draft.closed_at is not None:
            return draft
        now = timezone.now()
        if _change(draft, closed_at=now, touched_by=by, touched_at=now):
            return draft
    raise Busy


def reopen(*, ident: str, by: User) -> DeskDraft | None:
    """Open what was put away. Where its request is being typed elsewhere meanwhile: that draft."""
    for _try in range(_TRIES):
        draft = selectors.by_ident(ident)
        if draft is None or draft.closed_at is None or draft.saved_as is not None:
            return draft
        try:
            with transaction.atomic():
                if _change(draft, closed_at=None, touched_by=by, touched_at=timezone.now()):
                    return draft
        except IntegrityError:
            return selectors.open_of(draft.submission)
    raise Busy


# --- Going on from a request ----------------------------------------------------------


def take_up(*, submission: Submission, by: User) -> DeskDraft:
    """The one open draft that goes on from a request; made where there is none.

    Raises MoveError where the request is over.
    """
    require_move(Status(submission.status), Status.NEEDS_CALL)
    for _try in range(_TRIES):
        if draft := selectors.open_of(submission):
            return _refreshed(draft)
        sheet = requests.fresh_sheet(submission)
        texts = boxes_of(sheet.body)
        draft = DeskDraft(ident=new_ident(), key=_new_key(), opened_by=by, touched_by=by)
        draft.submission, draft.sheet_number = submission, sheet.number
        draft.boxes, draft.title = _as_given(texts), title_of(texts)
        if insert(draft, unless_there=True):
            return draft
    raise Busy


def _as_given(texts: Mapping[str, str]) -> dict[str, dict[str, object]]:
    """Boxes that nobody typed here: they came with the sheet."""
    return {name: {"text": text, "revision": 0, "by": "", "at": ""} for name, text in texts.items()}


def _refreshed(draft: DeskDraft) -> DeskDraft:
    """A draft nobody has typed into yet starts from the sheet that counts now."""
    if draft.revision == 0:
        base, current = selectors.base_and_current(draft)
        if base.number != current.number:
            boxes = _as_given(boxes_of(current.body))
            _change(draft, boxes=boxes, sheet_number=current.number)
    return draft


def go_on_from(
    *, ident: str, number: int, mine: Sequence[str], theirs: Sequence[str], by: User
) -> bool:
    """Set a draft onto the newer sheet ``number``: of what was changed there, who stays where.

    ``mine`` and ``theirs`` are keys of answers ("answers.gap_now"). False where the sheet changed
    once more. Raises MustChoose where an answer that both changed is in neither.
    """
    for _try in range(_TRIES):
        draft = selectors.by_ident(ident)
        if draft is None or draft.submission is None or draft.saved_as is not None:
            return True
        base, current = selectors.base_and_current(draft)
        if current.number != number:
            return False
        if base.number == number:
            return True
        texts = texts_of(draft.boxes)
        asked = moved(base.body, current.body, texts)
        taken = {one.key for one in asked if not one.touched} - set(mine) | set(theirs)
        if any(one.key not in taken and one.key not in mine for one in asked):
            raise MustChoose
        sent = Sent(
            carried_over(current.body, texts, frozenset(taken)),
            seen=draft.revision,
            whole=True,
            by=by.get_username(),
            at=timezone.now().isoformat(),
        )
        merged = merge(draft.boxes, sent, draft.revision + 1)
        if _change(draft, boxes=merged.boxes, sheet_number=number):
            return True
    raise Busy


# --- Who is here, and what is left lying ----------------------------------------------


def look(*, place: str, by: User) -> list[str]:
    """Say that ``by`` looks at a place; the others who do. Written at most every 15 seconds."""
    here, now = selectors.seen_at(place), timezone.now()
    own = here.pop(by.get_username(), None)
    if own is None or own < now - timedelta(seconds=_LOOK_SECONDS):
        PageOpen.objects.bulk_create(
            [PageOpen(place=place, by=by, since=now, seen_at=now)],
            update_conflicts=True,
            unique_fields=["place", "by"],
            update_fields=["seen_at"],
        )
    return list(here)


def close_abandoned() -> int:
    """Close drafts nobody has touched for DRAFT_DAYS; say how many. They are kept."""
    now = timezone.now()
    since = now - timedelta(days=settings.DRAFT_DAYS)
    PageOpen.objects.filter(seen_at__lt=now - timedelta(days=1)).delete()
    left = DeskDraft.objects.filter(closed_at__isnull=True, touched_at__lt=since)
    return left.update(closed_at=now)
