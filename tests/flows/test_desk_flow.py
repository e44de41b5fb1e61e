"""A call from the first word to the release: typed, asked about, corrected, judged again."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from intake import selectors
from intake.models import CallRecord, Event
from tests.intake.desk_given import a_new_call, a_person, an_inch_out, stock_the_shelf


@pytest.mark.django_db
def test_a_call_is_typed_asked_about_and_released(client: Client) -> None:
    stock_the_shelf()
    client.force_login(a_person("counter", "maud"))
    client.post(a_new_call(), an_inch_out())
    waiting = selectors.call_queue()[0]
    first = selectors.current_sheet(waiting)
    finding = waiting.current.to_ask[0]  # type: ignore[attr-defined]
    assert finding.question in client.get(reverse("call-queue")).content.decode()

    said = {
        "check": finding.check_id,
        "sheet_number": str(first.number),
        "tape_unit": "in",
        "outcome": "corrected",
        "said_by": "Wilmot Tarpley",
        "cause": "R-BURN-X",
        "answers.face_to_strut_aft.text": "44 1/8",
        "answers.face_to_strut_aft.method": "rod",
    }
    client.post(reverse("record-call", args=[waiting.reference]), said)

    settled = selectors.by_reference(waiting.reference)
    assert settled.verdict == "release", selectors.current_sheet(settled).outcome["findings"]
    assert settled.status in ("ready", "quoted")
    assert CallRecord.objects.get().question_as_asked == finding.question
    assert first.body["answers"]["face_to_strut_aft"]["text"] == "45 1/8"
    assert Event.objects.filter(submission=settled).count() >= 2
    assert not selectors.call_queue()
