"""The alarms that stand, and answering one."""

from __future__ import annotations

from typing import cast

from django.contrib import messages
from django.contrib.auth.models import User
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_POST, require_safe

from intake.access import manager_required
from quotes.insight.alarms import selectors, services
from quotes.insight.alarms.rows import AlarmRow
from quotes.models import CauseAlarm


@manager_required
@require_safe
def cause_alarms(request: HttpRequest) -> HttpResponse:
    """What stands, and what was answered."""
    return _page(request)


@manager_required
@require_POST
def answer_alarm(request: HttpRequest, alarm_key: int) -> HttpResponse:
    """Seen, and this is what we do."""
    words = request.POST.get("words", "")[:2000]
    try:
        alarm = selectors.alarm(alarm_key)
        done = services.answer(alarm=alarm, by=cast("User", request.user), words=words)
    except CauseAlarm.DoesNotExist as error:
        raise Http404 from error
    except services.AlarmRefused as refused:
        return _page(request, refused=(alarm_key, str(refused)), status=400)
    messages.success(request, "Written down." if done else "Somebody has answered it already.")
    return redirect("cause-alarms")


def _page(
    request: HttpRequest, refused: tuple[int, str] | None = None, status: int = 200
) -> HttpResponse:
    context = {
        "standing": [AlarmRow.of(one, refused) for one in selectors.standing_alarms()],
        "answered": [AlarmRow.of(one) for one in selectors.answered_alarms()],
    }
    return render(request, "quotes/insight/alarms.html", context, status=status)
