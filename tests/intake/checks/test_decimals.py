"""A decimal for eighths, and figures finer or coarser than the tool, case by case."""

from __future__ import annotations

from typing import Any

import pytest

from tests.given import fired, judged
from tests.intake.checks.examples.given import NO_OLD, tape


def said(name: str, **answers: Any) -> str | None:
    return fired(judged(**answers)).get(name)


def boat_at(strut: str, old: str, method: str = "rod") -> dict[str, Any]:
    """The boat by rod and hub against the old shaft; tape, rod and hub come to 0.074 in."""
    return {
        "without": ("tail_to_thread",),
        "face_to_strut_aft": tape(strut, method),
        "old_length_face_to_thread": tape(old),
    }


def test_the_reading_that_closes_the_sums_is_shown() -> None:
    (found,) = (
        f for f in judged(**boat_at("44.5", "49 9/16")).findings if f.check == "fraction-as-decimal"
    )
    assert found.message == (
        "44.5 read as a count of eighths goes with the other answers; a decimal does not."
    )
    assert found.answers == ("face_to_strut_aft",)


def test_a_decimal_cut_short_is_another_habit() -> None:
    """.8 counts no eighths; it is .875 cut short, and a fifth of an inch is what is missing."""
    (found,) = (
        f for f in judged(**boat_at("44.8", "49 7/8")).findings if f.check == "fraction-as-decimal"
    )
    assert "an eighth cut short" in found.message


@pytest.mark.parametrize(
    ("strut", "old", "method"),
    [
        ("44.5", "49 3/8", "rod"),  # forty-four and a half, and the sums close
        ("44.5", "50 1/2", "rod"),  # no reading of it closes them
        ("44.5 mm", "49 9/16", "rod"),  # not on an inch tape
        ("44 1/2", "49 9/16", "rod"),  # written as the mark it is
        ("44.50", "49 9/16", "rod"),  # two places: nobody counts eighths like that
        ("44.5", "49 9/16", "laser"),  # shows decimals itself
        ("44.2", "49 9/32", "rod"),  # every reading within a sixteenth
    ],
)
def test_an_honest_decimal_is_left_alone(strut: str, old: str, method: str) -> None:
    assert said("fraction-as-decimal", **boat_at(strut, old, method)) is None


@pytest.mark.parametrize(
    ("strut", "severity"), [("44.4", "note"), ("44.5", None), ("44.9", None), ("44.1", None)]
)
def test_where_nothing_can_show_it_only_a_figure_off_the_marks_is_noted(
    strut: str, severity: str | None
) -> None:
    answers = {"without": NO_OLD, "face_to_strut_aft": tape(strut, "rod")}
    assert said("fraction-as-decimal", **answers) == severity


@pytest.mark.parametrize("method", ["caliper", "rule"])
def test_the_hub_by_caliper_is_a_decimal(method: str) -> None:
    """Tail and gap leave 3.125 for the hub: 2.8 by rule is a cut 2 7/8 no more than it is 2.8."""
    answers = {"hub_length": tape("2.8", method), "without": (*NO_OLD, "tail_to_thread")}
    assert said("fraction-as-decimal", **answers) == (None if method == "caliper" else "note")


def test_a_tail_is_held_against_the_hub() -> None:
    """Hub 2 15/16 and a gap of 3/4 leave 4 7/8: 4.7 as a count of eighths is that very mark."""
    answers = {"tail_to_thread": tape("4.7", "tape_short"), "gap_now": tape("3/4", "drill_shank")}
    assert said("fraction-as-decimal", **answers) == "ask"
    # Without a hub the old shaft says the same; without either nothing does.
    assert said("fraction-as-decimal", **answers, without=("hub_length",)) == "ask"
    assert said("fraction-as-decimal", **answers, without=("hub_length", *NO_OLD)) == "note"


@pytest.mark.parametrize(
    ("text", "method", "severity"),
    [
        ("44 9/64", "rod", "note"),
        ("44 9/64", "rule", None),
        ("44.438", "rod", None),  # 7/16 by its three decimals
        ("44.44", "rod", None),
        ("44.400", "rod", "note"),
        ("1120.8 mm", "rod", "note"),
        ("1120.5 mm", "rod", None),
        ("112.05 cm", "rod", None),
        ("44.400", "laser", None),
    ],
)
def test_a_tape_shows_its_marks_and_nothing_between(
    text: str, method: str, severity: str | None
) -> None:
    assert said("resolution-vs-tool", face_to_strut_aft=tape(text, method)) == severity


@pytest.mark.parametrize(
    ("text", "method", "severity"),
    [
        ("1 1/16", "caliper", "note"),
        ("1.0625", "caliper", None),
        ("1 1/8", "caliper", None),  # a size by its name
        ("1 1/16", "wrench_32", None),
    ],
)
def test_a_caliper_shows_more_than_sixteenths(text: str, method: str, severity: str | None) -> None:
    assert said("resolution-vs-tool", dia_clean=tape(text, method)) == severity
