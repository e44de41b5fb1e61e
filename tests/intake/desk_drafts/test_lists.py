"""The lists of calls that are not finished, and the sweep that closes them."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.utils import timezone

from intake.desk_drafts import chores, selectors, services
from intake.desk_drafts.going_on.services import take_up
from intake.desk_drafts.merging import Sent
from intake.models import DeskDraft
from intake.services import receive_submission
from tests.given import a_body

pytestmark = pytest.mark.django_db


@pytest.fixture
def maud(db: None) -> User:
    return User.objects.create_user("maud")


def a_draft(by: User, name: str = "", days_ago: int = 0) -> str:
    ident = services.new_ident()
    texts = {"contact.name": name or "Wilmot Tarpley"}
    services.keep(ident=ident, sent=Sent(texts, whole=True, by=by.username), by=by)
    then = timezone.now() - timedelta(days=days_ago)
    DeskDraft.objects.filter(ident=ident).update(touched_at=then)
    return ident


def test_the_call_touched_last_comes_first(maud: User) -> None:
    old, new = a_draft(maud, days_ago=1), a_draft(maud, "Odile Marsh")
    rows = selectors.open_drafts()
    assert [row.ident for row in rows] == [new, old]
    assert (rows[0].title, rows[0].touched_by) == ("Odile Marsh", "maud")


def test_the_list_is_short_and_costs_two_questions(
    maud: User, django_assert_num_queries: Any
) -> None:
    for _each in range(4):
        a_draft(maud)
    services.look(place=selectors.draft_place(a_draft(maud)), by=maud)
    with django_assert_num_queries(2):
        rows = selectors.open_drafts(limit=3)
    assert [row.here for row in rows] == [("maud",), (), ()]


def test_a_correction_names_its_request(maud: User) -> None:
    request = receive_submission(body=a_body())
    take_up(submission=request, by=maud)
    (row,) = selectors.open_drafts()
    assert (row.continues, row.title) == (request.reference, "Biscuit Barrel · Wilmot Tarpley")


def test_what_was_put_away_is_listed_newest_first(maud: User) -> None:
    idents = [a_draft(maud) for _each in range(3)]
    for ident in idents[:2]:
        services.put_away(ident=ident, by=maud)
    assert [row.ident for row in selectors.put_away()] == [idents[1], idents[0]]
    assert [row.ident for row in selectors.put_away(limit=1)] == [idents[1]]
    assert [row.ident for row in selectors.open_drafts()] == [idents[2]]


def test_a_long_title_is_cut_and_an_empty_one_is_the_phone() -> None:
    boat = "answers.boat_name_and_station.name"
    assert len(services.title_of({boat: "x" * 2000})) == 300
    assert services.title_of({"contact.phone": " 0100 "}) == "0100"
    assert services.title_of({boat: "a\n b", "contact.phone": "1"}) == "a b · 1"
    assert services.title_of({}) == ""


# --- Left lying -----------------------------------------------------------------------


def test_a_call_nobody_touched_for_long_is_closed_and_kept(maud: User, settings: Any) -> None:
    settings.DRAFT_DAYS = 30
    left, fresh = a_draft(maud, days_ago=31), a_draft(maud, days_ago=29)
    chores.close_abandoned()
    assert [row.ident for row in selectors.open_drafts()] == [fresh]
    assert [row.ident for row in selectors.put_away()] == [left]
    draft = DeskDraft.objects.get(ident=left)
    assert draft.boxes["contact.name"]["text"] == "Wilmot Tarpley"
    assert services.close_abandoned() == 0


def test_the_sweep_knows_of_it() -> None:
    from intake import jobs

    assert chores.close_abandoned in jobs._chores


# --- Opened again beside another ------------------------------------------------------


def test_a_correction_put_away_leads_to_the_one_that_is_open(maud: User) -> None:
    request = receive_submission(body=a_body())
    first = take_up(submission=request, by=maud).ident
    services.put_away(ident=first, by=maud)
    second = take_up(submission=request, by=maud).ident
    assert second != first
    again = services.reopen(ident=first, by=maud)
    assert again is not None
    assert again.ident == second
    texts = {"answers.gap_now.text": "7/8"}
    sent = Sent(texts, changed=frozenset(texts), by="maud", page="p")
    kept = services.keep(ident=first, sent=sent, by=maud)
    assert kept.elsewhere is not None
    assert kept.elsewhere.ident == second
    assert DeskDraft.objects.get(ident=first).closed_at is not None
