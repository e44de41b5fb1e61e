"""The page of one request: everything about it."""

from __future__ import annotations

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_GET

from intake import selectors
from intake.access import needs
from intake.desk_history import history_lines
from intake.desk_show import Shown, sheet_rows
from intake.domain.lifecycle import Status
from intake.models import Submission
from intake.photos.selectors import photos_of

reader_required = needs("intake.view_submission")


@reader_required
@require_GET
def submission(request: HttpRequest, reference: str) -> HttpResponse:
    """Everything about one submission."""
    found = _find(reference)
    sheet = selectors.current_sheet(found)
    shown, rows = Shown(sheet.outcome), sheet_rows(sheet)
    context = {
        "submission": found,
        "sheet": sheet,
        "shown": shown,
        "drawing": shown.line_svg({row.slug: row.drawn for row in rows if row.drawn}),
        "rows": rows,
        "open": found.status != Status.WITHDRAWN,
        "history": history_lines(selectors.history_of(found)),
        "photos": photos_of(found),
    }
    return render(request, "intake/submission.html", context)


def _find(reference: str) -> Submission:
    try:
        return selectors.by_reference(reference)
    except Submission.DoesNotExist as error:
        raise Http404 from error
