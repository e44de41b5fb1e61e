"""What may be done with a quote, and what happens when two do it at once."""

from __future__ import annotations

import hashlib
import threading
from collections.abc import Callable
from datetime import timedelta
from decimal import Decimal

import pytest
from django.db import connection
from django.utils import timezone

from intake import jobs
from intake.models import Event, Job, Submission
from intake.services import close
from quotes import selectors, services
from quotes.domain.lifecycle import NotConfirmed, QuoteError
from quotes.models import Quote, QuoteDocument
from tests.quotes.given import (
    a_metric_submission,
    a_quote,
    a_quoter,
    a_submission,
    correct,
    stock_the_shelf,
    ticked,
)


@pytest.fixture
def shelf(db: None) -> None:
    stock_the_shelf()


@pytest.mark.usefixtures("shelf")
class TestIssue:
    def test_the_worked_example_comes_out_of_the_demo_catalogue(self) -> None:
        quote = a_quote()
        assert (quote.total, quote.goods, quote.freight, quote.tax) == (
            Decimal("697.07"),
            Decimal("613.15"),
            Decimal("41.00"),
            Decimal("42.92"),
        )
        assert quote.number == f"Q-{timezone.localdate().year}-000001"
        assert (quote.version, quote.status) == (1, "issued")
        assert quote.valid_until == timezone.localdate() + timedelta(days=30)

    def test_a_released_sheet_is_quoted_by_itself(self, do_jobs: Callable[[], int]) -> None:
        submission = a_submission()
        assert submission.status == "ready"
        do_jobs()
        quote = Quote.objects.get()
        assert quote.status == "issued"
        submission.refresh_from_db()
        assert submission.status == "quoted"
        assert Event.objects.filter(new_status="quoted").count() == 1

    def test_the_paper_is_kept_with_its_hash(self) -> None:
        paper = a_quote().document
        assert bytes(paper.content).startswith(b"%PDF")
        assert paper.sha256 == hashlib.sha256(bytes(paper.content)).hexdigest()

    def test_asking_again_gives_the_same_quote(self, do_jobs: Callable[[], int]) -> None:
        quote = a_quote()
        do_jobs()
        assert services.issue_quote(submission_id=quote.submission_id) == quote
        assert services.issue_quote(submission_id=quote.submission_id, by=a_quoter()) == quote
        assert Quote.objects.count() == QuoteDocument.objects.count() == 1

    def test_numbers_count_up(self) -> None:
        somebody = {"contact": {"name": "Odile Marsh", "phone": "+1 202 555 0177"}}
        first, second = a_quote(), a_quote(top=somebody)
        assert int(second.number[-6:]) == int(first.number[-6:]) + 1

    def test_a_question_that_is_open_holds_the_quote(self, do_jobs: Callable[[], int]) -> None:
        asked = a_submission(face_to_strut_aft={"text": "45 1/8", "method": "rod"})
        assert asked.status == "needs_call"
        do_jobs()
        with pytest.raises(services.MoveError):
            services.issue_quote(submission_id=asked.pk)
        assert services.prepare_quote(submission_id=asked.pk) is None
        assert not Quote.objects.exists()

    def test_a_missing_submission_is_no_work(self) -> None:
        assert services.prepare_quote(submission_id=99) is None
        with pytest.raises(Submission.DoesNotExist):
            services.issue_quote(submission_id=99)

    def test_a_new_sheet_puts_the_older_quote_aside(self, do_jobs: Callable[[], int]) -> None:
        old = a_quote()
        submission = correct(old.submission, rudder_clear={"text": "9"})
        old.refresh_from_db()
        assert old.status == "replaced"
        do_jobs()
        new = selectors.latest_quote(submission)
        assert new is not None
        assert (new.version, new.status) == (2, "issued")
        assert new.number != old.number

    def test_a_sheet_replaced_while_the_quote_was_made_is_not_quoted(self) -> None:
        submission = a_submission()
        finish = services.prepare_quote(submission_id=submission.pk)
        assert finish is not None
        correct(submission, rudder_clear={"text": "9"})
        with pytest.raises(services.Overtaken):
            finish()
        assert not Quote.objects.exists()


