"""The page of one request: everything about it, and first what to do next."""

from __future__ import annotations

from typing import cast

from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.utils import timezone
from django.views.decorators.http import require_GET

from intake import selectors
from intake.access import needs
from intake.calling.claims.selectors import claim_of
from intake.desk_drafts.presence.selectors import others_here, request_place
from intake.desk_history import history_lines
from intake.desk_show import Shown, sheet_rows
from intake.domain.lifecycle import OPEN, Status
from intake.finding.request.answered import all_told
from intake.finding.request.next_step import next_step
from intake.finding.request.selectors import beside, with_records
from intake.models import CallRecord, SheetVersion, Submission
from intake.photos.selectors import photos_of

reader_required = needs("intake.view_submission")


@reader_required
@require_GET
def submission(request: HttpRequest, reference: str) -> HttpResponse:
    """Everything about one submission."""
    found = _find(reference)
    history = selectors.history_of(found)
    sheets = [entry.row for entry in history if isinstance(entry.row, SheetVersion)]
    calls = [entry.row for entry in history if isinstance(entry.row, CallRecord)]
    sheet = next(one for one in reversed(sheets) if one.is_current)
    shown, rows = Shown(sheet.outcome), sheet_rows(sheet)
    told = all_told(sheets, calls)
    place, origin = request_place(found.reference), request.GET.get("list")
    context = {
        "submission": found,
        "sheet": sheet,
        "shown": shown,
        "drawing": shown.line_svg({row.slug: row.drawn for row in rows if row.drawn}),
        "rows": rows,
        "step": next_step(found, timezone.now()),
        "told": told,
        "settled": any(one.state != "open" for one in told),
        "open": found.status != Status.WITHDRAWN,
        "unfinished": found.status in OPEN,
        "history": history_lines(history),
        "photos": photos_of(found),
        "claim": claim_of(found),
        "place": place,
        "here": others_here(place, cast(User, request.user)),
        "origin": origin,
        "beside": beside(found, origin) if origin is not None else None,
    }
    return render(request, "intake/submission.html", context)


def _find(reference: str) -> Submission:
    try:
        return with_records(reference)
    except Submission.DoesNotExist as error:
        raise Http404 from error
