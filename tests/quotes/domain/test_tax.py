"""Tax by place and kind of line. All rates here are invented."""

from __future__ import annotations

import doctest
from decimal import Decimal

import pytest

from quotes.domain import currency, exact_json, shaft_lines, tax, terms
from quotes.domain.pricing import price
from quotes.domain.rates import Rates
from quotes.domain.tax import (
    DUTY,
    NOWHERE,
    Place,
    TaxRule,
    place_of,
    rule_for,
    tax_rows,
)
from tests.quotes.domain.orders import s01, the_shelf

_RULES = (
    TaxRule("", "", "freight", Decimal("0.01")),
    TaxRule("Spain/España/ES", "", "goods", Decimal("0.20")),
    TaxRule("Spain/España/ES", "", "work", Decimal("0.10")),
    TaxRule("Spain/España/ES", "35", "goods", Decimal(0), "no tax of ours on islands"),
)


@pytest.mark.parametrize("module", [tax, terms, currency, exact_json, shaft_lines])
def test_the_examples_in_the_words_hold(module: object) -> None:
    assert doctest.testmod(module).failed == 0  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("country", "postcode", "kind", "rate"),
    [
        ("spain", "28001", "goods", "0.20"),
        ("ESPAÑA ", "28001", "work", "0.10"),
        ("es", "35 001", "goods", "0"),
        ("es", "35001", "work", "0.10"),
        ("Portugal", "35001", "freight", "0.01"),
        ("", "", "freight", "0.01"),
    ],
)
def test_the_rule_that_names_the_place_most_closely_wins(
    country: str, postcode: str, kind: str, rate: str
) -> None:
    found = rule_for(_RULES, Place(country, postcode), kind)
    assert found is not None
    assert found.rate == Decimal(rate)


def test_nothing_is_taxed_that_no_rule_speaks_of() -> None:
    assert rule_for(_RULES, Place("Portugal"), "goods") is None


def test_where_no_place_is_named_the_worked_example_holds() -> None:
    result = price(s01(), the_shelf(), Rates())
    assert (result.tax, result.total) == (Decimal("42.92"), Decimal("697.07"))
    assert tax_rows(result.taxes) == (("Tax 7 % on goods and work", "42.92"),)


def test_each_rate_is_rounded_once_over_all_it_is_taken_of() -> None:
    """Goods 387.95 at 20 %, work 225.20 + 21.95 at 10 %, freight at 1 %: by hand."""
    rates = Rates(tax_rules=_RULES)
    result = price(s01(), the_shelf(), rates, place=Place("Spain", "08001"))
    assert [(one.rate, one.base, one.amount) for one in result.taxes] == [
        (Decimal("0.20"), Decimal("366.00"), Decimal("73.20")),
        (Decimal("0.10"), Decimal("247.15"), Decimal("24.72")),
        (Decimal("0.01"), Decimal("41.00"), Decimal("0.41")),
    ]
    assert result.tax == Decimal("98.33")
    assert [label for label, _amount in tax_rows(result.taxes)] == [
        "Tax 20 % on goods, of 366.00",
        "Tax 10 % on work, of 247.15",
        "Tax 1 % on freight, of 41.00",
    ]


def test_a_rule_for_everywhere_takes_the_place_of_the_usual_rate() -> None:
    rates = Rates(tax_rules=(TaxRule("", "", "goods", Decimal("0.5")),))
    result = price(s01(), the_shelf(), rates)
    assert {one.kinds: one.rate for one in result.taxes} == {
        ("goods",): Decimal("0.5"),
        ("work",): Decimal("0.07"),
    }


@pytest.mark.parametrize(
    "body", [{}, {"answers": None}, {"answers": {"ship_to": "home"}}, {"answers": {"ship_to": {}}}]
)
def test_a_request_that_says_no_place_goes_nowhere(body: dict[str, object]) -> None:
    assert place_of(body) == NOWHERE


def test_it_is_said_whose_duty_the_rates_are() -> None:
    assert "set by the desk" in DUTY
    assert "receiver's" in DUTY