@pytest.mark.usefixtures("shelf")
class TestDraft:
    def test_a_missing_price_leaves_a_draft_for_staff(self, do_jobs: Callable[[], int]) -> None:
        submission = a_metric_submission()
        assert submission.status == "ready", submission.current.outcome["findings"]
        do_jobs()
        quote = Quote.objects.get()
        assert quote.status == "drafted"
        assert [missing["code"] for missing in quote.missing] == ["KEY"]
        submission.refresh_from_db()
        assert submission.status == "ready"
        assert not QuoteDocument.objects.exists()

    def test_staff_complete_it_by_hand(self, do_jobs: Callable[[], int]) -> None:
        submission = a_metric_submission()
        do_jobs()
        maud = a_quoter()
        quote = services.issue_quote(
            submission_id=submission.pk, by=maud, prices={"KEY": Decimal("11.50")}
        )
        assert (quote.status, quote.version, quote.issued_by) == ("issued", 1, maud)
        line = next(line for line in quote.lines if line["code"] == "KEY")
        assert (line["amount"], line["how"]) == ("23.00", "2 each × 11.50, priced by hand")
        assert Quote.objects.count() == 1

    def test_a_draft_cannot_be_accepted(self, do_jobs: Callable[[], int]) -> None:
        a_metric_submission()
        do_jobs()
        quote = Quote.objects.get()
        with pytest.raises(QuoteError, match="not finished"):
            services.accept_quote(quote=quote, name="W", confirmations=ticked(quote))


@pytest.mark.usefixtures("shelf")
class TestAnswer:
    def test_accepting_with_everything_confirmed(self) -> None:
        quote = a_quote()
        now = services.accept_quote(quote=quote, name=" Wilmot  T ", confirmations=ticked(quote))
        assert (now.status, now.accepted_by, now.submission.status) == (
            "accepted",
            "Wilmot T",
            "accepted",
        )
        assert now.confirmed == ticked(quote)

    @pytest.mark.parametrize("left_out", ["datum", "nose", "drawing", "name"])
    def test_each_confirmation_is_needed(self, left_out: str) -> None:
        quote = a_quote()
        name = "" if left_out == "name" else "W"
        with pytest.raises(NotConfirmed) as missing:
            services.accept_quote(
                quote=quote, name=name, confirmations=[t for t in ticked(quote) if t != left_out]
            )
        assert set(missing.value.errors) == {left_out}
        quote.refresh_from_db()
        assert quote.status == "issued"

    def test_a_second_click_changes_nothing(self) -> None:
        quote = a_quote()
        for name in ("first", "second"):
            services.accept_quote(quote=quote, name=name, confirmations=ticked(quote))
        quote.refresh_from_db()
        assert quote.accepted_by == "first"
        assert Event.objects.filter(new_status="accepted").count() == 1

    def test_declining_says_why(self) -> None:
        quote = a_quote()
        for _ in range(2):
            now = services.decline_quote(quote=quote, reason="  price ")
        assert (now.status, now.declined_reason) == ("declined", "price")
        assert Event.objects.filter(new_status="declined").count() == 1

    def test_declining_needs_a_word(self) -> None:
        with pytest.raises(NotConfirmed):
            services.decline_quote(quote=a_quote(), reason="  ")

    def test_an_old_version_cannot_be_accepted(self) -> None:
        old = a_quote()
        correct(old.submission, rudder_clear={"text": "9"})
        with pytest.raises(QuoteError, match="newer version"):
            services.accept_quote(quote=old, name="W", confirmations=ticked(old))

    def test_an_expired_quote_cannot_be_accepted(self) -> None:
        quote = a_quote()
        Quote.objects.update(valid_until=timezone.localdate() - timedelta(days=1))
        with pytest.raises(QuoteError, match="run out"):
            services.accept_quote(quote=quote, name="W", confirmations=ticked(quote))

    def test_the_last_day_still_counts(self) -> None:
        quote = a_quote()
        Quote.objects.update(valid_until=timezone.localdate())
        done = services.accept_quote(quote=quote, name="W", confirmations=ticked(quote))
        assert done.status == "accepted"

    def test_yes_after_no_is_a_call(self) -> None:
        quote = a_quote()
        services.decline_quote(quote=quote, reason="price")
        with pytest.raises(QuoteError, match="declined already"):
            services.accept_quote(quote=quote, name="W", confirmations=ticked(quote))

    def test_a_closed_request_cannot_be_accepted(self) -> None:
        quote = a_quote()
        close(submission=Submission.objects.get(), reason="sold the boat")
        with pytest.raises(QuoteError):
            services.accept_quote(quote=quote, name="W", confirmations=ticked(quote))
        quote.refresh_from_db()
        assert quote.status == "issued"

    def test_staff_quote_again_what_was_declined(self) -> None:
        quote = a_quote()
        services.decline_quote(quote=quote, reason="price")
        again = services.issue_quote(submission_id=quote.submission_id, by=a_quoter())
        assert (again.version, again.status) == (2, "issued")


