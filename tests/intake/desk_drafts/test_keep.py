"""Keeping a call while it is typed: what is stored, told and refused, and what it costs."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from intake.desk_drafts import limits, page, selectors
from intake.models import DeskDraft, Submission
from intake.services import receive_submission
from tests.given import a_body
from tests.intake.desk_drafts.given import (
    GAP,
    HUB,
    KEEP_QUERIES,
    CallPage,
    a_browser,
    a_typed_call,
    ours,
    saved,
    texts,
)
from tests.intake.desk_given import a_call, a_person, stock_the_shelf

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def parts_on_the_shelf(db: None) -> None:
    """The demo catalogue, as the shop has it."""
    stock_the_shelf()


@pytest.fixture
def maud() -> Client:
    return a_browser("maud")


@pytest.fixture
def iolo() -> Client:
    return a_browser("iolo")


# --- Storing --------------------------------------------------------------------------


def test_to_look_at_the_page_stores_nothing(maud: Client) -> None:
    one = maud.get(reverse("desk"))
    two = maud.get(reverse("desk"))
    assert one.context["ident"] != two.context["ident"]
    assert not DeskDraft.objects.exists()


def test_a_known_boat_or_customer_stands_in_the_boxes_already(maud: Client) -> None:
    request = receive_submission(body=a_body())
    for asked in ({"boat": request.boat_id}, {"customer": request.customer_id}):
        page = maud.get(reverse("desk"), asked).context
        assert page["typed"]["contact.name"] == "Wilmot Tarpley"
        assert page["typed"]["wants"] == ["shaft", "coupling", "bearing"]
    boat = maud.get(reverse("desk"), {"boat": request.boat_id}).context["typed"]
    assert boat["answers.boat_name_and_station.name"] == "Biscuit Barrel"
    assert not DeskDraft.objects.exists()


@pytest.mark.parametrize("key", ["", "0", "x", "9" * 30, "½", "-1"])
def test_a_boat_that_is_none_leaves_the_page_as_it_is(maud: Client, key: str) -> None:
    page = maud.get(reverse("desk"), {"boat": key, "customer": key})
    assert page.status_code == 200
    assert "contact.name" not in page.context["typed"]


def test_the_first_keep_makes_the_draft_with_all_that_stands_on_the_page(maud: Client) -> None:
    mine = CallPage(maud)
    mine.boxes |= {"tape_unit": "in", "wants": ["shaft", "bearing"], "contact.phone": "0100"}
    told = mine.type(gap_now="3/4")
    assert told["revision"] == 1
    assert texts(mine.ident) == {
        "tape_unit": "in", "wants": "shaft,bearing", "contact.phone": "0100", GAP: "3/4",
    }  # fmt: skip
    draft = DeskDraft.objects.get()
    assert (draft.opened_by.username, draft.touched_by.username) == ("maud", "maud")


def test_only_what_changed_is_taken_of_a_later_keep(maud: Client) -> None:
    mine = CallPage(maud)
    mine.type(gap_now="3/4")
    mine.boxes[HUB] = "2 15/16"
    assert mine.keep({GAP: "7/8"})["revision"] == 2
    assert texts(mine.ident) == {GAP: "7/8"}


def test_a_keep_that_changes_nothing_writes_nothing(maud: Client) -> None:
    mine = CallPage(maud)
    mine.type(gap_now="3/4")
    before = DeskDraft.objects.values().get()
    assert mine.type(gap_now="3/4")["revision"] == 1
    assert DeskDraft.objects.values().get() == before


def test_a_tick_taken_away_is_a_change(maud: Client) -> None:
    mine = CallPage(maud)
    mine.keep({"wants": "shaft,coupling", "answers.gap_now.state": "cannot_measure"})
    mine.boxes.pop("answers.gap_now.state")
    mine.boxes["wants"] = []
    mine.client.post(
        reverse("desk-keep", args=[mine.ident]),
        {"seen": 1, "changed": "wants answers.gap_now.state", "page": mine.page},
    )
    assert texts(mine.ident) == {}


def test_the_page_comes_back_as_it_was_kept(maud: Client) -> None:
    mine = a_typed_call(maud, gap_now="<b>3/4")
    shown = maud.get(reverse("desk-draft", args=[mine.ident]))
    html = shown.content.decode()
    assert 'value="&lt;b&gt;3/4"' in html
    assert "<b>3/4" not in html
    assert (shown.context["revision"], shown.context["ident"]) == (1, mine.ident)
    assert shown.context["typed"]["wants"] == ["shaft", "coupling", "bearing"]


def test_the_draft_is_named_by_boat_and_caller(maud: Client) -> None:
    a_typed_call(maud)
    assert DeskDraft.objects.get().title == "Biscuit Barrel · Wilmot Tarpley"


def test_a_keep_judges_what_is_kept_by_everybody(maud: Client, iolo: Client) -> None:
    mine = a_typed_call(maud, face_to_strut_aft="")
    theirs = CallPage(iolo, mine.ident)
    theirs.keep({"answers.face_to_strut_aft.text": "44 1/8"})
    mine.type(gap_now="3/4")
    assert "44 1/8 in · 1120.8 mm" in mine.panel
    assert "verdict-release" in mine.panel


# --- Two clerks -----------------------------------------------------------------------


def test_two_in_different_boxes_never_disturb_each_other(maud: Client, iolo: Client) -> None:
    mine = a_typed_call(maud)
    theirs = CallPage(iolo, mine.ident)
    assert not theirs.type(gap_now="7/8")["conflicts"]
    told = mine.type(hub_length="3")
    assert not told["conflicts"]
    assert told["boxes"] == {GAP: "7/8"}
    assert (texts(mine.ident)[GAP], texts(mine.ident)[HUB]) == ("7/8", "3")


def test_in_one_box_the_second_is_refused_with_both_texts(maud: Client, iolo: Client) -> None:
    mine = a_typed_call(maud)
    theirs = CallPage(iolo, mine.ident)
    mine.type(gap_now="7/8")
    told = theirs.type(gap_now="1")
    (conflict,) = told["conflicts"]
    at = conflict.pop("at")
    assert conflict == {"name": GAP, "label": "Gap", "mine": "1", "theirs": "7/8", "by": "maud"}
    assert len(at) == len("14:02")
    assert GAP not in told["boxes"]
    assert texts(mine.ident)[GAP] == "7/8"


def test_what_was_refused_can_be_read_later(maud: Client, iolo: Client) -> None:
    mine = a_typed_call(maud)
    theirs = CallPage(iolo, mine.ident)
    mine.type(gap_now="7/8")
    theirs.type(gap_now="1")
    (refused,) = DeskDraft.objects.get().boxes[GAP]["refused"]
    assert (refused["text"], refused["by"]) == ("1", "iolo")


def test_to_put_mine_after_a_conflict_works(maud: Client, iolo: Client) -> None:
    mine = a_typed_call(maud)
    theirs = CallPage(iolo, mine.ident)
    mine.type(gap_now="7/8")
    theirs.type(gap_now="1")
    assert not theirs.type(gap_now="1")["conflicts"]
    assert texts(mine.ident)[GAP] == "1"
    assert mine.type(hub_length="3")["boxes"] == {GAP: "1"}


def test_the_rest_of_a_keep_with_a_conflict_is_stored(maud: Client, iolo: Client) -> None:
    mine = a_typed_call(maud)
    theirs = CallPage(iolo, mine.ident)
    mine.type(gap_now="7/8")
    assert theirs.type(gap_now="1", hub_length="3")["conflicts"]
    assert (texts(mine.ident)[GAP], texts(mine.ident)[HUB]) == ("7/8", "3")


def test_an_emptied_box_meets_the_other_clerk_too(maud: Client, iolo: Client) -> None:
    mine = a_typed_call(maud)
    theirs = CallPage(iolo, mine.ident)
    mine.type(gap_now="")
    (conflict,) = theirs.type(gap_now="1")["conflicts"]
    assert conflict["theirs"] == ""


def test_a_page_that_slept_gets_everything_in_short_headers(maud: Client, iolo: Client) -> None:
    mine = a_typed_call(maud)
    theirs = CallPage(iolo, mine.ident)
    names = [f"answers.hull_built_by_year.{part}" for part in ("builder", "year", "length")]
    for name in names:
        theirs.keep({name: name[-3:] * 400})
    heard: dict[str, str] = {}
    for _answer in names:
        told = mine.keep({})
        assert len(told["boxes"]) == 1
        heard |= told["boxes"]
    assert heard == {name: name[-3:] * 400 for name in names}
    assert mine.keep({})["boxes"] == {}


def test_others_on_the_page_are_named(maud: Client, iolo: Client) -> None:
    mine = a_typed_call(maud)
    assert CallPage(iolo, mine.ident).type(gap_now="1")["here"] == ["maud"]
    assert mine.type(hub_length="3")["here"] == ["iolo"]


# --- Closed ---------------------------------------------------------------------------


def test_a_keep_after_saving_changes_nothing_and_says_where_it_went(
    maud: Client, iolo: Client
) -> None:
    mine = a_typed_call(maud)
    theirs = CallPage(iolo, mine.ident)
    request = saved(mine.save())
    before = DeskDraft.objects.values().get()
    told = theirs.type(gap_now="1")
    assert told["closed"] == request.reference
    assert request.reference in theirs.panel
    assert DeskDraft.objects.values().get() == before
    assert Submission.objects.count() == 1


# --- What is refused ------------------------------------------------------------------


@pytest.mark.parametrize(
    ("box", "text", "said"),
    [
        ("answers.no_such.text", "1", "There is no box of the name"),
        ("contact.password", "1", "There is no box of the name"),
        (GAP, "9" * (limits.LONGEST_BOX + 1), "longer than 2000 characters"),
        (GAP, "3\x004", "no keyboard types"),
    ],
)
def test_a_box_that_cannot_be_kept_is_said_and_the_others_are_kept(
    maud: Client, box: str, text: str, said: str
) -> None:
    mine = CallPage(maud)
    told = mine.keep({box: text, HUB: "3"})
    assert told["refused"] == [box]
    assert said in mine.panel
    assert texts(mine.ident) == {HUB: "3"}


def test_the_longest_text_is_kept_whole(maud: Client) -> None:
    mine = CallPage(maud)
    text = "½" * limits.LONGEST_BOX
    assert mine.type(gap_now=text)["refused"] == []
    assert texts(mine.ident) == {GAP: text}


def test_too_many_boxes_are_none(maud: Client) -> None:
    mine = CallPage(maud)
    told = mine.keep({f"answers.gap_now.x{n}": "1" for n in range(limits.MOST_BOXES)})
    assert len(told["refused"]) > limits.MOST_BOXES
    assert "more than 400 boxes" in mine.panel
    assert not DeskDraft.objects.exists()


def test_what_the_page_needs_for_itself_is_no_box(maud: Client) -> None:
    mine = CallPage(maud)
    told = mine.keep({HUB: "3"}, q="otter", idempotency_key="x", onto="")
    assert told["refused"] == []
    assert texts(mine.ident) == {HUB: "3"}


@pytest.mark.parametrize("seen", ["", "-1", "1e3", "x", "9" * 30, "½"])
def test_a_page_that_does_not_know_what_it_saw_overwrites_nothing(
    maud: Client, iolo: Client, seen: str
) -> None:
    mine = a_typed_call(maud)
    theirs = CallPage(iolo, mine.ident)
    assert theirs.keep({GAP: "1"}, seen=seen)["conflicts"]
    assert texts(mine.ident)[GAP] == "3/4"


@pytest.mark.parametrize("ident", ["short", "a" * 33, "with.dots.in.it.and.more", "é" * 20])
def test_an_address_that_is_none_is_not_found(maud: Client, ident: str) -> None:
    assert maud.post(reverse("desk-keep", args=[ident]), {}).status_code == 404
    assert maud.get(reverse("desk-draft", args=[ident])).status_code == 404


def test_a_call_that_was_never_kept_is_not_found(maud: Client) -> None:
    assert maud.get(reverse("desk-draft", args=["a" * 22])).status_code == 404


# --- Who may, and what it costs -------------------------------------------------------

KEEPING = ("desk-keep", "desk-save", "desk-put-away", "desk-reopen")


@pytest.mark.parametrize("name", KEEPING)
@pytest.mark.parametrize(("group", "status"), [("machinist", 403), ("stranger", 403)])
def test_only_the_counter_types(client: Client, name: str, group: str, status: int) -> None:
    client.force_login(a_person(group))
    address = reverse(name, args=["a" * 22])
    assert client.post(address, a_call()).status_code == status
    assert client.get(reverse("desk-draft", args=["a" * 22])).status_code == status
    assert not DeskDraft.objects.exists()


@pytest.mark.parametrize("name", KEEPING)
def test_nobody_types_without_a_login_or_a_token(name: str) -> None:
    address = reverse(name, args=["a" * 22])
    answer = Client().post(address, a_call())
    assert answer["Location"].startswith("/accounts/login/")
    strict = Client(enforce_csrf_checks=True)
    strict.force_login(a_person("counter"))
    assert strict.post(address, a_call()).status_code == 403
    assert not DeskDraft.objects.exists()


@pytest.mark.parametrize("name", KEEPING)
def test_to_look_changes_nothing(maud: Client, name: str) -> None:
    assert maud.get(reverse(name, args=["a" * 22])).status_code == 405


# stock and limits, the open ones with who is there, those put away
PAGE_QUERIES = 6


def test_a_keep_costs_few_queries_however_much_is_typed(maud: Client) -> None:
    mine = a_typed_call(maud)
    mine.type(gap_now="1")
    few = ours(lambda: mine.type(gap_now="3/4"))
    assert len(few) == KEEP_QUERIES, few
    for each in range(12):
        mine.keep({f"answers.hull_built_by_year.{part}": str(each) for part in ("year", "builder")})
        mine.type(gap_now=str(each), hub_length=str(each))
    many = ours(lambda: mine.type(gap_now="3/4"))
    assert len(many) == KEEP_QUERIES, many


def test_the_page_costs_the_same_with_many_calls_open(maud: Client) -> None:
    mine = a_typed_call(maud)
    draft, address = selectors.by_ident(mine.ident), reverse("desk-draft", args=[mine.ident])
    own = ours(lambda: page.context(ident=mine.ident, texts=texts(mine.ident), draft=draft))
    assert len(own) - 1 == PAGE_QUERIES, own  # one of them fetched the texts
    few = ours(lambda: maud.get(address))
    for _other in range(5):
        CallPage(maud).type(gap_now="1")
    many = ours(lambda: maud.get(address))
    assert len(many) == len(few), many


def test_the_clock_of_a_conflict_is_the_desks_own(settings: Any) -> None:
    settings.TIME_ZONE = "Asia/Kolkata"
    assert page.clock("2026-11-25T12:00:00+00:00", "%H:%M") == "17:30"
    assert selectors.draft_place("x") == "draft x"
