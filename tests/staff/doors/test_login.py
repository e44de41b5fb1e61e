"""The door: what half a login may do, what is said to strangers, what the log keeps."""

from __future__ import annotations

import logging
from collections.abc import Iterator
from datetime import timedelta
from typing import Any

import pytest
import time_machine
from django.contrib.auth.models import User
from django.test import Client
from django.utils import timezone

from staff.accounts import services as accounts
from staff.doors import half
from staff.models import Account, Seat
from tests.staff.given import (
    CODE,
    LOGIN,
    PASSWORD,
    a_manager,
    a_member,
    code_of,
    logged_in,
    with_second,
)

pytestmark = pytest.mark.django_db
STAFF_DOORS = ["/accounts/login/", "/admin/login/"]


@pytest.fixture
def maud() -> User:
    return a_member("maud")


def half_in(person: User, door: str = LOGIN, then: str = "/staff/me/") -> Client:
    client = Client()
    given = {"username": person.username, "password": PASSWORD, "next": then}
    answer = client.post(door, given)
    assert (answer.status_code, answer["Location"]) == (302, CODE)
    return client


def test_the_password_alone_is_enough_without_a_second_factor(maud: User) -> None:
    assert logged_in(maud).get("/staff/me/").status_code == 200


@pytest.mark.parametrize("door", STAFF_DOORS)
def test_half_a_login_opens_nothing(door: str) -> None:
    percival = a_manager()
    with_second(percival)
    client = half_in(percival, door)
    for page in ("/admin/", "/desk/", "/staff/me/", "/staff/people/", "/catalog/", "/insights/"):
        answer = client.get(page)
        assert (answer.status_code, "login" in answer["Location"]) == (302, True), page
    assert not client.get("/").context["user"].is_authenticated
    assert not Seat.objects.exists()


def test_the_code_completes_it_and_leads_on(maud: User) -> None:
    with_second(maud)
    client = half_in(maud, then="/staff/me/?from=door")
    answer = client.post(CODE, {"code": code_of(maud, later=1)})
    assert (answer.status_code, answer["Location"]) == (302, "/staff/me/?from=door")
    assert client.get("/staff/me/").status_code == 200


def test_a_wrong_code_is_refused_and_the_sixth_has_to_wait(maud: User) -> None:
    with_second(maud)
    client = half_in(maud)
    pages = [client.post(CODE, {"code": "000000"}) for _ in range(6)]
    assert [page.status_code for page in pages] == [422] * 6
    assert "is not right" in pages[4].content.decode()
    assert "quarter of an hour" in pages[5].content.decode()


def test_a_recovery_code_logs_in_and_says_how_many_are_left(maud: User) -> None:
    codes = with_second(maud)
    client = half_in(maud)
    page = client.post(CODE, {"code": codes[0]}, follow=True)
    assert "9 recovery codes are left" in page.content.decode()


def test_half_a_login_lasts_five_minutes(maud: User) -> None:
    with_second(maud)
    client = half_in(maud)
    with time_machine.travel(timezone.now() + timedelta(seconds=half.HOLDS_SECONDS + 1)):
        answer = client.post(CODE, {"code": code_of(maud)})
    assert (answer.status_code, answer["Location"]) == (302, LOGIN)


def test_half_a_login_ends_when_the_password_is_reset(maud: User) -> None:
    with_second(maud)
    client = half_in(maud)
    accounts.reset_password(person=maud, seen=0, by=a_manager(), why="stolen")
    assert client.post(CODE, {"code": code_of(maud, later=1)})["Location"] == LOGIN


def test_the_code_page_is_nothing_without_the_password() -> None:
    assert Client().get(CODE)["Location"] == LOGIN


@pytest.mark.parametrize("second", [False, True])
def test_the_sessions_key_changes_at_each_step(maud: User, second: bool) -> None:
    codes = with_second(maud) if second else []
    client = Client()
    client.get(LOGIN)
    session = client.session
    session["before"] = "the login"
    session.save()
    client.cookies["sessionid"] = session.session_key
    keys = [session.session_key]
    client.post(LOGIN, {"username": "maud", "password": PASSWORD})
    keys.append(client.cookies["sessionid"].value)
    if codes:
        client.post(CODE, {"code": codes[0]})
        keys.append(client.cookies["sessionid"].value)
    assert len(set(keys)) == len(keys)
    assert client.get("/staff/me/").status_code == 200


