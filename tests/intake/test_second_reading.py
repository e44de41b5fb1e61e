"""The second reading that a customer takes alone: blind, once, and judged at once."""

from __future__ import annotations

from typing import Any

import pytest

from intake import services
from intake.answering.services import take_second_reading
from intake.domain.lifecycle import MoveError
from intake.domain.sheet import SheetErrors
from intake.models import SheetVersion, Submission
from intake.second_reading import SAID_BY, asked_again
from tests.intake.bodies import a_body
from tests.intake.desk_given import stock_the_shelf
from tests.intake.test_services import at_once

pytestmark = pytest.mark.django_db
GOOD = {"start_mark": "10", "text": "54 1/8", "method": "rod"}


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


def one_way(**answers: Any) -> Submission:
    """A sheet with the boat's length alone, read once: nothing would show a slip in it."""
    without = {"old_length_face_to_thread": None, "tail_to_thread": None, "gap_now": None}
    return services.receive_submission(body=a_body(**{**without, **answers}))


def take(submission: Submission, number: int = 1, **again: str) -> Submission:
    return take_second_reading(submission=submission, sheet_number=number, again=again or GOOD)


def test_one_way_to_the_length_is_asked_once_more_and_two_are_not() -> None:
    assert asked_again(one_way().current) == "face_to_strut_aft"
    assert asked_again(services.receive_submission(body=a_body()).current) == ""


def test_two_that_agree_release_the_sheet() -> None:
    submission = take(one_way())
    sheet = submission.current
    assert (sheet.number, sheet.verdict, submission.status) == (2, "release", "ready")
    told = sheet.body["answers"]["face_to_strut_aft"]
    assert told == {"text": "44 1/8", "method": "rod", "again": GOOD}
    assert (sheet.said_by, sheet.made_by) == (SAID_BY, None)
    assert submission.sheets.get(number=1).body["answers"]["face_to_strut_aft"] == {
        "text": "44 1/8",
        "method": "rod",
    }


def test_two_that_differ_are_both_kept_and_a_person_asks() -> None:
    submission = take(one_way(), text="45 1/8")
    assert (submission.status, submission.current.verdict) == ("needs_call", "ask")
    assert asked_again(submission.current) == "", "nobody is asked to read until it fits"
    with pytest.raises(SheetErrors):
        take(submission, 2)


def test_a_bare_number_may_have_a_second_one_too() -> None:
    submission = take(one_way(face_to_strut_aft="44 1/8"), text="44 1/8")
    assert submission.current.body["answers"]["face_to_strut_aft"] == {
        "text": "44 1/8",
        "again": {"text": "44 1/8"},
    }


def test_sent_twice_it_is_stored_once() -> None:
    submission = one_way()
    take(submission)
    take(Submission.objects.get())
    assert SheetVersion.objects.count() == 2
    assert Submission.objects.get().events.count() == 2


@pytest.mark.django_db(transaction=True)
def test_sent_four_times_at_once_it_is_stored_once() -> None:
    key = one_way().pk
    got = at_once(lambda: take(Submission.objects.get(pk=key)).pk, 4)
    assert got == [key] * 4
    assert SheetVersion.objects.count() == 2


@pytest.mark.django_db(transaction=True)
def test_of_two_different_ones_at_once_the_second_is_told() -> None:
    key, texts = one_way().pk, ["44 1/8", "44 3/16"]
    got = at_once(lambda: take(Submission.objects.get(pk=key), text=texts.pop()).pk, 2)
    assert sorted(type(one).__name__ for one in got) == ["Overtaken", "int"]
    assert SheetVersion.objects.count() == 2


def test_another_answer_to_an_old_page_is_not_stored() -> None:
    submission = take(one_way(), text="45 1/8")
    with pytest.raises(services.Overtaken):
        take(submission, 1, text="44 1/8")
    assert SheetVersion.objects.count() == 2


@pytest.mark.parametrize(
    ("again", "box"),
    [
        ({"text": " "}, "text"),
        ({"text": "a lot"}, "text"),
        ({"text": "4", "start_mark": "10"}, "text"),
        ({"text": "54 1/8", "method": "by heart"}, "text"),
    ],
)
def test_what_cannot_be_read_is_said_by_its_box(again: dict[str, str], box: str) -> None:
    submission = one_way()
    with pytest.raises(SheetErrors) as caught:
        take(submission, 1, **again)
    assert set(caught.value.errors) == {box}
    assert SheetVersion.objects.count() == 1


def test_a_withdrawn_request_takes_nothing_more() -> None:
    submission = one_way()
    services.close(submission=submission, reason="sold")
    with pytest.raises(MoveError):
        take(submission)
    assert SheetVersion.objects.count() == 1


def test_nobody_asked_nothing_taken() -> None:
    submission = services.receive_submission(body=a_body())
    with pytest.raises(SheetErrors):
        take(submission)
    assert SheetVersion.objects.count() == 1
