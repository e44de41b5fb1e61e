"""Dated rates: each set changes what it names, from its day on, and nothing before."""

from __future__ import annotations

import threading
from collections.abc import Callable
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
import time_machine
from django.contrib.auth.models import User
from django.core.checks import Error
from django.db import connections
from django.test import Client
from django.utils import timezone

from quotes.domain.kept_price import again
from quotes.domain.rate_values import RateErrors
from quotes.domain.rates import Rates
from quotes.issuing.services import issue_quote
from quotes.models import RateSet
from quotes.rate_sets import selectors
from quotes.rate_sets.services import RatesOvertaken, adopt_rates
from quotes.rate_sets.system_checks import currency_can_be_kept
from quotes.selectors import rates
from staff.trail.selectors import changes_of
from tests.quotes.given import a_submission, stock_the_shelf
from tests.staff.given import a_manager, a_member, logged_in

pytestmark = pytest.mark.django_db
PAGE, ADOPT = "/catalog/rates/", "/catalog/rates/adopt/"


@pytest.fixture
def percival() -> User:
    return User.objects.create_user("percival")


def today(later: int = 0) -> date:
    return timezone.localdate() + timedelta(days=later)


def adopt(by: User, name: str, later: int = 0, **typed: str) -> RateSet:
    return adopt_rates(
        name=name, reason="The year was dear.", from_day=today(later), by=by, typed=typed
    )


def test_without_a_set_the_settings_hold(settings: Any) -> None:
    settings.SHOP = {**settings.SHOP, "minimum_order": Decimal(99)}
    assert rates() == Rates.of(settings.SHOP)
    assert rates().minimum_order == 99


def test_a_set_of_today_is_in_force_over_the_settings(percival: User, settings: Any) -> None:
    adopt(percival, "autumn", rush_rate="30 %")
    assert (rates().rush_rate, rates().minimum_order) == (Decimal("0.3"), Decimal(120))
    assert rates().numbers == (1,)
    settings.SHOP = {**settings.SHOP, "minimum_order": Decimal(99)}
    assert (rates().rush_rate, rates().minimum_order) == (Decimal("0.3"), Decimal(99))


def test_a_set_comes_into_force_with_its_day(percival: User) -> None:
    adopt(percival, "new year", later=10, minimum_order="150")
    assert rates().minimum_order == 120
    assert rates(today(10)).minimum_order == 150
    with time_machine.travel(timezone.now() + timedelta(days=10), tick=False):
        assert rates().minimum_order == 150


def test_a_change_of_today_stays_when_an_older_set_comes_into_force(percival: User) -> None:
    adopt(percival, "new year", later=10, minimum_order="150")
    adopt(percival, "autumn", rush_rate="30 %", minimum_order="130")
    then = rates(today(10))
    assert (then.minimum_order, then.rush_rate) == (Decimal(150), Decimal("0.3"))
    assert rates().minimum_order == 130
    assert (rates().numbers, then.numbers) == ((2,), (2, 1))


def test_of_one_day_the_last_word_counts(percival: User) -> None:
    adopt(percival, "one", later=10, minimum_order="150")
    adopt(percival, "two", later=10, minimum_order="160")
    assert rates(today(10)).minimum_order == 160


def test_asking_costs_one_tiny_query(percival: User, django_assert_num_queries: Any) -> None:
    adopt(percival, "autumn", rush_rate="30 %")
    rates()
    with django_assert_num_queries(1):
        again_asked = rates()
    assert again_asked is rates()


def test_a_quote_keeps_the_rates_it_was_made_with(percival: User) -> None:
    stock_the_shelf()
    quote = issue_quote(submission_id=a_submission().pk)
    adopt(percival, "dear", minimum_order="5000", tax_rate="20 %")
    assert again(quote.inputs).total == quote.total
    assert again(quote.inputs).taxes[0].rate == Decimal("0.07")


def test_the_trail_says_what_was_before(percival: User) -> None:
    row = adopt(percival, "autumn", rush_rate="30 %")
    change = changes_of("rates", row.number)[0]
    assert change.what["Rush, of the labour"] == ["25 %", "30 %"]
    assert change.why == "The year was dear."


