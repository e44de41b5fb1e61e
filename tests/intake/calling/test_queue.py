"""The queue: by need, narrowed down, paged by place, and what is late said in words."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
import time_machine
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from intake.calling import services
from intake.calling.selectors import LATE_MOST, late_count
from intake.models import Submission
from tests.intake.calling.given import ROUTES, a_record, a_waiting, card_of, page_of
from tests.intake.desk_given import a_person

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
QUEUE = "/desk/calls/"


def boats(page: str, *names: str) -> list[str]:
    """Those that are shown, in the order of the page."""
    main = page[page.index("<main") :]
    return sorted((name for name in names if name in main), key=main.index)


def test_the_most_pressing_comes_first(counter: Client, maud: User) -> None:
    with time_machine.travel(NOON - timedelta(hours=10), tick=False):
        a_waiting("Old wait")
    with time_machine.travel(NOON, tick=False):
        a_waiting("Runs soon", needed="2026-12-05")
        a_waiting("No hurry", needed="2027-05-01")
        counter.force_login(maud)
        page = page_of(counter, QUEUE)
    assert boats(page, "No hurry", "Old wait", "Runs soon") == ["Runs soon", "Old wait", "No hurry"]
    assert "She must run on 5 Dec; nine days in the shop and on the road." in page


def test_what_is_at_stake_is_the_bar_the_coupling_and_the_bearing(counter: Client) -> None:
    waiting = a_waiting()
    # 51 in of bar at 3.60, the 4 in coupling at 118, and the bearing of the demo catalogue.
    assert waiting.at_stake is not None
    assert waiting.at_stake > 183 + 118
    assert waiting.call_why.endswith("at stake: called within 24 hours.")
    assert f">{waiting.at_stake:.0f}<" in page_of(counter, QUEUE)


def test_who_waits_on_keeps_their_place_and_who_comes_again_gets_a_new_one(
    counter: Client,
) -> None:
    with time_machine.travel(NOON, tick=False) as clock:
        waiting = a_waiting()
        clock.shift(timedelta(hours=3))
        counter.post(
            card_of(waiting), a_record(waiting, **{"answers.face_to_strut_aft.text": "43 1/8"})
        )
        waiting.refresh_from_db()
        assert waiting.waits_since == NOON
        counter.post(card_of(waiting), a_record(waiting))
        waiting.refresh_from_db()
        assert (waiting.status, waiting.call_by, waiting.at_stake) == ("ready", None, None)


@pytest.mark.parametrize(
    ("show", "shown"),
    [
        ("", ["Free", "Mine", "Theirs"]),
        ("mine", ["Mine"]),
        ("free", ["Free"]),
        ("later", ["Put off"]),
        ("late", []),
        ("no such word", ["Free", "Mine", "Theirs"]),
    ],
)
def test_the_queue_is_narrowed_to(
    counter: Client, maud: User, iolo: User, show: str, shown: list[str]
) -> None:
    free, mine = a_waiting("Free"), a_waiting("Mine")
    theirs, later = a_waiting("Theirs"), a_waiting("Put off")
    services.claim(submission=mine, by=maud)
    services.claim(submission=theirs, by=iolo)
    put_off(counter, later)
    page = page_of(counter, QUEUE, show=show)
    names = [one.boat_name for one in (free, mine, theirs, later)]
    assert boats(page, *names) == shown


def put_off(client: Client, waiting: Submission, **again: str) -> None:
    boxes = {"outcome": "not_reached", "said_by": "", "cause": "", "again": "tomorrow"}
    answer = client.post(card_of(waiting), a_record(waiting, **boxes, **again))
    assert answer.status_code == 302, answer.content.decode()


def test_the_queue_is_narrowed_by_verdict_and_channel(counter: Client) -> None:
    a_waiting("Asks")
    a_waiting("Stops", without=("shell_od",))
    assert boats(page_of(counter, QUEUE, verdict="stop"), "Asks", "Stops") == ["Stops"]
    assert boats(page_of(counter, QUEUE, verdict="ask"), "Asks", "Stops") == ["Asks"]
    assert boats(page_of(counter, QUEUE, channel="form"), "Asks", "Stops") != []
    assert "Nobody among these" in page_of(counter, QUEUE, channel="paper")


def test_put_off_it_comes_back_by_itself(counter: Client, maud: User) -> None:
    with time_machine.travel(NOON, tick=False) as clock:
        counter.force_login(maud)
        waiting = a_waiting()
        put_off(counter, waiting)
        assert "Nobody waits" in page_of(counter, QUEUE)
        assert "Thimble" in page_of(counter, QUEUE, show="later")
        clock.move_to(datetime(2026, 11, 26, 8, 59, tzinfo=UTC))
        counter.force_login(maud)
        assert "Nobody waits" in page_of(counter, QUEUE)
        clock.move_to(datetime(2026, 11, 26, 9, 0, tzinfo=UTC))
        assert "Thimble" in page_of(counter, QUEUE)
        assert "Nobody among these" in page_of(counter, QUEUE, show="later")


def test_past_its_moment_it_is_late_in_words_and_counted(counter: Client, maud: User) -> None:
    with time_machine.travel(NOON, tick=False) as clock:
        waiting = a_waiting()
        assert waiting.call_by is not None
        counter.force_login(maud)
        assert "1 late" not in page_of(counter, QUEUE)
        clock.move_to(waiting.call_by + timedelta(minutes=1))
        counter.force_login(maud)
        page = page_of(counter, QUEUE)
        assert page.count("1 late") == 2, "in the heading and beside the link"
        assert '<strong class="late">late</strong>' in page
        assert "1 late" in page_of(counter, reverse("submission", args=[waiting.reference]))
        put_off(counter, waiting)
        assert "1 late" not in page_of(counter, QUEUE), "somebody has tried, and knows when again"


def test_late_calls_are_counted_so_far_and_no_further(counter: Client) -> None:
    waiting = a_waiting()
    rows = [Submission(**copied(waiting, number)) for number in range(LATE_MOST + 5)]
    Submission.objects.bulk_create(rows)
    with time_machine.travel(timezone_later(waiting), tick=False):
        assert late_count() == LATE_MOST


def copied(row: Submission, number: int) -> dict[str, Any]:
    names = ("status", "verdict", "channel", "call_by", "received_at")
    same = {name: getattr(row, name) for name in names}
    return {**same, "reference": f"FG-{number:05d}", "token": f"{number:043d}"}


def timezone_later(waiting: Submission) -> datetime:
    assert waiting.call_by is not None
    return waiting.call_by + timedelta(days=1)


def test_strangers_are_not_counted_for(client: Client) -> None:
    with time_machine.travel(NOON, tick=False) as clock:
        waiting = a_waiting()
        clock.move_to(timezone_later(waiting))
        client.force_login(a_person("stranger"))
        assert "late" not in client.get("/").content.decode().split("<main")[0]


def test_the_queue_is_paged_by_place(counter: Client, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("intake.calling.list_views.QUEUE_PAGE", 2)
    names = ["First", "Second", "Third", "Fourth", "Fifth"]
    with time_machine.travel(NOON, tick=False) as clock:
        for name in names:
            a_waiting(name)
            clock.shift(timedelta(seconds=0 if name == "Second" else 1))
        seen, query = [], ""
        for _page in range(3):
            page = counter.get(f"{QUEUE}?{query}").content.decode()
            seen += boats(page, *names)
            query = page.split('href="?')[-1].split('"')[0].replace("&amp;", "&")
    assert seen == names
    assert "Less pressing" not in page


@pytest.mark.parametrize("place", ["x", "~", "2026-11-25~1", "0001-01-01T00:00:00+14:00~1", "é~²"])
def test_a_place_that_is_none_is_the_beginning(counter: Client, place: str) -> None:
    a_waiting()
    assert "Thimble" in page_of(counter, QUEUE, after=place)


def test_the_queue_costs_the_same_for_many(
    counter: Client, maud: User, django_assert_num_queries: Any
) -> None:
    def queries(count: int) -> None:
        for at in range(count):
            waiting = a_waiting(f"Boat {at} of {count}")
            services.claim(submission=waiting, by=maud)
        with django_assert_num_queries(QUEUE_QUERIES):
            counter.get(QUEUE)

    queries(1)
    queries(6)


# Session, person, permissions; the page with its claims, sheets, questions; how many late.
QUEUE_QUERIES = 7


def test_text_of_customers_is_never_markup(counter: Client) -> None:
    waiting = a_waiting("<i>x", contact={"name": "<b>Bold</b>", "phone": "+1 202 555 0100"})
    for address in (QUEUE, reverse("calls-made"), card_of(waiting, ROUTES)):
        shown = page_of(counter, address)
        assert "<b>Bold" not in shown
        assert "<i>x" not in shown


def test_a_machinist_sees_who_waits_and_calls_nobody(client: Client) -> None:
    a_waiting()
    client.force_login(a_person("machinist", "bronagh"))
    page = page_of(client, QUEUE)
    assert "Thimble" in page
    assert "I call" not in page


@pytest.mark.parametrize("address", [QUEUE, "/desk/calls/made/"])
def test_lists_of_calls_are_for_staff(client: Client, address: str) -> None:
    assert client.get(address).status_code == 302
    client.force_login(a_person("stranger"))
    assert client.get(address).status_code == 403


# --- Calls that were made -------------------------------------------------------------


def test_calls_made_are_listed_by_day_and_person(client: Client, maud: User, iolo: User) -> None:
    with time_machine.travel(NOON, tick=False) as clock:
        client.force_login(maud)
        put_off(client, a_waiting("Monday's"))
        clock.shift(timedelta(days=1))
        client.force_login(iolo)
        put_off(client, a_waiting("Tuesday's"))
        made = reverse("calls-made")
        names = ("Monday&#x27;s", "Tuesday&#x27;s")
        assert boats(page_of(client, made), *names) == [names[1], names[0]]
        assert boats(page_of(client, made, day="2026-11-25"), *names) == [names[0]]
        assert boats(page_of(client, made, person=str(iolo.pk)), *names) == [names[1]]
        assert "No calls" in page_of(client, made, person=str(iolo.pk), day="2026-11-25")


@pytest.mark.parametrize(
    "query", [{"day": "yesterday"}, {"day": "9999-12-31"}, {"person": "x"}, {"person": "9" * 40}]
)
def test_a_filter_that_is_none_is_left_out(counter: Client, query: dict[str, str]) -> None:
    put_off(counter, a_waiting())
    assert "Thimble" in page_of(counter, reverse("calls-made"), **query)


def test_calls_made_are_paged_and_cost_the_same(
    counter: Client, monkeypatch: pytest.MonkeyPatch, django_assert_num_queries: Any
) -> None:
    monkeypatch.setattr("intake.calling.list_views.MADE_PAGE", 2)
    with time_machine.travel(NOON, tick=False) as clock:
        for name in ("First", "Second", "Third"):
            put_off(counter, a_waiting(name))
            clock.shift(timedelta(minutes=1))
        with django_assert_num_queries(6):
            page = page_of(counter, reverse("calls-made"))
        assert boats(page, "First", "Second", "Third") == ["Third", "Second"]
        query = page.split('href="?')[-1].split('"')[0].replace("&amp;", "&")
        older = counter.get(f"{reverse('calls-made')}?{query}").content.decode()
    assert boats(older, "First", "Second", "Third") == ["First"]
