"""A body is read into a sheet, or every bad answer gets one sentence at its path."""

from __future__ import annotations

from math import hypot, sqrt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.domain.lengths import Length, inches, mm
from intake.domain.questions import CHOICES, COMPOSITES, MEASURED, QUESTIONS
from intake.domain.reading import read_pair, read_sheet
from intake.domain.sheet import Sheet, SheetErrors
from tests.given import a_body


def errors(**changes: Any) -> dict[str, list[str]]:
    with pytest.raises(SheetErrors) as caught:
        read_sheet(a_body(**changes))
    return caught.value.errors


def sheet(**changes: Any) -> Sheet:
    return read_sheet(a_body(**changes))


def test_a_bare_string_is_the_text_alone() -> None:
    reading = sheet(hub_length="2 15/16").readings["hub_length"]
    assert (reading.length, reading.method) == (inches("2 15/16"), "tape_short")


@pytest.mark.parametrize(
    ("slug", "method"),
    [
        ("dia_clean", "wrench_16"),
        ("face_to_strut_aft", "tape_one_hand"),
        ("face_to_strut_fwd", "tape_one_hand"),
        ("gap_now", "tape"),
        ("old_length_face_to_thread", "tape"),
        ("old_length_overall", "tape"),
        ("shell_od", "caliper_in_place"),
        ("flange_od", "tape_short"),
    ],
)
def test_an_absent_method_is_the_questions_own(slug: str, method: str) -> None:
    assert QUESTIONS[slug].default_method == method


def test_the_start_mark_is_taken_off_in_the_answers_unit() -> None:
    told = {"text": "1130 mm", "start_mark": "10"}
    assert sheet(face_to_strut_aft=told).length("face_to_strut_aft") == mm(1120)


def test_a_second_reading_stands_beside_the_first() -> None:
    told = {"text": "44 1/8", "method": "rod", "again": {"text": "54 1/8", "start_mark": "10"}}
    reading = sheet(face_to_strut_aft=told).readings["face_to_strut_aft"]
    assert reading.again is not None
    assert reading.again.length == reading.length
    assert reading.again.method == "rod"


def test_a_state_is_an_answer_and_not_a_value() -> None:
    read = sheet(dia_journal={"state": "cannot_measure"})
    assert read.cannot("dia_journal")
    assert not read.has("dia_journal")


def test_an_unasked_question_reads_as_its_own_words() -> None:
    read = sheet()
    assert read.choice("forward_datum") == "gearbox_face"
    assert read.choice("afloat_or_ashore") == "ashore"
    assert read.choice("pin_end") == "yes"


def test_what_cannot_be_told_is_unknown_and_not_assumed() -> None:
    assert sheet(pin_end={"state": "cannot_measure"}).choice("pin_end") == "unknown"


def test_every_error_comes_at_once_each_at_its_path() -> None:
    found = errors(
        top={"colour": "blue", "tape_unit": "ft"},
        gap_now={"text": "58 5/0"},
        hub_length={"text": "3", "method": "guess", "colour": "blue"},
        flange_direction="sideways",
        wind="north",
        contact_phone="1",
        thread={"text": "thick"},
    )
    assert set(found) == {
        "colour",
        "tape_unit",
        "answers.gap_now",
        "answers.hub_length",
        "answers.hub_length.colour",
        "answers.flange_direction",
        "answers.wind",
        "answers.contact_phone",
        "answers.thread.text",
    }
    assert all(len(said) == 1 for said in found.values())


@pytest.mark.parametrize(
    ("top", "path"),
    [
        ({"wants": []}, "wants"),
        ({"wants": ["anchor"]}, "wants"),
        ({"contact": {"phone": "12"}}, "contact.phone"),
        ({"contact": {"email": "nobody"}}, "contact.email"),
        ({"contact": {"fax": "1"}}, "contact.fax"),
        ({"contact": []}, "contact"),
        ({"job": "x" * 41}, "job"),
        ({"use": "racing"}, "use"),
        ({"alloy": "steel"}, "alloy"),
        ({"channel": "smoke"}, "channel"),
        ({"answers": []}, "answers"),
        ({"sister": {}}, "sister"),
    ],
)
def test_the_top_of_a_body_is_read_as_strictly(top: dict[str, Any], path: str) -> None:
    assert list(errors(top=top)) == [path]


def test_the_other_side_may_travel_with_a_dry_check() -> None:
    body = a_body(top={"sister": {"station": "port", "answers": {"hub_length": "3"}}})
    _, sister = read_pair(body)
    assert sister is not None
    assert (sister.station, sister.boat_name) == ("port", "Biscuit Barrel")
    assert sister.length("hub_length") == inches(3)
    assert sister.length("gap_now") is None
    body["sister"]["answers"]["hub_length"] = "a few"
    with pytest.raises(SheetErrors) as caught:
        read_pair(body)
    assert list(caught.value.errors) == ["sister.answers.hub_length"]


