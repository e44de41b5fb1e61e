"""Requests to be found, with their lines written."""

from __future__ import annotations

from typing import Any

from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from intake.finding.services import index_waiting
from intake.models import Submission
from intake.services import receive_submission
from tests.given import a_body


def a_request(
    boat: str = "Biscuit Barrel",
    name: str = "Wilmot Tarpley",
    phone: str = "+1 202 555 0100",
    *,
    station: str = "single",
    top: dict[str, Any] | None = None,
    **answers: Any,
) -> Submission:
    """One clean sheet of this boat and customer."""
    contact = {"name": name, "phone": phone, "role": "owner"}
    return receive_submission(
        body=a_body(
            top={"contact": contact, **(top or {})},
            boat_name_and_station={"name": boat, "station": station},
            **answers,
        )
    )


def indexed(*requests: Submission) -> tuple[Submission, ...]:
    """These, and their lines written as the job thread would."""
    index_waiting()
    return requests


def measured(text: str, method: str = "tape") -> dict[str, str]:
    """One answer with a length."""
    return {"text": text, "method": method}


def queries(client: Client, address: str) -> int:
    """How many queries a page takes, once everything that is kept between pages is kept."""
    client.get(address)
    with CaptureQueriesContext(connection) as asked:
        assert client.get(address).status_code == 200
    return len(asked)
