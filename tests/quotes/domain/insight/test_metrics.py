"""Each question of the manager's against counts worked by hand, intervals against SciPy."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import binomtest, norm

from intake.domain.shares import Share, wilson
from quotes.domain.cost_model import USUAL
from quotes.domain.insight.again import again
from quotes.domain.insight.bars import bars
from quotes.domain.insight.calling import calling
from quotes.domain.insight.changes import Mark, changes
from quotes.domain.insight.cost import cost
from quotes.domain.insight.fit import first_time_right
from quotes.domain.insight.flags import Recall, flags
from quotes.domain.insight.funnel import funnel
from quotes.domain.insight.honesty import KEYS, fit_key, reliability, uncertainty, z_key
from quotes.domain.insight.lacking import lacking
from quotes.domain.insight.measures import Counted, Counts, Measure
from quotes.domain.insight.overrides import overrides
from quotes.domain.insight.questions import questions
from quotes.domain.insight.targets import Standing, at_least, at_most
from quotes.domain.insight.waiting import quantile, waiting

APRIL, MAY, JUNE = "2026-04", "2026-05", "2026-06"


def some(*rows: tuple[str, Measure, str, int] | tuple[str, Measure, str, int, int]) -> Counts:
    return {(row[0], row[1], row[2]): Counted(*row[3:]) for row in rows}


@given(st.integers(0, 400), st.integers(1, 400))
def test_the_interval_is_wilsons(hits: int, more: int) -> None:
    of = hits + more
    ours = wilson(hits, of)
    theirs = binomtest(hits, of).proportion_ci(confidence_level=0.95, method="wilson")
    assert ours == pytest.approx((theirs.low, theirs.high), abs=1e-9)


def test_nothing_heard_is_neither_right_nor_wrong() -> None:
    fit = first_time_right(
        some(
            (APRIL, Measure.SHIPPED, "", 10), (APRIL, Measure.KNOWN, "", 8),
            (APRIL, Measure.RIGHT, "", 7), (MAY, Measure.SHIPPED, "", 2),
        )
    )  # fmt: skip
    assert (fit.whole.right, fit.whole.coverage) == (Share(7, 8), Share(8, 12))
    assert [month.month for month in fit.months] == [APRIL, MAY]
    assert fit.months[1].right.rate is None


def test_precision_counts_what_was_answered_and_recall_what_nobody_saw() -> None:
    found = flags(
        some(
            (APRIL, Measure.RECEIVED, "", 100), (APRIL, Measure.FLAG, "gap", 12),
            (APRIL, Measure.FLAG_ANSWERED, "gap", 10), (APRIL, Measure.FLAG_RIGHT, "gap", 6),
            (MAY, Measure.FLAG, "bolts", 3), (APRIL, Measure.CAUGHT, "call", 6),
            (APRIL, Measure.CAUGHT, "boat", 2), (APRIL, Measure.WRONG_FLAGGED, "", 7),
            (APRIL, Measure.AUDITED, "", 4), (APRIL, Measure.AUDIT_WRONG, "", 1),
        )
    )  # fmt: skip
    assert [(row.check, row.raised, row.precision) for row in found.rows] == [
        ("gap", 12, Share(6, 10)),
        ("bolts", 3, Share(0, 0)),
    ]
    assert found.per_request == pytest.approx(0.15)
    assert found.recall.rate == pytest.approx(7 / (7 + 0 + 20))


def test_recall_without_one_audit_call_may_be_anything() -> None:
    none = Recall(flagged=7, found_late=1, audited=0, audit_wrong=0)
    assert (none.rate, none.low, none.high) == (7 / 8, 0.0, 1.0)


def test_the_doubt_of_recall_is_that_of_the_audit_calls() -> None:
    found = Recall(flagged=40, found_late=2, audited=20, audit_wrong=1)
    low, high = binomtest(1, 20).proportion_ci(confidence_level=0.95, method="wilson")
    assert found.rate == pytest.approx(40 / 62)
    assert found.low == pytest.approx(40 / (42 + high * 20 * 20))
    assert found.high == pytest.approx(40 / (42 + low * 20 * 20))


def test_what_one_place_does_not_catch_comes_to_the_next() -> None:
    steps = funnel(
        some((APRIL, Measure.CAUGHT, "entry", 5), (APRIL, Measure.CAUGHT, "boat", 1),
             (MAY, Measure.CAUGHT, "call", 4))
    )  # fmt: skip
    assert [(step.stage, step.caught, step.came) for step in steps] == [
        ("entry", 5, 10), ("call", 4, 5), ("shop", 0, 1), ("boat", 1, 1),
    ]  # fmt: skip


MISTAKES = some(
    (APRIL, Measure.MISMATCH, "D-CBACK|before_quote", 3, 3600),
    (MAY, Measure.MISMATCH, "D-CBACK|at_fitting", 1, 47000),
    (MAY, Measure.MISMATCH, "D-HUB|at_fitting", 1, 18000),
    (MAY, Measure.MISMATCH, "X|before_quote", 5, 6000),
    (MAY, Measure.AGAIN, "D-CBACK", 2),
)


def test_the_dearest_cause_stands_first_and_the_most_frequent_too() -> None:
    found = cost(MISTAKES)
    assert [row.cause for row in found.causes] == ["D-CBACK", "D-HUB", "X"]
    assert [row.cause for row in found.by_count()] == ["X", "D-CBACK", "D-HUB"]
    assert found.causes[0].stages["at_fitting"] == Counted(1, 47000)
    assert [(row.cause, row.whole.amount) for row in found.families] == [("D", 68600), ("X", 6000)]
    assert (found.unknown, found.whole) == (Share(5, 10), Counted(10, 74600))


def test_a_cause_that_came_back_is_counted_by_month() -> None:
    found = again(MISTAKES, (APRIL, MAY))
    assert found.rate == Share(2, 10)
    assert [(row.cause, row.months, row.again) for row in found.rows] == [
        ("X", (0, 5), Share(0, 5)),
        ("D-CBACK", (3, 1), Share(2, 4)),
        ("D-HUB", (0, 1), Share(0, 1)),
    ]
    assert found.highest == 5


def test_a_question_has_what_it_finds_and_what_goes_wrong_in_it() -> None:
    rows = questions(
        some(
            (APRIL, Measure.ASKED, "gap_now", 10), (APRIL, Measure.ASKED_RIGHT, "gap_now", 4),
            (APRIL, Measure.ANSWERS, "gap_now", 80), (APRIL, Measure.BORN, "gap_now", 2, 94000),
            (APRIL, Measure.ANSWERS, "fuel", 80), (MAY, Measure.BORN, "hub_length", 1, 0),
        )
    )  # fmt: skip
    assert [(row.question, row.found, row.failed, row.cents) for row in rows] == [
        ("gap_now", Share(4, 10), Share(2, 80), 94000),
        ("hub_length", Share(0, 0), Share(1, 1), 0),
    ]


@given(st.floats(-6, 6))
def test_each_deviation_has_one_bin(z: float) -> None:
    key = z_key(z)
    assert key in KEYS
    if key not in ("-inf", "inf"):
        assert float(key) <= z < float(key) + 0.5


def test_the_curve_is_the_normal_one() -> None:
    counts = some((APRIL, Measure.Z, "0.0", 1000, 250_000_000))
    bins = {one.key: one.expected for one in uncertainty(counts).bins}
    assert bins["1.0"] == pytest.approx(1000 * (norm.cdf(1.5) - norm.cdf(1.0)), rel=1e-9)
    assert bins["-inf"] == pytest.approx(1000 * norm.cdf(-4), rel=1e-6)
    assert sum(bins.values()) == pytest.approx(1000)


def test_the_spread_of_three_deviations_by_hand() -> None:
    zs = [-1.0, 0.5, 2.5]
    rows = [(APRIL, Measure.Z, z_key(z), 1, round(z * 1e6)) for z in zs]
    squares = (APRIL, Measure.Z_SQUARED, "", 3, round(sum(z * z for z in zs) * 1e6))
    found = uncertainty(some(*rows, squares))
    assert found.deviation == pytest.approx(float(np.std(zs, ddof=1)))
    assert found.mean == pytest.approx(2 / 3)
    assert found.within_two == Share(2, 3)


def test_what_was_stated_is_held_against_what_landed() -> None:
    bins = reliability(
        some((APRIL, Measure.FIT_STATED, fit_key(0.98), 50, 49_000_000),
             (APRIL, Measure.FIT_LANDED, fit_key(0.98), 49),
             (APRIL, Measure.FIT_STATED, fit_key(0.5), 30, 28_000_000),
             (APRIL, Measure.FIT_LANDED, fit_key(0.5), 15))
    )  # fmt: skip
    assert [one.is_honest for one in bins] == [False, None, True, None, None]
    assert bins[2].stated == pytest.approx(0.98)


@given(st.lists(st.integers(0, 10**7), min_size=1, max_size=60), st.sampled_from([0.5, 0.9]))
def test_quantiles_are_numpys(seconds: list[int], share: float) -> None:
    assert quantile(sorted(seconds), share) == pytest.approx(float(np.quantile(seconds, share)))


def test_waits_are_split_by_whom_we_waited_for() -> None:
    found = waiting([(1, 100, 0), (3, 200, 5000), (2, 0, 900)])
    assert [(row.who, row.median) for row in found.rows] == [
        ("machine", 2), ("desk", 100), ("customer", 900),
    ]  # fmt: skip
    assert (found.n, found.whole.median) == (3, 902)
    assert waiting([]).whole.median is None


def test_calls_are_held_against_what_they_kept_from_going_wrong() -> None:
    counts = some(
        (APRIL, Measure.CALL, "", 10), (APRIL, Measure.ASKED_RIGHT, "gap_now", 1),
        (MAY, Measure.CALL, "", 5),
    )  # fmt: skip
    found = calling(counts, (APRIL, MAY), {APRIL: USUAL, MAY: USUAL})
    assert [(m.calls_so_far, m.saved_so_far) for m in found.months] == [
        (12000, 32500),
        (18000, 32500),
    ]
    assert (found.each_cents, found.net_cents) == (32500, 14500)


def test_releases_over_a_flag_are_held_against_the_rest() -> None:
    found = overrides(
        some(
            (APRIL, Measure.OVER, "known boat", 6), (APRIL, Measure.OVER_KNOWN, "known boat", 4),
            (APRIL, Measure.OVER_WRONG, "known boat", 1), (APRIL, Measure.OVER, "in a hurry", 1),
            (APRIL, Measure.PLAIN_KNOWN, "", 50), (APRIL, Measure.PLAIN_WRONG, "", 2),
        )
    )  # fmt: skip
    assert [(row.reason, row.released, row.misfits) for row in found.rows] == [
        ("known boat", 6, Share(1, 4)),
        ("in a hurry", 1, Share(0, 0)),
    ]
    assert (found.over, found.rest) == (Share(1, 4), Share(2, 50))


def test_a_mark_is_looked_at_over_as_many_months_before_as_after() -> None:
    months = ("2026-01", "2026-02", "2026-03", APRIL, MAY)
    wrong = (90, 80, 40, 10, 10)
    rows = [(m, Measure.RECEIVED, "", 100) for m in months]
    rows += [(m, Measure.CAUGHT, "call", n) for m, n in zip(months, wrong, strict=True)]
    outside = Mark(date(2025, 1, 1), "long ago")
    found = changes(some(*rows), months, [outside, Mark(date(2026, 3, 9), "new words")])
    (one,) = found.marks
    assert (one.months, one.before, one.after) == (2, Share(170, 200), Share(20, 200))
    assert one.is_apart


def test_what_we_lack_is_ranked_and_bars_are_by_what_was_thrown_away() -> None:
    counts = some(
        (APRIL, Measure.LACKING, "bearing 1 in", 2), (MAY, Measure.LACKING, "bearing 2 in", 3),
        (APRIL, Measure.BAR_USED, "1 in", 2, 900), (APRIL, Measure.BAR_DROPPED, "1 in", 2, 100),
        (APRIL, Measure.BAR_KEPT, "1 in", 2, 500), (APRIL, Measure.BAR_USED, "2 in", 1, 700),
    )  # fmt: skip
    assert lacking(counts) == (("bearing 2 in", 3), ("bearing 1 in", 2))
    first, second = bars(counts)
    assert (first.size, first.waste, first.kept_nm) == ("1 in", 0.1, 500)
    assert (second.size, second.waste) == ("2 in", 0.0)


@pytest.mark.parametrize(
    ("share", "told"),
    [
        (Share(19, 19), Standing.OPEN),  # below twenty nothing is said
        (Share(480, 500), Standing.OPEN),  # the target is inside what may be true
        (Share(499, 500), Standing.MET),
        (Share(400, 500), Standing.SHORT),
    ],
)
def test_a_target_is_met_only_where_that_is_sure(share: Share, told: Standing) -> None:
    assert at_least(share, Decimal("0.96")) == told


def test_a_target_from_above() -> None:
    assert at_most(Share(5, 500), Decimal("0.15")) == Standing.MET
    assert at_most(Share(200, 500), Decimal("0.15")) == Standing.SHORT
