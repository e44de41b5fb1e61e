"""Beginning a draft from a stored request, and setting it onto a newer sheet of that request."""

from __future__ import annotations

from collections.abc import Collection, Mapping

from django.contrib.auth.models import User
from django.utils import timezone

from intake import selectors as requests
from intake.desk_drafts import selectors
from intake.desk_drafts.boxes import boxes_of
from intake.desk_drafts.going_on.rebasing import carried_over, moved
from intake.desk_drafts.merging import Sent, merge, texts_of
from intake.desk_drafts.services import TRIES, Busy, change, new_ident, new_key, title_of
from intake.domain.lifecycle import Status, require_move
from intake.inserts import insert
from intake.models import DeskDraft, SheetVersion, Submission


class MustChoose(Exception):
    """Answers were changed here and on the newer sheet: a person must say which stay."""


def take_up(*, submission: Submission, by: User) -> DeskDraft:
    """The one open draft that goes on from a request; made where there is none.

    Raises MoveError where the request is over.
    """
    require_move(Status(submission.status), Status.NEEDS_CALL)
    for _try in range(TRIES):
        if draft := selectors.open_of(submission):
            return _refreshed(draft)
        sheet = requests.fresh_sheet(submission)
        texts = boxes_of(sheet.body)
        draft = DeskDraft(ident=new_ident(), key=new_key(), opened_by=by, touched_by=by)
        draft.submission, draft.sheet_number = submission, sheet.number
        draft.boxes, draft.title = _as_given(texts), title_of(texts)
        if insert(draft, unless_there=True):
            return draft
    raise Busy


def _as_given(texts: Mapping[str, str]) -> dict[str, dict[str, object]]:
    """Boxes that nobody typed here: they came with the sheet."""
    return {name: {"text": text, "revision": 0, "by": "", "at": ""} for name, text in texts.items()}


def _refreshed(draft: DeskDraft) -> DeskDraft:
    """A draft nobody has typed into yet goes on from the sheet that counts now."""
    if any(box["by"] for box in draft.boxes.values()):
        return draft
    base, current = selectors.base_and_current(draft)
    if base.number != current.number:
        _set_onto(draft, current, frozenset(_moved_keys(draft, base, current)), "")
    return draft


def _moved_keys(draft: DeskDraft, base: SheetVersion, current: SheetVersion) -> list[str]:
    return [one.key for one in moved(base.body, current.body, texts_of(draft.boxes))]


def go_on_from(
    *, ident: str, number: int, mine: Collection[str], theirs: Collection[str], by: User
) -> bool:
    """Set a draft onto the newer sheet ``number``: of what was changed there, whose answer stays.

    ``mine`` and ``theirs`` are keys of answers ("answers.gap_now"). What the draft did not touch
    follows the newer sheet unless it is in ``mine``. False where the sheet changed once more.
    Raises MustChoose where an answer that both changed is in neither.
    """
    for _try in range(TRIES):
        draft = selectors.by_ident(ident)
        if draft is None or draft.submission is None or draft.saved_as is not None:
            return True
        base, current = selectors.base_and_current(draft)
        if base.number == number:
            return True
        if current.number != number:
            return False
        asked = moved(base.body, current.body, texts_of(draft.boxes))
        if any(one.touched and one.key not in {*mine, *theirs} for one in asked):
            raise MustChoose
        follow = frozenset(one.key for one in asked if one.key not in mine)
        if _set_onto(draft, current, follow, by.get_username()):
            return True
    raise Busy


def _set_onto(draft: DeskDraft, current: SheetVersion, follow: frozenset[str], by: str) -> bool:
    """The draft with the answers of ``follow`` as the newer sheet has them, going on from it."""
    at = timezone.now().isoformat(timespec="seconds")
    texts = carried_over(current.body, texts_of(draft.boxes), follow)
    sent = Sent(texts, seen=draft.revision, whole=True, by=by, at=at)
    merged = merge(draft.boxes, sent, draft.revision + 1)
    return change(draft, boxes=merged.boxes, sheet_number=current.number)
