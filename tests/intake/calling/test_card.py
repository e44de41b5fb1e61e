"""The card of one question: asked, read again blind, written down, judged again."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
import time_machine
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse

from intake import selectors
from intake.calling.answers import slugs_for
from intake.calling.services import record_call
from intake.calling.show import next_open, open_lines
from intake.models import BlindReading, CallRecord, Event, Photo, SheetVersion, Submission
from intake.second_reading import SINGLE_ROUTE
from tests.intake.calling.given import (
    ROUTES,
    a_record,
    a_waiting,
    card_of,
    first_open,
    open_checks,
    page_of,
)
from tests.intake.desk_given import a_person
from tests.intake.test_services import at_once

NOON = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)


def write(client: Client, waiting: Submission, **boxes: Any) -> Any:
    return client.post(card_of(waiting), a_record(waiting, **boxes))


# --- Asking ---------------------------------------------------------------------------


def test_the_card_asks_without_giving_the_number_away(counter: Client) -> None:
    waiting = a_waiting()
    page = page_of(counter, card_of(waiting, first_open(waiting)))
    asked = selectors.fresh_sheet(waiting).outcome["findings"][0]["question"]
    assert asked[:20] in page
    assert "<optgroup" in page
    for number in ("45 1/8", "44 1/8", "45⁄", "1146", "1120", "1121"):
        assert number not in page


def test_the_card_shows_where_it_is_and_what_to_listen_for(counter: Client) -> None:
    page = page_of(counter, card_of(a_waiting(), ROUTES))
    assert 'class="dim is-lit" data-slug="face_to_strut_aft"' in page
    assert "What it may be, and what to listen for" in page
    assert "to the very end" in page or "I started at one" in page


def test_everything_that_fired_is_on_the_card(counter: Client) -> None:
    waiting = a_waiting(without=("shell_od",))
    page = page_of(counter, card_of(waiting, ROUTES))
    lines = open_lines(selectors.fresh_sheet(waiting))
    assert len(lines) >= 2
    for line in lines:
        assert str(line.label) in page
    assert page.count("on this card") == 1


def test_a_card_without_a_question_is_that_of_the_first_one(counter: Client) -> None:
    waiting = a_waiting()
    answer = counter.get(card_of(waiting))
    assert answer["Location"] == card_of(waiting, *open_checks(waiting)[0])
    settled = a_waiting("Settled", face_to_strut_aft={"text": "44 1/8", "method": "rod"})
    page = page_of(counter, card_of(settled))
    assert "no longer open" in page
    assert reverse("take-up", args=[settled.reference]) in page, (
        "a number that differs has a way in"
    )
    assert ">I call</button>" not in page


def test_photos_of_what_is_read_blind_are_put_aside(counter: Client) -> None:
    waiting = a_waiting()
    kept = {"width": 4, "height": 3, "content": b"x", "small": b"x"}
    for number, question in enumerate(("face_to_strut_aft", "flange_od")):
        Photo.objects.create(
            submission=waiting,
            ident=f"photo{number}",
            question=question,
            sent_sha256=f"{number:064d}",
            **kept,
        )
    page = page_of(counter, card_of(waiting, ROUTES))
    assert "photo1" in page
    assert "photo0" not in page
    assert "1 photo shows what is read blind here" in page


# --- Reading it again, blind ----------------------------------------------------------


def blind(client: Client, waiting: Submission, text: str, known: str = "", **boxes: str) -> Any:
    slug = boxes.pop("compare", "face_to_strut_aft")
    told = {
        **a_record(waiting, check=ROUTES),
        "compare": slug,
        f"answers.{slug}.text": text,
        **({f"known.{slug}": known} if known else {}),
        **boxes,
    }
    part = {"HX-Request": "true"}
    return client.post(reverse("blind-reading", args=[waiting.reference]), told, headers=part)


def test_the_second_number_brings_both_and_how_far_they_are_apart(counter: Client) -> None:
    waiting = a_waiting()
    page = blind(counter, waiting, "44 1/8").content.decode()
    kept = BlindReading.objects.get()
    assert (kept.first, kept.second, kept.difference_nm) == ("45 1/8", "44 1/8", -25_400_000)
    for said in ("45 1/8", "44 1/8", "1 in less", "maud"):
        assert said in page
    assert "<html" not in page


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("45 1/8", "the same number"),
        ("45 5/32", "1/32 in more"),
        ("1147 mm", "0.825 mm more"),
        ("45.2", "1.905 mm more"),
    ],
)
def test_the_difference_is_exact(counter: Client, text: str, said: str) -> None:
    assert said in blind(counter, a_waiting(), text).content.decode()


def test_without_scripts_it_is_a_step_of_the_form(counter: Client) -> None:
    waiting = a_waiting()
    told = a_record(waiting, compare="face_to_strut_aft", note="as he says", outcome="corrected")
    page = counter.post(reverse("blind-reading", args=[waiting.reference]), told).content.decode()
    for kept in ("<html", "45 1/8", "1 in less", "as he says", 'value="44 1/8"'):
        assert kept in page
    assert "Not written down yet" not in page
    assert not CallRecord.objects.exists()


def test_what_cannot_be_read_shows_nothing_and_keeps_nothing(counter: Client) -> None:
    waiting = a_waiting()
    for text in ("about a yard", ""):
        page = blind(counter, waiting, text).content.decode()
        assert 'class="error"' in page
        assert "45 1/8" not in page
    assert not BlindReading.objects.exists()


def test_an_unreadable_other_answer_is_no_hindrance(counter: Client) -> None:
    waiting = a_waiting()
    page = blind(counter, waiting, "44 1/8", **{"answers.gap_now.text": "3/4/5"}).content.decode()
    assert "1 in less" in page


def test_every_reading_is_kept_and_a_double_click_is_one(counter: Client) -> None:
    waiting = a_waiting()
    blind(counter, waiting, "44 1/8")
    blind(counter, waiting, "44 1/8")  # sent twice: the page knew of none
    assert BlindReading.objects.count() == 1
    blind(counter, waiting, "44 1/8", known="1")  # read once more, and it is the same
    page = blind(counter, waiting, "44 1/4", known="2").content.decode()
    assert BlindReading.objects.count() == 3
    assert page.count("then,") == 3


@pytest.mark.django_db(transaction=True)
def test_two_clicks_at_once_are_one_reading(maud: User) -> None:
    waiting = a_waiting()

    def click() -> int:
        client = Client()
        client.force_login(maud)
        return int(blind(client, waiting, "44 1/8").status_code)

    assert at_once(click, 3) == [200, 200, 200]
    assert BlindReading.objects.count() == 1


def test_a_choice_is_compared_in_words(counter: Client) -> None:
    waiting = a_waiting(forward_datum="hub_end")
    told = {"compare": "forward_datum", "answers.forward_datum": "gearbox_face"}
    page = blind(counter, waiting, "", **told).content.decode()
    assert "another answer" in page
    assert BlindReading.objects.get().difference_nm is None


def test_nothing_is_compared_with_what_nobody_asked_about(counter: Client) -> None:
    page = blind(counter, a_waiting(), "3/4", compare="dia_clean").content.decode()
    assert "Somebody changed this sheet" in page
    assert not BlindReading.objects.exists()


def test_a_card_opened_again_is_blind_again(counter: Client) -> None:
    waiting = a_waiting()
    blind(counter, waiting, "44 1/4")
    page = page_of(counter, card_of(waiting, ROUTES))
    assert "45 1/8" not in page
    assert "44 1/4" not in page


def test_what_was_compared_stays_shown_while_something_else_is_missing(counter: Client) -> None:
    waiting = a_waiting()
    blind(counter, waiting, "44 1/8")
    known = {"known.face_to_strut_aft": "1"}
    assert "1 in less" in write(counter, waiting, said_by="", **known).content.decode()
    assert "45 1/8" not in write(counter, waiting, said_by="").content.decode()


# --- Writing it down ------------------------------------------------------------------


def test_a_corrected_answer_is_a_new_version(counter: Client) -> None:
    waiting = a_waiting()
    answer = write(counter, waiting)
    assert answer["Location"] == reverse("submission", args=[waiting.reference])
    assert SheetVersion.objects.filter(submission=waiting).count() == 2
    call = CallRecord.objects.get()
    assert (call.cause, call.said_by, call.outcome) == ("R-BURN-X", "Wilmot Tarpley", "corrected")
    page = page_of(counter, answer["Location"])
    assert "<del>45 1/8</del>" in page
    assert "started on the 1 mark" in page
    assert "Wilmot Tarpley" in page


@pytest.mark.parametrize(
    ("boxes", "said"),
    [
        ({"said_by": ""}, "Write the name"),
        ({"cause": ""}, "nearest cause"),
        ({"answers.face_to_strut_aft.text": ""}, "Type the new answer"),
        ({"answers.face_to_strut_aft.text": "44 1/8/8"}, "44 1/8/8"),
        ({"outcome": ""}, "required"),
        ({"cause": "NO-SUCH"}, "valid choice"),
        ({"outcome": "overridden", "note": ""}, "without an answer"),
        ({"outcome": "not_reached", "again": "at"}, "day or the time"),
        ({"outcome": "not_reached", "again": "at", "again_day": "2020-01-01"}, "is over"),
        ({"outcome": "not_reached", "again": "at", "again_day": "9999-12-31"}, "two months"),
        ({"outcome": "not_reached", "again_day": "soon"}, "valid date"),
    ],
)
def test_a_card_that_is_not_complete_says_what_is_missing(
    counter: Client, boxes: dict[str, str], said: str
) -> None:
    waiting = a_waiting()
    answer = write(counter, waiting, **{"note": "he was sure", **boxes})
    page = answer.content.decode()
    assert answer.status_code == 400
    assert said in page
    assert boxes.get("note", "he was sure") in page
    assert not CallRecord.objects.exists()


def test_the_next_question_comes_at_once_and_stays_mine(counter: Client) -> None:
    waiting = a_waiting(without=("shell_od",))
    counter.post(reverse("call-claim", args=[waiting.reference]))
    boxes = {"check": "missing-critical", "answer": "shell_od", "cause": ""}
    boxes |= {"answers.face_to_strut_aft.text": "", "answers.shell_od.text": "1 1/4"}
    answer = write(counter, waiting, **boxes)
    assert f"check={first_open(waiting)}" in answer["Location"]
    page = page_of(counter, answer["Location"])
    assert "You have this call until" in page
    assert "this is still open" in page


def test_what_cannot_be_measured_and_stays_open_goes_back_to_the_page(counter: Client) -> None:
    waiting = a_waiting()
    boxes = {"outcome": "cannot_measure", "cause": "", "answers.face_to_strut_aft.text": ""}
    assert write(counter, waiting, **boxes).status_code == 302
    answers = selectors.fresh_sheet(waiting).body["answers"]
    assert answers["face_to_strut_aft"] == {"state": "cannot_measure"}


def test_a_question_that_stays_is_asked_once_more_after_the_others() -> None:
    sheet = selectors.fresh_sheet(a_waiting(without=("shell_od",)))
    first, second = open_checks(a_waiting("Again", without=("shell_od",)))[:2]
    following = next_open(sheet, first)
    assert following is not None
    assert following["check"] == second[0]
    last = next_open(selectors.fresh_sheet(a_waiting("One")), (ROUTES, "face_to_strut_aft"))
    assert last is not None


def test_a_withdrawn_call_leaves_the_queue(counter: Client) -> None:
    waiting = a_waiting()
    assert write(counter, waiting, outcome="withdrawn", cause="").status_code == 302
    assert waiting.reference not in page_of(counter, reverse("call-queue"))
    answer = write(counter, waiting, note="one more thing")
    assert answer.status_code == 409
    assert "one more thing" in answer.content.decode()


def test_nobody_reached_changes_no_sheet_and_says_when_again(counter: Client) -> None:
    with time_machine.travel(NOON, tick=False):
        waiting = a_waiting()
        boxes = {"outcome": "not_reached", "said_by": "", "cause": "", "again": "hour"}
        counter.force_login(User.objects.get(username="maud"))
        assert write(counter, waiting, **boxes).status_code == 302
        history = page_of(counter, reverse("submission", args=[waiting.reference]))
    waiting.refresh_from_db()
    assert waiting.sheets.count() == 1
    assert waiting.not_before == NOON + timedelta(hours=1)
    assert CallRecord.objects.get().again_at == waiting.not_before
    assert "Try again on 25 Nov 2026, 13:00" in history


def test_a_second_reading_joins_the_first_and_needs_no_cause(counter: Client) -> None:
    alone = ("old_length_face_to_thread", "tail_to_thread")
    waiting = a_waiting(without=alone, face_to_strut_aft={"text": "44 1/8", "method": "rod"})
    assert "single-route" in [check for check, _answer in open_checks(waiting)]
    page = page_of(counter, card_of(waiting, "single-route"))
    assert "answers.face_to_strut_aft.again.start_mark" in page
    assert "44 1/8" not in page
    boxes = {
        "check": "single-route",
        "cause": "",
        "answers.face_to_strut_aft.text": "",
        "answers.face_to_strut_aft.again.start_mark": "10",
        "answers.face_to_strut_aft.again.text": "54 1/8",
        "answers.face_to_strut_aft.again.method": "rod",
    }
    told = {**boxes, "compare": "face_to_strut_aft", "sheet_number": "1", "tape_unit": "in"}
    compared = counter.post(reverse("blind-reading", args=[waiting.reference]), told)
    assert "the same number" in compared.content.decode()
    answer = write(counter, waiting, **boxes)
    assert answer.status_code == 302, answer.content.decode()
    sheet = selectors.fresh_sheet(waiting)
    both = sheet.body["answers"]["face_to_strut_aft"]
    assert (both["text"], both["again"]["text"]) == ("44 1/8", "54 1/8")
    assert "single-route" not in [row["check"] for row in sheet.outcome["findings"]]


def test_where_the_tape_began_can_be_told_with_the_length(counter: Client) -> None:
    waiting = a_waiting()
    boxes = {"answers.forward_datum": "gearbox_face"}
    assert write(counter, waiting, **boxes).status_code == 302
    answers = selectors.fresh_sheet(waiting).body["answers"]
    assert answers["forward_datum"] == "gearbox_face"


# --- Several findings of one check, and how to reach them -----------------------------


def test_each_missing_answer_has_its_own_card_and_is_settled_alone(counter: Client) -> None:
    waiting = a_waiting(without=("shell_od", "flange_od"))
    for slug in ("shell_od", "flange_od"):
        page = page_of(counter, card_of(waiting, "missing-critical", slug))
        assert f'name="answers.{slug}.text"' in page
    counter.force_login(a_person("manager", "percival"))
    boxes = {"check": "missing-critical", "answer": "flange_od", "said_by": "", "cause": ""}
    answer = write(counter, waiting, outcome="overridden", note="the yard measures it", **boxes)
    assert answer.status_code == 302, answer.content.decode()
    assert CallRecord.objects.get().answer == "flange_od"
    left = open_checks(waiting)
    assert ("missing-critical", "flange_od") not in left
    assert ("missing-critical", "shell_od") in left


def test_a_missing_number_to_ring_is_taken_on_the_card(counter: Client) -> None:
    waiting = a_waiting(contact={"name": "Odile Marsh", "role": "owner"})
    asked = ("missing-critical", "contact.phone")
    assert asked in open_checks(waiting)
    page = page_of(counter, card_of(waiting, *asked))
    assert 'name="contact.phone"' in page
    assert 'name="contact.email"' in page
    boxes = {"check": asked[0], "answer": asked[1], "cause": "", "contact.phone": "+1 202 555 0142"}
    boxes["answers.face_to_strut_aft.text"] = ""
    answer = write(counter, waiting, **boxes)
    assert answer.status_code == 302, answer.content.decode()
    waiting.refresh_from_db()
    assert waiting.contact_phone == "+1 202 555 0142"
    assert waiting.contact_name == "Odile Marsh"
    assert asked not in open_checks(waiting)
    assert waiting.customer is not None


def test_a_number_to_ring_is_no_measurement(counter: Client) -> None:
    waiting = a_waiting(contact={"name": "Odile Marsh", "role": "owner"})
    boxes = {"check": "missing-critical", "answer": "contact.phone", "cause": ""}
    answer = write(counter, waiting, outcome="cannot_measure", **boxes)
    assert answer.status_code == 400
    assert "no measurement" in answer.content.decode()


# --- Released over it -----------------------------------------------------------------


def test_released_over_a_question_with_a_reason_it_holds_no_more(counter: Client) -> None:
    waiting = a_waiting()
    boxes = {"said_by": "", "cause": "", "answers.face_to_strut_aft.text": ""}
    answer = write(counter, waiting, outcome="overridden", note="the yard fits it", **boxes)
    assert answer.status_code == 302, answer.content.decode()
    assert (ROUTES, "face_to_strut_aft") not in open_checks(waiting)
    page = page_of(counter, reverse("submission", args=[waiting.reference]))
    assert "released over it" in page
    assert "the yard fits it" in page
    assert "Settled by a person" in page


def test_another_answer_opens_what_was_released_over(counter: Client) -> None:
    waiting = a_waiting()
    quiet = {"said_by": "", "cause": "", "answers.face_to_strut_aft.text": ""}
    write(counter, waiting, outcome="overridden", note="the yard fits it", **quiet)
    record_call(
        submission=waiting,
        sheet_number=2,
        by=User.objects.get(username="maud"),
        check_id="",
        outcome="corrected",
        said_by="Odile Marsh",
        answers={"face_to_strut_aft": {"text": "46 1/8", "method": "rod"}},
    )
    assert ROUTES in [check for check, _answer in open_checks(waiting)]


@pytest.mark.parametrize("outcome", ["confirmed", "overridden"])
def test_only_a_manager_releases_over_a_stop(
    client: Client, maud: User, percival: User, outcome: str
) -> None:
    waiting = a_waiting(without=("shell_od",))
    stop = {"check": "missing-critical", "answer": "shell_od", "cause": ""}
    client.force_login(maud)
    assert "only a manager can" in page_of(client, card_of(waiting, *list(stop.values())[:2]))
    refused = write(client, waiting, outcome=outcome, note="agreed with the yard", **stop)
    assert refused.status_code == 400
    assert "Only a manager" in refused.content.decode()
    client.force_login(percival)
    assert write(client, waiting, outcome=outcome, note="", **stop).status_code == 400
    allowed = write(client, waiting, outcome=outcome, note="agreed with the yard", **stop)
    assert allowed.status_code == 302
    assert ("missing-critical", "shell_od") not in open_checks(waiting)


# --- Somebody else was quicker --------------------------------------------------------


def test_who_comes_second_sees_both_values_and_loses_nothing(
    counter: Client, other: Client
) -> None:
    waiting = a_waiting()
    late = a_record(waiting, note="late but typed")
    other.post(card_of(waiting), a_record(waiting, **{"answers.face_to_strut_aft.text": "44 1/4"}))
    answer = counter.post(card_of(waiting), late)
    page = answer.content.decode()
    assert answer.status_code == 409
    assert "Somebody changed this sheet" in page
    assert "iolo" in page
    for kept in ("44 1/8", "44 1/4", "late but typed", "Wilmot Tarpley"):
        assert kept in page
    assert CallRecord.objects.count() == 1


def test_what_nobody_changed_stays_unseen_when_overtaken(counter: Client, other: Client) -> None:
    waiting = a_waiting()
    late = a_record(waiting)
    elsewhere = {"check": "", "answers.hub_length.text": "3"}
    record_call(
        submission=waiting,
        sheet_number=1,
        by=User.objects.get(username="iolo"),
        check_id="",
        outcome="corrected",
        said_by="Odile Marsh",
        cause="X",
        answers={"bearing_length": {"text": "2 1/4", "count": 1}},
    )
    page = counter.post(card_of(waiting), {**late, **elsewhere, "check": ROUTES}).content.decode()
    assert "as it was" in page
    assert "45 1/8" not in page


def test_sent_again_after_looking_it_counts(counter: Client, other: Client) -> None:
    waiting = a_waiting()
    late = a_record(waiting)
    other.post(card_of(waiting), a_record(waiting, **{"answers.face_to_strut_aft.text": "46 1/8"}))
    assert counter.post(card_of(waiting), late).status_code == 409
    again = {**late, "sheet_number": "2"}
    assert "iolo has this call" in counter.post(card_of(waiting), again).content.decode()
    other.post(reverse("call-give-back", args=[waiting.reference]))
    assert counter.post(card_of(waiting), again).status_code == 302
    assert Event.objects.filter(submission=waiting).exists()
    assert selectors.by_reference(waiting.reference).status == "ready"


@pytest.mark.parametrize("number", ["0", "x", "", "9" * 30, "-1", "²"])
def test_a_version_that_never_was_is_told_kindly(counter: Client, number: str) -> None:
    answer = write(counter, a_waiting(), sheet_number=number)
    assert answer.status_code == 409
    assert not CallRecord.objects.exists()


def test_a_card_costs_the_same_with_a_longer_history(
    counter: Client, django_assert_num_queries: Any
) -> None:
    waiting = a_waiting()
    card = card_of(waiting, ROUTES)
    for _again in range(2):
        with django_assert_num_queries(CARD_QUERIES):
            counter.get(card)
        for _call in range(3):
            write(counter, waiting, outcome="not_reached", said_by="", cause="")


# Session, person, permissions; the request, its sheet, claim, photos, who looks, how late.
CARD_QUERIES = 9


@pytest.mark.parametrize(
    ("cause", "first"),
    [("G-ASSUME", "gap_now"), ("P-RULE", "hub_length"), ("D-HUB", "face_to_strut_aft")],
)
def test_what_is_asked_in_other_words_has_its_boxes_first(cause: str, first: str) -> None:
    asked = ["face_to_strut_aft", "old_length_face_to_thread"]
    finding = {"check": ROUTES, "answers": asked, "likely": [{"cause": cause, "probability": 0.5}]}
    slugs = slugs_for(finding)
    assert slugs[0] == first
    assert set(asked) < set(slugs)
    again = slugs_for({**finding, "check": SINGLE_ROUTE})
    assert again[0] == "face_to_strut_aft", "a second reading is of its own answer"
