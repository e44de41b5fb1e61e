"""Any word or number finds its requests, however it was typed, on both databases alike."""

from __future__ import annotations

import pytest

from intake.calling.services import record_call
from intake.finding.lists.asked import asked_for
from intake.finding.lists.selectors import page_of
from intake.finding.models import RequestLine
from intake.finding.services import forget, index_all, index_waiting, look_again
from intake.models import Submission
from intake.selectors import current_sheet
from tests.intake.desk_given import a_person, stock_the_shelf
from tests.intake.finding.given import a_request, indexed, measured

pytestmark = pytest.mark.django_db


def found(text: str, **typed: str) -> list[int]:
    return list(page_of(asked_for({"q": text, **typed}), 25).keys)


@pytest.fixture
def otter(db: None) -> Submission:
    """One request among others."""
    stock_the_shelf()
    a_request("Kettle Drum", "Odile Marsh", "+1 202 555 0177")
    (mine, _) = indexed(
        a_request(
            "Señor O'Otter",
            "Wilmot Tarpley",
            "+1 (202) 555-0142",
            station="port",
            top={"job": "PO 7781/b"},
            old_length_face_to_thread=measured("58 5/8"),
        ),
        a_request("Lady Jane", "Odile Marsh", "+1 202 555 0188"),
    )
    return mine


@pytest.mark.parametrize(
    "text",
    [
        "58 5/8",
        "58.625",
        "4' 10 5/8\"",
        "4 ft 10 5/8 in",
        "1489.1 mm",
        "1489.1",
        "1489 mm",
        "148.9075 cm",
        "58⅝",
        "58 5⁄8",
        "tarpley 58 5/8 port",
    ],
)
def test_a_reading_is_found_however_it_is_typed(otter: Submission, text: str) -> None:
    assert found(text) == [otter.pk]


@pytest.mark.parametrize("text", ["58 1/8", "1489.2 mm", "1488 mm", "58.63", "5 8 5"])
def test_another_reading_is_not(otter: Submission, text: str) -> None:
    assert found(text) == []


@pytest.mark.parametrize(
    "text",
    [
        "+1 202 555 0142",
        "2025550142",
        "0142",
        "555-0142",
        "202 555 0142",
        "00 1 202 5550142",
        "wilmot",
        "TARP",
        "tarpley otter",
        "o'otter",
        "senor",
        "señor",
        "7781",
        "po 7781/b",
    ],
)
def test_a_person_a_boat_a_job_is_found_by_any_part(otter: Submission, text: str) -> None:
    assert found(text) == [otter.pk]


def test_a_reference_is_found_with_and_without_its_letters(otter: Submission) -> None:
    bare = otter.reference.removeprefix("FG-")
    for text in (otter.reference, otter.reference.lower(), bare, f"fg{bare}", bare[:4]):
        assert found(text) == [otter.pk], text


def test_a_part_is_found_by_its_code(otter: Submission) -> None:
    code = current_sheet(otter).outcome["parts"][0]["code"]
    for text in (code, code.lower(), code.replace("-", "")):
        assert otter.pk in found(text), text


def test_a_cause_is_found_by_its_words(otter: Submission) -> None:
    (held,) = indexed(a_request("Slow Tide", face_to_strut_aft=measured("45 1/8", "rod")))
    sheet = current_sheet(held)
    record_call(
        submission=held,
        sheet_number=sheet.number,
        by=a_person("counter", "maud"),
        check_id=sheet.outcome["findings"][0]["check"],
        outcome="not_reached",
        said_by="Wilmot Tarpley",
        note="Will ring from the boatyard",
        cause="",
    )
    record_call(
        submission=held,
        sheet_number=sheet.number,
        by=a_person("counter", "iolo"),
        check_id=sheet.outcome["findings"][0]["check"],
        outcome="corrected",
        said_by="Wilmot Tarpley",
        cause="R-BURN-X",
        answers={"face_to_strut_aft": measured("44 1/8", "rod")},
    )
    index_waiting()
    assert found("started on the 1 mark") == [held.pk]
    assert found("R-BURN-X") == [held.pk]
    assert found("boatyard ring") == [held.pk]
    assert found("45 1/8") == [held.pk]  # also what was typed before it was corrected


def test_all_words_must_be_there(otter: Submission) -> None:
    assert found("tarpley kettle") == []
    assert found("kettle marsh") != []


def test_newest_come_first(otter: Submission) -> None:
    keys = found("202555")
    assert keys == sorted(keys, reverse=True)
    assert len(keys) == 3


@pytest.mark.parametrize(
    "text",
    [
        '"',
        "'",
        "''; DROP TABLE intake_requestline; --",
        "AND",
        "OR NOT NEAR(a b)",
        "NEAR/3",
        "*",
        "a*",
        "%",
        "_",
        "words: x",
        "^x -y +z",
        "(((",
        "x:* & y | !z",
        "\\",
        "\x00",
        "😀",
        "👩🏽‍🔧 otter",
        "١٢٣ ٤٥٦",
        "²³¼½",
        "Жар-птица",
        "九州",
        "x" * 10_000,
        "9" * 10_000,
        "1/2 " * 2_500,
        "a b c d e f g h i j k l m n o p",
        "{}[]<>`~!@#$^&()=+;,?",
        "0",
        "00000",
        "1/0",
        "9999999999999999999999 mm",
    ],
)
def test_whatever_is_asked_is_no_error(otter: Submission, text: str) -> None:
    for sort in ("newest", "oldest", "boat", "needed"):
        assert isinstance(found(text, sort=sort), list)
    assert isinstance(found(text, status="ready", channel="form", by="9" * 18), list)


def test_signs_alone_find_nothing_rather_than_everything(otter: Submission) -> None:
    assert found("%*\"'") == []
    assert len(found("")) == 3


def test_a_name_of_another_script_is_found(otter: Submission) -> None:
    (fire,) = indexed(a_request("Жар-птица 九州"))
    assert found("жар") == [fire.pk]
    assert found("九州") == [fire.pk]
    assert found("ПТИЦА") == [fire.pk]


def test_what_has_changed_is_found_by_what_it_is_now(otter: Submission) -> None:
    Submission.objects.filter(pk=otter.pk).update(boat_name="Gannet", boat_key="gannet")
    assert found("gannet") == []
    look_again([otter.pk])
    index_waiting()
    assert found("gannet") == [otter.pk]


def test_who_is_forgotten_is_found_by_the_reference_alone(otter: Submission) -> None:
    forget([otter.pk])
    assert found("tarpley") == []
    assert found("58 5/8") == []
    Submission.objects.filter(pk=otter.pk).update(erased_at=otter.received_at)
    index_waiting()
    assert found("tarpley") == []
    assert found("58 5/8") == []
    assert found(otter.reference) == [otter.pk]


def test_lines_that_are_lost_are_made_again(otter: Submission) -> None:
    RequestLine.objects.all().delete()
    assert found("tarpley") == []
    assert list(index_all()) == [3]
    assert found("tarpley") == [otter.pk]


def test_writing_a_line_twice_changes_nothing(otter: Submission) -> None:
    list(index_all())
    list(index_all())
    assert found("tarpley 58 5/8") == [otter.pk]
