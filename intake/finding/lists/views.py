"""All requests: found by any word or number, sorted, filtered, printed, handed on as CSV."""

from __future__ import annotations

import csv
from collections.abc import Iterator, Sequence
from typing import Any

from django.http import HttpRequest, HttpResponse, StreamingHttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import render
from django.template.loader import render_to_string
from django.utils import timezone
from django.views.decorators.http import require_GET

from intake.access import counter_required, needs
from intake.domain.lifecycle import LABELS, Status
from intake.finding.lists import selectors
from intake.finding.lists.asked import CHANNELS, Asked, asked_for
from intake.finding.words import NOBODY, RANKS
from intake.insights import month_name, plain
from intake.models import Submission
from intake.selectors import months_back
from staff.security import address_of, tell

PAGE, MONTHS = 25, 24
CSV_MOST, CSV_AT_ONCE = 5000, 500
HEADINGS = (
    *("reference", "boat", "side", "customer", "phone", "job", "status", "verdict", "channel"),
    *("received", "needed by", "last change by"),
)
SORT_WORDS = (
    ("newest", "newest"),
    ("oldest", "oldest"),
    ("needed", "needed soonest"),
    ("waiting", "longest wait"),
    ("verdict", "verdict"),
    ("boat", "boat"),
)
reader_required = needs("intake.view_submission")


@reader_required
@require_GET
def requests(request: HttpRequest) -> HttpResponse:
    """One page of the list that was asked for."""
    asked = asked_for(request.GET)
    page = selectors.page_of(asked, PAGE)
    context = {
        "asked": asked,
        "page": page,
        "rows": selectors.rows_of(page.keys),
        "address": asked.address(),
        "unread": bool(asked.text) and not asked.words,
        "choices": _choices(asked),
        "sorts": SORT_WORDS,
        "older": _turned(asked, "after", page.keys[-1:]) if page.has_more else "",
        "newer": _turned(asked, "before", page.keys[:1]) if not page.is_first else "",
        "most": CSV_MOST,
        "marks": {word: render_to_string("_verdict.html", {"call": word}) for word in RANKS},
        "now": timezone.now(),
    }
    return render(request, "intake/finding/requests.html", context)


@counter_required  # type: ignore[arg-type]  # it is streamed
@require_GET
def requests_csv(request: HttpRequest) -> HttpResponseBase:
    """The whole list from its top, at most so many rows, written while it is read."""
    name = f'attachment; filename="requests-{timezone.localdate()}.csv"'
    # Names and numbers of many at once: the log knows who took them.
    tell("list-taken", person=request.user.pk, address=address_of(request))
    return StreamingHttpResponse(
        _lines_of(asked_for(request.GET)),
        content_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": name},
    )


class _Echo:
    """A file that hands back what is written to it."""

    def write(self, text: str) -> str:
        return text


def _lines_of(asked: Asked) -> Iterator[str]:
    sheet, count = csv.writer(_Echo()), 0
    yield sheet.writerow(HEADINGS)
    for rows in selectors.all_of(asked, most=CSV_MOST, at_once=CSV_AT_ONCE):
        count += len(rows)
        yield "".join(sheet.writerow(map(plain, _cells(row))) for row in rows)
    if count >= CSV_MOST:
        yield sheet.writerow([f"only the first {CSV_MOST} are in this file; filter for the rest"])


def _cells(row: Submission) -> tuple[str, ...]:
    line = getattr(row, "line", None)
    return (
        *(row.reference, row.boat_name, row.station, row.contact_name, row.contact_phone),
        *(row.job, str(LABELS[Status(row.status)]), row.verdict, row.channel),
        f"{timezone.localtime(row.received_at):%Y-%m-%d %H:%M}",
        str(row.needed_by or ""),
        str((line and line.last_by) or ""),
    )


def _choices(asked: Asked) -> list[dict[str, Any]]:
    """The boxes to filter by, each with what may be chosen."""
    people = [(str(person.pk), person.username) for person in selectors.people()]
    boxes = (
        ("status", "Status", [(status.value, str(LABELS[status])) for status in Status]),
        ("verdict", "Verdict", [(word, word) for word in ("stop", "ask", "release")]),
        ("channel", "Came by", [(word, word) for word in CHANNELS]),
        ("month", "Came in", [(month, month_name(month)) for month in months_back(MONTHS)[::-1]]),
        ("by", "Last change by", [*people, (NOBODY, "customer or desk by itself")]),
    )
    return [
        {"name": name, "label": label, "options": options, "chosen": asked.filters.get(name, "")}
        for name, label, options in boxes
    ]


def _turned(asked: Asked, way: str, keys: Sequence[int]) -> str:
    return asked.address(**{way: str(keys[0])}) if keys else ""
