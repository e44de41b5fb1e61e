"""A yes, a correction, a new version and the last day at one moment: one of them comes first."""

from __future__ import annotations

from datetime import timedelta
from functools import partial

import pytest
from django.utils import timezone

from intake.models import Event, Job
from intake.services import Overtaken
from quotes import services
from quotes.domain.lifecycle import QuoteError
from quotes.models import Quote
from tests.quotes.ending.test_life import dearer
from tests.quotes.given import a_quote, a_quoter, correct, stock_the_shelf, ticked
from tests.quotes.test_services import at_once

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def yes(quote: Quote, name: str = "W") -> partial[Quote]:
    return partial(services.accept_quote, quote=quote, name=name, confirmations=ticked(quote))


def test_of_twenty_acceptances_at_once_one_wins() -> None:
    quote = a_quote()
    said = at_once(*(yes(quote, f"number {n}") for n in range(20)))
    assert {getattr(one, "status", one) for one in said} == {"accepted"}
    assert Event.objects.filter(new_status="accepted").count() == 1
    assert Job.objects.filter(kind="draw_cut_sheet").count() == 1
    held = Quote.objects.get()
    assert held.accepted_by.startswith("number ")


def test_a_yes_and_a_new_version_at_once() -> None:
    quote, maud = a_quote(), a_quoter()
    dearer()
    said = at_once(yes(quote), partial(services.requote, quote.submission_id, maud, "dearer"))
    assert all(isinstance(one, Quote | QuoteError | Overtaken) for one in said), said
    old, *newer = Quote.objects.order_by("version")
    assert len(newer) == 1, "the desk's new price is made, before the yes or after it"
    assert (old.status, newer[0].status) == ("replaced", "issued")
    assert old.submission.status == "quoted"


def test_a_yes_and_a_correction_at_once() -> None:
    quote = a_quote()
    longer = {"hub_length": {"text": "3", "method": "caliper"}}
    said = at_once(yes(quote), partial(correct, quote.submission, **longer))
    assert not [one for one in said if isinstance(one, Exception) and not _is_told(one)], said
    old = Quote.objects.get(version=1)
    assert old.status in ("replaced", "accepted")
    if old.status == "accepted":  # the correction was told that somebody else came first
        assert any(isinstance(one, Overtaken) for one in said)
        assert old.submission.status == "accepted"
    else:
        assert old.submission.status in ("ready", "quoted")


def _is_told(error: Exception) -> bool:
    return isinstance(error, QuoteError | Overtaken)


def test_a_yes_on_the_last_evening_and_the_end_of_the_day() -> None:
    quote = a_quote()
    Quote.objects.update(valid_until=timezone.localdate() - timedelta(days=1))
    said = at_once(yes(quote), partial(services.lapse_quote, quote_id=quote.pk))
    assert sum(isinstance(one, QuoteError) for one in said) == 1, said
    quote.refresh_from_db()
    assert (quote.status, quote.submission.status) == ("lapsed", "lapsed")
