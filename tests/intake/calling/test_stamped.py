"""What is stored for the queue: by the service, and just so by the migration for who waited."""

from __future__ import annotations

from datetime import timedelta
from importlib import import_module

import time_machine
from django.apps import apps
from django.utils import timezone

from intake.calling.services import record_call
from intake.models import Submission
from tests.intake.calling.given import a_waiting
from tests.intake.desk_given import a_person

NAMES = ("call_by", "call_why", "at_stake", "waits_since")
EMPTY = {"call_by": None, "call_why": "", "at_stake": None, "waits_since": None}


def stored() -> list[tuple[object, ...]]:
    return list(Submission.objects.order_by("pk").values_list(*NAMES))


def test_who_waited_before_is_put_in_the_same_order() -> None:
    a_waiting("Dear")
    a_waiting("Soon", needed="2027-01-02")
    a_waiting("Without a length", without=("face_to_strut_aft", "old_length_face_to_thread"))
    a_waiting("Adds up", face_to_strut_aft={"text": "44 1/8", "method": "rod"})
    by_the_service = stored()
    Submission.objects.update(**EMPTY)
    import_module("intake.migrations.0010_calling").fill(apps, None)
    assert stored() == by_the_service
    assert [row[0] is not None for row in by_the_service] == [True, True, True, False]


def test_what_is_over_waits_for_nobody() -> None:
    waiting = a_waiting()
    Submission.objects.filter(pk=waiting.pk).update(status="withdrawn", **EMPTY)
    import_module("intake.migrations.0010_calling").fill(apps, None)
    assert stored() == [tuple(EMPTY.values())]


def test_a_request_that_is_asked_about_again_waits_from_then_on() -> None:
    with time_machine.travel(timezone.now() - timedelta(days=20), tick=False):
        request = a_waiting(face_to_strut_aft={"text": "44 1/8", "method": "rod"})
    assert (request.status, request.waits_since) == ("ready", None)
    now = timezone.now()
    with time_machine.travel(now, tick=False):
        record_call(
            submission=request,
            sheet_number=1,
            by=a_person("counter", "maud"),
            check_id="",
            outcome="corrected",
            said_by="Odile Marsh",
            answers={"face_to_strut_aft": {"text": "45 1/8", "method": "rod"}},
        )
    request.refresh_from_db()
    assert request.waits_since == now
    assert request.call_by is not None
    assert request.call_by > now
