"""Freight: the dearest of length, weight, and length and girth."""

from __future__ import annotations

import doctest
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.domain.lengths import Length, inches, mm
from catalog.domain.materials import material
from catalog.domain.units import shaft_mass
from quotes.domain import freight, lifecycle, money, order
from quotes.domain.freight import Parcel, freight_class, freight_for, shaft_pounds
from quotes.domain.pricing import price
from quotes.domain.rates import Rates
from tests.quotes.domain.orders import a_metric_shaft, an_inch_shaft, an_order, the_shelf

SMALL = Parcel(inches(53), inches(3), Decimal("11.0"), "inch")


@pytest.mark.parametrize("module", [freight, lifecycle, money, order])
def test_the_examples_in_the_words_hold(module: object) -> None:
    assert doctest.testmod(module).failed == 0  # type: ignore[arg-type]


def test_classes_without_an_end_are_refused() -> None:
    with pytest.raises(ValueError, match="stop short"):
        freight_class(inches(50), ())


def test_the_worked_example_goes_by_its_length() -> None:
    """Trade sum of S01: tube 53 in, 41.00."""
    assert freight_for(SMALL, Rates()) == ("Freight, tube 53 in (48–72 in class)", Decimal(41))


@pytest.mark.parametrize(
    ("pounds", "cost"), [("50", 41), ("50.01", 68), ("70", 68), ("150", 110), ("150.1", 190)]
)
def test_a_heavy_shaft_pays_by_its_weight(pounds: str, cost: int) -> None:
    words, price = freight_for(replace(SMALL, pounds=Decimal(pounds)), Rates())
    assert price == cost
    assert ("weight" in words) == (cost > 41)


def test_the_class_says_the_weight_as_it_is_counted() -> None:
    words, _cost = freight_for(replace(SMALL, pounds=Decimal("62.3")), Rates())
    assert words == "Freight, tube 53 in, weight 63 lb (50–70 lb class)"


@pytest.mark.parametrize(("across", "cost"), [("7", 41), ("7 1/8", 68), ("20", 150)])
def test_a_wide_tube_pays_by_length_and_girth(across: str, cost: int) -> None:
    """53 in long; 7 in across: girth 28, together 81; 7 1/8 in counts as 8: 85. 20 in: 133."""
    words, price = freight_for(replace(SMALL, across=inches(across)), Rates())
    assert price == cost
    assert ("girth" in words) == (cost > 41)


def test_a_metric_shaft_has_metric_classes() -> None:
    parcel = Parcel(mm("1219.5"), mm(76), Decimal(5), "mm")
    assert freight_for(parcel, Rates()) == ("Freight, tube 1219.5 mm (up to 1220 mm)", Decimal(22))
    heavy = freight_for(replace(parcel, pounds=Decimal(60)), Rates())
    assert heavy == ("Freight, tube 1219.5 mm, weight 28 kg (23–31 kg class)", Decimal(68))


@pytest.mark.parametrize("alloy", ["S20910", "S31600", "N05500", "C46400", "1.4401"])
def test_weight_is_that_of_the_table_of_materials(alloy: str) -> None:
    known = material(alloy)
    assert known is not None
    by_units = shaft_mass(inches("1 1/2"), inches(80), known.density_lb_in3)
    assert abs(shaft_pounds(inches("1 1/2"), inches(80), alloy) - by_units) < Decimal("0.0001")


def test_stainless_weighs_0_2238_d_squared_l() -> None:
    """pi/4 × 0.285 lb/in³, the published shaft material table; S01 of the trade weighs 11.0."""
    assert round(shaft_pounds(inches(1), inches(1), "S20910"), 4) == Decimal("0.2238")
    assert round(shaft_pounds(inches(1), inches(49), "S20910"), 1) == Decimal("11.0")


def test_an_alloy_no_table_knows_weighs_as_stainless() -> None:
    args = inches(1), inches(49)
    assert shaft_pounds(*args, "X1") == shaft_pounds(*args, "S20910")


@given(st.integers(300_000_000, 9_000_000_000), st.booleans())
def test_the_words_fit_where_a_quote_keeps_them(nm: int, metric: bool) -> None:
    shaft = (a_metric_shaft if metric else an_inch_shaft)(Length(nm))
    assert len(price(an_order(shaft), the_shelf(), Rates()).freight_words) <= 80


@given(st.integers(300_000_000, 9_000_000_000), st.integers(0, 300))
def test_a_true_weight_is_never_below_a_dimensional_one(nm: int, thicker: int) -> None:
    """Why dimensional weight is not asked: from 5/8 in on, a bar outweighs the space of its tube.

    Length × width × height ÷ 139 in³/lb: the form seen, the divisor from memory.
    """
    diameter, length = inches("5/8") + Length(thicker * 254_000), Length(nm)
    across = (diameter + inches(2)).in_inches
    space = (length + inches(4)).in_inches * across**2 / 139
    assert shaft_pounds(diameter, length, "S20910") > space
