"""Money is written down by hand, once for each form; no card's number is ever kept."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.utils import timezone

from quotes.bundles.models import Bundle, BundleMember
from quotes.domain.payments import PaymentErrors
from quotes.models import Quote
from quotes.payments.models import Payment
from quotes.payments.selectors import (
    deposit_asked,
    deposit_due,
    deposits_not_in,
    paid,
    paid_with_bundle,
)
from quotes.payments.services import record_payment
from tests.intake.customers.given import someone
from tests.quotes.given import an_accepted, stock_the_shelf
from tests.quotes.invoices.given import pay
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db


@pytest.fixture
def by() -> User:
    stock_the_shelf()
    return someone("maud")


@pytest.fixture
def quote(by: User) -> Quote:
    return an_accepted(days_ago=1)


def typed(**changes: str) -> dict[str, str]:
    today = timezone.localdate().isoformat()
    return {"kind": "deposit", "amount": "100,50", "day": today, "how": "cash", **changes}


def test_what_came_in_less_what_went_back_is_paid(quote: Quote, by: User) -> None:
    asked = deposit_asked(quote)
    assert 0 < asked < quote.total
    assert deposit_due(quote) == asked
    pay(quote, by, "100.50", "deposit")
    pay(quote, by, "20", "refund")
    assert paid(quote) == Decimal("80.50")
    assert deposit_due(quote) == asked - Decimal("80.50")
    assert deposits_not_in([quote]) == {quote.pk: asked - Decimal("80.50")}
    pay(quote, by, str(asked), "payment")
    assert deposit_due(quote) == 0
    assert deposits_not_in([quote]) == {}


def test_a_form_sent_twice_is_one_payment(quote: Quote, by: User) -> None:
    assert pay(quote, by, "50", nonce="one form") is True
    assert pay(quote, by, "50", nonce="one form") is False
    assert paid(quote) == 50


@pytest.mark.parametrize(
    ("changes", "box", "words"),
    [
        ({"amount": "0"}, "amount", "over nothing"),
        ({"amount": "-5"}, "amount", "an amount like"),
        ({"amount": "1.005"}, "amount", "whole cents"),
        ({"amount": "lots"}, "amount", "an amount like"),
        ({"day": "yesterday"}, "day", "like 2026-12-24"),
        ({"kind": "gift"}, "kind", "choose what it is"),
        ({"how": ""}, "how", "how it came"),
        ({"how": "card 4000 0000 0000 0002"}, "how", "payment card"),
        ({"note": "4000000000000002"}, "note", "payment card"),
        ({"note": "n" * 301}, "note", "under 300"),
        ({"kind": "refund", "amount": "1"}, "amount", "Only 0.00 came in"),
    ],
)
def test_what_cannot_be_written_down_is_said_box_by_box(
    quote: Quote, by: User, changes: dict[str, str], box: str, words: str
) -> None:
    with pytest.raises(PaymentErrors) as refused:
        record_payment(quote=quote, typed=typed(**changes), nonce="n", by=by)
    assert list(refused.value.errors) == [box]
    assert words in refused.value.errors[box]
    assert Payment.objects.count() == 0


def test_tomorrows_money_is_not_in(quote: Quote, by: User) -> None:
    tomorrow = (timezone.localdate() + timedelta(days=1)).isoformat()
    with pytest.raises(PaymentErrors, match="still to come"):
        record_payment(quote=quote, typed=typed(day=tomorrow), nonce="n", by=by)


def test_a_deposit_moves_on_to_the_version_that_replaces_it(quote: Quote, by: User) -> None:
    pay(quote, by, "100", "deposit")
    Quote.objects.filter(pk=quote.pk).update(status="replaced")
    newer = Quote.objects.get(pk=quote.pk)
    newer.pk, newer.version, newer.number, newer.status = None, 2, "Q-2026-999999", "accepted"
    newer.save()
    assert paid(newer) == 100


def test_a_bundle_is_paid_for_as_one(quote: Quote, by: User) -> None:
    other = an_accepted(days_ago=1, boat_name_and_station={"name": "Fedora", "station": "port"})
    both = a_bundle(by, quote, other)
    asked = deposit_asked(quote)
    assert asked == deposit_asked(other) > 0
    record_payment(quote=quote, typed=typed(amount="120"), nonce="a", by=by, bundle=both)
    pay(other, by, "30")
    assert paid_with_bundle(quote) == paid_with_bundle(other) == 150
    assert deposit_due(quote) == asked - 150
    assert deposits_not_in([quote, other]) == {quote.pk: asked - 150, other.pk: asked - 150}


def a_bundle(by: User, *quotes: Quote) -> Bundle:
    """Several boats on one quote, as one freight and one total."""
    sums: dict[str, Any] = {
        name: sum((getattr(quote, name) for quote in quotes), Decimal(0))
        for name in ("goods", "tax")
    }
    sums["freight"] = max(quote.freight for quote in quotes)
    customer = quotes[0].submission.customer
    assert customer is not None
    made = Bundle.objects.create(
        customer=customer, number="B-2026-000001", total=sum(sums.values()),
        freight_words="one crate", valid_until=timezone.localdate(), issued_by=by,
        sha256="", **sums,
    )  # fmt: skip
    for place, quote in enumerate(quotes):
        BundleMember.objects.create(bundle=made, quote=quote, place=place)
    return made


# --- The page ----------------------------------------------------------------------------


@pytest.fixture
def counter(by: User) -> Client:
    return logged_in(a_member("iolo", "counter"))


def test_the_page_writes_down_once_and_shows_it(quote: Quote, counter: Client) -> None:
    address = f"/desk/{quote.submission.reference}/payments/"
    page = counter.get(address).content.decode()
    assert "Deposit still to come" in page
    for _click in range(2):
        answer = counter.post(address, {**typed(), "nonce": "n-1"}, follow=True)
    assert "written down already" in answer.content.decode()
    assert "100.50" in answer.content.decode()
    assert Payment.objects.count() == 1


def test_what_was_typed_is_shown_again_with_what_is_wrong(quote: Quote, counter: Client) -> None:
    address = f"/desk/{quote.submission.reference}/payments/"
    answer = counter.post(address, {**typed(how="4000 0000 0000 0002"), "nonce": "n-1"})
    assert answer.status_code == 400
    page = answer.content.decode()
    assert "payment card" in page
    assert 'value="100,50"' in page
    assert 'value="n-1"' in page


def test_the_page_asks_as_much_for_ten_payments_as_for_one(
    quote: Quote, by: User, counter: Client, django_assert_max_num_queries: Any
) -> None:
    for each in range(10):
        pay(quote, by, "1", nonce=f"n{each}")
    with django_assert_max_num_queries(20):
        counter.get(f"/desk/{quote.submission.reference}/payments/")
