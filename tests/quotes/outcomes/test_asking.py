"""Who is asked by mail, who has told nothing, and what somebody says on the phone."""

from __future__ import annotations

import html
from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from django.core import mail
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from quotes.cases.models import Case
from quotes.links.services import switch_reminders_off
from quotes.models import Mail, NotYetFitted, Outcome, Quote
from quotes.outcomes.selectors import coverage, due_to_ask, nothing_heard
from quotes.outcomes.services import ask_by_mail, tell_outcome
from quotes.sending.models import Shipment
from tests.quotes.given import stock_the_shelf
from tests.quotes.outcomes.given import a_sent
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def an_order(number: int = 0, *, days_ago: int, email: str = "w@example.org") -> Quote:
    contact = {"name": "Odile Marsh", "phone": f"+1 202 555 01{number:02d}", "role": "owner"}
    contact |= {"email": f"{number}{email}"} if email else {}
    boat = {"name": f"Boat {number}", "station": "single"}
    return a_sent(days_ago=days_ago, top={"contact": contact}, boat_name_and_station=boat)


def now_sent(days_ago: int) -> None:
    Shipment.objects.update(day=timezone.localdate() - timedelta(days=days_ago))


# --- By mail --------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("days", "kinds"), [(6, []), (7, ["fitted_7"]), (29, ["fitted_7"]), (30, ["fitted_30"]),
    (59, ["fitted_30"]), (60, [])],
)  # fmt: skip
def test_it_is_asked_by_mail_from_the_day_it_was_sent(days: int, kinds: list[str]) -> None:
    an_order(days_ago=days)
    assert [due.kind for due in due_to_ask()] == kinds


def test_each_time_is_asked_once(do_jobs: Callable[[], int]) -> None:
    an_order(days_ago=8)
    assert (ask_by_mail(), ask_by_mail()) == (1, 0)
    now_sent(31)
    assert (ask_by_mail(), ask_by_mail()) == (1, 0)
    while do_jobs():
        pass
    kinds = Mail.objects.filter(kind__startswith="fitted").values_list("kind", "dropped")
    assert set(kinds) == {
        ("fitted_7", "told already, or asked another day"),
        ("fitted_30", ""),
    }
    (letter,) = [one for one in mail.outbox if "fit" in one.subject]
    assert letter.subject == "A month on: did the shaft for Boat 0 fit?"
    assert "List-Unsubscribe" in letter.extra_headers


def test_who_told_who_has_no_address_and_who_wants_none_are_left_alone() -> None:
    tell_outcome(quote=an_order(1, days_ago=8), after_days=7, fitted="yes", gap="3/4")
    an_order(2, days_ago=8, email="")
    switch_reminders_off(submission_id=an_order(3, days_ago=8).submission_id)
    tell_outcome(quote=an_order(4, days_ago=31), after_days=7, fitted="no", different="short")
    assert due_to_ask() == []


def test_on_a_day_they_named_they_are_asked_then_and_once() -> None:
    quote, today = an_order(days_ago=8), timezone.localdate()
    ask_by_mail()
    row = NotYetFitted.objects.create(quote=quote, ask_on=today + timedelta(days=1))
    now_sent(40)
    assert due_to_ask() == []
    NotYetFitted.objects.filter(pk=row.pk).update(ask_on=today)
    Mail.objects.update(made_at=timezone.now() - timedelta(days=32))
    assert [due.key for due in due_to_ask()] == [f"fitted_30:{quote.pk}:{today}"]
    assert (ask_by_mail(), ask_by_mail()) == (1, 0)


# --- Silence --------------------------------------------------------------------------


def test_silence_is_on_the_list_and_every_answer_takes_it_off() -> None:
    quotes = [an_order(number, days_ago=days) for number, days in enumerate((31, 90, 30, 45))]
    assert [quote.pk for quote in nothing_heard().quotes] == [
        quotes[1].pk, quotes[3].pk, quotes[0].pk,
    ]  # fmt: skip
    tell_outcome(quote=quotes[1], after_days=30, fitted="yes")
    later = timezone.localdate() + timedelta(days=5)
    NotYetFitted.objects.create(quote=quotes[3], ask_on=later)
    assert [quote.pk for quote in nothing_heard().quotes] == [quotes[0].pk]
    assert [quote.shipment.heard for quote in Quote.objects.order_by("pk")] == [
        False, True, False, False,
    ]  # fmt: skip
    NotYetFitted.objects.update(ask_on=timezone.localdate())
    assert len(nothing_heard().quotes) == 2, "the day has come, and nothing was heard"


