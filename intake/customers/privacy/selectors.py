"""Everything that is kept of one customer, and whose time is over."""

from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Iterable, Mapping
from datetime import datetime, timedelta
from typing import Any

from django.conf import settings
from django.core.serializers.json import DjangoJSONEncoder
from django.db.models import Prefetch, Q, QuerySet
from django.utils import timezone

from intake.customers.models import Boat, Customer, Merge
from intake.customers.privacy.traces.selectors import drafts_of, handed_drafts_of
from intake.desk_drafts.models import DeskDraft
from intake.domain.kept_history import KEY
from intake.hand_over.models import HandedDraft
from intake.models import Submission
from intake.photos.models import Photo
from intake.signals import customer_asked, orders_asked
from staff.trail.selectors import changes_of


def family(customer: Customer) -> list[Customer]:
    """The record and those that were merged into it."""
    return [customer, *Customer.objects.filter(merged_into=customer).order_by("pk")]


def submissions_of(customers: Iterable[Customer]) -> QuerySet[Submission]:
    """Their requests, oldest first."""
    return Submission.objects.filter(customer__in=list(customers)).order_by("pk")


def open_orders(submissions: Iterable[int]) -> list[str]:
    """References of accepted orders that are not finished, as whoever keeps them says."""
    answers: list[tuple[Any, Any]] = orders_asked.send(
        sender=Submission, submissions=list(submissions)
    )
    return sorted({reference for _, references in answers for reference in references})


# --- Handed out -----------------------------------------------------------------------


def everything_kept(customer: Customer) -> tuple[dict[str, Any], dict[str, bytes]]:
    """What is kept about one customer as data, and files by their names."""
    people = family(customer)
    submissions = list(
        submissions_of(people).prefetch_related(
            *("sheets", "calls", "blind_readings", "events"), _photos()
        )
    )
    files: dict[str, bytes] = {}
    told: dict[str, Any] = {
        "customer": [_row(one, _CONTACT) for one in people],
        "boats": _boats(people),
        "merges": _merges(people),
        "changes": _changes(people),
        "requests": [_request(one) for one in submissions],
        "calls_begun": _drafts(people, submissions),
        "handed_on": _handed(people),
    }
    for photo in Photo.objects.filter(submission__in=submissions).order_by("pk"):
        files[f"photos/{photo.ident}.jpg"] = bytes(photo.content)
    keys = [one.pk for one in submissions]
    answers: list[tuple[Any, Any]] = customer_asked.send(sender=Customer, submissions=keys)
    for _, (name, rows, more) in answers:
        told[name] = rows
        files.update(more)
    return told, files


def as_zip(told: Mapping[str, Any], files: Mapping[str, bytes]) -> bytes:
    """One file: what is kept as JSON, with the pictures and papers beside it."""
    kept = io.BytesIO()
    with zipfile.ZipFile(kept, "w", zipfile.ZIP_DEFLATED) as packed:
        text = json.dumps(told, cls=DjangoJSONEncoder, ensure_ascii=False, indent=1)
        packed.writestr("kept.json", text)
        for name, content in files.items():
            packed.writestr(name, content, zipfile.ZIP_STORED)
    return kept.getvalue()


_CONTACT = ("id", "name", "phone", "email", "role", "made_at", "active_at")
_ASKED = (
    *("reference", "status", "verdict", "channel", "language", "received_at", "contact_name"),
    *("contact_phone", "contact_email", "contact_role", "boat_name", "station", "job", "needed_by"),
)
_BOAT = ("id", "name", "station", "made_at")
_SHAFT = ("month", "length_nm", "diameter_nm", "alloy", "gap_nm", "misfit")
_CALLED = (
    *("at", "check_id", "answer", "question_as_asked", "outcome", "said_by", "cause"),
    *("contributing", "note"),
)


def _row(row: Any, names: Iterable[str]) -> dict[str, Any]:
    return {name: getattr(row, name) for name in names}


def _boats(people: list[Customer]) -> list[dict[str, Any]]:
    boats = Boat.objects.filter(customer__in=people).order_by("pk").prefetch_related("fitted")
    return [
        {**_row(boat, _BOAT), "shafts": [_row(shaft, _SHAFT) for shaft in boat.fitted.all()]}
        for boat in boats
    ]


