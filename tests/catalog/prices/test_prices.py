"""Prices from a day on: in force by themselves, never edited, set by one person at a time."""

from __future__ import annotations

import threading
from collections.abc import Callable
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
import time_machine
from django.contrib.auth.models import User
from django.db import IntegrityError, connections, transaction
from django.utils import timezone

from catalog import selectors
from catalog import services as catalog
from catalog.models import Part, PartPrice
from catalog.prices.selectors import newest_key, prices_of, prices_on, to_come
from catalog.prices.services import NewPrice, PriceRefused, PricesOvertaken, set_prices
from staff.models import Change
from staff.trail.selectors import changes_of
from tests.catalog.test_services import DEMO

pytestmark = pytest.mark.django_db
BAR = "BH-1000"  # 3.60 an inch in the demo catalogue


@pytest.fixture(autouse=True)
def _shelf() -> None:
    catalog.load_catalog(DEMO)


@pytest.fixture
def percival() -> User:
    return User.objects.create_user("percival")


def today(later: int = 0) -> date:
    return timezone.localdate() + timedelta(days=later)


def set_bar(by: User, price: str, later: int = 0, **more: Any) -> tuple[NewPrice, ...]:
    new = NewPrice(BAR, Decimal(price), today(later))
    return set_prices(prices=[new], by=by, why="The mill asks more.", **more)


def bar_costs() -> str:
    part = selectors.stock().part(BAR)
    assert part is not None
    return f"{part.price.normalize():f}"


def test_a_price_of_today_is_in_force_at_once(percival: User) -> None:
    set_bar(percival, "3.75")
    assert bar_costs() == "3.75"


def test_a_price_set_for_a_day_comes_with_the_day(percival: User) -> None:
    set_bar(percival, "3.75", later=10)
    assert bar_costs() == "3.6"
    assert [row.price for row in to_come(today())[0]] == [Decimal("3.75")]
    with time_machine.travel(timezone.now() + timedelta(days=10), tick=False):
        assert bar_costs() == "3.75"
        assert to_come(today())[0] == []
        bars = {part.code: part.price for part in selectors.parts_page(kind="bar")[0]}
        assert bars[BAR] == Decimal("3.75")
        assert {part.code: part.price for part in selectors.all_parts()}[BAR] == Decimal("3.75")


def test_what_is_set_for_later_does_not_take_back_what_is_set_for_sooner(percival: User) -> None:
    set_bar(percival, "4.00", later=20)
    set_bar(percival, "3.80", later=5)
    costs = [prices_on(today(later), [BAR])[BAR] for later in (0, 5, 19, 20)]
    assert costs == [Decimal("3.6"), Decimal("3.8"), Decimal("3.8"), Decimal("4")]


def test_of_one_day_the_last_word_counts(percival: User) -> None:
    set_bar(percival, "4.00", later=20)
    set_bar(percival, "4.20", later=20)
    assert prices_on(today(20))[BAR] == Decimal("4.2")
    assert [row.number for row in prices_of(BAR)] == [3, 2, 1]


def test_a_table_or_a_form_of_today_leaves_its_dated_row() -> None:
    catalog.load_catalog(DEMO.replace(",3.6,", ",3.75,"))
    part = selectors.part_today(Part.objects.get(code=BAR))
    part.price = Decimal("3.90")
    catalog.save_part(part=part, why="The mill asks more.")
    told = [(row.number, row.price, row.from_day) for row in prices_of(BAR)]
    assert told == [
        (3, Decimal("3.9"), today()),
        (2, Decimal("3.75"), today()),
        (1, Decimal("3.6"), today()),
    ]


def test_a_price_whose_day_has_come_is_not_lost_with_another_change(percival: User) -> None:
    set_bar(percival, "3.75", later=3)
    with time_machine.travel(timezone.now() + timedelta(days=4), tick=False):
        part = selectors.part_today(Part.objects.get(code=BAR))
        part.description = "round bar, ground"
        catalog.save_part(part=part, why="Said more clearly.")
        assert bar_costs() == "3.75"
        assert len(prices_of(BAR)) == 2
        # The table as it was downloaded is the table as it is.
        from catalog.tables import write_parts

        assert catalog.load_catalog(write_parts(selectors.all_parts())).changed == ()


