"""Calls as a clerk takes them down: typed into the boxes of the call page, kept, then saved."""

from __future__ import annotations

from collections.abc import Mapping

from django.test import Client

from intake import selectors
from intake.models import Submission
from tests.intake.desk_drafts.given import CallPage


def take_down(client: Client, boxes: Mapping[str, str]) -> Submission:
    """Type who calls, then the numbers; save the call, and find the request again."""
    page = CallPage(client)
    who = {name: text for name, text in boxes.items() if not name.startswith("answers.")}
    for typed in (who, {name: text for name, text in boxes.items() if name not in who}):
        assert page.keep(typed)["conflicts"] == []
    answer = page.save()
    assert answer.status_code == 302, answer.content.decode()[:5000]
    return selectors.by_reference(answer["Location"].rstrip("/").split("/")[-1])
