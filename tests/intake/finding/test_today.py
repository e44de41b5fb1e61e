"""The day on one screen: whom to call, what was called, what is left open, what is needed."""

from __future__ import annotations

import re
from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from intake.calling.services import record_call
from intake.desk_drafts.models import DeskDraft
from intake.finding.day.selectors import SHOWN, Day
from intake.models import Submission
from intake.selectors import current_sheet
from tests.intake.desk_given import a_person, stock_the_shelf
from tests.intake.finding.given import a_request, indexed, measured, queries

pytestmark = pytest.mark.django_db
NOON = timezone.localtime().replace(hour=12, minute=0, second=0, microsecond=0)


@pytest.fixture(autouse=True)
def parts_on_the_shelf(db: None) -> None:
    """The demo catalogue, as the shop has it."""
    stock_the_shelf()


@pytest.fixture
def counter(client: Client) -> Client:
    client.force_login(a_person("counter", "maud"))
    return client


def to_call(boat: str, **columns: Any) -> Submission:
    """A request that needs a call, with these columns."""
    held = a_request(boat, face_to_strut_aft=measured("45 1/8", "rod"))
    Submission.objects.filter(pk=held.pk).update(**{"not_before": None, **columns})
    return Submission.objects.get(pk=held.pk)


def boats(some: Any) -> list[str]:
    return [row.boat_name for row in some.rows]


def test_calls_are_late_or_to_be_made_or_promised() -> None:
    hours = timedelta(hours=1)
    to_call("Late", call_by=NOON - hours)
    to_call("Later", call_by=NOON - 2 * hours)
    to_call("Soon", call_by=NOON + hours)
    to_call("Tomorrow", call_by=NOON + 24 * hours)
    to_call("Asked", call_by=NOON - hours, not_before=NOON + 2 * hours)
    to_call("Asked next week", call_by=NOON - hours, not_before=NOON + 170 * hours)
    day = Day(NOON)
    assert boats(day.late) == ["Later", "Late"]
    assert boats(day.to_make) == ["Soon"]
    assert boats(day.promised) == ["Asked"]


def test_what_is_done_is_called_no_more() -> None:
    held = to_call("Late", call_by=NOON - timedelta(hours=1))
    Submission.objects.filter(pk=held.pk).update(status="withdrawn")
    assert boats(Day(NOON).late) == []


def test_calls_of_today_are_listed_and_those_of_yesterday_are_not(counter: Client) -> None:
    held = to_call("Slow Tide", call_by=NOON)
    sheet = current_sheet(held)
    record_call(
        submission=held,
        sheet_number=sheet.number,
        by=a_person("counter", "iolo"),
        check_id=sheet.outcome["findings"][0]["check"],
        outcome="not_reached",
        said_by="",
    )
    now = timezone.now()
    assert [call.submission.boat_name for call in Day(now).made.rows] == ["Slow Tide"]
    assert Day(now + timedelta(days=1)).made.rows == []
    assert "not reached" in counter.get(reverse("today")).content.decode()


def test_what_is_needed_this_week_and_not_done_is_listed() -> None:
    today = timezone.localdate()
    for boat, days in (("Past", -2), ("Soon", 3), ("Far", 30), ("Long past", -60)):
        held = a_request(boat)
        Submission.objects.filter(pk=held.pk).update(needed_by=today + timedelta(days=days))
    done = a_request("Done")
    Submission.objects.filter(pk=done.pk).update(needed_by=today, status="accepted")
    indexed()
    assert boats(Day(timezone.now()).needed) == ["Past", "Soon"]


def test_drafts_that_were_left_open_are_listed(counter: Client) -> None:
    maud = a_person("counter", "iolo")
    for ident, title, closed in (("a", "Otter, Tarpley", None), ("b", "Shut", NOON)):
        DeskDraft.objects.create(
            ident=ident, key=ident, title=title, opened_by=maud, touched_by=maud, closed_at=closed
        )
    page = counter.get(reverse("today")).content.decode()
    assert "Otter, Tarpley" in page
    assert "Shut" not in page


def test_an_empty_day_says_so(counter: Client) -> None:
    page = counter.get(reverse("today")).content.decode()
    assert "Every call is in time." in page
    assert "Nothing that is not done." in page


def test_the_day_costs_the_same_however_much_it_holds(counter: Client) -> None:
    to_call("Late", call_by=NOON - timedelta(days=1), needed_by=NOON.date())
    indexed()
    few = queries(counter, reverse("today"))
    for n in range(SHOWN + 3):
        to_call(f"Late {n}", call_by=NOON - timedelta(days=1), needed_by=NOON.date())
    indexed()
    assert few == queries(counter, reverse("today")) <= 16
    page = counter.get(reverse("today")).content.decode()
    assert len(re.findall(r">Late[ \d]*</a>\s+<span class=.verdict", page)) == SHOWN
    assert "All call-backs" in page


def test_the_day_is_for_whoever_reads_requests(client: Client) -> None:
    client.force_login(a_person("stranger", "nobody"))
    assert client.get(reverse("today")).status_code == 403
