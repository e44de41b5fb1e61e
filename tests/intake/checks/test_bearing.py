"""Bearing, shell, strut and wear, grade by grade."""

from __future__ import annotations

from typing import Any

import pytest

from intake.checks.wear import hours_in
from tests.given import fired, judged
from tests.intake.checks.examples.given import tape

NO_BEARING = {"wants": ["shaft", "coupling"]}


def said(name: str, **answers: Any) -> str | None:
    return fired(judged(**answers)).get(name)


@pytest.mark.parametrize(
    ("shell", "grade"),
    [
        ("1", "stop"),
        ("63/64", "stop"),
        ("1 1/8", "ask"),
        ("1 1/4", None),
        ("2", None),  # a published pair with a thick wall
        ("2 1/8", "ask"),
    ],
)
def test_the_wall(shell: str, grade: str | None) -> None:
    assert said("bearing-wall", shell_od=tape(shell, "caliper")) == grade


def test_a_wall_question_names_the_answers_there_are() -> None:
    verdict = judged(without=("shell_od",), strut_bore=tape("2 1/8", "caliper"))
    found = [f.answers for f in verdict.findings if f.check == "bearing-wall"]
    assert found == [("strut_bore", "dia_clean")]


@pytest.mark.parametrize(
    ("bore", "method", "grade"),
    [
        ("1.249", "caliper", None),
        ("1.259", "caliper", None),
        ("1.2595", "caliper", "note"),
        ("1.2605", "caliper", "ask"),
        ("1.239", "caliper", "ask"),
        ("1.2425", "caliper", "note"),
        ("1 5/16", "tape_short", None),  # no tape can tell a sixteenth there
        ("1 3/8", "tape_short", "ask"),
    ],
)
def test_the_shell_in_its_strut(bore: str, method: str, grade: str | None) -> None:
    assert said("shell-vs-strut-bore", strut_bore=tape(bore, method)) == grade


@pytest.mark.parametrize(
    ("bearing", "barrel", "grade"),
    [
        ({"text": "2", "count": 2}, "4", None),
        ({"text": "2", "count": 2}, "3 3/4", None),
        ({"text": "2", "count": 2}, "3 11/16", "ask"),
        ({"text": "2", "count": 1}, "4", None),
        ({"text": "2", "count": 1}, "4 1/16", "note"),
        ({"text": "2"}, "1 3/4", None),
    ],
)
def test_bearings_in_their_barrel(bearing: dict[str, Any], barrel: str, grade: str | None) -> None:
    found = said("bearing-vs-barrel", bearing_length=bearing, strut_barrel=tape(barrel, "rule"))
    assert found == grade


def test_a_bearing_in_the_hull_has_no_barrel() -> None:
    long = {"bearing_length": {"text": "4"}, "strut_barrel": tape("2", "rule")}
    assert said("bearing-vs-barrel", **long) == "ask"
    assert said("bearing-vs-barrel", **long, bearing_place={"in": "hull"}) is None


@pytest.mark.parametrize(
    ("length", "grade"),
    [
        ("1 1/2", "note"),
        ("2", None),
        ("3", None),
        ("3 1/2", None),
        ("4 1/2", None),
        ("4 5/8", "note"),
        ("6", "note"),
        ("6 1/16", "ask"),
    ],
)
def test_the_length_of_a_1_in_bearing(length: str, grade: str | None) -> None:
    assert said("bearing-length-ratio", bearing_length={"text": length}) == grade


def test_a_short_bearing_of_a_thick_shaft_is_asked_about() -> None:
    thick = {"dia_clean": tape("1 3/8", "caliper"), "thread": {"text": "1-8"}}
    assert said("bearing-length-ratio", **thick, bearing_length={"text": "2"}) == "ask"


@pytest.mark.parametrize(
    ("boat", "place", "grade"),
    [
        ({"hull": "grp", "strut": "bronze"}, "strut", None),
        ({"hull": "grp", "strut": "steel"}, "strut", "ask"),
        ({"hull": "steel", "strut": "bronze"}, "hull", "ask"),
        ({"hull": "steel"}, "strut", None),
    ],
)
def test_the_shell_and_the_metal_round_it(
    boat: dict[str, str], place: str, grade: str | None
) -> None:
    assert said("shell-material", hull_material=boat, bearing_place={"in": place}) == grade


def test_a_bearing_we_do_not_list_has_no_shell_to_judge() -> None:
    strut = {"hull": "grp", "strut": "steel"}
    assert said("shell-material", hull_material=strut, bearing_length={"text": "5"}) is None


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("350", 350),
        ("350 h", 350),
        ("about 350 hours", 350),
        ("350.5 hrs.", 350),
        ("three seasons", None),
        ("4 seasons", None),
        ("", None),
    ],
)
def test_hours_are_read_where_they_are_hours(text: str, hours: int | None) -> None:
    assert hours_in(text) == hours


def test_an_old_bearing_is_offered_only_where_none_is_ordered() -> None:
    assert said("bearing-with-shaft", bearing_hours="900 h") is None
    assert said("bearing-with-shaft", bearing_hours="900 h", top=NO_BEARING) == "note"


def test_a_worn_journal_means_a_worn_bearing() -> None:
    worn = {"dia_journal": tape("0.98", "caliper"), "top": NO_BEARING}
    assert said("bearing-with-shaft", **worn) == "note"
    assert said("bearing-with-shaft", **{**worn, "dia_journal": tape("0.99", "caliper")}) is None


@pytest.mark.parametrize(
    ("answers", "grade"),
    [
        ({"reason": "strike"}, "note"),
        ({"reason": "strike", "bearing_play": tape("1/16", "feeler")}, "note"),
        ({"reason": "strike", "bearing_play": tape("5/64", "feeler")}, "ask"),
        ({"reason": "wear", "bearing_play": tape("5/64", "feeler")}, None),
        ({"bearing_wear": "one_side"}, "ask"),
        ({"bearing_wear": "even"}, None),
    ],
)
def test_the_strut_after_a_strike(answers: dict[str, Any], grade: str | None) -> None:
    assert said("strut-moved", **answers) == grade


def test_a_bearing_finding_never_holds_the_shaft() -> None:
    verdict = judged(shell_od=tape("1 51/64", "caliper"))
    assert {f.holds for f in verdict.findings if f.check == "bearing-wall"} == {("bearing",)}
    assert verdict.verdict.value == "ask"
    assert not [f for f in verdict.findings if "shaft" in f.holds]
