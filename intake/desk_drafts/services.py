"""Keeping calls while they are typed, and saving each once. Every function is one whole step."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import timedelta
from functools import cache
from typing import Any

from django.conf import settings
from django.contrib.auth.models import User
from django.db import IntegrityError, connection, transaction
from django.db.models import Model
from django.utils import timezone

from intake import services as intake
from intake.desk_drafts import selectors
from intake.desk_drafts.boxes import body_of
from intake.desk_drafts.drawn import drawn
from intake.desk_drafts.going_on.rebasing import corrected
from intake.desk_drafts.merging import Conflict, Sent, merge, texts_of
from intake.desk_drafts.presence.services import look as look  # asked for here by all
from intake.inserts import insert
from intake.models import DeskDraft, Submission

TRIES = 60  # each round somebody gets through, so this is how many may type at once
_LONGEST_TITLE = 300


class Busy(Exception):
    """So many people change one call at once that there was no getting through."""

    def __init__(self) -> None:
        super().__init__("Too many people are changing this call at once. Please try once more.")


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
    for _try in range(TRIES):
        draft = selectors.kept(ident)
        kept = _first(ident, sent, by) if draft is None else _again(draft, sent, by)
        if kept is not None:
            return kept
    raise Busy


def _first(ident: str, sent: Sent, by: User) -> Kept | None:
    """A new draft of everything on the page; None where somebody else made it just now."""
    merged = merge({}, Sent(sent.texts, whole=True, page=sent.page, by=sent.by, at=sent.at), 1)
    if not merged.stored:
        return Kept(None)
    draft = DeskDraft(ident=ident, boxes=merged.boxes, revision=1, key=new_key(), opened_by=by)
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
    new: dict[str, object] = {
        "boxes": merged.boxes,
        "title": title_of(texts_of(merged.boxes)),
        "touched_by": by,
        "touched_at": timezone.now(),
    }
    if draft.closed_at is not None:
        return _opened(draft, merged.conflicts, new)
    return Kept(draft, conflicts=merged.conflicts) if change(draft, **new) else None


def _opened(
    draft: DeskDraft, conflicts: tuple[Conflict, ...], new: dict[str, object]
) -> Kept | None:
    """Open a draft that was put away, with the change that somebody typed into it."""
    try:
        with transaction.atomic():
            done = change(draft, closed_at=None, **new)
    except IntegrityError:  # its request is being typed elsewhere
        return Kept(draft, elsewhere=selectors.open_of(draft.submission))
    return Kept(draft, conflicts=conflicts) if done else None


def change(draft: DeskDraft, **new: object) -> bool:
    """Write a draft that is as it was read and not saved; the update is the lock."""
    new["revision"] = draft.revision + 1
    told = [_as_stored(name, value) for name, value in new.items()]
    with connection.cursor() as cursor:
        cursor.execute(_change(tuple(new)), [*told, draft.pk, draft.revision])
        if not cursor.rowcount:
            return False
    for name, value in new.items():
        setattr(draft, name, value)
    return True


@cache
def _change(names: tuple[str, ...]) -> str:
    """Every keystroke is one of these: building it anew would cost more than its work."""
    columns = ", ".join(f"{_FIELDS[name].column} = %s" for name in names)
    return (
        f"UPDATE {DeskDraft._meta.db_table} SET {columns} "  # noqa: S608
        "WHERE id = %s AND revision = %s AND saved_as_id IS NULL"
    )


def _as_stored(name: str, value: object) -> Any:
    stored = value.pk if isinstance(value, Model) else value
    return _FIELDS[name].get_db_prep_save(stored, connection)


_FIELDS = {field.name: field for field in DeskDraft._meta.concrete_fields}


def new_key() -> str:
    """The key under which one draft is stored once."""
    return f"desk {secrets.token_urlsafe(24)}"


def title_of(texts: Mapping[str, str]) -> str:
    """How a draft is called in a list: the boat, and who is on the phone."""
    names = ("answers.boat_name_and_station.name", "contact.name", "contact.phone")
    boat, person, phone = (" ".join(texts.get(name, "").split()) for name in names)
    return " · ".join(filter(None, (boat, person or phone)))[:_LONGEST_TITLE]


# --- Saving ---------------------------------------------------------------------------


def save(*, ident: str, by: User) -> Submission:
    """Make a request of a draft, or a new sheet of the request it goes on from; once.

    Whoever comes second gets the same request. Raises SheetErrors (an answer cannot be read; the
    draft stays open as it is), Overtaken (the sheet it went on from is another one now),
    MoveError (that request is over), DeskDraft.DoesNotExist, Busy.
    """
    for _try in range(TRIES):
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
    if not change(draft, closed_at=now, touched_by=by, touched_at=now):
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
    for _try in range(TRIES):
        draft = selectors.by_ident(ident)
        if draft is None or draft.closed_at is not None:
            return draft
        now = timezone.now()
        if change(draft, closed_at=now, touched_by=by, touched_at=now):
            return draft
    raise Busy


def reopen(*, ident: str, by: User) -> DeskDraft | None:
    """Open what was put away. Where its request is being typed elsewhere meanwhile: that draft."""
    for _try in range(TRIES):
        draft = selectors.by_ident(ident)
        if draft is None or draft.closed_at is None or draft.saved_as is not None:
            return draft
        try:
            with transaction.atomic():
                if change(draft, closed_at=None, touched_by=by, touched_at=timezone.now()):
                    return draft
        except IntegrityError:
            return selectors.open_of(draft.submission)
    raise Busy


# --- What is left lying ---------------------------------------------------------------


def close_abandoned() -> int:
    """Close drafts nobody has touched for DRAFT_DAYS; say how many. They are kept."""
    now = timezone.now()
    left = DeskDraft.objects.filter(
        closed_at__isnull=True, touched_at__lt=now - timedelta(days=settings.DRAFT_DAYS)
    )
    return left.update(closed_at=now)
