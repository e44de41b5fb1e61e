"""Customers and boats for the tests of their records."""

from __future__ import annotations

from typing import Any

from django.contrib.auth.models import Permission, User

from catalog.domain.lengths import inches
from intake import services
from intake.models import Submission
from tests.given import a_body

WILMOT = "+1 202 555 0100"
ODILE = "+1 202 555 0177"
RIGHTS = ("view_submission", "add_callrecord", "merge_records", "erase_customer")


def someone(name: str = "maud", rights: tuple[str, ...] = RIGHTS) -> User:
    """A member of staff who may merge and erase, unless a test says otherwise."""
    person = User.objects.create_user(name, password="a-long-password-here")
    person.user_permissions.set(
        Permission.objects.filter(content_type__app_label="intake", codename__in=rights)
    )
    return person


def asks(
    *,
    name: str = "Wilmot Tarpley",
    phone: str = WILMOT,
    email: str = "",
    boat: str = "Biscuit Barrel",
    station: str = "single",
    job: str = "",
    **answers: Any,
) -> dict[str, Any]:
    """The body of one request; who asks and for which boat is what these tests are about."""
    contact = {"name": name, "phone": phone, "email": email, "role": "yard"}
    contact = {part: text for part, text in contact.items() if text}
    named = {"boat_name_and_station": {"name": boat, "station": station}}
    return a_body(top={"contact": contact, "job": job}, **{**named, **answers})


def received(**told: Any) -> Submission:
    """A request that was received."""
    return services.receive_submission(body=asks(**told))


def supplied(*, length: str = "49", gap: str = "3/4", **told: Any) -> Submission:
    """A request of before: its shaft was made and fitted, and it is closed."""
    submission = received(**told)
    services.record_fit(
        submission=submission,
        length=inches(length),
        diameter=inches(1),
        alloy="S20910",
        gap=inches(gap) if gap else None,
    )
    services.close(submission=submission, reason="done")
    return submission
