"""A price can be explained line by line, and made again in years from what was kept."""

from __future__ import annotations

import json
from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.domain.lengths import Length, inches
from catalog.domain.stock import Stock
from quotes.domain.choice import Choice
from quotes.domain.kept_price import NotKept, again, kept
from quotes.domain.money import to_money
from quotes.domain.order import Order
from quotes.domain.pricing import Priced, price
from quotes.domain.rates import Rates
from quotes.domain.tax import KINDS, NOWHERE, Place, TaxRule
from quotes.domain.terms import DISCOUNT, Terms
from tests.quotes.domain.orders import (
    BEARING,
    COUPLING,
    a_metric_shaft,
    an_inch_shaft,
    an_order,
    s01,
    the_shelf,
)
from tests.quotes.domain.sums import worked_out

SHELF = the_shelf()
_NM = st.integers(min_value=300_000_000, max_value=3_500_000_000)
_SHAFTS = st.one_of(
    st.none(),
    _NM.map(lambda nm: an_inch_shaft(Length(nm))),
    _NM.map(lambda nm: a_metric_shaft(Length(nm))),
    _NM.map(lambda nm: an_inch_shaft(Length(nm), thread="7/8-9", key="5/16")),
)
_ORDERS = st.builds(
    lambda shaft, parts, comes, options: an_order(
        shaft, *parts, coupling_comes=comes, choice=Choice("", frozenset(options))
    ),
    _SHAFTS,
    st.lists(st.sampled_from([COUPLING, BEARING, replace(BEARING, quantity=2)]), unique=True),
    st.booleans(),
    st.sets(st.sampled_from(["rush", "part:KY-1_4", "spare:NT-3_4-10", "long:12.7"])),
)
_PARTS = st.decimals(0, 1, places=4, allow_nan=False, allow_infinity=False)
_RULES = st.lists(
    st.builds(
        TaxRule,
        st.sampled_from(["", "Spain", "Spain/ES", "France"]),
        st.sampled_from(["", "07"]),
        st.sampled_from(KINDS),
        _PARTS,
        st.sampled_from(["", "example"]),
    ),
    max_size=5,
).map(tuple)
_RATES = st.builds(
    lambda rules, currency, least: Rates(
        tax_rules=rules, currency=currency, minimum_order=least, discount_limit=Decimal("0.5")
    ),
    _RULES,
    st.sampled_from(["", "EUR", "JPY", "KWD"]),
    st.decimals(0, 900, places=2, allow_nan=False, allow_infinity=False),
)
_TERMS = st.builds(Terms, st.decimals(0, "0.9", places=4, allow_nan=False, allow_infinity=False))
_PLACES = st.sampled_from([NOWHERE, Place("spain", "07 015"), Place("ES", "28001"), Place("XX")])
_LEFT = st.one_of(st.none(), st.integers(0, 3_000_000_000).map(Length))
_BY_HAND = st.sampled_from([{}, {"NT-7_8-9": Decimal("24.25"), "KY-5_16": Decimal("8.125")}])
_GIVEN = st.tuples(_ORDERS, _RATES, _BY_HAND, _TERMS, _PLACES, _LEFT)


def priced(facts: tuple[Any, ...]) -> Priced:
    order, rates, by_hand, terms, place, left = facts
    return price(order, SHELF, rates, by_hand, terms, place, left)


def kept_as_text(facts: tuple[Any, ...]) -> dict[str, Any]:
    order, rates, by_hand, terms, place, left = facts
    inputs = kept(order, SHELF, rates, terms, by_hand, place, left)
    return json.loads(json.dumps(inputs))  # type: ignore[no-any-return]


@given(_GIVEN)
def test_a_price_is_made_again_from_what_was_kept(facts: tuple[Any, ...]) -> None:
    assert again(kept_as_text(facts)) == priced(facts)


