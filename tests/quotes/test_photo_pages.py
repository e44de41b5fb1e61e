"""The doors to photos: who may post and see them, what a browser is told about them."""

from __future__ import annotations

from collections.abc import Iterator
from io import BytesIO
from typing import Any

import pytest
from django.contrib.messages import get_messages
from django.core.cache import cache
from django.core.files.uploadedfile import SimpleUploadedFile
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from PIL import Image
from rest_framework.throttling import SimpleRateThrottle

from config.throttle import ByAddress
from intake import api
from intake.domain.lifecycle import Status
from intake.models import Photo, Submission
from intake.photos.selectors import photos_of
from intake.photos.services import take_photo
from intake.services import move, receive_submission
from tests.intake.bodies import SHORT, a_body
from tests.intake.desk_given import a_person
from tests.intake.photos.given import (
    HEIC,
    POLYGLOT,
    SVG,
    animated_webp,
    as_file,
    halves,
    numbered,
    png_bomb,
    with_place,
)

pytestmark = pytest.mark.django_db

PAGE = "text/html,application/xhtml+xml,application/xml;q=0.9,*/*;q=0.8"  # what browsers send
NOWHERE = "x" * 43


@pytest.fixture
def submission() -> Submission:
    return receive_submission(body=a_body())


@pytest.fixture
def photo(submission: Submission) -> Photo:
    return take_photo(submission=submission, sent=as_file(halves(800, 600)), question="bolts")


def post(
    submission: Submission,
    sent: bytes | None = None,
    *,
    question: str = "",
    name: str = "photo.jpg",
    declared: str = "image/jpeg",
    client: Client | None = None,
    **headers: Any,
) -> Any:
    file = SimpleUploadedFile(name, as_file() if sent is None else sent, declared)
    address = reverse("photo-add", args=[submission.token])
    return (client or Client()).post(address, {"photo": file, "question": question}, **headers)


def refused(response: HttpResponse, status: int) -> str:
    """One sentence as a problem a program can read."""
    assert (response.status_code, response["Content-Type"]) == (status, "application/problem+json")
    problem = response.json()  # type: ignore[attr-defined]
    assert (problem["status"], problem["type"]) == (status, "about:blank")
    return str(problem["detail"])


def told(response: HttpResponse, submission: Submission) -> list[str]:
    """What a plain form is told on the page it comes back to."""
    assert response.status_code == 302
    assert response["Location"] == f"{reverse('status', args=[submission.token])}#photos"
    return [str(message) for message in get_messages(response.wsgi_request)]  # type: ignore[attr-defined]


# --- Sending --------------------------------------------------------------------------


def test_a_photo_is_taken_and_its_address_told(submission: Submission) -> None:
    response = post(submission, question="flange_od")
    assert response.status_code == 201
    said = response.json()
    kept = Photo.objects.get()
    assert said == {
        "id": kept.ident,
        "url": f"/s/{submission.token}/photos/{kept.ident}/",
        "small": f"/s/{submission.token}/photos/{kept.ident}/small/",
        "question": "flange_od",
    }
    assert response["Location"] == said["url"]
    assert response["Cache-Control"] == "no-store, private"
    assert post(submission, question="bolts").json() == said  # the same picture again


def test_a_plain_form_comes_back_to_the_page(submission: Submission) -> None:
    assert told(post(submission, HTTP_ACCEPT=PAGE), submission) == ["Thank you, the photo is here."]
    sentences = told(post(submission, SVG, HTTP_ACCEPT=PAGE), submission)
    assert sentences == [
        "This is not a picture we can read. Please send a JPEG, PNG or WebP photo."
    ]
    nothing = Client().post(reverse("photo-add", args=[submission.token]), HTTP_ACCEPT=PAGE)
    assert told(nothing, submission) == ["Please choose a picture first."]


@pytest.mark.parametrize(
    ("sent", "says"),
    [
        (b"", "empty"),
        (SVG, "not a picture"),
        (as_file(kind="GIF"), "not a picture"),
        (HEIC, "HEIC"),
        (png_bomb(), "too many pixels"),
        (as_file(halves(600, 400))[:-900], "damaged"),
    ],
    ids=["zero", "svg", "gif", "heic", "bomb", "cut"],
)
def test_a_hostile_file_is_refused_whatever_it_calls_itself(
    submission: Submission, sent: bytes, says: str
) -> None:
    assert says in refused(post(submission, sent), 400)
    assert not photos_of(submission).lines


