"""The range printed on the quote holds nineteen gaps in twenty, slips included."""

from __future__ import annotations

import random

import pytest

from catalog.domain.lengths import Length, mm
from intake.domain.gap_range import likely_range
from tests.given import judged

NO_OLD = ("old_length_face_to_thread",)


def ends(stack: dict[str, object]) -> tuple[float, float]:
    between = likely_range(stack)
    assert between is not None
    return between[0].in_mm, between[1].in_mm


def test_noise_alone_gives_one_point_ninety_six_either_way() -> None:
    low, high = ends({"predicted_gap": "19.050000", "explained": [[1.0, 0.0, 1.5]]})
    assert low == pytest.approx(19.05 - 1.96 * 1.5, abs=0.05)
    assert high == pytest.approx(19.05 + 1.96 * 1.5, abs=0.05)


def test_an_older_record_has_its_noise() -> None:
    assert ends({"predicted_gap": "19.050000", "u_mm": "1.5"}) == pytest.approx(
        ends({"predicted_gap": "19.050000", "explained": [[1.0, 0.0, 1.5]]})
    )


def test_a_rare_slip_far_off_widens_it_little_and_a_likely_one_is_in_it() -> None:
    sure, rare, likely = (
        ends({"predicted_gap": "19.05", "explained": [[1 - p, 0.0, 1.5], [p, 12.7, 2.0]]})
        for p in (0.0, 0.02, 0.2)
    )
    assert rare[0] == pytest.approx(sure[0], abs=1.0)
    assert rare[1] == pytest.approx(sure[1], abs=1.0)
    assert likely[1] > 19.05 + 12.7


def test_nineteen_of_twenty_drawn_gaps_lie_in_it() -> None:
    rows = [[0.9, 0.1, 1.4], [0.06, -7.9, 1.6], [0.04, 12.0, 2.5]]
    low, high = ends({"predicted_gap": "19.05", "explained": rows})
    rng = random.Random(7)
    drawn = [
        19.05 + rng.gauss(mean, sd)
        for _, mean, sd in rng.choices(rows, [row[0] for row in rows], k=40_000)
    ]
    assert sum(low <= gap <= high for gap in drawn) / 40_000 == pytest.approx(0.95, abs=0.006)


def test_a_sheet_of_one_route_is_kept_with_what_could_hide_in_it() -> None:
    stack = judged(without=NO_OLD).as_record()["stack"]
    assert sum(row[0] for row in stack["explained"]) == pytest.approx(1.0, abs=0.01)
    low, high = likely_range(stack) or (Length(0), Length(0))
    assert low < mm("12.7")
    assert high > mm(20)


def test_no_gap_has_no_range() -> None:
    assert likely_range({}) is None
