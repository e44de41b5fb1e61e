"""Setting up, codes that count once, and the wait after five misses."""

from __future__ import annotations

import threading
from datetime import timedelta
from typing import Any

import pytest
import time_machine
from django.contrib.auth.models import User
from django.db import connection
from django.utils import timezone

from staff.errors import Overtaken
from staff.models import RecoveryCode, SecondRule
from staff.second import selectors, services
from staff.second.services import Taken, take_code
from staff.trail.selectors import changes_of
from tests.staff.given import (
    MOMENT,
    a_manager,
    a_member,
    code_of,
    factor,
    proposed_code,
    with_second,
)

pytestmark = pytest.mark.django_db


@pytest.fixture
def maud() -> User:
    return a_member("maud")


def test_it_counts_only_once_a_code_confirmed_it(maud: User) -> None:
    services.propose(maud)
    assert not selectors.has_factor(maud)
    assert services.confirm(maud, "000000") == []
    assert not selectors.has_factor(maud)
    assert len(services.confirm(maud, proposed_code(maud))) == 10
    assert selectors.has_factor(maud)


def test_a_square_shown_long_ago_is_confirmed_no_more(maud: User) -> None:
    services.propose(maud)
    with time_machine.travel(timezone.now() + timedelta(minutes=16)):
        assert services.confirm(maud, proposed_code(maud)) == []


def test_the_old_phone_counts_until_the_new_one_is_confirmed(maud: User) -> None:
    with_second(maud)
    services.propose(maud)
    assert take_code(maud, code_of(maud, later=1)) is Taken.YES
    old = code_of(maud)
    services.confirm(maud, proposed_code(maud))
    assert take_code(maud, old) is Taken.NO


def test_a_code_counts_once(maud: User) -> None:
    with_second(maud)
    code = code_of(maud, later=1)
    assert take_code(maud, f" {code[:3]} {code[3:]} ") is Taken.YES
    assert take_code(maud, code) is Taken.NO


def test_the_code_that_confirmed_does_not_log_in(maud: User) -> None:
    with time_machine.travel(MOMENT, tick=False):
        with_second(maud)
        assert take_code(maud, code_of(maud)) is Taken.NO


def test_a_code_on_paper_counts_once(maud: User) -> None:
    codes = with_second(maud)
    assert take_code(maud, codes[3].lower()) is Taken.RECOVERY
    assert take_code(maud, codes[3]) is Taken.NO
    assert selectors.recovery_codes_left(maud) == 9


def test_codes_on_paper_are_kept_hashed(maud: User) -> None:
    codes = with_second(maud)
    kept = "".join(RecoveryCode.objects.values_list("hashed", flat=True))
    assert not [code for code in codes if code.split("-", 1)[1].replace("-", "") in kept]


def test_new_codes_void_the_old(maud: User) -> None:
    old = with_second(maud)
    new = services.new_recovery_codes(maud)
    assert take_code(maud, old[0]) is Taken.NO
    assert take_code(maud, new[0]) is Taken.RECOVERY


@pytest.mark.parametrize("wrong", ["000000", "3-AAAA-AAAA-AAAA", "nonsense"])
def test_after_five_misses_even_the_right_code_waits(maud: User, wrong: str) -> None:
    with_second(maud)
    assert [take_code(maud, wrong) for _ in range(6)] == [Taken.NO] * 5 + [Taken.WAIT]
    assert take_code(maud, code_of(maud, later=1)) is Taken.WAIT
    with time_machine.travel(timezone.now() + services.WAIT + timedelta(seconds=1)):
        assert take_code(maud, code_of(maud)) is Taken.YES


def test_a_right_code_forgives_the_misses_before(maud: User) -> None:
    codes = with_second(maud)
    for code in codes[:3]:
        assert [take_code(maud, "000000") for _ in range(4)] == [Taken.NO] * 4
        assert take_code(maud, code) is Taken.RECOVERY


def test_who_has_no_second_factor_gives_no_code(maud: User) -> None:
    assert not take_code(maud, "000000").is_right
    assert not take_code(maud, "").is_right


def test_setting_up_and_taking_away_stand_in_the_trail(maud: User) -> None:
    with_second(maud)
    services.remove(maud, by=a_manager(), why="lost in the bilge")
    off, on = changes_of("account", maud.pk)
    assert off.what == {"second factor": ["on", "off"]}
    assert (off.by.username, off.why) == ("percival", "lost in the bilge")  # type: ignore[union-attr]
    assert on.what == {"second factor": ["off", "on"]}
    assert selectors.recovery_codes_left(maud) == 0
    assert not services.remove(maud, by=None, why="again")


@pytest.mark.parametrize(
    ("everyone", "groups", "of_maud"),
    [
        (True, [], True),
        (False, ["counter"], True),
        (False, ["machinist", "manager"], False),
        (False, [], False),
    ],
)
def test_the_newest_rule_says_of_whom_it_is_asked(
    maud: User, everyone: bool, groups: list[str], of_maud: bool
) -> None:
    percival = a_manager()
    services.require(everyone=not everyone, groups=[], by=percival, why="first", seen=0)
    services.require(everyone=everyone, groups=groups, by=percival, why="then", seen=1)
    assert selectors.is_required_of(maud) is of_maud
    assert [rule.why for rule in selectors.rules()] == ["then", "first"]
    assert changes_of("rule", "second factor")[0].why == "then"


def test_the_second_of_two_managers_is_told(maud: User) -> None:
    percival = a_manager()
    services.require(everyone=True, groups=[], by=percival, why="safer", seen=0)
    with pytest.raises(Overtaken):
        services.require(everyone=False, groups=[], by=percival, why="easier", seen=0)
    assert selectors.is_required_of(maud)


@pytest.mark.django_db(transaction=True)
@pytest.mark.parametrize("kind", ["phone", "paper"])
def test_one_code_sent_at_once_from_everywhere_counts_once(kind: str) -> None:
    person = a_member("iolo")
    paper = with_second(person)[0]
    code = code_of(person, later=1) if kind == "phone" else paper
    taken = at_once(4, lambda: take_code(person, code))
    assert sum(one.is_right for one in taken) == 1


@pytest.mark.django_db(transaction=True)
def test_guessing_at_once_gets_no_more_than_five_looks() -> None:
    person = a_member("iolo")
    with_second(person)
    taken = at_once(12, lambda: take_code(person, "000000"))
    assert sorted(taken) == ["no"] * 5 + ["wait"] * 7


@pytest.mark.django_db(transaction=True)
def test_of_two_rules_at_once_one_is_kept() -> None:
    percival = a_manager()

    def ask() -> str:
        try:
            services.require(everyone=True, groups=[], by=percival, why="safer", seen=0)
        except Overtaken:
            return "overtaken"
        return "kept"

    assert sorted(at_once(3, ask)) == ["kept", "overtaken", "overtaken"]
    assert SecondRule.objects.count() == 1


def at_once(count: int, work: Any) -> list[Any]:
    """What each of some threads got, all let go at the same moment."""
    gate, got = threading.Barrier(count), []

    def one() -> None:
        try:
            gate.wait(10)
            got.append(work())
        finally:
            connection.close()

    threads = [threading.Thread(target=one) for _ in range(count)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    assert len(got) == count
    return got


def test_the_tries_are_counted_for_one_person_alone(maud: User) -> None:
    iolo = a_member("iolo")
    with_second(maud)
    with_second(iolo)
    for _ in range(6):
        take_code(maud, "000000")
    assert factor(iolo).tries == 0
    assert take_code(iolo, code_of(iolo, later=1)) is Taken.YES
