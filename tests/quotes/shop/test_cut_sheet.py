"""The cut sheet of an accepted quote: drawn once, given only while what was accepted holds."""

from __future__ import annotations

import hashlib
import re
import threading
from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from pytest_django import DjangoAssertNumQueries

from intake.models import SheetVersion, Submission
from quotes import services as quotes
from quotes.models import CutSheet, Quote
from quotes.privacy.selectors import kept_of
from quotes.privacy.services import forget_requests
from quotes.shop import selectors, services
from tests.quotes.given import (
    a_metric_submission,
    a_quote,
    a_quoter,
    a_submission,
    an_accepted,
    correct,
    stock_the_shelf,
    ticked,
)
from tests.quotes.paper.papers import texts
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db
Jobs = Callable[[], int]


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


@pytest.fixture
def shop() -> Client:
    """Bronagh, at her bench."""
    return logged_in(a_member("bronagh", "machinist"))


def address(quote: Quote) -> str:
    return reverse("cut-sheet", args=[quote.submission.reference])


def said(client: Client, quote: Quote) -> str:
    response = client.get(address(quote))
    assert response["Content-Type"].startswith("text/html")
    return " ".join(response.content.decode().split())


def test_it_is_drawn_once_and_opened_as_often_as_anybody_likes(shop: Client, do_jobs: Jobs) -> None:
    quote = an_accepted(days_ago=0)
    do_jobs()
    kept = CutSheet.objects.get()
    first, second = shop.get(address(quote)), shop.get(address(quote))
    assert first["Content-Type"] == "application/pdf"
    assert first["Content-Disposition"].startswith("inline")
    assert "no-store" in first["Cache-Control"]
    assert first.content == second.content == bytes(kept.content)
    assert hashlib.sha256(first.content).hexdigest() == kept.sha256
    assert CutSheet.objects.count() == 1
    page = texts(first.content)[0]
    assert quote.number in page
    assert quote.submission.reference in page
    assert "697.07" not in page


def test_later_openings_give_the_same_bytes_whatever_the_program_draws_by_then(
    shop: Client, do_jobs: Jobs
) -> None:
    quote = an_accepted(days_ago=0)
    do_jobs()
    CutSheet.objects.update(content=b"%PDF as it was drawn then")
    assert shop.get(address(quote)).content == b"%PDF as it was drawn then"


def test_where_the_job_was_lost_a_button_draws_it(shop: Client) -> None:
    quote = an_accepted(days_ago=0)
    assert "Draw the cut sheet" in said(shop, quote)
    assert not CutSheet.objects.exists(), "looking draws nothing"
    assert shop.post(address(quote))["Location"] == address(quote)
    drawn = shop.get(address(quote)).content
    shop.post(address(quote))
    assert shop.get(address(quote)).content == drawn
    assert CutSheet.objects.count() == 1


def test_before_it_is_accepted_nothing_is_to_be_cut(shop: Client) -> None:
    assert "No quote of this request is accepted yet" in said(shop, a_quote())
    assert not CutSheet.objects.exists()


def test_a_declined_quote_has_none(shop: Client) -> None:
    quote = a_quote()
    quotes.decline_quote(quote=quote, reason="too dear")
    assert "No quote of this request is accepted yet" in said(shop, quote)


def test_a_dimension_that_changed_after_acceptance_is_said(shop: Client, do_jobs: Jobs) -> None:
    quote = an_accepted(days_ago=0)
    do_jobs()
    longer: dict[str, Any] = {
        "face_to_strut_aft": {"text": "45 1/8", "method": "rod"},
        "old_length_face_to_thread": {"text": "50", "method": "tape"},
    }
    correct(quote.submission, **longer)
    page = said(shop, quote)
    assert "A dimension changed after the quote was accepted: sheet version 1" in page
    assert "was 49 in · 1244.6 mm when it was accepted, and is 50 in · 1270 mm now" in page
    assert "Put a printed cut sheet of this shaft aside" in page
    assert shop.post(address(quote)).status_code == 200
    do_jobs()  # the desk's new quote goes out by itself
    assert Quote.objects.count() == 2
    assert "A dimension changed after the quote was accepted" in said(shop, quote)

    newer = Quote.objects.get(version=2)
    quotes.accept_quote(quote=newer, name="Wilmot Tarpley", confirmations=ticked(newer))
    do_jobs()
    assert "50.0000 in (1270.00 mm)" in texts(shop.get(address(quote)).content)[0]
    assert CutSheet.objects.count() == 2


