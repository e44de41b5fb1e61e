"""``needed-by``, ``price-outlier``, ``quote-expired``: what each accepts, and what it questions,
and what the desk sees of them.

Rule and numbers: the desk's own list of checks (common practice, no source; 0.7, 1.5 invented).
"""

from __future__ import annotations

from datetime import date, timedelta
from decimal import Decimal

import pytest
from django.utils import timezone
from hypothesis import given
from hypothesis import strategies as st

from catalog.domain.lengths import inches, mm
from catalog.models import Part
from intake.domain.verdict import Severity
from quotes.checks import ALL
from quotes.checks.prices import (
    AgeFacts,
    NeedFacts,
    PriceFacts,
    in_time,
    priced_as_usual,
    still_holds,
)
from quotes.domain.order import Shaft
from quotes.domain.price_model import ENOUGH, BarPrice, expected, of_catalogue
from quotes.findings.selectors import findings_of
from quotes.models import Quote
from tests.given import demo_stock
from tests.quotes.given import a_quote, stock_the_shelf

DAY = date(2026, 12, 10)
CENT = Decimal("0.01")


def test_they_are_notes_with_an_open_question() -> None:
    for check in (in_time, priced_as_usual, still_holds):
        assert check in ALL
        assert check.severity == Severity.NOTE
        assert check.ask.endswith("?")
        assert check.source
        assert check.why


def test_the_last_day_that_is_in_time_and_the_first_that_is_not() -> None:
    """Three days on the road and two to fit it: left on the 10th, in the boat on the 15th."""
    assert in_time.found(NeedFacts(date(2026, 12, 15), DAY)) == ()
    (found,) = in_time.found(NeedFacts(date(2026, 12, 14), DAY))
    assert "1 day late" in found.message
    assert in_time.found(NeedFacts(None, DAY)) == in_time.found(NeedFacts(DAY, None)) == ()


def test_seven_tenths_to_one_and_a_half_is_as_usual() -> None:
    for amount in ("70.00", "150.00"):
        assert priced_as_usual.found(PriceFacts("BH-1000", Decimal(amount), Decimal(100))) == ()
    for amount in ("69.99", "150.01"):
        (found,) = priced_as_usual.found(PriceFacts("BH-1000", Decimal(amount), Decimal(100)))
        assert "BH-1000" in found.message
    assert priced_as_usual.found(PriceFacts("X", Decimal(9), None)) == ()


def aged(days: int, then: str = "3.60", now: str = "3.60") -> AgeFacts:
    return AgeFacts(DAY, DAY + timedelta(days=days), 30, Decimal(then), Decimal(now))


def test_thirty_days_and_five_per_cent_hold_and_a_little_more_does_not() -> None:
    assert still_holds.found(aged(30, now="3.78")) == still_holds.found(aged(0, now="3.42")) == ()
    (old,) = still_holds.found(aged(31))
    assert "held until 2027-01-09" in old.message
    (dearer,) = still_holds.found(aged(1, now="3.79"))
    assert "up by 5.3 %" in dearer.message
    (cheaper,) = still_holds.found(aged(1, now="3.40"))
    assert "down by 5.6 %" in cheaper.message


# --- The model ---------------------------------------------------------------------------


def shaft_of(bar: BarPrice) -> Shaft:
    size = inches(40)
    return Shaft("inch", bar.diameter, bar.alloy, "", size, size, "straight", "", "")


LISTED = of_catalogue(demo_stock().parts)


@pytest.mark.parametrize("bar", LISTED, ids=lambda bar: f"{bar.alloy} {bar.diameter.inch_text}")
def test_no_row_of_the_demo_catalogue_is_an_outlier_and_ten_times_each_is(bar: BarPrice) -> None:
    per = inches(1) if bar.per == "in" else mm(1)
    usual = expected(shaft_of(bar), per, [], LISTED)
    assert priced_as_usual.found(PriceFacts("row", bar.price, usual)) == ()
    assert priced_as_usual.found(PriceFacts("row", bar.price * 10, usual)) != ()
    assert priced_as_usual.found(PriceFacts("row", bar.price / 10, usual)) != ()


@given(st.integers(1, 60), st.integers(1, 60))
def test_twice_as_long_costs_twice_as_much(length: int, diameter: int) -> None:
    bar = BarPrice("S20910", inches(f"{diameter}/16"), Decimal("3.60"), "in")
    one, two = (expected(shaft_of(bar), inches(n), [], [bar]) for n in (length, 2 * length))
    assert one is not None
    assert two is not None
    assert abs(two - 2 * one) < CENT


def test_a_years_quotes_speak_before_the_catalogue_once_there_are_enough() -> None:
    listed = BarPrice("S20910", inches(1), Decimal(3), "in")
    quoted = BarPrice("S20910", inches(1), Decimal(6), "in")
    for count, usual in ((ENOUGH - 1, 30), (ENOUGH, 60)):
        assert expected(shaft_of(listed), inches(10), [quoted] * count, [listed]) == usual
    assert (
        expected(shaft_of(BarPrice("C46400", inches(1), CENT, "in")), mm(9), [], [listed]) is None
    )


# --- What the desk sees ------------------------------------------------------------------


@pytest.fixture
def quote(db: None) -> Quote:
    stock_the_shelf()
    return a_quote()


def test_a_usual_quote_has_no_finding(quote: Quote) -> None:
    assert findings_of(quote) == ()


def test_a_day_that_is_too_early_is_found(db: None) -> None:
    stock_the_shelf()
    soon = (timezone.localdate() + timedelta(days=4)).isoformat()
    late = a_quote(needed_by={"run": soon})
    assert [one.check for one in findings_of(late)] == ["needed-by"]


def test_a_wrong_row_and_a_price_that_moved_are_found(quote: Quote) -> None:
    lines = [dict(line) for line in quote.lines]
    lines[0]["amount"] = str(Decimal(lines[0]["amount"]) * 3)
    lines[0]["unit_price"] = str(Decimal(lines[0]["unit_price"]) * 3)
    Quote.objects.filter(pk=quote.pk).update(lines=lines)
    dear = Quote.objects.select_related("submission", "sheet").get(pk=quote.pk)
    assert [one.check for one in findings_of(dear)] == ["price-outlier", "quote-expired"]


def test_an_old_quote_is_found(quote: Quote) -> None:
    long_ago = timezone.now() - timedelta(days=40)
    until = timezone.localdate() - timedelta(days=10)
    Quote.objects.filter(pk=quote.pk).update(issued_at=long_ago, valid_until=until)
    old = Quote.objects.select_related("submission", "sheet").get(pk=quote.pk)
    assert [one.check for one in findings_of(old)] == ["quote-expired"]
    assert Part.objects.filter(code=old.lines[0]["code"]).exists()
