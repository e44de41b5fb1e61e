"""The queue's order as a table of cases: who must be called by when, and why."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta, timezone
from decimal import Decimal

import pytest

from catalog.domain.lengths import Length, inches, mm
from intake.domain.at_stake import PricedPart, at_stake
from intake.domain.call_order import CallNeed, call_need
from intake.domain.limits import DEFAULT_LIMITS, Limits

MONDAY = datetime(2026, 11, 23, 10, 30, tzinfo=UTC)
DEAR, CHEAP = Decimal(412), Decimal(140)


@dataclass(frozen=True)
class Waiting:
    """One request as the queue knows it."""

    name: str
    since: datetime = MONDAY
    needed_by: date | None = None
    at_stake: Decimal | None = CHEAP


def need(one: Waiting, limits: Limits = DEFAULT_LIMITS) -> CallNeed:
    return call_need(one.since, one.needed_by, one.at_stake, limits)


def at(day: int, hour: int = 10, minute: int = 30) -> datetime:
    return datetime(2026, 11, day, hour, minute, tzinfo=UTC)


@pytest.mark.parametrize(
    ("one", "call_by", "why"),
    [
        (Waiting("nothing presses"), at(25), "Called within 48 hours."),
        (Waiting("what it costs is not known", at_stake=None), at(25), "Called within 48 hours."),
        (
            Waiting("a dear cut", at_stake=DEAR),
            at(24),
            "Parts for 412 at stake: called within 24 hours.",
        ),
        (
            Waiting("just dear", at_stake=Decimal(300)),
            at(24),
            "Parts for 300 at stake: called within 24 hours.",
        ),
        (Waiting("not quite dear", at_stake=Decimal(299)), at(25), "Called within 48 hours."),
        (
            Waiting("the season presses", needed_by=date(2026, 12, 3)),
            at(24, 0, 0),
            "She must run on 3 Dec; nine days in the shop and on the road.",
        ),
        (
            Waiting("a day later, still before the usual", needed_by=date(2026, 12, 4)),
            at(25, 0, 0),
            "She must run on 4 Dec; nine days in the shop and on the road.",
        ),
        (Waiting("far off", needed_by=date(2026, 12, 5)), at(25), "Called within 48 hours."),
        (
            Waiting("dear comes before the day", needed_by=date(2026, 12, 4), at_stake=DEAR),
            at(24),
            "Parts for 412 at stake: called within 24 hours.",
        ),
        (
            Waiting("too late for the shop", needed_by=date(2026, 11, 28)),
            at(23, 11, 30),
            "She must run on 28 Nov, which leaves no day to wait.",
        ),
        (
            Waiting("this very midnight", needed_by=date(2026, 12, 2)),
            at(23, 11, 30),
            "She must run on 2 Dec, which leaves no day to wait.",
        ),
        (
            Waiting("a day that is over", needed_by=date(1, 1, 1)),
            at(23, 11, 30),
            "She must run on 1 Jan, which leaves no day to wait.",
        ),
        (Waiting("a day that never comes", needed_by=date.max), at(25), "Called within 48 hours."),
    ],
    ids=lambda given: given.name if isinstance(given, Waiting) else "",
)
def test_each_case_has_its_moment_and_its_reason(one: Waiting, call_by: datetime, why: str) -> None:
    assert need(one) == CallNeed(call_by, why)


ORDERS: dict[str, list[Waiting]] = {
    "the longer wait": [Waiting("first", at(22)), Waiting("second", at(23))],
    "the dearer cut, asked at the same time": [
        Waiting("dear", at_stake=DEAR),
        Waiting("cheap"),
    ],
    "a long wait before a dear cut": [
        Waiting("waits since Saturday", at(21)),
        Waiting("dear", at_stake=DEAR),
    ],
    "a dear cut before a shorter wait than a day": [
        Waiting("dear", at_stake=DEAR),
        Waiting("cheap, twenty-three hours before", at(22, 11)),
    ],
    "the season before both": [
        Waiting("must run on Thursday week", needed_by=date(2026, 12, 3)),
        Waiting("dear", at_stake=DEAR),
        Waiting("cheap"),
    ],
    "the tighter day": [
        Waiting("28 Nov", needed_by=date(2026, 11, 28)),
        Waiting("3 Dec", needed_by=date(2026, 12, 3)),
        Waiting("4 Dec", needed_by=date(2026, 12, 4)),
    ],
    "two without a day to wait, as they came": [
        Waiting("came first", at(22), date(2026, 11, 30)),
        Waiting("tighter, but came later", at(23), date(2026, 11, 26)),
    ],
}


@pytest.mark.parametrize("name", ORDERS)
def test_the_queue_goes_by_need(name: str) -> None:
    wanted = ORDERS[name]
    as_they_came = wanted[::-1]
    assert sorted(as_they_came, key=lambda one: need(one).call_by) == wanted


def test_a_day_begins_on_the_desks_own_clock() -> None:
    west = timezone(timedelta(hours=-5))
    since = datetime(2026, 11, 23, 22, 0, tzinfo=west)  # the 24th already in Greenwich
    found = need(Waiting("west", since, date(2026, 12, 3)))
    assert found.call_by == datetime(2026, 11, 24, tzinfo=west)


def test_a_call_is_never_wanted_before_it_was_asked_for() -> None:
    for one in (one for row in ORDERS.values() for one in row):
        assert need(one).call_by > one.since


def test_the_limits_move_the_queue() -> None:
    slow = Limits(days_shop_and_road=14, call_within_hours=96)
    assert need(Waiting("plain"), slow).call_by == at(27)
    found = need(Waiting("spring", needed_by=date(2026, 12, 8)), slow)
    assert found.why == "She must run on 8 Dec; 14 days in the shop and on the road."


# --- What is at stake -----------------------------------------------------------------

INCH_BAR = PricedPart("bar", Decimal("3.60"), "in")
METRIC_BAR = PricedPart("bar", Decimal("0.145"), "mm")
COUPLING = PricedPart("coupling", Decimal(118), "each")
BEARINGS = PricedPart("bearing", Decimal("55.50"), "each", 2)
SAW = inches("1/4")


@pytest.mark.parametrize(
    ("parts", "overall", "worth"),
    [
        ([INCH_BAR], inches("49 3/4"), Decimal(180)),  # 50 in exactly
        ([INCH_BAR], inches("49 13/16"), Decimal(184)),  # 51 in begun, 183.60
        ([METRIC_BAR], mm(1200), Decimal(176)),  # 1207 mm begun, 175.015 rounds up
        ([COUPLING, BEARINGS], None, Decimal(229)),
        ([INCH_BAR, COUPLING], inches("49 3/4"), Decimal(298)),
        ([INCH_BAR, COUPLING], None, Decimal(118)),
        ([PricedPart("hardware", Decimal(9), "each")], None, None),
        ([], inches(40), None),
    ],
)
def test_what_would_be_cut_or_sent_wrong_is_counted(
    parts: list[PricedPart], overall: Length | None, worth: Decimal | None
) -> None:
    assert at_stake(parts, overall, SAW) == worth
