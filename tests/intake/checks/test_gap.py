"""The gap as it is and as it will be, grade by grade."""

from __future__ import annotations

from typing import Any

import pytest

from intake.domain.history import History
from intake.evaluate import fingerprint
from tests.given import a_sheet, fired, judged
from tests.intake.checks.examples.given import NO_OLD, PASS_THROUGH, tape


def said(name: str, **answers: Any) -> str | None:
    return fired(judged(**answers)).get(name)


@pytest.mark.parametrize(
    ("gap", "severity"),
    [("0", "ask"), ("1/64", None), ("1 1/2", None), ("1 33/64", "ask"), ("3", "ask")],
)
def test_the_gap_as_it_is_has_its_grades(gap: str, severity: str | None) -> None:
    assert said("gap-now-plausible", gap_now=tape(gap, "rule")) == severity


@pytest.mark.parametrize(
    ("old", "without", "severity"),
    [("50 1/4", (), "note"), ("50 9/16", (), "ask"), ("50 1/4", ("hub_length",), "ask")],
)
def test_a_wide_gap_that_the_others_leave_is_only_noted(
    old: str, without: tuple[str, ...], severity: str
) -> None:
    answers = {
        "without": ("tail_to_thread", *without),
        "old_length_face_to_thread": tape(old),
        "gap_now": tape("2", "drill_shank"),
    }
    assert said("gap-now-plausible", **answers) == severity


def test_a_gap_past_its_range_is_stopped_still_when_the_number_is_confirmed() -> None:
    wide = {"gap_now": tape("3 1/64", "rule")}
    assert fired(judged(**wide))["range-single"] == "stop"
    read = ("range-single", fingerprint(a_sheet(**wide), ("gap_now",)))
    found = fired(judged(History(settled=frozenset({read})), **wide))
    assert (found["range-single"], found["gap-now-plausible"]) == ("note", "stop")


def test_a_loose_gap_nothing_is_worked_out_from_is_only_noted() -> None:
    loose: dict[str, Any] = {"coupling_state": {"is": "loose"}}
    assert said("gap-state-unknown", **loose) == "ask"
    assert said("gap-state-unknown", **loose, without=("tail_to_thread",)) == "ask"
    assert said("gap-state-unknown", **loose, without=NO_OLD) == "ask"
    assert said("gap-state-unknown", **loose, without=("tail_to_thread", *NO_OLD)) == "note"


@pytest.mark.parametrize(
    ("gap", "tail", "old", "severity"),
    [
        ("1", "4 7/8", "49", "ask"),
        ("1 1/2", "4 7/8", "49", "ask"),
        ("1 9/16", "4 7/8", "49", None),  # no blade root stands so far back
        ("1/2", "4 7/8", "49", None),  # too small is another slip
        ("1 1/4", "4 7/8", "49 1/4", None),  # the tail does not go with the old shaft
    ],
)
def test_a_gap_too_wide_for_tail_and_hub_was_taken_to_the_blade(
    gap: str, tail: str, old: str, severity: str | None
) -> None:
    answers = {
        "gap_now": tape(gap, "rule"),
        "tail_to_thread": tape(tail, "tape_short"),
        "old_length_face_to_thread": tape(old),
    }
    assert said("gap-to-blade", **answers) == severity


@pytest.mark.parametrize(
    ("diameter", "severity"),
    [
        ("7/8", "note"),
        ("3/4", "note"),
        ("1", None),
        ("2", None),
        ("22 mm", "note"),
        ("25 mm", None),
    ],
)
def test_thin_shafts_have_a_gap_of_their_own(diameter: str, severity: str | None) -> None:
    assert said("gap-goal-by-diameter", dia_clean=tape(diameter, "caliper")) == severity


@pytest.mark.parametrize(
    ("length", "band", "over"),
    [
        ("5/8", None, None),
        ("41/64", "ask", None),
        ("7/8", "ask", None),
        ("15/16", "ask", "stop"),
        (None, "ask", None),
    ],
)
def test_what_sits_before_the_propeller_has_to_go_into_the_gap(
    length: str | None, band: str | None, over: str | None
) -> None:
    """With an eighth to spare, the gap of 3/4 takes 5/8, and one diameter 7/8."""
    answers = {"between_strut_and_propeller": {"kind": "anode", "length": length}}
    assert said("gap-proposed-band", **answers) == band
    assert said("gap-over-one-diameter", **answers) == over


def test_nothing_before_the_propeller_takes_no_room() -> None:
    assert said("gap-proposed-band", between_strut_and_propeller="nothing") is None


@pytest.mark.parametrize(("stays", "severity"), [("yes", None), ("no", "ask"), ("unknown", "ask")])
def test_another_propeller_has_another_hub(stays: str, severity: str | None) -> None:
    found = judged(propeller_stays=stays).findings
    about = [f for f in found if f.check == "gap-proposed-band"]
    assert [f.severity.value for f in about] == ([severity] if severity else [])
    assert all(f.answers[0] == "propeller_stays" and "hub" in f.question for f in about)


def test_rigid_mounts_take_nothing_from_the_gap() -> None:
    thin = {
        "without": ("tail_to_thread", *NO_OLD),
        "dia_clean": tape("3/4", "caliper"),
        "hub_length": tape("2 1/4", "caliper"),
        "face_to_strut_aft": tape("44 7/32", "rod"),
    }
    assert said("soft-mounts", **thin, engine_mounts="soft") == "note"
    assert said("soft-mounts", **thin, engine_mounts="rigid") is None


def test_a_shaft_through_the_gearbox_has_no_recess() -> None:
    assert said("coupling-recess", front_shape="proud", **PASS_THROUGH) is None
