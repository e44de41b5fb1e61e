"""Every change is found by kind, record, person and day, page by page; nobody edits one."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.db import transaction
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from staff.models import Change
from staff.trail.selectors import PAGE
from staff.trail.services import note_change
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db


@pytest.fixture
def percival() -> Client:
    return logged_in(a_member("percival", "manager"))


def a_change(record: str = "part", key: str = "BH-1000", **told: Any) -> Change:
    shown = {
        "by": None,
        "why": "a new list",
        "before": {"price": "3.60"},
        "after": {"price": "3.80"},
    }
    with transaction.atomic():
        change = note_change(record=record, key=key, **{**shown, **told})
    assert change is not None
    return change


def test_before_and_after_are_read_with_who_and_why(percival: Client) -> None:
    a_change(by=a_member("maud"), why="<b>dearer</b>")
    page = percival.get(reverse("all-changes"), {"record": "part"}).content.decode()
    assert "price: 3.60 → 3.80" in page
    assert "&lt;b&gt;dearer&lt;/b&gt;" in page
    assert "<td>maud</td>" in page


@pytest.mark.parametrize(
    ("asked", "many"),
    [
        ({"record": "rates"}, 1), ({"record": "part", "key": "BH-1000"}, 2), ({"by": "maud"}, 1),
        ({"record": "part", "to": "2001-01-01"}, 0), ({"record": "part", "from": "2001-01-01"}, 3),
        ({"record": "part", "from": "nonsense", "after": "9" * 40, "key": "\x00"}, 3),
    ],
)  # fmt: skip
def test_changes_are_found(percival: Client, asked: dict[str, str], many: int) -> None:
    maud = a_member("maud")
    Change.objects.filter(by__isnull=False).delete()
    a_change()
    a_change(by=maud)
    a_change(key="BH-2000")
    a_change("rates", "1")
    page = percival.get(reverse("all-changes"), asked).content.decode()
    assert page.count('<th scope="row">') == many


def test_a_day_holds_its_own_evening(percival: Client) -> None:
    one = a_change()
    day = timezone.localtime().replace(hour=23, minute=59)
    Change.objects.filter(pk=one.pk).update(at=day)
    for first, last, many in ((0, 0, 1), (1, 1, 0), (-1, -1, 0)):
        asked = {"record": "part", "from": f"{day + timedelta(first):%Y-%m-%d}",
                 "to": f"{day + timedelta(last):%Y-%m-%d}"}  # fmt: skip
        page = percival.get(reverse("all-changes"), asked).content.decode()
        assert page.count('<th scope="row">') == many


def test_pages_go_on_where_the_last_ended(
    percival: Client, django_assert_max_num_queries: Any
) -> None:
    for at in range(PAGE + 2):
        a_change(key=f"P-{at}")
    with django_assert_max_num_queries(8):
        first = percival.get(reverse("all-changes"), {"record": "part"})
    after = first.context["page"].after
    rest = percival.get(reverse("all-changes"), {"record": "part", "after": after})
    keys = [one.key for page in (first, rest) for one in page.context["page"].changes]
    assert keys == [f"P-{at}" for at in reversed(range(PAGE + 2))]


def test_the_table_holds_no_formula(percival: Client) -> None:
    a_change(why="=1+1", after={"price": "+3"})
    sent = percival.get(reverse("all-changes-csv"), {"record": "part"})
    text = b"".join(sent.streaming_content).decode()  # type: ignore[attr-defined]
    assert ",price,3.60,'+3,'=1+1," in text
