"""A shaft is offered long only where no question is left that would make its length surer."""

from __future__ import annotations

from intake.domain.trim import trim_length
from tests.given import a_case, as_inches

CANNOT = {"state": "cannot_measure"}
TWICE = {"text": "44 1/8", "method": "tape_one_hand", "again": {"text": "44 1/8"}}
# The propeller is lost and its hub with it: the fixed tail is all there is.
NOTHING_MORE = {
    "without": ("old_length_face_to_thread", "tail_to_thread", "gap_now"),
    "face_to_strut_aft": TWICE,
    "hub_length": CANNOT,
    "forward_datum": "gearbox_face",
    "shaft_angle": {"text": "10", "along": "shaft"},
    "pin_end": "yes",
}


def test_a_sure_length_is_cut_to_length() -> None:
    assert trim_length(a_case()) is None


def test_an_unsure_one_is_asked_about_first() -> None:
    assert trim_length(a_case(without=("old_length_face_to_thread",))) is None


def test_what_cannot_be_made_surer_is_left_an_inch_long() -> None:
    case = a_case(**NOTHING_MORE)
    assert case.fit < 0.9
    assert as_inches(case.cut) == "48 7/8"
    assert as_inches(trim_length(case)) == "49 7/8"