@given(_GIVEN)
def test_every_line_comes_to_what_its_words_say(facts: tuple[Any, ...]) -> None:
    result = priced(facts)
    for line in result.lines:
        if line.amount is None:
            assert line.how.startswith("price to come")
            continue
        said = worked_out(line.how)
        signed = -said if line.code == DISCOUNT else said
        assert line.amount == to_money(signed, result.currency), line


@given(_GIVEN)
def test_sums_are_those_of_what_is_shown(facts: tuple[Any, ...]) -> None:
    result = priced(facts)
    shown = [line.amount for line in result.lines if line.amount is not None]
    assert result.goods == sum(shown)
    assert result.total == result.goods + result.freight + result.tax
    assert result.tax == sum(one.amount for one in result.taxes)
    for one in result.taxes:
        assert one.amount == to_money(one.base * one.rate, result.currency)
    money = [*shown, result.goods, result.freight, result.tax, result.total]
    assert all(to_money(amount, result.currency) == amount for amount in money)


@given(_GIVEN)
def test_what_is_taxed_is_what_is_sold(facts: tuple[Any, ...]) -> None:
    """The bases of all rates are goods, work and, where it is taxed, freight; nothing twice."""
    result = priced(facts)
    kinds = [kind for one in result.taxes for kind in one.kinds]
    assert len(kinds) == len(set(kinds))
    freight = result.freight if "freight" in kinds else Decimal(0)
    assert sum(one.base for one in result.taxes) == result.goods + freight


@given(_GIVEN)
def test_a_discount_is_never_on_freight_and_never_over_the_limit(facts: tuple[Any, ...]) -> None:
    result = priced(facts)
    without = priced((*facts[:3], Terms(), *facts[4:]))
    assert result.freight == without.freight
    off = [line.amount for line in result.lines if line.code == DISCOUNT]
    sold = [line for line in result.lines if line.code not in (DISCOUNT, "MINIMUM")]
    full = sum((line.amount or Decimal(0) for line in sold), Decimal(0))
    assert all(0 <= -(amount or 0) <= to_money(full / 2, result.currency) for amount in off)


def test_only_the_rows_that_were_looked_at_are_kept() -> None:
    codes = {row["code"] for row in kept_as_text(_s01())["price"]["stock"]}
    assert {"BH-1000", "CP40C-1000", "SV-PROP-1", "KY-1_4"} <= codes
    assert not {"BM-1000", "BD-025M", "KY-8x7", "NT-M16x1.5"} & codes


def test_dearer_bars_and_other_rates_change_nothing_that_was_kept() -> None:
    inputs = kept_as_text(_s01())
    before = again(inputs)
    assert str(before.total) == "697.07"
    dear = Stock(tuple(replace(part, price=part.price * 2) for part in SHELF.parts), 2)
    assert price(s01(), dear, Rates()).total > before.total
    assert again(inputs) == before


def test_a_postcode_is_not_kept() -> None:
    rule = TaxRule("Spain", "07", "goods", Decimal("0.21"))
    where = Place("Spain", "07015")
    facts: tuple[Any, ...] = (s01(), Rates(tax_rules=(rule,)), {}, Terms(), where, None)
    inputs = kept_as_text(facts)
    assert "07015" not in json.dumps(inputs)
    assert again(inputs) == priced(facts)


def test_money_and_lengths_are_kept_exactly() -> None:
    inputs = kept_as_text(_s01())["price"]
    assert inputs["order"]["shaft"]["length"] == inches(49).nm
    assert inputs["rates"]["minimum_order"] == "120"
    assert "float" not in {type(value).__name__ for value in _all(inputs)}


def test_an_older_quote_is_not_made_again() -> None:
    with pytest.raises(NotKept, match="older than what we keep"):
        again({})


def _s01() -> tuple[Order, Rates, dict[str, Decimal], Terms, Place, None]:
    return s01(), Rates(), {}, Terms(), NOWHERE, None


def _all(value: Any) -> list[Any]:
    if isinstance(value, dict):
        return [each for one in value.values() for each in _all(one)]
    return [each for one in value for each in _all(one)] if isinstance(value, list) else [value]
