"""What pages read: in the right order, in a constant number of queries."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.utils import timezone

from intake import selectors, services
from intake.calling.services import record_call
from intake.domain.lifecycle import Status
from intake.domain.reading import read_sheet
from intake.models import CallRecord, FindingRecord, Submission
from tests.intake.bodies import PUT_RIGHT, SHORT, a_body

ROUTES = "route-boat-vs-old"
BOATS = ("Otter", "Heron", "Smew", "Teal", "Plover")


def waiting(boat: str = "Biscuit Barrel", days: int = 0) -> Submission:
    submission = services.receive_submission(body=a_body(boat=boat, **SHORT))
    received = timezone.now() - timedelta(days=days)
    Submission.objects.filter(pk=submission.pk).update(received_at=received)
    return submission


@pytest.fixture
def maud(db: None) -> User:
    return User.objects.create_user("maud")


@pytest.mark.django_db
def test_found_by_the_private_link_and_by_the_reference_as_people_type_it() -> None:
    submission = waiting()
    assert selectors.by_token(submission.token) == submission
    assert selectors.by_reference(f" {submission.reference.lower()} ") == submission
    with pytest.raises(Submission.DoesNotExist):
        selectors.by_token("x" * 43)


@pytest.mark.django_db
def test_references_and_links_cannot_be_guessed_or_misheard() -> None:
    found = [waiting(boat) for boat in BOATS]
    assert len({submission.token for submission in found}) == len(BOATS)
    assert all(len(submission.token) == 43 for submission in found)
    signs = {sign for submission in found for sign in submission.reference[3:]}
    assert not signs & set("0O1IL")


@pytest.mark.django_db
def test_the_longest_wait_comes_first() -> None:
    first, last = waiting("Otter", days=3), waiting("Heron", days=1)
    services.receive_submission(body=a_body(phone="+1 202 555 0177"))  # no question
    assert list(selectors.call_queue()) == [first, last]
    assert selectors.calls_waiting() == 2


@pytest.mark.django_db
def test_each_waiting_one_brings_its_sheet_and_what_to_ask(
    django_assert_num_queries: Any,
) -> None:
    for boat in BOATS:
        waiting(boat)
    with django_assert_num_queries(3):
        for submission in selectors.call_queue():
            asked = submission.current.to_ask
            assert ROUTES in [row.check_id for row in asked]
            assert "note" not in [row.severity for row in asked]


@pytest.mark.django_db
def test_history_tells_everything_in_the_order_it_happened(
    maud: User, django_assert_num_queries: Any
) -> None:
    submission = waiting()
    record_call(
        submission=submission,
        sheet_number=1,
        by=maud,
        check_id=ROUTES,
        outcome="corrected",
        said_by="Wilmot Tarpley",
        cause="R-WHOLE",
        answers=PUT_RIGHT,
    )
    with django_assert_num_queries(3):
        lines = selectors.history_of(submission)
        who = [
            getattr(line.row, "by", None) or getattr(line.row, "made_by", None) for line in lines
        ]
    assert [line.kind for line in lines] == ["sheet", "event", "call", "sheet", "event"]
    assert who == [None, None, maud, maud, maud]


@pytest.mark.django_db
def test_a_duplicate_is_the_same_contact_boat_and_side_still_open() -> None:
    first = waiting()
    same = read_sheet(a_body())
    assert selectors.history_facts(same).same_open == (first.reference,)
    assert selectors.history_facts(same, exclude=first).same_open == ()
    other_side = {"boat_name_and_station": {"name": "Biscuit Barrel", "station": "port"}}
    for other in (
        a_body(boat="Otter"),
        a_body(phone="+1 202 555 0199"),
        {**a_body(), "answers": {**a_body()["answers"], **other_side}},
        a_body(boat=""),
    ):
        assert selectors.history_facts(read_sheet(other)).same_open == ()


@pytest.mark.django_db
@pytest.mark.parametrize("days", [44, 46])
def test_after_45_days_it_is_a_new_order(days: int) -> None:
    waiting(days=days)
    assert bool(selectors.history_facts(read_sheet(a_body())).same_open) == (days < 45)


@pytest.mark.django_db
def test_a_closed_request_is_no_duplicate() -> None:
    services.close(submission=waiting(), reason="sold the boat")
    assert selectors.history_facts(read_sheet(a_body())).same_open == ()


@pytest.mark.django_db
def test_the_same_address_is_the_same_contact_whatever_the_phone() -> None:
    by_mail = {"name": "Wilmot", "email": "W@Example.org", "role": "owner"}
    services.receive_submission(body={**a_body(), "contact": by_mail})
    again = {**a_body(phone="+1 202 555 0199")}
    again["contact"] = {**again["contact"], "email": "w@example.org"}
    assert len(selectors.history_facts(read_sheet(again)).same_open) == 1


@pytest.mark.django_db
def test_facts_cost_one_query_and_two_on_a_recheck(django_assert_num_queries: Any) -> None:
    submission, sheet = waiting(), read_sheet(a_body())
    with django_assert_num_queries(1):
        selectors.history_facts(sheet)
    with django_assert_num_queries(2):
        selectors.history_facts(sheet, exclude=submission)


@pytest.mark.django_db
def test_mismatches_are_counted_by_month_most_frequent_first(
    maud: User, django_assert_num_queries: Any
) -> None:
    *_, before, now = months = selectors.months_back(3)
    for boat in BOATS[:3]:
        waiting(boat)
    FindingRecord.objects.filter(sheet__submission__boat_name="Otter").update(month=before)
    with django_assert_num_queries(1):
        checks = selectors.mismatches_by_month("check", months)
    table = {row.key: row.counts for row in checks}
    assert table[ROUTES] == (0, 1, 2)
    assert [row.total for row in checks] == sorted((row.total for row in checks), reverse=True)
    questions = {row.key: row for row in selectors.mismatches_by_month("question", months)}
    assert "?" in questions["face_to_strut_aft"].label
    assert not selectors.mismatches_by_month("cause", months)
    assert now


@pytest.mark.django_db
def test_causes_are_counted_in_the_month_of_the_call(maud: User) -> None:
    for boat, cause in zip(BOATS, ("D-CBACK", "D-CBACK", "R-WHOLE"), strict=False):
        record_call(
            submission=waiting(boat),
            sheet_number=1,
            by=maud,
            check_id=ROUTES,
            outcome="corrected",
            said_by="Wilmot Tarpley",
            cause=cause,
            answers=PUT_RIGHT,
        )
    rows = selectors.mismatches_by_month("cause", selectors.months_back(1))
    assert [(row.key, row.counts) for row in rows] == [("D-CBACK", (2,)), ("R-WHOLE", (1,))]
    assert rows[0].label == "from the aft face of the shaft flange"


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("dimension", "index"),
    [("check", "finding_by_check"), ("question", "finding_by_answer"), ("cause", "call_by_cause")],
)
def test_insights_are_answered_from_an_index(dimension: Any, index: str) -> None:
    if connection.vendor == "postgresql":
        # A planner with no rows to speak of reads the table; show it what it would do with many.
        with connection.cursor() as cursor:
            cursor.execute("SET LOCAL enable_seqscan = off")
    _, rows = selectors._grouped(dimension, ["2026-11"])
    assert index in rows.explain()


def test_months_are_named_oldest_first() -> None:
    months = selectors.months_back(14)
    assert len(months) == 14
    assert months == sorted(months)
    assert months[-1] == f"{timezone.localdate():%Y-%m}"
    assert {len(month) for month in months} == {7}


@pytest.mark.django_db
def test_a_status_has_one_writer_and_a_full_history(maud: User) -> None:
    submission = waiting()
    services.close(submission=submission, reason="sold", by=maud)
    seen = [(event.old_status, event.new_status) for event in submission.events.all()]
    assert seen == [("received", "needs_call"), ("needs_call", Status.WITHDRAWN)]
    assert not CallRecord.objects.exists()
