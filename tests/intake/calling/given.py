"""Calls that wait, and what is typed on their cards."""

from __future__ import annotations

from typing import Any

from django.test import Client
from django.urls import reverse
from django.utils.http import urlencode

from intake import selectors
from intake.models import Submission
from intake.services import receive_submission
from tests.given import CLEAN

ROUTES = "route-boat-vs-old"


def a_waiting(
    boat: str = "Thimble",
    *,
    needed: str = "",
    without: tuple[str, ...] = (),
    contact: dict[str, str] | None = None,
    **answers: Any,
) -> Submission:
    """Somebody whose routes are an inch apart; each boat has an owner of her own."""
    named = {"boat_name_and_station": {"name": boat, "station": "single"}}
    told = {**CLEAN, **named, "face_to_strut_aft": {"text": "45 1/8", "method": "rod"}, **answers}
    if needed:
        told["needed_by"] = {"run": needed}
    digits = sum(map(ord, boat)) % 10_000
    phone = {"name": "Odile Marsh", "phone": f"+1 202 555 {digits:04d}", "role": "owner"}
    body = {
        "channel": "form",
        "tape_unit": "in",
        "wants": ["shaft", "coupling", "bearing"],
        "contact": phone if contact is None else contact,
        "answers": {slug: answer for slug, answer in told.items() if slug not in without},
    }
    return receive_submission(body=body)


def open_checks(submission: Submission) -> list[tuple[str, str]]:
    """The check and the answer of everything that holds it, dearest first."""
    findings = selectors.fresh_sheet(submission).outcome["findings"]
    return [
        (row["check"], (row["answers"] or [""])[0]) for row in findings if row["severity"] != "note"
    ]


def first_open(submission: Submission) -> str:
    """The check of the first finding that holds it."""
    return open_checks(submission)[0][0]


def card_of(submission: Submission, check: str = "", answer: str = "") -> str:
    """The address of a card, with its question where one is named."""
    address = reverse("record-call", args=[submission.reference])
    told = {"check": check, "answer": answer}
    asked = urlencode({name: text for name, text in told.items() if text})
    return f"{address}?{asked}" if asked else address


def a_record(submission: Submission, **changes: Any) -> dict[str, Any]:
    """The boxes of a call card: the boat length, measured again and right."""
    return {
        "check": first_open(submission),
        "sheet_number": str(selectors.fresh_sheet(submission).number),
        "tape_unit": "in",
        "outcome": "corrected",
        "said_by": "Wilmot Tarpley",
        "cause": "R-BURN-X",
        "answers.face_to_strut_aft.text": "44 1/8",
        "answers.face_to_strut_aft.method": "rod",
        **changes,
    }


def page_of(client: Client, address: str, **query: str) -> str:
    """What a page says."""
    answer = client.get(address, query)
    assert answer.status_code == 200, answer.content.decode()[:2000]
    return answer.content.decode()