def test_the_trail_says_who_and_why(percival: User) -> None:
    set_bar(percival, "3.75", later=10)
    newest = changes_of("part", BAR)[0]
    assert newest.by == percival
    assert newest.why == "The mill asks more."
    assert newest.what == {f"price from {today(10).isoformat()}": ["3.6", "3.75"]}


@pytest.mark.parametrize(
    ("field", "code", "price", "later", "why"),
    [
        ("from_day", BAR, "3.75", -1, "why"),
        ("why", BAR, "3.75", 0, " \x00"),
        ("why", BAR, "3.75", 0, "x" * 401),
        ("code", "NONE-1", "3.75", 0, "why"),
        ("price", BAR, "3.60", 0, "why"),
    ],
)
def test_what_cannot_be_set_is_said(
    percival: User, field: str, code: str, price: str, later: int, why: str
) -> None:
    before = selectors.stock()
    new = NewPrice(code, Decimal(price), today(later))
    with pytest.raises(PriceRefused) as refused:
        set_prices(prices=[new], by=percival, why=why)
    assert refused.value.field == field
    assert selectors.stock() is before


def test_one_that_cannot_be_set_and_none_is(percival: User) -> None:
    new = [NewPrice(BAR, Decimal(9), today()), NewPrice("NONE-1", Decimal(9), today())]
    with pytest.raises(PriceRefused, match="NONE-1"):
        set_prices(prices=new, by=percival, why="why")
    assert bar_costs() == "3.6"
    assert not Change.objects.filter(record="part", key=BAR, by=percival).exists()


def test_whoever_looked_before_is_told(percival: User) -> None:
    seen = newest_key()
    set_bar(percival, "3.75", seen=seen)
    with pytest.raises(PricesOvertaken, match=BAR):
        set_bar(percival, "3.90", seen=seen)
    other = NewPrice("BH-1125", Decimal(5), today())
    assert set_prices(prices=[other], by=percival, why="Another part.", seen=seen)
    assert bar_costs() == "3.75"


def test_prices_to_come_go_by_pages(percival: User) -> None:
    new = [NewPrice(part.code, part.price + 1, today(3)) for part in selectors.stock().parts]
    set_prices(prices=new, by=percival, why="A new list.")
    set_bar(percival, "9", later=2)
    first, more = to_come(today())
    second, end = to_come(today(), more)
    assert first[0].code == BAR
    assert len({row.pk for row in [*first, *second]}) == len(new) + 1
    assert end is None


def test_the_database_itself_refuses_a_second_row_of_a_number() -> None:
    with pytest.raises(IntegrityError), transaction.atomic():
        PartPrice.objects.create(code=BAR, number=1, price=1, from_day=today())
    with pytest.raises(IntegrityError), transaction.atomic():
        PartPrice.objects.create(code=BAR, number=9, price=-1, from_day=today())


def test_a_list_costs_the_same_however_long(
    percival: User, django_assert_max_num_queries: Any
) -> None:
    new = [NewPrice(part.code, part.price + 1, today(3)) for part in selectors.stock().parts]
    with django_assert_max_num_queries(12):
        assert len(set_prices(prices=new, by=percival, why="A new list.")) == len(new)


@pytest.mark.django_db(transaction=True)
def test_of_two_managers_at_once_the_second_is_told(percival: User) -> None:
    seen, barrier, told = newest_key(), threading.Barrier(2), []

    def one(price: str) -> None:
        try:
            barrier.wait(60)
            set_bar(percival, price, seen=seen)
            told.append("set")
        except PricesOvertaken:
            told.append("told")
        finally:
            connections.close_all()

    _at_once(lambda: one("3.75"), lambda: one("3.90"))
    assert sorted(told) == ["set", "told"]
    assert PartPrice.objects.filter(code=BAR).count() == 2


def _at_once(*jobs: Callable[[], None]) -> None:
    threads = [threading.Thread(target=job) for job in jobs]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(90)
