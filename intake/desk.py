"""The counter's pages: type a call, see what does not add up, ask, record the answer."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from typing import Any, cast

from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from intake import selectors, services
from intake.access import counter_required, needs
from intake.desk_check import judge
from intake.desk_fields import WANTS, Typed, all_errors, contact_fields, order_boxes, sections
from intake.desk_history import history_lines
from intake.desk_show import Shown, sheet_rows
from intake.desk_ways import told_at_desk
from intake.domain.lifecycle import Status
from intake.domain.sheet import SheetErrors
from intake.forms import body_from_post
from intake.models import Submission
from intake.photos.selectors import photos_of

reader_required = needs("intake.view_submission")
_START = {"tape_unit": "in", "wants": ["shaft", "coupling", "bearing"]}


@counter_required
@require_http_methods(["GET", "HEAD", "POST"])
def desk(request: HttpRequest) -> HttpResponse:
    """Type a call; POST saves it as a submission, once."""
    if request.method != "POST":
        return _call_page(request, _START, {})
    key = request.POST.get("idempotency_key", "")[:200]
    try:
        saved = services.receive_submission(
            body=call_body(request.POST),
            idempotency_key=key,
            by=_user(request),
        )
    except SheetErrors as error:
        return _call_page(request, typed_in(request), error.errors, status=400)
    except services.KeyReused:
        return _saved_before(request, key)
    return redirect("submission", reference=saved.reference)


@counter_required
@require_POST
def desk_check(request: HttpRequest) -> HttpResponse:
    """Judge what has been typed so far. Stores nothing; half a number is no hindrance."""
    judged = judge(call_body(request.POST))
    return render(request, "intake/_desk_panel.html", {"judged": judged, "fragment": True})


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


def call_body(typed: QueryDict) -> dict[str, Any]:
    """The boxes as the API's body: the same form as every other door, told by phone."""
    return told_at_desk({**body_from_post(typed), "channel": "phone"})


def typed_in(request: HttpRequest) -> Typed:
    """What stands in the boxes, to be shown again as it was typed."""
    typed: dict[str, Any] = request.POST.dict()
    typed["wants"] = request.POST.getlist("wants")
    return typed


def _call_page(
    request: HttpRequest,
    typed: Typed,
    errors: Mapping[str, list[str]],
    *,
    saved: Submission | None = None,
    status: int = 200,
) -> HttpResponse:
    """The page to type into, with a panel that has read what is already there."""
    parts, contact = sections(typed, errors), contact_fields(typed, errors)
    fields = [field for part in parts for field in part.fields] + list(contact)
    new_key = secrets.token_urlsafe(24)
    tape, job = order_boxes(typed)
    context = {
        "tape": tape,
        "job": job,
        "wants_options": WANTS,
        "typed": typed,
        "sections": parts,
        "contact": contact,
        "lost_errors": all_errors(errors, fields),
        "wrong": [field for field in fields if field.errors],
        "judged": judge(call_body(request.POST)) if request.POST else None,
        "key": new_key if saved else typed.get("idempotency_key") or new_key,
        "saved": saved,
    }
    return render(request, "intake/desk.html", context, status=status)


def _saved_before(request: HttpRequest, key: str) -> HttpResponse:
    """The page was sent before with other answers: say so, lose nothing, decide nothing."""
    saved = selectors.by_key(key)
    return _call_page(request, typed_in(request), {}, saved=saved, status=409)


def _find(reference: str) -> Submission:
    try:
        return selectors.by_reference(reference)
    except Submission.DoesNotExist as error:
        raise Http404 from error


def _user(request: HttpRequest) -> User:
    return cast(User, request.user)
