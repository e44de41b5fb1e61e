"""What the call page shows of a draft, and what a page sends back."""

from __future__ import annotations

import json
import secrets
from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from django.contrib.auth.models import User
from django.http import QueryDict
from django.utils import timezone
from django.utils.dateparse import parse_datetime

from intake.desk_check import judge
from intake.desk_drafts import selectors
from intake.desk_drafts.boxes import body_of, is_many, texts_in
from intake.desk_drafts.drawn import label_of
from intake.desk_drafts.going_on.rebasing import corrected
from intake.desk_drafts.limits import refusals
from intake.desk_drafts.merging import Conflict, Sent, texts_of
from intake.desk_fields import (
    WANTS,
    Errors,
    Typed,
    all_errors,
    contact_fields,
    order_boxes,
    sections,
)
from intake.models import DeskDraft, Submission

_LONGEST_NEWS = 2000  # characters of a header
START: Mapping[str, str] = {"tape_unit": "in", "wants": "shaft,coupling,bearing"}


def sent_by(form: QueryDict, by: User, *, whole: bool) -> tuple[Sent, dict[str, str]]:
    """What a page sends, and a sentence for each box of it that cannot be kept."""
    texts, changed = texts_in(form), frozenset(form.get("changed", "").split())
    refused = refusals(texts, changed)
    sent = Sent(
        texts={name: text for name, text in texts.items() if name not in refused},
        seen=number_in(form.get("seen", "")),
        changed=changed - set(refused),
        whole=whole,
        page=form.get("page", "")[:40],
        nth=number_in(form.get("nth", "")),
        by=by.get_username(),
        at=timezone.now().isoformat(timespec="seconds"),
    )
    return sent, refused


def number_in(text: str) -> int:
    """A small number of a hidden box; 0 where it is none."""
    return int(text) if text.isascii() and text.isdigit() and len(text) < 10 else 0


def typed_of(texts: Mapping[str, str]) -> Typed:
    """The texts as the page draws them: what is ticked is a list."""
    typed: dict[str, Any] = dict(texts)
    typed["wants"] = [want for want in texts.get("wants", "").split(",") if want]
    return typed


def body_now(draft: DeskDraft | None, texts: Mapping[str, str]) -> tuple[dict[str, Any], bool]:
    """The body that saving these boxes would store, and whether its request has a newer sheet.

    One query where it goes on from a request.
    """
    if draft is None or draft.submission_id is None:
        return body_of(texts), False
    base, current = selectors.base_and_current(draft)
    return corrected(base.body, texts), base.number != current.number


def context(
    *,
    ident: str,
    texts: Mapping[str, str],
    draft: DeskDraft | None = None,
    errors: Errors | None = None,
    conflicts: Iterable[Conflict] = (),
    saved: Submission | None = None,
    late: bool = False,
    here: Iterable[str] = (),
) -> dict[str, Any]:
    """Everything templates/intake/desk.html is given.

    ``saved``: the request this became; ``late``: what was typed after that stands here, as a
    correction of it that is not saved yet. ``newer``: its request has a newer sheet meanwhile.
    """
    typed, errors = typed_of(texts), errors or {}
    parts, contact = sections(typed, errors), contact_fields(typed, errors)
    fields = [field for part in parts for field in part.fields] + list(contact)
    tape, job = order_boxes(typed)
    body, newer = body_now(draft, texts)
    judged = judge(body) if draft else None
    return {
        "ident": ident,
        "page": secrets.token_urlsafe(6),
        "revision": draft.revision if draft else 0,
        "draft": draft,
        "here": list(here),
        "open_drafts": [each for each in selectors.open_drafts() if each.ident != ident],
        "put_away": [each for each in selectors.put_away(5) if each.ident != ident],
        "continues": draft.submission if draft else None,
        "conflicts": [told(conflict) for conflict in conflicts],
        "sections": parts,
        "contact": contact,
        "tape": tape,
        "job": job,
        "wants_options": WANTS,
        "typed": typed,
        "lost_errors": all_errors(errors, fields),
        "wrong": [field for field in fields if field.errors],
        "judged": judged,
        "saved": saved,
        "late": late,
        "newer": newer,
    }


def told(conflict: Conflict) -> dict[str, str]:
    """Two texts of one box, as the page says them."""
    return {
        "name": conflict.name,
        "label": str(label_of(conflict.name)),
        "mine": _said(conflict.name, conflict.mine),
        "theirs": _said(conflict.name, conflict.theirs),
        "by": conflict.by,
        "at": clock(conflict.at, "%H:%M"),
    }


def _said(name: str, text: str) -> str:
    return text.replace(",", ", ") if is_many(name) else text


def clock(moment: str, form: str = "%H:%M:%S") -> str:
    """A kept moment on the desk's own clock."""
    at = parse_datetime(moment)
    return timezone.localtime(at).strftime(form) if at else ""


def news(draft: DeskDraft, sent: Sent, conflicts: Iterable[Conflict]) -> tuple[dict[str, str], int]:
    """The boxes others changed since the page was last answered, and up to which revision.

    They travel in a header, so a page that has slept gets them in several answers, the oldest
    first: a proxy may refuse an answer with long headers.
    """
    mine = {conflict.name for conflict in conflicts} | sent.changed
    fresh: dict[int, dict[str, str]] = {}
    for name, box in draft.boxes.items():
        own = bool(sent.page) and box.get("page") == sent.page
        told = box["text"] == sent.texts.get(name, "")
        if box["revision"] > sent.seen and not (own or told or name in mine):
            fresh.setdefault(box["revision"], {})[name] = str(box["text"])
    boxes: dict[str, str] = {}
    for revision in sorted(fresh):
        if boxes and len(json.dumps(boxes | fresh[revision])) > _LONGEST_NEWS:
            return boxes, revision - 1
        boxes |= fresh[revision]
    return boxes, draft.revision


def kept_texts(draft: DeskDraft | None) -> dict[str, str]:
    """The texts of a draft, or none."""
    return texts_of(draft.boxes) if draft else {}


def only(sent: Sent, names: Iterable[str]) -> Sent:
    """The same message with these boxes alone, for another draft that nobody here has seen."""
    texts = {name: sent.texts.get(name, "") for name in names}
    return replace(sent, texts=texts, changed=frozenset(texts), whole=False, seen=0)


def key_of(name: str) -> str:
    """The question a box belongs to: "answers.gap_now", "contact.phone"."""
    return ".".join(name.split(".")[:2])
