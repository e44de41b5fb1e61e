"""The manager's page of people: who may, what is refused, what the trail says."""

from __future__ import annotations

import re
import threading
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from staff.accounts import services
from staff.errors import Overtaken, Refused
from staff.models import Seat
from staff.second import selectors as factors
from staff.trail.selectors import changes_of
from tests.staff.given import (
    LOGIN,
    PASSWORD,
    a_manager,
    a_member,
    gets_in,
    logged_in,
    revision,
    with_second,
)

pytestmark = pytest.mark.django_db
PEOPLE = "/staff/people/"


@pytest.fixture
def percival() -> User:
    return a_manager()


@pytest.fixture
def maud(percival: User) -> User:
    return a_member("maud")


@pytest.fixture
def desk(percival: User) -> Client:
    return logged_in(percival)


def page_of(person: User) -> str:
    return f"{PEOPLE}{person.pk}/"


def ask(client: Client, person: User, what: str, **changes: Any) -> Any:
    """Send one change of an account, as its form does."""
    given = {"seen": revision(person), "why": "as agreed", "proof": PASSWORD, **changes}
    boxes = {f"{what}-{name}": text for name, text in given.items()}
    return client.post(f"{page_of(person)}{what}/", boxes)


def make(client: Client, **changes: str) -> Any:
    given = {
        "name": "bronagh", "full_name": "Bronagh of the lathe", "group": "machinist",
        "why": "new at the lathe", "proof": PASSWORD, **changes,
    }  # fmt: skip
    return client.post(f"{PEOPLE}new/", {f"make-{name}": text for name, text in given.items()})


def shown(page: Any) -> str:
    found = re.search(r'<code class="staff-secret">([^<]+)</code>', page.content.decode())
    assert found, page.content.decode()
    return found[1]


def trail(person: User) -> list[tuple[dict[str, Any], str, str]]:
    return [
        (one.what, one.why, one.by.username if one.by else "")
        for one in changes_of("account", person.pk)
    ]


# --- Who may --------------------------------------------------------------------------


@pytest.mark.parametrize("group", ["counter", "machinist"])
def test_only_managers_see_and_change_people(group: str, maud: User) -> None:
    client = logged_in(a_member("bronagh", group))
    assert client.get(PEOPLE).status_code == 403
    assert client.get(page_of(maud)).status_code == 403
    assert make(client).status_code == 403
    for what in ("group", "password", "second", "close", "reopen"):
        assert ask(client, maud, what).status_code == 403
    assert client.post(f"{PEOPLE}second-rule/").status_code in (403, 404)
    assert client.post("/staff/second-rule/").status_code == 403
    assert client.post(f"{page_of(maud)}sessions/1/end/").status_code == 403


def test_a_look_changes_nothing(desk: Client, maud: User) -> None:
    for what in ("group", "password", "second", "close", "reopen"):
        assert desk.get(f"{page_of(maud)}{what}/").status_code == 405
    assert desk.get(f"{PEOPLE}new/").status_code == 405


def test_the_list_says_who_may_what(desk: Client, maud: User) -> None:
    with_second(maud)
    a_member("iolo", is_active=False)
    text = desk.get(PEOPLE).content.decode()
    for row in ("maud", "percival", "iolo"):
        assert f">{row}</a>" in text
    assert text.count("<strong>closed</strong>") == 1
    assert text.count("<td>on</td>") == 1


def test_the_list_costs_the_same_for_many(
    desk: Client, maud: User, django_assert_num_queries: Any
) -> None:
    with CaptureQueriesContext(connection) as few:
        desk.get(PEOPLE)
    for number in range(20):
        a_member(f"clerk-{number:02}")
    with django_assert_num_queries(len(few)):
        desk.get(PEOPLE)
    assert len(few) <= 7  # session, seat, permissions, people, groups, rules, late calls


def test_a_long_list_goes_on(desk: Client, monkeypatch: pytest.MonkeyPatch, maud: User) -> None:
    monkeypatch.setattr("staff.accounts.selectors.PAGE", 1)
    first = desk.get(PEOPLE).content.decode()
    assert ("?after=maud" in first, ">percival</a>" in first) == (True, False)
    assert ">percival</a>" in desk.get(f"{PEOPLE}?after=maud").content.decode()


# --- Making ---------------------------------------------------------------------------


def test_a_new_person_gets_in_once_with_what_was_shown_and_chooses_a_password(
    desk: Client,
) -> None:
    page = make(desk)
    told = shown(page)
    assert "no-store" in page["Cache-Control"]
    client = Client()
    client.post(LOGIN, {"username": "bronagh", "password": told})
    assert client.get("/desk/")["Location"] == "/staff/me/password/"
    assert client.get("/staff/people/")["Location"] == "/staff/me/password/"
    own = {"proof": told, "new": "a lathe that hums", "again": "a lathe that hums"}
    assert client.post("/staff/me/password/", own)["Location"] == "/staff/me/"
    assert client.get("/staff/me/").status_code == 200
    assert not gets_in("bronagh", told)


