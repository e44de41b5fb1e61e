"""Counts, intervals and bins; the report prints each figure with its target."""

from __future__ import annotations

import json

import pytest

from intake.domain.shares import wilson
from intake.season.customers import a_customer as drawn
from intake.season.mistakes import Mistake
from intake.season.play import play
from intake.season.report import as_json, report
from intake.season.tally import FIT_EDGES, Tally, bin_of, gap_error, moves_out
from tests.given import demo_stock
from tests.intake.season.given import a_boat, a_customer


@pytest.mark.parametrize(
    ("hits", "of", "low", "high"),
    [
        (0, 10, 0.0, 0.27754),
        (10, 10, 0.72246, 1.0),
        (81, 263, 0.25526, 0.36621),
        (1, 29, 0.00612, 0.17176),
        (0, 0, 0.0, 1.0),
    ],
)
def test_wilsons_interval(hits, of, low, high) -> None:
    """81 of 263, 1 of 29: the worked examples of Newcombe 1998, method 3 (from memory)."""
    assert wilson(hits, of) == pytest.approx((low, high), abs=6e-5)


@pytest.mark.parametrize(
    ("stated", "place"), [(0.5, 0), (0.90, 1), (0.9849, 2), (0.985, 3), (1.0, 4)]
)
def test_a_probability_falls_in_its_bin(stated, place) -> None:
    assert bin_of(stated, FIT_EDGES) == place


def test_a_slip_moves_the_gap_out_of_the_band_or_not() -> None:
    burned = a_customer(Mistake("R-BURN-X", "x", {"x": 1.0}))
    rubber = a_customer(Mistake("D-RUB", "x", {"x": 0.19}))
    assert moves_out(burned)
    assert not moves_out(rubber)
    narrow = a_customer(Mistake("D-RUB", "x", {"x": 0.19}), boat=a_boat(goal=0.625, most=0.75))
    assert moves_out(narrow)
    assert gap_error(a_customer(Mistake("Z-TAPE", "both", scale=0.99))) == pytest.approx(-0.43)


def test_the_parts_of_a_season_add_up_to_the_whole() -> None:
    stock = demo_stock()
    whole, parts = play(3, 0, 60, stock), Tally()
    for first, last in ((0, 25), (25, 60)):
        parts.add_all(play(3, first, last, stock))
    assert parts.counts == whole.counts
    assert parts.sums == pytest.approx(whole.sums)


def test_a_season_counts_every_sheet_once() -> None:
    tally = play(4, 0, 80, demo_stock())
    sheets = {kind: tally.n(kind, "sheets") for kind in ("two", "one")}
    assert sum(sheets.values()) == 80
    for kind, n in sheets.items():
        assert sum(tally.under(kind, "slips").values()) == n
        assert sum(tally.under(kind, "first").values()) == n
        assert tally.n(kind, "released") + tally.n(kind, "held") == n
    clean = sum(drawn(4, index).is_clean for index in range(80))
    assert tally.n("two", "clean") + tally.n("one", "clean") == clean


def test_the_report_says_whether_each_target_is_met() -> None:
    tally = Tally()
    tally.add("two", "sheets", times=1000)
    tally.add("two", "a", "wrong", times=240)
    tally.add("two", "wrong", times=2)
    tally.add("two", "clean", times=700)
    tally.add("two", "clean asked", times=36)
    text = report(tally, seed=9, sheets=1000)
    assert "seed 9" in text
    assert "at most 2 per 1000: met" in text
    assert "a hundredth of desk (a): met" in text
    assert "at most 5 %: NOT MET" in text
    assert "2.0  [0.5 .. 7.3]" in text


def test_an_honest_bin_is_inside_and_a_boasting_one_outside() -> None:
    tally = Tally()
    for hit in [True] * 96 + [False] * 4:
        tally.calibrate("released", FIT_EDGES, 0.96, hit)
    for hit in [True] * 80 + [False] * 20:
        tally.calibrate("released", FIT_EDGES, 0.98, hit)
    lines = [line for line in report(tally, seed=1, sheets=200).splitlines() if " said " in line]
    assert "0.9600 [0.9016 .. 0.9843]  inside" in lines[0]
    assert lines[1].endswith("OUTSIDE")


def test_everything_counted_can_be_had_as_json() -> None:
    tally = play(5, 0, 20, demo_stock())
    told = json.loads(json.dumps(as_json(tally, seed=5, sheets=20)))
    assert told["seed"] == 5
    assert told["counts"]["two/sheets"] == tally.n("two", "sheets")
