"""One's own account: password, second factor, logins."""

from __future__ import annotations

import re
from typing import Any

import pytest
import time_machine
from django.contrib.auth.models import User
from django.test import Client
from django.utils import timezone

from staff.models import Seat
from staff.second import selectors as factors
from staff.second import services as second
from staff.trail.selectors import changes_of
from tests.staff.given import (
    LOGIN,
    PASSWORD,
    a_manager,
    a_member,
    code_of,
    factor,
    gets_in,
    logged_in,
    proposed_code,
    with_second,
)

pytestmark = pytest.mark.django_db
ME, SECOND, OWN_PASSWORD = "/staff/me/", "/staff/me/second/", "/staff/me/password/"
NEW = "seventeen herrings"


@pytest.fixture
def maud() -> User:
    return a_member("maud")


@pytest.fixture
def desk(maud: User) -> Client:
    return logged_in(maud)


def test_a_stranger_is_sent_to_the_door(client: Client) -> None:
    for page in (ME, SECOND, OWN_PASSWORD):
        assert client.get(page)["Location"].startswith(LOGIN)


# --- Password ---------------------------------------------------------------------------


def change(client: Client, **changes: str) -> Any:
    return client.post(OWN_PASSWORD, {"proof": PASSWORD, "new": NEW, "again": NEW, **changes})


def test_a_new_password_ends_every_other_login(maud: User, desk: Client) -> None:
    other = logged_in(maud)
    key = desk.cookies["sessionid"].value
    assert change(desk)["Location"] == ME
    assert desk.get(ME).status_code == 200
    assert desk.cookies["sessionid"].value != key
    assert other.get(ME)["Location"].startswith(LOGIN)
    assert gets_in("maud", NEW)
    assert changes_of("account", maud.pk)[0].what == {"password": ["earlier", "changed"]}


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"proof": "wrong"}, "not your password"),
        ({"again": "seventeen herring"}, "differ"),
        ({"new": "short", "again": "short"}, "at least 12 characters"),
        ({"new": "123456789012345", "again": "123456789012345"}, "entirely numeric"),
        ({"new": PASSWORD, "again": PASSWORD}, "the password you have"),
        ({"new": "qwerty123456", "again": "qwerty123456"}, "too common"),
    ],
)
def test_a_password_that_does_not_do_says_why(
    desk: Client, changes: dict[str, str], said: str
) -> None:
    page = change(desk, **changes)
    assert page.status_code == 422
    assert said in page.content.decode()
    assert NEW not in page.content.decode()
    assert gets_in("maud", PASSWORD)


# --- Second factor ----------------------------------------------------------------------


def begin(client: Client, **more: str) -> Any:
    return client.post(SECOND, {"what": "begin", "begin-proof": PASSWORD, **more})


def confirm(client: Client, code: str) -> Any:
    return client.post(SECOND, {"what": "confirm", "code": code})


def codes_on(page: Any) -> list[str]:
    return re.findall(r"<code>([^<]+)</code>", page.content.decode())


def test_it_is_set_up_with_the_password_the_square_and_a_code(maud: User, desk: Client) -> None:
    other = logged_in(maud)
    assert begin(desk)["Location"] == SECOND
    page = desk.get(SECOND)
    assert "<path class=" in page.content.decode()
    assert "no-store" in page["Cache-Control"]
    page = confirm(desk, proposed_code(maud))
    assert len(codes_on(page)) == 10
    assert "no-store" in page["Cache-Control"]
    assert desk.get(ME).status_code == 200  # this login goes on, the others are over
    assert other.get(ME)["Location"].startswith(LOGIN)
    assert 'viewBox="0 0' not in desk.get(SECOND).content.decode().split("<main")[1]


def test_the_square_needs_the_password(desk: Client, maud: User) -> None:
    page = desk.post(SECOND, {"what": "begin", "begin-proof": "wrong"})
    assert page.status_code == 422
    assert not factors.factor_of(maud).proposed


def test_the_square_and_the_letters_say_the_same(desk: Client, maud: User) -> None:
    begin(desk)
    text = desk.get(SECOND).content.decode()
    secret = re.search(r'<code class="staff-secret">([^<]+)</code>', text)
    assert secret
    assert len(secret[1].replace(" ", "")) == 32


