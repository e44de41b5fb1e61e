"""Locked, ended, or first something else: what each request of a seat is answered."""

from __future__ import annotations

import json
import re
from datetime import timedelta
from typing import Any

import pytest
import time_machine
from django.contrib.auth.models import User
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import URLPattern, URLResolver, get_resolver
from django.utils import timezone

from staff.models import Seat
from staff.seats import services as seats
from staff.second import services as second
from tests.staff.given import (
    CODE,
    LOGIN,
    PASSWORD,
    UNLOCK,
    a_manager,
    a_member,
    code_of,
    logged_in,
    with_second,
)

pytestmark = pytest.mark.django_db
PAGES = ["/desk/", "/catalog/", "/insights/", "/limits/", "/checks/", "/admin/", "/staff/people/"]
SCRIPTS = [
    {"HX-Request": "true"},
    {"X-Requested-With": "XMLHttpRequest"},
    {"Sec-Fetch-Mode": "cors"},
    {"X-Background": "1"},
    {"Accept": "*/*"},
]


def after(**later: float) -> Any:
    return time_machine.travel(timezone.now() + timedelta(**later), tick=False)


@pytest.fixture
def percival() -> User:
    return a_manager()


@pytest.fixture
def desk(percival: User) -> Client:
    return logged_in(percival)


# --- Idle, locked, unlocked -----------------------------------------------------------


@pytest.mark.parametrize("page", PAGES)
def test_an_idle_desk_answers_with_the_lock(desk: Client, page: str) -> None:
    with after(minutes=15):
        answer = desk.get(f"{page}?boat=otter")
    assert answer.status_code == 302
    assert answer["Location"] == f"{UNLOCK}?next={page}%3Fboat%3Dotter"


def test_just_before_it_is_open(desk: Client) -> None:
    with after(minutes=14, seconds=58):
        assert desk.get("/catalog/").status_code == 200


def test_who_does_something_stays(desk: Client) -> None:
    for minutes in (10, 20, 30):
        with after(minutes=minutes):
            assert desk.get("/catalog/").status_code == 200


@pytest.mark.parametrize("heads", SCRIPTS)
def test_a_script_is_told_and_nothing_is_taken(desk: Client, heads: dict[str, str]) -> None:
    with after(minutes=16):
        answer = desk.post("/limits/adopt/", {"name": "tighter"}, headers=heads)
    assert answer.status_code == 423
    assert answer["Content-Type"] == "application/problem+json"
    assert answer.json()["title"] == "The desk is locked"
    assert answer["HX-Reswap"] == "none"
    assert "desk:locked" in json.loads(answer["HX-Trigger"])


def test_a_form_that_was_sent_says_that_it_was_not_stored(desk: Client) -> None:
    with after(minutes=16):
        answer = desk.post(
            "/limits/adopt/", {"name": "x"}, headers={"Referer": "http://testserver/limits/?a=1"}
        )
        assert answer["Location"] == f"{UNLOCK}?next=/limits/%3Fa%3D1&sent=held"
        page = desk.get(answer["Location"]).content.decode()
    assert "was not stored yet" in page


def test_what_was_sent_to_a_locked_desk_is_sent_again_after_it(desk: Client) -> None:
    seats.lock(Seat.objects.get().pk)
    typed = {"make-name": "bronagh", "make-group": "machinist", "make-why": "", "make-proof": "x"}
    locked = desk.post("/staff/people/new/?from=here", typed)
    assert "bronagh" not in desk.get(locked["Location"]).content.decode()
    assert desk.get("/accounts/unlock/held/").status_code == 302  # locked is locked
    answer = desk.post(UNLOCK, {"password": PASSWORD})
    assert answer["Location"] == "/accounts/unlock/held/"
    page = desk.get("/accounts/unlock/held/")
    assert page.context["held"]["pairs"] == [
        ["make-name", "bronagh"], ["make-group", "machinist"], ["make-why", ""],
    ]  # fmt: skip
    assert page.context["shown"] == [("name", "bronagh"), ("group", "machinist")]
    answer = desk.post("/accounts/unlock/held/", typed)
    assert (answer.status_code, answer["Location"]) == (307, "/staff/people/new/?from=here")
    assert desk.get("/accounts/unlock/held/")["Location"] == "/desk/"


@pytest.mark.parametrize("page", ["/staff/me/password/", "/staff/me/second/"])
def test_passwords_and_codes_are_not_held(desk: Client, page: str) -> None:
    seats.lock(Seat.objects.get().pk)
    desk.post(page, {"proof": PASSWORD, "new": "herrings", "code": "123456"})
    desk.post("/admin/password_change/", {"old_password": PASSWORD, "new_password1": "herrings"})
    kept = str(dict(desk.session))
    assert not [secret for secret in (PASSWORD, "herrings", "123456") if secret in kept]


