"""Orders of parts alone: packed, sent, taken from the shelf, billed, asked about."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core import mail
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from pytest_django import DjangoAssertNumQueries

from catalog.models import Part
from quotes.domain.shop_stages import Stage
from quotes.invoices.selectors import have_left
from quotes.models import Quote
from quotes.outcomes.models import Outcome
from quotes.outcomes.selectors import due_to_ask
from quotes.outcomes.services import ask_by_mail
from quotes.parcels import services
from quotes.sending.models import Shipment
from quotes.sending.services import NotSent
from quotes.services import Overtaken
from quotes.shop import services as shop
from quotes.shop.models import ShopMove
from quotes.shop.selectors import moves_of, parcels_to_send, stage_of
from quotes.stock.models import Hold
from tests.quotes.given import an_accepted, correct, stock_the_shelf
from tests.quotes.outcomes.given import sent as sent_ago
from tests.quotes.paper.papers import texts
from tests.quotes.parcels.given import an_accepted_parcel
from tests.quotes.shop.test_shafts import at_once
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


@pytest.fixture
def bronagh() -> User:
    return a_member("bronagh", "machinist")


def the_page(quote: Quote, person: User) -> str:
    answer = logged_in(person).get(reverse("shop-parcel", args=[quote.submission.reference]))
    assert answer.status_code == 200
    return " ".join(answer.content.decode().split())


def counts(quote: Quote) -> dict[str, tuple[int | None, int]]:
    codes = Hold.objects.filter(quote=quote).values_list("part_code", flat=True)
    return {part.code: (part.on_hand, part.held) for part in Part.objects.filter(code__in=codes)}


def send(quote: Quote, by: User, **typed: str) -> bool:
    told = {"day": "", "carrier": "Van of small parcels", "weight": "14.5", **typed}
    return services.send_parcel(quote=quote, by=by, **told)


# --- Its way ------------------------------------------------------------------------------


def test_a_parcel_is_packed_and_sent_and_its_parts_leave_the_shelf(bronagh: User) -> None:
    quote = an_accepted_parcel()
    before = counts(quote)
    assert before
    assert [one.pk for one in parcels_to_send()] == [quote.pk]
    assert services.pack(quote=quote, by=bronagh)
    assert counts(quote) == before, "packed, it is in the house still"
    assert send(quote, bronagh)
    assert [move.now for move in moves_of(quote)] == ["packed", "shipped"]
    assert parcels_to_send() == []
    shipment = Shipment.objects.get(quote=quote)
    assert (shipment.tube_nm, str(shipment.weight_lb)) == (None, "14.5")
    for code, (on_hand, held) in counts(quote).items():
        was, was_held = before[code]
        assert was is not None
        assert on_hand is not None
        assert (was - on_hand, was_held - held) == (1, 1), code


def test_it_goes_by_the_shops_own_pages(bronagh: User) -> None:
    quote, client = an_accepted_parcel(), logged_in(bronagh)
    ref = quote.submission.reference
    listed = client.get(reverse("shop")).content.decode()
    assert "waiting to be packed" in listed
    assert "Bar sawn" not in listed
    assert client.get(reverse("shop-shaft", args=[ref]))["Location"].endswith("/parcel/")
    client.post(reverse("parcel-pack", args=[ref]), {"from": "list"})
    assert "Gone" in the_page(quote, bronagh)
    told = {"day": "", "carrier": "fetched by the yard", "weight": "9"}
    client.post(reverse("parcel-send", args=[ref]), told)
    page = the_page(quote, bronagh)
    assert "fetched by the yard" in page
    assert "9.0 lb" in page


def test_what_is_missing_is_said_at_its_box_and_nothing_typed_is_lost(bronagh: User) -> None:
    quote = an_accepted_parcel()
    services.pack(quote=quote, by=bronagh)
    with pytest.raises(NotSent) as refused:
        send(quote, bronagh, carrier=" ", weight="")
    assert set(refused.value.errors) == {"carrier", "weight"}
    address = reverse("parcel-send", args=[quote.submission.reference])
    answer = logged_in(bronagh).post(address, {"carrier": "the van", "weight": "heavy"})
    assert answer.status_code == 400
    assert "the van" in answer.content.decode()
    assert not Shipment.objects.exists()


def test_what_is_on_no_shelf_cannot_be_packed_until_it_has_come(bronagh: User) -> None:
    Part.objects.filter(kind="coupling").update(on_hand=0)
    quote = an_accepted_parcel()
    with pytest.raises(shop.Stopped, match=r"Not on the shelf: .*list of what to order"):
        services.pack(quote=quote, by=bronagh)
    assert stage_of(quote) == Stage.WAITING
    Part.objects.filter(kind="coupling").update(on_hand=1)
    assert services.pack(quote=quote, by=bronagh)


def test_it_is_not_sent_before_it_is_packed(bronagh: User) -> None:
    with pytest.raises(Overtaken):
        send(an_accepted_parcel(), bronagh)
    assert not Shipment.objects.exists()


def test_a_parcel_packed_by_mistake_is_opened_again_with_its_reason(bronagh: User) -> None:
    quote = an_accepted_parcel()
    services.pack(quote=quote, by=bronagh)
    with pytest.raises(shop.Stopped, match="why"):
        services.open_again(quote=quote, by=bronagh, why=" ")
    assert services.open_again(quote=quote, by=bronagh, why="the bearing was left out")
    assert stage_of(quote) == Stage.WAITING
    assert services.pack(quote=quote, by=bronagh)


def test_called_off_its_parts_are_free_again(bronagh: User) -> None:
    quote = an_accepted_parcel()
    services.pack(quote=quote, by=bronagh)
    address = reverse("shop-call-off", args=[quote.submission.reference])
    logged_in(a_member("maud", "counter")).post(address, {"why": "she found her own"})
    assert stage_of(quote) == Stage.CANCELLED
    assert {held for _on_hand, held in counts(quote).values()} == {0}
    assert parcels_to_send() == []
    assert "called off" in the_page(quote, bronagh)


def test_an_acceptance_that_does_not_stand_stops_it(bronagh: User) -> None:
    quote = an_accepted_parcel()
    correct(quote.submission, shell_od={"text": "1 3/8", "method": "caliper"})
    with pytest.raises(shop.Stopped):
        services.pack(quote=quote, by=bronagh)
    assert "Nothing may be done with this parcel now" in the_page(quote, bronagh)


def test_a_shaft_goes_its_own_way(bronagh: User) -> None:
    quote = an_accepted(days_ago=0)
    assert parcels_to_send() == []
    answer = logged_in(bronagh).get(reverse("shop-parcel", args=[quote.submission.reference]))
    assert answer.status_code == 302
    with pytest.raises(shop.Stopped):
        shop.move_on(quote=quote, to=Stage.PACKED, by=bronagh)


def test_the_packing_list_has_the_parts_and_no_tube(bronagh: User) -> None:
    quote = an_accepted_parcel()
    address = reverse("packing-list", args=[quote.submission.reference])
    said = " ".join(texts(logged_in(bronagh).get(address).content))
    assert "Parcel" in said
    assert "Tube" not in said
    assert "Fitting card" not in said
    facts = services.facts_of(quote)
    assert len(facts.things) == len([one for one in quote.lines if one["code"][:3] != "SV-"])


# --- Afterwards ---------------------------------------------------------------------------


def test_once_sent_it_may_be_invoiced(bronagh: User) -> None:
    quote = an_accepted_parcel()
    services.pack(quote=quote, by=bronagh)
    send(quote, bronagh)
    assert have_left([quote]) == {quote.pk}


def test_it_is_asked_whether_the_parts_fitted_and_no_gap(do_jobs: Callable[[], int]) -> None:
    contact = {"name": "Odile Marsh", "phone": "+1 202 555 0101", "role": "owner"}
    top = {"contact": {**contact, "email": "odile@example.org"}}
    quote = sent_ago(an_accepted_parcel(days_ago=20, top=top), days_ago=8)
    assert [due.kind for due in due_to_ask()] == ["fitted_7"]
    ask_by_mail()
    mail.outbox.clear()
    do_jobs()
    (letter,) = [one for one in mail.outbox if "fit" in one.subject]
    assert letter.subject == "Did the parts for Biscuit Barrel fit?"
    assert "gap" not in letter.body
    assert "shaft" not in letter.body
    client = logged_in(a_member("maud", "counter"))
    page = client.get(reverse("status", args=[quote.submission.token])).content.decode()
    assert 'id="fit-yes"' in page
    assert 'id="fit-gap"' not in page
    client.post(reverse("fit", args=[quote.submission.token]), {"fitted": "yes"})
    assert Outcome.objects.get(quote=quote).fitted == "yes"


# --- Many, and at once --------------------------------------------------------------------


def test_the_list_asks_as_much_for_three_parcels_as_for_one(
    bronagh: User, django_assert_max_num_queries: DjangoAssertNumQueries
) -> None:
    an_accepted_parcel()
    client, address = logged_in(bronagh), reverse("shop")
    client.get(address)
    with CaptureQueriesContext(connection) as one:
        client.get(address)
    for number in range(2):
        boat = {"name": f"Boat {number}", "station": "single"}
        an_accepted_parcel(boat_name_and_station=boat)
    with django_assert_max_num_queries(len(one)):
        client.get(address)


@pytest.mark.django_db(transaction=True)
def test_two_who_pack_and_send_at_once_write_each_step_once() -> None:
    quote, bronagh = an_accepted_parcel(), a_member("bronagh", "machinist")
    before = counts(quote)

    def packs() -> object:
        return services.pack(quote=quote, by=bronagh)

    def sends() -> object:
        return send(quote, bronagh)

    for one in (packs, sends):
        done, wrong = at_once(one, one)
        assert wrong == []
        assert sorted(map(bool, done)) == [False, True]
    assert ShopMove.objects.count() == 2
    assert Shipment.objects.count() == 1
    gone: dict[str, Any] = {code: (was or 0) - 1 for code, (was, _held) in before.items()}
    assert {code: on_hand for code, (on_hand, _held) in counts(quote).items()} == gone
