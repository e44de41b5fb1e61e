"""The propeller end, grade by grade, and what is left to another check."""

from __future__ import annotations

from typing import Any

import pytest

from tests.given import fired, judged
from tests.intake.checks.examples.ends import front, taper

METRIC = {
    "top": {"tape_unit": "mm", "wants": ["shaft"]},
    "without": ("tail_to_thread", "flange_od", "shell_od", "bearing_length"),
    "dia_clean": {"text": "25", "method": "caliper"},
    "face_to_strut_aft": {"text": "843", "method": "rod"},
    "hub_length": {"text": "60", "method": "caliper"},
    "gap_now": {"text": "19", "method": "rule"},
    "old_length_face_to_thread": {"text": "950", "method": "tape"},
}


def said(name: str, **answers: Any) -> str | None:
    """The severity with which one check speaks of a sheet."""
    return fired(judged(**answers)).get(name)


@pytest.mark.parametrize(
    ("small", "asked"), [("22.25", None), ("23.75", None), ("22.92", None), ("23.44", "ask")]
)
def test_a_metric_shaft_may_have_three_tapers_and_not_the_inch_one(
    small: str, asked: str | None
) -> None:
    """1:10, 1:20, 1:12 and 1:16 over 25 mm."""
    between = {"22.25": "27.5", "23.75": "25", "22.92": "25", "23.44": "25"}[small]
    answers = {**METRIC, **taper("25", small, between)}
    assert said("taper-rate", **answers) is None
    assert said("taper-system-vs-dia", **answers) == asked


def test_a_taper_of_another_rate_is_asked_about_once() -> None:
    found = fired(judged(**taper(small="0.725")))
    assert "taper-system-vs-dia" in found
    assert "small-end" not in found


@pytest.mark.parametrize("between", ["0", "1/4"])
def test_two_diameters_at_one_spot_are_no_taper(between: str) -> None:
    assert said("taper-rate", **taper(between=between)) == "ask"


def test_half_a_taper_says_nothing() -> None:
    told = {"taper_two_dia": {"large": "1", "small": "0.5"}}
    assert said("taper-rate", **told) is None
    assert said("small-end", **told) == "ask"


@pytest.mark.parametrize(
    ("width", "words"), [("0.28", "worn"), ("0.281", "not the standard"), ("0.24", "not the stand")]
)
def test_a_worn_keyway_is_told_from_another_one(width: str, words: str) -> None:
    verdict = judged(keyway={"width": width})
    assert [words in found.message for found in verdict.findings] == [True]


@pytest.mark.parametrize("hub", ["2 3/64", "2 1/16", "3 1/4", "3 17/64"])
def test_a_hub_is_three_quarters_of_its_taper_to_half_an_inch_more(hub: str) -> None:
    asked = said("hub-vs-taper", hub_length={"text": hub, "method": "caliper"})
    assert asked == ("ask" if hub in ("2 3/64", "3 17/64") else None)


def test_a_propeller_that_stays_ashore_holds_nothing() -> None:
    other = {"prop_size": {"bore": "1 1/4"}}
    assert said("prop-bore-vs-shaft", **other) == "stop"
    assert said("prop-bore-vs-shaft", **other, propeller_stays="no") is None


@pytest.mark.parametrize(
    ("showing", "severity"), [("0", "ask"), ("3/4", None), ("49/64", "note"), ("1/8", None)]
)
def test_too_little_thread_is_asked_about_and_too_much_noted(
    showing: str, severity: str | None
) -> None:
    assert said("nut-stack", nuts={"kind": "self_locking", "showing": showing}) == severity
    assert said("nut-stack", nuts={"kind": "cap", "showing": showing}) is None


@pytest.mark.parametrize(
    ("thread", "severity"), [("M16x2", None), ("M16x2.5", "ask"), ("M16", None)]
)
def test_half_a_pitch_is_that_of_the_thread_that_was_told(
    thread: str, severity: str | None
) -> None:
    nuts = {"kind": "nut_and_jam", "showing": "1.2"}
    assert said("nut-stack", **METRIC, thread={"text": thread}, nuts=nuts) == severity


@pytest.mark.parametrize(
    ("told", "severity"),
    [
        ({"hand": "Right", "lock": "cotter"}, None),
        ({"hand": "does not know", "lock": "cotter"}, "ask"),
        ({"hand": "", "lock": "cotter"}, None),
    ],
)
def test_the_front_nut_has_a_hand_we_understand(told: dict[str, str], severity: str | None) -> None:
    found = fired(judged(**front(**told)))
    assert found.get("front-nut-hand") == severity
    assert ("pass-through-fields" in found) == (not told["hand"])


def test_other_drives_have_no_front_nut() -> None:
    assert said("front-nut-hand", front_end={"nut": "3/4-10"}) is None
