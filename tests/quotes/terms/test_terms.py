"""Terms with a customer: only added, following merged records, kept with each quote."""

from __future__ import annotations

import threading
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

import pytest
import time_machine
from django.contrib.auth.models import User
from django.db import connections
from django.test import Client
from django.utils import timezone

from intake.customers.merging.services import merge_customers
from intake.customers.models import Customer
from quotes.domain.kept_price import again
from quotes.domain.terms import NO_TERMS, Terms
from quotes.issuing.services import issue_quote
from quotes.models import CustomerTerms
from quotes.terms.selectors import terms_of, terms_on
from quotes.terms.services import TermsOvertaken, TermsRefused, agree_terms
from staff.trail.selectors import changes_of
from tests.intake.customers.given import ODILE, received, someone
from tests.quotes.given import stock_the_shelf
from tests.staff.given import a_manager, a_member, logged_in

pytestmark = pytest.mark.django_db
TEN = Decimal("0.10")


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


@pytest.fixture
def percival() -> User:
    return someone("percival")


def today(later: int = 0) -> date:
    return timezone.localdate() + timedelta(days=later)


def customer_of(submission: Any) -> Customer:
    return Customer.objects.get(pk=submission.customer_id)


def agree(customer: Customer, by: User, discount: str = "0.10", **more: Any) -> CustomerTerms:
    given: dict[str, Any] = {"deposit_part": None, "deposit_over": None, "from_day": today()}
    given |= {"why": "A yard with six boats.", **more}
    return agree_terms(customer=customer, discount=Decimal(discount), by=by, **given)


def test_terms_hold_from_their_day(percival: User) -> None:
    submission = received()
    agree(customer_of(submission), percival, from_day=today(5))
    assert terms_of(submission) == NO_TERMS
    with time_machine.travel(timezone.now() + timedelta(days=5), tick=False):
        assert terms_of(submission) == Terms(TEN)


def test_the_latest_day_that_has_come_counts(percival: User) -> None:
    who = customer_of(received())
    agree(who, percival, "0.05", from_day=today(9))
    agree(who, percival, "0.10")
    agree(who, percival, "0.12")
    assert terms_on(who.pk, today()).discount == Decimal("0.12")
    assert terms_on(who.pk, today(9)).discount == Decimal("0.05")


def test_a_quote_takes_the_discount_off_and_keeps_it(percival: User) -> None:
    submission = received()
    agree(customer_of(submission), percival)
    quote = issue_quote(submission_id=submission.pk)
    line = quote.lines[-1]
    assert line["how"].startswith("10 % of ")
    assert Decimal(line["amount"]) < 0
    agree(customer_of(submission), percival, "0")
    assert again(quote.inputs).total == quote.total


def test_terms_follow_merged_records_both_ways(percival: User) -> None:
    submission = received()
    gone, kept = customer_of(submission), customer_of(received(phone=ODILE, name="Odile Marsh"))
    agree(gone, percival)
    merge_customers(keep=kept, gone=gone, by=percival, why="One yard.")
    assert terms_on(kept.pk, today()).discount == TEN
    assert terms_on(gone.pk, today()).discount == TEN
    kept.refresh_from_db()
    agree(kept, percival, "0.03")
    assert terms_on(kept.pk, today()).discount == Decimal("0.03")
    assert terms_on(gone.pk, today()).discount == Decimal("0.03")
    submission.refresh_from_db()
    assert terms_of(submission).discount == Decimal("0.03")


def test_a_neighbours_terms_are_not_ours(percival: User) -> None:
    agree(customer_of(received()), percival)
    other = received(phone=ODILE, name="Odile Marsh")
    assert terms_of(other) == NO_TERMS


def test_asking_costs_one_query(percival: User, django_assert_num_queries: Any) -> None:
    submission = received()
    agree(customer_of(submission), percival)
    with django_assert_num_queries(1):
        terms_of(submission)


@pytest.mark.parametrize(
    ("field", "changes"),
    [
        ("discount", {"discount": "0.1501"}),
        ("discount", {"discount": "-0.01"}),
        ("from_day", {"from_day": date(2020, 1, 1)}),
        ("why", {"why": " "}),
        ("why", {"why": "x" * 401}),
    ],
)
def test_what_cannot_be_agreed_is_said(percival: User, field: str, changes: dict[str, Any]) -> None:
    who = customer_of(received())
    with pytest.raises(TermsRefused) as refused:
        agree(who, percival, **changes)
    assert refused.value.field == field
    assert not CustomerTerms.objects.exists()


