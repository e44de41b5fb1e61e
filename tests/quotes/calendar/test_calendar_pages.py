"""The shop's calendar: days are closed by a manager, and every date goes round them."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from quotes.calendar.models import ClosedDay
from quotes.calendar.selectors import calendar, leaves_between, load_days
from quotes.calendar.services import change_week, close_days, open_days
from quotes.domain.calendar import USUAL, CalendarError
from quotes.outcomes.selectors import leaves_on
from staff.accounts.services import make_groups
from staff.models import Change
from tests.intake.customers.given import someone
from tests.quotes.given import an_accepted, stock_the_shelf
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db
DAY = date(2026, 12, 24)


@pytest.fixture
def manager() -> Client:
    make_groups()
    return logged_in(a_member("percival", "manager"))


def test_a_range_is_closed_once_and_opened_again_with_a_trail(manager: Client) -> None:
    sent = {"first": "2026-12-24", "last": "2026-12-28", "why": "the tide house holiday"}
    for _again in range(2):
        assert manager.post("/staff/calendar/close/", sent).status_code == 302
    assert ClosedDay.objects.count() == 5
    assert not calendar().is_open(DAY)
    manager.post("/staff/calendar/open/", {"day": ["2026-12-24", "2026-12-25", "no day"]})
    assert calendar().is_open(DAY)
    assert not calendar().is_open(date(2026, 12, 28))
    assert Change.objects.filter(record="calendar").count() == 7


def test_the_page_says_who_closed_what_and_when_it_is_next_open(manager: Client) -> None:
    close_days(first=timezone.localdate(), last=None, why="stock taking", by=someone("maud"))
    page = manager.get("/staff/calendar/").content.decode()
    assert "stock taking" in page
    assert "maud" in page
    assert "Monday, Tuesday, Wednesday, Thursday, Friday" in page


@pytest.mark.parametrize(
    ("sent", "words"),
    [
        ({"first": "", "why": "x"}, "2026-12-24"),
        ({"first": "2026-12-24", "why": ""}, "in a word or two"),
        ({"first": "2026-12-24", "last": "2026-12-01", "why": "x"}, "before the first"),
        ({"first": "2026-12-24", "last": "2029-12-01", "why": "x"}, "more than a year"),
    ],
)
def test_what_makes_no_sense_is_said_and_shown_again(
    manager: Client, sent: dict[str, str], words: str
) -> None:
    answer = manager.post("/staff/calendar/close/", sent)
    assert answer.status_code == 400
    assert words in answer.content.decode()
    assert f'value="{sent["first"]}"' in answer.content.decode() or not sent["first"]
    assert ClosedDay.objects.count() == 0


def test_a_week_without_an_open_day_is_refused(manager: Client) -> None:
    assert manager.post("/staff/calendar/week/", {}).status_code == 400
    with pytest.raises(CalendarError):
        change_week(days=[], by=someone("maud"))
    manager.post("/staff/calendar/week/", {"days": ["1", "2", "3", "4", "5"]})
    assert calendar().week == frozenset({1, 2, 3, 4, 5})


def test_what_is_wrong_stands_on_top_and_leads_to_its_box(manager: Client) -> None:
    for door, box in (("close", "close-first"), ("week", "week-days")):
        text = manager.post(f"/staff/calendar/{door}/", {}).content.decode()
        top = text[text.index("<h1>") : text.index("Closed days</h2>")]
        assert f'href="#{box}"' in top
        assert f'id="{box}"' in text


def test_a_calendar_nothing_can_be_promised_by_is_not_stored() -> None:
    by, today = someone("maud"), timezone.localdate()
    year = timedelta(days=365)
    close_days(first=today, last=today + year - timedelta(days=90), why="refit", by=by)
    before = ClosedDay.objects.count()
    with pytest.raises(CalendarError, match="Open one of them"):
        close_days(first=today + timedelta(days=200), last=today + year + year / 4, why="x", by=by)
    assert ClosedDay.objects.count() == before


def test_it_is_asked_once_a_request_and_one_tiny_query_otherwise(manager: Client) -> None:
    close_days(first=DAY, last=None, why="holiday", by=someone("maud"))
    calendar()
    with CaptureQueriesContext(connection) as asked:
        assert calendar() is calendar()
    assert len(asked) == 2
    with CaptureQueriesContext(connection) as asked:
        manager.get("/staff/calendar/")
    weeks = [one for one in asked.captured_queries if "quotes_shopweek" in one["sql"]]
    assert len(weeks) == 1


def test_what_was_never_changed_is_monday_to_friday() -> None:
    assert calendar() == USUAL


def test_every_date_of_an_order_goes_round_a_closed_day() -> None:
    stock_the_shelf()
    quote = an_accepted(days_ago=0)
    usual, leaves = leaves_on(quote), leaves_between(quote)
    assert usual is not None and leaves is not None and leaves.first == usual < leaves.last  # noqa: PT018
    close_days(first=usual, last=None, why="lathe service", by=someone("maud"))
    later: Any = leaves_on(quote)
    assert later == calendar().after(usual, 1) > usual
    open_days(days=[usual], by=someone("iolo"))
    assert leaves_on(quote) == usual


def test_a_rush_that_was_chosen_waits_for_no_other_work(settings: Any) -> None:
    """The order is read with the choice that was kept with it; one shaft a day (invented)."""
    settings.SHOP = {**settings.SHOP, "shafts_per_day": 1}
    stock_the_shelf()
    for number in range(3):
        an_accepted(days_ago=1, boat_name_and_station={"name": f"Boat {number}"})
    assert load_days() == 3, "as many days as the shop needs at its own pace"
    quote = an_accepted(days_ago=0)
    usual = leaves_between(quote)
    quote.inputs["choice"] = {"alloy": "", "options": ["rush"]}
    rushed = leaves_between(quote)
    assert usual
    assert rushed
    assert usual.last == calendar().after(rushed.last, 3)


def test_the_load_is_what_was_accepted_before_and_is_not_made() -> None:
    stock_the_shelf()
    first, second = an_accepted(days_ago=3), an_accepted(days_ago=2)
    third = an_accepted(days_ago=1)
    assert load_days() == 2  # three shafts, two a day: the begun day counts
    assert [load_days(before=each) for each in (first, second, third)] == [0, 1, 1]
