"""Two at the same moment: one choice, one new version; a yes or a choice, never half of each."""

from __future__ import annotations

import pytest

from quotes import selectors
from quotes.choosing.models import Choice as ChoiceRow
from quotes.choosing.selectors import choice_of
from quotes.domain.kept_choice import kept_choice
from quotes.domain.lifecycle import QuoteStatus
from quotes.models import Quote
from quotes.services import accept_quote
from tests.quotes.choosing.given import an_open_quote, chosen
from tests.quotes.given import stock_the_shelf, ticked
from tests.quotes.test_services import at_once

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def test_a_double_click_makes_one_version() -> None:
    quote = an_open_quote()
    click = lambda: chosen(quote, "", "fit")  # noqa: E731
    at_once(click, click, click)
    assert ChoiceRow.objects.count() == 1
    assert Quote.objects.count() == 2
    (standing,) = Quote.objects.filter(status=QuoteStatus.ISSUED)
    assert kept_choice(standing.inputs).options == {"fit"}


def test_a_yes_and_a_choice_end_with_one_of_them() -> None:
    """What stands is what was agreed on, or the new version that waits for a yes."""
    quote = an_open_quote()
    yes = lambda: accept_quote(  # noqa: E731
        quote=quote, name="Wilmot Tarpley", confirmations=ticked(quote)
    )
    at_once(yes, lambda: chosen(quote, "", "fit"))
    latest = selectors.latest_quote(quote.submission)
    assert latest is not None
    assert choice_of(quote.submission_id) == kept_choice(latest.inputs)
    accepted = Quote.objects.filter(status=QuoteStatus.ACCEPTED)
    if accepted:
        assert list(accepted) == [quote] == [latest]
    else:
        assert (latest.version, latest.status) == (2, QuoteStatus.ISSUED)
