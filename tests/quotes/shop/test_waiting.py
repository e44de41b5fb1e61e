"""What a shaft waits for: the customer's coupling, the deposit, what is on no shelf."""

from __future__ import annotations

from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries

from catalog.models import Part
from quotes.domain.rate_values import RateErrors, rates_from, read_changes
from quotes.domain.rates import Rates
from quotes.domain.shop_stages import Stage
from quotes.inspecting import services as inspecting
from quotes.models import Quote
from quotes.payments.selectors import deposit_due
from quotes.receiving.services import Arrival, receive
from quotes.shop import services
from quotes.shop.models import ShopMove
from quotes.stock.reordering import reorder_rows
from tests.intake.customers.given import someone
from tests.quotes.given import an_accepted, stock_the_shelf
from tests.quotes.invoices.given import pay
from tests.quotes.shop.shafts import inspected
from tests.quotes.shop.test_shafts import page_of, press
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db
SENDS: dict[str, Any] = {"reuse_coupling": {"reuse": True, "sending": True}}


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


@pytest.fixture
def bronagh() -> User:
    return a_member("bronagh", "machinist")


@pytest.fixture
def bench(bronagh: User) -> Client:
    return logged_in(bronagh)


def the_list(bench: Client) -> str:
    return " ".join(bench.get(reverse("shop")).content.decode().split())


# --- The customer's coupling --------------------------------------------------------------


def test_nothing_is_fitted_and_faced_until_the_customers_coupling_is_here(
    bronagh: User, bench: Client
) -> None:
    quote = an_accepted(days_ago=0, **SENDS)
    assert "their coupling is not here" in the_list(bench)
    assert "turn the shaft, but fit and face nothing" in page_of(bench, quote)
    services.move_on(quote=quote, to=Stage.SAWN, by=bronagh)
    services.move_on(quote=quote, to=Stage.MADE, by=bronagh)
    last = inspected(quote, bronagh)
    inspecting.sign(quote=quote, number=last.number, by=a_member("cadoc", "machinist"))
    with pytest.raises(services.Stopped, match="fit and face nothing"):
        services.move_on(quote=quote, to=Stage.INSPECTED, by=bronagh)
    assert "Inspected, on to packing" not in page_of(bench, quote)
    came = Arrival(timezone.localdate(), "Wilmot Tarpley", "light rust", "rack 3")
    receive(part=quote.own_parts.get(), arrival=came, by=bronagh)
    assert "their coupling is not here" not in the_list(bench)
    assert services.move_on(quote=quote, to=Stage.INSPECTED, by=bronagh)


# --- The deposit --------------------------------------------------------------------------


def test_a_deposit_that_is_not_in_is_said_and_stops_nothing_by_itself(
    bronagh: User, bench: Client
) -> None:
    quote = an_accepted(days_ago=0)
    due = deposit_due(quote)
    assert due > 0
    assert f"deposit not in: {due}" in the_list(bench)
    assert f"Deposit not in: {due} is still to come" in page_of(bench, quote)
    assert services.move_on(quote=quote, to=Stage.SAWN, by=bronagh)


def test_where_the_desk_says_so_the_saw_waits_for_it(
    bronagh: User, bench: Client, settings: Any
) -> None:
    settings.SHOP = {**settings.SHOP, "saw_waits_for_deposit": True}
    quote = an_accepted(days_ago=0)
    due = deposit_due(quote)
    assert "; the saw waits for it" in the_list(bench)
    assert "Bar sawn" not in the_list(bench)
    assert "Bar sawn" not in page_of(bench, quote)
    said = press(bench, "shop-move", quote, to="sawn")
    assert f"The deposit is not in: {due} is still to come, and the saw waits for it." in said
    assert not ShopMove.objects.exists()
    pay(quote, someone("maud"), str(due), "deposit")
    assert "Bar sawn" in the_list(bench)
    assert services.move_on(quote=quote, to=Stage.SAWN, by=bronagh)


def test_that_rate_is_said_with_yes_and_no() -> None:
    """As it is kept, and read back."""
    assert read_changes({"saw_waits_for_deposit": " Yes "}, Rates()) == {
        "saw_waits_for_deposit": "yes"
    }
    assert read_changes({"saw_waits_for_deposit": "no"}, Rates()) == {}, "it is so already"
    assert read_changes({"saw_waits_for_deposit": ""}, Rates()) == {}
    assert rates_from(Rates(), [(1, {"saw_waits_for_deposit": "yes"})]).saw_waits_for_deposit
    on = Rates(saw_waits_for_deposit=True)
    assert not rates_from(on, [(2, {"saw_waits_for_deposit": "no"})]).saw_waits_for_deposit
    with pytest.raises(RateErrors, match="saw_waits_for_deposit"):
        read_changes({"saw_waits_for_deposit": "maybe"}, Rates())


def test_a_manager_switches_it_from_a_day_on(bench: Client) -> None:
    manager = logged_in(a_member("percy", "manager"))
    page = manager.get(reverse("rates")).content.decode()
    assert '<select id="rate-saw_waits_for_deposit"' in page
    typed = {"saw_waits_for_deposit": "yes", "name": "deposits", "reason": "two were never paid"}
    typed |= {"from_day": timezone.localdate().isoformat(), "based_on": "0"}
    manager.post(reverse("rates-adopt"), typed)
    an_accepted(days_ago=0)
    assert "; the saw waits for it" in the_list(bench)


# --- What is on no shelf ------------------------------------------------------------------


def test_after_the_saw_it_is_said_what_is_on_no_shelf(bench: Client) -> None:
    Part.objects.filter(kind="coupling").update(on_hand=0)
    quote = an_accepted(days_ago=0)
    said = press(bench, "shop-move", quote, to="sawn")
    assert f"{quote.number}: Not on the shelf: " in said
    assert "It is on the list of what to order." in said
    assert any(quote.number in why for row in reorder_rows() for why in row.why)
    assert "Not on the shelf" in page_of(bench, quote)


def test_where_all_is_there_nothing_is_said_of_the_shelf(bench: Client) -> None:
    said = press(bench, "shop-move", an_accepted(days_ago=0), to="sawn")
    assert "Not on the shelf" not in said


# --- Many ---------------------------------------------------------------------------------


def test_the_list_asks_as_much_for_three_shafts_that_wait_as_for_one(
    bench: Client, django_assert_max_num_queries: DjangoAssertNumQueries
) -> None:
    an_accepted(days_ago=0, **SENDS)
    the_list(bench)
    with CaptureQueriesContext(connection) as one:
        the_list(bench)
    for number in range(2):
        boat = {"name": f"Boat {number}", "station": "single"}
        an_accepted(days_ago=0, boat_name_and_station=boat, **SENDS)
    assert Quote.objects.count() == 3
    with django_assert_max_num_queries(len(one)):
        the_list(bench)
