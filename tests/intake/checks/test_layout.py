"""Log, rudder and twins, grade by grade."""

from __future__ import annotations

from typing import Any

import pytest

from intake.domain.history import History
from tests.given import a_sheet, fired, judged
from tests.intake.checks.examples.layout import PORT_WAS_45, beside, side, sides_were, tape


def said(name: str, history: History | None = None, **answers: Any) -> str | None:
    """The severity with which one check speaks of a sheet."""
    return fired(judged(history, **answers)).get(name)


@pytest.mark.parametrize(
    ("log", "severity"),
    [("1 1/4", None), ("1 15/64", "ask"), ("1 1/8", "ask"), ("1 7/64", "stop")],
)
def test_a_log_that_leaves_no_room_stops(log: str, severity: str | None) -> None:
    assert said("log-clearance", log_id=tape(log, "caliper")) == severity


@pytest.mark.parametrize(("gap", "severity"), [("3/4", None), ("5/8", "note"), ("7/8", None)])
def test_a_wider_gap_brings_the_tip_nearer_to_the_rudder(gap: str, severity: str | None) -> None:
    """3 7/16 in is just enough for a hub of 2 15/16 where the gap stays at 3/4."""
    old = {"gap_now": tape(gap, "drill_shank"), "without": ("tail_to_thread",)}
    assert said("rudder-clear", rudder_clear=tape("3 7/16"), **old) == severity


def test_without_a_hub_an_inch_will_do() -> None:
    bare = {"without": ("hub_length",)}
    assert said("rudder-clear", rudder_clear=tape("1"), **bare) is None
    assert said("rudder-clear", rudder_clear=tape("63/64"), **bare) == "note"


def test_a_shaft_that_is_out_came_out() -> None:
    near = {"rudder_clear": tape("12")}
    assert said("withdrawal-path", shaft_in="in", **near) == "note"
    assert said("withdrawal-path", shaft_in="out", **near) is None
    assert said("withdrawal-path", **near) is None


def test_a_tape_held_under_a_floating_boat_is_not_old_notes() -> None:
    assert said("afloat-vs-strut", afloat_or_ashore="afloat") is None
    noted = {"gap_now": tape("3/4", "papers")}
    assert said("afloat-vs-strut", afloat_or_ashore="afloat", **noted) == "ask"
    assert said("afloat-vs-strut", **noted) is None


def test_one_number_behind_two_gearboxes_is_noted() -> None:
    two = beside(gear_ratio="2:1")
    assert said("twin-symmetry", two, **side("starboard", gear_ratio="1.5:1")) == "note"
    assert said("twin-symmetry", two, **side("starboard", gear_ratio="2:1")) is None
    assert said("twin-symmetry", two, **side("starboard")) is None
    assert said("twin-symmetry", beside(**PORT_WAS_45), **side("starboard")) is None


def test_sides_are_compared_from_where_their_tapes_started() -> None:
    """The port side was taken from behind a shaft flange of 1/2 in, the other from the gearbox."""
    port = beside(
        face_to_strut_aft=tape("44 5/8", "rod"),
        forward_datum="shaft_flange_aft",
        flange_thickness={"coupling": "1/2"},
    )
    assert said("twin-symmetry", port, **side("starboard")) is None
    far = beside(
        face_to_strut_aft=tape("44 43/64", "rod"),
        forward_datum="shaft_flange_aft",
        flange_thickness={"coupling": "1/2"},
    )
    assert said("twin-symmetry", far, **side("starboard")) == "ask"


def test_a_middle_shaft_may_turn_either_way() -> None:
    right = beside(rotation="right")
    assert said("twin-rotation", right, **side("starboard", rotation="right")) == "ask"
    assert said("twin-rotation", right, **side("centre", rotation="right")) is None
    assert said("twin-rotation", beside(), **side("starboard", rotation="right")) is None


# What the clean sheet asks for is 49; the port side that goes with it asks for 49 1/2.
PORT_49_HALF = {
    "face_to_strut_aft": tape("44 5/8", "rod"),
    "old_length_face_to_thread": tape("49 1/2"),
}


def swapped(port: dict[str, Any]) -> History:
    """The records say 49 for port and 49 1/2 for starboard."""
    records, now = sides_were("49", "49 1/2"), a_sheet(**side("port", **port))
    return History(last_by_side=records.last_by_side, sister=now, sister_station="port")


def test_one_side_alone_is_a_question_and_both_are_a_stop() -> None:
    was = sides_were("49", "49 1/2")
    assert said("side-swapped", was, **side("starboard")) == "ask"
    assert said("side-swapped", swapped(PORT_49_HALF), **side("starboard")) == "stop"


def test_where_the_other_side_kept_its_own_length_nothing_was_swapped() -> None:
    assert said("side-swapped", swapped({}), **side("starboard")) is None


def test_sides_are_not_swapped_where_they_are_as_they_were() -> None:
    was = sides_were("49 1/2", "49")
    assert said("side-swapped", was, **side("starboard")) is None
    assert said("side-swapped", was, **side("single")) is None
    assert said("side-swapped", History(), **side("starboard")) is None