@pytest.mark.parametrize(
    ("sister", "path"),
    [
        ("port", "sister"),
        ({"station": "port", "gap_now": "3/4"}, "sister"),
        ({"station": "single"}, "sister.station"),
        ({"station": "starboard"}, "sister.station"),
    ],
)
def test_the_other_side_is_read_as_strictly(sister: Any, path: str) -> None:
    boat = {"name": "Biscuit Barrel", "station": "starboard"}
    with pytest.raises(SheetErrors) as caught:
        read_pair(a_body(top={"sister": sister}, boat_name_and_station=boat))
    assert list(caught.value.errors) == [path]


def test_without_another_side_there_is_none() -> None:
    assert read_pair(a_body())[1] is None


def test_plates_and_threads_are_read() -> None:
    read = sheet(engine_power="75 kW", gear_ratio="2:1", engine_max_rpm="3600", thread="M20x1,5")
    assert read.part("engine_power", "text").horsepower == pytest.approx(100.577, abs=0.001)
    assert read.part("gear_ratio", "text") == 2
    assert read.part("engine_max_rpm", "text") == 3600
    assert read.part("thread", "text").text == "M20x1.5"


def test_a_power_without_its_unit_is_refused() -> None:
    assert list(errors(engine_power="75")) == ["answers.engine_power.text"]


def test_every_question_has_one_shape() -> None:
    shapes = [*MEASURED, *CHOICES, *COMPOSITES]
    assert len(shapes) == len(set(shapes))
    assert set(shapes) <= set(QUESTIONS)


def refusals(body: dict[str, Any]) -> dict[str, list[str]]:
    """What the reader says of a body; anything but a sheet or SheetErrors escapes and fails."""
    try:
        read_sheet(body)
    except SheetErrors as refused:
        return refused.errors
    return {}


_JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False) | st.text(max_size=12),
    lambda inner: (
        st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3)
    ),
    max_leaves=8,
)


@given(st.dictionaries(st.sampled_from(sorted(QUESTIONS)), _JSON, max_size=6))
def test_no_answer_of_any_shape_breaks_the_reader(answers: dict[str, Any]) -> None:
    refused = refusals({"wants": ["shaft"], "answers": answers})
    assert all(path.startswith("answers") and said for path, said in refused.items())


@given(_JSON)
def test_no_body_of_any_shape_breaks_the_reader(body: Any) -> None:
    with pytest.raises(SheetErrors):
        read_sheet(body)


def test_what_the_words_add_widens_the_uncertainty() -> None:
    plain = sheet(hub_length="2 7/8").readings["hub_length"]
    shy = sheet(hub_length="2 7/8 shy").readings["hub_length"]
    assert shy.length == plain.length - inches("1/32")
    assert shy.u_nm == pytest.approx(hypot(plain.u_nm, inches("1/32").nm / sqrt(3)))
    assert len(shy.doubts) == 1


@pytest.mark.parametrize(
    ("text", "mark"), [("2 15/16", inches("1/16")), ("3", inches(1)), ("75.5 mm", mm("0.1"))]
)
def test_the_smallest_mark_goes_with_the_reading(text: str, mark: Length) -> None:
    assert sheet(hub_length=text).readings["hub_length"].mark == mark


def test_a_start_mark_brings_its_own_doubt() -> None:
    told = {"text": "54 1/8", "start_mark": "about 10"}
    reading = sheet(face_to_strut_aft=told).readings["face_to_strut_aft"]
    assert reading.length == inches("44 1/8")
    assert len(reading.doubts) == 1
    assert reading.u_nm > inches("1/2").nm


def test_a_start_mark_is_taken_off_once() -> None:
    twice = {"text": "10 to 54 1/8", "start_mark": "10"}
    assert list(errors(face_to_strut_aft=twice)) == ["answers.face_to_strut_aft"]
    once = sheet(face_to_strut_aft={"text": "10 to 54 1/8"}).readings["face_to_strut_aft"]
    assert once.length == inches("44 1/8")


@pytest.mark.parametrize("text", ["about 4", "4 shy", "4; 4 1/8"])
def test_a_part_of_an_answer_is_one_plain_number(text: str) -> None:
    assert list(errors(bearing_length=text)) == ["answers.bearing_length.text"]
    assert sheet(bearing_length="four and a half").part("bearing_length", "text") == inches("4 1/2")