def test_an_open_question_holds_the_saw(shop: Client, do_jobs: Jobs) -> None:
    quote = an_accepted(days_ago=0)
    do_jobs()
    Submission.objects.update(status="needs_call")
    assert "Cut nothing until the desk has the answer" in said(shop, quote)
    Submission.objects.update(status="withdrawn")
    assert "The request was withdrawn" in said(shop, quote)


def test_a_chain_that_is_off_refuses_the_paper_and_names_the_station(
    shop: Client, do_jobs: Jobs
) -> None:
    quote = an_accepted(days_ago=0)
    sheet = SheetVersion.objects.get()
    stack = {**sheet.outcome["stack"], "nose": "9.937500"}
    SheetVersion.objects.update(outcome={**sheet.outcome, "stack": stack})
    do_jobs()
    assert not CutSheet.objects.exists()
    page = said(shop, quote)
    assert "The stations do not add up. Tip of the cotter-pin nose" in page
    assert "Which station was changed last, and on whose word?" in page


def test_a_metric_end_is_shown_as_not_to_be_cut_from_and_not_kept(
    shop: Client, do_jobs: Jobs
) -> None:
    submission = a_metric_submission()
    maud = a_quoter("maud")
    quote = quotes.issue_quote(submission_id=submission.pk, by=maud, prices={"KEY": Decimal(9)})
    quotes.accept_quote(quote=quote, name="Odile Marsh", confirmations=ticked(quote))
    do_jobs()
    paper = shop.get(address(quote))
    assert "Not to be cut from: ring the desk" in texts(paper.content)[0]
    assert "not-to-be-cut-from" in paper["Content-Disposition"]
    assert not CutSheet.objects.exists()
    assert "version 1, not to be cut from; not known: the propeller end" in " ".join(
        shop.get(reverse("shop")).content.decode().split()
    )


def test_parts_alone_have_no_cut_sheet(shop: Client, do_jobs: Jobs) -> None:
    quote = an_accepted(days_ago=0, top={"wants": ["bearing"]})
    do_jobs()
    assert "No shaft is ordered here, only parts." in said(shop, quote)
    assert not CutSheet.objects.exists()


def test_who_may_not_see_quotes_is_refused_and_a_stranger_asked_to_log_in(client: Client) -> None:
    quote = an_accepted(days_ago=0)
    assert client.get(address(quote))["Location"].startswith(reverse("login"))
    counter = logged_in(a_member("maud", "counter"))
    assert counter.get(address(quote)).status_code == 403
    assert counter.get(reverse("shop")).status_code == 403


def test_no_such_reference(shop: Client) -> None:
    assert shop.get(reverse("cut-sheet", args=["FG-NOSUCH"])).status_code == 404


def test_the_managers_quote_page_leads_to_it(do_jobs: Jobs) -> None:
    quote = an_accepted(days_ago=0)
    manager = logged_in(a_member("percival", "manager"))
    page = manager.get(reverse("desk-issue", args=[quote.submission.reference])).content.decode()
    assert f'href="{address(quote)}"' in page
    waiting = a_quote(boat_name_and_station={"name": "Tern", "station": "single"})
    page = manager.get(reverse("desk-issue", args=[waiting.submission.reference])).content.decode()
    assert "cut-sheet.pdf" not in page


def test_erasing_a_customer_takes_the_page_with_the_name(do_jobs: Jobs) -> None:
    quote = an_accepted(days_ago=0)
    do_jobs()
    _rows, files = kept_of([quote.submission_id])
    assert f"papers/{quote.number}-v1-cut-sheet.pdf" in files
    forget_requests([quote.submission_id])
    assert not CutSheet.objects.exists()


