"""A shaft that sticks out: sent, asked after a week, told, opened as a case, shortened, closed."""

from __future__ import annotations

import html
from collections.abc import Callable
from datetime import timedelta

import pytest
from django.core import mail
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from intake.models import ShaftFitted
from quotes.cases.models import Case
from quotes.models import Mail
from quotes.outcomes.handlers import ask_whether_it_fitted
from quotes.outcomes.selectors import asked_now, expected_of
from quotes.sending.models import Shipment
from tests.quotes.given import stock_the_shelf
from tests.quotes.outcomes.given import a_sent
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db
WITH_MAIL = {
    "contact": {
        "name": "Wilmot Tarpley", "phone": "+1 202 555 0100", "email": "w@example.org",
        "role": "owner",
    }
}  # fmt: skip


def said(client: Client, address: str) -> str:
    return html.unescape(client.get(address).content.decode())


def test_a_shaft_that_is_too_long_comes_back_and_is_shortened(
    client: Client, do_jobs: Callable[[], int]
) -> None:
    stock_the_shelf()
    quote = a_sent(days_ago=7, top=WITH_MAIL)
    token, reference = quote.submission.token, quote.submission.reference

    # A week after it left us the customer is asked, once however often the sweep comes by.
    for _ in range(2):
        ask_whether_it_fitted()
        while do_jobs():
            pass
    asked = [one for one in mail.outbox if "fit?" in one.subject]
    assert [one.to for one in asked] == [["w@example.org"]]
    assert f"/s/{token}/#fit" in asked[0].body

    # No, and a gap of 1 3/8: the case opens by itself.
    told = {"fitted": "no", "gap": "1 3/8", "different": "the hub stands far out"}
    assert client.post(reverse("fit", args=[token]), told).status_code == 302
    case = Case.objects.get()
    assert (case.number, case.opened_as) == (f"C-{timezone.localdate().year}-0001", "no")
    assert ShaftFitted.objects.get().misfit

    maud = logged_in(a_member("maud"))
    page = said(maud, reverse("case", args=[case.number]))
    assert "Shorten by 5/8 in: the gap becomes 3/4 in, inside the band of 1/2 in to 1 in." in page
    assert "the hub stands far out" in page
    assert case.number in said(maud, reverse("cases") + "?show=cause")

    def step(do: str, **typed: str) -> str:
        answer = maud.post(reverse("case", args=[case.number]), {"do": do, **typed}, follow=True)
        return html.unescape(answer.content.decode())

    # It cannot be closed before it is known why.
    refused = step("without", why_without="she likes it so")
    assert "Code the cause first" in refused
    coded = step(
        "cause", cause="D-CBACK", also_1="R-WHOLE", evidence="she measured it with us on the line",
        found_by="Wilmot Tarpley", found="at_fitting", born="measuring",
    )  # fmt: skip
    assert "Datum, not our numbers: we shorten at cost." in coded
    assert case.number not in said(maud, reverse("cases") + "?show=cause")

    # Shorten, the customer pays; the shaft must be here before anything is cut.
    agreed = step(
        "agree", kind="shorten", by_length="5/8", payer="customer", why="as the terms say",
        comes_back="on",
    )  # fmt: skip
    assert "Take 5/8 in · 15.9 mm off the coupling end." in agreed
    assert "48 3/8 in · 1228.7 mm from face to thread end" in agreed
    assert "The shaft is not here yet" in step("begin")
    assert "waiting for the shaft" in said(
        logged_in(a_member("bronagh", "machinist")), "/shop/rework/"
    )
    part = case.own_parts.get()
    arrival = {
        "do": "receive", "part": str(part.pk), "day": f"{timezone.localdate():%Y-%m-%d}",
        "sender": "Wilmot Tarpley", "condition": "straight, thread clean", "place": "rack 3",
    }  # fmt: skip
    maud.post(reverse("own-parts", args=[reference]), arrival)
    assert "Work has begun." in step("begin")

    # What it costs is booked to the cause, and then it is closed.
    assert "180.00" in step("usual")
    assert "Done; the case is closed." in step("finish", said="face to thread end 48 3/8 measured")
    case.refresh_from_db()
    assert (case.state, case.by_nm, case.cause) == ("done", 15_875_000, "D-CBACK")
    assert sum(line.amount for line in case.costs.all()) == 180
    assert all(line.invented for line in case.costs.all())

    # After a month they are asked again, and a fair gap is now what is expected.
    Shipment.objects.update(day=timezone.localdate() - timedelta(days=30))
    assert asked_now(quote) == 30
    foreseen = expected_of(quote)
    assert foreseen is not None
    assert foreseen.gap.inch_text == "3/4"
    client.post(reverse("fit", args=[token]), {"fitted": "yes", "gap": "3/4"})
    assert Case.objects.count() == 1
    assert Mail.objects.filter(kind="fitted_7").count() == 1