@pytest.mark.parametrize(
    ("sent", "name", "declared"),
    [
        (as_file(kind="PNG"), "page.html", "text/html"),
        (POLYGLOT, "evil.svg", "image/svg+xml"),
        (animated_webp(), "photo.exe", "application/x-msdownload"),
        (with_place(), "a", ""),
    ],
)
def test_neither_name_nor_declared_type_counts(
    submission: Submission, sent: bytes, name: str, declared: str
) -> None:
    said = post(submission, sent, name=name, declared=declared).json()
    shown = Client().get(said["url"])
    assert shown["Content-Type"] == "image/jpeg"
    assert Image.open(BytesIO(shown.content)).format == "JPEG"
    assert b"<script>" not in shown.content
    assert not Image.open(BytesIO(shown.content)).getexif()


def test_a_name_with_a_path_and_control_characters_is_never_used(submission: Submission) -> None:
    name = b"../../../etc/\x01cron.d/\x7f%0d%0aSet-Cookie: x=1\\..\\a\xc3\xa9.html"
    lines = [
        b"--edge",
        b'Content-Disposition: form-data; name="photo"; filename="' + name + b'"',
        b"Content-Type: text/html",
        b"",
        as_file(),
        b"--edge--",
        b"",
    ]
    response = Client().post(
        reverse("photo-add", args=[submission.token]),
        b"\r\n".join(lines),
        content_type="multipart/form-data; boundary=edge",
    )
    shown = Client().get(response.json()["url"])
    assert shown["Content-Disposition"] == 'inline; filename="photo.jpg"'
    assert "Set-Cookie" not in shown


def test_a_file_a_byte_too_large_is_refused_and_one_that_just_fits_is_taken(
    submission: Submission, settings: Any
) -> None:
    settings.PHOTO_MOST_BYTES = len(as_file())
    assert post(submission).status_code == 201
    said = refused(post(submission, as_file() + b"\0"), 413)
    assert "larger than" in said


def test_nine_megabytes_are_refused_before_they_are_read_into_memory(
    submission: Submission,
) -> None:
    large = as_file() + bytes(9_000_000)
    said = refused(post(submission, large), 413)
    assert said == ("The file is larger than 8 MB. Please send a smaller version of the picture.")
    assert told(post(submission, large, HTTP_ACCEPT=PAGE), submission) == [said]
    huge = Client().post(
        reverse("photo-add", args=[submission.token]),
        b"",
        content_type="multipart/form-data; boundary=edge",
        **{"CONTENT_LENGTH": "9000000000", "wsgi.input": BytesIO()},  # a promise, nothing behind it
    )
    refused(huge, 413)


def test_one_picture_at_a_time_and_never_none(submission: Submission) -> None:
    address = reverse("photo-add", args=[submission.token])
    files = [SimpleUploadedFile("a.jpg", numbered(1)), SimpleUploadedFile("b.jpg", numbered(2))]
    assert "one picture at a time" in refused(Client().post(address, {"photo": files}), 400)
    assert "choose a picture" in refused(Client().post(address, {"photo": "text"}), 400)
    broken = Client().post(address, b"--edge", content_type="multipart/form-data; boundary=edge")
    assert "choose a picture" in refused(broken, 400)
    assert not photos_of(submission).lines


def test_the_seventh_is_told_to_make_room(submission: Submission) -> None:
    for number in range(6):
        assert post(submission, numbered(number)).status_code == 201
    assert "Six photos are enough" in refused(post(submission, numbered(6)), 409)


def test_a_question_that_does_not_exist_is_told(submission: Submission) -> None:
    assert "no question of this name" in refused(post(submission, question="nosuch"), 400)