def test_a_reading_taken_again_is_held(desk: Client) -> None:
    seats.lock(Seat.objects.get().pk)
    desk.post("/limits/adopt/", {"answers.gap_now.again.text": "3/4", "code": "BH-1000"})
    assert desk.session["held"]["pairs"] == [
        ["answers.gap_now.again.text", "3/4"], ["code", "BH-1000"],
    ]  # fmt: skip


def test_what_is_wanted_no_more_is_dropped(desk: Client) -> None:
    seats.lock(Seat.objects.get().pk)
    desk.post("/limits/adopt/", {"name": "x"})
    desk.post(UNLOCK, {"password": PASSWORD})
    assert desk.post("/accounts/unlock/held/", {"held-dropped": "1"})["Location"] == "/desk/"
    assert "held" not in desk.session


@pytest.mark.parametrize("form", [{"a": SimpleUploadedFile("a.csv", b"1")}, {"a": "x" * 200_001}])
def test_what_cannot_be_held_is_said_so(desk: Client, form: dict[str, Any]) -> None:
    seats.lock(Seat.objects.get().pk)
    answer = desk.post("/limits/adopt/", form)
    assert answer["Location"].endswith("sent=lost")
    assert "go back in the browser" in desk.get(answer["Location"]).content.decode()


@pytest.mark.parametrize("name", ["here", "poll"])
def test_what_a_page_asks_by_itself_is_no_sign_of_a_person(
    desk: Client, name: str, settings: Any
) -> None:
    settings.BACKGROUND_PAGES = frozenset({"catalog"} if name == "poll" else ())
    heads = {} if name == "poll" else {"X-Background": "1"}
    with after(minutes=10):
        assert desk.get("/catalog/", headers=heads).status_code == 200
    with after(minutes=16):
        assert desk.get("/checks/").status_code == 302


def test_customers_pages_stay_open_beside_a_locked_desk(desk: Client) -> None:
    with after(minutes=16):
        for page in ("/", "/guided/", "/standards/"):
            answer = desk.get(page)
            assert answer.status_code == 200
            assert "Log out" not in answer.content.decode()


def test_a_locked_desk_has_no_rights_on_any_page(desk: Client) -> None:
    seats.lock(Seat.objects.get().pk)
    assert not desk.get("/").context["user"].is_authenticated


def test_the_password_opens_it_where_one_was(desk: Client) -> None:
    key = desk.cookies["sessionid"].value
    token = desk.get("/catalog/").wsgi_request.META["CSRF_COOKIE"]
    with after(minutes=16):
        page = desk.get(UNLOCK, {"next": "/catalog/?kind=bar"})
        assert "percival is logged in here" in page.content.decode()
        answer = desk.post(UNLOCK, {"password": PASSWORD, "next": "/catalog/?kind=bar"})
        assert answer["Location"] == "/catalog/?kind=bar"
        page = desk.get("/catalog/?kind=bar")
    assert page.status_code == 200
    assert desk.cookies["sessionid"].value != key  # a new proof, a new key
    assert page.wsgi_request.META["CSRF_COOKIE"] == token  # forms open elsewhere still hold


@pytest.mark.parametrize("code", [True, False])
def test_a_code_opens_it_too(percival: User, code: bool) -> None:
    codes = with_second(percival)
    desk = logged_in(percival)
    seats.lock(Seat.objects.get(ended_at=None).pk)
    given = codes[0] if code else "000000"
    answer = desk.post(UNLOCK, {"code": given, "next": "/catalog/"})
    assert answer.status_code == (302 if code else 422)
    assert desk.get("/catalog/").status_code == (200 if code else 302)


def test_a_wrong_password_leaves_it_locked_and_five_close_the_door(desk: Client) -> None:
    seats.lock(Seat.objects.get().pk)
    tries = [desk.post(UNLOCK, {"password": f"guess {n}"}).status_code for n in range(5)]
    assert tries == [422, 422, 422, 422, 429]
    assert desk.post(UNLOCK, {"password": PASSWORD}).status_code == 429
    assert desk.get("/catalog/").status_code == 302


def test_somebody_elses_password_does_not_open_it(desk: Client) -> None:
    iolo = a_member("iolo")
    iolo.set_password("another-long-password")
    iolo.save()
    seats.lock(Seat.objects.get().pk)
    assert desk.post(UNLOCK, {"password": "another-long-password"}).status_code == 422


