"""People of the desk with groups, second factors and logins."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import Any

from django.contrib.auth.models import Group, User
from django.test import Client
from django.utils import timezone

from staff.accounts import services as accounts
from staff.models import Account, SecondFactor
from staff.second import services as second
from staff.second.secrets import secrets_of
from staff.second.totp import code_at, step_of

PASSWORD = "rope-and-tallow"
LOGIN, CODE, UNLOCK = "/accounts/login/", "/accounts/second/", "/accounts/unlock/"
# Firefox on Linux, as it says of itself.
FIREFOX = "Mozilla/5.0 (X11; Linux x86_64; rv:140.0) Gecko/20100101 Firefox/140.0"


def a_member(name: str = "maud", group: str = "counter", **changes: Any) -> User:
    """Somebody of a group, with the password above."""
    if not Group.objects.filter(name="manager").exists():
        accounts.make_groups()
    person = accounts.make_person(name=name, group=group, password=PASSWORD)
    User.objects.filter(pk=person.pk).update(**changes) if changes else None
    return User.objects.get(pk=person.pk)


def a_manager(name: str = "percival") -> User:
    return a_member(name, "manager")


def logged_in(person: User, **heads: str) -> Client:
    """A browser in which this person has logged in, password alone or with a code."""
    client = Client(headers={"user-agent": FIREFOX, **heads})
    given = {"username": person.username, "password": PASSWORD}
    answer = client.post(LOGIN, given, follow=False)
    assert answer.status_code == 302, answer.content.decode()
    if answer["Location"] == CODE:
        assert client.post(CODE, {"code": code_of(person, later=1)}).status_code == 302
    return client


def gets_in(name: str, password: str = PASSWORD) -> bool:
    """Whether the door takes this name and password."""
    answer = Client().post(LOGIN, {"username": name, "password": password})
    return answer.status_code == 302


def with_second(person: User) -> list[str]:
    """Set up a second factor; its recovery codes. The code of this half minute is used up."""
    second.propose(person)
    codes = second.confirm(person, _code(factor(person).proposed, 0))
    assert len(codes) == 10
    return codes


def factor(person: User) -> SecondFactor:
    return SecondFactor.objects.get(user=person)


def code_of(person: User, *, later: int = 0) -> str:
    """What the person's phone shows now, or some half minutes from now."""
    return _code(factor(person).salt, later)


def proposed_code(person: User) -> str:
    """What a phone shows that has read the square on the page."""
    return _code(factor(person).proposed, 0)


def _code(salt: str, later: int) -> str:
    return code_at(next(secrets_of(salt)), step_of(timezone.now()) + later)


def revision(person: User) -> int:
    account = Account.objects.filter(user=person).first()
    return account.revision if account else 0


MOMENT = datetime(2026, 3, 4, 9, 0, tzinfo=UTC)