@pytest.mark.parametrize(
    ("box", "changes"),
    [
        ("name", {"name": " "}),
        ("name", {"name": "x" * 41}),
        ("name", {"name": "AUTUMN"}),
        ("reason", {"reason": "\x00"}),
        ("reason", {"reason": "x" * 401}),
        ("from_day", {"from_day": None}),
        ("from_day", {"from_day": date(2020, 1, 1)}),
        ("values", {"typed": {"rush_rate": "30 %"}}),
        ("rush_rate", {"typed": {"rush_rate": "much"}}),
    ],
)
def test_what_cannot_be_adopted_is_said(percival: User, box: str, changes: dict[str, Any]) -> None:
    adopt(percival, "autumn", rush_rate="30 %")
    given = {"name": "two", "reason": "why", "from_day": today(), "typed": {"rush_rate": "35 %"}}
    with pytest.raises(RateErrors) as refused:
        adopt_rates(by=percival, **{**given, **changes})
    assert list(refused.value.errors) == [box]
    assert RateSet.objects.count() == 1


@pytest.mark.django_db(transaction=True)
def test_of_two_managers_at_once_the_second_is_told(percival: User) -> None:
    barrier, told = threading.Barrier(2), []

    def one(name: str) -> None:
        try:
            barrier.wait(60)
            adopt_rates(
                name=name, reason="why", from_day=today(), by=percival,
                typed={"rush_rate": "30 %"}, based_on=0,
            )  # fmt: skip
            told.append("adopted")
        except RatesOvertaken:
            told.append("told")
        finally:
            connections.close_all()

    _at_once(lambda: one("one"), lambda: one("two"))
    assert sorted(told) == ["adopted", "told"]
    assert RateSet.objects.count() == 1


def _at_once(*jobs: Callable[[], None]) -> None:
    threads = [threading.Thread(target=job) for job in jobs]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(90)


# --- The page -----------------------------------------------------------------------------


@pytest.fixture
def manager() -> Client:
    return logged_in(a_manager("ottilie"))


def typed(**changes: str) -> dict[str, str]:
    given = {"name": "autumn", "reason": "The year was dear.", "from_day": today().isoformat()}
    return {**given, "based_on": "0", **changes}


def test_rates_are_changed_on_the_page_and_told_there(manager: Client) -> None:
    answer = manager.post(ADOPT, typed(rush_rate="30", saw_in="0.3"), follow=True)
    text = answer.content.decode()
    assert "hold from" in text
    assert "<strong>autumn</strong>" in text
    assert rates().rush_rate == Decimal("0.3")
    assert "25 %" in text.split("Earlier changes")[1]


def test_a_page_sent_as_it_was_opened_changes_nothing(manager: Client) -> None:
    page = manager.get(PAGE).context["page"]
    boxes = {row.field.name: row.typed for _title, rows in page.groups for row in rows}
    answer = manager.post(ADOPT, typed(**boxes))
    assert answer.status_code == 400
    assert "Nothing is changed by this" in answer.content.decode()


def test_what_is_wrong_stands_by_its_box_and_nothing_typed_is_lost(manager: Client) -> None:
    answer = manager.post(ADOPT, typed(rush_rate="much", freight_classes="48: 22", from_day="soon"))
    text = answer.content.decode()
    assert answer.status_code == 400
    assert 'value="much"' in text
    assert 'id="rate-rush_rate-error"' in text
    assert 'href="#rate-freight_classes"' in text
    assert "Please give the first day" in text
    assert "The year was dear." in text


def test_a_page_of_before_is_told_so(manager: Client) -> None:
    manager.post(ADOPT, typed(rush_rate="30"))
    answer = manager.post(ADOPT, typed(name="winter", rush_rate="35"))
    assert answer.status_code == 409
    assert "Somebody else changed the rates" in answer.content.decode()


def test_the_counter_looks_and_does_not_change(manager: Client) -> None:
    manager.post(ADOPT, typed(minimum_order="150", from_day=today(9).isoformat()))
    maud = logged_in(a_member("maud", "counter"))
    text = maud.get(PAGE).content.decode()
    assert "To come" in text
    assert "Go by these" not in text
    assert maud.post(ADOPT, typed()).status_code == 403


def test_the_page_costs_the_same_however_many_sets(
    manager: Client, django_assert_max_num_queries: Any
) -> None:
    for number in range(5):
        based_on = str(selectors.newest_number())
        manager.post(ADOPT, typed(name=f"n{number}", rush_rate=str(30 + number), based_on=based_on))
    with django_assert_max_num_queries(7):
        assert "n4" in manager.get(PAGE).content.decode()


# --- The settings -------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("currency", "faults"), [("", []), ("EUR", []), ("JPY", []), ("euro", ["quotes.E001"]),
                             ("KWD", ["quotes.E002"])],
)  # fmt: skip
def test_a_currency_that_cannot_be_kept_is_refused_at_the_start(
    settings: Any, currency: str, faults: list[str]
) -> None:
    settings.SHOP = {**settings.SHOP, "currency": currency}
    found = currency_can_be_kept(None)
    assert [one.id for one in found] == faults
    assert all(isinstance(one, Error) for one in found)
