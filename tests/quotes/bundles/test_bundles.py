"""One quote for several boats of a yard: one freight, one total, each accepted by itself."""

from __future__ import annotations

import hashlib
import html
import io
from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.core import mail
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from pypdf import PdfReader

from intake.customers.merging.services import merge_customers
from intake.customers.models import Customer
from quotes import services as quoting
from quotes.bundles import selectors, services
from quotes.bundles.models import Bundle
from quotes.domain.lifecycle import QuoteError
from quotes.models import Quote
from tests.quotes.given import a_quote, a_quoter, correct, stock_the_shelf, ticked

pytestmark = pytest.mark.django_db
BOATS = ("Biscuit Barrel", "Fedora", "Otter")
CONTACT = {"name": "Wilmot Tarpley", "phone": "+1 202 555 0100", "email": "wilmot@example.net"}


@pytest.fixture(autouse=True)
def _shelf(settings: Any) -> None:
    stock_the_shelf()
    settings.SITE_URL = "https://desk.example.net"


def some_quotes(job: str = "PO 7741", boats: tuple[str, ...] = BOATS) -> list[Quote]:
    """Boats that differ in length, since numbers copied from boat to boat are asked about."""
    return [a_boat(boat, {"contact": CONTACT, "job": job}) for boat in boats]


def a_boat(boat: str, top: dict[str, Any]) -> Quote:
    longer = sorted([*BOATS, "Kestrel"]).index(boat)
    return a_quote(
        top=top,
        boat_name_and_station={"name": boat, "station": "single"},
        face_to_strut_aft={"text": f"{44 + longer} 1/8", "method": "rod"},
        old_length_face_to_thread={"text": str(49 + longer), "method": "tape"},
    )


def a_bundle(quotes: list[Quote]) -> Bundle:
    customer = quotes[0].submission.customer
    assert customer is not None
    keys = [one.pk for one in quotes]
    by = User.objects.filter(username="maud").first() or a_quoter("maud")
    return services.issue_bundle(customer=customer, job="PO 7741", keys=keys, by=by)


def typed_yes(*quotes: Quote, name: str = "Wilmot") -> dict[str, Any]:
    confirm = [f"{one.pk}.{short}" for one in quotes for short in ticked(one)]
    return {"name": name, "boat": [one.pk for one in quotes], "confirm": confirm}


def statuses() -> list[str]:
    return list(Quote.objects.order_by("pk").values_list("status", flat=True))


# --- Issued ------------------------------------------------------------------------------


def test_three_boats_have_one_freight_and_one_total() -> None:
    quotes = some_quotes()
    bundle = a_bundle(quotes)
    alone = sum(one.total for one in quotes)
    assert bundle.number == f"B-{timezone.localdate().year}-000001"
    assert bundle.freight == Decimal("41.00")
    assert bundle.goods == sum(one.goods for one in quotes)
    assert bundle.tax == sum(one.tax for one in quotes), "freight bears none at invented rates"
    assert bundle.total == alone - 2 * Decimal("41.00")
    assert selectors.bundle_of(quotes[1]) == bundle
    assert selectors.members(bundle) == quotes


def test_its_paper_has_a_line_for_each_boat_and_is_kept_with_its_hash() -> None:
    bundle = a_bundle(some_quotes())
    content = bytes(bundle.content or b"")
    assert bundle.sha256 == hashlib.sha256(content).hexdigest()
    pages = PdfReader(io.BytesIO(content)).pages
    said = "\n".join(page.extract_text() for page in pages)
    assert len(pages) == 1
    for words in (*BOATS, "49 in", "PO 7741", bundle.number, "once", "41.00", "tube of its own"):
        assert words in said, words


def test_the_same_boats_again_are_the_same_quote_and_others_its_next_version() -> None:
    quotes = some_quotes()
    first = a_bundle(quotes)
    assert a_bundle(list(reversed(quotes))) == first
    second = a_bundle(quotes[:2])
    assert (second.number, second.version, second.token) == (first.number, 2, first.token)
    assert selectors.by_token(first.token) == second
    assert selectors.bundle_of(quotes[2]) is None


def test_one_boat_is_no_bundle_and_a_strangers_is_none_of_it() -> None:
    quotes = some_quotes()
    with pytest.raises(QuoteError, match="two boats"):
        a_bundle(quotes[:1])
    other = some_quotes(job="another", boats=("Kestrel",))
    with pytest.raises(QuoteError, match="no longer holds"):
        a_bundle([*quotes, *other])


def test_it_goes_out_by_mail_once_with_its_paper(do_jobs: Any) -> None:
    quotes = some_quotes()
    bundle = a_bundle(quotes)
    a_bundle(quotes)
    do_jobs()
    (letter,) = [one for one in mail.outbox if bundle.number in one.subject]
    (paper,) = letter.attachments
    assert paper.content == bytes(bundle.content or b"")
    assert f"https://desk.example.net/b/{bundle.token}/" in letter.body
    assert f"/b/{bundle.token}/" in letter.alternatives[0].content


# --- Accepted ----------------------------------------------------------------------------


def test_two_are_accepted_and_the_third_waits(client: Client) -> None:
    quotes = some_quotes()
    bundle = a_bundle(quotes)
    address = reverse("bundle-accept", args=[bundle.token])
    answer = client.post(address, typed_yes(*quotes[:2]), follow=True, REMOTE_ADDR="203.0.113.7")
    assert answer.status_code == 200
    assert statuses() == ["accepted", "accepted", "issued"]
    assert Quote.objects.get(pk=quotes[0].pk).accepted_from == "bundle page, 203.0.113.7"
    said = html.unescape(answer.content.decode())
    assert "2 boats are accepted: 1" in said.replace("\N{NO-BREAK SPACE}", "")
    assert f"Accept {quotes[2].number} v1" in said
    client.post(address, typed_yes(quotes[2]))
    assert statuses() == ["accepted"] * 3


