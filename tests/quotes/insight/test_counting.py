"""From what the desk does to facts and counts, through the very services; counted by hand."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal

import pytest
from django.contrib.auth.models import User
from django.utils import timezone

from intake.calling.services import record_call
from intake.models import CallRecord, Submission
from intake.services import receive_submission
from quotes.cases import services as cases
from quotes.cases.services import Cost
from quotes.domain.insight.measures import Measure, total
from quotes.insight import selectors
from quotes.insight.asked import Asked
from quotes.insight.gathering.services import gather
from quotes.insight.keeping.services import count_everything, keep_up
from quotes.insight.models import Cell, FlagFact, MismatchFact, MonthToCount, RequestFact
from quotes.outcomes.services import tell_outcome
from tests.given import a_body
from tests.quotes.given import a_quoter, a_submission, stock_the_shelf
from tests.quotes.insight.given import a_shipped, counted
from tests.quotes.outcomes.given import a_sent

pytestmark = pytest.mark.django_db
ALL = Asked("2000-01", "2100-12")


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def n(measure: Measure, key: str | None = None) -> int:
    return total(selectors.counts(ALL, [measure]), measure, key=key).n


def iolo() -> User:
    """The one at the counter."""
    return User.objects.filter(username="iolo").first() or a_quoter("iolo")


def held() -> Submission:
    """An inch too short to the strut: the boat and the old shaft do not agree."""
    return receive_submission(body=a_body(face_to_strut_aft={"text": "43 1/8", "method": "rod"}))


def corrected(submission: Submission) -> Submission:
    return record_call(
        submission=submission, sheet_number=1, by=iolo(), check_id="route-boat-vs-old",
        outcome="corrected", said_by="Wilmot Tarpley", cause="R-BURN-X",
        answers={"face_to_strut_aft": {"text": "44 1/8", "method": "rod"}},
        answer="face_to_strut_aft",
    )  # fmt: skip


def test_a_flag_was_right_where_the_number_then_moved() -> None:
    submission = corrected(held())
    count_everything()
    flag = FlagFact.objects.get(fact=submission.pk, check_id="route-boat-vs-old")
    assert (flag.asked, flag.was_right) == (True, True)
    one = MismatchFact.objects.get()
    assert (one.cause, one.found, one.born, one.answer) == (
        "R-BURN-X", "before_quote", "measuring", "face_to_strut_aft",
    )  # fmt: skip
    assert one.cost == Decimal("12.00")  # one call
    assert RequestFact.objects.get(pk=submission.pk).caught == "call"
    assert (n(Measure.CALL), n(Measure.CAUGHT, "call"), n(Measure.WRONG_FLAGGED)) == (1, 1, 1)
    assert n(Measure.BORN, "face_to_strut_aft") == 1


def test_a_number_that_was_confirmed_was_flagged_wrongly() -> None:
    submission = held()
    record_call(
        submission=submission, sheet_number=1, by=iolo(), check_id="route-boat-vs-old",
        outcome="confirmed", said_by="Wilmot Tarpley", answer="face_to_strut_aft",
    )  # fmt: skip
    count_everything()
    flag = FlagFact.objects.get(fact=submission.pk, check_id="route-boat-vs-old")
    assert flag.was_right is False
    assert MismatchFact.objects.count() == 0


def test_a_shaft_that_fits_counts_once_it_was_told() -> None:
    quote = a_sent(days_ago=9)
    count_everything()
    assert (n(Measure.SHIPPED), n(Measure.KNOWN), n(Measure.RIGHT)) == (1, 0, 0)
    tell_outcome(quote=quote, after_days=7, fitted="yes", gap="3/4")
    assert keep_up() == 1
    assert (n(Measure.SHIPPED), n(Measure.KNOWN), n(Measure.RIGHT)) == (1, 1, 1)
    assert n(Measure.Z) == 1


def test_a_misfit_costs_what_was_booked_on_its_case() -> None:
    quote = a_sent(days_ago=9)
    tell_outcome(quote=quote, after_days=7, fitted="no", gap="1 3/8", different="sticks out")
    count_everything()
    case = quote.cases.get()
    cases.book_cost(case=case, cost=Cost("labour", "put right", Decimal("180.00")), once="1",
                    by=iolo())  # fmt: skip
    keep_up()
    one = MismatchFact.objects.get()
    assert (one.cause, one.found, one.cost, one.case) == (
        "X",
        "at_fitting",
        Decimal("180.00"),
        case,
    )
    fact = RequestFact.objects.get(pk=quote.submission_id)
    assert (fact.fits, fact.caught) == (False, "boat")
    spent = total(selectors.counts(ALL, [Measure.MISMATCH]), Measure.MISMATCH, key="X|at_fitting")
    assert spent.amount == 18000


def test_counting_once_more_changes_nothing() -> None:
    corrected(held())
    tell_outcome(quote=a_sent(days_ago=9), after_days=7, fitted="yes", gap="3/4")
    count_everything()
    before = _everything()
    count_everything()
    gather(Submission.objects.values_list("pk", flat=True))
    assert keep_up() == 0  # nothing new happened; what was behind is counted
    assert _everything() == before
    assert not MonthToCount.objects.exists()


def _everything() -> list[list[tuple[object, ...]]]:
    names = [f.name for f in Cell._meta.concrete_fields if not f.primary_key]
    facts = [f.name for f in RequestFact._meta.concrete_fields]
    return [
        sorted(Cell.objects.values_list(*names)),
        sorted(map(repr, RequestFact.objects.values_list(*facts))),  # type: ignore[list-item]
    ]


def test_what_came_back_is_marked_across_requests() -> None:
    first = corrected(held())
    weeks_ago = timezone.now() - timedelta(days=40)
    CallRecord.objects.filter(submission=first).update(at=weeks_ago)
    count_everything()
    boat = {"name": "Thimble", "station": "single"}
    short = {"text": "43 1/8", "method": "rod"}
    body = a_body(face_to_strut_aft=short, boat_name_and_station=boat)
    second = corrected(receive_submission(body=body))
    keep_up()
    assert MismatchFact.objects.get(fact=first.pk).again == ""
    assert MismatchFact.objects.get(fact=second.pk).again == "cq"  # customer and question
    assert n(Measure.AGAIN, "R-BURN-X") == 1


def test_a_request_is_counted_with_a_fixed_number_of_queries(
    django_assert_max_num_queries: object,
) -> None:
    keys = [a_submission(boat_name_and_station={"name": f"Boat {at}", "station": "single"}).pk
            for at in range(6)]  # fmt: skip
    with django_assert_max_num_queries(32):  # type: ignore[operator]
        gather(keys)
    assert RequestFact.objects.count() == 6


def test_shares_by_filter_add_up_to_the_whole() -> None:
    for method in ("rod", "tape", ""):
        a_shipped(True, method=method)
    counted()
    parts = [
        total(
            selectors.counts(Asked("2026-04", "2026-04", method=method), [Measure.SHIPPED]),
            Measure.SHIPPED,
        ).n
        for method in ("rod", "tape")
    ]
    assert (parts, n(Measure.SHIPPED)) == ([1, 1], 3)
