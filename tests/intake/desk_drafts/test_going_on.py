"""A draft that goes on from a request: what it changes, and what else has changed since."""

from __future__ import annotations

from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from intake import selectors
from intake.answering.services import take_answers
from intake.desk_drafts.boxes import boxes_of
from intake.desk_drafts.going_on.rebasing import corrected, moved
from intake.domain.questions import QUESTIONS
from intake.models import DeskDraft, Event, SheetVersion, Submission
from intake.services import close, correct_sheet, receive_submission
from intake.signals import sheet_replaced, submission_ready
from tests.given import a_body
from tests.intake.desk_drafts.given import (
    GAP,
    HUB,
    KEEP_QUERIES,
    CallPage,
    a_browser,
    ours,
    saved,
    texts,
)
from tests.intake.desk_given import stock_the_shelf
from tests.intake.test_services import listening

pytestmark = pytest.mark.django_db

BOXLESS: dict[str, Any] = {
    "supports": [{"what": "bearing", "from_face": "30"}],
    "reuse_coupling": {"reuse": True},
}


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


def a_request(**answers: Any) -> Submission:
    return receive_submission(body=a_body(**answers))


def take_up(client: Client, request: Submission) -> CallPage:
    answer = client.post(reverse("take-up", args=[request.reference.lower()]))
    return CallPage(client, answer["Location"].rstrip("/").split("/")[-1])


def answers_of(request: Submission) -> dict[str, Any]:
    return dict(selectors.fresh_sheet(request).body["answers"])


def changed_elsewhere(request: Submission, **answers: Any) -> SheetVersion:
    """Somebody stores another sheet of the request."""
    sheet = selectors.fresh_sheet(request)
    told = {**sheet.body["answers"], **answers}
    body = {**sheet.body, "answers": {slug: each for slug, each in told.items() if each}}
    correct_sheet(
        submission=request, sheet_number=sheet.number, body=body, by=bronagh(), said_by="yard"
    )
    return selectors.fresh_sheet(request)


def bronagh() -> User:
    return User.objects.get_or_create(username="bronagh")[0]


# --- Taking up ------------------------------------------------------------------------


def test_the_sheet_opens_on_the_call_page(maud: Client) -> None:
    request = a_request()
    mine = take_up(maud, request)
    shown = maud.get(reverse("desk-draft", args=[mine.ident])).context
    assert shown["continues"] == request
    assert shown["typed"]["answers.face_to_strut_aft.text"] == "44 1/8"
    assert shown["typed"]["answers.bearing_length.count"] == "1"
    assert shown["judged"].shown.verdict == "release"


def test_two_clerks_land_on_the_same_page(maud: Client, iolo: Client) -> None:
    request = a_request()
    assert take_up(maud, request).ident == take_up(iolo, request).ident
    assert DeskDraft.objects.count() == 1


def test_a_withdrawn_request_is_not_taken_up(maud: Client) -> None:
    request = close(submission=a_request(), reason="sold the boat")
    answer = maud.post(reverse("take-up", args=[request.reference]))
    assert answer["Location"] == reverse("submission", args=[request.reference])
    assert not DeskDraft.objects.exists()


def test_a_request_that_is_none_is_not_found(maud: Client) -> None:
    assert maud.post(reverse("take-up", args=["FG-AAAAAA"])).status_code == 404
    assert maud.get(reverse("take-up", args=["FG-AAAAAA"])).status_code == 405


# --- Saving ---------------------------------------------------------------------------


def test_a_changed_answer_is_a_new_version_of_the_same_request(maud: Client) -> None:
    request = a_request()
    mine = take_up(maud, request)
    mine.type(gap_now="7/8")
    assert saved(mine.save()) == request
    sheet = selectors.fresh_sheet(request)
    assert (sheet.number, sheet.reason) == (2, "taken down on the phone")
    assert (sheet.said_by, str(sheet.made_by)) == ("Wilmot Tarpley", "maud")
    assert sheet.body["answers"]["gap_now"] == {"text": "7/8", "method": "drill_shank"}
    assert Submission.objects.count() == 1


