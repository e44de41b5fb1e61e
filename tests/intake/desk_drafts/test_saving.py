"""Saving a call: once, whoever sends it and however often; nothing typed is lost."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from intake import selectors
from intake.desk_drafts.services import new_ident
from intake.models import DeskDraft, SheetVersion, Submission
from tests.intake.desk_drafts.given import (
    GAP,
    HUB,
    CallPage,
    a_browser,
    a_typed_call,
    save,
    saved,
    texts,
)
from tests.intake.desk_given import a_call, stock_the_shelf

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


def test_a_saved_call_is_a_request_by_phone_and_its_draft_is_closed(maud: Client) -> None:
    mine = a_typed_call(maud)
    request = saved(mine.save())
    assert (request.channel, request.boat_name) == ("phone", "Biscuit Barrel")
    sheet = selectors.current_sheet(request)
    assert sheet.made_by is not None
    assert sheet.body["answers"]["face_to_strut_aft"] == {"text": "44 1/8", "method": "rod"}
    draft = DeskDraft.objects.get()
    assert draft.saved_as == request
    assert draft.closed_at is not None


def test_a_form_without_scripts_needs_no_keep_before(maud: Client) -> None:
    ident = new_ident()
    request = saved(save(maud, ident, a_call()))
    assert DeskDraft.objects.get(ident=ident).saved_as == request


def test_what_was_typed_since_the_last_keep_is_saved_too(maud: Client) -> None:
    mine = a_typed_call(maud)
    mine.boxes[GAP] = "7/8"
    request = saved(mine.save())
    assert selectors.current_sheet(request).body["answers"]["gap_now"]["text"] == "7/8"


def test_a_double_click_and_a_retry_store_once(maud: Client) -> None:
    mine = a_typed_call(maud)
    first = saved(mine.save())
    assert saved(mine.save()) == first
    assert saved(save(maud, mine.ident, {"seen": "0"})) == first
    assert Submission.objects.count() == SheetVersion.objects.count() == 1


def test_two_clerks_who_both_save_get_one_request(maud: Client, iolo: Client) -> None:
    mine = a_typed_call(maud)
    theirs = CallPage(iolo, mine.ident)
    assert saved(mine.save()) == saved(theirs.save())
    assert Submission.objects.count() == 1


def test_what_cannot_be_read_keeps_the_draft_open_as_typed(maud: Client) -> None:
    mine = a_typed_call(maud)
    mine.boxes[GAP] = "3/4/5"
    answer = mine.save()
    assert answer.status_code == 400
    html = answer.content.decode()
    assert 'value="3/4/5"' in html
    assert [field.key for field in answer.context["wrong"]] == ["answers.gap_now"]
    draft = DeskDraft.objects.get()
    assert (draft.closed_at, draft.saved_as) == (None, None)
    assert texts(mine.ident)[GAP] == "3/4/5"
    assert not Submission.objects.exists()
    again = CallPage(maud, mine.ident)
    again.boxes[GAP] = "3/4"
    assert saved(again.save())


def test_a_box_that_is_too_long_is_shown_whole_and_nothing_is_saved(maud: Client) -> None:
    mine = a_typed_call(maud)
    mine.boxes[GAP] = "3" * 2001
    answer = mine.save()
    assert answer.status_code == 400
    assert "3" * 2001 in answer.content.decode()
    assert texts(mine.ident)[GAP] == "3/4"
    assert not Submission.objects.exists()


def test_what_is_wrong_in_the_order_s_own_boxes_says_which(maud: Client) -> None:
    mine = a_typed_call(maud)
    mine.boxes["job"] = "J" * 41
    answer = mine.save()
    assert answer.status_code == 400
    (told,) = answer.context["lost_errors"]
    assert told.startswith("Their order number: ")


def test_an_empty_form_is_said_to_be_empty(maud: Client) -> None:
    answer = save(maud, new_ident(), {"tape_unit": "", "seen": "0"})
    assert answer.status_code == 400
    assert answer.context["lost_errors"] == ["Nothing is typed yet."]
    assert not DeskDraft.objects.exists()


def test_to_save_against_the_other_clerks_number_shows_both_first(
    maud: Client, iolo: Client
) -> None:
    mine = a_typed_call(maud)
    theirs = CallPage(iolo, mine.ident)
    mine.type(gap_now="7/8")
    theirs.boxes[GAP] = "1"
    answer = theirs.save()
    assert answer.status_code == 409
    (conflict,) = answer.context["conflicts"]
    assert (conflict["mine"], conflict["theirs"], conflict["by"]) == ("1", "7/8", "maud")
    assert answer.context["typed"][GAP] == "1"
    assert texts(mine.ident)[GAP] == "7/8"
    assert not Submission.objects.exists()


def test_to_save_again_from_the_page_that_showed_both_puts_what_stands_there(
    maud: Client, iolo: Client
) -> None:
    mine = a_typed_call(maud)
    theirs = CallPage(iolo, mine.ident)
    mine.type(gap_now="7/8")
    theirs.boxes[GAP] = "1"
    shown = theirs.save().context
    theirs.seen = shown["revision"]
    request = saved(theirs.save(page=shown["page"]))
    assert selectors.current_sheet(request).body["answers"]["gap_now"]["text"] == "1"


def test_a_refused_number_nobody_decided_on_is_not_saved(maud: Client, iolo: Client) -> None:
    mine = a_typed_call(maud)
    theirs = CallPage(iolo, mine.ident)
    mine.type(gap_now="7/8")
    assert theirs.type(gap_now="1")["conflicts"]
    answer = theirs.save(page=theirs.page)
    assert answer.status_code == 409
    assert not Submission.objects.exists()


def test_untouched_boxes_of_an_old_page_do_not_undo_what_others_typed(
    maud: Client, iolo: Client
) -> None:
    mine = a_typed_call(maud)
    theirs = CallPage(iolo, mine.ident)
    mine.type(gap_now="7/8", hub_length="")
    theirs.boxes["contact.name"] = "Odile Marsh"
    request = saved(theirs.save())
    answers = selectors.current_sheet(request).body["answers"]
    assert answers["gap_now"]["text"] == "7/8"
    assert "hub_length" not in answers
    assert request.contact_name == "Odile Marsh"


# --- After it was saved ---------------------------------------------------------------


def test_what_is_typed_after_saving_becomes_a_correction_and_not_a_second_request(
    maud: Client, iolo: Client
) -> None:
    mine = a_typed_call(maud)
    theirs = CallPage(iolo, mine.ident)
    request = saved(mine.save())
    theirs.boxes[GAP] = "7/8"
    answer = theirs.save()
    assert answer.status_code == 409
    assert request.reference in answer.content.decode()
    ident = answer.context["ident"]
    assert ident != mine.ident
    assert (answer.context["continues"], answer.context["late"]) == (request, True)
    assert texts(ident)[GAP] == "7/8"
    assert saved(CallPage(iolo, ident).save()) == request
    assert selectors.current_sheet(request).body["answers"]["gap_now"]["text"] == "7/8"
    assert (Submission.objects.count(), SheetVersion.objects.count()) == (1, 2)


def test_two_late_corrections_of_one_number_meet(maud: Client, iolo: Client) -> None:
    mine = a_typed_call(maud)
    theirs = CallPage(iolo, mine.ident)
    saved(mine.save())
    mine.boxes[GAP] = "1"
    ident = mine.save().context["ident"]
    theirs.boxes[GAP] = "7/8"
    answer = theirs.save()
    assert answer.context["ident"] == ident
    assert [(c["mine"], c["theirs"]) for c in answer.context["conflicts"]] == [("7/8", "1")]
    assert texts(ident)[GAP] == "1"


def test_a_late_change_to_a_withdrawn_request_is_said_and_shown(maud: Client) -> None:
    mine = a_typed_call(maud)
    request = saved(mine.save())
    Submission.objects.filter(pk=request.pk).update(status="withdrawn")
    mine.boxes[GAP] = "7/8"
    answer = mine.save()
    assert answer.status_code == 409
    assert answer.context["typed"][GAP] == "7/8"
    assert "withdrawn" in answer.context["lost_errors"][0]
    assert Submission.objects.count() == 1


def test_the_page_of_a_saved_call_links_to_its_request(maud: Client) -> None:
    mine = a_typed_call(maud)
    request = saved(mine.save())
    shown = maud.get(reverse("desk-draft", args=[mine.ident]))
    assert shown.context["saved"] == request
    assert reverse("submission", args=[request.reference]) in shown.content.decode()


# --- Put away, taken up, left lying ---------------------------------------------------


def test_a_call_put_away_is_kept_and_can_be_taken_up_again(maud: Client) -> None:
    mine = a_typed_call(maud)
    mine.boxes[HUB] = "3"
    away = reverse("desk-put-away", args=[mine.ident])
    assert maud.post(away, {**mine.boxes, "seen": mine.seen})["Location"] == reverse("desk")
    page = maud.get(reverse("desk")).context
    assert page["open_drafts"] == []
    assert [each.ident for each in page["put_away"]] == [mine.ident]
    assert texts(mine.ident)[HUB] == "3"
    back = maud.post(reverse("desk-reopen", args=[mine.ident]))
    assert back["Location"] == reverse("desk-draft", args=[mine.ident])
    assert [e.ident for e in maud.get(reverse("desk")).context["open_drafts"]] == [mine.ident]


def test_to_type_into_a_call_that_was_put_away_opens_it(maud: Client, iolo: Client) -> None:
    mine = a_typed_call(maud)
    theirs = CallPage(iolo, mine.ident)
    maud.post(reverse("desk-put-away", args=[mine.ident]))
    theirs.type(gap_now="7/8")
    draft = DeskDraft.objects.get()
    assert draft.closed_at is None
    assert texts(mine.ident)[GAP] == "7/8"


def test_a_saved_call_can_be_neither_put_away_nor_opened(maud: Client) -> None:
    mine = a_typed_call(maud)
    request = saved(mine.save())
    before = DeskDraft.objects.values().get()
    away = maud.post(reverse("desk-put-away", args=[mine.ident]))
    assert away["Location"] == reverse("submission", args=[request.reference])
    maud.post(reverse("desk-reopen", args=[mine.ident]))
    assert DeskDraft.objects.values().get() == before


def test_a_call_that_is_none_cannot_be_opened(maud: Client) -> None:
    assert maud.post(reverse("desk-reopen", args=["a" * 22])).status_code == 404
    assert maud.post(reverse("desk-put-away", args=["a" * 22])).status_code == 302
    assert not DeskDraft.objects.exists()
