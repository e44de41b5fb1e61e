"""A way of measuring said after the number: only whole known words, never by guess."""

from __future__ import annotations

import pytest

from catalog.domain.tape import LengthError, read_length
from intake.desk_ways import CANNOT, FORMS, cannot_be_told, split_way, told_at_desk, ways_of
from intake.domain.methods import METHODS
from intake.domain.questions import MEASURED


@pytest.mark.parametrize(
    ("slug", "typed", "number", "way"),
    [
        ("face_to_strut_aft", "44 1/8 rod", "44 1/8", "rod"),
        ("face_to_strut_aft", "44 1/8, by ROD", "44 1/8", "rod"),
        ("face_to_strut_aft", "44 1/8 tape one hand", "44 1/8", "tape_one_hand"),
        ("face_to_strut_aft", "1121 mm with a helper", "1121 mm", "tape_helper"),
        ("face_to_strut_aft", "44 from memory", "44", "papers"),
        ("dia_clean", "1 caliper", "1", "caliper"),
        ("dia_clean", "1 spanner 32", "1", "wrench_32"),
        ("shell_od", "1 1/4 caliper in place", "1 1/4", "caliper_in_place"),
        ("shell_od", "1 1/4 caliper", "1 1/4", "caliper"),
        ("tail_to_thread", "4 7/8 short tape", "4 7/8", "tape_short"),
        ("bearing_id_or_mark", "1 stamped", "1", "mark"),
    ],
)
def test_a_known_way_is_split_off(slug: str, typed: str, number: str, way: str) -> None:
    assert split_way(slug, typed) == (number, way)


@pytest.mark.parametrize(
    ("slug", "typed"),
    [
        ("gap_now", "3/4 rod"),  # nobody measures a gap with a rod
        ("face_to_strut_aft", "44 1/8rod"),
        ("face_to_strut_aft", "rod"),
        ("face_to_strut_aft", "44 1/8 ro"),
        ("face_to_strut_aft", "44 1/8 rod or so"),
        ("face_to_strut_aft", "44 1/8 shy"),
        ("boat_name_and_station", "Little rod"),
        ("hub_length", ""),
    ],
)
def test_anything_else_is_left_to_the_reader(slug: str, typed: str) -> None:
    assert split_way(slug, typed) == (typed, "")


def test_every_way_has_a_word_and_no_word_means_two() -> None:
    assert set(FORMS) == set(METHODS)
    every = [form for forms in FORMS.values() for form in forms]
    assert len(every) == len(set(every))
    assert all(form == form.casefold().strip() for form in every)


@pytest.mark.parametrize("form", sorted(form for forms in FORMS.values() for form in forms))
def test_no_word_is_taken_from_the_tape_language(form: str) -> None:
    with pytest.raises(LengthError):
        read_length(f"44 1/8 {form}", "in")


@pytest.mark.parametrize("slug", MEASURED)
def test_each_listed_way_can_be_said_by_each_of_its_words(slug: str) -> None:
    for way in ways_of(slug):
        assert {split_way(slug, f"2 1/2 {form}") for form in FORMS[way]} == {("2 1/2", way)}


@pytest.mark.parametrize("word", [*sorted(CANNOT), "Can\u2019t", " ? "])
def test_what_cannot_be_measured_is_typed_in_the_same_box(word: str) -> None:
    assert cannot_be_told(word)
    body = {"answers": {"gap_now": {"text": word.strip(), "method": "tape"}}}
    assert told_at_desk(body)["answers"] == {"gap_now": {"state": "cannot_measure"}}


def test_a_second_part_is_never_lost_to_a_word() -> None:
    answers = {"bolts": {"count": "4", "size": "?"}, "drive_layout": "inline"}
    assert told_at_desk({"answers": answers})["answers"] == answers


def test_several_of_a_list_come_apart_again() -> None:
    told = told_at_desk({"answers": {"changed_since_shaft": ["engine,mounts"]}})
    assert told["answers"]["changed_since_shaft"] == ["engine", "mounts"]
