"""Keeping photos: six at most, each once, whole or not at all."""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Any

import pytest
from django.core.management import CommandError, call_command
from django.db import OperationalError, connection

from intake.domain.lifecycle import Status
from intake.models import Photo, Submission
from intake.photos import services
from intake.photos.pictures import PhotoRefused
from intake.photos.selectors import photo_bytes, photos_of
from intake.photos.services import NoRoom, PhotoStays, take_photo
from intake.services import close, move, receive_submission
from tests.intake.bodies import a_body
from tests.intake.photos.given import as_file, halves, numbered

pytestmark = pytest.mark.django_db


@pytest.fixture
def submission() -> Submission:
    return receive_submission(body=a_body())


def send(submission: Submission, number: int, question: str = "") -> Photo:
    return take_photo(submission=submission, sent=numbered(number), question=question)


def test_a_photo_is_kept_with_its_question_under_a_name_nobody_guesses(
    submission: Submission,
) -> None:
    photo = take_photo(submission=submission, sent=as_file(halves(800, 600)), question="flange_od")
    other = send(submission, 1)
    assert (photo.question, photo.width, photo.height) == ("flange_od", 800, 600)
    assert photo.ident != other.ident
    assert min(len(photo.ident), len(other.ident)) == 22  # 128 random bits
    lines = photos_of(submission).lines
    assert [line.ident for line in lines] == [photo.ident, other.ident]
    assert [str(line.about) for line in lines] == ["Flange outside", ""]
    assert (lines[0].small_width, lines[0].small_height) == (320, 240)
    assert photo_bytes(submission, photo.ident, small=False) != photo_bytes(
        submission, photo.ident, small=True
    )


def test_the_same_picture_again_answers_the_first(submission: Submission) -> None:
    first = send(submission, 1, "bolts")
    again = send(submission, 1, "flange_od")
    assert (again.ident, again.question) == (first.ident, "bolts")
    assert len(photos_of(submission)) == 1
    another = receive_submission(body=a_body(boat="Grumpy Otter"))
    assert send(another, 1).ident != first.ident


def test_six_are_taken_and_no_seventh(submission: Submission) -> None:
    first = send(submission, 0)
    for number in range(1, 6):
        send(submission, number)
    with pytest.raises(NoRoom, match="Six photos are enough"):
        send(submission, 6)
    assert send(submission, 0).ident == first.ident  # a repeat needs no room
    assert not photos_of(submission).may_add
    services.remove_photo(submission=submission, ident=first.ident)
    assert photos_of(submission).may_add
    send(submission, 6)
    assert len(photos_of(submission)) == 6


def test_a_question_that_does_not_exist_is_no_tag(submission: Submission) -> None:
    with pytest.raises(PhotoRefused, match="no question of this name"):
        send(submission, 1, "<script>")
    assert not photos_of(submission).lines


def test_a_closed_request_takes_none(submission: Submission) -> None:
    close(submission=submission, reason="sold the boat")
    with pytest.raises(NoRoom, match="closed"):
        send(submission, 1)
    assert not photos_of(submission)


def test_a_photo_is_removed_for_good_but_not_once_a_quote_was_accepted(
    submission: Submission,
) -> None:
    photo, kept = send(submission, 1), send(submission, 2)
    assert photos_of(submission).may_remove
    assert services.remove_photo(submission=submission, ident=photo.ident)
    assert not services.remove_photo(submission=submission, ident=photo.ident)
    for step in (Status.QUOTED, Status.ACCEPTED, Status.NEEDS_CALL):
        move(submission, step, reason="as it goes")
    with pytest.raises(PhotoStays, match="the photos stay"):
        services.remove_photo(submission=submission, ident=kept.ident)
    assert not photos_of(submission).may_remove
    assert photo_bytes(submission, kept.ident, small=True)


def test_nobody_removes_a_photo_of_another_request(submission: Submission) -> None:
    photo = send(submission, 1)
    other = receive_submission(body=a_body(boat="Grumpy Otter"))
    assert not services.remove_photo(submission=other, ident=photo.ident)
    assert photo_bytes(other, photo.ident, small=False) is None
    assert photo_bytes(submission, photo.ident, small=False)


def test_all_photos_of_one_request_are_forgotten_when_asked(
    submission: Submission, capsys: pytest.CaptureFixture[str]
) -> None:
    other = receive_submission(body=a_body(boat="Grumpy Otter"))
    for one in (submission, other):
        send(one, 1)
        send(one, 2)
    call_command("forget_photos", submission.reference.lower())
    assert "2 photos deleted" in capsys.readouterr().out
    assert (len(photos_of(submission)), len(photos_of(other))) == (0, 2)
    with pytest.raises(CommandError):
        call_command("forget_photos", "FG-NOSUCH")


def test_listing_reads_no_bytes_and_takes_two_queries(
    submission: Submission, django_assert_num_queries: Any
) -> None:
    for number in range(6):
        send(submission, number, "bolts")
    with django_assert_num_queries(2) as asked:
        photos = photos_of(submission)
        assert [str(line.about) for line in photos] == ["Flange bolts"] * 6
    assert not any('"content"' in query["sql"] for query in asked.captured_queries)


@pytest.mark.django_db(transaction=True)
def test_a_database_that_fails_leaves_nothing_half_written() -> None:
    submission = receive_submission(body=a_body())

    def full(execute: Callable[..., Any], sql: str, *rest: Any) -> Any:
        done = execute(sql, *rest)
        if sql.startswith("INSERT"):
            raise OperationalError("the disk is full")
        return done

    with pytest.raises(OperationalError), connection.execute_wrapper(full):
        send(submission, 1)
    assert not photos_of(submission).lines
    assert send(submission, 1)  # and the same picture is taken when there is room again


def at_once(work: list[Callable[[], Any]]) -> list[Any]:
    """Start all at the same moment, each with a connection of its own; what each said."""
    gate, said = threading.Barrier(len(work)), []

    def run(one: Callable[[], Any]) -> None:
        gate.wait()
        try:
            said.append(one())
        except Exception as error:
            said.append(error)
        finally:
            connection.close()

    threads = [threading.Thread(target=run, args=(one,)) for one in work]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(30)
    return said


@pytest.mark.django_db(transaction=True)
def test_seven_at_once_are_six() -> None:
    submission = receive_submission(body=a_body())
    said = at_once([lambda n=n: send(submission, n) for n in range(7)])  # type: ignore[misc]
    assert sorted(type(one).__name__ for one in said) == ["NoRoom"] + ["Photo"] * 6
    assert len(photos_of(submission)) == 6


@pytest.mark.django_db(transaction=True)
def test_one_picture_sent_by_six_at_once_is_one_photo() -> None:
    submission = receive_submission(body=a_body())
    said = at_once([lambda: send(submission, 1)] * 6)
    assert len({one.ident for one in said}) == len(photos_of(submission)) == 1


@pytest.mark.django_db(transaction=True)
def test_accepting_and_removing_at_once_never_lose_an_accepted_photo() -> None:
    submission = receive_submission(body=a_body())
    photo = send(submission, 1)
    move(submission, Status.QUOTED, reason="quoted")
    said = at_once(
        [
            lambda: move(submission, Status.ACCEPTED, reason="accepted"),
            lambda: services.remove_photo(submission=submission, ident=photo.ident),
        ]
    )
    stays = any(isinstance(one, PhotoStays) for one in said)
    assert (True in said) is not stays
    assert len(photos_of(submission)) == (1 if stays else 0)
