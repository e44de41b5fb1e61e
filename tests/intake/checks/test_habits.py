"""Rounded, copied and repeated numbers, case by case."""

from __future__ import annotations

import re
from typing import Any

import pytest

from catalog.domain.tape import read_length
from intake.domain.printed import PRINTED_NM
from intake.long_path import PLANS
from tests.given import fired, judged
from tests.intake.checks.examples.given import tape


def said(name: str, **answers: Any) -> str | None:
    return fired(judged(**answers)).get(name)


def lengths(
    strut: str, old: str, tail: str, gap: str = "3/4", by: str = "drill_shank"
) -> dict[str, Any]:
    return {
        "face_to_strut_aft": tape(strut, "rod"),
        "old_length_face_to_thread": tape(old),
        "tail_to_thread": tape(tail, "tape_short"),
        "gap_now": tape(gap, by),
    }


@pytest.mark.parametrize(
    ("answers", "severity"),
    [
        (lengths("44", "49", "5"), "ask"),
        (lengths("44", "49", "5 1/8"), None),
        (lengths("44", "49 1/2", "5"), None),  # three halves: 11 to 1 is not enough
        (lengths("44", "49 1/2", "5", "1/2", "rule"), "ask"),  # four are 45 to 1
        (lengths("44", "49 1/2", "5", "1/2"), None),  # a drill of 1/2 was not rounded
        (lengths("1117.6 mm", "49", "5"), None),
        (lengths("1118 mm", "1245 mm", "127 mm"), None),  # whole millimetres are what it shows
    ],
)
def test_enough_whole_inches_were_rounded(answers: dict[str, Any], severity: str | None) -> None:
    assert said("whole-inch-heaping", **answers) == severity


def test_papers_and_hubs_are_no_evidence_of_rounding() -> None:
    """They are whole for reasons of their own."""
    answers = lengths("44", "49", "5") | {"old_length_face_to_thread": tape("49", "papers")}
    assert said("whole-inch-heaping", **answers) is None
    answers = lengths("44", "49", "4 7/8") | {"hub_length": tape("3", "rule")}
    assert said("whole-inch-heaping", **answers) is None


def test_every_length_the_form_prints_as_an_example_is_known() -> None:
    """In whichever sentence it stands: a whole number of inches or a size alone is no example."""
    printed = re.compile(r"\d+ ft \d+ \d+/\d+ in|\d+ \d+/\d+ in|\d{3,} mm")
    found = {text for plan in PLANS for words in (plan.ask, plan.how, plan.slip, plan.cannot)
             for text in printed.findall(str(words))}  # fmt: skip
    assert found == {"44 1/8 in", "1121 mm", "3 ft 8 1/8 in"}
    assert {read_length(text).length.nm for text in found} <= PRINTED_NM


@pytest.mark.parametrize(
    ("old", "severity"), [("58 5/8", "ask"), ("1489 mm", "ask"), ("58 9/16", None)]
)
def test_one_example_is_chance_and_two_are_copied(old: str, severity: str | None) -> None:
    assert said("example-copycat", old_length_face_to_thread=tape(old)) == severity


@pytest.mark.parametrize(
    ("answers", "severity"),
    [
        ({"pin_end": "yes"}, "ask"),
        ({}, None),  # the nose was not asked about yet
        ({"pin_end": "no"}, None),
    ],
)
def test_bar_and_part_are_the_same_only_without_a_nose(
    answers: dict[str, Any], severity: str | None
) -> None:
    assert said("repeated-number", old_length_overall=tape("49"), **answers) == severity


def test_a_tail_is_never_the_hub() -> None:
    assert said("repeated-number", tail_to_thread=tape("2 15/16", "tape_short")) == "ask"