@pytest.mark.usefixtures("shelf")
class TestLapse:
    def test_it_is_looked_at_the_day_after(self) -> None:
        quote = a_quote()
        job = Job.objects.get(kind="lapse_quote")
        assert quote.valid_until is not None
        assert timezone.localdate(job.due) == quote.valid_until + timedelta(days=1)

    def test_without_an_answer_it_lapses(self) -> None:
        quote = a_quote()
        services.lapse_quote(quote_id=quote.pk)
        quote.refresh_from_db()
        assert quote.status == "issued"
        Quote.objects.update(valid_until=timezone.localdate() - timedelta(days=1))
        Job.objects.filter(kind="lapse_quote").update(due=timezone.now())
        jobs.drain()
        quote.refresh_from_db()
        assert (quote.status, quote.submission.status) == ("lapsed", "lapsed")

    def test_what_was_answered_stays(self) -> None:
        quote = a_quote()
        services.accept_quote(quote=quote, name="W", confirmations=ticked(quote))
        Quote.objects.update(valid_until=timezone.localdate() - timedelta(days=1))
        services.lapse_quote(quote_id=quote.pk)
        quote.refresh_from_db()
        assert quote.status == "accepted"


def at_once(*work: Callable[[], object]) -> list[object]:
    """Run all of it in threads that start together; what each returned or raised."""
    gate, said = threading.Barrier(len(work)), []

    def run(one: Callable[[], object]) -> None:
        try:
            gate.wait()
            said.append(one())
        except Exception as error:
            said.append(error)
        finally:
            connection.close()

    threads = [threading.Thread(target=run, args=(one,)) for one in work]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return said


@pytest.mark.django_db(transaction=True)
class TestAtOnce:
    @pytest.fixture(autouse=True)
    def _shelf(self) -> None:
        stock_the_shelf()

    def test_two_issue_one_quote_is_made(self) -> None:
        submission = a_submission()
        issue = lambda: services.issue_quote(submission_id=submission.pk)  # noqa: E731
        said = at_once(issue, issue, issue)
        assert {getattr(one, "pk", one) for one in said} == {Quote.objects.get().pk}
        assert QuoteDocument.objects.count() == 1

    def test_yes_and_no_one_of_them_holds(self) -> None:
        quote = a_quote()
        said = at_once(
            lambda: services.accept_quote(quote=quote, name="W", confirmations=ticked(quote)),
            lambda: services.decline_quote(quote=quote, reason="price"),
        )
        assert sum(isinstance(one, QuoteError) for one in said) == 1, said
        quote.refresh_from_db()
        assert quote.submission.status == quote.status

    def test_two_clicks_on_accept_are_one(self) -> None:
        quote = a_quote()
        accept = lambda: services.accept_quote(  # noqa: E731
            quote=quote, name="W", confirmations=ticked(quote)
        )
        said = at_once(accept, accept)
        assert [getattr(one, "status", one) for one in said] == ["accepted", "accepted"]
        assert Event.objects.filter(new_status="accepted").count() == 1
