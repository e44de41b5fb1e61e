"""A customer's own part: awaited from the acceptance, taken in once, back with the parcel."""

from __future__ import annotations

import html
from dataclasses import replace
from datetime import date, timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from quotes.models import Quote
from quotes.receiving import services
from quotes.receiving.models import OwnPart
from quotes.receiving.selectors import awaited, waiting_for
from quotes.receiving.services import Arrival, NotReceived, receive, receive_unasked
from quotes.shop.signals import shipped
from tests.quotes.given import an_accepted, stock_the_shelf
from tests.quotes.outcomes.given import sent
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db
SENDS = {"reuse_coupling": {"reuse": True, "sending": True}}


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def arrived(day: date | None = None, **changes: str) -> Arrival:
    told = {"sender": "Wilmot Tarpley", "condition": "light rust", "place": "rack 3"}
    return Arrival(day=day or timezone.localdate(), **(told | changes))


def an_order() -> Quote:
    """One for which the customer sends their coupling."""
    return an_accepted(days_ago=0, **SENDS)


def test_who_sends_a_coupling_is_waited_for_until_it_is_here() -> None:
    quote = an_order()
    (said,) = waiting_for(quote)
    assert "Waiting for the customer's coupling since" in said
    assert "fit and face nothing" in said
    assert receive(part=quote.own_parts.get(), arrival=arrived(), by=a_member())
    assert waiting_for(quote) == ()


def test_who_sends_none_is_not_waited_for() -> None:
    quote = an_accepted(days_ago=0)
    assert waiting_for(quote) == ()
    assert not OwnPart.objects.exists()


def test_it_is_taken_in_once() -> None:
    part, maud = an_order().own_parts.get(), a_member()
    assert receive(part=part, arrival=arrived(place="rack 3"), by=maud)
    assert not receive(part=part, arrival=arrived(place="rack 4"), by=maud)
    assert OwnPart.objects.get().place == "rack 3"


@pytest.mark.parametrize("box", ["sender", "condition", "place", "day"])
def test_nothing_is_taken_in_without_saying_how(box: str) -> None:
    tomorrow = timezone.localdate() + timedelta(days=1)
    wrong = {
        "sender": replace(arrived(), sender=""),
        "condition": replace(arrived(), condition=""),
        "place": replace(arrived(), place=""),
        "day": replace(arrived(), day=tomorrow),
    }[box]
    with pytest.raises(NotReceived) as refused:
        receive(part=an_order().own_parts.get(), arrival=wrong, by=a_member())
    assert set(refused.value.errors) == {box}


def test_what_nobody_waited_for_is_written_down_and_what_was_awaited_is_the_same_row() -> None:
    quote, maud = an_order(), a_member()
    receive_unasked(quote=quote, what="propeller", arrival=arrived(), by=maud)
    receive_unasked(quote=quote, what="coupling", arrival=arrived(), by=maud)
    assert sorted(quote.own_parts.values_list("what", flat=True)) == ["coupling", "propeller"]
    with pytest.raises(NotReceived, match="taken in already"):
        receive_unasked(quote=quote, what="coupling", arrival=arrived(), by=maud)


def test_it_goes_back_with_the_parcel() -> None:
    quote = an_order()
    receive(part=quote.own_parts.get(), arrival=arrived(), by=a_member())
    shipped.send(sender=Quote, quote=quote, day=timezone.localdate())
    part = quote.own_parts.get()
    assert part.returned_on == timezone.localdate()
    assert part.returned_how == "with the shaft's parcel"


def test_what_is_not_here_does_not_go_back() -> None:
    quote = an_order()
    shipped.send(sender=Quote, quote=quote, day=timezone.localdate())
    assert quote.own_parts.get().returned_on is None
    assert not services.give_back(part=quote.own_parts.get(), how="by hand", by=a_member())


def test_what_does_not_come_after_all_is_waited_for_no_more() -> None:
    quote = an_order()
    assert services.stop_waiting(part=quote.own_parts.get(), why="takes ours")
    assert waiting_for(quote) == ()
    assert awaited().parts == []


# --- The list -------------------------------------------------------------------------


def boats(*ages: int) -> list[OwnPart]:
    made = []
    for number, age in enumerate(ages):
        contact = {"name": "Odile Marsh", "phone": f"+1 202 555 01{number:02d}", "role": "owner"}
        boat = {"name": f"Boat {number}", "station": "single"}
        quote = an_accepted(
            days_ago=age, top={"contact": contact}, boat_name_and_station=boat, **SENDS
        )
        part = quote.own_parts.get()
        part.awaited_since = timezone.localdate() - timedelta(days=age)
        part.save()
        made.append(part)
    return made


def test_the_longest_awaited_comes_first_page_by_page_and_late_is_said() -> None:
    made = boats(3, 20, 8)
    page = awaited(size=2)
    assert [part.pk for part in page.parts] == [made[1].pk, made[2].pk]
    assert page.parts[1].awaited_since < page.late_before
    rest = awaited(after=page.after, size=2)
    assert [part.pk for part in rest.parts] == [made[0].pk]
    assert rest.after is None
    sent(made[1].quote, days_ago=1)
    assert len(awaited().parts) == 2, "its shaft has left without it"


def test_the_list_takes_as_many_queries_for_one_as_for_three(
    django_assert_num_queries: Any,
) -> None:
    boats(3, 9, 8)
    with django_assert_num_queries(1):
        for part in awaited().parts:
            assert part.quote.submission.boat_name


# --- Pages ----------------------------------------------------------------------------


@pytest.fixture
def shop() -> Client:
    return logged_in(a_member("bronagh", "machinist"))


def test_it_is_taken_in_on_its_page(shop: Client) -> None:
    quote = an_order()
    address = reverse("own-parts", args=[quote.submission.reference])
    assert "Awaited since" in shop.get(address).content.decode()
    typed = {
        "do": "receive", "part": str(quote.own_parts.get().pk), "what": "coupling",
        "day": f"{timezone.localdate():%Y-%m-%d}", "sender": "her yard", "condition": "",
        "place": "rack 3",
    }  # fmt: skip
    refused = shop.post(address, typed)
    said = html.unescape(refused.content.decode())
    assert refused.status_code == 400
    assert 'href="#id_condition"' in said
    assert 'value="her yard"' in said
    done = shop.post(address, typed | {"condition": "good"}, follow=True)
    assert "It is here." in done.content.decode()
    again = shop.post(address, typed | {"condition": "good"}, follow=True)
    assert "It was taken in already." in again.content.decode()


def test_a_part_of_another_request_is_not_found(shop: Client) -> None:
    mine, other = boats(1, 1)
    address = reverse("own-parts", args=[mine.quote.submission.reference])
    for key in (str(other.pk), "x", "9" * 30):
        assert shop.post(address, {"do": "back", "part": key}).status_code == 404
    assert shop.post(address, {"do": "dance"}).status_code == 404
