"""Whose call it is: one at a time, until the lease is over, and never by chance."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
import time_machine
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from intake import selectors
from intake.calling import services
from intake.calling.claims.selectors import claim_of
from intake.calling.claims.services import Claimed, give_back, renew
from intake.domain.lifecycle import MoveError
from intake.models import CallClaim, CallRecord, Event, Submission
from tests.intake.calling.given import a_record, a_waiting, card_of, first_open
from tests.intake.desk_given import a_person
from tests.intake.test_services import at_once

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)


def holder(submission: Submission) -> str:
    claim = claim_of(submission)
    return str(claim.by) if claim else ""


def test_a_call_is_one_persons_until_the_lease_returns_by_itself(maud: User, iolo: User) -> None:
    waiting = a_waiting()
    with time_machine.travel(NOON, tick=False) as clock:
        services.claim(submission=waiting, by=maud)
        clock.shift(timedelta(minutes=19, seconds=59))
        with pytest.raises(Claimed, match=r"maud has this call until 12:20\."):
            services.claim(submission=waiting, by=iolo)
        clock.shift(timedelta(seconds=1))
        assert holder(waiting) == ""
        services.claim(submission=waiting, by=iolo)
        assert holder(waiting) == "iolo"
    assert CallClaim.objects.count() == 1


def test_whoever_types_keeps_it(maud: User, iolo: User) -> None:
    waiting = a_waiting()
    with time_machine.travel(NOON, tick=False) as clock:
        services.claim(submission=waiting, by=maud)
        clock.shift(timedelta(minutes=15))
        assert renew(submission=waiting, by=maud)
        assert not renew(submission=waiting, by=iolo)
        clock.shift(timedelta(minutes=15))
        assert holder(waiting) == "maud"


def test_the_lease_is_as_long_as_the_setting(maud: User, settings: Any) -> None:
    settings.CLAIM_MINUTES = 3
    with time_machine.travel(NOON, tick=False):
        claim = services.claim(submission=a_waiting(), by=maud)
    assert claim.until == NOON + timedelta(minutes=3)


def test_claiming_again_keeps_since_when_it_is_theirs(maud: User) -> None:
    waiting = a_waiting()
    with time_machine.travel(NOON, tick=False) as clock:
        services.claim(submission=waiting, by=maud)
        clock.shift(timedelta(minutes=5))
        claim = services.claim(submission=waiting, by=maud)
    assert (claim.since, claim.until) == (NOON, NOON + timedelta(minutes=25))


def test_given_back_it_is_anybodys(maud: User, iolo: User) -> None:
    waiting = a_waiting()
    services.claim(submission=waiting, by=maud)
    assert not give_back(submission=waiting, by=iolo)
    assert holder(waiting) == "maud"
    assert give_back(submission=waiting, by=maud)
    services.claim(submission=waiting, by=iolo)


def test_taken_over_is_written_down_with_who_when_and_from_whom(maud: User, iolo: User) -> None:
    waiting = a_waiting()
    services.claim(submission=waiting, by=maud)
    services.take_over(submission=waiting, by=iolo)
    assert holder(waiting) == "iolo"
    event = Event.objects.order_by("pk").last()
    assert event is not None
    assert (event.by, event.reason) == (iolo, "call taken over from maud")
    assert (event.old_status, event.new_status) == ("needs_call", "needs_call")


def test_taking_over_what_is_free_or_mine_is_no_news(maud: User) -> None:
    waiting, before = a_waiting(), Event.objects.count()
    services.take_over(submission=waiting, by=maud)
    services.take_over(submission=waiting, by=maud)
    assert (holder(waiting), Event.objects.count()) == ("maud", before)


def test_what_is_over_is_nobodys_to_call(counter: Client, maud: User) -> None:
    waiting = a_waiting()
    counter.post(card_of(waiting), a_record(waiting, outcome="withdrawn", cause=""))
    with pytest.raises(MoveError):
        services.claim(submission=selectors.by_reference(waiting.reference), by=maud)


@pytest.mark.django_db(transaction=True)
def test_of_two_clerks_at_once_exactly_one_gets_it() -> None:
    waiting = a_waiting()
    people = iter([a_person("counter", f"clerk-{n}") for n in range(4)])
    got = at_once(lambda: services.claim(submission=waiting, by=next(people)), 4)
    assert sorted(isinstance(one, Claimed) for one in got) == [False, True, True, True]
    (winner,) = (one for one in got if isinstance(one, CallClaim))
    assert holder(waiting) == str(winner.by)


@pytest.mark.django_db(transaction=True)
def test_of_two_who_take_up_a_lease_that_is_over_exactly_one_gets_it(maud: User) -> None:
    waiting = a_waiting()
    over = NOON - timedelta(days=1)
    CallClaim.objects.create(submission=waiting, by=maud, since=over, until=over)
    people = iter([a_person("counter", f"clerk-{n}") for n in range(3)])
    got = at_once(lambda: services.claim(submission=waiting, by=next(people)), 3)
    assert sorted(isinstance(one, Claimed) for one in got) == [False, True, True]


@pytest.mark.django_db(transaction=True)
def test_of_two_who_take_it_over_at_once_exactly_one_gets_it(maud: User) -> None:
    waiting = a_waiting()
    services.claim(submission=waiting, by=maud)
    people = iter([a_person("counter", f"clerk-{n}") for n in range(3)])
    at_once(lambda: services.take_over(submission=waiting, by=next(people)), 3)
    taken = Event.objects.filter(reason__startswith="call taken over").order_by("pk")
    named = [event.reason.removeprefix("call taken over from ") for event in taken]
    # Each takes it from whoever had it then, so the history is one chain that begins with maud.
    assert named == ["maud", *[str(event.by) for event in taken][:-1]]
    assert holder(waiting) == str([event.by for event in taken][-1])


def test_writing_down_anothers_call_is_refused_and_nothing_is_lost(
    counter: Client, iolo: User
) -> None:
    waiting = a_waiting()
    services.claim(submission=waiting, by=iolo)
    answer = counter.post(card_of(waiting), a_record(waiting, note="he was sure"))
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "iolo has this call until" in page
    assert "he was sure" in page
    assert 'value="44 1/8"' in page
    assert not CallRecord.objects.exists()
    assert waiting.sheets.count() == 1


def test_taking_over_on_the_card_keeps_what_was_typed(counter: Client, iolo: User) -> None:
    waiting = a_waiting()
    services.claim(submission=waiting, by=iolo)
    typed = a_record(waiting, note="he was sure", take_over="1")
    answer = counter.post(card_of(waiting), typed)
    page = answer.content.decode()
    assert answer.status_code == 200
    assert holder(waiting) == "maud"
    assert "he was sure" in page
    assert 'value="44 1/8"' in page
    assert not CallRecord.objects.exists()
    assert counter.post(card_of(waiting), a_record(waiting)).status_code == 302


def test_nobodys_call_may_be_written_down_by_anybody(counter: Client) -> None:
    waiting = a_waiting()
    assert counter.post(card_of(waiting), a_record(waiting)).status_code == 302
    assert not CallClaim.objects.exists()


def test_a_claim_ends_with_the_call(counter: Client, maud: User) -> None:
    waiting = a_waiting()
    services.claim(submission=waiting, by=maud)
    counter.post(card_of(waiting), a_record(waiting))
    assert selectors.by_reference(waiting.reference).status == "ready"
    assert not CallClaim.objects.exists()


def test_nobody_reached_gives_it_back(counter: Client, maud: User) -> None:
    waiting = a_waiting()
    services.claim(submission=waiting, by=maud)
    counter.post(card_of(waiting), a_record(waiting, outcome="not_reached", said_by="", cause=""))
    assert not CallClaim.objects.exists()


# --- The buttons ----------------------------------------------------------------------


def test_i_call_opens_the_card_of_the_question(counter: Client) -> None:
    waiting = a_waiting()
    answer = counter.post(reverse("call-claim", args=[waiting.reference]))
    assert f"check={first_open(waiting)}" in answer["Location"]
    assert holder(waiting) == "maud"
    assert "You have this call until" in counter.get(answer["Location"]).content.decode()


def test_looking_claims_nothing(counter: Client) -> None:
    waiting = a_waiting()
    counter.get(card_of(waiting, first_open(waiting)))
    counter.get(reverse("call-queue"))
    assert not CallClaim.objects.exists()
    for name in ("call-claim", "call-keep", "call-give-back", "call-take-over", "blind-reading"):
        assert counter.get(reverse(name, args=[waiting.reference])).status_code == 405


def test_the_second_who_calls_is_told_who_has_it(counter: Client, other: Client) -> None:
    waiting = a_waiting()
    other.post(reverse("call-claim", args=[waiting.reference]))
    answer = counter.post(reverse("call-claim", args=[waiting.reference]), follow=True)
    assert "iolo has this call until" in answer.content.decode()
    assert holder(waiting) == "iolo"


def test_typing_keeps_the_lease_and_says_when_it_is_lost(counter: Client, other: Client) -> None:
    waiting = a_waiting()
    keep = reverse("call-keep", args=[waiting.reference])
    assert "Nobody has this call" in counter.post(keep).content.decode()
    counter.post(reverse("call-claim", args=[waiting.reference]))
    assert "You have this call until" in counter.post(keep).content.decode()
    other.post(reverse("call-take-over", args=[waiting.reference]))
    assert "iolo has this call until" in counter.post(keep).content.decode()


def test_given_back_by_its_button(counter: Client) -> None:
    waiting = a_waiting()
    counter.post(reverse("call-claim", args=[waiting.reference]))
    answer = counter.post(reverse("call-give-back", args=[waiting.reference]), follow=True)
    assert "Anybody may call" in answer.content.decode()
    assert holder(waiting) == ""


@pytest.mark.parametrize(
    "name", ["call-claim", "call-keep", "call-give-back", "call-take-over", "blind-reading"]
)
def test_a_machinist_takes_no_calls(client: Client, name: str) -> None:
    client.force_login(a_person("machinist", "bronagh"))
    address = reverse(name, args=[a_waiting().reference])
    assert client.post(address).status_code == 403
    assert not CallClaim.objects.exists()
