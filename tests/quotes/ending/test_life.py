"""A quote's life: made anew, void or standing after a change, told on the phone, called off."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core import mail
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from catalog.models import Part
from catalog.prices.services import NewPrice, set_prices
from intake.models import Event, Submission
from quotes import selectors, services
from quotes.domain.kept_price import again
from quotes.domain.lifecycle import NotConfirmed, QuoteError
from quotes.links.models import Mail
from quotes.making import order_of
from quotes.models import Quote
from tests.quotes.given import a_quote, a_quoter, correct, stock_the_shelf, ticked

pytestmark = pytest.mark.django_db
CONTACT = {"name": "Wilmot Tarpley", "phone": "+1 202 555 0100", "email": "wilmot@example.net"}
TOP = {"contact": CONTACT}


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def accepted(**changes: Any) -> Quote:
    quote = a_quote(**changes)
    return services.accept_quote(quote=quote, name="Wilmot", confirmations=ticked(quote))


def fresh(quote: Quote) -> Quote:
    return Quote.objects.select_related("submission", "sheet").get(pk=quote.pk)


def dearer() -> None:
    """Bars cost twice as much from today on."""
    today, percival = timezone.localdate(), User.objects.create_user("percival")
    bars = Part.objects.filter(kind="bar")
    new = [NewPrice(bar.code, bar.price * 2, today) for bar in bars if bar.price]
    set_prices(prices=new, by=percival, why="dearer metal")


# --- Kept with what it was priced from -------------------------------------------------


def test_a_quote_is_kept_with_what_it_was_priced_from() -> None:
    quote = a_quote()
    assert quote.inputs["choice"] == {"alloy": "", "options": []}
    assert again(quote.inputs).total == quote.total == Decimal("697.07")
    assert order_of(fresh(quote)).choice.alloy == ""


# --- Quoted again -----------------------------------------------------------------------


def test_the_same_price_and_choice_again_is_the_version_that_stands() -> None:
    quote = a_quote()
    assert services.requote(quote.submission_id) == quote
    assert services.requote(quote.submission_id, by=a_quoter(), why="asked") == quote
    assert Quote.objects.count() == 1


def test_a_price_that_changed_makes_a_new_version_in_the_open_ones_place() -> None:
    quote = a_quote()
    dearer()
    new = services.requote(quote.submission_id, by=a_quoter(), why="bars went up")
    old = fresh(quote)
    assert (old.status, old.ended_why) == ("replaced", "bars went up")
    assert (new.version, new.status, new.total > old.total) == (2, "issued", True)
    assert services.requote(quote.submission_id, by=None) == new


def test_the_customer_alone_cannot_undo_a_yes() -> None:
    quote = accepted()
    dearer()
    with pytest.raises(QuoteError, match="accepted already"):
        services.requote(quote.submission_id)
    assert fresh(quote).status == "accepted"


def test_a_price_change_after_acceptance_makes_it_void_and_says_why(do_jobs: Any) -> None:
    quote = accepted(top=TOP)
    do_jobs()
    mail.outbox.clear()
    dearer()
    new = services.requote(quote.submission_id, by=a_quoter(), why="bars went up")
    old = fresh(quote)
    assert old.is_void
    assert (old.ended_why, old.accepted_by) == ("bars went up", "Wilmot")
    assert (new.status, new.submission.status) == ("issued", "quoted")
    do_jobs()
    subjects = sorted(letter.subject for letter in mail.outbox)
    assert subjects == [
        f"No longer accepted: quote {old.number} for Biscuit Barrel",
        "Your quote for Biscuit Barrel",
    ]
    void = next(letter for letter in mail.outbox if "No longer" in letter.subject)
    assert "The version you accepted no longer holds" in void.body
    assert "bars went up" in void.body


# --- After a correction ------------------------------------------------------------------


def test_a_dimension_that_changed_after_acceptance_makes_it_void(do_jobs: Any) -> None:
    quote = accepted()
    correct(quote.submission, hub_length={"text": "3", "method": "caliper"})
    old = fresh(quote)
    assert old.is_void
    assert "when it was accepted, and is" in old.ended_why
    do_jobs()
    new = selectors.latest_quote(old.submission)
    assert new is not None
    assert (new.version, new.status) == (2, "issued")
    assert Submission.objects.get().status == "quoted"
    assert not Event.objects.filter(new_status="accepted", submission=old.submission)[1:]


def test_a_word_that_changes_nothing_leaves_the_acceptance_standing(do_jobs: Any) -> None:
    quote = accepted()
    submission = correct(quote.submission, rudder_clear={"text": "9"})
    do_jobs()
    kept = fresh(quote)
    assert (kept.status, kept.sheet.number) == ("accepted", 2)
    assert Submission.objects.get().status == "accepted"
    assert Quote.objects.count() == 1
    assert selectors.latest_quote(submission) == kept


# --- Told on the phone -------------------------------------------------------------------


def test_a_yes_on_the_phone_needs_every_statement_and_says_who_took_it() -> None:
    quote, maud = a_quote(), a_quoter()
    with pytest.raises(NotConfirmed):
        services.accept_by_phone(quote=quote, name="W", confirmations=["datum"], by=maud)
    done = services.accept_by_phone(
        quote=quote, name="Wilmot T", confirmations=ticked(quote), by=maud
    )
    assert done.accepted_from == "by phone, told to maud"
    assert Event.objects.get(new_status="accepted").by == maud


def test_the_counter_takes_down_a_yes_on_its_page(client: Client) -> None:
    quote = a_quote()
    client.force_login(a_quoter())
    address = reverse("desk-yes", args=[quote.submission.reference, 1])
    answer = client.post(address, {"confirm": ["datum"]})
    said = answer.content.decode()
    assert answer.status_code == 400
    assert "Read out each line" in said
    assert 'href="#told-name"' in said
    assert 'value="datum" id="confirm-datum" checked' in said
    client.post(address, {"name": "Wilmot", "confirm": ticked(quote)})
    assert fresh(quote).accepted_from == "by phone, told to maud"
    page = client.get(reverse("desk-issue", args=[quote.submission.reference])).content.decode()
    assert "accepted by Wilmot" in page
    assert "Cancel the order" in page


def test_a_no_on_the_phone_has_its_reason(client: Client) -> None:
    quote = a_quote()
    client.force_login(a_quoter())
    address = reverse("desk-no", args=[quote.submission.reference, 1])
    assert client.post(address, {"reason": " "}).status_code == 400
    client.post(address, {"reason": "sold her"})
    assert (fresh(quote).status, fresh(quote).declined_reason) == ("declined", "sold her")


def test_a_price_quoted_again_by_hand_needs_a_reason(client: Client) -> None:
    quote = a_quote()
    client.force_login(a_quoter())
    address = reverse("desk-requote", args=[quote.submission.reference])
    assert client.post(address, {}).status_code == 400
    answer = client.post(address, {"why": "asked"}, follow=True)
    assert "Nothing has changed" in answer.content.decode()
    dearer()
    client.post(address, {"why": "bars went up"})
    assert [one.status for one in Quote.objects.order_by("version")] == ["replaced", "issued"]


# --- Called off --------------------------------------------------------------------------


def test_an_order_is_called_off_with_a_reason_once() -> None:
    quote, maud = accepted(), a_quoter()
    with pytest.raises(NotConfirmed):
        services.cancel_order(quote=quote, reason=" ", by=maud)
    for _ in range(2):
        done = services.cancel_order(quote=quote, reason="sold her", by=maud)
    assert (done.status, done.ended_why, done.ended_by) == ("cancelled", "sold her", maud)
    assert Submission.objects.get().status == "withdrawn"
    assert Event.objects.filter(new_status="withdrawn").count() == 1


def test_only_an_order_can_be_called_off() -> None:
    with pytest.raises(QuoteError, match="no order to cancel"):
        services.cancel_order(quote=a_quote(), reason="sold her", by=a_quoter())


# --- Opened --------------------------------------------------------------------------------


def test_the_first_look_is_kept_and_only_the_customers(client: Client) -> None:
    quote = a_quote()
    status = reverse("status", args=[quote.submission.token])
    client.head(status)
    staff = Client()
    staff.force_login(a_quoter())
    staff.get(status)
    assert fresh(quote).opened_at is None
    client.get(reverse("quote-pdf", args=[quote.submission.token, 1]))
    first = fresh(quote).opened_at
    assert first is not None
    client.get(status)
    assert fresh(quote).opened_at == first


def test_the_page_says_by_whom_and_from_where_it_was_accepted(client: Client) -> None:
    quote = a_quote()
    address = reverse("accept", args=[quote.submission.token, 1])
    typed = {"name": "Wilmot Tarpley", "confirm": ticked(quote)}
    said = client.post(address, typed, follow=True, REMOTE_ADDR="203.0.113.7").content.decode()
    assert "Accepted by Wilmot Tarpley" in said
    assert "status page, 203.0.113.7" in said
    assert "leaves us" in said.casefold()


def test_an_earlier_version_stays_readable_and_a_void_one_is_said(client: Client) -> None:
    quote = accepted()
    dearer()
    services.requote(quote.submission_id, by=a_quoter(), why="bars went up")
    said = client.get(reverse("status", args=[quote.submission.token])).content.decode()
    assert "Version 1, which you accepted, holds no more" in said
    assert "bars went up" in said
    assert reverse("quote-pdf", args=[quote.submission.token, 1]) in said
    assert client.get(reverse("quote-pdf", args=[quote.submission.token, 1])).status_code == 200
    assert not Mail.objects.exists(), "no address, no mail"
