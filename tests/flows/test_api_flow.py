"""By the API to the bend and back: sent, asked about, corrected, ready to quote."""

from __future__ import annotations

import json
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client

from intake import selectors
from intake.calling.services import record_call
from intake.models import Submission
from intake.signals import submission_ready
from tests.intake.bodies import PUT_RIGHT, SHORT, a_body


@pytest.mark.django_db
def test_a_wrong_number_is_asked_about_once_and_then_ready_to_quote() -> None:
    ready: list[Submission] = []

    def hear(submission: Submission, **_: object) -> None:
        ready.append(submission)

    submission_ready.connect(hear)
    try:
        _walk(ready)
    finally:
        submission_ready.disconnect(hear)


def _walk(ready: list[Submission]) -> None:
    answer = _send(a_body(**SHORT))
    assert answer["verdict"] == "ask"
    assert not ready

    waiting = selectors.call_queue().get()
    assert waiting.reference == answer["reference"]
    question = next(row for row in waiting.current.to_ask if row.check_id == "route-boat-vs-old")
    assert question.question.endswith("?")

    record_call(
        submission=waiting,
        sheet_number=waiting.current.number,
        by=User.objects.create_user("maud"),
        check_id=question.check_id,
        outcome="corrected",
        said_by="Wilmot Tarpley",
        cause="R-WHOLE",
        answers=PUT_RIGHT,
    )
    submission = selectors.by_reference(answer["reference"])
    assert ready == [submission]
    assert (submission.status, submission.verdict) == ("ready", "release")
    assert not selectors.call_queue().exists()
    assert submission.token in answer["link"]
    assert [line.kind for line in selectors.history_of(submission)] == [
        "sheet",
        "event",
        "call",
        "sheet",
        "event",
    ]


def _send(body: dict[str, Any]) -> dict[str, Any]:
    response = Client().post(
        "/api/v1/submissions/", json.dumps(body), content_type="application/json"
    )
    assert response.status_code == 201
    sent: dict[str, Any] = response.json()
    return sent
