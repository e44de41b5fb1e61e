"""A customer's discount and deposit."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.domain.lengths import Length, inches
from quotes.domain.pricing import price
from quotes.domain.rates import Rates
from quotes.domain.terms import NO_TERMS, Terms, deposit, deposit_words, shared
from tests.quotes.domain.orders import (
    BEARING,
    a_metric_shaft,
    an_order,
    s01,
    the_shelf,
)

SHELF = the_shelf()


def test_the_discount_is_a_line_of_its_own_before_tax() -> None:
    """613.15 less 10 %: 551.83 (61.32 half up); tax 7 % of that 38.63; freight stays 41.00."""
    result = price(s01(), SHELF, Rates(), terms=Terms(Decimal("0.10")))
    line = result.lines[-1]
    assert (line.code, line.how, str(line.amount)) == ("DISCOUNT", "10 % of 613.15", "-61.32")
    assert (str(result.goods), str(result.tax), str(result.freight), str(result.total)) == (
        "551.83", "38.63", "41.00", "631.46",
    )  # fmt: skip


def test_a_limit_that_came_down_holds_for_old_terms_too() -> None:
    rates = Rates(discount_limit=Decimal("0.05"))
    result = price(s01(), SHELF, rates, terms=Terms(Decimal("0.10")))
    assert result.lines[-1].how == "5 % of 613.15"


def test_the_least_we_send_is_the_least_after_the_discount() -> None:
    result = price(an_order(None, BEARING), SHELF, Rates(), terms=Terms(Decimal("0.10")))
    assert [line.how for line in result.lines] == ["38.00", "10 % of 38.00", "120.00 − 34.20"]
    assert result.goods == 120


def test_nothing_is_taken_off_nothing() -> None:
    assert price(s01(), SHELF, Rates(), terms=NO_TERMS).lines[-1].code != "DISCOUNT"
    empty = price(an_order(None, wants=frozenset({"bearing"})), SHELF, Rates(),
                  terms=Terms(Decimal("0.10")))  # fmt: skip
    assert [line.code for line in empty.lines] == ["BEARING"]


_MONEY = st.decimals(0, 100_000, places=2, allow_nan=False, allow_infinity=False)


@given(_MONEY, _MONEY, _MONEY)
def test_a_discount_is_parted_without_losing_a_cent(
    off: Decimal, goods: Decimal, work: Decimal
) -> None:
    parts = shared(-off, {"goods": goods, "work": work})
    assert sum(parts.values()) == -off


@pytest.mark.parametrize(
    ("total", "due"), [("500.00", "0"), ("500.01", "250.01"), ("697.07", "348.54")]
)
def test_a_deposit_is_due_over_the_limit(total: str, due: str) -> None:
    assert deposit(Decimal(total), NO_TERMS, Rates()) == Decimal(due)


def test_a_customers_own_deposit_goes_before_the_usual_one() -> None:
    own = Terms(Decimal(0), Decimal(0), Decimal(100))
    assert deposit(Decimal(900), own, Rates()) == 0
    assert deposit_words(own, Rates()) == ""
    assert deposit_words(NO_TERMS, Rates()) == "An order over 500 needs a deposit of 50 %."


# --- What is left of the bar (trade sum: half rate for a remnant under 24 in) --------------


@pytest.mark.parametrize(
    ("left", "how", "amount"),
    [
        (inches("23 63/64"), "23.9844 in left × 3.60 × 0.5", "43.17"),
        (inches(24), None, None),
        (inches(20), "20 in left × 3.60 × 0.5", "36.00"),
        (inches("1/2"), "0.5 in left × 3.60 × 0.5", "0.90"),
        (Length(0), None, None),
        (inches(-3), None, None),
        (None, None, None),
    ],
)
def test_what_nobody_can_use_is_charged_in_part(
    left: Length | None, how: str | None, amount: str | None
) -> None:
    lines = {line.code: line for line in price(s01(), SHELF, Rates(), left_over=left).lines}
    if how is None:
        assert "DROP" not in lines
        return
    assert str(lines["DROP"].amount) == amount
    assert lines["DROP"].how.replace("≈", "").startswith(how)
    assert lines["DROP"].text == "Left of the bar, under 24 in"


def test_a_metric_bar_is_charged_by_the_millimetre() -> None:
    result = price(an_order(a_metric_shaft()), SHELF, Rates(), left_over=Length(500_000_000))
    assert result.lines[1].how == "500 mm left × 0.145 × 0.5"
    assert str(result.lines[1].amount) == "36.25"


def test_a_bar_without_a_price_has_no_price_for_its_rest() -> None:
    order = s01("N05500")
    lines = price(order, SHELF, Rates(), left_over=inches(10)).lines
    assert "DROP" not in {line.code for line in lines}
