"""What customers may answer alone: what is asked, what is kept, and what nobody may do alone."""

from __future__ import annotations

import threading
from typing import Any

import pytest
from django.db import connection

from intake import selectors, services
from intake.answering.services import take_answers
from intake.domain.sheet import SheetErrors
from intake.models import SheetVersion, Submission
from intake.own_answers import FOR_A_PERSON, open_findings
from intake.services import Overtaken
from tests.intake.desk_given import stock_the_shelf
from tests.quotes.given import a_submission

pytestmark = pytest.mark.django_db
NO_DIRECTION = {"flange_direction": {"state": "cannot_measure"}}
THIN = {"dia_clean": {"text": "0.95", "method": "caliper"}}
APART = {"face_to_strut_aft": {"text": "45 1/8", "method": "rod"}}


@pytest.fixture(autouse=True)
def _shelf(request: pytest.FixtureRequest) -> None:
    stock_the_shelf()


def asked(submission: Submission) -> dict[str, list[str]]:
    """Check -> what the customer can answer of it."""
    again = selectors.measured_afresh(submission)
    found = open_findings(selectors.fresh_sheet(submission), again)
    return {one.finding["check"]: [plan.slug for plan in one.plans] for one in found}


def tell(submission: Submission, number: int = 1, **answers: Any) -> Submission:
    return take_answers(submission=submission, sheet_number=number, answers=answers)


def test_a_missing_answer_is_given_and_settles_it() -> None:
    submission = a_submission(**NO_DIRECTION)
    assert asked(submission) == {"missing-critical": ["flange_direction"]}
    tell(submission, flange_direction="aft")
    now = Submission.objects.get()
    assert now.status == "ready"
    assert now.current.said_by == "customer, on the status page"
    assert now.current.reason == "answered"
    assert now.current.made_by is None


def test_what_is_still_missing_stays_asked() -> None:
    submission = a_submission(drive_layout="v_pass_through", flange_direction="forward")
    assert asked(submission)["pass-through-fields"] == [
        "gearbox_through",
        "front_end",
        "front_taper",
    ]
    tell(submission, gearbox_through={"text": "9", "method": "rule"})
    assert asked(submission)["pass-through-fields"] == ["front_end", "front_taper"]


def test_cannot_measure_is_an_answer() -> None:
    submission = a_submission(without=("face_to_strut_aft", "old_length_face_to_thread"))
    assert "face_to_strut_aft" in asked(submission)["missing-critical"]
    tell(submission, face_to_strut_aft={"state": "cannot_measure"})
    kept = selectors.fresh_sheet(submission).body["answers"]["face_to_strut_aft"]
    assert kept == {"state": "cannot_measure"}


def test_a_doubted_number_is_taken_afresh_once_only() -> None:
    submission = a_submission(**THIN)
    assert "dia_clean" in asked(submission)["dia-snap"]
    tell(submission, dia_clean={"text": "0.96", "method": "caliper"})
    sheet = selectors.fresh_sheet(submission)
    assert sheet.body["answers"]["dia_clean"]["text"] == "0.96"
    assert sheet.reason == "answered; measured afresh: dia_clean"
    assert asked(submission)["dia-snap"] == [], "a person asks from here on"
    with pytest.raises(SheetErrors, match="at least one of the questions"):
        tell(submission, 2, dia_clean={"text": "1", "method": "caliper"})


def test_a_long_length_keeps_its_first_reading_beside_the_second() -> None:
    submission = a_submission(**APART)
    assert asked(submission)["route-boat-vs-old"][0] == "face_to_strut_aft"
    tell(submission, face_to_strut_aft={"again": {"text": "44 1/8", "method": "rod"}})
    kept = selectors.fresh_sheet(submission).body["answers"]["face_to_strut_aft"]
    assert kept == {"text": "45 1/8", "method": "rod", "again": {"text": "44 1/8", "method": "rod"}}
    assert submission.status == "needs_call", "two that differ are settled by a person"


def test_nobody_replaces_a_number_that_is_not_asked_for() -> None:
    submission = a_submission(**NO_DIRECTION)
    hub = {"text": "9", "method": "rule"}
    tell(submission, flange_direction="aft", hub_length=hub, face_to_strut_aft={"text": "40"})
    answers = selectors.fresh_sheet(submission).body["answers"]
    assert answers["hub_length"]["text"] == "2 15/16"
    assert answers["face_to_strut_aft"]["text"] == "44 1/8"


def test_what_cannot_be_read_is_refused_whole() -> None:
    submission = a_submission(**THIN)
    with pytest.raises(SheetErrors) as refused:
        tell(submission, dia_clean={"text": "an inch or so and a bit"})
    assert list(refused.value.errors) == ["answers.dia_clean"]
    assert SheetVersion.objects.count() == 1


def test_the_same_sent_twice_is_stored_once() -> None:
    submission = a_submission(**NO_DIRECTION)
    tell(submission, flange_direction="aft")
    tell(submission, flange_direction="aft")
    assert SheetVersion.objects.count() == 2


def test_an_older_page_writes_over_nothing() -> None:
    submission = a_submission(**NO_DIRECTION)
    tell(submission, flange_direction="aft")
    with pytest.raises(Overtaken):
        tell(submission, flange_direction="forward")
    assert selectors.fresh_sheet(submission).body["answers"]["flange_direction"] == "aft"


def test_a_sheet_without_questions_takes_no_answer() -> None:
    submission = a_submission()
    with pytest.raises(SheetErrors, match="not asked any more"):
        tell(submission, hub_length={"text": "3"})
    services.close(submission=submission, reason="sold")
    with pytest.raises(services.MoveError):
        tell(submission, hub_length={"text": "3"})


def test_a_contradiction_with_a_stop_is_for_a_person() -> None:
    submission = a_submission(gap_now={"text": "4", "method": "rule"})
    assert asked(submission)["range-single"] == []


def test_checks_for_a_person_are_checks() -> None:
    from intake.checks import CHECKS

    assert {check.id for check in CHECKS} >= FOR_A_PERSON


@pytest.mark.django_db(transaction=True)
def test_two_at_once_leave_one_version() -> None:
    submission = a_submission(**NO_DIRECTION)
    start, errors = threading.Barrier(2), []

    def send() -> None:
        start.wait()
        try:
            own = Submission.objects.get(pk=submission.pk)
            tell(own, flange_direction="aft")
        except Exception as error:
            errors.append(error)
        finally:
            connection.close()

    both = [threading.Thread(target=send) for _ in range(2)]
    for one in both:
        one.start()
    for one in both:
        one.join()
    assert errors == []
    assert SheetVersion.objects.count() == 2