def test_page_by_page_none_is_lost_in_a_constant_number_of_queries(
    django_assert_num_queries: Any,
) -> None:
    made = [an_order(number, days_ago=40).pk for number in range(3)]
    with django_assert_num_queries(1):
        page = nothing_heard(size=2)
        assert [quote.submission.boat_name for quote in page.quotes] == ["Boat 0", "Boat 1"]
        assert page.quotes[0].shipment.day
    rest = nothing_heard(after=page.after, size=2)
    assert [quote.pk for quote in (*page.quotes, *rest.quotes)] == made


def test_coverage_tells_answers_put_offs_and_silence_apart() -> None:
    quotes = [an_order(number, days_ago=40) for number in range(3)]
    tell_outcome(quote=quotes[0], after_days=30, fitted="no", different="short")
    NotYetFitted.objects.create(quote=quotes[1], ask_on=timezone.localdate())
    day = timezone.localdate() - timedelta(days=40)
    found = coverage(day, day)
    assert (found.sent, found.answered, found.not_yet, found.silent) == (3, 1, 1, 1)
    assert coverage(day + timedelta(days=1), timezone.localdate()).sent == 0


# --- On the phone ---------------------------------------------------------------------


@pytest.fixture
def maud() -> Client:
    return logged_in(a_member("maud"))


def test_an_answer_on_the_phone_is_kept_with_who_said_it(maud: Client) -> None:
    quote = an_order(days_ago=40)
    address = reverse("desk-fit", args=[quote.submission.reference])
    assert address in maud.get(reverse("silent")).content.decode()
    said = html.unescape(maud.get(address).content.decode())
    assert "With her bolted up, what gap do you see" in said
    refused = maud.post(address, {"fitted": "yes", "gap": "3/4"})
    assert refused.status_code == 400
    assert 'href="#fit-told_by"' in refused.content.decode()
    typed = {"fitted": "yes", "gap": "3/4", "told_by": "Odile Marsh"}
    done = maud.post(address, typed, follow=True)
    assert "Odile Marsh told maud" in html.unescape(done.content.decode())
    row = Outcome.objects.get()
    assert (row.after_days, row.told_by, row.by and row.by.username) == (30, "Odile Marsh", "maud")
    assert address not in maud.get(reverse("silent")).content.decode()


def test_who_rings_before_a_week_is_heard(maud: Client) -> None:
    quote = an_order(days_ago=2)
    address = reverse("desk-fit", args=[quote.submission.reference])
    typed = {"fitted": "no", "gap": "1/8", "different": "it rubs", "told_by": "Odile"}
    done = maud.post(address, typed, follow=True)
    assert Outcome.objects.get().after_days == 7
    assert Case.objects.get().number in done.redirect_chain[-1][0]
    assert "spacer of 5/8 in" in html.unescape(done.content.decode())


def test_a_shaft_that_fits_by_luck_wants_a_cause(maud: Client) -> None:
    """The shift of 3/16 in is more than two standard uncertainties of this sheet, and it fits."""
    quote = an_order(days_ago=8)
    tell_outcome(quote=quote, after_days=7, fitted="yes", gap="15/16")
    case = Case.objects.get()
    assert case.opened_as == "shift"
    page = html.unescape(maud.get(reverse("cases") + "?show=cause").content.decode())
    assert "it fits, though not as predicted" in page
    assert "cause wanted" in page


def test_before_it_has_left_nothing_is_written_down(maud: Client) -> None:
    quote = an_order(days_ago=8)
    Shipment.objects.all().delete()
    address = reverse("desk-fit", args=[quote.submission.reference])
    said = maud.post(address, {"fitted": "yes", "told_by": "Odile"})
    assert "Nothing of this request has left us yet" in said.content.decode()
    assert not Outcome.objects.exists()