def test_the_trail_says_who_made_it_and_why(desk: Client) -> None:
    make(desk)
    bronagh = User.objects.get(username="bronagh")
    ((what, why, by),) = trail(bronagh)
    assert (what["group"], why, by) == ([None, "machinist"], "new at the lathe", "percival")
    assert "new at the lathe" in desk.get(page_of(bronagh)).content.decode()


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"name": "Maud"}, "There is an account named Maud already"),
        ({"name": "two words"}, "valid username"),
        ({"why": ""}, "required"),
        ({"group": "owner"}, "valid choice"),
        ({"proof": "wrong"}, "not your password"),
    ],
)
def test_what_cannot_be_made_says_why_and_keeps_what_was_typed(
    desk: Client, maud: User, changes: dict[str, str], said: str
) -> None:
    page = make(desk, **changes)
    assert page.status_code == 422
    assert said in page.content.decode()
    assert 'value="Bronagh of the lathe"' in page.content.decode()
    assert PASSWORD not in page.content.decode()
    assert User.objects.count() == 2


# --- Changing -------------------------------------------------------------------------


def test_into_another_group(desk: Client, maud: User) -> None:
    assert ask(desk, maud, "group", group="manager").status_code == 302
    maud = User.objects.get(pk=maud.pk)
    assert (maud.has_perm("staff.manage_accounts"), maud.is_staff) == (True, True)
    assert trail(maud)[0] == ({"group": ["counter", "manager"]}, "as agreed", "percival")


def test_a_forgotten_password(desk: Client, maud: User) -> None:
    client = logged_in(maud)
    told = shown(ask(desk, maud, "password"))
    assert client.get("/catalog/")["Location"].startswith(LOGIN)
    assert not gets_in("maud", PASSWORD)
    fresh = Client()
    fresh.post(LOGIN, {"username": "maud", "password": told})
    assert fresh.get("/desk/")["Location"] == "/staff/me/password/"
    assert told not in str(trail(maud))


def test_a_lost_phone(desk: Client, maud: User) -> None:
    with_second(maud)
    client = logged_in(maud)
    assert ask(desk, maud, "second").status_code == 302
    assert client.get("/catalog/")["Location"].startswith(LOGIN)
    assert (factors.has_factor(maud), factors.recovery_codes_left(maud)) == (False, 0)
    assert logged_in(maud).get("/staff/me/").status_code == 200


def test_an_account_is_closed_and_opened_again(desk: Client, maud: User) -> None:
    client = logged_in(maud)
    ask(desk, maud, "close", why="moved inland")
    assert client.get("/catalog/")["Location"].startswith(LOGIN)
    assert not gets_in("maud", PASSWORD)
    ask(desk, maud, "reopen", why="back at sea")
    assert logged_in(maud).get("/staff/me/").status_code == 200
    assert [(what, why) for what, why, _ in trail(maud)] == [
        ({"account": ["closed", "open"]}, "back at sea"),
        ({"account": ["open", "closed"]}, "moved inland"),
    ]


@pytest.mark.parametrize("what", ["group", "password", "second", "close"])
def test_a_change_needs_a_reason_and_ones_own_password(desk: Client, maud: User, what: str) -> None:
    with_second(maud)
    before = trail(maud)
    for changes in ({"why": ""}, {"why": "  "}, {"proof": "wrong"}, {"proof": ""}):
        page = ask(desk, maud, what, group="manager", **changes)
        assert page.status_code == 422
    assert trail(maud) == before
    assert gets_in("maud", PASSWORD)


@pytest.mark.parametrize("what", ["group", "password", "second", "close"])
def test_nobody_changes_their_own_account_here(desk: Client, percival: User, what: str) -> None:
    a_manager("odile")
    page = ask(desk, percival, what, group="counter")
    assert page.status_code == 422
    assert User.objects.filter(pk=percival.pk, is_active=True, groups__name="manager").exists()


@pytest.mark.parametrize("what", ["group", "close"])
def test_the_last_open_manager_stays(percival: User, what: str) -> None:
    root = User.objects.create_superuser("root", password=PASSWORD)
    page = ask(logged_in(root), percival, what, group="counter")
    assert page.status_code == 422
    assert "last open manager" in page.content.decode()
    percival.refresh_from_db()
    assert percival.is_active


def test_a_closed_manager_does_not_count_as_one(percival: User) -> None:
    a_member("odile", "manager", is_active=False)
    root = User.objects.create_superuser("root")
    with pytest.raises(Refused, match="last open manager"):
        services.close_account(person=percival, seen=0, by=root, why="gone")


