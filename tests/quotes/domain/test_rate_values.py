"""Rates as they are typed, kept, shown and read back."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.domain.rate_fields import FIELDS, value_of
from quotes.domain.rate_values import (
    RateErrors,
    as_text,
    from_text,
    rates_from,
    read_changes,
    shown,
)
from quotes.domain.rates import Rates
from quotes.domain.tax import TaxRule

USUAL = Rates()


@pytest.mark.parametrize("name", FIELDS)
def test_every_rate_is_kept_and_read_back_exactly(name: str) -> None:
    field, value = FIELDS[name], value_of(USUAL, name)
    assert from_text(field, as_text(field, value)) == value
    assert shown(field, value)


def test_every_rate_but_the_shops_name_and_currency_is_on_the_page() -> None:
    named = {name.partition(".")[0] for name in FIELDS}
    assert set(Rates.__dataclass_fields__) - named == {"name", "currency", "numbers"}


@pytest.mark.parametrize(
    ("name", "typed", "kept"),
    [
        ("rush_rate", "30 %", "0.3"),
        ("rush_rate", "12,5", "0.125"),
        ("minimum_order", "150", "150"),
        ("drop_under_in", "18 in", "18"),
        ("saw_mm", "8mm", "8"),
        ("validity_days", "45 days", "45"),
        ("lead_days.bar", "9", "9"),
        ("freight_classes", "60: 30\r\nOver: 99,50", "60: 30.00\nover: 99.50"),
        ("tax_rules", "Spain/ES;07;Goods;21 %;islands", "Spain/ES; 07; goods; 21 %; islands"),
        ("tax_rules", "; ; freight; 0", "; ; freight; 0 %"),
    ],
)
def test_what_is_typed_is_kept_exactly(name: str, typed: str, kept: str) -> None:
    values = read_changes({name: typed}, USUAL)
    assert {name: from_text(FIELDS[name], text) for name, text in values.items()} == {
        name: from_text(FIELDS[name], kept)
    }


@pytest.mark.parametrize(
    ("name", "typed", "said"),
    [
        ("rush_rate", "lots", "plain number"),
        ("rush_rate", "-5", "plain number"),
        ("discount_limit", "61", "between 0 and 60 %"),
        ("validity_days", "0", "between 1 and 365 days"),
        ("validity_days", "2.5", "whole number"),
        ("drop_under_in", "20 mm", "plain number"),
        ("freight_classes", "48: 22", '"over"'),
        ("freight_classes", "", None),
        ("freight_classes", "48: 22\nover: 20", "less than a smaller"),
        ("freight_classes", "48: 22\n40: 30\nover: 40", "further than the one before"),
        ("freight_classes", "48 22\nover: 40", "Line 1"),
        ("freight_classes", "over: 40\nover: 50", "last line"),
        ("tax_rules", "Spain; ; goods", "Line 1"),
        ("tax_rules", "Spain; ; sweets; 4", "goods, work, freight"),
        ("tax_rules", "; 07; goods; 4", "needs its country"),
        ("tax_rules", "Spain; ; goods; 101", "100 per cent"),
        ("tax_rules", "Spain; ; goods; 4\nES/spain; ; goods; 5", "speak of the same"),
    ],
)
def test_what_cannot_be_taken_is_said_beside_its_box(
    name: str, typed: str, said: str | None
) -> None:
    if said is None:
        assert read_changes({name: typed}, USUAL) == {}
        return
    with pytest.raises(RateErrors) as refused:
        read_changes({name: typed, "saw_in": "0.3"}, USUAL)
    assert list(refused.value.errors) == [name]
    assert said in refused.value.errors[name]


def test_what_is_as_it_was_is_no_change() -> None:
    typed = {name: shown(field, value_of(USUAL, name)) for name, field in FIELDS.items()}
    typed["tax_rules"] = ""
    assert read_changes(typed, USUAL) == {}


def test_a_table_left_as_it_stood_does_not_take_back_one_to_come() -> None:
    later = replace(USUAL, tax_rules=(TaxRule("", "", "freight", Decimal("0.05")),))
    assert read_changes({"tax_rules": ""}, later, USUAL) == {}
    emptied = read_changes({"tax_rules": ""}, later, later)
    assert emptied == {"tax_rules": ""}


def test_sets_lie_over_each_other_and_each_changes_what_it_names() -> None:
    sets = [(1, {"rush_rate": "0.3", "lead_days.bar": "9"}), (3, {"rush_rate": "0.4", "gone": "1"})]
    rates = rates_from(USUAL, sets)
    assert (rates.rush_rate, rates.lead_days["bar"], rates.numbers) == (Decimal("0.4"), 9, (1, 3))
    assert rates.lead_days["blank"] == USUAL.lead_days["blank"]
    assert USUAL.lead_days["bar"] == 8


@given(st.decimals(0, "0.6", places=6, allow_nan=False, allow_infinity=False))
def test_a_share_typed_as_per_cent_is_the_share(part: Decimal) -> None:
    text = f"{part * 100:.4f}"
    values = read_changes({"discount_limit": text}, USUAL)
    kept = Decimal(values.get("discount_limit", "0.15"))
    assert kept == Decimal(text) / 100
