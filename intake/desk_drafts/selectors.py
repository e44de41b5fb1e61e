"""What is read of drafts and of who has which page open."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from django.db import connection
from django.db.models import QuerySet

from intake.desk_drafts.presence.selectors import all_here
from intake.desk_drafts.presence.selectors import draft_place as draft_place
from intake.desk_drafts.presence.selectors import others_here as others_here
from intake.desk_drafts.presence.selectors import request_place as request_place
from intake.models import DeskDraft, SheetVersion, Submission
from staff.fetching import built, columns

MOST_LISTED = 20
_LOOKED_BACK = 2000  # drafts; what was put away before those is found by nobody any more


@dataclass(frozen=True, slots=True)
class Listed:
    """One draft in a list."""

    ident: str
    title: str
    touched_by: str
    touched_at: datetime
    here: tuple[str, ...] = ()
    continues: str = ""


def by_ident(ident: str) -> DeskDraft | None:
    """The draft of that address, with whom it belongs to, or None."""
    return _with_names().filter(ident=ident).first()


def kept(ident: str) -> DeskDraft | None:
    """The same for every keystroke: the draft alone, by a statement that is written once."""
    with connection.cursor() as cursor:
        cursor.execute(_KEPT, [ident])
        row = cursor.fetchone()
    return built(DeskDraft, row) if row else None


_KEPT = f"SELECT {columns(DeskDraft, 'd')} FROM {DeskDraft._meta.db_table} d WHERE ident = %s"  # noqa: S608


def open_of(submission: Submission | None) -> DeskDraft | None:
    """The one open draft that goes on from a request, if there is one."""
    if submission is None:
        return None
    return _with_names().filter(submission=submission, closed_at__isnull=True).first()


def _with_names() -> QuerySet[DeskDraft]:
    return DeskDraft.objects.select_related("touched_by", "opened_by", "submission", "saved_as")


def base_and_current(draft: DeskDraft) -> tuple[SheetVersion, SheetVersion]:
    """The sheet a draft began from, and the one that counts now; one query."""
    sheets = SheetVersion.objects.filter(submission=draft.submission_id).select_related("made_by")
    number = draft.sheet_number or 1
    both = list(sheets.filter(number=number) | sheets.filter(is_current=True))
    base = next(sheet for sheet in both if sheet.number == number)
    return base, next(sheet for sheet in both if sheet.is_current)


def open_drafts(limit: int = MOST_LISTED) -> list[Listed]:
    """Calls that are being typed, last touched first; two queries."""
    rows = _listed(DeskDraft.objects.filter(closed_at__isnull=True).order_by("-touched_at")[:limit])
    here = all_here(draft_place(row.ident) for row in rows)
    return [
        Listed(
            row.ident,
            row.title,
            row.touched_by,
            row.touched_at,
            here=tuple(here.get(draft_place(row.ident), ())),
            continues=row.continues,
        )
        for row in rows
    ]


def put_away(limit: int = MOST_LISTED) -> list[Listed]:
    """Calls put away lately without being saved, newest first; they can be taken up again."""
    newest = DeskDraft.objects.order_by("-pk").values_list("pk", flat=True).first() or 0
    lately = DeskDraft.objects.filter(pk__gt=newest - _LOOKED_BACK, saved_as__isnull=True)
    return _listed(lately.filter(closed_at__isnull=False).order_by("-pk")[:limit])


def _listed(rows: QuerySet[DeskDraft]) -> list[Listed]:
    told = rows.values_list(
        "ident", "title", "touched_by__username", "touched_at", "submission__reference"
    )
    return [Listed(i, title, by, at, continues=ref or "") for i, title, by, at, ref in told]