def test_a_statement_that_is_not_ticked_accepts_none_and_loses_nothing(client: Client) -> None:
    quotes = some_quotes()
    bundle = a_bundle(quotes)
    typed = typed_yes(*quotes[:2])
    typed["confirm"] = typed["confirm"][:-1]
    answer = client.post(reverse("bundle-accept", args=[bundle.token]), typed)
    said = html.unescape(answer.content.decode())
    assert answer.status_code == 400
    assert f'href="#boat-{quotes[1].pk}"' in said
    assert f'id="boat-{quotes[0].pk}" checked' in said
    assert f'id="boat-{quotes[2].pk}" checked' not in said
    assert statuses() == ["issued"] * 3
    nothing = client.post(reverse("bundle-accept", args=[bundle.token]), {"name": "W"})
    assert "Please choose the boats" in html.unescape(nothing.content.decode())


def test_one_that_can_no_longer_be_accepted_takes_the_others_back(client: Client) -> None:
    quotes = some_quotes()
    bundle = a_bundle(quotes)
    quoting.decline_quote(quote=quotes[1], reason="sold her")
    answer = client.post(reverse("bundle-accept", args=[bundle.token]), typed_yes(*quotes))
    assert answer.status_code == 409
    assert "Fedora: This quote was declined" in html.unescape(answer.content.decode())
    assert statuses() == ["issued", "declined", "issued"]


def test_a_boat_that_was_replaced_is_said_and_the_next_version_has_her(
    client: Client, do_jobs: Any
) -> None:
    quotes = some_quotes()
    bundle = a_bundle(quotes)
    correct(quotes[0].submission, hub_length={"text": "3", "method": "caliper"})
    do_jobs()
    page = client.get(reverse("bundle", args=[bundle.token])).content.decode()
    assert "holds no more" in page
    new = Quote.objects.get(submission=quotes[0].submission, status="issued")
    second = a_bundle([new, *quotes[1:]])
    assert second.version == 2
    page = client.get(reverse("bundle", args=[bundle.token])).content.decode()
    assert "version 2" in page
    assert "holds no more" not in page
    old_paper = client.get(reverse("bundle-pdf", args=[bundle.token, 1]))
    assert old_paper.content == bytes(bundle.content or b"")


# --- The private page --------------------------------------------------------------------


def test_its_page_is_private_looked_at_once_and_runs_out(client: Client, settings: Any) -> None:
    quotes = some_quotes()
    bundle = a_bundle(quotes)
    address = reverse("bundle", args=[bundle.token])
    client.head(address)
    assert Bundle.objects.get().opened_at is None
    answer = client.get(address)
    assert "no-store" in answer["Cache-Control"]
    assert "noindex" in answer["X-Robots-Tag"]
    assert Bundle.objects.get().opened_at
    assert all(Quote.objects.values_list("opened_at", flat=True))
    boat = client.get(reverse("bundle-boat-pdf", args=[bundle.token, 2]))
    assert boat.content == bytes(quotes[1].document.content)
    settings.LINK_DAYS = 1
    Bundle.objects.update(issued_at=timezone.now() - timedelta(days=2))
    gone = client.get(address)
    assert gone.status_code == 410
    assert "Fedora" not in gone.content.decode()


def test_guessing_a_link_is_slowed(client: Client, settings: Any) -> None:
    settings.LINK_THROTTLE = "2/hour"
    guesses = [client.get(reverse("bundle", args=[f"x{n}"])).status_code for n in range(4)]
    assert guesses == [404, 404, 429, 429]


# --- At the desk ---------------------------------------------------------------------------


def test_the_counter_picks_the_boats_of_one_order_number(client: Client) -> None:
    quotes = some_quotes()
    some_quotes(job="alone", boats=("Kestrel",))
    client.force_login(a_quoter("iolo"))
    pk = quotes[0].submission.customer_id
    said = client.get(reverse("bundles", args=[pk])).content.decode()
    assert "PO 7741" in said
    assert "Kestrel" not in said
    typed = {"job": "PO 7741", "quote": [one.pk for one in quotes]}
    answer = client.post(reverse("bundles", args=[pk]), typed, follow=True)
    page = answer.content.decode()
    assert "version 1, is issued" in page
    assert all(boat in page for boat in BOATS)
    before = Bundle.objects.get().token
    client.post(reverse("desk-bundle-link", args=[Bundle.objects.get().pk]))
    assert Bundle.objects.get().token != before
    wrong = client.post(reverse("bundles", args=[pk]), {"job": "PO 7741", "quote": []})
    assert wrong.status_code == 400


def test_a_merged_yard_is_followed(client: Client) -> None:
    quotes = some_quotes()
    odile = {"name": "Odile", "phone": "+1 202 555 0177"}
    other = a_boat("Kestrel", {"contact": odile, "job": "PO 7741"})
    keep, gone = quotes[0].submission.customer, other.submission.customer
    assert keep is not None
    assert gone is not None
    merge_customers(
        keep=Customer.objects.get(pk=keep.pk), gone=gone, by=a_quoter("percival"), why="same yard"
    )
    client.force_login(a_quoter("iolo"))
    answer = client.get(reverse("bundles", args=[gone.pk]), follow=True)
    assert answer.redirect_chain == [(reverse("bundles", args=[keep.pk]), 302)]
    assert "Kestrel" in answer.content.decode()
