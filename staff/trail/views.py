"""Every change of every record: who, when, what and why. To be read, never to be edited."""

from __future__ import annotations

import csv
from collections.abc import Iterator
from typing import Any, cast

from django.http import HttpRequest, HttpResponse, StreamingHttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from staff.access import accounts_required
from staff.models import Change
from staff.trail import asked as reading
from staff.trail import selectors

_RISKY = ("=", "+", "-", "@", "\t", "\r", "'")  # what a spreadsheet would run


@accounts_required
@require_safe
def all_changes(request: HttpRequest) -> HttpResponse:
    """Page by page, by kind, record, person and day."""
    asked = reading.read(request.GET)
    page = selectors.some_changes(asked)
    context = {"asked": asked, "page": page, "kinds": selectors.kinds()}
    return render(request, "staff/changes.html", context)


@accounts_required
@require_safe
def all_changes_csv(request: HttpRequest) -> HttpResponse:
    """The same as a table, a line for each thing that changed."""
    lines = _lines(selectors.all_of_them(reading.read(request.GET)))
    answer = cast(
        "HttpResponse", StreamingHttpResponse(lines, content_type="text/csv; charset=utf-8")
    )
    answer["Content-Disposition"] = 'attachment; filename="changes.csv"'
    return answer


class _Echo:
    def write(self, text: str) -> str:
        return text


def _lines(changes: Iterator[Change]) -> Iterator[str]:
    writer: Any = csv.writer(_Echo(), lineterminator="\r\n")
    yield "\ufeff" + writer.writerow(
        ["at", "kind", "record", "what", "before", "after", "why", "by"]
    )
    for one in changes:
        who = one.by.get_username() if one.by else ""
        for name, (before, after) in one.what.items():
            cells = (one.record, one.key, name, before, after, one.why, who)
            yield writer.writerow([f"{one.at:%Y-%m-%d %H:%M}", *map(_plain, cells)])


def _plain(value: object) -> str:
    text = "" if value is None else str(value)
    return f"'{text}" if text.startswith(_RISKY) else text