def test_a_wrong_code_does_not_confirm(desk: Client, maud: User) -> None:
    begin(desk)
    page = confirm(desk, "000000")
    assert page.status_code == 422
    assert "not the code" in page.content.decode()
    assert not factors.has_factor(maud)


def test_whoever_is_led_here_goes_on_when_it_is_set_up(maud: User, desk: Client) -> None:
    second.require(everyone=True, groups=[], by=a_manager(), why="safer", seen=0)
    assert desk.get("/catalog/")["Location"] == SECOND
    begin(desk)
    confirm(desk, proposed_code(maud))
    assert desk.get("/catalog/").status_code == 200


def test_another_phone_needs_a_code_of_the_one_before(maud: User) -> None:
    codes = with_second(maud)
    desk = logged_in(maud)
    assert begin(desk).status_code == 422
    assert begin(desk, **{"begin-code": "000000"}).status_code == 422
    before = factor(maud).salt
    assert begin(desk, **{"begin-code": codes[0]})["Location"] == SECOND
    assert factor(maud).salt == before
    confirm(desk, proposed_code(maud))
    assert factor(maud).salt != before
    assert desk.get(ME).status_code == 200


def test_new_recovery_codes(maud: User) -> None:
    codes = with_second(maud)
    desk = logged_in(maud)
    given = {"what": "codes", "codes-proof": PASSWORD, "codes-code": codes[0]}
    new = codes_on(desk.post(SECOND, given))
    assert len(new) == 10
    assert not set(new) & set(codes)


@pytest.mark.parametrize("is_required", [True, False])
def test_it_is_turned_off_unless_it_is_asked_for(maud: User, is_required: bool) -> None:
    codes = with_second(maud)
    desk = logged_in(maud)
    second.require(everyone=is_required, groups=[], by=a_manager(), why="safer", seen=0)
    assert ("Turn it off" in desk.get(SECOND).content.decode()) is not is_required
    desk.post(SECOND, {"what": "off", "off-proof": PASSWORD, "off-code": codes[0]})
    assert factors.has_factor(maud) is is_required


def test_setting_up_changes_the_sessions_key(maud: User, desk: Client) -> None:
    key = desk.cookies["sessionid"].value
    begin(desk)
    confirm(desk, proposed_code(maud))
    assert desk.cookies["sessionid"].value != key


# --- Logins -----------------------------------------------------------------------------


def test_ones_logins_are_listed_in_plain_words(maud: User, desk: Client) -> None:
    logged_in(maud, **{"user-agent": "curl/8"})
    text = desk.get(ME).content.decode()
    assert "Firefox on Linux" in text
    assert "a browser we do not know" in text
    assert text.count("this one") == 1
    assert "127.0.0.1" in text


def test_one_login_is_ended(maud: User, desk: Client) -> None:
    other = logged_in(maud)
    seat = Seat.objects.order_by("pk").last()
    assert seat
    desk.post(f"{ME}sessions/{seat.pk}/end/")
    assert other.get(ME)["Location"].startswith(LOGIN)
    assert desk.get(ME).status_code == 200


def test_all_others_are_ended(maud: User, desk: Client) -> None:
    others = [logged_in(maud) for _ in range(2)]
    desk.post(f"{ME}sessions/end-others/")
    assert [one.get(ME).status_code for one in (*others, desk)] == [302, 302, 200]


def test_nobody_ends_somebody_elses_login_here(maud: User, desk: Client) -> None:
    other = logged_in(a_member("iolo"))
    seat = Seat.objects.get(user__username="iolo")
    desk.post(f"{ME}sessions/{seat.pk}/end/")
    assert other.get(ME).status_code == 200


def test_logging_out_ends_the_seat(maud: User, desk: Client) -> None:
    answer = desk.post("/accounts/logout/")
    assert answer["Clear-Site-Data"] == '"cache"'
    assert Seat.objects.filter(ended_at=None).count() == 0


def test_the_code_that_opened_the_door_opens_no_form(maud: User) -> None:
    with time_machine.travel(timezone.now(), tick=False):
        with_second(maud)
        desk = logged_in(maud)
        used = code_of(maud, later=1)
        assert begin(desk, **{"begin-code": used}).status_code == 422
