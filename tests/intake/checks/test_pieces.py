"""Pieces, spacer, rubber and the old shaft's marks, grade by grade."""

from __future__ import annotations

from typing import Any

import pytest

from tests.given import fired, judged
from tests.intake.checks.examples.given import NO_HUB, tape


def said(name: str, **answers: Any) -> str | None:
    return fired(judged(**answers)).get(name)


@pytest.mark.parametrize(
    ("spacer", "severity"),
    [
        ({"kind": "disc", "thickness": "1", "stays": "yes"}, "note"),
        ({"kind": "disc", "thickness": "1", "stays": "no"}, "ask"),
        ({"kind": "disc", "thickness": "1", "stays": "unknown"}, "ask"),
        ({"kind": "disc", "thickness": "1"}, "ask"),
        ({"kind": "spacer", "stays": "yes"}, "ask"),
        ({"kind": "shim", "thickness": "0"}, None),
        ({"kind": "none"}, None),
    ],
)
def test_a_spacer_is_asked_about_until_it_is_known(
    spacer: dict[str, str], severity: str | None
) -> None:
    assert said("spacer-in-stack", flex_or_spacer=spacer) == severity


@pytest.mark.parametrize(("old", "severity"), [("48 1/16", None), ("48", "ask"), ("49 1/2", "ask")])
def test_a_tail_that_no_hub_could_fill_is_asked_about(old: str, severity: str | None) -> None:
    """0.72 of 2 3/4 and the nut's 1 3/16 make 3.17 behind 44 1/8 and 3/4."""
    answers = {"without": NO_HUB, "old_length_face_to_thread": tape(old)}
    assert said("implied-tail", **answers) == severity


def test_a_measured_hub_is_compared_directly() -> None:
    assert said("implied-tail", old_length_face_to_thread=tape("49 1/2")) is None


@pytest.mark.parametrize(
    ("method", "log", "severity"),
    [
        ("rod", "20 7/16", None),  # 3 u of rod and pieces together: 0.47
        ("rod", "20 1/2", "ask"),
        ("pieces", "20 1/4", None),
        ("pieces", "20 5/16", "ask"),
        ("rod", "19 1/2", "ask"),
    ],
)
def test_pieces_are_held_against_the_whole(method: str, log: str, severity: str | None) -> None:
    answers = {
        "face_to_strut_aft": tape("44 1/8", method),
        "pieces": {"inner": "12 1/8", "log": log, "outer": "12"},
    }
    assert said("pieces-sum", **answers) == severity


def test_a_piece_that_is_missing_makes_no_sum() -> None:
    assert said("pieces-sum", pieces={"inner": "12", "log": "20"}) is None


def test_the_rubber_is_named_where_it_would_explain_the_difference() -> None:
    def message(strut: str) -> str:
        found = judged(face_to_strut_aft=tape(strut, "rod"), rubber_proud=tape("1/4", "rule"))
        return next(f.message for f in found.findings if f.check == "datum-aft")

    assert "differ by about as much" in message("44 3/8")
    assert "differ" not in message("44 1/8")
    assert "differ" not in message("43 7/8")


@pytest.mark.parametrize(
    ("changed", "severity"),
    [(["engine"], "note"), (["nothing"], None), (["propeller"], None), (["unknown"], None)],
)
def test_a_new_engine_takes_the_old_shaft_out(changed: list[str], severity: str | None) -> None:
    assert said("driveline-changed", changed_since_shaft=changed) == severity


@pytest.mark.parametrize(
    ("old", "strut", "blamed"),
    [
        ("49", "45", "face_to_strut_aft"),
        ("50", "44 1/8", "old_length_face_to_thread"),
    ],
)
def test_the_bright_band_tells_which_length_is_wrong(old: str, strut: str, blamed: str) -> None:
    found = judged(
        old_length_face_to_thread=tape(old),
        face_to_strut_aft=tape(strut, "rod"),
        polished_bands=[["12", "14"], ["42 1/8", "44 1/8"]],
    )
    (band,) = (f for f in found.findings if f.check == "polished-band-evidence")
    assert band.answers == (blamed, "polished_bands")
    assert band.message.endswith("The other of the two lengths goes with it.")


def test_a_band_from_before_the_change_is_held_against_its_own_shaft_alone() -> None:
    found = judged(
        changed_since_shaft=["strut"],
        face_to_strut_aft=tape("46", "rod"),
        polished_bands=[["12", "14"], ["42 1/8", "44 1/8"]],
    )
    assert "polished-band-evidence" not in fired(found)


def test_no_bands_say_nothing() -> None:
    assert said("polished-band-evidence", polished_bands=[]) is None


@pytest.mark.parametrize(
    ("shape", "severity"), [("proud", "note"), ("sunk", "note"), ("flush", None)]
)
def test_a_front_end_off_the_face_is_noted(shape: str, severity: str | None) -> None:
    assert said("coupling-recess", front_shape=shape) == severity
