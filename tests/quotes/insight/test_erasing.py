"""What a customer asked to be forgotten stands in no fact and no count."""

from __future__ import annotations

import pytest

from intake.customers.models import Customer
from intake.customers.privacy.services import erase_customer
from intake.models import CallRecord
from quotes.insight.counting.services import count_months
from quotes.insight.keeping.services import count_everything
from quotes.insight.models import Cell, FlagFact, RequestFact
from quotes.models import Quote
from tests.intake.desk_given import stock_the_shelf
from tests.quotes.insight.given import a_fact
from tests.quotes.outcomes.given import a_sent
from tests.staff.given import a_member

pytestmark = pytest.mark.django_db


def test_a_reason_that_named_somebody_goes_with_them() -> None:
    stock_the_shelf()
    quote = a_sent(days_ago=9)
    submission = quote.submission
    CallRecord.objects.create(
        submission=submission, sheet=submission.current, check_id="single-route",
        outcome="overridden", note="Tarpley swears to it", month="2026-04", channel="form",
    )  # fmt: skip
    a_fact()  # somebody else's
    count_everything()
    assert RequestFact.objects.get(pk=submission.pk).over == ["Tarpley swears to it"]
    assert Cell.objects.filter(key__contains="Tarpley").exists()
    customer = Customer.objects.get(pk=submission.customer_id)
    Quote.objects.filter(pk=quote.pk).update(status="cancelled")
    erase_customer(customer=customer, by=a_member("percival", "manager"), why="asked by letter")
    count_months()
    assert "Tarpley" not in str(list(RequestFact.objects.values_list("over", flat=True)))
    assert "Tarpley" not in str(list(FlagFact.objects.values_list("over", flat=True)))
    assert not Cell.objects.filter(key__contains="Tarpley").exists()
