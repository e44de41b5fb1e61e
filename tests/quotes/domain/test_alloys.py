"""Metals side by side: the formula's worked numbers, the whole price, and who may choose what.

Margins: ABYC P-6 formula as published by D. Gerr, Boat Mechanical Systems Handbook, ch. 1 p. 10;
strengths from the published tables named in the catalogue. Relative words: common practice, no
source. Prices are invented.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from catalog.domain.lengths import Length, inches
from catalog.domain.materials import material
from catalog.domain.stock import Kind, Stock, StockPart
from catalog.domain.strength import required_diameter_inches, safety_factor
from intake.domain.history import History
from quotes.domain.alloys import CREVICE, AlloyColumn, alloy_columns
from quotes.domain.order import Order
from quotes.domain.pricing import price
from quotes.domain.rates import Rates
from tests.given import a_body, demo_stock
from tests.quotes.domain.orders import a_metric_shaft, an_inch_shaft, an_order, s01, the_shelf

RATES = Rates()


def driven(power: str, rpm: str, ratio: str = "1:1", **more: Any) -> dict[str, Any]:
    """The body of a sheet with its plates."""
    plates: dict[str, Any] = {
        "engine_power": {"text": power},
        "engine_max_rpm": rpm,
        "gear_ratio": ratio,
    }
    return a_body(**plates, **more)


def columns(
    order: Order | None = None,
    body: dict[str, Any] | None = None,
    stock: Stock | None = None,
    **more: Any,
) -> dict[str, AlloyColumn]:
    found = alloy_columns(order or s01(), body or a_body(), {}, stock or the_shelf(), RATES, **more)
    return {column.alloy: column for column in found}


# --- The margin -------------------------------------------------------------------------


def test_the_worked_margins() -> None:
    """310 hp at 4600 direct on 1 in S20910: 3.24. 60 hp at 1500: 5.45, in S31600 1.56."""
    fast = columns(body=driven("310 hp", "4600"))["S20910"]
    assert fast.safety == Decimal("3.24")
    assert fast.margin == "safety factor 3.24 against torque; pleasure use (assumed) wants 3"
    slow = columns(body=driven("60 hp", "1500"))
    assert (slow["S20910"].safety, slow["S31600"].safety) == (Decimal("5.45"), Decimal("1.56"))


@pytest.mark.parametrize(("size", "expected"), [("1", "2.16"), ("1 1/8", "3.07")])
def test_a_gearbox_takes_its_part_of_the_margin(size: str, expected: str) -> None:
    """The same engine through 1.5:1: 2.16 on 1 in, 3.07 on 1-1/8 in."""
    order = an_order(an_inch_shaft(diameter=inches(size)))
    found = columns(order, driven("310 hp", "4600", "1.5:1"), demo_stock())
    assert found["S20910"].safety == Decimal(expected)


@pytest.mark.parametrize(
    ("power", "factor", "strength", "rpm", "expected", "within"),
    [
        (403, 3, 70_000, 1050, 1.74, 0.005),  # D. Gerr, handbook ch. 1 p. 10
        (42, 3, 20_000, 2000, 1.0, 0.05),  # published worked example (shaft diameter)
    ],
)
def test_published_diameters_have_the_margin_they_were_made_for(
    power: float, factor: float, strength: float, rpm: float, expected: float, within: float
) -> None:
    """T1 and T3 of the published vectors, and back through the formula of the columns."""
    needed = required_diameter_inches(power, factor, strength, rpm)
    assert needed == pytest.approx(expected, abs=within)
    back = safety_factor(Length(round(needed * 25_400_000)), strength, rpm, power)
    assert back == pytest.approx(factor, rel=1e-6)


def test_two_thirds_of_the_yield_is_what_carries() -> None:
    """T12: ABYC P-6 (7/02) extract, 105 ksi -> 70, 60 -> 40; 65 -> 43 common practice."""
    carried = {"S20910": 105, "N04400": 60, "1.4462": 65}
    for alloy, tensile in carried.items():
        known = material(alloy)
        assert known is not None
        assert known.torsional_yield_psi == pytest.approx(tensile * 2000 / 3, rel=0.01)


def test_a_metal_with_a_bar_of_this_size_is_shown() -> None:
    found = columns(an_order(an_inch_shaft(diameter=inches("1 1/4"))), stock=demo_stock())
    assert set(found) == {"S20910", "S31600", "N05500"}


@pytest.mark.parametrize(
    ("left_out", "words"),
    [
        (("engine_power",), "not known: no power given"),
        (("gear_ratio",), "not known: no gearbox ratio given"),
        (
            ("engine_power", "engine_max_rpm", "gear_ratio"),
            "not known: no power and no full engine speed and no gearbox ratio given",
        ),
    ],
)
def test_what_is_missing_is_said(left_out: tuple[str, ...], words: str) -> None:
    body = driven("310 hp", "4600")
    for slug in left_out:
        del body["answers"][slug]
    found = columns(body=body)["S20910"]
    assert (found.margin, found.safety) == (words, None)


# --- The price --------------------------------------------------------------------------


def test_the_plain_metal_is_cheaper_by_its_bar_and_the_tax_on_it() -> None:
    """130.00 instead of 180.00: with tax 53.50 less (the trade's worked price)."""
    found = columns()
    assert found["S20910"].total == Decimal("697.07")
    assert found["S31600"].difference == Decimal("-53.50")
    assert found["S31600"].total == Decimal("643.57")
    bar = price(s01("S31600"), the_shelf(), RATES).lines[0]
    assert str(bar.amount) == "130.00"


def test_each_total_is_the_price_of_that_order() -> None:
    for alloy, column in columns().items():
        assert column.total == price(s01(alloy), the_shelf(), RATES).total


def test_a_price_that_is_to_come_leaves_the_difference() -> None:
    order = an_order(an_inch_shaft(key=""))
    found = columns(order)["S31600"]
    assert (found.total, found.difference) == (None, Decimal("-53.50"))
    by_hand = {"KEY": Decimal(7)}
    assert columns(order, by_hand=by_hand)["S31600"].total is not None


# --- Which, and who may choose ----------------------------------------------------------


def test_the_chosen_one_stands_first_and_none_is_without_a_bar() -> None:
    assert list(columns(s01("S31600"))) == ["S31600", "S20910"]
    assert list(columns(an_order(a_metric_shaft()))) == ["1.4462", "1.4401"]
    assert columns(an_order(None)) == {}


def test_never_more_than_three() -> None:
    more = [
        StockPart(f"B-{alloy}", Kind.BAR, "inch", inches(1), "", Decimal(9), "in", None, 1, alloy)
        for alloy in ("S17400", "N05500", "C46400")
    ]
    assert len(columns(stock=Stock((*the_shelf().parts, *more)))) == 3


def test_a_bar_that_is_too_short_is_no_choice() -> None:
    parts = [
        replace(part, stock_length=inches(48)) if part.code == "BM-1000" else part
        for part in the_shelf().parts
    ]
    assert list(columns(stock=Stock(tuple(parts)))) == ["S20910"]


def test_plain_stainless_never_stands_without_its_caution() -> None:
    found = columns()
    assert found["S31600"].caution == CREVICE
    assert found["S20910"].caution == ""
    assert columns(an_order(a_metric_shaft()))["1.4401"].caution == CREVICE


def test_a_margin_that_would_stop_is_shown_and_not_to_be_chosen() -> None:
    weak = columns(body=driven("60 hp", "1500"))["S31600"]
    assert weak.total is not None
    assert (weak.choosable, weak.by_staff) == (False, False)
    assert "1.56" in weak.barred


def test_a_margin_that_would_be_asked_about_is_for_staff_who_have_asked() -> None:
    """45 hp at 1500: 2.08, between 2 (which stops) and 3 (which is wanted)."""
    found = columns(body=driven("45 hp", "1500"))["S31600"]
    assert found.safety == Decimal("2.08")
    assert (found.choosable, found.by_staff) == (False, True)
    assert found.barred.startswith("Ring us")


def test_what_is_ordered_stays_choosable() -> None:
    mine = columns(s01("S31600"), driven("60 hp", "1500"))["S31600"]
    assert mine.choosable
    assert mine.chosen


def test_no_nickel_copper_in_an_aluminium_hull() -> None:
    """Common practice (galvanic pairing)."""
    order = an_order(an_inch_shaft(diameter=inches("1 1/4")))
    body = a_body(hull_material={"hull": "aluminium"})
    found = columns(order, body, demo_stock())["N05500"]
    assert (found.choosable, found.by_staff) == (False, False)
    assert "aluminium" in found.barred
    assert columns(order, stock=demo_stock())["N05500"].choosable


def test_no_weaker_metal_than_the_last_one_we_sent() -> None:
    last = History(last_diameter=inches(1), last_alloy="S20910")
    assert not columns(history=last)["S31600"].by_staff


def test_passengers_want_more() -> None:
    body = {**driven("60 hp", "1500"), "use": "passenger"}
    found = columns(body=body)["S20910"]
    assert found.wanted == Decimal("7.50")
    assert found.margin == "safety factor 5.45 against torque; passenger use wants 7.5"


def test_what_is_not_on_the_shelf_says_so() -> None:
    parts = [
        replace(part, on_hand=0) if part.code == "BM-1000" else part for part in the_shelf().parts
    ]
    found = columns(stock=Stock(tuple(parts)))
    assert (found["S20910"].in_stock, found["S20910"].stock) == (True, "in stock")
    assert found["S31600"].stock == "to be ordered, about 25 working days"


def test_where_a_strength_comes_from_is_said() -> None:
    found = columns()
    assert "verify per bar certificate" in found["S20910"].sure
    assert "from memory" in found["S31600"].sure
    assert "from memory" not in found["S20910"].sure