def test_who_logs_in_over_somebody_else_ends_their_login(maud: User) -> None:
    client = logged_in(maud)
    a_member("iolo")
    client.post(LOGIN, {"username": "iolo", "password": PASSWORD})
    assert client.get("/staff/me/").context["user"].username == "iolo"
    assert Seat.objects.filter(user=maud, ended_at=None).count() == 0


@pytest.mark.parametrize(
    ("name", "password"), [("maud", "wrong"), ("nobody", PASSWORD), ("closed", PASSWORD)]
)
def test_every_refusal_sounds_the_same(maud: User, name: str, password: str) -> None:
    a_member("closed", is_active=False)
    page = Client().post(LOGIN, {"username": name, "password": password})
    same = Client().post(LOGIN, {"username": "somebody", "password": "else"})
    assert page.status_code == same.status_code == 200
    assert heard(page, name) == heard(same, "somebody")


def heard(page: Any, name: str) -> str:
    """The page without what is new on each: the token and the name that was typed."""
    text = page.content.decode().replace(f'value="{name}"', "")
    return "".join(line for line in text.splitlines() if "csrfmiddlewaretoken" not in line)


def test_next_leads_nowhere_else(maud: User) -> None:
    client = Client()
    given = {"username": "maud", "password": PASSWORD, "next": "https://elsewhere.example/"}
    assert client.post(LOGIN, given)["Location"] == "/desk/"


def test_a_one_time_password_is_good_for_three_days(maud: User) -> None:
    told = accounts.reset_password(person=maud, seen=0, by=a_manager(), why="forgotten")
    late = timezone.now() + accounts.ONE_TIME_HOLDS + timedelta(minutes=1)
    Account.objects.filter(user=maud).update(one_time_until=timezone.now() - timedelta(minutes=1))
    assert Client().post(LOGIN, {"username": "maud", "password": told}).status_code == 200
    Account.objects.filter(user=maud).update(one_time_until=late)
    assert Client().post(LOGIN, {"username": "maud", "password": told}).status_code == 302


@pytest.fixture
def told(caplog: pytest.LogCaptureFixture) -> Iterator[pytest.LogCaptureFixture]:
    with caplog.at_level(logging.INFO, "staff.security"):
        yield caplog


def test_the_log_tells_who_came_and_who_was_refused(
    maud: User, told: pytest.LogCaptureFixture
) -> None:
    client = Client()
    client.post(LOGIN, {"username": "hunter2-in-the-wrong-box", "password": "wrong"})
    client.post(LOGIN, {"username": "maud", "password": PASSWORD})
    client.post("/accounts/logout/")
    lines = [record.getMessage() for record in told.records if record.name == "staff.security"]
    assert [line.split()[0] for line in lines] == ["login-refused", "login", "logout"]
    assert f"person={maud.pk} address=127.0.0.1" in lines[1]


def test_the_log_tells_who_was_not_allowed_and_who_took_a_list(
    maud: User, told: pytest.LogCaptureFixture
) -> None:
    client = logged_in(maud)
    assert client.get("/staff/people/").status_code == 403
    assert client.get("/desk/requests/list.csv").status_code == 200
    lines = [record.getMessage() for record in told.records if record.name == "staff.security"]
    assert lines[-2:] == [
        f"not-allowed person={maud.pk} address=127.0.0.1 page=people",
        f"list-taken person={maud.pk} address=127.0.0.1",
    ]


def test_the_log_keeps_no_secret(maud: User, told: pytest.LogCaptureFixture) -> None:
    codes = with_second(maud)
    client = half_in(maud)
    client.post(CODE, {"code": "123123"})
    client.post(CODE, {"code": codes[0]})
    one_time = accounts.reset_password(person=maud, seen=0, by=a_manager(), why="forgotten")
    text = "\n".join(record.getMessage() for record in told.records)
    assert "second-recovery" in text
    for secret in (PASSWORD, "123123", codes[0], one_time):
        assert secret not in text
