"""Worked examples W1 to W4 of the stack-up: u, exact length, cut, gap, chance of a fair gap.

The sum 43 + 4-3/4 = 47-3/4 in, the gap 1/2, 3/4, 1 in and the rounding to eighths are *common
practice, no source*; the ends are SAE J755; the probabilities follow from JCGM 106 (normal noise,
no slips: ``Case.probability``). 29 mm of nut stand-off at 30 mm is the desk's own, invented.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import pytest

from catalog.domain.lengths import Length, inches, mm
from intake.domain.case import Case
from intake.domain.fit import fit_probability
from intake.domain.shaft import RouteUsed, routes_shown
from tests.given import a_case, as_inches, judged

ALL = (
    "face_to_strut_aft",
    "gap_now",
    "tail_to_thread",
    "hub_length",
    "old_length_face_to_thread",
)


def tape(text: str, method: str) -> dict[str, str]:
    return {"text": text, "method": method}


@dataclass(frozen=True)
class Example:
    """What is answered, and what must come of it; ``u`` in the unit of the lengths."""

    answers: dict[str, Any]
    u: float
    exact: Length
    cut: Length
    gap: Length
    percent: float
    places: float = 0.0005
    unit: Length = inches(1)


W1 = {"face_to_strut_aft": tape("43", "rod")}
W1_HUB = {**W1, "hub_length": tape("2 13/16", "rule")}
W2_RULE = {
    "dia_clean": tape("1 1/8", "caliper"),
    "face_to_strut_aft": tape("51 5/16", "rod"),
}
W2 = {**W2_RULE, "hub_length": tape("3", "caliper")}
W3 = {
    "face_to_strut_aft": tape("38 7/8", "tape_one_hand"),
    "tail_to_thread": tape("5 3/8", "tape_short"),
    "gap_now": tape("1 3/8", "tape"),
}
W4_TAIL = {
    "top": {"tape_unit": "mm"},
    "dia_clean": tape("30", "caliper"),
    "face_to_strut_aft": tape("1236", "rod"),
    "tail_to_thread": tape("126", "tape_short"),
    "gap_now": tape("22", "drill_shank"),
}
W4 = {**W4_TAIL, "hub_length": tape("75", "rule")}

_47_3_4, _56_1_4, _43_5_8 = inches("47 3/4"), inches("56 1/4"), inches("43 5/8")
_GOAL = inches("3/4")
EXAMPLES = {
    "W1 by the fixed tail": Example(W1, 0.159, _47_3_4, _47_3_4, _GOAL, 88.3),
    "W1 with the hub": Example(W1_HUB, 0.057, _47_3_4, _47_3_4, _GOAL, 100.0),
    "W2": Example(W2, 0.055, _56_1_4, _56_1_4, _GOAL, 100.0),
    "W3": Example(W3, 0.097, _43_5_8, _43_5_8, _GOAL, 99.0),
    "W4": Example(W4_TAIL, 1.6, mm(1359), mm(1360), mm(20), 100.0, 0.05, mm(1)),
}


@pytest.mark.parametrize("example", EXAMPLES.values(), ids=EXAMPLES)
def test_a_worked_example_as_a_case(example: Example) -> None:
    case = a_case(without=ALL, **example.answers)
    assert (case.exact, case.cut, case.gap) == (example.exact, example.cut, example.gap)
    assert case.u_nm / example.unit.nm == pytest.approx(example.u, abs=example.places)
    assert 100 * case.probability == pytest.approx(example.percent, abs=0.05)


@pytest.mark.parametrize("example", EXAMPLES.values(), ids=EXAMPLES)
def test_a_worked_example_as_the_verdict_gives_it(example: Example) -> None:
    shaft = judged(without=ALL, **example.answers).shaft
    assert shaft is not None
    assert (shaft.exact, shaft.cut) == (example.exact, example.cut)
    assert shaft.predicted_gap == example.gap
    assert shaft.u_nm / example.unit.nm == pytest.approx(example.u, abs=example.places)


def route(case: Case, name: str) -> RouteUsed:
    return next(shown for shown in routes_shown(case) if shown.route == name)


def chance(case: Case, gap: Length) -> float:
    """The percentage for another gap, at the case's u rounded as the example states it."""
    assert case.band is not None
    thousandth = inches("0.001").nm
    return 100 * fit_probability(gap.nm, round(case.u_nm / thousandth) * thousandth, case.band)


def test_w1_measuring_the_hub_is_worth_twelve_points() -> None:
    by_rule, by_hub = (a_case(without=ALL, **answers) for answers in (W1, W1_HUB))
    assert 100 * (by_hub.probability - by_rule.probability) == pytest.approx(11.7, abs=0.1)


def test_w2_is_a_longer_hub_on_an_inch_and_an_eighth() -> None:
    """51.3125 + 0.75 + 3 + 1.1875 = 56-1/4."""
    case = a_case(without=ALL, **W2)
    assert case.end is not None
    assert case.end.nut_standoff == inches("1 3/16")
    assert case.exact == inches("51 5/16") + inches("3/4") + inches(3) + inches("1 3/16")


def test_w2_the_fixed_tail_would_be_a_tie_and_still_leave_a_fair_gap() -> None:
    by_rule, by_hub = (a_case(without=ALL, **answers) for answers in (W2_RULE, W2))
    assert as_inches(by_rule.exact) == "56 1/16"
    assert as_inches(by_rule.cut) == "56 1/8", "a tie goes long"
    assert by_rule.cut is not None
    assert by_hub.exact is not None
    gap = inches("3/4") + by_rule.cut - by_hub.exact
    assert as_inches(gap) == "5/8"
    assert chance(by_hub, gap) == pytest.approx(98.8, abs=0.05)


def test_w2_cut_to_quarters_it_would_be_a_coin_toss() -> None:
    case = a_case(without=ALL, **W2)
    assert case.exact is not None
    gap = inches("3/4") + inches(56) - case.exact
    assert as_inches(gap) == "1/2"
    assert chance(case, gap) == pytest.approx(50.0, abs=0.05)


def test_w3_the_old_shaft_agrees_once_its_gap_is_taken_off() -> None:
    case = a_case(without=ALL, **W3, old_length_face_to_thread=tape("44 1/4", "tape"))
    assert route(case, "old_shaft").length.nm == inches("43 5/8").nm
    assert as_inches(case.exact) == as_inches(case.cut) == "43 5/8"


def test_w3_copying_the_old_shaft_would_never_fit() -> None:
    case = a_case(without=ALL, **W3)
    assert case.exact is not None
    gap = inches("3/4") + inches("44 1/4") - case.exact
    assert as_inches(gap) == "1 3/8"
    assert chance(case, gap) == pytest.approx(0.0, abs=0.05)


def test_w4_tail_less_gap_agrees_with_the_hub() -> None:
    """p = 126 - 22 = 104 = hub 75 + n 29; both together are a little surer than 1.6 mm."""
    case = a_case(without=ALL, **W4)
    assert route(case, "tail").length.nm == route(case, "boat").length.nm == mm(1359).nm
    assert route(case, "tail").u_nm / mm(1).nm == pytest.approx(1.6, abs=0.05)
    assert (case.exact, case.cut, case.gap) == (mm(1359), mm(1360), mm(20))
    assert case.u_nm < route(case, "tail").u_nm
    assert 100 * case.probability == pytest.approx(100.0, abs=0.05)