def test_a_post_from_another_site_is_refused(submission: Submission) -> None:
    browser = Client(enforce_csrf_checks=True)
    assert post(submission, client=browser).status_code == 403
    page = browser.get(reverse("status", args=[submission.token]))
    token = page.cookies["csrftoken"].value
    assert post(submission, client=browser, HTTP_X_CSRFTOKEN=token).status_code == 201
    ident = Photo.objects.get().ident
    gone = reverse("photo-remove", args=[submission.token, ident])
    assert browser.post(gone).status_code == 403
    assert browser.post(gone, {"csrfmiddlewaretoken": token}).status_code == 204


@pytest.fixture
def twice_a_minute(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    cache.clear()
    monkeypatch.setattr(SimpleRateThrottle, "THROTTLE_RATES", {"address": "2/min"})
    monkeypatch.setattr(api.PublicCall, "throttle_classes", [ByAddress])
    yield
    cache.clear()


@pytest.mark.usefixtures("twice_a_minute")
def test_too_many_from_one_address_wait(submission: Submission) -> None:
    assert [post(submission, numbered(n)).status_code for n in range(2)] == [201, 201]
    third = post(submission, numbered(3))
    assert "wait a minute" in refused(third, 429)
    assert 0 < int(third["Retry-After"]) <= 61
    assert post(submission, numbered(3), REMOTE_ADDR="192.0.2.7").status_code == 201


# --- Removing -------------------------------------------------------------------------


def test_the_customer_removes_a_photo(submission: Submission, photo: Photo) -> None:
    address = reverse("photo-remove", args=[submission.token, photo.ident])
    assert Client().get(address).status_code == 405
    page = Client().get(reverse("status", args=[submission.token])).content.decode()
    assert f'action="{address}"' in page
    assert told(Client().post(address, HTTP_ACCEPT=PAGE), submission) == ["The photo is deleted."]
    assert told(Client().post(address, HTTP_ACCEPT=PAGE), submission) == [
        "This photo is gone already."
    ]
    refused(Client().post(address), 404)
    assert Client().get(reverse("photo", args=[submission.token, photo.ident])).status_code == 404


def test_a_photo_stays_once_a_quote_was_accepted(submission: Submission, photo: Photo) -> None:
    move(submission, Status.QUOTED, reason="quoted")
    move(submission, Status.ACCEPTED, reason="accepted")
    address = reverse("photo-remove", args=[submission.token, photo.ident])
    assert "the photos stay" in refused(Client().post(address), 409)
    page = Client().get(reverse("status", args=[submission.token])).content.decode()
    assert address not in page
    assert photo.ident in page


# --- Who may see ----------------------------------------------------------------------

KINDS = pytest.mark.parametrize("kind", ["", "-small"], ids=["large", "small"])


@KINDS
def test_a_stranger_finds_nothing_with_another_link(photo: Photo, kind: str) -> None:
    other = receive_submission(body=a_body(boat="Grumpy Otter"))
    strangers = Client()
    for token in (other.token, NOWHERE):
        assert strangers.get(reverse(f"photo{kind}", args=[token, photo.ident])).status_code == 404
    own = reverse(f"photo{kind}", args=[photo.submission.token, "x" * 22])
    assert strangers.get(own).status_code == 404
    gone = strangers.post(reverse("photo-remove", args=[other.token, photo.ident]))
    assert gone.status_code == 404
    assert strangers.post(reverse("photo-add", args=[NOWHERE])).status_code == 404
    assert len(photos_of(photo.submission)) == 1


@KINDS
def test_staff_need_the_right(photo: Photo, kind: str, client: Client) -> None:
    address = reverse(f"staff-photo{kind}", args=[photo.submission.reference, photo.ident])
    stranger = client.get(address)
    assert (stranger.status_code, stranger["Location"]) == (
        302,
        f"/accounts/login/?next={address}",
    )
    for group, status in (("stranger", 403), ("machinist", 200), ("counter", 200)):
        user = a_person(group)
        client.force_login(user, backend="django.contrib.auth.backends.ModelBackend")
        assert client.get(address).status_code == status
    other = receive_submission(body=a_body(boat="Grumpy Otter"))
    for reference in (other.reference, "FG-NOSUCH"):
        wrong = reverse(f"staff-photo{kind}", args=[reference, photo.ident])
        assert client.get(wrong).status_code == 404


@KINDS
def test_both_doors_show_the_same_bytes_and_tell_the_browser_to_run_nothing(
    photo: Photo, kind: str, client: Client
) -> None:
    client.force_login(a_person(), backend="django.contrib.auth.backends.ModelBackend")
    submission = photo.submission
    mine = Client().get(reverse(f"photo{kind}", args=[submission.token, photo.ident]))
    staff = client.get(reverse(f"staff-photo{kind}", args=[submission.reference, photo.ident]))
    assert mine.content == staff.content == bytes(photo.small if kind else photo.content)
    for shown, kept in ((mine, "private, max-age=3600"), (staff, "private, no-store")):
        assert shown["Content-Type"] == "image/jpeg"
        assert shown["X-Content-Type-Options"] == "nosniff"
        assert shown["Content-Disposition"] == 'inline; filename="photo.jpg"'
        assert shown["Content-Security-Policy"] == (
            "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'; sandbox"
        )
        assert shown["Cross-Origin-Resource-Policy"] == "same-origin"
        assert shown["X-Robots-Tag"].startswith("noindex")
        assert shown["Cache-Control"] == kept


# --- On the pages ---------------------------------------------------------------------


def test_staff_see_photos_beside_the_sheet_and_beside_the_call(client: Client) -> None:
    submission = receive_submission(body=a_body(**SHORT))
    photo = take_photo(submission=submission, sent=as_file(), question="bolts")
    client.force_login(a_person(), backend="django.contrib.auth.backends.ModelBackend")
    at = [submission.reference, photo.ident]
    for name in ("submission", "record-call"):
        page = client.get(reverse(name, args=[submission.reference]), follow=True).content.decode()
        assert f'href="{reverse("staff-photo", args=at)}"' in page
        assert f'src="{reverse("staff-photo-small", args=at)}"' in page
        assert "Photo 1: Flange bolts" in page


@pytest.mark.parametrize("name", ["status", "submission"])
def test_six_photos_cost_no_more_queries_than_one(
    name: str, submission: Submission, client: Client
) -> None:
    client.force_login(a_person(), backend="django.contrib.auth.backends.ModelBackend")
    at = [submission.token if name == "status" else submission.reference]
    counts = []
    for most in (1, 6):
        for number in range(most):
            take_photo(submission=submission, sent=numbered(number))
        with CaptureQueriesContext(connection) as asked:
            assert client.get(reverse(name, args=at)).status_code == 200
        counts.append(len(asked))
        assert not any('"intake_photo"."small"' in query["sql"] for query in asked)
    assert counts[0] == counts[1]


def test_one_photo_is_two_queries(photo: Photo, django_assert_num_queries: Any) -> None:
    address = reverse("photo-small", args=[photo.submission.token, photo.ident])
    with django_assert_num_queries(2):
        assert Client().get(address).status_code == 200


def test_a_link_that_has_run_out_shows_and_takes_nothing(photo: Photo, settings: Any) -> None:
    settings.LINK_DAYS = -1
    submission = photo.submission
    address = reverse("photo", args=[submission.token, photo.ident])
    assert Client().get(address).status_code == 404
    assert "run out" in refused(post(submission, numbered(1)), 410)
    assert "run out" in refused(Client().post(f"{address}remove/"), 410)
    assert told(post(submission, numbered(1), HTTP_ACCEPT=PAGE), submission)
    assert len(photos_of(submission)) == 1


def test_a_photo_of_what_is_read_blind_is_not_on_the_page_meanwhile(client: Client) -> None:
    one_way = ("old_length_face_to_thread", "tail_to_thread")
    submission = receive_submission(body=a_body(**dict.fromkeys(one_way)))
    shows = take_photo(submission=submission, sent=numbered(1), question="face_to_strut_aft")
    other = take_photo(submission=submission, sent=numbered(2), question="bolts")
    page = client.get(reverse("status", args=[submission.token])).content.decode()
    assert 'name="start_mark"' in page  # the second reading is asked for
    assert shows.ident not in page
    assert other.ident in page
    assert "1 photo of what is to be measured afresh comes back" in page
    assert [line.ident for line in photos_of(submission)] == [shows.ident, other.ident]
