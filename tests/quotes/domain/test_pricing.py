"""Prices: the trade's worked example to the cent, and what holds for every order."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from catalog.domain.lengths import Length, inches, mm
from catalog.domain.stock import Stock
from quotes.domain.money import to_money
from quotes.domain.order import Wanted
from quotes.domain.pricing import Priced, price
from quotes.domain.rates import Rates
from tests.quotes.domain.orders import (
    BEARING,
    COUPLING,
    a_metric_shaft,
    an_inch_shaft,
    an_order,
    s01,
    the_shelf,
)

SHELF, RATES = the_shelf(), Rates()


def priced(order: object, **by_hand: Decimal) -> Priced:
    return price(order, SHELF, RATES, by_hand)  # type: ignore[arg-type]


def amounts(result: Priced) -> dict[str, Decimal | None]:
    return {line.code: line.amount for line in result.lines}


def test_the_worked_price_comes_out_to_the_cent() -> None:
    result = priced(s01())
    assert [str(line.amount) for line in result.lines] == [
        "180.00", "92.00", "44.00", "24.20", "65.00", "118.00", "38.00", "18.00", "12.00", "21.95",
    ]  # fmt: skip
    assert (result.goods, result.freight, result.tax, result.total) == (
        Decimal("613.15"),
        Decimal("41.00"),
        Decimal("42.92"),
        Decimal("697.07"),
    )
    assert result.complete


def test_each_line_says_how() -> None:
    how = {line.code: line.how for line in priced(s01()).lines}
    assert how["BH-1000"] == "50 in × 3.60"
    assert how["SV-STRAIGHT"] == "24.00 to 48 in + 1 in over × 0.20"
    assert how["SV-TUBE"] == "14.00 + 53 in × 0.15"
    assert how["KY-1_4"] == "2 × 6.00"


def test_the_cheaper_alloy_lowers_the_total_by_its_bar_and_the_tax_on_it() -> None:
    assert priced(s01("S31600")).total - priced(s01()).total == Decimal("-53.50")


def test_one_metal_under_two_names_is_one_bar() -> None:
    assert "BM-1000" in amounts(priced(s01("1.4401")))


@pytest.mark.parametrize(
    ("overall", "charged"),
    [("49", "50"), ("49 3/4", "50"), ("49 49/64", "51"), ("49 5/16", "50")],
)
def test_a_bar_is_charged_to_the_next_inch(overall: str, charged: str) -> None:
    shaft = an_inch_shaft(overall=inches(overall))
    assert priced(an_order(shaft)).lines[0].how == f"{charged} in × 3.60"


@pytest.mark.parametrize(("overall", "charged"), [("954", "960"), ("955", "970"), ("950", "960")])
def test_a_metric_bar_is_charged_to_the_next_ten_millimetres(overall: str, charged: str) -> None:
    shaft = a_metric_shaft(overall=mm(overall))
    assert priced(an_order(shaft)).lines[0].how == f"{charged} mm × 0.145"


def test_a_metric_tube_says_how_its_inches_came_about() -> None:
    tube = priced(an_order(a_metric_shaft())).lines[-1]
    assert tube.text == "Tube and end caps, 1051.6 mm"
    assert tube.how == "14.00 + ≈41.4016 in × 0.15 (1051.6 mm ÷ 25.4)"
    assert tube.amount == Decimal("20.21")


def test_a_long_metric_shaft_pays_straightening_by_the_inch() -> None:
    line = priced(an_order(a_metric_shaft(mm(1500)))).lines[3]
    assert line.amount == to_money(24 + (Decimal(1500) / Decimal("25.4") - 48) * Decimal("0.2"))
    assert "(1500 mm ÷ 25.4)" in line.how


def test_a_pass_through_goes_by_its_overall_length() -> None:
    through = an_inch_shaft(layout="pass_through", overall=inches(60))
    how = {line.code: line.how for line in priced(an_order(through)).lines}
    assert how["SV-STRAIGHT"] == "24.00 to 48 in + 12 in over × 0.20"
    assert how["SV-TUBE"] == "14.00 + 64 in × 0.15"


def test_a_tapered_forward_end_costs_its_own_price() -> None:
    assert amounts(priced(an_order(an_inch_shaft(forward_end="tapered"))))["SV-FWD-TAP-1"] == 98


@pytest.mark.parametrize("size", ["1 1/8", "1 1/4"])
def test_work_is_priced_by_the_step_that_reaches_the_diameter(size: str) -> None:
    assert amounts(priced(an_order(an_inch_shaft(diameter=inches(size)))))["SV-PROP-1-1_4"] == 108


def test_fit_and_face_needs_the_coupling_here() -> None:
    alone = an_order(an_inch_shaft())
    assert "SV-FIT-1" not in amounts(priced(alone))
    assert "SV-FIT-1" in amounts(priced(replace(alone, coupling_comes=True)))


def test_bearings_are_counted() -> None:
    pair = an_order(an_inch_shaft(), replace(BEARING, quantity=2))
    assert amounts(priced(pair))["BR-1000-1250-2"] == 76


@pytest.mark.parametrize(
    ("length", "freight"), [("44", "22.00"), ("44 1/8", "41.00"), ("45 1/2", "41.00"),
                            ("68", "41.00"), ("92", "68.00"), ("104", "110.00"), ("105", "190.00")],
)  # fmt: skip
def test_freight_goes_by_the_tube(length: str, freight: str) -> None:
    assert str(priced(an_order(an_inch_shaft(inches(length)))).freight) == freight


def test_a_small_order_is_made_up_to_the_minimum() -> None:
    result = priced(an_order(None, BEARING))
    assert result.goods == 120
    assert result.lines[-1].how == "120.00 − 38.00"
    assert result.total == Decimal("120.00") + Decimal("22.00") + Decimal("8.40")


def test_what_is_missing_is_shown_and_left_out_of_the_sum() -> None:
    order = an_order(an_inch_shaft(thread="7/8-9", key="5/16"), COUPLING)
    result = priced(order)
    assert [missing.code for missing in result.missing] == ["NT-7_8-9", "KY-5_16"]
    unpriced = [line for line in result.lines if line.amount is None]
    assert [line.text for line in unpriced] == ["Propeller nut 7/8-9", "Keys 5/16, two"]
    assert all("price to come" in line.how for line in unpriced)


def test_a_price_by_hand_completes_the_quote() -> None:
    order = an_order(an_inch_shaft(thread="7/8-9", key="5/16"), COUPLING)
    result = priced(order, **{"NT-7_8-9": Decimal("24"), "KY-5_16": Decimal("8")})
    assert result.complete
    assert amounts(result)["KY-5_16"] == 16
    assert result.lines[-2].how == "2 each × 8.00, priced by hand"


@pytest.mark.parametrize(
    "order",
    [
        an_order(an_inch_shaft(alloy="N05500")),
        an_order(an_inch_shaft(inches(150))),
        an_order(an_inch_shaft(thread="")),
        an_order(an_inch_shaft(key="")),
        an_order(None, wants=frozenset({"shaft"})),
        an_order(None, wants=frozenset({"bearing"}), bearing_count=2),
        an_order(None, Wanted("CP-GONE", "coupling", 1)),
    ],
)
def test_nothing_that_is_wanted_falls_off_the_quote(order: object) -> None:
    result = priced(order)
    assert len(result.missing) == 1
    assert not result.complete


def test_an_empty_catalogue_still_gives_every_line() -> None:
    result = price(s01(), Stock(), RATES)
    assert len(result.missing) == len(result.lines) == 10
    assert result.goods == 0


_NM = st.integers(min_value=300_000_000, max_value=3_500_000_000)
_SHAFTS = st.one_of(
    _NM.map(lambda nm: an_inch_shaft(Length(nm))), _NM.map(lambda nm: a_metric_shaft(Length(nm)))
)
_PARTS = st.lists(st.sampled_from([COUPLING, BEARING]), unique=True)


@given(_SHAFTS, _PARTS, st.booleans())
def test_the_total_is_the_sum_of_what_is_shown(
    shaft: object, parts: list[Wanted], comes: bool
) -> None:
    result = priced(an_order(shaft, *parts, coupling_comes=comes))  # type: ignore[arg-type]
    shown = [line.amount for line in result.lines if line.amount is not None]
    assert result.goods == sum(shown)
    assert result.total == result.goods + result.freight + result.tax
    assert result.tax == to_money(result.goods * RATES.tax_rate)
    for line in result.lines:
        assert line.unit_price is not None
        assert line.amount == to_money(line.quantity * line.unit_price)


@given(_NM, _NM)
def test_a_longer_shaft_never_costs_less(one: int, other: int) -> None:
    short, long = sorted((one, other))
    assert (
        priced(an_order(an_inch_shaft(Length(short)))).total
        <= priced(an_order(an_inch_shaft(Length(long)))).total
    )


@given(_SHAFTS)
def test_the_charged_bar_covers_the_shaft(shaft: object) -> None:
    line = priced(an_order(shaft)).lines[0]  # type: ignore[arg-type]
    per = inches(1) if line.unit == "in" else mm(1)
    assert line.quantity * per.nm >= shaft.overall.nm  # type: ignore[attr-defined]
