"""Two sweeps at once: one waits for the other, and no month is forgotten."""

from __future__ import annotations

import threading
from collections.abc import Callable

import pytest
from django.db import connection

from quotes.domain.insight.measures import Measure, total
from quotes.insight import selectors
from quotes.insight.asked import Asked
from quotes.insight.counting.services import count_months, month_is_behind
from quotes.insight.gathering import services
from quotes.insight.keeping.services import count_everything
from quotes.insight.models import RequestFact
from quotes.models import Quote
from quotes.outcomes.services import tell_outcome
from tests.quotes.given import stock_the_shelf
from tests.quotes.outcomes.given import a_sent

pytestmark = pytest.mark.django_db(transaction=True)
_NEVER = 10.0  # seconds after which a thread is given up


def gathering(quote: Quote, errors: list[Exception]) -> threading.Thread:
    """A second process that makes the facts of one request anew."""

    def run() -> None:
        try:
            services.gather([quote.submission_id])
        except Exception as error:
            errors.append(error)
        finally:
            connection.close()

    return threading.Thread(target=run)


def held_after(
    monkeypatch: pytest.MonkeyPatch, name: str
) -> tuple[threading.Event, threading.Event]:
    """The first that comes through a step stays there: (it is there, let it go on)."""
    there, go = threading.Event(), threading.Event()
    step: Callable[[object], None] = getattr(services, name)

    def slowly(what: object) -> None:
        step(what)
        if not there.is_set():
            there.set()
            go.wait(_NEVER)

    monkeypatch.setattr(services, name, slowly)
    return there, go


def known() -> int:
    asked = Asked("2000-01", "2100-12")
    return total(selectors.counts(asked, [Measure.KNOWN]), Measure.KNOWN).n


def test_a_month_counted_while_its_facts_change_is_counted_again(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    if connection.vendor != "postgresql":
        pytest.skip("one writes at a time there")
    stock_the_shelf()
    quote = a_sent(days_ago=9)
    count_everything()
    tell_outcome(quote=quote, after_days=7, fitted="yes", gap="3/4")
    month_is_behind(RequestFact.objects.values_list("shipped_month", flat=True))
    there, go = held_after(monkeypatch, "month_is_behind")
    errors: list[Exception] = []
    other = gathering(quote, errors)
    other.start()
    assert there.wait(_NEVER)
    threading.Timer(0.3, go.set).start()
    count_months()
    go.set()
    other.join()
    count_months()
    assert (errors, known()) == ([], 1)


def test_two_make_the_same_facts_at_once(monkeypatch: pytest.MonkeyPatch) -> None:
    if connection.vendor != "postgresql":
        pytest.skip("one writes at a time there")
    stock_the_shelf()
    quote = a_sent(days_ago=9)
    count_everything()
    there, go = held_after(monkeypatch, "_store")
    errors: list[Exception] = []
    first, second = gathering(quote, errors), gathering(quote, errors)
    first.start()
    assert there.wait(_NEVER)
    second.start()
    threading.Timer(0.3, go.set).start()
    first.join()
    second.join()
    assert (errors, RequestFact.objects.count()) == ([], 1)