def _photos() -> Prefetch[str, QuerySet[Photo], str]:
    """What is told of each picture; the picture itself is a file beside it."""
    return Prefetch("photos", queryset=Photo.objects.defer("content", "small"))


def _merges(people: Iterable[Customer]) -> list[dict[str, Any]]:
    keys = [one.pk for one in people]
    boats = list(Boat.objects.filter(customer__in=keys).values_list("pk", flat=True))
    theirs = Q(kind="customer", gone__in=keys) | Q(kind="boat", gone__in=boats)
    merges = Merge.objects.filter(theirs)
    return [_row(one, ("kind", "kept", "gone", "why", "at", "undone_at")) for one in merges]


def _changes(people: list[Customer]) -> list[dict[str, Any]]:
    """Of each record, one statement: few were ever merged."""
    boats = Boat.objects.filter(customer__in=people).order_by("pk").values_list("pk", flat=True)
    records = [("customer", one.pk) for one in people] + [("boat", pk) for pk in boats]
    return [
        {"record": f"{kind} {pk}", **_row(change, ("at", "why", "what"))}
        for kind, pk in records
        for change in changes_of(kind, pk)
    ]


def _request(submission: Submission) -> dict[str, Any]:
    """A request with all its sheets as they were typed, and all that was said about it."""
    return {
        **_row(submission, _ASKED),
        "sheets": [
            {
                **_row(sheet, ("number", "made_at", "reason", "said_by", "body")),
                "outcome": _of_theirs(sheet.outcome),
            }
            for sheet in submission.sheets.all()
        ],
        "calls": [_row(call, _CALLED) for call in submission.calls.all()],
        "read_again": [
            _row(blind, ("at", "answer", "first", "second"))
            for blind in submission.blind_readings.all()
        ],
        "events": [
            _row(event, ("at", "old_status", "new_status", "reason"))
            for event in submission.events.all()
        ],
        "photos": [_row(photo, ("ident", "question", "at")) for photo in submission.photos.all()],
    }


def _of_theirs(outcome: Mapping[str, Any]) -> dict[str, Any]:
    """A judgement without what was known beside the sheet.

    That is of their other requests, which are handed out themselves, and of boats of others.
    """
    return {name: value for name, value in outcome.items() if name != KEY}


def _drafts(people: list[Customer], submissions: list[Submission]) -> list[dict[str, Any]]:
    keys = drafts_of(people, [one.pk for one in submissions])
    drafts = DeskDraft.objects.filter(pk__in=keys).order_by("pk")
    return [_row(draft, ("title", "opened_at", "touched_at", "boxes")) for draft in drafts]


def _handed(people: list[Customer]) -> list[dict[str, Any]]:
    drafts = HandedDraft.objects.filter(pk__in=handed_drafts_of(people)).order_by("pk")
    return [_row(draft, ("made_at", "expires_at", "draft")) for draft in drafts]


# --- Whose time is over ---------------------------------------------------------------


def customers_due(most: int) -> list[int]:
    """Customers of whom nothing was heard for so long that they are forgotten."""
    before = _before(settings.KEEP_CONTACT_DAYS)
    if before is None:
        return []
    quiet = Customer.objects.filter(active_at__lt=before, merged_into=None, erased_at=None)
    return list(quiet.order_by("active_at", "pk").values_list("pk", flat=True)[:most])


def keep_days() -> int:
    """For how many days after their last request a customer is kept."""
    return int(settings.KEEP_CONTACT_DAYS)


def photos_due(most: int) -> list[int]:
    """Photos that were taken too long ago."""
    before = _before(settings.KEEP_PHOTO_DAYS)
    if before is None:
        return []
    old = Photo.objects.filter(at__lt=before)
    return list(old.order_by("pk").values_list("pk", flat=True)[:most])


def drafts_due(most: int) -> list[int]:
    """Typed calls that nobody has touched for so long, saved or not."""
    before = _before(settings.KEEP_DRAFT_DAYS)
    if before is None:
        return []
    old = DeskDraft.objects.filter(touched_at__lt=before)
    return list(old.order_by("touched_at").values_list("pk", flat=True)[:most])


def _before(days: int) -> datetime | None:
    """The moment before which it is too old; None where it is kept for ever."""
    return timezone.now() - timedelta(days=days) if days > 0 else None
