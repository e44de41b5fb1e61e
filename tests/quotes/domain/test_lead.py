"""Between which days it leaves us. The days (3, 8, 10, 25) are the desk's own, invented."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.domain.lengths import inches
from quotes.domain.calendar import USUAL, Calendar
from quotes.domain.choice import Choice
from quotes.domain.lead import SPREAD, Bar, bar_of, lead_days, lead_range, lead_words
from quotes.domain.order import Order, Shaft
from quotes.domain.rates import Rates

MONDAY = date(2026, 11, 30)
SHAFT = Shaft(
    "inch", inches("1"), "S20910", "conventional", inches("49"), inches("49"), "straight", "", ""
)
ORDER = Order(frozenset({"shaft"}), SHAFT, (), coupling_comes=False)
RUSHED = replace(ORDER, choice=Choice(options=frozenset({"rush"})))
RATES = Rates()
DAYS = st.sampled_from([date(2026, 1, 1) + timedelta(days=n) for n in range(500)])
SPECIAL = replace(ORDER, shaft=replace(SHAFT, alloy="N05500"))
TAPERED = replace(ORDER, shaft=replace(SHAFT, forward_end="tapered"))


@pytest.mark.parametrize(
    ("order", "bar", "days"),
    [
        (replace(ORDER, shaft=None), Bar.IN_STOCK, 3),
        (ORDER, Bar.HELD, 3),
        (ORDER, Bar.IN_STOCK, 8),
        (ORDER, Bar.TO_ORDER, 25),
        (SPECIAL, Bar.IN_STOCK, 25),
        (SPECIAL, Bar.HELD, 3),
        (TAPERED, Bar.IN_STOCK, 10),
        (replace(ORDER, coupling_comes=True), Bar.HELD, 10),
    ],
)
def test_the_slowest_part_sets_the_days(order: Order, bar: Bar, days: int) -> None:
    assert lead_days(order, RATES, bar) == days


def test_where_the_bar_is_stands_on_the_stored_sheet() -> None:
    bar = {"kind": "bar", "code": "BAR-1", "in_stock": False}
    assert bar_of(ORDER, {"parts": [bar]}) == Bar.TO_ORDER
    assert bar_of(ORDER, {"parts": [bar, {**bar, "in_stock": True}]}) == Bar.IN_STOCK
    assert bar_of(ORDER, {}) == Bar.IN_STOCK


def test_other_work_waits_before_it_and_a_rush_goes_first() -> None:
    shut = Calendar(closed=frozenset({date(2026, 12, 8)}))
    plain = lead_range(ORDER, {}, RATES, shut, 5, MONDAY)
    assert plain.first == date(2026, 12, 11)  # eight days of the bar, over a closed Tuesday
    assert plain.last == shut.after(MONDAY, 8 + 5 + SPREAD)
    rushed = lead_range(RUSHED, {}, RATES, shut, 5, MONDAY)
    assert (rushed.first, rushed.last) == (plain.first, shut.after(MONDAY, 8 + SPREAD))


@given(
    st.integers(0, 60), st.integers(0, 60), DAYS, st.frozensets(DAYS, max_size=30)
)  # fmt: skip
def test_a_range_begins_before_it_ends_and_more_load_ends_no_earlier(
    load: int, more: int, day: date, closed: frozenset[date]
) -> None:
    calendar = Calendar(closed=closed)
    one = lead_range(ORDER, {}, RATES, calendar, load, day)
    other = lead_range(ORDER, {}, RATES, calendar, load + more, day)
    assert day < one.first < one.last <= other.last
    assert one.first == other.first
    assert calendar.is_open(one.first)
    assert calendar.is_open(one.last)


def test_the_words_name_both_days_and_by_when() -> None:
    leaves = lead_range(RUSHED, {}, RATES, USUAL, 9, MONDAY, accept_by=date(2026, 12, 2))
    said = lead_words(RUSHED, {}, RATES, leaves, lambda day: f"{day:%-d %B}")
    assert said == (
        "Leaves us between 10 and 16 December, if you accept by 2 December.",
        "Your work goes first, so nothing else waits before it.",
    )
    coming = replace(ORDER, coupling_comes=True)
    assert "coupling must reach us first" in lead_words(coming, {}, RATES, leaves)[1]


def test_without_days_the_words_stay_what_they_were() -> None:
    assert lead_words(ORDER, {}, RATES) == ("Leaves us about 8 working days after you accept.",)


def test_a_day_that_may_be_too_early_is_said_with_a_question() -> None:
    leaves = lead_range(ORDER, {}, RATES, USUAL, 0, MONDAY)  # the last day is 14 December
    in_time, too_early = date(2026, 12, 19), date(2026, 12, 18)
    assert lead_words(ORDER, {}, RATES, leaves, needed=in_time) == lead_words(
        ORDER, {}, RATES, leaves
    )
    said = lead_words(ORDER, {}, RATES, leaves, needed=too_early)[-1]
    assert said.startswith("You need it by 2026-12-18")
    assert "Can the lift move?" in said