def test_nothing_is_agreed_with_a_record_that_is_gone(percival: User) -> None:
    gone, kept = customer_of(received()), customer_of(received(phone=ODILE, name="Odile Marsh"))
    merge_customers(keep=kept, gone=gone, by=percival, why="One yard.")
    gone.refresh_from_db()
    with pytest.raises(TermsRefused, match="no longer in use"):
        agree(gone, percival)


def test_the_trail_says_what_was_before(percival: User) -> None:
    who = customer_of(received())
    agree(who, percival)
    agree(who, percival, "0.12", deposit_part=Decimal("0.3"))
    what = changes_of("terms", who.pk)[0].what
    assert what["discount"] == ["10 %", "12 %"]
    assert what["deposit"] == [None, "30 %"]


@pytest.mark.django_db(transaction=True)
def test_of_two_managers_at_once_the_second_is_told(percival: User) -> None:
    who, told, barrier = customer_of(received()), [], threading.Barrier(2)

    def one(discount: str) -> None:
        try:
            barrier.wait(60)
            agree(who, percival, discount, seen=0)
            told.append("agreed")
        except TermsOvertaken:
            told.append("told")
        finally:
            connections.close_all()

    threads = [threading.Thread(target=one, args=(each,)) for each in ("0.05", "0.10")]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(90)
    assert sorted(told) == ["agreed", "told"]
    assert CustomerTerms.objects.count() == 1


# --- The page -----------------------------------------------------------------------------


@pytest.fixture
def manager() -> Client:
    return logged_in(a_manager("ottilie"))


def typed(**changes: str) -> dict[str, str]:
    return {"discount": "7,5 %", "from_day": today().isoformat(), "why": "Six boats.", **changes}


def test_terms_are_agreed_on_the_page_of_a_customer(manager: Client) -> None:
    who = customer_of(received())
    page = f"/desk/customers/{who.pk}/terms/"
    assert page in manager.get(f"/desk/customers/{who.pk}/").content.decode()
    answer = manager.post(f"{page}agree/", typed(seen="0", deposit_part="0"), follow=True)
    text = answer.content.decode()
    assert "7.5 % off goods and work" in text
    assert terms_on(who.pk, today()) == Terms(Decimal("0.075"), Decimal(0))


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"discount": "20"}, "at most 15 %"),
        ({"discount": "much"}, "per cent, such as 7.5"),
        ({"discount": ""}, "per cent, such as 7.5"),
        ({"from_day": ""}, "a day like"),
        ({"deposit_over": "-1"}, "greater than or equal"),
        ({"why": ""}, "write why"),
    ],
)
def test_what_is_wrong_is_said_on_the_page(
    manager: Client, changes: dict[str, str], said: str
) -> None:
    who = customer_of(received())
    answer = manager.post(f"/desk/customers/{who.pk}/terms/agree/", typed(**changes))
    assert answer.status_code == 400
    assert said in answer.content.decode()
    assert not CustomerTerms.objects.exists()


def test_a_page_of_before_is_told_so(manager: Client) -> None:
    who = customer_of(received())
    send = f"/desk/customers/{who.pk}/terms/agree/"
    manager.post(send, typed(seen="0"))
    answer = manager.post(send, typed(seen="0", discount="9"))
    assert answer.status_code == 409
    assert "Somebody else changed these terms" in answer.content.decode()


def test_a_merged_record_leads_to_the_one_that_counts(manager: Client, percival: User) -> None:
    gone, kept = customer_of(received()), customer_of(received(phone=ODILE, name="Odile Marsh"))
    merge_customers(keep=kept, gone=gone, by=percival, why="One yard.")
    answer = manager.get(f"/desk/customers/{gone.pk}/terms/")
    assert answer["Location"] == f"/desk/customers/{kept.pk}/terms/"
    assert manager.get("/desk/customers/99999/terms/").status_code == 404


def test_the_counter_looks_and_does_not_agree() -> None:
    who = customer_of(received())
    maud = logged_in(a_member("maud", "counter"))
    assert (
        "Agree from that day" not in maud.get(f"/desk/customers/{who.pk}/terms/").content.decode()
    )
    assert maud.post(f"/desk/customers/{who.pk}/terms/agree/", typed()).status_code == 403
