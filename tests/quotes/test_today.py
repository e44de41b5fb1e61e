"""The quotes of the day, and a request that is found by the number of its quote."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from intake.finding.lists.asked import asked_for
from intake.finding.lists.selectors import page_of
from intake.finding.services import index_waiting
from quotes.models import Quote
from tests.intake.desk_given import a_person
from tests.intake.finding.given import queries
from tests.quotes.given import a_quote, stock_the_shelf

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def parts_on_the_shelf(db: None) -> None:
    """The demo catalogue, as the shop has it."""
    stock_the_shelf()


def test_todays_quotes_and_those_about_to_lapse(client: Client) -> None:
    today = timezone.localdate()
    soon, later, answered, old = (a_quote() for _ in range(4))
    Quote.objects.filter(pk=soon.pk).update(valid_until=today + timedelta(days=2))
    Quote.objects.filter(pk=answered.pk).update(status="accepted")
    Quote.objects.filter(pk=old.pk).update(
        status="lapsed", issued_at=timezone.now() - timedelta(days=40)
    )
    client.force_login(a_person("counter", "maud"))
    page = client.get(reverse("quotes-today")).content.decode()
    issued, waiting = page.split('id="waiting-h"')
    assert [quote.number in issued for quote in (soon, later, answered, old)] == [1, 1, 1, 0]
    assert [quote.number in waiting for quote in (soon, later, answered, old)] == [1, 1, 0, 0]
    assert waiting.index(soon.number) < waiting.index(later.number)
    assert waiting.count("lapses soon") == 1
    few = queries(client, reverse("quotes-today"))
    for _ in range(3):
        a_quote()
    assert few == queries(client, reverse("quotes-today")) <= 8


def test_the_day_asks_for_its_quotes(client: Client) -> None:
    client.force_login(a_person("counter", "maud"))
    assert reverse("quotes-today") in client.get(reverse("today")).content.decode()


def test_a_request_is_found_by_the_number_of_its_quote() -> None:
    quote, other = a_quote(), a_quote()
    index_waiting()
    assert page_of(asked_for({"q": quote.number}), 25).keys == [quote.submission_id]
    assert page_of(asked_for({"q": other.number.lower()}), 25).keys == [other.submission_id]
