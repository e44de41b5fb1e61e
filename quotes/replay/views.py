"""The manager's pages of replays: ask, look on, read what came of it, compare, adopt."""

from __future__ import annotations

import secrets
from collections.abc import Iterator, Mapping
from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse, StreamingHttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import redirect, render
from django.utils import timezone
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from catalog.spreadsheet.writing import write_csv
from intake.access import manager_required
from intake.domain.limit_values import LimitErrors
from intake.limit_sets.selectors import current_limits
from intake.limit_sets.services import LimitsOvertaken, next_name
from quotes.replay import selectors, services
from quotes.replay.form import ReplayForm, read_form, typed_like
from quotes.replay.models import Replay
from quotes.replay.page import (
    CSV_COLUMNS,
    ONLY,
    Progress,
    Result,
    csv_row,
    sheet_page,
    side_by_side,
)

_LONGEST = 500


@manager_required
@require_safe
def replays(request: HttpRequest) -> HttpResponse:
    """Every replay, newest first, and two of them to compare."""
    before = _key(request.GET.get("before", ""))
    found = selectors.some_replays(before)
    shown = found[: selectors.PAGE]
    context = {
        "rows": shown,
        "before": shown[-1].pk if len(found) > selectors.PAGE else None,
        "is_first": before is None,
        "ended": selectors.done_replays(),
    }
    return render(request, "quotes/replay/list.html", context)


@manager_required
@require_http_methods(["GET", "HEAD", "POST"])
def replay_ask(request: HttpRequest) -> HttpResponse:
    """The form; POST looks for limits, or asks. Nothing that was typed is lost."""
    if request.method != "POST":
        like = _key(request.GET.get("like", ""))
        old = selectors.replay_of(like) if like else None
        return _form(request, typed_like(old) if old else {}, {})
    asked, typed = read_form(request.POST.dict())
    if typed.get("do") != "ask":
        return _form(request, typed, {})
    try:
        found = services.ask_replay(
            asked=asked,
            by=cast("User", request.user),
            ask_key=typed.get("ask_key", "") or secrets.token_urlsafe(24),
            base=typed.get("base"),
        )
    except LimitErrors as refused:
        return _form(request, typed, refused.errors, status=400)
    return redirect("replay", found.pk)


def _form(
    request: HttpRequest, typed: Mapping[str, str], errors: Mapping[str, str], status: int = 200
) -> HttpResponse:
    form = ReplayForm(current_limits(), timezone.localdate(), typed, errors)
    key = typed.get("ask_key") or secrets.token_urlsafe(24)
    context = {"form": form, "ask_key": key}
    return render(request, "quotes/replay/ask.html", context, status=status)


@manager_required
@require_safe
def replay(request: HttpRequest, replay_key: int) -> HttpResponse:
    """How far it is; once it has ended, what it found."""
    return _page(request, _found(replay_key))


def _page(
    request: HttpRequest,
    found: Replay,
    typed: Mapping[str, str] | None = None,
    errors: Mapping[str, str] | None = None,
    status: int = 200,
) -> HttpResponse:
    only = request.GET.get("only", "")
    only = only if only in ONLY else ""
    after = _key(request.GET.get("after", ""))
    result = Result(found)
    context = {
        "replay": found,
        "progress": Progress(found, timezone.now()),
        "result": result,
        "sheets": sheet_page(selectors.changed_sheets(found, after or 0, only=only)),
        "only": only,
        "every_only": ONLY.items(),
        "is_first": after is None,
        "in_force": current_limits().name,
        "typed": typed or {"name": next_name()},
        "errors": errors or {},
        "wrong": _adopt_errors(errors or {}),
    }
    return render(request, "quotes/replay/replay.html", context, status=status)


def _adopt_errors(errors: Mapping[str, str]) -> list[dict[str, str]]:
    labels = {"name": "Name of the new limits", "reason": "Why"}
    return [
        {"id": f"adopt-{name}" if name in labels else "", "label": labels.get(name, ""),
         "message": said}
        for name, said in errors.items()
    ]  # fmt: skip


@manager_required
@require_safe
def replay_progress(request: HttpRequest, replay_key: int) -> HttpResponse:
    """The lines of the page that say how far it is; the whole page is asked for at its end."""
    found = _found(replay_key)
    context = {"replay": found, "progress": Progress(found, timezone.now())}
    answer = render(request, "quotes/replay/_progress.html", context)
    if not found.goes_on:
        answer["HX-Refresh"] = "true"
    return answer


@manager_required
@require_POST
def replay_cancel(request: HttpRequest, replay_key: int) -> HttpResponse:
    """Stop it where it is."""
    found = _found(replay_key)
    if services.cancel(replay=found):
        messages.success(request, "The replay is cancelled. What it found so far stays here.")
    else:
        messages.info(request, "It had ended already.")
    return redirect("replay", replay_key)


@manager_required
@require_POST
def replay_adopt(request: HttpRequest, replay_key: int) -> HttpResponse:
    """Go by the changed limits from now on."""
    found = _found(replay_key)
    typed = {name: str(text)[:_LONGEST] for name, text in request.POST.items()}
    try:
        row = services.adopt(
            replay=found,
            name=typed.get("name", ""),
            reason=typed.get("reason", ""),
            by=cast("User", request.user),
        )
    except LimitErrors as refused:
        return _page(request, found, typed, refused.errors, status=400)
    except (LimitsOvertaken, services.ReplayRefused) as late:
        return _page(request, found, typed, {"values": str(late)}, status=409)
    messages.success(request, f"From now on every sheet is judged by the limits “{row.name}”.")
    return redirect("replay", replay_key)


@manager_required  # type: ignore[arg-type]  # it is streamed
@require_safe
def replay_csv(request: HttpRequest, replay_key: int) -> HttpResponseBase:
    """Every sheet that the change moves, as a table."""
    found = _found(replay_key)
    name = f'attachment; filename="replay-{replay_key}.csv"'
    return StreamingHttpResponse(
        write_csv(CSV_COLUMNS, _rows(found)),
        content_type="text/csv; charset=utf-8",
        headers={"Content-Disposition": name},
    )


def _rows(found: Replay) -> Iterator[tuple[object, ...]]:
    """Every sheet that moves, read some at a time while they are written."""
    after = 0
    while rows := selectors.changed_sheets(found, after, most=1000):
        yield from map(csv_row, rows)
        after = rows[-1].submission_id


@manager_required
@require_safe
def replay_compare(request: HttpRequest) -> HttpResponse:
    """Two replays side by side."""
    keys = [_key(request.GET.get(name, "")) for name in ("one", "two")]
    found = [selectors.replay_of(key) if key else None for key in keys]
    one, two = (Result(row) if row else None for row in found)
    context = {
        "one": one,
        "two": two,
        "lines": list(side_by_side(one, two)) if one and two else [],
        "sides": [side for side in (one, two) if side],
        "ended": selectors.done_replays(),
    }
    return render(request, "quotes/replay/compare.html", context)


def _found(key: int) -> Replay:
    found = selectors.replay_of(key)
    if found is None:
        raise Http404
    return found


def _key(text: str) -> int | None:
    return int(text) if text.isascii() and text.isdigit() and len(text) < 19 else None