def test_lock_now(desk: Client) -> None:
    answer = desk.post("/accounts/lock/", headers={"Referer": "http://testserver/catalog/"})
    assert answer["Location"] == f"{UNLOCK}?next=/catalog/"
    assert desk.get("/catalog/").status_code == 302
    assert desk.get("/accounts/lock/").status_code == 405


def test_a_request_on_its_way_does_not_wake_a_desk_locked_by_hand(desk: Client) -> None:
    seat = Seat.objects.get()
    Seat.objects.filter(pk=seat.pk).update(locked_at=timezone.now())
    seats.stay(seat, timezone.now() + timedelta(minutes=5))
    assert Seat.objects.get().active_at == seat.active_at


def test_somebody_else_takes_the_desk_over(desk: Client, percival: User) -> None:
    a_member("iolo")
    seats.lock(Seat.objects.get().pk)
    page = desk.get(UNLOCK, {"next": "/catalog/"}).content.decode()
    switch = re.search(r'name="next" value="(/accounts/login/[^"]*)"', page)
    assert switch
    answer = desk.post("/accounts/logout/", {"next": switch[1].replace("&amp;", "&")})
    assert answer["Location"] == f"{LOGIN}?next=/catalog/"
    desk.post(LOGIN, {"username": "iolo", "password": PASSWORD})
    assert desk.get("/catalog/").context["user"].username == "iolo"
    assert not Seat.objects.filter(user=percival, ended_at=None).exists()


def test_the_login_page_of_a_locked_desk_is_the_lock(desk: Client) -> None:
    seats.lock(Seat.objects.get().pk)
    assert desk.get(LOGIN, {"next": "/desk/"})["Location"] == f"{UNLOCK}?next=/desk/"


@pytest.mark.parametrize(
    "bad", ["https://elsewhere.example/", "//elsewhere.example", "javascript:x"]
)
def test_the_lock_leads_nowhere_else(desk: Client, bad: str) -> None:
    seats.lock(Seat.objects.get().pk)
    assert desk.post(UNLOCK, {"password": PASSWORD, "next": bad})["Location"] == "/desk/"


def test_the_lock_without_a_login_is_the_login() -> None:
    assert Client().get(UNLOCK)["Location"].startswith(LOGIN)


# --- The end of a login ---------------------------------------------------------------


def test_a_login_lasts_twelve_hours_however_busy(desk: Client) -> None:
    Seat.objects.update(since=timezone.now() - timedelta(hours=11, minutes=59))
    assert desk.get("/catalog/").status_code == 200
    Seat.objects.update(since=timezone.now() - timedelta(hours=12))
    assert desk.get("/catalog/")["Location"] == f"{LOGIN}?next=/catalog/"


@pytest.mark.parametrize(
    "engine",
    [
        "django.contrib.sessions.backends.db",
        "django.contrib.sessions.backends.cached_db",
        "django.contrib.sessions.backends.cache",
    ],
)
def test_an_ended_login_is_over_wherever_sessions_are_kept(
    engine: str, settings: Any, percival: User
) -> None:
    settings.SESSION_ENGINE = engine
    desk = logged_in(percival)
    assert desk.get("/catalog/").status_code == 200
    seats.end(Seat.objects.get().pk, person=percival, why="stolen")
    assert desk.get("/catalog/")["Location"] == f"{LOGIN}?next=/catalog/"
    assert not desk.get("/").context["user"].is_authenticated


def test_a_script_of_an_ended_login_is_told(desk: Client, percival: User) -> None:
    seats.end_all(percival, why="stolen")
    answer = desk.get("/catalog/", headers={"HX-Request": "true"})
    assert (answer.status_code, answer.json()["title"]) == (401, "This login has ended")


def test_a_session_without_a_seat_is_nobodys(desk: Client) -> None:
    session = desk.session
    del session["seat"]
    session.save()
    assert desk.get("/catalog/")["Location"].startswith(LOGIN)


def test_somebody_elses_seat_is_no_seat(desk: Client) -> None:
    logged_in(a_member("iolo"))
    session = desk.session
    session["seat"] = Seat.objects.get(user__username="iolo").pk
    session.save()
    assert desk.get("/catalog/")["Location"].startswith(LOGIN)


def test_a_login_from_before_the_second_factor_is_over(percival: User, desk: Client) -> None:
    with_second(percival)
    assert desk.get("/catalog/")["Location"].startswith(LOGIN)


def test_a_new_site_key_with_the_old_as_fallback_ends_no_login(desk: Client, settings: Any) -> None:
    settings.SECRET_KEY_FALLBACKS = [settings.SECRET_KEY]
    settings.SECRET_KEY = "another key altogether"
    assert desk.get("/catalog/").status_code == 200