def test_everything_else_stays_letter_for_letter(maud: Client) -> None:
    request = a_request(dia_clean="1 in", water="salt", **BOXLESS)
    before = selectors.fresh_sheet(request).body
    mine = take_up(maud, request)
    mine.boxes[GAP] = "7/8"
    saved(mine.save())
    after = selectors.fresh_sheet(request).body
    assert {
        **after,
        "answers": {**after["answers"], "gap_now": before["answers"]["gap_now"]},
    } == before


def test_to_save_what_nobody_changed_makes_no_version(maud: Client) -> None:
    request = a_request(dia_clean="1 in")
    mine = take_up(maud, request)
    assert saved(mine.save()) == request
    assert SheetVersion.objects.count() == 1
    assert DeskDraft.objects.get().saved_as == request


def test_an_answer_can_be_taken_back_and_a_tick_given(maud: Client) -> None:
    request = a_request()
    mine = take_up(maud, request)
    gone = {
        "answers.shell_od.text": "",
        "answers.gap_now.state": "cannot_measure",
        "wants": "shaft",
    }
    mine.keep(gone)
    saved(mine.save())
    sheet = selectors.fresh_sheet(request)
    assert "shell_od" not in sheet.body["answers"]
    assert sheet.body["answers"]["gap_now"] == {"state": "cannot_measure"}
    assert sheet.body["wants"] == ["shaft"]


def test_a_way_of_measuring_said_after_the_number_replaces_the_old_one(maud: Client) -> None:
    request = a_request()
    mine = take_up(maud, request)
    mine.keep({"answers.face_to_strut_aft.text": "44 1/4 helper"})
    saved(mine.save())
    told = answers_of(request)["face_to_strut_aft"]
    assert told == {"text": "44 1/4", "method": "tape_helper"}


CONTACT = {
    "contact.name": ("contact_name", "Odile Marsh"),
    "contact.phone": ("contact_phone", "+1 202 555 0199"),
    "contact.email": ("contact_email", "odile@example.org"),
    "contact.role": ("contact_role", "yard"),
    "job": ("job", "PO 7"),
}


@pytest.mark.parametrize("box", CONTACT)
def test_a_corrected_contact_reaches_the_request_itself(maud: Client, box: str) -> None:
    column, text = CONTACT[box]
    request = a_request()
    mine = take_up(maud, request)
    mine.keep({box: text})
    saved(mine.save())
    request.refresh_from_db()
    assert getattr(request, column) == text


def test_a_contact_taken_away_is_gone_from_the_request(maud: Client) -> None:
    request = a_request()
    mine = take_up(maud, request)
    mine.keep({"contact.name": "", "contact.email": "w@example.org"})
    saved(mine.save())
    request.refresh_from_db()
    assert (request.contact_name, request.contact_email) == ("", "w@example.org")
    assert "name" not in selectors.fresh_sheet(request).body["contact"]


def test_the_request_moves_to_where_its_new_sheet_sends_it(maud: Client) -> None:
    request = a_request(face_to_strut_aft={"text": "42 1/8", "method": "rod"})
    assert request.status == "needs_call"
    mine = take_up(maud, request)
    mine.keep({"answers.face_to_strut_aft.text": "44 1/8"})
    saved(mine.save())
    request.refresh_from_db()
    assert (request.status, request.verdict) == ("ready", "release")
    last = Event.objects.filter(submission=request).last()
    assert last is not None
    assert str(last.by) == "maud"


def test_a_correction_sent_twice_is_one_version(maud: Client) -> None:
    request = a_request()
    mine = take_up(maud, request)
    mine.type(gap_now="7/8")
    assert saved(mine.save()) == saved(mine.save()) == request
    assert SheetVersion.objects.count() == 2


def test_a_request_withdrawn_meanwhile_leaves_the_draft_as_typed(maud: Client) -> None:
    request = a_request()
    mine = take_up(maud, request)
    mine.type(gap_now="7/8")
    close(submission=request, reason="sold the boat")
    answer = mine.save()
    assert answer.status_code == 409
    assert "withdrawn" in answer.context["lost_errors"][0]
    assert texts(mine.ident)[GAP] == "7/8"
    assert DeskDraft.objects.get().saved_as is None
    assert SheetVersion.objects.count() == 1


# --- The sheet changed meanwhile ------------------------------------------------------

THEIRS = {"text": "1", "method": "drill_shank"}


