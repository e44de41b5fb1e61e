"""Where an accepted job stands is read in one glance, on every page of it."""

from __future__ import annotations

import re

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from quotes.cases.models import Case
from quotes.job_strip import steps_of
from quotes.models import Quote
from quotes.outcomes.models import Outcome
from quotes.payments import services as payments
from tests.intake.desk_given import stock_the_shelf
from tests.quotes.given import a_quote, an_accepted
from tests.quotes.shop.shafts import a_sent
from tests.staff.given import a_member

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def said(quote: Quote) -> dict[str, str]:
    return {step.label: step.words for step in steps_of(quote.submission)}


def test_before_a_yes_there_is_nothing_to_stand() -> None:
    assert steps_of(a_quote().submission) == []


def test_a_shaft_just_accepted_waits_for_its_bar_and_its_deposit() -> None:
    quote = an_accepted(days_ago=0)
    steps = said(quote)
    assert steps["Quote"] == f"{quote.number}, version 1: accepted"
    assert steps["Shop"] == "49 in · 1244.6 mm: waiting for its bar"
    assert steps["Deposit"].endswith("still to come")
    assert (steps["Left us"], steps["Invoice"]) == ("still with us", "none yet")
    assert "Case" not in steps


def test_what_has_happened_since_is_said(client: Client) -> None:
    maud, bronagh = a_member("maud"), a_member("bronagh", "machinist")
    quote = a_sent(bronagh, maud)
    typed = {"kind": "deposit", "amount": "1000", "day": str(timezone.localdate()), "how": "cash"}
    assert payments.record_payment(quote=quote, typed=typed, nonce="one", by=maud)
    Outcome.objects.create(quote=quote, after_days=7, fitted="no", gap_typed="1 3/8")
    Case.objects.create(quote=quote, number="C-2026-0009", opened_as="no")
    steps = said(quote)
    assert steps["Shop"].endswith(": shipped")
    assert "Carrier of long parcels" in steps["Left us"]
    assert steps["Deposit"] == "is in"
    assert steps["Did it fit?"] == "no, gap 1 3/8"
    assert steps["Case"] == "C-2026-0009: open"


@pytest.mark.parametrize("page", ["submission", "desk-issue", "payments", "invoice-make"])
def test_each_page_of_the_job_leads_to_the_others(client: Client, page: str) -> None:
    quote = an_accepted(days_ago=0)
    client.force_login(a_member("maud"))
    reference = quote.submission.reference
    text = client.get(reverse(page, args=[reference])).content.decode()
    strip = text[text.index('class="job') :].split("</section>")[0]
    others = {"submission", "desk-issue", "payments", "invoice-make", "shop-shaft", "desk-fit"}
    assert set(re.findall(r'href="([^"]+)"', strip)) >= {
        reverse(name, args=[reference]) for name in others - {page}
    }
    assert strip.count('aria-current="page"') == 1


def test_who_may_not_open_a_page_reads_its_words_without_a_link(client: Client) -> None:
    quote = an_accepted(days_ago=0)
    client.force_login(a_member("bronagh", "machinist"))
    reference = quote.submission.reference
    text = client.get(reverse("submission", args=[reference])).content.decode()
    assert "still to come" in text
    assert reverse("payments", args=[reference]) not in text


def test_the_strip_costs_a_constant_few_queries() -> None:
    quote = an_accepted(days_ago=0)
    with CaptureQueriesContext(
        connection,
    ) as asked:
        steps_of(quote.submission)
    assert len(asked) <= 12
