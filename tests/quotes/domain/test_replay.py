"""Two judgements of a sheet compared: hand-made cases, counted and turned into money by hand."""

from __future__ import annotations

from dataclasses import asdict
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from quotes.domain.cost_model import USUAL
from quotes.domain.replay import (
    Compared,
    Judged,
    Tally,
    cost_if_let_through,
    is_of_the_sheet,
    judged,
    money_of,
    tally_of,
)
from quotes.domain.replay_words import by_check, why
from tests.given import judged as judge

FREE = Judged("release", ())
ASKED = Judged("ask", (("log-clearance", "ask"),))
STOPPED = Judged("stop", (("log-clearance", "stop"), ("single-route", "ask")))
# Invented: five sheets, two of them known to have been wrong.
CASES = (
    Compared(FREE, FREE),
    Compared(FREE, ASKED, wrong=True, cost=Decimal("470.00")),  # caught by the change
    Compared(ASKED, FREE),  # a false call less
    Compared(ASKED, STOPPED),
    Compared(STOPPED, FREE, wrong=True, cost=Decimal("75.50"), drifted=True),  # missed by it
)


def counted(*cases: Compared) -> Tally:
    tally = Tally()
    for one in cases:
        tally.add(one)
    return tally


def test_five_sheets_are_counted_as_by_hand() -> None:
    tally = counted(*CASES)
    assert (tally.sheets, tally.changed, tally.moved, tally.drifted) == (5, 4, 0, 1)
    assert (tally.calls_before, tally.calls_after) == (3, 2)
    assert (tally.stops_before, tally.stops_after) == (1, 1)
    assert (tally.wrong, tally.caught_before, tally.caught_after) == (2, 1, 1)
    assert (tally.missed_before, tally.missed_after) == (1, 1)
    assert (tally.false_before, tally.false_after) == (2, 1)
    assert tally.is_few


def test_money_is_calls_and_what_is_let_through() -> None:
    money = money_of(counted(*CASES), Decimal("12.00"))
    assert (money.calls_before, money.calls_after) == (Decimal(36), Decimal(24))
    assert (money.wrong_before, money.wrong_after) == (Decimal("470.00"), Decimal("75.50"))
    assert money.difference == Decimal("99.50") - Decimal("506.00")


def test_the_same_verdict_by_another_check_has_moved_and_not_changed() -> None:
    other = Judged("ask", (("single-route", "ask"),))
    tally = counted(Compared(ASKED, other))
    assert (tally.changed, tally.moved, tally.calls_before, tally.calls_after) == (0, 1, 1, 1)


def test_checks_are_counted_by_sheet_and_the_greatest_move_comes_first() -> None:
    lines = by_check(counted(*CASES, Compared(FREE, ASKED), Compared(FREE, ASKED)))
    told = [(one.check, one.before, one.after, one.difference) for one in lines]
    assert told == [("log-clearance", 3, 4, 1), ("single-route", 1, 1, 0)]


def test_why_says_what_came_went_and_moved() -> None:
    titles = {"log-clearance": "The log is tight.", "single-route": "One route only."}
    assert why(ASKED, STOPPED, titles) == [
        "Comes (ask): One route only.",
        "From ask to stop: The log is tight.",
    ]
    assert why(STOPPED, FREE, titles) == [
        "Goes (stop): The log is tight.",
        "Goes (ask): One route only.",
    ]


def test_a_wrong_sheet_costs_what_was_booked_or_else_the_models_figure() -> None:
    assert cost_if_let_through(Decimal("131.20"), "s", USUAL) == Decimal("131.20")
    assert cost_if_let_through(Decimal(0), "sc", USUAL) == USUAL.shaft_too_short
    assert cost_if_let_through(Decimal(0), "b", USUAL) == USUAL.wrong_part


def test_a_mistake_of_the_shop_or_the_van_says_nothing_of_the_sheet() -> None:
    told = {cause: is_of_the_sheet(cause) for cause in ("R-FLIP", "K-TYPED", "S-CUT", "T-BENT")}
    assert told == {"R-FLIP": True, "K-TYPED": True, "S-CUT": False, "T-BENT": False}


def test_a_verdict_is_reduced_to_what_holds() -> None:
    clean = judge()
    assert judged(clean) == FREE
    tight = judged(judge(log_id={"text": "1 15/64", "method": "caliper"}))
    assert tight == ASKED


VERDICTS = st.sampled_from([FREE, ASKED, STOPPED])
ONE = st.builds(
    Compared,
    VERDICTS,
    VERDICTS,
    st.booleans(),
    st.booleans(),
    st.integers(0, 10**6).map(lambda cents: Decimal(cents) / 100),
)


@given(st.lists(ONE, max_size=12), st.integers(0, 12))
def test_two_parts_add_up_to_the_whole(cases: list[Compared], at: int) -> None:
    parts = counted(*cases[:at]).plus(tally_of(counted(*cases[at:]).as_json()))
    assert asdict(parts) == asdict(counted(*cases))


@given(st.lists(ONE, max_size=12))
def test_a_change_that_moves_nothing_costs_nothing(cases: list[Compared]) -> None:
    same = [Compared(one.before, one.before, wrong=one.wrong, cost=one.cost) for one in cases]
    tally = counted(*same)
    assert (tally.changed, tally.moved) == (0, 0)
    assert money_of(tally, Decimal("12.00")).difference == 0