def overtaken(maud: Client) -> tuple[Submission, CallPage, Any]:
    """I typed a gap and a hub; somebody stored another gap and another thread meanwhile."""
    request = a_request()
    mine = take_up(maud, request)
    mine.type(gap_now="7/8", hub_length="3")
    changed_elsewhere(request, gap_now=THEIRS, thread={"text": "3/4-10"})
    return request, mine, mine.save()


def test_every_answer_that_differs_is_shown_three_times(maud: Client) -> None:
    request, _mine, answer = overtaken(maud)
    assert answer.status_code == 409
    (gap,) = answer.context["choices"]
    assert (gap.key, str(gap.label)) == ("answers.gap_now", "Gap")
    assert (gap.base, gap.now, gap.mine) == ("3/4", "1", "7/8")
    (thread,) = answer.context["taken_over"]
    assert (thread.base, thread.now, thread.mine) == ("", "3/4-10", "")
    html = answer.content.decode()
    assert all(word in html for word in ("bronagh", request.reference, "3/4-10", "7/8"))
    assert "style=" not in html


def test_how_it_was_measured_is_shown_where_that_differs(maud: Client) -> None:
    request = a_request()
    mine = take_up(maud, request)
    mine.keep({"answers.gap_now.text": "3/4 rule"})
    changed_elsewhere(request, gap_now={"text": "3/4", "method": "eye"})
    (gap,) = mine.save().context["choices"]
    assert len({gap.base, gap.now, gap.mine}) == 3
    assert gap.mine.startswith("3/4, ")


def test_nothing_is_stored_before_somebody_chose(maud: Client) -> None:
    request, mine, _answer = overtaken(maud)
    assert answers_of(request)["gap_now"] == THEIRS
    assert texts(mine.ident)[GAP] == "7/8"
    again = mine.client.post(reverse("desk-save", args=[mine.ident]), {"onto": "2"})
    assert again.status_code == 409
    assert again.context["unchosen"]
    assert SheetVersion.objects.count() == 2


@pytest.mark.parametrize(
    ("whose", "gap"), [("mine", {"text": "7/8", "method": "drill_shank"}), ("theirs", THEIRS)]
)
def test_what_was_chosen_is_saved_on_the_newer_sheet(
    maud: Client, whose: str, gap: dict[str, str]
) -> None:
    request, mine, _answer = overtaken(maud)
    chosen = {"onto": "2", "choice.answers.gap_now": whose, "choice.answers.thread": "theirs"}
    done = maud.post(reverse("desk-save", args=[mine.ident]), chosen)
    assert saved(done) == request
    told = answers_of(request)
    assert told["gap_now"] == gap
    assert told["hub_length"]["text"] == "3"
    assert told["thread"] == {"text": "3/4-10"}
    assert selectors.fresh_sheet(request).number == 3
    assert saved(maud.post(reverse("desk-save", args=[mine.ident]), chosen)) == request
    assert SheetVersion.objects.count() == 3


def test_my_number_that_was_not_chosen_can_be_read_later(maud: Client) -> None:
    _request, mine, _answer = overtaken(maud)
    chosen = {"onto": "2", "choice.answers.gap_now": "theirs"}
    maud.post(reverse("desk-save", args=[mine.ident]), chosen)
    box = DeskDraft.objects.get().boxes[GAP]
    assert [old["text"] for old in box["before"]] == ["3/4", "7/8"]


def test_what_they_alone_changed_can_be_put_back(maud: Client) -> None:
    request, mine, _answer = overtaken(maud)
    chosen = {
        "onto": "2",
        "choice.answers.gap_now": "mine",
        "choice.answers.thread": "mine",
    }
    saved(maud.post(reverse("desk-save", args=[mine.ident]), chosen))
    assert "thread" not in answers_of(request)


def test_who_chose_on_a_sheet_that_changed_again_is_asked_again(maud: Client) -> None:
    request, mine, _answer = overtaken(maud)
    changed_elsewhere(request, gap_now={"text": "1 1/8"})
    chosen = {"onto": "2", "choice.answers.gap_now": "mine"}
    answer = maud.post(reverse("desk-save", args=[mine.ident]), chosen)
    assert answer.status_code == 409
    assert answer.context["choices"][0].now.startswith("1 1/8")
    assert SheetVersion.objects.count() == 3


