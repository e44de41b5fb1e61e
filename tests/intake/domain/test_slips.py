"""The ranking of slips by what two routes differ by: common practice, no source.

The expected shares are those of the trade's own table for a boat of 43 in on a 1 in shaft, flanges
of 1/2 in, a coupling hub of 2-1/2 in and a barrel of 2 in.
"""

from __future__ import annotations

import pytest

from catalog.domain.lengths import inches
from intake.domain.explain import by_cause, explain, prepare
from intake.domain.limits import DEFAULT_LIMITS, Limits
from intake.domain.slip_words import share_of
from intake.domain.slips import OK, Sizes, learned, possible_slips, weights
from tests.given import a_case

READINGS = ("strut", "old", "gap", "rule")
# "Boat less old" grows with strut, gap and tail and shrinks with the old length.
COEFFICIENT = {"old": -1.0}
SIZES = Sizes(feet=3, nose=inches("5/16").nm, thread_length=inches("1 7/16").nm)

TABLE = [
    ("0.05", "0.11", {"OK": 95, "G-ASSUME": 1, "P-RULE": 1, "R-FLIP": 1}),
    ("0.22", "0.11", {"OK": 76, "G-ASSUME": 5, "P-RULE": 4, "R-FLIP": 3}),
    ("-0.31", "0.06", {"D-PIN": 51, "G-ASSUME": 13, "P-RULE": 9, "D-OPEN": 7}),
    ("-0.31", "0.11", {"OK": 26, "D-PIN": 26, "G-ASSUME": 12, "D-CBACK": 8}),
    ("-0.50", "0.11", {"D-CBACK": 39, "G-ASSUME": 18, "D-PIN": 12, "P-RULE": 8}),
    ("0.50", "0.11", {"D-GBACK": 30, "G-ASSUME": 20, "G-SLID": 10, "D-SAG": 9}),
    ("1.02", "0.11", {"R-BURN-X": 48, "R-WHOLE": 20, "R-TWICE": 12, "G-ASSUME": 11}),
    ("-1.00", "0.11", {"R-BURN-O": 40, "R-WHOLE": 20, "R-TWICE": 12, "G-ASSUME": 11}),
    ("-2.03", "0.11", {"D-FWD": 76, "D-HUB": 12, "X": 5, "B-MOVED": 4}),
    ("-2.60", "0.11", {"D-HUB": 62, "R-CASE": 17, "X": 11, "B-MOVED": 6}),
    ("-3.10", "0.11", {"R-CASE": 54, "D-HUB": 27, "X": 12, "I-OTHER": 4}),
    ("-6.00", "0.11", {"R-FTIN": 96, "X": 3, "I-OTHER": 2, "B-MOVED": 0}),
    ("1.44", "0.11", {"D-TAPER": 60, "G-ASSUME": 19, "B-MOVED": 10, "X": 8}),
    ("-0.65", "0.11", {"D-CBACK": 35, "G-ASSUME": 26, "D-SLOPE": 12, "P-RULE": 7}),
]


def shares(d: str, u: str, evidence: frozenset[str] = frozenset()) -> dict[str, float]:
    """Per cent of each cause for two routes that differ by d with a standard uncertainty of u."""
    listed = possible_slips(DEFAULT_LIMITS, SIZES, evidence, frozenset(READINGS))
    # The table knows two routes alone, so nothing that was counted in the tail as well.
    slips = [slip for slip in listed if "tail" not in dict(slip.moves)]
    shared = [(name, COEFFICIENT.get(name, 1.0)) for name in READINGS]
    difference = (("noise", float(inches(u).nm)), *shared)
    units = tuple((name, 1.0) for name in READINGS)
    best = (("strut", 1.0),)
    made = prepare(best, (difference,), units, slips, weights(DEFAULT_LIMITS)[OK])
    found = explain(made, [float(inches(d).nm)])
    assert sum(one.probability for one in found) == pytest.approx(1.0)
    return {cause: 100 * share for cause, share in by_cause(found)}


@pytest.mark.parametrize(("d", "u", "expected"), TABLE)
def test_the_ranking_at_a_typical_difference(d: str, u: str, expected: dict[str, int]) -> None:
    found = shares(d, u)
    for cause, share in expected.items():
        assert found.get(cause, 0.0) == pytest.approx(share, abs=1.0)


def test_a_tape_started_on_a_mark_points_at_the_burned_inch() -> None:
    assert shares("1.02", "0.11", frozenset({"started_on_a_mark"}))["R-BURN-X"] == pytest.approx(
        87, abs=1.0
    )


def test_a_shaft_in_place_a_drilled_gap_and_a_measured_hub_point_at_the_flange() -> None:
    seen = frozenset({"shaft_in_place", "coupling_bolted", "gap_by_drill_bolted"})
    found = shares("-0.50", "0.11", seen)
    without_rule = {cause: share for cause, share in found.items() if cause != "P-RULE"}
    assert 100 * without_rule["D-CBACK"] / sum(without_rule.values()) == pytest.approx(72, abs=1.0)


def test_without_counts_the_starting_weights_stand() -> None:
    priors = {"OK": 722.0, "D-PIN": 14.0, "R-TEN": 7.0}
    assert learned(priors, {}) == pytest.approx(priors)


def test_the_desks_own_counts_take_over() -> None:
    """(prior / 5 + n) / (200 + N), priors in a thousand: 14 in 1000, then 30 among 800."""
    priors = {"OK": 986.0, "D-PIN": 14.0}
    found = learned(priors, {"OK": 770, "D-PIN": 30})
    assert found["D-PIN"] == pytest.approx(1000 * (14 / 5 + 30) / (200 + 800))
    assert sum(found.values()) == pytest.approx(1000.0)


def test_a_limit_set_with_counts_weighs_by_them() -> None:
    counted = Limits(cause_counts={"OK": 700, "D-SAG": 100})
    assert weights(counted)["D-SAG"] > 10 * weights(DEFAULT_LIMITS)["D-SAG"]


def test_a_gap_said_roughly_counts_as_if_it_were_assumed() -> None:
    """Said "about", blank, or exactly three quarters: common practice, no source."""
    told = {"text": "about 5/8", "method": "tape"}
    measured = {"text": "5/8", "method": "tape"}
    rough, plain = (
        share_of(a_case(gap_now=gap, without=("tail_to_thread",)), "G-ASSUME")
        for gap in (told, measured)
    )
    assert rough > 2 * plain
