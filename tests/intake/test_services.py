"""Receiving, moving, and the bend: what is stored, what is not, and who comes first."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from threading import Barrier, Thread
from typing import Any

import pytest
from django.contrib.auth.models import Permission, User
from django.db import connection

from intake import selectors, services
from intake.calling.reading import CallErrors
from intake.calling.services import record_call
from intake.domain.lifecycle import MoveError, Status
from intake.domain.sheet import SheetErrors
from intake.models import CallRecord, Event, FindingRecord, Job, SheetVersion, Submission
from intake.signals import sheet_replaced, submission_ready
from tests.intake.bodies import PUT_RIGHT, SHORT, a_body

ROUTES = "route-boat-vs-old"
EVERYTHING = (Submission, SheetVersion, FindingRecord, Event, CallRecord, Job)


@pytest.fixture
def maud(db: None) -> User:
    return User.objects.create_user("maud")


@pytest.fixture
def percival(db: None) -> User:
    """May release over a stop."""
    user = User.objects.create_user("percival")
    user.user_permissions.add(Permission.objects.get(codename="override_stop"))
    return user


@contextmanager
def listening(signal: Any, receiver: Callable[..., object]) -> Iterator[None]:
    signal.connect(receiver)
    try:
        yield
    finally:
        signal.disconnect(receiver)


def rows() -> dict[str, int]:
    return {model.__name__: model.objects.count() for model in EVERYTHING}


def an_open_question(**answers: Any) -> Submission:
    return services.receive_submission(body=a_body(**{**SHORT, **answers}))


def call(submission: Submission, by: User, **changed: Any) -> Submission:
    told = {
        "sheet_number": submission.current.number,
        "check_id": ROUTES,
        "outcome": "corrected",
        "said_by": "Wilmot Tarpley",
        "cause": "R-WHOLE",
        "answers": PUT_RIGHT if changed.get("outcome", "corrected") == "corrected" else None,
    }
    return record_call(submission=submission, by=by, **{**told, **changed})


# --- Receiving ------------------------------------------------------------------------


@pytest.mark.django_db
def test_a_sheet_that_adds_up_is_ready_and_announced() -> None:
    heard: list[Submission] = []

    def ready(submission: Submission, **_: object) -> None:
        heard.append(submission)

    with listening(submission_ready, ready):
        submission = services.receive_submission(body=a_body())
    assert heard == [submission]
    assert (submission.status, submission.verdict) == (Status.READY, "release")


@pytest.mark.django_db
def test_a_sheet_that_does_not_add_up_waits_for_a_call() -> None:
    submission = an_open_question()
    assert (submission.status, submission.verdict) == (Status.NEEDS_CALL, "ask")
    asked = FindingRecord.objects.get(check_id=ROUTES)
    assert asked.sheet.submission == submission
    assert asked.counts
    assert asked.question


@pytest.mark.django_db
def test_everything_is_kept_as_typed_and_as_read() -> None:
    body = a_body(gap_now={"text": "19mm", "method": "rule"})
    sheet = services.receive_submission(body=body).sheets.get()
    assert sheet.body == body
    assert sheet.readings["gap_now"] == {
        "text": "19mm",
        "method": "rule",
        "mm": "19.000000",
        "unit": "mm",
        "unit_written": True,
        "u_mm": sheet.readings["gap_now"]["u_mm"],
    }
    assert sheet.outcome["stack"]
    assert "stack" not in sheet.answer


@pytest.mark.django_db
def test_the_first_line_of_its_history_says_why() -> None:
    event = an_open_question().events.get()
    assert (event.old_status, event.new_status) == ("received", "needs_call")
    assert event.reason.endswith("to ask")


@pytest.mark.django_db
def test_a_sheet_that_cannot_be_read_stores_nothing() -> None:
    before = rows()
    with pytest.raises(SheetErrors) as refused:
        services.receive_submission(body=a_body(gap_now="three fingers", hub_length="1/2/3"))
    assert set(refused.value.errors) == {"answers.gap_now", "answers.hub_length"}
    assert rows() == before


@pytest.mark.django_db(transaction=True)
def test_a_failure_in_the_middle_stores_nothing() -> None:
    def trip(**_: object) -> None:
        raise RuntimeError("the room next door fell over")

    before = rows()
    with listening(submission_ready, trip), pytest.raises(RuntimeError):
        services.receive_submission(body=a_body())
    assert rows() == before


@pytest.mark.django_db
def test_a_clean_sheet_costs_a_handful_of_queries(django_assert_num_queries: Any) -> None:
    elsewhere = a_body(boat="Otter", phone="+1 202 555 0199")
    services.receive_submission(body=elsewhere)  # fills the stock's cache
    # stock version, history with whose it is, limits version, a savepoint and its end, then
    # customer, boat, submission, sheet, event, job
    with django_assert_num_queries(11):
        first = services.receive_submission(body=a_body())
    services.close(submission=first, reason="done")
    # of a customer and a boat that are known: one update in place of two new records
    with django_assert_num_queries(10):
        services.receive_submission(body=a_body())


@pytest.mark.django_db
def test_findings_are_stored_together(django_assert_num_queries: Any) -> None:
    services.receive_submission(body=a_body(boat="Otter", phone="+1 202 555 0199"))
    # all findings in one statement, no job before somebody has asked
    with django_assert_num_queries(11):
        an_open_question()


@pytest.mark.django_db
def test_a_dry_check_stores_nothing(django_assert_max_num_queries: Any) -> None:
    services.dry_check(body=a_body())
    before = rows()
    with django_assert_max_num_queries(2):  # the versions of stock and limits
        verdict = services.dry_check(body=a_body(**SHORT))
    assert verdict.verdict == "ask"
    assert rows() == before


@pytest.mark.django_db
def test_a_second_sheet_for_the_same_boat_is_noted() -> None:
    first = services.receive_submission(body=a_body(phone="+1 202 555 0100"))
    again = services.receive_submission(body=a_body(boat=" biscuit  BARREL", phone="+12025550100"))
    noted = FindingRecord.objects.get(sheet__submission=again, check_id="duplicate")
    assert not noted.counts
    assert selectors.history_facts(_sheet(again), exclude=again).same_open == (first.reference,)


def _sheet(submission: Submission) -> Any:
    from intake.domain.reading import read_sheet

    return read_sheet(submission.current.body)


# --- Sent twice -----------------------------------------------------------------------


@pytest.mark.django_db
def test_a_repeat_gets_the_first_answer_and_stores_nothing(maud: User) -> None:
    body = a_body(**SHORT)
    first = services.receive_submission(body=body, idempotency_key="k1")
    answer = first.first_answer()
    call(first, maud)  # by then the sheet has moved on
    before = rows()
    backwards = dict(reversed(body.items()))
    again = services.receive_submission(body=backwards, idempotency_key="k1")
    assert again.first_answer() == answer
    assert rows() == before


@pytest.mark.django_db
def test_a_key_with_another_body_is_refused() -> None:
    services.receive_submission(body=a_body(), idempotency_key="k1")
    with pytest.raises(services.KeyReused):
        services.receive_submission(body=a_body(boat="Otter"), idempotency_key="k1")


@pytest.mark.django_db(transaction=True)
def test_two_at_once_with_one_key_are_stored_once() -> None:
    services.receive_submission(body=a_body(boat="Otter"))
    got = at_once(
        lambda: services.receive_submission(body=a_body(), idempotency_key="k1").reference, 4
    )
    assert len(got) == 4
    assert len(set(got)) == 1
    assert Submission.objects.filter(boat_name="Biscuit Barrel").count() == 1


def at_once(work: Callable[[], Any], times: int) -> list[Any]:
    """What ``times`` threads get or raise when they do the same thing in the same moment."""
    results: list[Any] = []
    start = Barrier(times)

    def run() -> None:
        start.wait()
        try:
            results.append(work())
        except Exception as error:
            results.append(error)
        finally:
            connection.close()

    threads = [Thread(target=run) for _ in range(times)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return results


# --- Moving ---------------------------------------------------------------------------


@pytest.mark.django_db
def test_a_move_writes_its_history() -> None:
    submission = services.receive_submission(body=a_body())
    services.move(submission, Status.QUOTED, reason="quote issued")
    submission.refresh_from_db()
    assert submission.status == Status.QUOTED
    last = submission.events.last()
    assert last
    assert (last.old_status, last.new_status, last.reason) == ("ready", "quoted", "quote issued")


@pytest.mark.django_db
def test_who_comes_second_is_overtaken() -> None:
    mine = services.receive_submission(body=a_body())
    theirs = selectors.by_token(mine.token)
    services.move(theirs, Status.QUOTED, reason="first")
    with pytest.raises(services.Overtaken):
        services.move(mine, Status.NEEDS_CALL, reason="second")
    assert mine.events.count() == 2


@pytest.mark.django_db
def test_a_withdrawn_request_is_left_alone(maud: User) -> None:
    submission = services.close(submission=an_open_question(), reason="sold the boat", by=maud)
    assert submission.status == Status.WITHDRAWN
    with pytest.raises(MoveError):
        call(submission, maud)
    assert not submission.calls.exists()


# --- The bend -------------------------------------------------------------------------


@pytest.mark.django_db
def test_a_corrected_answer_is_a_new_version_judged_again(maud: User) -> None:
    heard: list[str] = []
    submission = an_open_question()

    def ready(submission: Submission, **_: object) -> None:
        heard.append(submission.status)

    with listening(submission_ready, ready):
        call(submission, maud, contributing=["D-CBACK"], note="read it twice")
    old, new = submission.sheets.order_by("number")
    assert (old.is_current, new.is_current, new.number) == (False, True, 2)
    assert old.body["answers"]["face_to_strut_aft"]["text"] == "42 1/8"
    assert new.body["answers"]["face_to_strut_aft"]["text"] == "44 1/8"
    assert (new.made_by, new.said_by) == (maud, "Wilmot Tarpley")
    assert (submission.status, submission.verdict) == ("ready", "release")
    assert heard == ["ready"]
    submission.refresh_from_db()
    assert (submission.status, submission.verdict) == ("ready", "release")


@pytest.mark.django_db
def test_the_call_keeps_the_question_the_cause_and_who_said_so(maud: User) -> None:
    submission = an_open_question()
    asked = submission.current.answer["findings"][0]
    call(submission, maud, contributing=["D-CBACK"], note="read it twice")
    record = submission.calls.get()
    assert (record.check_id, record.answer) == (ROUTES, asked["answers"][0])
    assert record.question_as_asked == asked["question"]
    assert (record.cause, record.contributing) == ("R-WHOLE", ["D-CBACK"])
    assert (record.by, record.said_by, record.note) == (maud, "Wilmot Tarpley", "read it twice")


@pytest.mark.django_db
def test_confirmed_numbers_no_longer_hold_while_they_stay_the_same(maud: User) -> None:
    submission = call(an_open_question(), maud, outcome="confirmed", cause="")
    assert (submission.status, submission.current.number) == ("ready", 2)
    assert submission.calls.get().fingerprint
    # Another number for the same question: nobody has confirmed that one.
    submission = call(
        submission,
        maud,
        check_id="",
        answers={"face_to_strut_aft": {"text": "42", "method": "rod"}},
    )
    assert submission.status == "needs_call"


@pytest.mark.django_db
def test_only_who_may_can_release_over_a_stop_and_with_a_reason(maud: User, percival: User) -> None:
    submission = services.receive_submission(body=a_body(**A_STOP))
    assert submission.verdict == "stop"
    stop = submission.current.answer["findings"][0]
    confirm = {"check_id": stop["check"], "outcome": "confirmed", "cause": ""}
    with pytest.raises(CallErrors) as refused:
        call(submission, maud, **confirm, note="she is sure")
    assert "outcome" in refused.value.errors
    with pytest.raises(CallErrors) as refused:
        call(submission, percival, **confirm, note=" ")
    assert "note" in refused.value.errors
    call(submission, percival, **confirm, note="drawing of the boat seen")
    severities = {row["check"]: row["severity"] for row in submission.current.answer["findings"]}
    assert severities.get(stop["check"]) != "stop"


A_STOP: dict[str, Any] = {"bearing_id_or_mark": {"text": "3/4", "method": "mark"}}


@pytest.mark.django_db
def test_what_cannot_be_measured_is_said_in_the_new_version(maud: User) -> None:
    submission = call(
        an_open_question(),
        maud,
        outcome="cannot_measure",
        answers={"old_length_face_to_thread": {"state": "cannot_measure"}},
    )
    answers = submission.current.body["answers"]
    assert answers["old_length_face_to_thread"] == {"state": "cannot_measure"}
    assert answers["face_to_strut_aft"]["text"] == "42 1/8"


@pytest.mark.django_db
def test_without_an_answer_named_it_is_the_one_that_was_asked(maud: User) -> None:
    submission = an_open_question()
    asked = submission.current.answer["findings"][0]["answers"][0]
    call(submission, maud, outcome="cannot_measure", cause="")
    assert submission.current.body["answers"][asked] == {"state": "cannot_measure"}


@pytest.mark.django_db
def test_nobody_reached_is_written_down_and_changes_nothing(maud: User) -> None:
    submission = call(an_open_question(), maud, outcome="not_reached", said_by="", cause="")
    assert (submission.status, submission.sheets.count()) == ("needs_call", 1)
    assert submission.calls.get().outcome == "not_reached"


@pytest.mark.django_db
def test_withdrawn_on_the_phone(maud: User) -> None:
    submission = call(an_open_question(), maud, outcome="withdrawn", cause="")
    assert (submission.status, submission.sheets.count()) == ("withdrawn", 1)


@pytest.mark.django_db
def test_a_new_version_of_a_quoted_sheet_goes_back_and_says_so(maud: User) -> None:
    heard: list[int] = []
    submission = services.receive_submission(body=a_body())
    services.move(submission, Status.QUOTED, reason="quote issued")

    def replaced(submission: Submission, **_: object) -> None:
        heard.append(submission.current.number)

    with listening(sheet_replaced, replaced):
        call(submission, maud, check_id="", answers=SHORT)
    assert submission.status == "needs_call"
    assert heard == [2]


@pytest.mark.django_db
def test_a_finding_that_stays_is_counted_once(maud: User) -> None:
    submission = an_open_question()
    call(submission, maud, answers={"face_to_strut_aft": {"text": "43", "method": "rod"}})
    rows = FindingRecord.objects.filter(sheet__submission=submission, check_id=ROUTES)
    assert [row.counts for row in rows.order_by("pk")] == [True, False]


@pytest.mark.django_db
def test_an_old_version_cannot_be_answered(maud: User) -> None:
    submission = call(an_open_question(), maud)
    with pytest.raises(services.Overtaken, match="changed this a moment ago"):
        call(submission, maud, sheet_number=1)
    assert submission.calls.count() == 1


@pytest.mark.django_db(transaction=True)
def test_two_answers_at_once_make_one_version(maud: User) -> None:
    reference = an_open_question().reference
    got = at_once(lambda: call(selectors.by_reference(reference), maud, sheet_number=1).status, 3)
    submission = selectors.by_reference(reference)
    assert sorted(isinstance(result, services.Overtaken) for result in got) == [False, True, True]
    assert (submission.sheets.count(), submission.calls.count()) == (2, 1)


@pytest.mark.django_db(transaction=True)
def test_a_failure_in_the_middle_of_a_call_takes_everything_back(maud: User) -> None:
    submission = an_open_question()

    def trip(**_: object) -> None:
        raise RuntimeError("the room next door fell over")

    before = rows()
    with listening(sheet_replaced, trip), pytest.raises(RuntimeError):
        call(submission, maud)
    again = selectors.by_reference(submission.reference)
    assert rows() == before
    assert (again.status, again.current.number) == ("needs_call", 1)


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("entry", "field"),
    [
        ({"outcome": "shrug"}, "outcome"),
        ({"said_by": " "}, "said_by"),
        ({"said_by": "x" * 201}, "said_by"),
        ({"cause": "Q-NONE"}, "cause"),
        ({"contributing": ["U-CM", "U-MIX", "X"]}, "contributing"),
        ({"contributing": ["R-WHOLE"]}, "contributing"),
        ({"check_id": "dia-snap"}, "check_id"),
        ({"answers": {}}, "answers"),
        ({"outcome": "confirmed", "check_id": "", "answers": None}, "check_id"),
    ],
)
def test_an_incomplete_call_is_told_by_field_and_not_stored(
    maud: User, entry: dict[str, Any], field: str
) -> None:
    submission = an_open_question()
    with pytest.raises(CallErrors) as refused:
        call(submission, maud, **entry)
    assert list(refused.value.errors) == [field]
    assert not submission.calls.exists()


@pytest.mark.django_db
def test_a_corrected_answer_that_cannot_be_read_is_not_stored(maud: User) -> None:
    submission = an_open_question()
    with pytest.raises(SheetErrors) as refused:
        call(submission, maud, answers={"face_to_strut_aft": {"text": "about a yard"}})
    assert list(refused.value.errors) == ["answers.face_to_strut_aft"]
    assert (submission.sheets.count(), submission.calls.count()) == (1, 0)


@pytest.mark.django_db
def test_a_call_costs_the_same_however_many_came_before(
    maud: User, django_assert_num_queries: Any
) -> None:
    submission = an_open_question()
    for _ in range(3):
        call(submission, maud, outcome="not_reached", said_by="", cause="")
    other = {"face_to_strut_aft": {"text": "43", "method": "rod"}}
    with django_assert_num_queries(24):
        call(submission, maud, answers=other)
    with django_assert_num_queries(24):
        call(submission, maud, answers=SHORT)