def test_a_newer_sheet_that_says_the_same_asks_nobody(maud: Client) -> None:
    request = a_request()
    mine = take_up(maud, request)
    mine.type(gap_now="7/8")
    changed_elsewhere(request, hub_length={"text": "3"})
    changed_elsewhere(request, hub_length={"text": "2 15/16", "method": "caliper"})
    assert saved(mine.save()) == request
    assert answers_of(request)["gap_now"]["text"] == "7/8"


def test_a_draft_nobody_typed_into_goes_on_from_the_newer_sheet(maud: Client) -> None:
    request = a_request()
    page = take_up(maud, request)
    changed_elsewhere(request, gap_now=THEIRS)
    again = take_up(maud, request)
    assert again.ident == page.ident
    assert again.boxes[GAP] == "1"
    page.boxes[HUB] = "3"  # the page that was open all the while shows the older gap
    saved(page.save())
    assert answers_of(request)["gap_now"] == THEIRS
    assert answers_of(request)["hub_length"]["text"] == "3"


def test_what_a_customer_answered_alone_meanwhile_is_shown_too(maud: Client) -> None:
    request = a_request(without=("shell_od",))
    mine = take_up(maud, request)
    mine.keep({"answers.shell_od.text": "1 3/8"})
    take_answers(submission=request, sheet_number=1, answers={"shell_od": {"text": "1 1/4"}})
    (shell,) = mine.save().context["choices"]
    assert (shell.base, shell.now, shell.mine) == ("", "1 1/4", "1 3/8")


def test_a_keep_says_that_there_is_a_newer_sheet(maud: Client) -> None:
    request = a_request()
    mine = take_up(maud, request)
    assert not mine.type(gap_now="7/8")["newer"]
    changed_elsewhere(request, thread={"text": "3/4-10"})
    assert mine.type(gap_now="1")["newer"]
    assert "has a newer sheet" in mine.panel
    assert maud.get(reverse("desk-draft", args=[mine.ident])).context["newer"]


def test_a_keep_of_a_correction_costs_one_query_more(maud: Client) -> None:
    mine = take_up(maud, a_request())
    mine.type(gap_now="1")
    few = ours(lambda: mine.type(gap_now="7/8"))
    assert len(few) == KEEP_QUERIES + 1, few


# --- The service and the pure part ----------------------------------------------------


def test_a_whole_sheet_stored_anew_is_judged_and_announced() -> None:
    request = a_request()
    heard: list[str] = []
    body = a_body(gap_now={"text": "7/8", "method": "drill_shank"})
    with (
        listening(sheet_replaced, lambda **_: heard.append("replaced")),
        listening(submission_ready, lambda **_: heard.append("ready")),
    ):
        for _again in range(2):
            correct_sheet(
                submission=request, sheet_number=1, body=body, by=bronagh(), said_by=" yard "
            )
    assert heard == ["replaced", "ready"]
    assert [(s.number, s.said_by) for s in request.sheets.all()] == [(1, ""), (2, "yard")]


def test_the_body_is_the_stored_one_with_what_the_boxes_say_otherwise() -> None:
    base = a_body(**BOXLESS, dia_clean="1 in")
    boxes = boxes_of(base)
    assert corrected(base, boxes) == base
    assert corrected(base, {**boxes, GAP: "7/8"})["answers"]["gap_now"] == {
        "text": "7/8",
        "method": "drill_shank",
    }
    cleared = corrected(base, {**boxes, GAP: "", "contact.role": "", "job": "PO 7"})
    assert "gap_now" not in cleared["answers"]
    assert cleared["job"] == "PO 7"
    assert "role" not in cleared["contact"]
    assert base == a_body(**BOXLESS, dia_clean="1 in")


def test_the_usual_way_of_measuring_said_or_not_is_the_same_answer() -> None:
    base = a_body(gap_now="3/4")
    usual = {**boxes_of(base), "answers.gap_now.method": QUESTIONS["gap_now"].default_method}
    assert corrected(base, usual) == base


def test_what_both_changed_alike_needs_no_choice() -> None:
    base, now = a_body(), a_body(gap_now={"text": "1", "method": "drill_shank"})
    boxes = {**boxes_of(base), GAP: "1"}
    (one,) = moved(base, now, boxes)
    assert not one.touched