def test_a_manager_cannot_take_the_command_lines_account(desk: Client) -> None:
    root = User.objects.create_superuser("root", password=PASSWORD)
    assert ask(desk, root, "password").status_code == 422
    assert gets_in("root", PASSWORD)


def test_what_was_changed_meanwhile_is_shown_again_first(desk: Client, maud: User) -> None:
    ask(desk, maud, "group", group="machinist", seen=0)
    page = ask(desk, maud, "close", seen=0)
    assert page.status_code == 422
    assert "changed after you opened the page" in page.content.decode()
    maud.refresh_from_db()
    assert maud.is_active
    sent = re.search(r'name="close-seen" value="(\d+)"', page.content.decode())
    assert sent
    assert ask(desk, maud, "close", seen=sent[1]).status_code == 302


def test_an_unknown_person_or_change_is_not_found(desk: Client, maud: User) -> None:
    assert desk.get(f"{PEOPLE}999999/").status_code == 404
    assert ask(desk, maud, "promote").status_code == 404


def test_a_manager_ends_the_login_of_somebody_else(desk: Client, maud: User) -> None:
    client = logged_in(maud)
    seat = Seat.objects.get(user=maud)
    assert "Firefox on Linux" in desk.get(page_of(maud)).content.decode()
    desk.post(f"{page_of(maud)}sessions/{seat.pk}/end/")
    assert client.get("/catalog/")["Location"].startswith(LOGIN)


def test_a_login_is_ended_on_its_own_persons_page_only(
    desk: Client, maud: User, percival: User
) -> None:
    logged_in(maud)
    seat = Seat.objects.get(user=maud)
    desk.post(f"{page_of(percival)}sessions/{seat.pk}/end/")
    assert Seat.objects.get(pk=seat.pk).ended_at is None


# --- Of whom a second factor is asked ---------------------------------------------------


def rule(client: Client, **changes: Any) -> Any:
    given = {"seen": 0, "asked": "everyone", "why": "safer", "proof": PASSWORD, **changes}
    return client.post("/staff/second-rule/", {f"rule-{name}": t for name, t in given.items()})


def test_a_manager_asks_a_second_factor_of_a_group(desk: Client, maud: User) -> None:
    client = logged_in(maud)
    assert rule(desk, asked="groups", groups=["counter"]).status_code == 302
    assert client.get("/desk/")["Location"] == "/staff/me/second/"
    text = desk.get(PEOPLE).content.decode()
    assert "<strong>counter</strong>" in text
    assert "safer" in text


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"asked": "groups"}, "Tick at least one group"),
        ({"why": ""}, "required"),
        ({"proof": "wrong"}, "not your password"),
        ({"seen": 7}, "changed after you opened the page"),
    ],
)
def test_a_rule_that_cannot_be_made_says_why(
    desk: Client, changes: dict[str, Any], said: str
) -> None:
    page = rule(desk, **changes)
    assert page.status_code == 422
    assert said in page.content.decode()
    assert not factors.rules().exists()


# --- Two at once ------------------------------------------------------------------------


@pytest.mark.django_db(transaction=True)
def test_of_two_managers_who_close_each_other_one_stays() -> None:
    one, other = a_manager("percival"), a_manager("odile")
    done = at_once(
        lambda: services.close_account(person=one, seen=0, by=other, why="quarrel"),
        lambda: services.close_account(person=other, seen=0, by=one, why="quarrel"),
    )
    assert sorted(done) == ["done", "refused"]
    assert User.objects.filter(groups__name="manager", is_active=True).count() == 1


@pytest.mark.django_db(transaction=True)
def test_of_two_changes_of_one_account_the_second_is_told() -> None:
    percival, maud = a_manager(), a_member("maud")
    done = at_once(
        lambda: services.change_group(
            person=User.objects.get(pk=maud.pk), group="machinist", seen=0, by=percival, why="a"
        ),
        lambda: services.close_account(
            person=User.objects.get(pk=maud.pk), seen=0, by=percival, why="b"
        ),
    )
    assert sorted(done) == ["done", "overtaken"]
    assert len(trail(maud)) == 1


@pytest.mark.django_db(transaction=True)
def test_a_name_is_given_once() -> None:
    percival = a_manager()

    def open_one() -> None:
        services.open_account(
            name="iolo", full_name="Iolo", group="counter", by=percival, why="new"
        )

    assert sorted(at_once(open_one, open_one)) == ["done", "refused"]
    assert User.objects.filter(username="iolo").count() == 1


def at_once(*works: Any) -> list[str]:
    """What became of each, all let go at the same moment."""
    gate, done = threading.Barrier(len(works)), []

    def one(work: Any) -> None:
        try:
            gate.wait(10)
            work()
            done.append("done")
        except Overtaken:
            done.append("overtaken")
        except Refused:
            done.append("refused")
        finally:
            connection.close()

    threads = [threading.Thread(target=one, args=[work]) for work in works]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    return done
