"""Worked examples W1 to W4 of the stack-up, and the trade's own sum.

The sum 43 + 4-3/4 = 47-3/4 in, the gap 1/2, 3/4, 1 in and the rounding to eighths are *common
practice, no source*; the ends are SAE J755; the probabilities follow from JCGM 106 (normal noise).
"""

from __future__ import annotations

from typing import Any

import pytest

from catalog.domain.lengths import inches, mm
from intake.domain.routes import Route
from tests.given import a_case, as_inches

ALL = (
    "face_to_strut_aft",
    "gap_now",
    "tail_to_thread",
    "hub_length",
    "old_length_face_to_thread",
)


def tape(text: str, method: str) -> dict[str, str]:
    return {"text": text, "method": method}


def route(case: Any, name: str) -> Route:
    assert case.routes is not None
    return next(found for found in case.routes.found if found.name == name)


def test_w1_the_trades_own_sum_by_the_fixed_tail() -> None:
    case = a_case(without=ALL, face_to_strut_aft=tape("43", "rod"))
    assert as_inches(case.exact) == as_inches(case.cut) == "47 3/4"
    assert case.u_nm / inches(1).nm == pytest.approx(0.159, abs=0.0005)
    assert case.probability == pytest.approx(0.883, abs=0.0005)


def test_w1_measuring_the_hub_is_worth_twelve_points() -> None:
    hub = tape("2 13/16", "rule")
    case = a_case(without=ALL, face_to_strut_aft=tape("43", "rod"), hub_length=hub)
    assert as_inches(case.cut) == "47 3/4"
    assert as_inches(case.gap) == "3/4"
    assert case.u_nm / inches(1).nm == pytest.approx(0.057, abs=0.0005)
    assert case.probability == pytest.approx(1.0, abs=0.0005)


def test_w2_a_longer_hub_on_an_inch_and_an_eighth() -> None:
    case = a_case(
        without=ALL,
        dia_clean=tape("1 1/8", "caliper"),
        face_to_strut_aft=tape("51 5/16", "rod"),
        hub_length=tape("3", "caliper"),
    )
    assert as_inches(case.exact) == as_inches(case.cut) == "56 1/4"
    assert case.u_nm / inches(1).nm == pytest.approx(0.055, abs=0.0005)


def test_w2_the_fixed_tail_would_be_a_tie() -> None:
    case = a_case(
        without=ALL,
        dia_clean=tape("1 1/8", "caliper"),
        face_to_strut_aft=tape("51 5/16", "rod"),
    )
    assert as_inches(case.exact) == "56 1/16"
    assert as_inches(case.cut) == "56 1/8"


def test_w3_tail_and_gap_by_tape_before_the_shaft_came_out() -> None:
    case = a_case(
        without=ALL,
        face_to_strut_aft=tape("38 7/8", "tape_one_hand"),
        tail_to_thread=tape("5 3/8", "tape_short"),
        gap_now=tape("1 3/8", "tape"),
    )
    assert as_inches(case.exact) == as_inches(case.cut) == "43 5/8"
    assert case.u_nm / inches(1).nm == pytest.approx(0.097, abs=0.0005)
    assert case.probability == pytest.approx(0.990, abs=0.0005)


def test_w3_the_old_shaft_agrees_once_its_gap_is_taken_off() -> None:
    case = a_case(
        without=ALL,
        face_to_strut_aft=tape("38 7/8", "tape_one_hand"),
        tail_to_thread=tape("5 3/8", "tape_short"),
        gap_now=tape("1 3/8", "tape"),
        old_length_face_to_thread=tape("44 1/4", "tape"),
    )
    assert route(case, "old_shaft").estimate.nm == inches("43 5/8").nm
    assert as_inches(case.exact) == "43 5/8"


def test_w4_metric_tail_less_gap_agrees_with_the_hub() -> None:
    case = a_case(
        without=ALL,
        top={"tape_unit": "mm"},
        dia_clean=tape("30", "caliper"),
        face_to_strut_aft=tape("1236", "rod"),
        hub_length=tape("75", "rule"),
        tail_to_thread=tape("126", "tape_short"),
        gap_now=tape("22", "drill_shank"),
    )
    assert case.exact == mm(1359)
    assert case.cut == mm(1360)
    assert case.gap == mm(20)
    assert route(case, "tail").estimate.u_nm / mm(1).nm == pytest.approx(1.6, abs=0.05)
    assert case.probability == pytest.approx(1.0, abs=0.0005)