def test_long_ended_seats_are_thrown_away(percival: User, desk: Client) -> None:
    Seat.objects.update(since=timezone.now() - timedelta(days=91), ended_at=timezone.now())
    logged_in(percival)
    assert Seat.objects.count() == 1


# --- First something else -------------------------------------------------------------


def test_who_must_have_a_second_factor_sets_it_up_first(desk: Client, percival: User) -> None:
    second.require(everyone=True, groups=[], by=percival, why="safer", seen=0)
    for page in (*PAGES, "/staff/me/", "/staff/me/password/"):
        assert desk.get(page)["Location"] == "/staff/me/second/", page
    assert desk.get("/staff/me/second/").status_code == 200
    assert not desk.get("/").context["user"].is_authenticated
    answer = desk.get("/catalog/", headers={"HX-Request": "true"})
    assert (answer.status_code, answer.json()["title"]) == (403, "A second factor first")


def test_who_is_not_asked_goes_on(percival: User) -> None:
    desk = logged_in(a_member("iolo"))
    second.require(everyone=False, groups=["manager"], by=percival, why="safer", seen=0)
    assert desk.get("/catalog/").status_code == 200


def test_who_has_one_goes_on(percival: User) -> None:
    second.require(everyone=True, groups=[], by=percival, why="safer", seen=0)
    with_second(percival)
    desk = logged_in(percival)
    assert desk.get("/catalog/").status_code == 200


# --- What it costs --------------------------------------------------------------------


def test_a_seat_costs_no_query_more_than_a_person_did(
    desk: Client, django_assert_num_queries: Any
) -> None:
    # Session, seat with its person, parts, the prices that hold today.
    with django_assert_num_queries(4):
        desk.get("/catalog/parts.csv")


def test_being_seen_is_written_once_a_minute(desk: Client, django_assert_num_queries: Any) -> None:
    with after(seconds=61), django_assert_num_queries(5):
        desk.get("/catalog/parts.csv")
    with after(seconds=62), django_assert_num_queries(4):
        desk.get("/catalog/parts.csv")


@pytest.mark.parametrize("page", ["/standards/", "/api/v1/openapi.json", "/health/live"])
def test_customers_and_programs_pay_nothing(
    page: str, client: Client, django_assert_num_queries: Any
) -> None:
    with django_assert_num_queries(0):
        assert client.get(page).status_code == 200


def test_the_public_api_asks_for_no_session(client: Client, django_assert_num_queries: Any) -> None:
    body = {"text": "58 5/8", "question": "face_to_strut_aft", "unit": "in"}
    with django_assert_num_queries(0):
        answer = client.post("/api/v1/read-length/", body, content_type="application/json")
    assert answer.status_code == 200
    assert not answer.wsgi_request.session.accessed


# --- No page is forgotten -------------------------------------------------------------


def test_every_page_that_asks_for_a_login_can_be_locked(client: Client, settings: Any) -> None:
    asks = [page for page in addresses() if is_led_to_the_door(client, page)]
    assert len(asks) > 20
    assert [page for page in asks if not page.startswith(settings.STAFF_PAGES)] == []


def is_led_to_the_door(client: Client, page: str) -> bool:
    answer = client.get(page)
    return answer.status_code == 302 and answer["Location"].startswith((LOGIN, "/admin/login"))


def addresses() -> list[str]:
    """One example of every address, with something harmless in its holes."""
    fills = {"int": "1", "str": "x", "slug": "x", "path": "x", "uuid": "0" * 32}
    found = []

    def walk(patterns: list[Any], start: str) -> None:
        for one in patterns:
            route = start + re.sub(
                r"<(?:(\w+):)?\w+>", lambda m: fills.get(m[1] or "str", "x"), str(one.pattern)
            )
            if isinstance(one, URLResolver):
                walk(one.url_patterns, route)
            elif isinstance(one, URLPattern) and not set(route) & set("^$\\(?"):
                found.append(f"/{route}")

    walk(get_resolver().url_patterns, "")
    return [page for page in found if not page.startswith((CODE, UNLOCK))]


def test_codes_do_not_open_the_desk_of_who_has_none(desk: Client) -> None:
    seats.lock(Seat.objects.get().pk)
    assert desk.post(UNLOCK, {"code": "000000"}).status_code == 422


def test_the_code_that_opened_the_door_does_not_unlock(percival: User) -> None:
    with after(seconds=0):
        with_second(percival)
        desk = logged_in(percival)
        seats.lock(Seat.objects.get(ended_at=None).pk)
        assert desk.post(UNLOCK, {"code": code_of(percival, later=1)}).status_code == 422