def test_opening_takes_a_constant_number_of_queries(
    shop: Client, do_jobs: Jobs, django_assert_max_num_queries: DjangoAssertNumQueries
) -> None:
    quote = an_accepted(days_ago=0)
    do_jobs()
    with django_assert_max_num_queries(12):
        shop.get(address(quote))


# --- The list -----------------------------------------------------------------------------


def names(page: str) -> list[str]:
    return re.findall(r'scope="row"><a [^>]*>([^<]+)</a>', page)


def boats(*ages: int) -> list[Quote]:
    return [
        an_accepted(
            days_ago=age, boat_name_and_station={"name": f"Tern {age}", "station": "single"}
        )
        for age in ages
    ]


def test_the_longest_accepted_comes_first(shop: Client, do_jobs: Jobs) -> None:
    boats(1, 9, 5)
    do_jobs()
    page = shop.get(reverse("shop")).content.decode()
    assert names(page) == ["Tern 9", "Tern 5", "Tern 1"]
    assert "49 in · 1244.6 mm" in page
    assert page.count("version 1, ready<") == 3


def test_what_is_not_to_be_made_is_not_on_it(shop: Client) -> None:
    held = boats(3)[0]
    an_accepted(
        days_ago=2,
        top={"wants": ["bearing"]},
        boat_name_and_station={"name": "Parts", "station": "single"},
    )
    a_quote(boat_name_and_station={"name": "Waiting", "station": "single"})
    Submission.objects.filter(pk=held.submission_id).update(status="needs_call")
    assert "No accepted shaft waits to be made." in shop.get(reverse("shop")).content.decode()


def test_page_by_page_none_is_lost_and_none_comes_twice(shop: Client) -> None:
    made = boats(7, 6, 5, 4)
    Quote.objects.filter(pk__in=[made[1].pk, made[2].pk]).update(accepted_at=made[1].accepted_at)
    seen: list[int] = []
    after: int | None = None
    while True:
        page = selectors.shafts_to_make(after, size=1)
        seen += [quote.pk for quote in page.quotes]
        after = page.after
        if after is None:
            break
    assert seen == [quote.pk for quote in made]
    further = shop.get(reverse("shop"), {"after": str(made[1].pk)}).content.decode()
    assert names(further) == ["Tern 5", "Tern 4"]
    for nonsense in ("x", "-1", "9" * 30, "99999999"):
        assert shop.get(reverse("shop"), {"after": nonsense}).status_code == 200


def test_the_list_takes_as_many_queries_for_one_as_for_many(
    shop: Client, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    boats(1)
    with CaptureQueriesContext(connection) as one:
        shop.get(reverse("shop"))
    boats(2, 3, 4)
    with django_assert_num_queries(len(one)):
        shop.get(reverse("shop"))


# --- Two at once --------------------------------------------------------------------------


@pytest.mark.django_db(transaction=True)
def test_two_who_draw_at_once_get_one_page() -> None:
    quote = an_accepted(days_ago=0)
    ready, drawn, wrong = threading.Barrier(2), [], []

    def draw() -> None:
        try:
            finish = services.prepare_cut_sheet(quote_id=quote.pk)
            assert finish is not None
            ready.wait(timeout=20)
            drawn.append(finish().pk)
        except Exception as error:  # told below, in the test's own thread
            wrong.append(error)
        finally:
            connection.close()

    threads = [threading.Thread(target=draw) for _ in range(2)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert wrong == []
    assert drawn[0] == drawn[1]
    assert CutSheet.objects.count() == 1


@pytest.mark.django_db(transaction=True)
def test_a_sheet_that_changes_while_it_is_drawn_keeps_the_page_out() -> None:
    quote = an_accepted(days_ago=0)
    finish = services.prepare_cut_sheet(quote_id=quote.pk)
    assert finish is not None
    correct(quote.submission, hub_length={"text": "3", "method": "caliper"})
    with pytest.raises(quotes.Overtaken):
        finish()
    assert not CutSheet.objects.exists()


def test_nothing_is_written_for_a_submission_that_asks_for_nothing_more() -> None:
    a_submission()
    assert services.draw_cut_sheet(quote_id=1) is None
