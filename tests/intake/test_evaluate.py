"""What judging does with a stop at entry, with what was confirmed, and with what is missing."""

from __future__ import annotations

from intake.domain.history import History
from intake.evaluate import fingerprint
from tests.given import a_sheet, as_inches, fired, judged

TOO_WIDE = {"hub_length": {"text": "8 1/2", "method": "rule"}, "without": ("tail_to_thread",)}


def test_a_number_stopped_at_entry_is_set_aside() -> None:
    verdict = judged(**TOO_WIDE)
    assert fired(verdict) == {"range-single": "stop"}
    assert verdict.shaft is not None
    assert as_inches(verdict.shaft.cut) == "49"


def test_a_number_that_was_confirmed_is_used() -> None:
    mark = fingerprint(a_sheet(**TOO_WIDE), ("hub_length",))
    verdict = judged(History(settled=frozenset({("range-single", mark)})), **TOO_WIDE)
    assert fired(verdict)["range-single"] == "note"
    assert fired(verdict)["route-boat-vs-old"] == "stop"


def test_another_number_is_asked_about_again() -> None:
    mark = fingerprint(a_sheet(), ("hub_length",))
    verdict = judged(History(settled=frozenset({("range-single", mark)})), **TOO_WIDE)
    assert fired(verdict) == {"range-single": "stop"}


def test_what_is_missing_is_asked_in_its_own_words() -> None:
    asked = judged(without=("flange_direction",)).next_question
    assert asked is not None
    assert asked.answer == "flange_direction"
    assert asked.ask.startswith("Looking at the coupling")


def test_a_pass_throughs_stack_has_its_gearbox() -> None:
    verdict = judged(
        drive_layout="v_pass_through",
        flange_direction="forward",
        forward_datum="gearbox_back",
        gearbox_through={"text": "9 1/4", "method": "rule"},
        front_end={"showing": "3 15/16", "nut": "3/4-10", "thread": "3/4-10", "hand": "right"},
        front_taper={"tapered": "yes"},
        old_length_face_to_thread={"text": "58 1/4", "method": "tape"},
    )
    stack = verdict.as_record()["stack"]
    assert stack["gearbox_through"] == "234.950000"
    assert stack["marks"]["gearbox_through"] == "measured"


def test_the_desks_own_nut_standoff_is_not_called_the_standards() -> None:
    metric = judged(
        top={"tape_unit": "mm"},
        without=("tail_to_thread", "flange_od", "shell_od", "bearing_length"),
        dia_clean={"text": "25", "method": "caliper"},
        face_to_strut_aft={"text": "843", "method": "rod"},
        hub_length={"text": "60", "method": "caliper"},
        gap_now={"text": "19", "method": "rule"},
        old_length_face_to_thread={"text": "950", "method": "tape"},
    )
    assert metric.as_record()["stack"]["marks"]["nut_standoff"] == "desk"
    assert judged().as_record()["stack"]["marks"]["nut_standoff"] == "table"
