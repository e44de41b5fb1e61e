"""Units, one number at a time."""

from __future__ import annotations

import pytest

from tests.given import fired, judged
from tests.intake.checks.examples.given import tape


@pytest.mark.parametrize("gap", ["3/4", "1 in", "25.4 mm"])
def test_a_gap_that_names_its_unit_is_not_mixed_up(gap: str) -> None:
    found = fired(judged(hub_length=tape("75 mm", "rule"), gap_now=tape(gap, "rule")))
    assert "unit-mixed-record" not in found


def test_a_drill_has_no_second_scale() -> None:
    found = fired(judged(hub_length=tape("75 mm", "rule"), gap_now=tape("1", "drill_shank")))
    assert "unit-mixed-record" not in found


def test_a_sheet_in_one_unit_is_not_mixed_up() -> None:
    assert "unit-mixed-record" not in fired(judged(gap_now=tape("1", "rule")))


@pytest.mark.parametrize("text", ["3 ft 2 1/8", "968.375 mm"])
def test_feet_that_were_written_did_not_run_into_the_inches(text: str) -> None:
    """Both are 38 1/8 in, which a bare number would have been asked about."""
    found = fired(judged(face_to_strut_aft=tape(text, "rod")))
    assert "feet-inch-run-together" not in found
    assert found["route-boat-vs-old"] == "stop"


def test_an_odd_number_of_millimetres_is_named_as_the_unit_it_is() -> None:
    (found,) = (f for f in judged(face_to_strut_aft=tape("1121", "rod")).findings
                if f.check == "unit-factor-25")  # fmt: skip
    assert found.answers == ("face_to_strut_aft",)
    assert found.likely[0]["cause"] == "U-MMIN"
